"""What a teacher would say of the water, in plain words: rows of data, and the one function that reads them.

What advice says of a water is the verdict, or else the first row of `JUDGEMENTS` that holds; every row of `REMARKS`
that holds is said after it. Nobody has to know any chemistry to follow them, and none of them changes a recipe.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import inf

from gristbook.sheet.value import Value
from gristbook.targets.advice.advice import advise
from gristbook.targets.advice.water_rows import WATER
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Sentence, say
from gristbook.targets.water.results import WaterChemistry
from gristbook.targets.water.rows import ENOUGH_CALCIUM, HIGHEST_PH, LOWEST_PH, MEMORY

Chemistry = WaterChemistry

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


def _ph(holds: Callable[[float, float, float], bool]) -> Callable[[Plan, Chemistry], bool]:
    """Whether something holds of the pH of the mash and of the ends of its range, all as a page prints them."""

    def of(plan: Plan, water: Chemistry) -> bool:
        ph = water.mash_ph
        return ph is not None and holds(round(ph.number, 2), round(ph.low, 2), round(ph.high, 2))

    return of


LOW, HIGH = LOWEST_PH.number, HIGHEST_PH.number

JUDGEMENTS: tuple[Row, ...] = (
    Row(
        "extract",
        lambda _, water: water.mash_ph is None,
        "If it tastes good, brew with it.",
        "Malt extract was mashed where it was made, and brings the minerals of the water there.",
    ),
    Row(
        "worked on",
        _worked_on,
        "Nothing more need be done to it for this beer than the recipe does.",
        "The pH of its mash lies where it is usual.",
    ),
    Row(
        "as it runs",
        lambda *_: True,
        "Nothing need be done to it for this beer: leave it as it is.",
        "The pH of its mash lies where it is usual.",
    ),
)
"""What is said of a water that no row of advice speaks against; the first that holds."""

REMARKS: tuple[Row, ...] = (
    Row(
        "mash",
        _ph(lambda *_: True),
        "The mash is reckoned to stand at a pH of about {ph}; {lowest} to {highest} is usual.",
        "Nobody can tell it to better than a tenth or two beforehand: a meter in a cooled sample decides.",
        MEMORY,
    ),
    Row(
        "may be low",
        _ph(lambda ph, low, _: LOW <= ph <= HIGH and low < LOW),
        "Its range goes below {lowest}: measure, and have baking soda at hand.",
        "What is reckoned lies within; the mash itself may still turn out lower.",
    ),
    Row(
        "may be high",
        _ph(lambda ph, _, high: LOW <= ph <= HIGH < high),
        "Its range goes above {highest}: measure, and have acid at hand.",
        "What is reckoned lies within; the mash itself may still turn out higher.",
    ),
    Row(
        "may be usual",
        _ph(lambda ph, low, high: low <= HIGH < ph or ph < LOW <= high),
        "Its range reaches into what is usual: measure before anything is added.",
        "What is reckoned lies outside; the mash itself may still be within.",
    ),
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
)

MENDED = "It is the least that does it, besides what is written: what goes in does not come out again."

UNKNOWN = Said(
    ("Nobody has named this water, so nothing is worked out. If it tastes good, brew with it.",),
    "If it comes from a tap, run it through a carbon filter or give it metabisulfite: chlorine makes of malt a smell "
    "of sticking plaster. If it does not taste good, buy drinking water.",
    PRACTICE,
)


def verdict(plan: Plan) -> tuple[Said, ...]:
    """The verdict first, then the remarks; where nobody named the water, plain words and no number.

    What advice speaks against is the verdict, so that nothing is called in order beside a figure that is not.
    """
    water = plan.figures.chemistry
    if water is None:
        return (UNKNOWN,)
    figures: dict[str, Value | None] = {
        "metabisulfite": water.metabisulfite,
        "ratio": water.sulfate_to_chloride,
        "ph": water.mash_ph,
        "lowest": LOWEST_PH,
        "highest": HIGHEST_PH,
        "gypsum": water.gypsum,
        "enough": ENOUGH_CALCIUM,
    }
    advice = advise(plan, WATER)
    against = [Said((it.words,), it.reason, it.standing) for it in advice]
    mends = [Said(it.mend, MENDED, PRACTICE) for it in advice if it.mend]
    rows = [] if against else [next(row for row in JUDGEMENTS if row.holds(plan, water))]
    rows += [row for row in REMARKS if row.holds(plan, water)]
    return (*against, *mends, *(Said(say(row.words, **figures), row.reason, row.standing) for row in rows))
