"""What a YAML error means to somebody who has never heard of YAML."""

import re

BEGINS = 'a value cannot start with "{here}"; put it in quotes'
INDENTED = "this line is indented otherwise than those above it that it belongs to"
NO_COLON = 'this line has no colon and blank (": ") after its name'
ABOVE = 'the line above this one has no colon and blank (": ") after its name'
TIGHT = 'a blank is missing behind the colon: "{name}: {value}"'

ROWS: tuple[tuple[str, str], ...] = (
    (r"quoted scalar.*(end of stream|document)", "a quotation mark is opened and never closed"),
    (r"flow", '"{here}" is opened and never closed; put the value in quotes if it only starts with one'),
    (r"alias|anchor|parsing a tag|scanning a tag|block scalar", BEGINS),
    (r"simple key", NO_COLON),
)
"""Faults that are best shown where the thing began, by what the parser says of them."""

ROWS_HERE: tuple[tuple[str, str], ...] = (
    (r"quoted scalar", "a backslash inside double quotes; use single quotes"),
    (r"sequence entries", "a list begins on a line of its own, below its name"),
    (r"node content|cannot start", BEGINS),
    (r"document start", "this line does not fit the lines above it"),
    (r"block|mapping values", INDENTED),
)
"""Faults that are best shown where the parser met them."""


def shown_at_its_start(said: str) -> bool:
    """Whether what the parser says is about the start of the thing it was reading."""
    return any(re.search(pattern, said) for pattern, _ in ROWS)


def in_an_authors_words(said: str, line: str, offset: int) -> tuple[str, int]:
    """The fault in words and the offset to show it at, from what the parser ``said`` of an ``offset`` in a line."""
    before, here = line[:offset], line[offset : offset + 1]
    if here == "\t":
        return "a tab where blanks belong", offset
    if re.search("block mapping|block collection", said) and before.strip(" -"):
        return "something stands behind the end of the value; put the whole value in quotes", offset
    words = next((words for pattern, words in (*ROWS, *ROWS_HERE) if re.search(pattern, said)), "this cannot be read")
    if words in (INDENTED, NO_COLON):
        return _of_a_line(line), len(line) - len(line.lstrip())
    return words.format(here=here or "?"), offset


def _of_a_line(line: str) -> str:
    """What is wrong with a line that fits none: a blank or a colon is missing, or it is indented otherwise."""
    if tight := re.fullmatch(r"\s*(?:- )?(?P<name>[A-Za-z][\w -]*):(?P<value>[^\s:/].*)", line):
        return TIGHT.format(**tight.groupdict())
    if re.match(r"\s", line) or line.startswith("- "):
        return INDENTED
    return ABOVE if re.search(r":(\s|$)", line) else NO_COLON
