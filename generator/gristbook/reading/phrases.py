"""A part of a line that says several things without a comma between them: `mash out at 76 °C for 10 min`."""

import re
from collections.abc import Sequence
from itertools import pairwise

from gristbook.problems import Problems
from gristbook.reading.patterns import compiled, fits
from gristbook.reading.quantity import NUMBER
from gristbook.reading.spare import with_spare_words, words_in
from gristbook.reading.tree import Text

BETWEEN = (
    "at|for|to|with|of|and|held|hold|kept|keep|let|it|warm|cool|raise|rise|rising|drop|step|heat|carbonated?|set|serve|served|add|infuse|about|up|down"
    "|around|approximately|roughly|circa|then"
)
"""Words that lead from one thing to the next and say nothing by themselves."""
_BETWEEN = re.compile(rf"(?:[~@/]|[-–](?=\s)|(?:{BETWEEN})\b)\s*", re.IGNORECASE)


def parted(texts: Sequence[Text], patterns: Sequence[str], problems: Problems, whole: str) -> list[Text]:
    """The pieces of texts that one of ``patterns`` fits each, in order; a text itself where it is not made of such.

    Two numbers with nothing but a blank between them lack a comma, and a warning says so.

    >>> from gristbook.problems import Place
    >>> text = Text("at 67 °C for 60 min", Place("a.md"))
    >>> [it.value for it in parted([text], [r"\\d+ °C", r"\\d+ min"], Problems(), text.value)]
    ['67 °C', '60 min']
    """
    return [piece for text in texts for piece in _parted(text, patterns, problems, whole)]


def _parted(text: Text, patterns: Sequence[str], problems: Problems, whole: str) -> list[Text]:
    spans = _spans(text.value, 0, [compiled(it, r"(?=[\s/]|$)") for it in patterns])
    parts = [text.part(*span) for span in spans] if spans else _with_spare_words(text, patterns) or [text]
    for before, part in pairwise(parts):
        numbers = re.match(NUMBER, before.value) and re.match(NUMBER, part.value)
        if numbers and f"{before.value} {part.value}" in " ".join(text.value.split()):
            what, expected = f'a comma is missing after "{before.value}"', f"{before.value}, {part.value}"
            problems.warning(part.place, what, within=whole, expected=expected)
    return parts


def _with_spare_words(text: Text, patterns: Sequence[str]) -> list[Text]:
    """Its pieces with the words between them that no pattern fits, but for those that only lead on."""
    known = (BETWEEN, *patterns)
    pieces = with_spare_words(text, lambda words: any(fits(it, words) for it in known), words_in(known))
    return [it for it in pieces if not fits(BETWEEN, it.value)]


def _spans(words: str, start: int, patterns: Sequence[re.Pattern[str]]) -> list[tuple[int, int]] | None:
    """Where the pieces from ``start`` on lie, the longest first tried; `None` where there is no such way to the end."""
    start += len(words[start:]) - len(words[start:].lstrip())
    if start == len(words):
        return []
    ends = {found.end() for it in patterns if (found := it.match(words, start))}
    for end in sorted(ends, reverse=True):
        rest = _spans(words, end, patterns)
        if rest is not None:
            return [(start, end), *rest]
    between = _BETWEEN.match(words, start)
    return _spans(words, between.end(), patterns) if between else None
