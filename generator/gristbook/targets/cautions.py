"""Which cautions stand at which step: rows of data, and the one function that reads them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import replace

from gristbook.model.moment import FirstWort
from gristbook.problems import Place
from gristbook.targets.allergens import ANY_ALLERGEN, GLUTEN, allergens
from gristbook.targets.caution_rows import CAUTIONS, Caution
from gristbook.targets.conventions import STRONG_ABV
from gristbook.targets.doses import doses
from gristbook.targets.figures import Plan
from gristbook.targets.gas import LIMITS
from gristbook.targets.gas_routes import beyond_its_yeast, diastatic, routes_to_gas
from gristbook.targets.method_step import Sentence

ALLERGENS_HERE = "{allergens}"
"""Stands in a row's words for the brew's own."""


def applying(kind: str, plan: Plan) -> tuple[Caution, ...]:
    """The rows that stand at a kind of step in this brew, and what the recipe's own amounts call for."""
    rows = (row for row in CAUTIONS if CONDITIONS[row.when](plan))
    return tuple(row for row in (*rows, *_by_amount(plan)) if kind in row.kinds)


def cautions_for(kind: str, plan: Plan) -> tuple[Sentence, ...]:
    """What a brewer must be told at a kind of step in this brew."""
    return tuple(worded(row, plan) for row in applying(kind, plan))


def worded(row: Caution, plan: Plan) -> Sentence:
    """A caution as a sentence, with the brew's own allergens."""
    return row.around(row.words.replace(ALLERGENS_HERE, allergens(plan).words))


def in_short(kinds: Collection[str], plan: Plan) -> tuple[str, ...]:
    """The shortest form of all that stands at these kinds of step in this brew, each once, in the order of the rows."""
    rows = [row for row in CAUTIONS if CONDITIONS[row.when](plan)] + [*_by_amount(plan)]
    return tuple(dict.fromkeys(row.short for row in rows if row.short and not set(kinds).isdisjoint(row.kinds)))


def all_cautions() -> tuple[Caution, ...]:
    """Every caution there is, each once, for a page that gathers them."""
    limits = (limit.against(limit.bounds()[0], Place("")).caution for limit in LIMITS)
    rows = (replace(row, words=row.words.replace(ALLERGENS_HERE, ANY_ALLERGEN)) for row in CAUTIONS)
    return tuple({row.words: row for row in (*rows, *limits)}.values())


def _by_amount(plan: Plan) -> Iterator[Caution]:
    for of_gas in routes_to_gas(plan):
        yield of_gas.caution
    for against in doses(plan):
        yield Caution(f"{against.words}.", (against.step,), lead=("More than ", against.bound))


CONDITIONS: Mapping[str, Callable[[Plan], bool]] = {
    "always": lambda plan: True,
    "allergens": lambda plan: bool(allergens(plan).words),
    "ice for the top-up": lambda plan: plan.figures.cooling is not None and plan.figures.cooling.ice is not None,
    "first-wort hops": lambda plan: any(isinstance(hop.use, FirstWort) for hop in plan.recipe.hops),
    "gluten": lambda plan: not GLUTEN.isdisjoint(allergens(plan).names),
    "a diastatic yeast": diastatic,
    "a beer stronger than its yeast bears": beyond_its_yeast,
    "a strong beer": lambda plan: plan.figures.fermentation.abv.number >= STRONG_ABV,
}
"""When a row applies, by the name that it gives."""
