"""Which cautions stand at which step: rows of data, and the one function that reads them."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, replace

from gristbook.problems import Severity
from gristbook.targets.allergens import ANY_ALLERGEN, GLUTEN, allergens
from gristbook.targets.caution_rows import CAUTIONS, Caution
from gristbook.targets.conventions import PRACTICE, STRONG_ABV
from gristbook.targets.doses import doses
from gristbook.targets.figures import Plan
from gristbook.targets.method_step import Sentence
from gristbook.worksheet import given

ALLERGENS_HERE = "{allergens}"
"""Stands in a row's words for the brew's own."""


@dataclass(frozen=True, slots=True)
class Ceiling:
    """A bound on the gas in a bottle that nobody has named: above ``volumes``, or from there on (``reached``).

    The words stand around the number, ``before`` it and after.
    """

    volumes: float
    reached: bool
    severity: Severity
    before: str
    words: str

    def exceeded_by(self, volumes: float) -> bool:
        """Whether so much gas is too much."""
        return volumes >= self.volumes if self.reached else volumes > self.volumes


CEILINGS = (
    Ceiling(
        2.8,
        False,
        Severity.WARNING,
        "more than ",
        ": a swing-top or an unmarked bottle is safe only if its maker states more",
    ),
    Ceiling(
        3.0,
        True,
        Severity.WARNING,
        "",
        " is the limit of an ordinary bottle: use heavy bottles that their maker rates for the pressure",
    ),
    Ceiling(
        3.5,
        False,
        Severity.ERROR,
        "more than ",
        " bursts an ordinary bottle: less gas, or a keg rated for the pressure",
    ),
)
"""Common practice, no source; from the lowest to the highest."""


def carbonation_verdict(volumes: float, keg: bool) -> tuple[Severity | None, str]:
    """What there is to say against so much gas: how grave it is, and the words; `None` and "" where there is nothing.

    >>> carbonation_verdict(2.4, keg=False)
    (None, '')
    """
    ceiling = None if keg else _highest_below(volumes)
    return (ceiling.severity, f"{ceiling.before}{ceiling.volumes} volumes{ceiling.words}") if ceiling else (None, "")


def _highest_below(volumes: float) -> Ceiling | None:
    return next((ceiling for ceiling in reversed(CEILINGS) if ceiling.exceeded_by(volumes)), None)


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
    ceilings = (_of_gas(ceiling) for ceiling in CEILINGS)
    rows = (replace(row, words=row.words.replace(ALLERGENS_HERE, ANY_ALLERGEN)) for row in CAUTIONS)
    return tuple({row.words: row for row in (*rows, *ceilings)}.values())


def _by_amount(plan: Plan) -> Iterator[Caution]:
    recipe = plan.recipe
    if recipe.carbonation is not None:
        ceiling = None if in_keg(plan) else _highest_below(recipe.carbonation.volumes.number)
        if ceiling:
            yield _of_gas(ceiling)
    for against in doses(plan):
        yield Caution(f"{against.words}.", (against.step,), before="More than ", figure=against.bound)


def _of_gas(ceiling: Ceiling) -> Caution:
    return Caution(
        f"{ceiling.words}.",
        ("bottle",),
        short="Only bottles that their maker rates for this gas.",
        before=ceiling.before.capitalize(),
        figure=given(ceiling.volumes, "vol", "bound on the gas in a bottle", origin=PRACTICE),
    )


def in_keg(plan: Plan) -> bool:
    """Whether the beer gets its gas under pressure in a keg; bottles where nothing is said."""
    return plan.recipe.carbonation is not None and plan.recipe.carbonation.sugar is None


def _words(name: str) -> set[str]:
    return set(re.findall(r"[^\W\d_]+", name.casefold()))


def diastatic(plan: Plan) -> bool:
    """Whether something in the beer may go on turning dextrins to sugar, so that it ferments for weeks more."""
    added = {word for extra in plan.recipe.extras for word in _words(extra.name)}
    pitched = {word for yeast in plan.recipe.yeasts for name in (yeast.name, *yeast.families) for word in _words(name)}
    return bool({"saison", "diastatic", "diastaticus"} & pitched or {"glucoamylase", "amyloglucosidase"} & added)


CONDITIONS: Mapping[str, Callable[[Plan], bool]] = {
    "always": lambda plan: True,
    "allergens": lambda plan: bool(allergens(plan).words),
    "ice for the top-up": lambda plan: plan.figures.cooling is not None and plan.figures.cooling.ice is not None,
    "first-wort hops": lambda plan: any(hop.use == "first wort" for hop in plan.recipe.hops),
    "gluten": lambda plan: not GLUTEN.isdisjoint(allergens(plan).names),
    "a diastatic yeast": diastatic,
    "a strong beer": lambda plan: plan.figures.fermentation.abv.number >= STRONG_ABV,
}
"""When a row applies, by the name that it gives."""
