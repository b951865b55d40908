"""Heat that is shared and lost: hot wort and cold water, wort and ice, a pot that is left to cool.

Wort is taken to hold the heat of as much water; a litre of either weighs a kilogram here, and pot and air take nothing.
Both are out by a few parts in a hundred, so measure before the yeast goes in.
"""

import math
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Valid, checked_by_library, equation
from gristbook.refusal import Refusal

MELTING_KJ_PER_KG: Final = 334.0
WATER_KJ_PER_KG_K: Final = 4.19  # the mean from 20 to 100 °C

_LIQUID: Final = Valid(0, 100, "water is liquid from 0 to 100 °C")


@checked_by_library(
    source=sources.BLACK, where="density and heat taken equal", formula="T = (V_h T_h + V_c T_c) / (V_h + V_c)"
)
def mixed_temperature(
    *,
    hot_l: Annotated[float, "L", "V_h", "wort"],
    hot_c: Annotated[float, "°C", "T_h", "its temperature", _LIQUID],
    cold_l: Annotated[float, "L", "V_c", "water"],
    cold_c: Annotated[float, "°C", "T_c", "its temperature", _LIQUID],
) -> Annotated[float, "°C"]:
    """How warm it gets when hot wort is topped up with cold water [°C].

    Yeast dies above 40 °C or so, and hot wort breaks glass: cool the wort first, and add it to the water.
    Refuses a negative volume, or nothing to mix.

    >>> mixed_temperature(hot_l=8, hot_c=100, cold_l=12, cold_c=10)
    46.0
    """
    not_negative(hot_l, "a volume of wort")
    not_negative(cold_l, "a volume of water")
    positive(hot_l + cold_l, "what is mixed")
    return (hot_l * hot_c + cold_l * cold_c) / (hot_l + cold_l)


@equation(source=sources.BLACK, where="solved for the hot part", formula="T_h = T + V_c (T − T_c) / V_h")
def wort_temperature_before_top_up(
    *,
    pitch_c: Annotated[float, "°C", "T", "temperature wanted for the yeast"],
    wort_l: Annotated[float, "L", "V_h", "wort before the water goes in"],
    cold_l: Annotated[float, "L", "V_c", "water to be added"],
    cold_c: Annotated[float, "°C", "T_c", "its temperature", _LIQUID],
) -> Annotated[float, "°C"]:
    """How far the wort must be cooled, so that cold water then brings it to the temperature for the yeast [°C].

    Above 100 °C means that the water alone cools more than wanted.
    Refuses a negative volume of water, or no wort.

    >>> wort_temperature_before_top_up(pitch_c=18, wort_l=8, cold_l=12, cold_c=10)
    30.0
    """
    positive(wort_l, "a volume of wort")
    not_negative(cold_l, "a volume of water")
    return pitch_c + cold_l * (pitch_c - cold_c) / wort_l


@checked_by_library(
    source=sources.ICE,
    where="ice at 0 °C takes 334 kJ/kg to melt, and 4.19 kJ for each kg and °C from there",
    formula="m = 4.19 V (T₁ − T₂) / (334 + 4.19 T_c)",
)
def ice_for_water(
    *,
    whole_l: Annotated[float, "L", "V", "wort and water together"],
    mixed_c: Annotated[float, "°C", "T₁", "temperature that they come to without ice", _LIQUID],
    target_c: Annotated[float, "°C", "T₂", "temperature wanted", _LIQUID],
    cold_c: Annotated[float, "°C", "T_c", "temperature of the water that the ice stands in for", _LIQUID],
) -> Annotated[float, "kg"]:
    """Melting ice that, in place of as much of the cold water, brings wort to a temperature [kg].

    A kilogram of it melts to a litre, so the volume stays. Straight from a freezer a tenth less will do.
    Refuses a negative volume, or a target below 0 °C or above what the mix comes to by itself.

    >>> ice_for_water(whole_l=20, mixed_c=46, target_c=19, cold_c=10)
    6.019
    """
    not_negative(whole_l, "a volume of wort")
    if not 0 <= target_c <= mixed_c:
        raise Refusal(f"ice cannot bring wort from {mixed_c:g} to {target_c:g} °C")
    return WATER_KJ_PER_KG_K * whole_l * (mixed_c - target_c) / (MELTING_KJ_PER_KG + WATER_KJ_PER_KG_K * cold_c)


@equation(
    source=sources.NEWTON_1701,
    where="law of cooling, solved for the rate",
    formula="r = ln((T_start − T_air) / (T_end − T_air)) / t",
)
def rate_of_cooling(
    *,
    minutes: Annotated[float, "min", "t", "how long it is left"],
    start_c: Annotated[float, "°C", "T_start", "its temperature then"],
    end_c: Annotated[float, "°C", "T_end", "its temperature afterwards"],
    air_c: Annotated[float, "°C", "T_air", "temperature of the air around it"],
) -> Annotated[float, "1/min"]:
    """Share of its distance to the air's temperature that a pot loses in a minute when it is left to cool [1/min].

    Steam from an open pot takes more at first than the law knows: it fits better with the lid on.
    Refuses no time, or an end that is not between the start and the air.

    >>> rate_of_cooling(minutes=30, start_c=100, end_c=60, air_c=20)
    0.0231
    """
    positive(minutes, "a time to cool")
    if not air_c < end_c <= start_c:
        raise Refusal(f"what is left in air of {air_c:g} °C does not go from {start_c:g} to {end_c:g} °C by itself")
    return math.log((start_c - air_c) / (end_c - air_c)) / minutes
