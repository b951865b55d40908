"""Grain that only a mash makes use of, beside malt extract: how much of what is mashed, and what takes its place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import inf

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Malt, Recipe
from gristbook.model.steps import MashStep
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, given, settled
from gristbook.targets.conventions import GRAIN_DISPLACEMENT, PRACTICE, USABLE
from gristbook.targets.method.step import names
from gristbook.targets.results import MaltFigures
from gristbook.targets.wort.roles import lintner, role
from gristbook.targets.wort.small_mash import THICKNESS

HEAT = given(67.0, "°C", "mash temperature", words=PRACTICE)
TIME = given(45.0, "min", "time of the rest", words=PRACTICE)
ENOUGH_POWER = 35.0
"""Mean diastatic power, in °Lintner, that a small mash is given (common practice, no source)."""
EXTRACTED = frozenset({"barley", "wheat"})
"""Cereals whose plain malts are sold as extracts of the same taste, nearly."""

Weighed = tuple[MaltFigures, Value]


def must_be_mashed(malt: Malt) -> bool:
    """What brings starch and has a taste of its own that malt extract does not have: no plain base malt."""
    plain = role(malt) == "base" and malt.kind == "base" and malt.cereal in EXTRACTED
    return malt.steep is None and malt.needs_mash and not plain and not dextrin(malt)


def _pale(malt: Malt) -> bool:
    return malt.kind == "base" and malt.cereal == "barley"


def dextrin(malt: Malt) -> bool:
    """A glassy malt for body, which maltodextrin stands for."""
    return malt.kind == "caramel" and malt.needs_mash


def its_extract(malt: Malt) -> str:
    """The kind of extract that comes near a malt which is better mashed; "" where there is none."""
    if malt.kind == "base" and malt.cereal == "rye":
        return "rye"
    return "Munich" if malt.kind == "kilned" and role(malt) == "base" else ""


def mashed(lines: Sequence[MaltFigures], most_kg: float) -> list[Weighed]:
    """What a small mash takes: the malts that need one, with as much pale malt or more, as far as it has room.

    Where there is not enough of either, the heaviest that has an extract of its own becomes that.

    Raises
    ------
    Refusal
        Neither can be had; the words say of what.
    """
    left = [line for line in lines if must_be_mashed(line.malt)]
    while left:
        helper = _helper(lines, left)
        whole = sum(line.mass.number for line in left) + (helper[1].number if helper else inf)
        if helper and whole <= most_kg:
            return [*((line, line.mass) for line in left), helper]
        instead = [line for line in left if its_extract(line.malt)]
        if not instead:
            said = names(line.malt.name for line in left)
            why = "the pot has no room for that" if helper else "there is not so much of it here"
            raise Refusal(f"only a mash brings out {said}, with as much pale malt or more, and {why}")
        left.remove(max(instead, key=lambda line: line.mass.number))
    return []


def room_kg(brewhouse: Brewhouse) -> float:
    """Grain that a small mash has room for (kg)."""
    pot = brewhouse.kettle
    return inf if pot is None else USABLE * pot.number / (THICKNESS.number + GRAIN_DISPLACEMENT.number)


def step_of(recipe: Recipe) -> tuple[MashStep, ...]:
    """The one rest of a small mash."""
    return (MashStep(HEAT, TIME, None, "infusion", recipe.place),)


def with_its_water(recipe: Recipe) -> Recipe:
    """The recipe with the water that its small mash takes, by the weight of its grain."""
    grain = [malt.mass for malt in recipe.malts if malt.steep is None and malt.mass is not None]
    if not grain or not recipe.mash:
        return recipe
    water = settled((sum_of(grain, "grain mashed") * THICKNESS).called("mash water"))
    return replace(recipe, mash=(replace(recipe.mash[0], water=water), *recipe.mash[1:]))


def _helper(lines: Sequence[MaltFigures], left: Sequence[MaltFigures]) -> Weighed | None:
    """Pale malt for them: their own weight, or more where that is too little to convert them; none if it lacks."""
    bases = [line for line in lines if _pale(line.malt) and line.malt.steep is None]
    best = max(bases, key=lambda line: lintner(line.malt), default=None)
    if best is None:
        return None
    own = sum(line.mass.number for line in left)
    spare = lintner(best.malt) - ENOUGH_POWER
    lacking = sum(line.mass.number * (ENOUGH_POWER - lintner(line.malt)) for line in left)
    wanted = max(own, lacking / spare if spare > 0 else inf)
    if wanted > best.mass.number:
        return None
    return best, given(wanted, "kg", f"{best.malt.name} for the small mash", words=PRACTICE)
