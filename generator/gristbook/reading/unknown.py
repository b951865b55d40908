"""Why a part of a line says nothing: the words that broke it, and at most three examples of what they look like."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from gristbook.problems import Problems, likest
from gristbook.reading.patterns import compiled
from gristbook.reading.phrases import END, what_breaks
from gristbook.reading.quantity import NUMBER, Unreadable, leading_quantity
from gristbook.reading.tree import Text

if TYPE_CHECKING:
    from gristbook.reading.lines import Property

EXAMPLES = 3
"""More than these nobody reads."""


def not_understood(piece: Text, properties: Sequence[Property], problems: Problems, whole: str) -> None:
    """File the error of a part that says nothing: most often its unit is misspelt, else a word is."""
    broken = piece.part(*what_breaks(piece.value, [compiled(it.pattern, END) for it in properties]))
    base = None
    if re.match(NUMBER, broken.value):
        try:
            read = leading_quantity(broken, problems, whole)
            base = read.quantity.base if read else None
        except Unreadable:
            return
    words = [it.example for it in properties if not it.kind.bases]
    like = likest(broken.value, words) if base is None else ""
    examples = _like(base, properties) if base is not None else words if like else [it.example for it in properties]
    expected = "" if like else "something like " + ", ".join(examples[:EXAMPLES])
    what = f'"{broken.value}" says nothing here'
    problems.error(broken.place, what, within=whole, expected=expected, suggestion=like)


def _like(base: str, properties: Sequence[Property]) -> list[str]:
    """The examples of quantities of a base; of all quantities where none is, as for a number without a unit."""
    quantities = [it for it in properties if it.kind.bases]
    return [it.example for it in quantities if base in it.kind.bases] or [it.example for it in quantities]
