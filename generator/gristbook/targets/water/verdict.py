"""What a teacher would say of the water, in plain words: rows of data, and the one function that reads them.

The first row of `JUDGEMENTS` that holds is the verdict; every row of `REMARKS` that holds is said after it. Nobody has
to know any chemistry to follow them, and none of them changes a recipe.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import inf

from gristbook.sheet.value import Value, given
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Sentence, say
from gristbook.targets.water.results import WaterChemistry
from gristbook.targets.water.rows import ENOUGH_CALCIUM, LACTIC_STRENGTH, MEMORY, TARGET_PH

Chemistry = WaterChemistry

HARD_FROM: tuple[tuple[float, float], ...] = ((4.0, 36.0), (8.0, 89.0), (inf, 178.0))
"""Up to a colour (SRM), the residual alkalinity (mg/L as CaCO₃) that suits it: 2, 5 and 10 German degrees, the rule of
German brewers for pilsner, pale and dark beer, from memory."""

SALTY: Mapping[str, float] = {"sodium": 150.0, "chloride": 250.0, "sulfate": 400.0, "magnesium": 40.0}
"""From so many mg/L on a beer tastes of it (common practice, no source)."""

LOWEST_PH = given(5.2, "pH", "lowest pH of a mash, as is usual", words=PRACTICE)
HIGHEST_PH = given(5.6, "pH", "highest pH of a mash, as is usual", words=PRACTICE)
TELLABLE = 0.1
"""Nobody can tell the pH of a mash any better beforehand."""
DRY_FROM, FULL_TO = 2.0, 0.5
HOPS_OR_MALT = "Sulfate sharpens hops, chloride rounds malt; no scale of the two is standard."
ENOUGH_TO_TASTE = 50.0
"""Sulfate and chloride together, mg/L, below which neither leads."""


@dataclass(frozen=True, slots=True)
class Row:
    """Words that are said where they hold, the reason, and whether somebody else says so too.

    ``words`` may name figures in braces: those of `verdict`.
    """

    key: str
    holds: Callable[[Plan, Chemistry], bool]
    words: str
    reason: str
    standing: str = PRACTICE


@dataclass(frozen=True, slots=True)
class Said:
    """What is said of the water: words with figures among them, the reason, where that is from."""

    words: Sentence
    reason: str
    standing: str


def _salty(plan: Plan, water: Chemistry) -> bool:
    found = ((getattr(water.treated, ion), most) for ion, most in SALTY.items())
    return any(value is not None and value.number > most for value, most in found)


def _hard(plan: Plan, water: Chemistry) -> bool:
    """Whether what is left of its alkalinity is too much for the grist, by its colour or in so thin a mash."""
    left = water.residual_alkalinity.number
    suits = next(most for srm, most in HARD_FROM if plan.figures.colour.srm.number <= srm)
    return not plan.recipe.water.acids and (left > suits or (left > HARD_FROM[0][1] and _mash_is_high(plan, water)))


def _sour(plan: Plan, water: Chemistry) -> bool:
    return water.mash_ph is not None and water.mash_ph.number < LOWEST_PH.number + TELLABLE


def _worked_on(plan: Plan, water: Chemistry) -> bool:
    treated = plan.recipe.water
    return bool(treated.dilutions or treated.acids or any(not salt.sulfite for salt in treated.salts))


def _too_little_sulfite(plan: Plan, water: Chemistry) -> bool:
    given = _sulfite_g(plan)
    return water.metabisulfite is not None and 0 < given < water.metabisulfite.number / 1.25


def _sulfite_g(plan: Plan) -> float:
    return sum(salt.mass.number for salt in plan.recipe.water.salts if salt.sulfite)


def _leans(low: float, high: float) -> Callable[[Plan, Chemistry], bool]:
    def holds(plan: Plan, water: Chemistry) -> bool:
        sulfate, chloride, ratio = water.treated.sulfate, water.treated.chloride, water.sulfate_to_chloride
        if sulfate is None or chloride is None or ratio is None:
            return False
        return sulfate.number + chloride.number >= ENOUGH_TO_TASTE and low <= ratio.number < high

    return holds


def _mash_is_high(plan: Plan, water: Chemistry) -> bool:
    """Whether even the low end of its range lies too high, give or take what nobody can tell."""
    return water.acid is not None and water.mash_ph is not None and water.mash_ph.low > HIGHEST_PH.number + TELLABLE


def _mash_is_near(plan: Plan, water: Chemistry) -> bool:
    return water.mash_ph is not None and not _mash_is_high(plan, water) and not _sour(plan, water)


JUDGEMENTS: tuple[Row, ...] = (
    Row(
        "salty",
        _salty,
        "Buy drinking water for this one, or stretch it with distilled water.",
        "There is so much salt in it that the beer would taste of it.",
    ),
    Row(
        "extract",
        lambda plan, _: plan.figures.mash is None,
        "If it tastes good, brew with it.",
        "Malt extract was mashed where it was made, and brings the minerals of the water there.",
    ),
    Row(
        "hard",
        _hard,
        "It is hard for this beer, and good enough to learn on. To better it, use distilled water for half "
        "of it, or boil it, let it settle and pour it off its chalk, or buy softer water.",
        "What makes water hard to lather works against the acid of the malt, and a mash that lacks acid draws "
        "harshness out of the husks. Dark malt is sour enough to make up for it; pale malt is not.",
        "from memory: the German brewers' rule by residual alkalinity",
    ),
    Row(
        "sour",
        _sour,
        "The mash may turn too sour in this water: a little baking soda, or the dark malt stirred in late, mends it.",
        "Dark malt brings acid, and soft water has nothing to set against it.",
    ),
    Row(
        "worked on",
        _worked_on,
        "Good for this beer, with what the recipe does to it.",
        "It suits the colour of the grist.",
    ),
    Row(
        "good",
        lambda *_: True,
        "Good for this beer as it runs from the tap.",
        "It suits the colour of the grist: leave it as it is.",
    ),
)

REMARKS: tuple[Row, ...] = (
    Row(
        "chlorine",
        lambda plan, water: water.metabisulfite is not None and not _sulfite_g(plan),
        "First get rid of its chlorine: {metabisulfite} of potassium metabisulfite for all of it, or a carbon filter.",
        "Chlorine and chloramine make of malt a smell of sticking plaster, in amounts that nothing else shows.",
    ),
    Row(
        "sulfite",
        _too_little_sulfite,
        "The recipe's own metabisulfite is less than its chlorine takes, which is {metabisulfite} with a quarter over.",
        "What is left over smells of sticking plaster.",
    ),
    Row(
        "unknown chlorine",
        lambda _, water: water.chlorine is None,
        "If it comes from a tap, run it through a carbon filter, or give it metabisulfite.",
        "The report says nothing of chlorine, and tap water has some nearly everywhere.",
    ),
    Row(
        "calcium",
        lambda _, water: water.gypsum is not None,
        "It has little calcium: {gypsum} of gypsum in the mash would bring that to {enough}.",
        "Calcium lets the mash come down, the yeast settle and the beer clear.",
    ),
    Row(
        "dry",
        _leans(DRY_FROM, inf),
        "It leans to a dry bitterness: {ratio} of sulfate for one of chloride.",
        HOPS_OR_MALT,
    ),
    Row(
        "full",
        _leans(0.0, FULL_TO),
        "It leans to a full malt: {ratio} of sulfate for one of chloride.",
        HOPS_OR_MALT,
    ),
    Row(
        "even",
        _leans(FULL_TO, DRY_FROM),
        "Neither hops nor malt is pushed by it: {ratio} of sulfate for one of chloride.",
        HOPS_OR_MALT,
    ),
    Row(
        "mash",
        _mash_is_near,
        "The mash is reckoned to stand at a pH of about {ph}; {lowest} to {highest} is usual.",
        "Nobody can tell it to better than a tenth or two beforehand: a meter in a cooled sample decides.",
        MEMORY,
    ),
    Row(
        "high mash",
        _mash_is_high,
        "The mash is reckoned to stand at a pH of about {ph}; {lowest} to {highest} is usual. Without a meter, leave "
        "it. With one, lactic acid of {strength} brings it down: {acid} in all for {target}, half of it first, then a "
        "cooled sample, and only then more.",
        "Nobody can tell it to better than a tenth or two beforehand, and acid does not come out again.",
        MEMORY,
    ),
)

UNKNOWN = Said(
    ("Nobody has named this water, so nothing is worked out. If it tastes good, brew with it.",),
    "If it comes from a tap, run it through a carbon filter or give it metabisulfite: chlorine makes of malt a smell "
    "of sticking plaster. If it does not taste good, buy drinking water.",
    PRACTICE,
)


def verdict(plan: Plan) -> tuple[Said, ...]:
    """The verdict first, then the remarks; where nobody named the water, plain words and no number."""
    water = plan.figures.chemistry
    if water is None:
        return (UNKNOWN,)
    judgement = next(row for row in JUDGEMENTS if row.holds(plan, water))
    remarks = [row for row in REMARKS if row.holds(plan, water)]
    figures: dict[str, Value | None] = {
        "metabisulfite": water.metabisulfite,
        "ratio": water.sulfate_to_chloride,
        "ph": water.mash_ph,
        "target": TARGET_PH,
        "lowest": LOWEST_PH,
        "highest": HIGHEST_PH,
        "acid": water.acid,
        "gypsum": water.gypsum,
        "enough": ENOUGH_CALCIUM,
        "strength": LACTIC_STRENGTH,
    }
    return tuple(Said(say(row.words, **figures), row.reason, row.standing) for row in (judgement, *remarks))
