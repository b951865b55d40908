"""How much of a salt, an acid, a sulfite, a fining or a spice is too much, and what stands against a recipe's doses.

Salts and acids go by rows of bounds in the brewing water, finings and spices by the pantry's bounds in the batch.

The error is there for a slip of the scales: ounces taken for grams are 28 times too much, and can make people ill.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.equations import acids
from gristbook.equations.atoms import molar_mass
from gristbook.model.water import AcidUse
from gristbook.problems import Place, Severity
from gristbook.sheet.value import Value, given
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.figures import Plan
from gristbook.targets.method_step import Kind
from gristbook.targets.water_rows import TARGET_PH


@dataclass(frozen=True, slots=True)
class Dose:
    """Bounds on whatever has one of ``words`` in its name, in ``unit`` of all the brewing water.

    Above ``usual`` it is worth a word, above ``most`` nobody means it; ``why`` says what the usual bound is for, and
    ``standing`` whether somebody else set it.
    """

    words: frozenset[str]
    usual: float
    most: float
    why: str
    unit: str = "g/L"
    standing: str = PRACTICE
    slip: str = "an ounce for a gram is a 28-fold slip"
    step: Kind = "water"


def _dose(words: str, usual: float, most: float, why: str, standing: str = PRACTICE) -> Dose:
    return Dose(frozenset(words.split()), usual, most, why, standing=standing)


DOSES: tuple[Dose, ...] = (
    _dose("metabisulfite metabisulphite", 0.02, 0.1, "tap water needs a few milligrams, and the rest is sulfite"),
    _dose("gypsum", 0.6, 1.5, "past this sulfate tastes harsh"),
    _dose("chloride", 0.5, 1.5, "past this chloride tastes of itself"),
    _dose("epsom magnesium", 0.3, 1.0, "magnesium tastes bitter, and much of it purges"),
    _dose("salt sodium", 0.25, 1.0, "past this it tastes salty"),
    _dose("soda bicarbonate", 0.4, 1.5, "it brings sodium, and a mash too alkaline draws harshness from the husk"),
    _dose(
        "chalk carbonate",
        0.45,
        2.0,
        "what does not dissolve does nothing",
        "from memory: Troester 2009, 400 to 500 mg/L",
    ),
    _dose("hydroxide slaked", 0.2, 0.5, "it is strongly alkaline"),
)
"""The lowest bounds of all that fit a name count. Our own where no source is named: `most` is two to five times what is
ever usual, and less than 28 times any dose that a brewer weighs."""

ACID = Dose(frozenset(), 5.0, 20.0, "much acid can be tasted, and too sour a mash thins the beer", "mEq/L",
           slip="look at the strength on the bottle")  # fmt: skip
"""Five milliequivalents in a litre are 0.4 mL of lactic acid of 88 %, about where it begins to be tasted."""


@dataclass(frozen=True, slots=True)
class Against:
    """What stands against a dose: how grave it is, where it is written, the bound that it is above, words, the step."""

    severity: Severity
    place: Place
    bound: Value
    words: str
    step: Kind

    @property
    def said(self) -> str:
        """The whole of it in one line."""
        return f"more than {self.bound.number:g} {self.bound.unit}{self.words}"


def dose_verdict(name: str, mass_g: float, water_l: float) -> tuple[Severity | None, str]:
    """What there is to say against so much of a thing in so much water; `None` and "" where there is nothing.

    >>> dose_verdict("Gypsum", 5, 20)
    (None, '')
    """
    row = _row_for(name)
    if row is None:
        return None, ""
    against = _against(row, name, mass_g / water_l, Place(""))
    return (against.severity, against.said) if against else (None, "")


def doses(plan: Plan) -> Iterator[Against]:
    """What stands against a recipe's salts, acids and sulfites, lines of one thing taken together."""
    recipe, water_l = plan.recipe, plan.figures.water.total.number
    weighed: dict[str, tuple[float, Place]] = {}
    for salt in recipe.water.salts:
        before, _ = weighed.get(salt.name, (0.0, salt.place))
        weighed[salt.name] = before + salt.mass.number, salt.place
    for extra in recipe.extras:
        if extra.bounds is None and extra.amount is not None and extra.amount.unit == "kg":
            before, _ = weighed.get(extra.name, (0.0, extra.place))
            weighed[extra.name] = before + 1000 * extra.amount.number, extra.place
    for name, (mass_g, place) in weighed.items():
        row = _row_for(name)
        against = _against(row, name, mass_g / water_l, place) if row else None
        if against:
            yield against
    if recipe.water.acids:
        dose = sum(map(_milliequivalents, recipe.water.acids)) / water_l
        against = _against(ACID, "acid", dose, recipe.water.acids[-1].place)
        if against:
            yield against
    yield from _of_extras(plan)


def _of_extras(plan: Plan) -> Iterator[Against]:
    """What stands against the finings and spices that the pantry has bounds for."""
    batch_l = plan.figures.volumes.batch.number
    known = [extra for extra in plan.recipe.extras if extra.bounds is not None]
    for name in dict.fromkeys(extra.name for extra in known):
        dose_g, last = 0.0, known[0]
        for extra in known:
            if extra.name == name and extra.bounds and extra.amount:
                dose_g, last = dose_g + extra.bounds.each_g * extra.amount.number, extra
        if last.bounds:
            bounds = last.bounds
            slip = bounds.why or "look at the scales"
            row = Dose(frozenset(), bounds.usual, bounds.most, bounds.why, "g/L", bounds.standing, slip, "weigh")
            if against := _against(row, name, dose_g / batch_l, last.place):
                yield against


def _row_for(name: str) -> Dose | None:
    """The strictest row that fits a name."""
    words = set(re.findall(r"[a-z]+", name.casefold()))
    return min((row for row in DOSES if row.words & words), key=lambda row: row.most, default=None)


def _against(row: Dose, name: str, dose: float, place: Place) -> Against | None:
    def above(severity: Severity, bound: float, words: str) -> Against:
        value = given(bound, row.unit, f"bound on {name}", words=row.standing, metric=True)
        return Against(severity, place, value, f" of {name} is {words}", row.step)

    if dose > row.most:
        return above(Severity.ERROR, row.most, f"no brewer's dose: {row.slip}")
    usual = f"more than usual{': ' if row.why else ''}{row.why}"
    return above(Severity.WARNING, row.usual, usual) if dose > row.usual else None


def _milliequivalents(use: AcidUse) -> float:
    protons = acids.lactic_protons if use.formula == "C3H6O3" else acids.phosphoric_protons
    strength = acids.acid_strength(
        strength=use.strength.number,
        density=use.density.number,
        molar_mass=molar_mass(use.formula),
        protons=protons(ph=TARGET_PH.number),
    )
    return use.volume.number * strength
