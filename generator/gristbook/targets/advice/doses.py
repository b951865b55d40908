"""How much of a salt, an acid, a sulfite, a fining or a spice is too much, and what stands against a recipe's doses.

Salts and acids go by rows of bounds in the brewing water, finings and spices by the pantry's bounds in the batch.

The error is there for a slip of the scales: ounces taken for grams are 28 times too much, and can make people ill.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from gristbook.model.extra import Extra
from gristbook.problems import Place, Severity
from gristbook.sheet.value import Value, given
from gristbook.targets.advice.against import Against
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Kind
from gristbook.targets.water.mash_acid import LACTIC, in_a_millilitre


@dataclass(frozen=True, slots=True)
class Dose:
    """Bounds on whatever has one of ``words`` in its name, in ``unit`` of all the brewing water.

    Above ``usual`` it is worth a word, above ``most`` nobody means it; ``why`` says what the usual bound is for, and
    ``standing`` whether somebody else set it.
    """

    words: str
    usual: float
    most: float
    why: str
    standing: str = PRACTICE
    unit: str = "g/L"
    slip: str = "an ounce for a gram is a 28-fold slip"
    step: Kind = "water"

    def against(self, name: str, dose: float, place: Place) -> Iterator[Against]:
        """What there is to say against so much of a thing, in the row's unit."""
        slip = dose > self.most
        if not slip and dose <= self.usual:
            return
        number, severity = (self.most, Severity.ERROR) if slip else (self.usual, Severity.WARNING)
        bound = given(number, self.unit, f"bound on {name}", words=self.standing, metric=True)
        why = f"no brewer's dose: {self.slip}" if slip else f"more than usual{': ' if self.why else ''}{self.why}"
        yield Against(severity, place, ("More than ", bound, f" of {name} is {why}."), (self.step,))


DOSES: tuple[Dose, ...] = (
    Dose("metabisulfite metabisulphite", 0.02, 0.1, "tap water needs a few milligrams, and the rest is sulfite"),
    Dose("gypsum", 0.6, 1.5, "past this sulfate tastes harsh"),
    Dose("chloride", 0.5, 1.5, "past this chloride tastes of itself"),
    Dose("epsom magnesium", 0.3, 1.0, "magnesium tastes bitter, and much of it purges"),
    Dose("salt sodium", 0.25, 1.0, "past this it tastes salty"),
    Dose("soda bicarbonate", 0.4, 1.5, "it brings sodium, and a mash too alkaline draws harshness from the husk"),
    Dose(
        "chalk carbonate",
        0.45,
        2.0,
        "what does not dissolve does nothing",
        "from memory: Troester 2009, 400 to 500 mg/L",
    ),
    Dose("hydroxide slaked", 0.2, 0.5, "it is strongly alkaline"),
)
"""The lowest bounds of all that fit a name count. Our own where no source is named: `most` is two to five times what is
ever usual, and less than 28 times any dose that a brewer weighs."""

ACID = Dose(
    "",
    5.0,
    20.0,
    "much acid can be tasted, and too sour a mash thins the beer",
    unit="mEq/L",
    slip="look at the strength on the bottle",
)
"""Five milliequivalents in a litre are 0.4 mL of lactic acid of 88 %."""
LACTIC_ACID = replace(ACID, usual=ACID.most)
"""That it is tasted before is a row of advice."""


def row_for(name: str) -> Dose | None:
    """The strictest row that fits a name.

    >>> row_for("Gypsum").most, row_for("Irish moss")
    (1.5, None)
    """
    words = set(re.findall(r"[a-z]+", name.casefold()))
    fitting = (row for row in DOSES if not words.isdisjoint(row.words.split()))
    return min(fitting, key=lambda row: row.most, default=None)


def dose_of(extra: Extra, batch: Value) -> tuple[Value, Value] | None:
    """How much of a thing is in a litre of the batch, and how much is usual; `None` where nobody can say."""
    if extra.bounds is None or extra.amount is None:
        return None
    number = extra.bounds.each_g * extra.amount.number / batch.number
    return (
        given(number, "g/L", f"dose of {extra.name}", words="its amount over the batch"),
        given(extra.bounds.usual, "g/L", f"usual dose of {extra.name}", words=extra.bounds.standing),
    )


def doses(plan: Plan) -> Iterator[Against]:
    """What stands against a recipe's salts, acids, sulfites, finings and spices, lines of one thing taken together."""
    together: dict[tuple[Dose, str], tuple[float, Place]] = {}
    for row, name, dose, place in _lines(plan):
        if row is not None:
            before, _ = together.get((row, name), (0.0, place))
            together[row, name] = before + dose, place
    for (row, name), (dose, place) in together.items():
        yield from row.against(name, dose, place)


def _lines(plan: Plan) -> Iterator[tuple[Dose | None, str, float, Place]]:
    """Each line of the recipe with the row that it goes by, if any, and its dose in the row's unit."""
    recipe, water_l, batch_l = plan.recipe, plan.figures.water.total.number, plan.figures.volumes.batch.number
    for salt in recipe.water.salts:
        yield row_for(salt.name), salt.name, salt.mass.number / water_l, salt.place
    for extra in recipe.extras:
        if extra.bounds is None and extra.amount is not None and extra.amount.unit == "kg":
            yield row_for(extra.name), extra.name, 1000 * extra.amount.number / water_l, extra.place
    for acid in recipe.water.acids:
        yield (
            LACTIC_ACID if acid.formula == LACTIC else ACID,
            "acid",
            acid.volume.number * in_a_millilitre(acid).number / water_l,
            acid.place,
        )
    for extra in recipe.extras:
        if extra.bounds is not None and extra.amount is not None:
            it = extra.bounds
            row = Dose("", it.usual, it.most, it.why, it.standing, slip=it.why or "look at the scales", step="weigh")
            yield row, extra.name, it.each_g * extra.amount.number / batch_l, extra.place
