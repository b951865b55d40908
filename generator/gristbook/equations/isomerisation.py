"""How fast alpha acids turn into bitter iso-alpha acids in hot wort."""

import math
from typing import Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Celsius, Minutes, PerMinute, Valid, equation

_MEASURED: Final = Valid(90, 130, "measured from 90 to 130 °C, in a buffer of pH 5.2")
_PANELS: Final = 32  # of Simpson's rule: far past the last digit for any fall between two temperatures of wort
_COOLED: Final = 40  # times e, after which nothing of the distance to the surroundings is left


@equation(
    source=sources.MALOWICKI_2005,
    where="rate of isomerisation",
    formula="k₁ = 7.9·10¹¹ e^(−11858 / T), T in kelvin",
    symbols={"temperature": "T − 273.15"},
    valid={"temperature": _MEASURED},
)
def isomerisation_rate(*, temperature: Celsius) -> PerMinute:
    """Rate at which alpha acids isomerise, first order [1/min].

    Parameters
    ----------
    temperature : of the wort [°C]

    Raises
    ------
    ValueError
        A temperature at or below absolute zero.

    >>> isomerisation_rate(temperature=100)
    0.01249
    """
    return 7.9e11 * math.exp(-11858 / _kelvin(temperature))


@equation(
    source=sources.MALOWICKI_2005,
    where="rate of isomerisation, integrated",
    formula="t_eq = ∫ k₁(T) / k₁(100 °C) dt, T falling evenly from T_start to T_end in the time t",
    symbols={"minutes": "t", "start_c": "T_start", "end_c": "T_end"},
    valid={"start_c": _MEASURED, "end_c": _MEASURED},
)
def equivalent_boil_minutes(*, minutes: Minutes, start_c: Celsius, end_c: Celsius) -> Minutes:
    """Minutes at 100 °C in which as much would isomerise as in a stand [min]; they go on the boil curve of a model.

    Only the ratio of the rates is taken from the kinetics. Held at one temperature, it is minutes × k₁(T)/k₁(100 °C).

    Parameters
    ----------
    minutes : length of the stand [min]
    start_c : temperature at its start [°C]
    end_c : temperature at its end [°C], the same for a stand that is held

    Raises
    ------
    ValueError
        Negative minutes, or a temperature at or below absolute zero.

    >>> equivalent_boil_minutes(minutes=20, start_c=80, end_c=80)
    3.307
    """
    not_negative(minutes, "a time")
    step_c = (end_c - start_c) / _PANELS
    rates = [isomerisation_rate(temperature=start_c + i * step_c) for i in range(_PANELS + 1)]
    return minutes * _simpson_mean(rates) / isomerisation_rate(temperature=100)


@equation(
    source=sources.MALOWICKI_2005,
    where="rate of isomerisation, integrated over Newton's curve of cooling",
    formula="t_eq = ∫ k₁(T) / k₁(100 °C) dt, T = T_a + (T_start − T_a) e^(−r t)",
    symbols={"minutes": "t", "start_c": "T_start", "ambient_c": "T_a", "rate": "r"},
    valid={"start_c": _MEASURED},
)
def equivalent_boil_minutes_cooling(
    *, minutes: Minutes, start_c: Celsius, ambient_c: Celsius, rate: PerMinute
) -> Minutes:
    """Minutes at 100 °C in which as much would isomerise as in wort that cools by itself [min].

    As `equivalent_boil_minutes`, for wort that nears the air's or the coolant's temperature ever more slowly.

    Parameters
    ----------
    minutes : length of the stand [min]
    start_c : temperature at its start [°C]
    ambient_c : temperature that the wort would end at [°C]
    rate : share of the distance to it that goes in a minute [1/min]; ln 2 over the minutes that halve the distance

    Raises
    ------
    ValueError
        Negative minutes, a negative rate, or a temperature at or below absolute zero.

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
