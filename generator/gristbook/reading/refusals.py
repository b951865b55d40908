"""What a YAML error means to somebody who has never heard of YAML."""

import re

BEGINS = 'a value cannot start with "{here}"; put it in quotes'
INDENTED = "this line does not fit the lines above it: look at how far it is indented, and for a missing colon"

ROWS: tuple[tuple[str, str], ...] = (
    (r"quoted scalar.*(end of stream|document)", "a quotation mark is opened and never closed"),
    (r"flow", '"{here}" is opened and never closed; put the value in quotes if it only starts with one'),
    (r"alias|anchor|parsing a tag|scanning a tag|block scalar", BEGINS),
    (r"simple key", "this line has no colon after its name"),
)
"""Faults that are best shown where the thing began, by what the parser says of them."""

ROWS_HERE: tuple[tuple[str, str], ...] = (
    (r"quoted scalar", "a backslash inside double quotes; use single quotes"),
    (r"sequence entries", "a list begins on a line of its own, below its name"),
    (r"node content|cannot start", BEGINS),
    (r"block|document start|mapping values", INDENTED),
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
    if "mapping values" in said and ": " in before:
        return 'a colon and a blank (": ") inside a value; put the value in quotes', offset
    if re.search("block mapping|block collection", said) and before.strip(" -"):
        return "something stands behind the end of the value; put the whole value in quotes", offset
    words = next((words for pattern, words in (*ROWS, *ROWS_HERE) if re.search(pattern, said)), "this cannot be read")
    return words.format(here=here or "?"), (len(line) - len(line.lstrip()) if words == INDENTED else offset)
