"""Which cautions stand at which step: rows of data, and the one function that reads them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import replace

from gristbook.model.moment import FirstWort
from gristbook.model.recipe import Recipe
from gristbook.pantry.pantry import ours
from gristbook.problems import Place
from gristbook.targets.advice.allergens import ANY_ALLERGEN, GLUTEN, allergens
from gristbook.targets.advice.caution import Caution
from gristbook.targets.advice.caution_rows import CARE_HERE, CAUTIONS
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
    own = {ALLERGENS_HERE: allergens(plan).words, CARE_HERE: _care(plan.recipe)}
    rows = (_about(row, own) for row in CAUTIONS if CONDITIONS[row.when](plan))
    return (*rows, *(against.caution for against in (*routes_to_gas(plan), *doses(plan))))


def in_short(kinds: Collection[str], plan: Plan) -> tuple[str, ...]:
    """The shortest form of all that stands at these kinds of step in this brew, each once, in the order of the rows."""
    return tuple(dict.fromkeys(it.short for it in cautions(plan) if it.short and not set(kinds).isdisjoint(it.kinds)))


def all_cautions() -> tuple[Caution, ...]:
    """Every caution there is, each once, for a page that gathers them."""
    limits = (limit.against(limit.bounds()[0], Place("")).caution for limit in LIMITS)
    every = {ALLERGENS_HERE: ANY_ALLERGEN, CARE_HERE: " ".join(dict.fromkeys(_EVERY_CARE))}
    rows = (_about(row, every) for row in CAUTIONS)
    return tuple({row.words: row for row in (*rows, *limits)}.values())


_EVERY_CARE = [fruit.care for fruit in ours("fruits").records if fruit.care]


def _care(recipe: Recipe) -> str:
    """What may hurt in the fruit, each once."""
    return " ".join(dict.fromkeys(it.flesh.care for it in recipe.sugars if it.flesh and it.flesh.care))


def _about(row: Caution, own: Mapping[str, str]) -> Caution:
    for here, words in own.items():
        if here in row.words:
            return replace(row, words=row.words.replace(here, words))
    return row


CONDITIONS: Mapping[str, Callable[[Plan], bool]] = {
    "always": lambda plan: True,
    "a bag": lambda plan: plan.brewhouse.mash == "bag" and plan.figures.mash is not None,
    "allergens": lambda plan: bool(allergens(plan).words),
    "ice for the top-up": lambda plan: plan.figures.cooling is not None and plan.figures.cooling.ice is not None,
    "first-wort hops": lambda plan: any(isinstance(hop.use, FirstWort) for hop in plan.recipe.hops),
    "pressure": lambda plan: any(step.pressure is not None for step in plan.recipe.ferment),
    "fruit in the beer": lambda plan: plan.figures.volumes.fruit is not None,
    "fruit that may hurt": lambda plan: bool(_care(plan.recipe)),
    "gluten": lambda plan: not GLUTEN.isdisjoint(allergens(plan).names),
    "a diastatic yeast": lambda plan: diastatic(plan.recipe),
    "a beer stronger than its yeast bears": lambda plan: beyond_its_yeast(
        plan.recipe, plan.figures.fermentation.abv.number
    ),
    "a strong beer": lambda plan: plan.figures.fermentation.abv.number >= STRONG_ABV,
}
"""When a row applies, by the name that it gives."""
