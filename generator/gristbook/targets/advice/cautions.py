"""Which cautions stand at which step: rows of data, and the one function that reads them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import replace

from gristbook.model.moment import FirstWort
from gristbook.problems import Place
from gristbook.targets.advice.allergens import ANY_ALLERGEN, GLUTEN, allergens
from gristbook.targets.advice.caution_rows import CAUTIONS, Caution
from gristbook.targets.advice.doses import doses
from gristbook.targets.advice.gas import LIMITS
from gristbook.targets.advice.gas_routes import routes_to_gas
from gristbook.targets.beer.finished import beyond_its_yeast, diastatic
from gristbook.targets.conventions import STRONG_ABV
from gristbook.targets.figures import Plan

ALLERGENS_HERE = "{allergens}"
"""Stands in a row's words for the brew's own."""


def cautions(plan: Plan) -> tuple[Caution, ...]:
    """The rows that stand in this brew, with its own allergens, and what the recipe's own amounts call for."""
    brings = allergens(plan).words
    rows = (_about(row, brings) for row in CAUTIONS if CONDITIONS[row.when](plan))
    return (*rows, *(against.caution for against in (*routes_to_gas(plan), *doses(plan))))


def in_short(kinds: Collection[str], plan: Plan) -> tuple[str, ...]:
    """The shortest form of all that stands at these kinds of step in this brew, each once, in the order of the rows."""
    return tuple(dict.fromkeys(it.short for it in cautions(plan) if it.short and not set(kinds).isdisjoint(it.kinds)))


def all_cautions() -> tuple[Caution, ...]:
    """Every caution there is, each once, for a page that gathers them."""
    limits = (limit.against(limit.bounds()[0], Place("")).caution for limit in LIMITS)
    rows = (_about(row, ANY_ALLERGEN) for row in CAUTIONS)
    return tuple({row.words: row for row in (*rows, *limits)}.values())


def _about(row: Caution, brings: str) -> Caution:
    return replace(row, words=row.words.replace(ALLERGENS_HERE, brings)) if ALLERGENS_HERE in row.words else row


CONDITIONS: Mapping[str, Callable[[Plan], bool]] = {
    "always": lambda plan: True,
    "a bag": lambda plan: plan.brewhouse.mash == "bag" and plan.figures.mash is not None,
    "allergens": lambda plan: bool(allergens(plan).words),
    "ice for the top-up": lambda plan: plan.figures.cooling is not None and plan.figures.cooling.ice is not None,
    "first-wort hops": lambda plan: any(isinstance(hop.use, FirstWort) for hop in plan.recipe.hops),
    "pressure": lambda plan: any(step.pressure is not None for step in plan.recipe.ferment),
    "gluten": lambda plan: not GLUTEN.isdisjoint(allergens(plan).names),
    "a diastatic yeast": lambda plan: diastatic(plan.recipe),
    "a beer stronger than its yeast bears": lambda plan: beyond_its_yeast(
        plan.recipe, plan.figures.fermentation.abv.number
    ),
    "a strong beer": lambda plan: plan.figures.fermentation.abv.number >= STRONG_ABV,
}
"""When a row applies, by the name that it gives."""
