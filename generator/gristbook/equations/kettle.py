"""The wort in the kettle while it boils, and what goes on from there to the fermenter.

Extract and water are conserved; what is added in the boil joins at its own minute.
"""

import math

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive, side_by_side
from gristbook.equations.gravity import extract_concentration
from gristbook.equations.isomerisation import isomerisation_rate
from gristbook.equations.registry import (
    Celsius,
    Kilograms,
    Litres,
    Minutes,
    SpecificGravity,
    equation,
)


@equation(
    source=sources.LAVOISIER_1789,
    formula="E = c(SG) × V × V_k / (V_k − V_l) / 1000",
    symbols={"gravity": "SG", "batch_l": "V", "end_of_boil_l": "V_k", "left_in_kettle_l": "V_l"},
)
def extract_for_gravity(
    *, gravity: SpecificGravity, batch_l: Litres, end_of_boil_l: Litres, left_in_kettle_l: Litres
) -> Kilograms:
    """Extract that the kettle must hold for the fermenter to have a wanted gravity [kg].

    Parameters
    ----------
    gravity : original gravity wanted [SG]
    batch_l : wort in the fermenter [L]
    end_of_boil_l : wort in the kettle at the end of the boil, as cool wort [L]
    left_in_kettle_l : wort that stays there with its extract [L]

    >>> extract_for_gravity(gravity=1.050, batch_l=10, end_of_boil_l=11, left_in_kettle_l=1)
    1.4282
    """
    positive(end_of_boil_l - left_in_kettle_l, "the wort that leaves the kettle")
    share = end_of_boil_l / (end_of_boil_l - left_in_kettle_l)
    return extract_concentration(gravity=gravity) * batch_l * share / 1000


@equation(
    source=sources.DEFINITION,
    where="the mean over time of a wort that changes evenly between its additions",
    formula="SG = Σ tᵢ (aᵢ + bᵢ) / 2 / Σ tᵢ",
    symbols={"starts": "aᵢ", "ends": "bᵢ", "minutes": "tᵢ"},
)
def time_mean_gravity(
    *, starts: tuple[SpecificGravity, ...], ends: tuple[SpecificGravity, ...], minutes: tuple[Minutes, ...]
) -> SpecificGravity:
    """Mean gravity of the wort over a hop's own minutes, stretch by stretch [SG].

    Parameters
    ----------
    starts : gravity at the start of each stretch [SG]
    ends : gravity at its end [SG]
    minutes : its length [min]

    >>> time_mean_gravity(starts=(1.03505,), ends=(1.03980,), minutes=(60,))
    1.037425
    """
    side_by_side(starts, minutes, "stretches of the boil")
    side_by_side(ends, minutes, "stretches of the boil")
    whole = math.fsum(minutes)
    if whole <= 0:
        return ends[-1]
    return math.fsum(t * (a + b) / 2 for a, b, t in zip(starts, ends, minutes, strict=True)) / whole


@equation(
    source=sources.MALOWICKI_2005,
    where="the rate of isomerisation at the boil's temperature against that at sea level",
    formula="t' = t k₁(T) / k₁(T₀)",
    symbols={"minutes": "t", "boiling_c": "T", "sea_level_c": "T₀"},
)
def minutes_at_altitude(*, minutes: Minutes, boiling_c: Celsius, sea_level_c: Celsius) -> Minutes:
    """Minutes of boiling at sea level in which as much isomerises as in a boil higher up [min].

    By chemistry alone, which takes off more than Garetz's factor of practice does.

    Parameters
    ----------
    minutes : minutes in the boil [min]
    boiling_c : boiling point at this height [°C]
    sea_level_c : boiling point at sea level [°C]

    >>> minutes_at_altitude(minutes=60, boiling_c=95, sea_level_c=100)
    38.97
    """
    not_negative(minutes, "a time")
    return minutes * isomerisation_rate(temperature=boiling_c) / isomerisation_rate(temperature=sea_level_c)
