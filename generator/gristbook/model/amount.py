"""How much of a thing a recipe wants: a weight, or what a weight is worked out from."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Self

from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class Weight:
    """Weighed: kilograms of the grist, grams of hops."""

    value: Value


@dataclass(frozen=True, slots=True)
class Volume:
    """Measured, in litres."""

    value: Value


@dataclass(frozen=True, slots=True)
class Share:
    """A fraction of the grist, which the gravity to reach makes a weight of, or of the water."""

    value: Value


@dataclass(frozen=True, slots=True)
class Wanted:
    """Bitterness that hops are to bring (IBU)."""

    value: Value


@dataclass(frozen=True, slots=True)
class Named:
    """What the pantry calls it, or else what the recipe does.

    ``own_words`` are the author's own name for it, where that says more than the pantry's; ``assumed`` what is taken of
    a thing that no pantry knows; ``note`` what its line says besides, of which nothing is reckoned.
    """

    name: str
    own_words: str = field(default="", kw_only=True)
    assumed: str = field(default="", kw_only=True)
    note: str = field(default="", kw_only=True)

    @property
    def aside(self) -> str:
        """What its line says besides the pantry's name: the author's own name for it, and the note."""
        own = f"“{self.own_words}” in the recipe" if self.own_words else ""
        return "; ".join(part for part in (own, self.note) if part)


@dataclass(frozen=True, slots=True)
class Weighable(Named):
    """A line of a recipe with its amount."""

    amount: Weight | Share | Wanted

    @property
    def mass(self) -> Value | None:
        """The weight, where the recipe says it."""
        return self.amount.value if isinstance(self.amount, Weight) else None

    @property
    def share(self) -> Value | None:
        """The fraction of the grist, where the recipe says that."""
        return self.amount.value if isinstance(self.amount, Share) else None

    @property
    def bitterness(self) -> Value | None:
        """The bitterness wanted, where the recipe says that."""
        return self.amount.value if isinstance(self.amount, Wanted) else None

    def weighing(self, mass: Value | None) -> Self:
        """The same with a weight; as it is where there is none."""
        return replace(self, amount=Weight(mass)) if mass is not None else self
