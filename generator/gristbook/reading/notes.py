"""A part of a line that is no property: a note in the author's words, a slip of the finger, or an error."""

from __future__ import annotations

import re
from collections.abc import Iterator, Set
from functools import cache
from typing import TYPE_CHECKING

from gristbook.problems import Problems, likest, nearest
from gristbook.reading.apart import COUNTED
from gristbook.reading.commas import property_of
from gristbook.reading.patterns import compiled, fits
from gristbook.reading.phrases import END, what_breaks
from gristbook.reading.quantity import NUMBER, UNIT, UP_TO, Unreadable, leading_quantity
from gristbook.reading.spare import COUNTS, NO_SLIPS, words_in
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.tree import Text
from gristbook.reading.units import SPELLED, unit_named

if TYPE_CHECKING:
    from gristbook.reading.line import Property

ALIKE = 0.8
"""Words that are so much alike may be one, mistyped."""
EXAMPLES = 3
"""More than these nobody reads."""
NOTE = "note"
"""The property that holds what nobody reckons with; a line that has none has no notes."""
_ADDS = re.compile(
    r"\b(?:another|each|every|except|extra|additional|further|less|minus|more|per|plus|times|and(?=\s+\d))\b"
    r"(?!\s+than\b)",
    re.IGNORECASE,
)
"""Words that make another amount of one."""
_MEASURE = re.compile(
    rf"(?<![^\W_])(?:(?P<number>{NUMBER})|\b{IN_WORDS}){UP_TO}\s*(?P<unit>(?!or\b|to\b){UNIT})?", re.IGNORECASE
)
TRIFLES = frozenset(
    {"a", "an", "and", "at", "by", "for", "from", "in", "into", "is", "it", "of", "on", "the", "to", "with"}
)
"""Words that say nothing where nothing else stands beside them."""
_WORD = re.compile(r"[^\W\d_]{3,}|pH\b")


def is_note(piece: Text, properties: tuple[Property, ...], whole: str, told: Set[str], *, named: bool) -> bool:
    """Whether a part that is no property may stand as it is, since it is no slip of one and changes no figure.

    A quantity by itself was meant to count, where the section counts such; among words of its own ("toasted 20 min at
    150 C in the oven") it was not, but for one that adds to the amount of a ``named`` line. What a line has ``told``
    no slip of a word can be meant for.
    """
    if not any(known.key == NOTE for known in properties):
        return False
    measured, aside = [*measures(piece.value)], in_brackets(piece, whole)
    if (named and adds(piece, aside=aside)) or "±" in piece.value:
        return False
    if aside:
        return True
    if _meant(piece, properties) or any(slip for _, slip in measured):
        return False
    if fits(r"(?:or|/) .+", piece.value):
        return True
    if not measured:
        return len(piece.value.split()) > 1 or not COUNTS.fullmatch(piece.value)  # "twice"
    own = _WORD.findall(_MEASURE.sub(lambda it: "" if _base(it) else it["unit"] or "", piece.value))
    bases, open_ = {base for base, _ in measured}, tuple(it for it in properties if it.key not in told)
    if not own:
        return not bases & {"IBU"} and not bases <= {
            "",
            *_bases(properties) - {"fraction"},
            *(COUNTED if named else ()),
        }
    if len(own) == 1 and re.match(rf"(?!(?:19|20)\d\d\b){NUMBER}", piece.value) and bases & {"", *_bases(open_)}:
        return False  # "60 mins ago" where nothing says yet when
    return bases.isdisjoint(_bases(open_)) or not _slips(own, words_in(it.pattern for it in open_))


def adds(piece: Text, *, aside: bool) -> bool:
    """Whether a part of a line says an amount besides that of the line: "plus 50 g for colour"."""
    word = (_ADDS.match if aside else _ADDS.search)(piece.value)
    return word is not None and any(base in (*COUNTED, "g/L") for base, _ in measures(piece.value))


def measures(words: str) -> Iterator[tuple[str, str]]:
    """Each quantity in some words: the base of its unit, "" where it has none, and the unit that it is a slip of."""
    for found in _MEASURE.finditer(words):
        base, unit = _base(found), found["unit"] or ""
        if found["number"] or base:
            yield base, "" if base or len(unit) < 3 else nearest(unit, SPELLED)


def _base(found: re.Match[str]) -> str:
    unit = unit_named(found["unit"] or "")
    return unit.base if unit else ""


@cache
def _bases(properties: tuple[Property, ...]) -> frozenset[str]:
    """The bases of all that properties count, as their examples have them."""
    return frozenset(base for it in properties for base, _ in measures(it.example)) - {""}


def _slips(own: list[str], known: Set[str]) -> bool:
    """Whether one of some words is all but one that is known."""
    words = (word.casefold() for word in own)
    likely = (
        (word, near)
        for word in words
        if len(word) > 4 and word not in known | NO_SLIPS and (near := likest(word, known, ALIKE))
    )
    return any(word[0] == near[0] and abs(len(word) - len(near)) < 2 for word, near in likely)


def in_brackets(piece: Text, whole: str) -> bool:
    """Whether a part of a line stands in brackets there."""
    before, _, behind = whole.partition(piece.value)
    return before.rfind("(") > before.rfind(")") and ")" in behind


def not_understood(piece: Text, properties: tuple[Property, ...], problems: Problems, whole: str) -> None:
    """Say which words of a part mean nothing: most often a unit is misspelt, else a word is."""
    if adds(piece, aside=False):
        what = f'"{piece.value}" is another amount'
        problems.error(piece.place, what, within=whole, expected="a line for each, or one amount for all")
        return
    broken, base = piece.part(*what_breaks(piece.value, [compiled(it.pattern, END) for it in properties])), None
    if re.match(NUMBER, broken.value):
        try:
            read = leading_quantity(broken, problems, whole)
            base = read.quantity.base if read else None
        except Unreadable:
            return
    like = _meant(piece, properties) or _likest(piece, properties)
    broken = piece if like else broken
    expected = "" if like else "something like " + ", ".join(_of_its_kind(base, properties)[:EXAMPLES])
    what = f'"{broken.value}" says nothing here'
    problems.error(broken.place, what, within=whole, expected=expected, suggestion=like)


def _likest(piece: Text, properties: tuple[Property, ...]) -> str:
    """The example that a part is most like, where it has as many words and no other number."""
    like = likest(piece.value, [known.example for known in properties])
    numbers, other = ({*re.findall(r"\d+", words)} for words in (like, piece.value))
    return like if numbers <= other and len(like.split()) == len(piece.value.split()) else ""


def _of_its_kind(base: str | None, properties: tuple[Property, ...]) -> list[str]:
    """The examples of quantities of a base, of all quantities where none is, as for a bare number; of all for words."""
    quantities = [it for it in properties if it.kind.bases and base is not None]
    return [
        it.example for it in [known for known in quantities if base in known.kind.bases] or quantities or properties
    ]


def _meant(piece: Text, properties: tuple[Property, ...]) -> str:
    """What a part says with the slips of its words mended; "" where it says nothing then, either."""
    known = words_in(it.pattern for it in properties)
    words = [word if word.casefold() in known else nearest(word, known) or word for word in piece.value.split()]
    mended = Text(" ".join(words), piece.place, exact=False)
    return mended.value if property_of(mended, properties) else nearest(piece.value, _examples(properties))


@cache
def _examples(properties: tuple[Property, ...]) -> tuple[str, ...]:
    return tuple(
        known.example for known in properties if len(known.example) > 3 and not re.search(r"\d", known.example)
    )
