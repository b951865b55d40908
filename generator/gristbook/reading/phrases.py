"""A part of a line that says several things without a comma between them: `mash out at 76 °C for 10 min`."""

import re
from collections.abc import Sequence
from itertools import pairwise

from gristbook.problems import Problems
from gristbook.reading.commas import lack_comma
from gristbook.reading.patterns import compiled
from gristbook.reading.quantity import NUMBER
from gristbook.reading.tree import Text

BETWEEN = (
    "at|for|to|with|of|and|held|hold|kept|keep|let|it|warm|cool|raised?|rise|rising|drop|step|heat|carbonated?|set"
    "|serve|served|add|infuse|about|up|down|around|approximately|roughly|circa|then|mash|x|×|start(?:ed|ing)?|begin"
    r"|ferment(?:ed|ing)?|increase|allow|slowly|gradually|(?:room|cellar|ambient)\s+temp(?:erature)?"
)
"""Words that lead from one thing to the next and say nothing by themselves."""
END = r"(?=[\s/()]|$)"
"""What a piece ends before."""
_BETWEEN = re.compile(rf"(?:[~@/()]|(?:{BETWEEN})(?!\w))\s*", re.IGNORECASE)


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
    known = [compiled(it, END) for it in patterns]
    found = spans(text.value, 0, known)
    parts = [text.part(*span) for span in found] if found else _around_a_word(text, known)
    for before, part in pairwise(parts):
        numbers = re.match(NUMBER, before.value) and re.match(NUMBER, part.value)
        if numbers and f"{before.value} {part.value}" in " ".join(text.value.split()):
            lack_comma(before, part, problems, whole)
    return parts


def what_breaks(words: str, patterns: Sequence[re.Pattern[str]]) -> tuple[int, int]:
    """Where the words lie without which what stands before and behind them would be understood; all of them else."""
    ends = [0, *(it.end() for it in re.finditer(r"(?<=[^\s\d])\s+", words)), len(words)]
    for length in range(1, len(ends)):
        for start, end in zip(ends, ends[length:], strict=False):
            if spans(words[:start], 0, patterns) is not None and spans(words, end, patterns) is not None:
                return start, end
    return 0, len(words)


def _around_a_word(text: Text, patterns: Sequence[re.Pattern[str]]) -> list[Text]:
    """The pieces before and behind words that say nothing, and these; a text itself where they have a number in them."""
    start, end = what_breaks(text.value, patterns)
    broken = text.part(start, end)
    if re.search(r"\d", broken.value) or broken.value == text.value:
        return [text]
    before, behind = (spans(words, 0, patterns) or [] for words in (text.value[:start], text.value[end:]))
    bare = Text(broken.value.strip("(). "), broken.at(len(broken.value) - len(broken.value.lstrip("("))))
    return [*(text.part(*it) for it in before), *([bare] if bare.value else []), *(text.part(a + end, b + end) for a, b in behind)]


def spans(words: str, start: int, patterns: Sequence[re.Pattern[str]]) -> list[tuple[int, int]] | None:
    """Where the pieces from ``start`` on lie, the longest first tried; `None` where there is no such way to the end."""
    start += len(words[start:]) - len(words[start:].lstrip())
    if start == len(words):
        return []
    ends = {found.end() for it in patterns if (found := it.match(words, start))}
    for end in sorted(ends, reverse=True):
        rest = spans(words, end, patterns)
        if rest is not None:
            return [(start, end), *rest]
    between = _BETWEEN.match(words, start)
    return spans(words, between.end(), patterns) if between else None
