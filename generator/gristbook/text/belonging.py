"""A name under the heading of another list of the pantry: where it belongs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from gristbook.pantry.fields import CEREALS
from gristbook.pantry.lookup import Match
from gristbook.pantry.names import VOCABULARIES
from gristbook.pantry.pantry import SECTIONS, Pantry

SHELVES: tuple[tuple[str, str], ...] = (
    ("malts", "malts"),
    ("sugars", "sugars"),
    ("extracts", "extracts"),
    ("hops", "hops"),
    ("yeasts", "yeast"),
    ("finings", "finings and spices"),
    ("salts", "water"),
    ("acids", "water"),
    ("waters", "water"),
)
"""Every shelf that a recipe is made from, and the section of a recipe where it belongs."""

GRAINS = frozenset({"malt", "grain", *CEREALS, "oat"})
"""Without one of these, what is a part of a malt's name may be food: chocolate, biscuits, caramel."""


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """What a name is in another list, and the section of a recipe that is its own."""

    one: str
    section: str


def elsewhere(name: str, section: str, pantry: Pantry) -> Elsewhere | None:
    """Where a name belongs that the shelves of ``section`` do not have; `None` where no other has it either."""
    for shelf, other in SHELVES:
        match: Match[Any] = getattr(pantry, shelf).look_up(name)
        of_grain = match.exact or not GRAINS.isdisjoint(VOCABULARIES["malts"].words(name))
        if other != section and match.found and (shelf != "malts" or of_grain):
            return Elsewhere(SECTIONS[shelf].one, other)
    return None
