"""The wort of a drawn brew: its volumes from the kettle to the bottles, its extract and its gravities."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import drawn_formulas as of
import numpy as np
from drawn_doubts import Array
from drawn_mash import efficiency
from drawn_weighed import Weighed

from gristbook.model.moment import BeforePackaging

DRY_HOPS_KEEP = (4.0, 6.0, 9.0)
"""mL/g."""


@dataclass(frozen=True, eq=False)
class Brew(Weighed):
    """A recipe in a brewhouse, in the draws of its doubts."""

    # Volumes (L).

    def boiled(self, minutes: float, before_the_end: float = 0.0) -> Array:
        """Wort after so many minutes of boiling, with the malt extract that joined by some minutes before its end.

        That takes the room of the weight that was decided: a scale that is 1 % out moves it by a spoonful.
        """
        litres = self.start - self.setting("boil-off") * minutes / 60
        for sugar, mass in zip(self.recipe.sugars, self.decided.sugars, strict=True):
            if sugar.from_malt and self.late(sugar) and sugar.minutes and sugar.minutes.number >= before_the_end:
                litres = litres + self.room(sugar, mass)
        return litres

    @cached_property
    def end(self) -> Array:
        return self.boiled(self.recipe.boil.number)

    @cached_property
    def from_kettle(self) -> Array:
        return self.end - self.setting("left in kettle")

    @cached_property
    def into(self) -> Array:
        if self.decided.top_up is None:
            return self.from_kettle
        return self.from_kettle + self.decided.top_up * self.about_one("the top-up as it is poured", "poured")

    @cached_property
    def packaged(self) -> Array:
        beer = self.into - self.setting("left in fermenter")
        for hop, mass in zip(self.recipe.hops, self.hops, strict=True):
            if isinstance(hop.use, BeforePackaging):
                beer = beer - mass * self.doubts.drawn("what dry hops keep", DRY_HOPS_KEEP) / 1000
        return beer

    # Extract (kg) and gravities.

    @cached_property
    def of_malts(self) -> list[Array]:
        """What each malt brings to the kettle."""
        mashed, found = efficiency(self), []
        for malt, mass in zip(self.recipe.malts, self.malts, strict=True):
            share = self.setting("steep yield") if malt.steep else mashed
            found.append(mass * self.potential(malt) * share)
        return found

    @cached_property
    def of_sugars(self) -> list[Array]:
        return [mass * self.potential(it) for it, mass in zip(self.recipe.sugars, self.sugars, strict=True)]

    def extract(self, before_the_end: float = 0.0) -> Array:
        """All that is in the kettle some minutes before the end of the boil."""
        whole = sum(self.of_malts, np.zeros(self.doubts.draws))
        for sugar, part in zip(self.recipe.sugars, self.of_sugars, strict=True):
            waits = self.late(sugar) and sugar.minutes is not None and sugar.minutes.number < before_the_end
            if not sugar.into_fermenter and not waits:
                whole = whole + part
        return whole

    @cached_property
    def leaves(self) -> Array:
        """The share of what is in the kettle that leaves it."""
        return self.from_kettle / self.end

    @cached_property
    def after_the_boil(self) -> Array:
        return of.gravity_of_extract(self.extract(), self.end)

    @cached_property
    def before_the_boil(self) -> Array:
        return of.gravity_of_extract(self.extract(np.inf), self.start)

    @cached_property
    def original(self) -> Array:
        """What a hydrometer reads at pitching."""
        return of.gravity_of_extract(self.extract() * self.leaves, self.into)
