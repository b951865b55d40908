"""Where water boils: the pressure at an altitude and the temperature of steam at a pressure."""

from math import pow, sqrt
from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.registry import Valid, published
from gristbook.refusal import Refusal

_TROPOSPHERE = Valid(-1000, 11000, "the standard's lowest layer ends at 11 km; weather moves the pressure by 3 % or so")

Altitude = Annotated[float, "m", "h", "height above the sea", _TROPOSPHERE]


@published(
    source=sources.ISO_2533, where="the standard's lowest layer", formula="p = 101.325 (1 − 2.25577·10⁻⁵ × h)^5.25588"
)
def standard_pressure(*, altitude: Altitude) -> Annotated[float, "kPa"]:
    """Pressure of the air in the standard atmosphere [kPa].

    Refuses an altitude above about 44 km, where the formula ends, or below the lowest land.

    >>> standard_pressure(altitude=1000)
    89.875
    """
    if not -1000 <= altitude < 44000:
        raise Refusal(f"nobody brews at {altitude:g} m")
    return 101.325 * pow(1 - 2.25577e-5 * altitude, 5.25588)


@published(
    source=sources.IAPWS_IF97,
    where="equation 31, with the standard atmosphere of ISO 2533",
    formula=(
        "T = ½ (650.17534844798 + D − √((650.17534844798 + D)² − 4 (−0.23855557567849 + 650.17534844798 D))) − 273.15,"
        " D = 2 G / (−F − √(F² − 4 E G)), E = β² − 17.073846940092 β + 14.91510861353,"
        " F = 1167.0521452767 β² + 12020.82470247 β − 4823.2657361591,"
        " G = −724213.16703206 β² − 3232555.0322333 β + 405113.40542057,"
        " β = (p / 1000)^¼, p = 101.325 (1 − 2.25577·10⁻⁵ × h)^5.25588"
    ),
)
def boiling_point(*, altitude: Altitude) -> Annotated[float, "°C"]:
    """Temperature at which water boils [°C]; wort boils 0.2 to 0.5 °C higher (from memory).

    Refuses an altitude outside the formula of the standard atmosphere.

    >>> boiling_point(altitude=0)
    99.97
    """
    return _saturation(standard_pressure(altitude=altitude) / 1000) - 273.15


def _saturation(megapascals: float) -> float:
    """Saturation temperature in kelvins: IAPWS R7-97, equation 31, with the coefficients of its table 34."""
    beta = pow(megapascals, 0.25)
    e = beta * beta - 0.17073846940092e2 * beta + 0.14915108613530e2
    f = 0.11670521452767e4 * beta * beta + 0.12020824702470e5 * beta - 0.48232657361591e4
    g = -0.72421316703206e6 * beta * beta - 0.32325550322333e7 * beta + 0.40511340542057e6
    d = 2 * g / (-f - sqrt(f * f - 4 * e * g))
    sum_ = 0.65017534844798e3 + d
    return (sum_ - sqrt(sum_ * sum_ - 4 * (-0.23855557567849 + 0.65017534844798e3 * d))) / 2
