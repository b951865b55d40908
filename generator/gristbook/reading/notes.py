"""A part of a line that is no property: a note in the author's words, a slip of the finger, or an error."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Literal

from gristbook.problems import Problems, likest, nearest
from gristbook.reading.commas import property_of
from gristbook.reading.quantity import NUMBER, Unreadable, leading_quantity
from gristbook.reading.spare import COUNTS, words_in
from gristbook.reading.tree import Text

if TYPE_CHECKING:
    from gristbook.reading.lines import Property

NOTE = "note"
"""The property that holds what nobody reckons with; a line that has none has no notes."""


def is_note(piece: Text, properties: tuple[Property, ...]) -> bool:
    """Whether a part that is no property may stand as it is: nothing in it counts, and it is no slip of what does."""
    has_notes = any(known.key == NOTE for known in properties)
    return has_notes and not COUNTS.search(piece.value) and not _meant(piece, properties)


def not_understood(piece: Text, properties: tuple[Property, ...], problems: Problems, whole: str) -> Literal[True]:
    """Say why a part means nothing: most often its unit is misspelt, else a word is. It is true that one does."""
    if re.match(NUMBER, piece.value):
        try:
            leading_quantity(piece, problems, whole)
        except Unreadable:
            return True
    examples = [candidate.example for candidate in properties]
    like = _meant(piece, properties) or likest(piece.value, examples)
    expected = "" if like else "something like " + ", ".join(examples)
    problems.error(piece.place, f'"{piece.value}" says nothing here', within=whole, expected=expected, suggestion=like)
    return True


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
