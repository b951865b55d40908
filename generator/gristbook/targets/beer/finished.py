"""When a beer has finished: which of its days are warm, what goes on for weeks, and how long its readings take."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from gristbook.model.extra import Extra
from gristbook.model.moment import IN_THE_BEER, BeforePackaging, Stage
from gristbook.model.recipe import Recipe
from gristbook.model.steps import FermentStep
from gristbook.model.yeast import Yeast
from gristbook.sheet.value import Value
from gristbook.targets.advice.gas_words import eats_on
from gristbook.targets.conventions import STEADY_FOR_DAYS, STEADY_FOR_WEEKS, practice

COLD_C = 5.0
"""A step cooler by this much than the warmest before it, and cooler than the yeast likes, stops the yeast (common
practice, no source)."""
APART = practice(STEADY_FOR_DAYS, "d", "time between two readings")
LONG_APART = practice(STEADY_FOR_WEEKS, "d", "time between two readings, where the yeast may go on for weeks")

LAST = (Stage.FERMENTED, Stage.PACKAGING)


def warm_steps(recipe: Recipe) -> tuple[FermentStep, ...]:
    """The steps before the first that is too cold for the yeast."""
    coolest = min((yeast.coolest_c for yeast in recipe.yeasts), default=-inf)
    heats = [step.last.number for step in recipe.ferment]
    tops = [step.warmest.number for step in recipe.ferment]
    cold = (at for at, heat in enumerate(heats) if max(tops[: at + 1]) - heat >= COLD_C and heat < coolest)
    return recipe.ferment[: next(cold, None)]


def in_the_beer(recipe: Recipe) -> Iterator[Extra]:
    """What goes in after the boil."""
    return (it for it in recipe.extras if it.moment in IN_THE_BEER or isinstance(it.moment, BeforePackaging))


def diastatic(recipe: Recipe) -> bool:
    """Whether something in the beer goes on turning dextrins to sugar, so that it ferments for weeks more."""
    lines: list[Yeast | Extra] = [*recipe.yeasts, *in_the_beer(recipe)]
    return any(yeast.diastatic for yeast in recipe.yeasts) or eats_on(*(line.name for line in lines))


def beyond_its_yeast(recipe: Recipe, abv: float) -> bool:
    """Whether a beer (% by volume) is to be stronger than its yeast bears, so that nobody knows where it stops."""
    return abv > max(yeast.tolerance_abv for yeast in recipe.yeasts)


def apart(recipe: Recipe, abv: float) -> Value:
    """Days between the two readings that show that a beer (% by volume) has finished."""
    return LONG_APART if diastatic(recipe) or beyond_its_yeast(recipe, abv) else APART


def days_of_readings(recipe: Recipe, abv: float) -> tuple[Value, ...]:
    """Days of the two readings after the warm steps, and of two more where something goes into the cold beer."""
    cold = sum(step.days.number for step in recipe.ferment[len(warm_steps(recipe)) :])
    moments = [*(hop.use for hop in recipe.hops), *(sugar.moment for sugar in recipe.sugars)]
    late = any(isinstance(it, BeforePackaging) and it.days.number <= cold for it in moments)
    return (apart(recipe, abv),) * (1 + late)
