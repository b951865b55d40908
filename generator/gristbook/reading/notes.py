"""A part of a line that is no property: a note in the author's words, a slip of the finger, or an error."""

from __future__ import annotations

import re
from collections.abc import Set
from functools import cache
from typing import TYPE_CHECKING

from gristbook.problems import Problems, likest, nearest
from gristbook.reading.commas import property_of
from gristbook.reading.patterns import compiled
from gristbook.reading.phrases import END, what_breaks
from gristbook.reading.quantity import NUMBER, UNIT, Unreadable, leading_quantity
from gristbook.reading.spare import COUNTS, NO_SLIPS, words_in
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.tree import Text
from gristbook.reading.units import SPELLED, UNITS, spellings, unit_named

if TYPE_CHECKING:
    from gristbook.reading.lines import Property

ALIKE = 0.8
"""Words that are so much alike may be one, mistyped."""
EXAMPLES = 3
"""More than these nobody reads."""
NOTE = "note"
"""The property that holds what nobody reckons with; a line that has none has no notes."""
BINDS = frozenset(
    {"each", "every", "except", "if", "less", "minus", "not", "per", "plus", "times", "unless", "without"}
)
"""Words that make another amount of one, or none: no remark."""
_QUANTITY = re.compile(rf"{NUMBER}|\b{IN_WORDS}\s+{spellings(*(UNITS.keys() - {'second'}))}\b", re.IGNORECASE)
"""What counts in whatever words: a number, or one in words with a unit."""


def is_note(piece: Text, properties: tuple[Property, ...], whole: str) -> bool:
    """Whether a part that is no property may stand as it is, since it is no slip of one.

    Numbers in it stand among words of their own ("toasted 20 min at 150 C in the oven"), with units that are known; a
    quantity by itself was meant to count.
    """
    aside = in_brackets(piece, whole)
    if not any(known.key == NOTE for known in properties) or (_meant(piece, properties) and not aside):
        return False
    if aside:
        return True
    if len(piece.value.split()) == 1 and COUNTS.fullmatch(piece.value):  # "twice"
        return False
    known = words_in(it.pattern for it in properties)
    return not _QUANTITY.search(piece.value) or _tells(piece.value, known)


def _tells(words: str, known: Set[str]) -> bool:
    """Whether a number stands among words of its own, of which it begins with one or has two, and none is a slip."""
    behind = re.findall(rf"(?<![^\W\d_]){NUMBER}\s*([^\W\d_]{{3,}})", words)
    if any(unit_named(it) is None and nearest(it, SPELLED) for it in behind):
        return False
    bare = re.sub(rf"{NUMBER}\s*(?:{UNIT})?|{IN_WORDS}", " ", words, flags=re.IGNORECASE)
    own = [word.casefold() for word in re.findall(r"[^\W\d_]{3,}", bare)]
    if not BINDS.isdisjoint(words.casefold().split()):
        return False
    enough = len(own) > 1 or (bool(own) and words[0].isalpha())
    return enough and not any(
        len(word) > 4 and word not in known | NO_SLIPS and likest(word, known, ALIKE) for word in own
    )


def in_brackets(piece: Text, whole: str) -> bool:
    """Whether a part of a line stands in brackets there."""
    before, _, behind = whole.partition(piece.value)
    return before.rfind("(") > before.rfind(")") and ")" in behind


def not_understood(piece: Text, properties: tuple[Property, ...], problems: Problems, whole: str) -> None:
    """Say which words of a part mean nothing: most often a unit is misspelt, else a word is."""
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
