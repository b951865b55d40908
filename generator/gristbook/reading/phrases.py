"""A part of a line that says several things without a comma between them: `mash out at 76 °C for 10 min`."""

import re
from collections.abc import Sequence
from itertools import pairwise

from gristbook.problems import Problems
from gristbook.reading.commas import lack_comma
from gristbook.reading.patterns import compiled, fits
from gristbook.reading.quantity import NUMBER
from gristbook.reading.spare import with_spare_words
from gristbook.reading.tree import Text

BETWEEN = (
    "at|for|to|with|of|and|held|hold|kept|keep|let|it|warm|cool|raised?|rise|rising|drop|step|heat|carbonated?|set"
    r"|serve|served|add|infuse|about|or\s+(?:so|thereabouts)|up|down|around|approximately|roughly|circa|then|mash|x|×|start(?:ed|ing)?|begin|return|back|there|another|at\s+least|reach(?:ed|ing)?|draw"
    r"|ferment(?:ed|ing)?|increase|allow|slowly|gradually"
)
"""Words that lead from one thing to the next and say nothing by themselves."""
END = r"(?=[\s/()]|$)"
"""What a piece ends before."""
_BETWEEN = re.compile(rf"(?:[~@/()]|[-–](?=\s)|(?:{BETWEEN})(?!\w))\s*", re.IGNORECASE)


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
    found = spans(text.value, 0, [compiled(it, END) for it in patterns])
    parts = [text.part(*span) for span in found] if found else _with_spare_words(text, patterns) or [text]
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


def _with_spare_words(text: Text, patterns: Sequence[str]) -> list[Text]:
    """Its pieces with the words between them that no pattern fits, but for those that only lead on."""
    return with_spare_words(text, lambda words: any(fits(it, words) for it in patterns), _leads_on)


def _leads_on(words: str) -> bool:
    return fits(rf"{BETWEEN}|an?|the|in|by|on|first", words) is not None


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
