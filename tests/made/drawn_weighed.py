"""A brew that is worked out anew in many draws at once, by plain code of its own: what goes into it.

It knows no slope, no equation and no step of the tool's. It reads what the author and the pantry say, and takes as
given what was decided before the brew. To carry a decision out has a doubt: a weight as it is weighed, a volume as it
is read off the kettle's marks, a mash as it stands.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from drawn_doubts import Array, Doubts, Triple, typed, usual

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.pantry.pantry import Pantry

ROOM_OF_EXTRACT = {"dried": (0.5985, 0.63, 0.6615), "liquid": (0.6555, 0.69, 0.7245)}
"""L/kg, ± 5 %."""
MARKS = "the kettle's marks"
"""The doubt that all volumes read in the kettle share."""


@dataclass(frozen=True)
class Decided:
    """What stands before the brew begins: weights (kg of the grist, g of hops), waters (L), and the models printed.

    ``rate`` is that of pitching, in 10⁶ cells in a mL for each °P. ``taught`` is how far each doubt moves what batches
    taught of a brewhouse, by field: its own, and those of the instruments that it was read with, as the marks of the
    same kettle, which move its volumes too.
    """

    malts: tuple[float, ...]
    sugars: tuple[float, ...]
    hops: tuple[float, ...]
    start: float
    top_up: float | None
    mash_water: float | None
    bitterness_models: tuple[str, ...]
    colour_models: tuple[str, ...]
    rate: float
    taught: Mapping[str, Mapping[str, tuple[float, float]]]


@dataclass(frozen=True, eq=False)
class Weighed:
    """What goes into a brew, in the draws of its doubts."""

    recipe: Recipe
    brewhouse: Brewhouse
    pantry: Pantry
    decided: Decided
    doubts: Doubts

    def setting(self, field: str) -> Array:
        """What the brewhouse does, as its author says it or as its batches taught it."""
        attribute = field.replace("-", "_").replace(" ", "_")
        value = getattr(self.brewhouse, attribute)
        if attribute not in self.decided.taught:
            return self.doubts.drawn(field, typed(value, field))
        found = np.full(self.doubts.draws, value.number)
        for doubt, (low, high) in self.decided.taught[attribute].items():
            found = found + self.doubts.drawn(doubt, (low, 0.0, high))
        return found

    def about_one(self, name: str, kind: str) -> Array:
        return self.doubts.drawn(name, usual(kind, 1.0))

    def stated(self, name: str, value: Any, kind: str, known: Any, *, grown: bool = True) -> Array:
        """What a line says of its thing, else what the pantry knows of it.

        Where the pantry has one figure alone of what was ``grown``, that is as sure as its kind usually is.
        """
        if value.origin.by.name != "PANTRY":
            return self.doubts.drawn(name, typed(value, kind))
        if grown and known.low == known.high:
            return self.doubts.drawn(name, usual(kind, value.number))
        return self.doubts.drawn(name, (known.low, value.number, known.high))

    @cached_property
    def start(self) -> Array:
        """Wort when the boil begins, as it comes out."""
        off = self.about_one(MARKS, "marks") + self.about_one("filled to the mark", "filled") - 2
        return self.decided.start * (1 + off)

    def late(self, sugar: Sugar) -> bool:
        """Whether it joins the wort while that boils."""
        minutes = sugar.minutes
        return not sugar.into_fermenter and minutes is not None and minutes.number < self.recipe.boil.number

    def room(self, sugar: Sugar, mass: Array | float) -> Array:
        kind = "liquid" if sugar.kind == "liquid" else "dried"
        return mass * self.doubts.drawn(f"room of {kind} extract", ROOM_OF_EXTRACT[kind])

    # Weights (kg, hops in g) as they are weighed, and extract (kg).

    def weighed(self, what: str, items: tuple[Any, ...], planned: tuple[float, ...], kind: str) -> list[Array]:
        def triple(item: Any, mass: float) -> Triple:
            return typed(item.mass, kind) if item.mass is not None else usual(kind, mass)

        lines = enumerate(zip(items, planned, strict=True))
        return [self.doubts.drawn(f"{what} {n} as it is weighed", triple(*line)) for n, line in lines]

    @cached_property
    def malts(self) -> list[Array]:
        return self.weighed("malt", self.recipe.malts, self.decided.malts, "weight")

    @cached_property
    def sugars(self) -> list[Array]:
        return self.weighed("sugar", self.recipe.sugars, self.decided.sugars, "weight")

    @cached_property
    def hops(self) -> list[Array]:
        return self.weighed("hop", self.recipe.hops, self.decided.hops, "hops")

    def known(self, item: Malt | Sugar) -> Any:
        """The pantry's record of it."""
        if isinstance(item, Malt):
            return next(record for record in self.pantry.malts.records if record.name == item.name)
        shelf: Any = self.pantry.extracts if item.from_malt else self.pantry.sugars
        return next(record for record in shelf.records if record.name == item.pantry_name)

    def potential(self, item: Malt | Sugar) -> Array:
        """Extract of a kilogram of it as it is weighed."""
        assert item.extract_dry.unit == "fraction", "potentials in points are not drawn"
        known, grown = self.known(item), isinstance(item, Malt)
        dry = self.stated(f"extract of {item.name}", item.extract_dry, "potential", known.extract, grown=grown)
        wet = self.stated(f"moisture of {item.name}", item.moisture, "moisture", known.moisture, grown=grown)
        return dry * (1 - wet)

    def tint(self, item: Malt | Sugar) -> Array:
        """Its colour in °L."""
        known, grown = self.known(item).colour, isinstance(item, Malt)
        colour = self.stated(f"colour of {item.name}", item.colour, "malt colour", known, grown=grown)
        return (colour + 1.2) / 2.65 if item.colour.unit == "EBC malt" else colour
