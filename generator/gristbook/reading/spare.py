"""A part of a line that says something that counts among words that nobody reckons with: "steep 20 min in the sock"."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache

from gristbook.reading.quantity import NUMBER
from gristbook.reading.spoken import SPOKEN
from gristbook.reading.tree import Text
from gristbook.reading.units import UNITS, spellings

_MANY = "|".join(["twice", "thrice", "dozen", "couple", "quarter", *(word for word in SPOKEN if word[:1] not in "ao")])
COUNTS = re.compile(rf"{NUMBER}|\b(?:{_MANY}|(?:an?|one)\s+{spellings(*(UNITS.keys() - {'second'}))})\b", re.IGNORECASE)
"""What may have to count: a number, in digits or in words."""

TURNS = frozenset(
    {
        *(
            "after",
            "ago",
            "before",
            "between",
            "during",
            "each",
            "every",
            "except",
            "from",
            "if",
            "less",
            "minus",
            "more",
        ),
        *("no", "not", "once", "or", "over", "past", "per", "plus", "than", "then", "till", "to"),
        *("under", "unless", "until", "when", "while", "without"),
    }
)
"""Words that turn what stands beside them into something else, so that they cannot be left aside."""

NO_SLIPS = frozenset(
    {
        *("about", "again", "every", "other", "quite", "still", "their", "there", "these", "those", "water", "where"),
        *("which", "year", "years"),
    }
)
"""Words that everybody writes: none of them is a slip of another."""

_GROUP = r"\(\?P?<\w+>|\\[a-zA-Z]"
"""What a pattern has in letters that nobody writes."""

_Way = tuple[int, list[tuple[int, int]]]
"""How many words are spare, and where the pieces lie."""


def words_in(patterns: Iterable[str]) -> frozenset[str]:
    """Every word of patterns that has a few letters."""
    return _words_in(tuple(patterns))


@cache
def _words_in(patterns: tuple[str, ...]) -> frozenset[str]:
    written = (re.sub(_GROUP, " ", pattern) for pattern in patterns)
    found = (it.groups() for pattern in written for it in re.finditer(r"([^\W\d_]{4,})(\?)?", pattern))
    return frozenset(each.casefold() for word, may in found for each in ((word, word[:-1]) if may else (word,)))


def with_spare_words(
    text: Text,
    known: Callable[[str], bool],
    leads: Callable[[str], bool] = lambda _: False,
) -> list[Text]:
    """The pieces that are ``known`` and what lies between them, as little as may be; none where nothing is known.

    What only ``leads`` from one piece to the next is left out, but for within what is spare.

    >>> from gristbook.problems import Place
    >>> text = Text("steep 20 min in the sock", Place("a.md"))
    >>> [it.value for it in with_spare_words(text, {"steep", "20 min"}.__contains__)]
    ['steep', '20 min', 'in the sock']
    """
    spans = [found.span() for found in re.finditer(r"\S+", text.value)]
    ways: list[_Way | None] = [None] * len(spans) + [(0, [])]
    for at in reversed(range(len(spans))):
        start = spans[at][0]
        for last in range(at, len(spans)):
            rest, piece = ways[last + 1], text.value[start : spans[last][1]]
            if rest is None:
                continue
            if known(piece) and not _lacks_its_unit(piece, rest, spans[last + 1 :]):
                ways[at] = _fewer(ways[at], (rest[0], [(start, spans[last][1]), *rest[1]]))
            elif leads(piece):
                ways[at] = _fewer(ways[at], rest)
        rest = ways[at + 1]
        if rest is not None and _is_spare(text.value[start : spans[at][1]]):
            ways[at] = _fewer(ways[at], (rest[0] + 1, rest[1]))
    found = ways[0][1] if ways[0] else []
    return [*_between(text, found, leads)] if found else []


def _lacks_its_unit(piece: str, rest: _Way, behind: Sequence[tuple[int, int]]) -> bool:
    """Whether a bare number ends a piece before a spare word, which may be its unit misspelt."""
    spare_follows = behind and (not rest[1] or rest[1][0][0] != behind[0][0])
    return bool(spare_follows) and piece[-1].isdigit()


def _fewer(one: _Way | None, other: _Way) -> _Way:
    """The way with fewer spare words, or with fewer pieces where both have as many."""
    return other if one is None or (other[0], len(other[1])) < (one[0], len(one[1])) else one


@cache
def _is_spare(word: str) -> bool:
    return word.casefold().strip(".,;:!") not in TURNS and not COUNTS.search(word)


def _between(text: Text, spans: list[tuple[int, int]], leads: Callable[[str], bool]) -> Iterator[Text]:
    """The pieces in their order, with what lies before, between and behind them and does more than lead on."""
    end = 0
    for start, stop in [*spans, (len(text.value), 0)]:
        piece, last = text.part(end, start), re.compile(r"\S+$" if stop or not spans else r"^\S+$")
        while not leads(piece.value) and (word := last.search(piece.value)) and leads(word[0]):
            piece = piece.part(0, word.start())
        if piece.value and not leads(piece.value):
            yield piece
        if stop:
            yield text.part(start, stop)
        end = stop
