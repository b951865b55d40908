"""What the water's chemistry takes for granted: what each grain does to a mash, the target, acid, sulfite."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.equations.mash_ph import ROASTED_ACIDITY
from gristbook.model.recipe import Malt
from gristbook.sheet.value import Value, given
from gristbook.targets.conventions import PRACTICE

MEMORY = "from memory"
THINNEST, THICKEST = 30.0, 58.0
"""Published bufferings run from 30 to 45, and 58 follows from Troester's effect of alkalinity at 3 L/kg."""

SHIFT = given(
    (1 / THINNEST + 1 / THICKEST) / 2,
    "pH·kg/mEq",
    "what a milliequivalent of acid does to a kilogram of malt",
    words="from memory: the middle of a buffering of 30, the least published, and of 58, after Troester 2009",
    ends=((1 / THICKEST - 1 / THINNEST) / 2, (1 / THINNEST - 1 / THICKEST) / 2),
    doubt="buffering of the malt",
)
TARGET_PH = given(5.4, "pH", "pH wanted in the mash", words=f"{PRACTICE}: 5.2 to 5.6 measured cool, 5.4 in the middle")
LOWEST_PH = given(5.2, "pH", "lowest pH of a mash, as is usual", words="read: MBAA, document 155, in summary")
HIGHEST_PH = given(5.6, "pH", "highest pH of a mash, as is usual", words="read: MBAA, document 155, in summary")
LACTIC_STRENGTH = given(0.88, "fraction", "strength of lactic acid", words="the usual bottle")
LACTIC_DENSITY = given(1.206, "g/mL", "density of lactic acid", words=f"{MEMORY}: handbooks, at 20 °C")
PHOSPHORIC_STRENGTH = given(0.10, "fraction", "strength of phosphoric acid", words="the weakest bottle that is sold")
PHOSPHORIC_DENSITY = given(1.053, "g/mL", "density of phosphoric acid", words=f"{MEMORY}: handbooks, at 20 °C")
LACTIC_TASTE = given(0.4, "mL/L", "lactic acid that is tasted", words=PRACTICE, metric=True)
GRAM_IN_A_LITRE = given(1.0, "g/L", "a gram in a litre", words="to be multiplied", metric=True)
EXCESS = given(1.25, "ratio", "metabisulfite against what the reaction takes", words=f"{PRACTICE}: 20 to 30 % more")
SOLUTION = given(
    1.0, "g/L", "a gram of metabisulfite in a litre of water", words="a solution that anybody can mix", metric=True
)


def _ph(of: str, number: float, low: float, high: float) -> Value:
    return given(number, "pH", f"pH of {of} in distilled water", words=MEMORY, ends=(low - number, high - number))


@dataclass(frozen=True, slots=True)
class Grain:
    """A kind of grain by its kind, a word of its name or its cereal (each empty for any), and the pH of its mash."""

    kind: str
    word: str
    cereal: str
    ph: Value


GRAINS: tuple[Grain, ...] = (
    *(Grain(kind, "", "", _ph("unmalted grain", 5.9, 5.6, 6.2)) for kind in ("flaked", "torrefied", "raw")),
    Grain("smoked", "", "", _ph("smoked malt", 5.7, 5.55, 5.85)),
    Grain("", "", "wheat", _ph("wheat malt", 5.95, 5.85, 6.05)),
    Grain("base", "pilsner", "", _ph("pilsner malt", 5.75, 5.65, 5.85)),
    Grain("base", "pale", "", _ph("pale malt", 5.65, 5.55, 5.75)),
    Grain("base", "", "", _ph("other base malt", 5.7, 5.55, 5.85)),
    Grain("", "vienna", "", _ph("Vienna malt", 5.6, 5.5, 5.7)),
    Grain("", "munich", "", _ph("Munich malt", 5.45, 5.35, 5.55)),
    Grain("", "", "", _ph("malt kilned dark", 5.3, 5.05, 5.55)),
)
"""The first row that fits a grain is its own. Typical figures lie within 0.05 of these; a sack may lie a tenth away."""

ROASTED = given(
    ROASTED_ACIDITY,
    "mEq/kg",
    "acid of roasted malt",
    words="from memory, about: Riffe 2013 after Troester 2009",
    ends=(34.0 - ROASTED_ACIDITY, 50.0 - ROASTED_ACIDITY),
)
ENOUGH_CALCIUM = given(50.0, "mg/L", "calcium that does a mash good", words=f"{PRACTICE}: 50 to 100 mg/L")
ACIDULATED = given(
    250.0,
    "mEq/kg",
    "acid of acidulated malt",
    words="from memory: a hundredth of the grist lowers the mash by 0.04 to 0.1",
    ends=(-100.0, 100.0),
)


def mash_ph_of(malt: Malt) -> Value:
    """The pH of a mash of nothing but this grain, in distilled water."""
    name = malt.name.casefold()
    return next(
        row.ph for row in GRAINS if row.kind in ("", malt.kind) and row.word in name and row.cereal in ("", malt.cereal)
    )


def sour(malt: Malt) -> bool:
    """Whether a malt is reckoned by the acid that it brings, and not by a pH of its own."""
    return malt.kind in ("caramel", "roast") or "acidulated" in malt.name.casefold()
