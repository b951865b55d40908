"""Carbon dioxide in beer as a pressure: in a bottle, and at a keg's regulator."""

import math
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative
from gristbook.equations.registry import Valid, equation

BAR_PER_PSI: Final = 0.0689475729  # a pound-force (4.4482216 N) on a square inch (25.4 mm)
ATMOSPHERE_PSI: Final = 14.695

_FITTED: Final = Valid(0, (70 - 32) / 1.8, "fitted to a table from 32 to 70 °F")
_FORMULA: Final = "vol = (psi + 14.695) × (0.01821 + 0.090115 e^(−(F − 32)/43.11)) − 0.003342, F in °F"


@equation(source=sources.DELANGE_2011, where="solved for the pressure", formula=_FORMULA)
def bottle_pressure(
    *,
    volumes: Annotated[float, "vol", "vol", "gas in the beer"],
    temperature: Annotated[float, "°C", "(F − 32)/1.8", "of the bottle", _FITTED],
) -> Annotated[float, "bar"]:
    """Pressure in a bottle of beer above the air's outside, as a gauge would show it [bar].

    It rises fast with warmth, and the warmest a bottle is kept is what its glass must bear. Above 21 °C the fit is
    carried on, so leave room.

    Refuses negative gas.

    >>> bottle_pressure(volumes=3.0, temperature=20)
    2.60
    """
    return _gauge_bar(volumes, temperature)


@equation(source=sources.DELANGE_2011, where="solved for the pressure", formula=_FORMULA)
def keg_pressure(
    *,
    volumes: Annotated[float, "vol", "vol", "wanted carbonation"],
    temperature: Annotated[float, "°C", "(F − 32)/1.8", "of the keg", _FITTED],
) -> Annotated[float, "bar"]:
    """Pressure to set at a keg's regulator, so that the beer comes to hold this much gas [bar].

    Never above what the keg and its relief valve are rated for; a result below zero needs no gas.

    Refuses negative gas.

    >>> keg_pressure(volumes=3.0, temperature=4)
    1.18
    """
    return _gauge_bar(volumes, temperature)


def fahrenheit(temperature: float) -> float:
    """A temperature in °C as the sources in °F want it."""
    return 32 + 1.8 * temperature


def _gauge_bar(volumes: float, temperature: float) -> float:
    not_negative(volumes, "carbonation")
    return ((volumes + 0.003342) / _volumes_per_psi(temperature) - ATMOSPHERE_PSI) * BAR_PER_PSI


def _volumes_per_psi(temperature: float) -> float:
    """Volumes that each psi of the gas holds dissolved, by the fit."""
    return 0.01821 + 0.090115 * math.exp(-(fahrenheit(temperature) - 32) / 43.11)
