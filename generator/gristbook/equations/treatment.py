"""What becomes of brewing water on its way to the mash: waters mixed, salts' alkalinity added, acid shared out."""

import math
from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive, side_by_side
from gristbook.equations.registry import equation
from gristbook.equations.water import CHALK_PER_MILLIEQUIVALENT


@equation(source=sources.LAVOISIER_1789, formula="c = Σ cᵢ Vᵢ / Σ Vᵢ")
def mixed_concentration(
    *,
    concentrations: Annotated[tuple[float, ...], "mg/L", "cᵢ", "of the ion in each water"],
    volumes_l: Annotated[tuple[float, ...], "L", "Vᵢ", "of each water"],
) -> Annotated[float, "mg/L"]:
    """An ion of several waters mixed [mg/L].

    Refuses a negative amount, or no water.

    >>> mixed_concentration(concentrations=(120, 0), volumes_l=(20, 10))
    80.0
    """
    for concentration in concentrations:
        not_negative(concentration, "a concentration")
    return _mean(concentrations, volumes_l)


@equation(
    source=sources.LAVOISIER_1789,
    where="alkalinity mixes as an ion does, while nothing falls out",
    formula="Alk = Σ Alkᵢ Vᵢ / Σ Vᵢ",
)
def mixed_alkalinity(
    *,
    alkalinities: Annotated[tuple[float, ...], "mg/L CaCO₃", "Alkᵢ", "of each water"],
    volumes_l: Annotated[tuple[float, ...], "L", "Vᵢ", "of each water"],
) -> Annotated[float, "mg/L CaCO₃"]:
    """Alkalinity of several waters mixed [mg/L as CaCO₃].

    Refuses a negative amount, or no water.

    >>> mixed_alkalinity(alkalinities=(150, 0), volumes_l=(20, 10))
    100.0
    """
    for alkalinity in alkalinities:
        not_negative(alkalinity, "an alkalinity")
    return _mean(alkalinities, volumes_l)


@equation(source=sources.ATOMIC_MASSES, where="half a CaCO₃ takes up one acid", formula="Alk = Alk₀ + 50.043 Σ aᵢ")
def alkalinity_with_salts(
    *,
    alkalinity: Annotated[float, "mg/L CaCO₃", "Alk₀", "of the water before"],
    added_meq: Annotated[tuple[float, ...], "mEq/L", "aᵢ", "what each salt brings"],
) -> Annotated[float, "mg/L CaCO₃"]:
    """Alkalinity of a water with baking soda, chalk or lime in it [mg/L as CaCO₃].

    Refuses a negative amount.

    >>> alkalinity_with_salts(alkalinity=100, added_meq=(1.0,))
    150.04
    """
    not_negative(alkalinity, "an alkalinity")
    for added in added_meq:
        not_negative(added, "an alkalinity")
    return alkalinity + CHALK_PER_MILLIEQUIVALENT * math.fsum(added_meq)


def _mean(of: tuple[float, ...], volumes_l: tuple[float, ...]) -> float:
    """The mean by volume."""
    side_by_side(of, volumes_l, "waters and their volumes")
    for volume in volumes_l:
        not_negative(volume, "a volume of water")
    positive(math.fsum(volumes_l), "a volume of water")
    return math.fsum(one * volume for one, volume in zip(of, volumes_l, strict=True)) / math.fsum(volumes_l)
