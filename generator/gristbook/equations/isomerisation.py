"""How fast alpha acids turn into bitter iso-alpha acids in hot wort."""

import math
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Valid, checked_by_library, equation

_MEASURED: Final = Valid(90, 130, "measured from 90 to 130 °C, in a buffer of pH 5.2")
_PANELS: Final = 32  # of Simpson's rule: far past the last digit for any fall between two temperatures of wort
_COOLED: Final = 40  # times e, after which nothing of the distance to the surroundings is left


RATE: Final = "k₁(x) = 7.9·10¹¹ e^(−11858 / (x + 273.15))"
"""What stands behind a formula that has the rate of isomerisation in it."""


@equation(
    source=sources.MALOWICKI_2005, where="rate of isomerisation", formula="k₁ = 7.9·10¹¹ e^(−11858 / (T + 273.15))"
)
def isomerisation_rate(
    *, temperature: Annotated[float, "°C", "T", "of the wort", _MEASURED]
) -> Annotated[float, "1/min"]:
    """Rate at which alpha acids isomerise, first order [1/min].

    Refuses a temperature at or below absolute zero.

    >>> isomerisation_rate(temperature=100)
    0.01249
    """
    return 7.9e11 * math.exp(-11858 / _kelvin(temperature))


@equation(
    source=sources.MALOWICKI_2005,
    where="rate of isomerisation, integrated",
    formula=f"t_eq = t ∫₀¹ k₁(T_start + (T_end − T_start) s) ds / k₁(100), {RATE}",
)
def equivalent_boil_minutes(
    *,
    minutes: Annotated[float, "min", "t", "length of the stand"],
    start_c: Annotated[float, "°C", "T_start", "temperature at its start", _MEASURED],
    end_c: Annotated[float, "°C", "T_end", "temperature at its end, the same for a stand that is held", _MEASURED],
) -> Annotated[float, "min"]:
    """Minutes at 100 °C in which as much would isomerise as in a stand [min]; they go on the boil curve of a model.

    Only the ratio of the rates is taken from the kinetics. Held at one temperature, it is minutes × k₁(T)/k₁(100 °C).
    Refuses negative minutes, or a temperature at or below absolute zero.

    >>> equivalent_boil_minutes(minutes=20, start_c=80, end_c=80)
    3.307
    """
    not_negative(minutes, "a time")
    step_c = (end_c - start_c) / _PANELS
    rates = [isomerisation_rate(temperature=start_c + i * step_c) for i in range(_PANELS + 1)]
    return minutes * _simpson_mean(rates) / isomerisation_rate(temperature=100)


@checked_by_library(
    source=sources.MALOWICKI_2005,
    where="rate of isomerisation, integrated over Newton's curve of cooling",
    formula=f"t_eq = ∫₀ᵗ k₁(T_a + (T_start − T_a) e^(−r s)) ds / k₁(100), {RATE}",
)
def equivalent_boil_minutes_cooling(
    *,
    minutes: Annotated[float, "min", "t", "length of the stand"],
    start_c: Annotated[float, "°C", "T_start", "temperature at its start", _MEASURED],
    ambient_c: Annotated[float, "°C", "T_a", "temperature that the wort would end at"],
    rate: Annotated[
        float,
        "1/min",
        "r",
        "share of the distance to it that goes in a minute; ln 2 over the minutes that halve the distance",
    ],
) -> Annotated[float, "min"]:
    """Minutes at 100 °C in which as much would isomerise as in wort that cools by itself [min].

    As `equivalent_boil_minutes`, for wort that nears the air's or the coolant's temperature ever more slowly.
    Refuses negative minutes, a negative rate, or a temperature at or below absolute zero.

    >>> equivalent_boil_minutes_cooling(minutes=20, start_c=80, ambient_c=20, rate=0)
    3.307
    """
    not_negative(minutes, "a time")
    not_negative(rate, "a rate of cooling")
    boiling = isomerisation_rate(temperature=100)
    still_cooling = min(minutes, _COOLED / rate) if rate > 0 else minutes
    panels = 2 * math.ceil(2 * _PANELS * (1 + rate * still_cooling))
    step = still_cooling / panels
    rates = [
        isomerisation_rate(temperature=ambient_c + (start_c - ambient_c) * math.exp(-rate * i * step))
        for i in range(panels + 1)
    ]
    cold = (minutes - still_cooling) * isomerisation_rate(temperature=ambient_c)
    return (still_cooling * _simpson_mean(rates) + cold) / boiling


def _simpson_mean(values: list[float]) -> float:
    """The mean of a curve by Simpson's rule, from its values at evenly spaced places, odd in number."""
    panels = len(values) - 1
    return (values[0] + values[-1] + 4 * math.fsum(values[1:-1:2]) + 2 * math.fsum(values[2:-1:2])) / (3 * panels)


def _kelvin(temperature: float) -> float:
    """The absolute temperature, refused where there is none."""
    kelvin = temperature + 273.15
    positive(kelvin, "an absolute temperature")
    return kelvin
