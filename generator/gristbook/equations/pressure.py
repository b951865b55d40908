"""Carbon dioxide in beer as a pressure: in a bottle, and at a keg's regulator."""

import math
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative
from gristbook.equations.registry import Valid, published

BAR_PER_PSI: Final = 0.0689475729  # a pound-force (4.4482216 N) on a square inch (25.4 mm)
ATMOSPHERE_PSI: Final = 14.695

_FITTED: Final = Valid(0, (70 - 32) / 1.8, "fitted to a table from 32 to 70 °F")
_FORMULA: Final = (
    "p = 0.0689475729 ((vol + 0.003342) / (0.01821 + 0.090115 e^(−(F − 32)/43.11)) − 14.695), F = 32 + 1.8 T"
)


@published(
    source=sources.DELANGE_2011,
    where=(
        "solved for the pressure, a psi being 0.0689475729 bar; above 15 °C another fit is lower, by 0.11 bar at 21 °C"
    ),
    formula=_FORMULA,
)
def gauge_pressure(
    *,
    volumes: Annotated[float, "vol", "vol", "gas in the beer, or wanted in it"],
    temperature: Annotated[float, "°C", "T", "of the bottle or the keg", _FITTED],
) -> Annotated[float, "bar"]:
    """Pressure over beer that holds this much gas, above the air's outside, as a gauge would show it [bar].

    In a bottle it rises fast with warmth, and the warmest that one is kept is what its glass must bear; above 21 °C the
    fit is carried on, so leave room. Another fit to the same table lies 0.03 bar lower at 16 °C and 0.11 at 21. At a
    keg's regulator it is what to set: never above what the keg and its relief valve are rated for, and a result below
    zero needs no gas.
    The source has it the other way round: vol = (psi + 14.695) × (0.01821 + …) − 0.003342, in psi and °F.
    Refuses negative gas.

    >>> gauge_pressure(volumes=3.0, temperature=20)
    2.60
    """
    not_negative(volumes, "carbonation")
    volumes_per_psi = 0.01821 + 0.090115 * math.exp(-(fahrenheit(temperature) - 32) / 43.11)
    return ((volumes + 0.003342) / volumes_per_psi - ATMOSPHERE_PSI) * BAR_PER_PSI


@published(
    source=sources.DELANGE_2011,
    where="as it is printed, a psi being 0.0689475729 bar",
    formula="vol = (p / 0.0689475729 + 14.695) (0.01821 + 0.090115 e^(−(F − 32)/43.11)) − 0.003342, F = 32 + 1.8 T",
)
def gas_at_pressure(
    *,
    pressure: Annotated[float, "bar", "p", "on the keg, above the air's", Valid(0, 4, "home brewers' vessels")],
    temperature: Annotated[float, "°C", "T", "of the keg", _FITTED],
) -> Annotated[float, "vol"]:
    """Gas that beer takes up under a pressure that is kept on it until no more goes in [vol].

    Refuses a pressure below the air's.

    >>> gas_at_pressure(pressure=2.60, temperature=20)
    3.00
    """
    not_negative(pressure, "a pressure above the air's")
    volumes_per_psi = 0.01821 + 0.090115 * math.exp(-(fahrenheit(temperature) - 32) / 43.11)
    return (pressure / BAR_PER_PSI + ATMOSPHERE_PSI) * volumes_per_psi - 0.003342


def fahrenheit(temperature: float) -> float:
    """A temperature in °C as the sources in °F want it."""
    return 32 + 1.8 * temperature
