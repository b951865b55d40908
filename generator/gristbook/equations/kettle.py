"""The wort in the kettle while it boils, and what goes on from there to the fermenter.

Extract and water are conserved; what is added in the boil joins at its own minute.
"""

import math
from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive, side_by_side
from gristbook.equations.gravity import CONCENTRATION, extract_concentration
from gristbook.equations.isomerisation import RATE, isomerisation_rate
from gristbook.equations.registry import equation, published


@equation(source=sources.LAVOISIER_1789, formula=f"E = c(SG) × V × V_k / (V_k − V_l) / 1000, {CONCENTRATION}")
def extract_for_gravity(
    *,
    gravity: Annotated[float, "SG", "SG", "original gravity wanted"],
    batch_l: Annotated[float, "L", "V", "wort in the fermenter"],
    end_of_boil_l: Annotated[float, "L", "V_k", "wort in the kettle at the end of the boil, as cool wort"],
    left_in_kettle_l: Annotated[float, "L", "V_l", "wort that stays there with its extract"],
) -> Annotated[float, "kg"]:
    """Extract that the kettle must hold for the fermenter to have a wanted gravity [kg].

    Refuses a kettle that keeps all its wort.

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
)
def time_mean_gravity(
    *,
    starts: Annotated[tuple[float, ...], "SG", "aᵢ", "gravity at the start of each stretch"],
    ends: Annotated[tuple[float, ...], "SG", "bᵢ", "gravity at its end"],
    minutes: Annotated[tuple[float, ...], "min", "tᵢ", "its length"],
) -> Annotated[float, "SG"]:
    """Mean gravity of the wort over a hop's own minutes, stretch by stretch [SG]; with no minutes, that at their end.

    >>> time_mean_gravity(starts=(1.03505,), ends=(1.03980,), minutes=(60,))
    1.037425
    """
    side_by_side(starts, minutes, "stretches of the boil")
    side_by_side(ends, minutes, "stretches of the boil")
    whole = math.fsum(minutes)
    if whole <= 0:
        return ends[-1]
    return math.fsum(t * (a + b) / 2 for a, b, t in zip(starts, ends, minutes, strict=True)) / whole


@published(
    source=sources.MALOWICKI_2005,
    where="the rate of isomerisation at the boil's temperature against that at sea level",
    formula=f"t' = t k₁(T) / k₁(T₀), {RATE}",
)
def minutes_at_altitude(
    *,
    minutes: Annotated[float, "min", "t", "minutes in the boil"],
    boiling_c: Annotated[float, "°C", "T", "boiling point at this height"],
    sea_level_c: Annotated[float, "°C", "T₀", "boiling point at sea level"],
) -> Annotated[float, "min"]:
    """Minutes of boiling at sea level in which as much isomerises as in a boil higher up [min].

    By chemistry alone, which takes off more than Garetz's factor of practice does.
    Refuses negative minutes.

    >>> minutes_at_altitude(minutes=60, boiling_c=95, sea_level_c=100)
    38.97
    """
    not_negative(minutes, "a time")
    return minutes * isomerisation_rate(temperature=boiling_c) / isomerisation_rate(temperature=sea_level_c)
