"""What the pantry of a book knows of the things that its recipes may hold."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from gristbook.model.brings import UNKNOWN, Brings
from gristbook.sheet.value import Value

ShelfName = Literal["malts", "sugars", "fruits", "extracts", "hops", "yeasts", "finings"]


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One thing of the pantry, whether a recipe uses it or not.

    ``figures`` and ``words`` go by the pantry's own names of its fields ("fine-coarse difference", "aroma"); what the
    pantry does not say is not in them. ``spans`` are low and high of the figures that vary, in the same unit, and
    ``source`` is where most of the figures come from; ``stand_ins`` what may be taken instead, by name, the best first,
    with what changes.
    """

    shelf: ShelfName
    name: str
    also: tuple[str, ...]
    about: str
    source: str
    figures: Mapping[str, Value]
    spans: Mapping[str, tuple[float, float]]
    words: Mapping[str, str]
    brings: Brings = UNKNOWN
    stand_ins: Mapping[str, str] = field(default_factory=dict)
