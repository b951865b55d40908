"""Brewing water: its ions, its alkalinity, and what calcium and magnesium leave of that in a mash.

Alkalinity is told in two ways that differ by a factor of 50: as milligrams of calcium carbonate, and as the acid that
it takes up, in milliequivalents. Each equation says which.
"""

from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.atoms import molar_mass
from gristbook.equations.bounds import not_negative
from gristbook.equations.registry import checked_by_library, equation, published

CHALK: Final = molar_mass("CaCO3")
CHALK_PER_MILLIEQUIVALENT: Final = CHALK / 2  # mg of calcium carbonate that take up a milliequivalent of acid
CHALK_PER_GERMAN_DEGREE: Final = 10 * CHALK / molar_mass("CaO")  # a degree is 10 mg/L of calcium oxide


@checked_by_library(
    source=sources.ATOMIC_MASSES,
    where="half a CaCO₃ takes up as much acid as one HCO₃",
    formula="Alk = HCO₃ × 50.043 / 61.016",
)
def alkalinity_from_bicarbonate(
    *, bicarbonate: Annotated[float, "mg/L", "HCO₃", "of the water"]
) -> Annotated[float, "mg/L CaCO₃"]:
    """Alkalinity of water whose report gives bicarbonate; true up to pH 8.3 or so [mg/L as CaCO₃].

    Refuses a negative concentration.

    >>> alkalinity_from_bicarbonate(bicarbonate=100)
    82.02
    """
    not_negative(bicarbonate, "a concentration")
    return bicarbonate * CHALK_PER_MILLIEQUIVALENT / molar_mass("HCO3")


@published(source=sources.ATOMIC_MASSES, where="half a CaCO₃ takes up one acid", formula="c = Alk / 50.043")
def alkalinity_in_milliequivalents(
    *,
    alkalinity: Annotated[
        float, "mg/L CaCO₃", "Alk", "the same as calcium carbonate; below 0 for a residual alkalinity that lowers pH"
    ],
) -> Annotated[float, "mEq/L"]:
    """Alkalinity, or residual alkalinity, as the acid that it takes up [mEq/L].

    >>> alkalinity_in_milliequivalents(alkalinity=100)
    1.998
    """
    return alkalinity / CHALK_PER_MILLIEQUIVALENT


@equation(source=sources.ATOMIC_MASSES, where="half a CaCO₃ takes up one acid", formula="Alk = 50.043 c")
def alkalinity_as_calcium_carbonate(
    *, alkalinity_meq: Annotated[float, "mEq/L", "c", "the same as the acid that it takes up"]
) -> Annotated[float, "mg/L CaCO₃"]:
    """Alkalinity told as acid taken up, as calcium carbonate [mg/L as CaCO₃].

    >>> alkalinity_as_calcium_carbonate(alkalinity_meq=2)
    100.09
    """
    return alkalinity_meq * CHALK_PER_MILLIEQUIVALENT


@equation(
    source=sources.KOLBACH_1953,
    where="every term as CaCO₃; with the ions in mg/L the divisors come to 1.4015 and 1.6999",
    formula="RA = Alk − (Ca × 100.086/40.078 / 3.5 + Mg × 100.086/24.305 / 7)",
)
def residual_alkalinity_kolbach_1953(
    *,
    calcium: Annotated[float, "mg/L", "Ca", "of the water, as the ion"],
    magnesium: Annotated[float, "mg/L", "Mg", "of the water, as the ion"],
    alkalinity: Annotated[float, "mg/L CaCO₃", "Alk", "of the water"],
) -> Annotated[float, "mg/L CaCO₃"]:
    """Alkalinity that calcium and magnesium leave, as they meet the malt's phosphate [mg/L as CaCO₃].

    The 3.5 and 7 are for calcium and magnesium *as calcium carbonate*, or all in mEq/L. To divide milligrams of the
    ions by them is a common slip, and makes calcium count for two fifths of what it does.
    Refuses a negative concentration.

    >>> residual_alkalinity_kolbach_1953(calcium=100, magnesium=20, alkalinity=50)
    -33.12
    """
    not_negative(calcium, "a concentration")
    not_negative(magnesium, "a concentration")
    not_negative(alkalinity, "an alkalinity")
    calcium_as_chalk, magnesium_as_chalk = calcium * CHALK / molar_mass("Ca"), magnesium * CHALK / molar_mass("Mg")
    return alkalinity - (calcium_as_chalk / 3.5 + magnesium_as_chalk / 7)
