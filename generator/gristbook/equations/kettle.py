"""The wort in the kettle while it boils, and what goes on from there to the fermenter.

Extract and water are conserved; what is added in the boil joins at its own minute.
"""

import math

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive, side_by_side
from gristbook.equations.gravity import extract_concentration
from gristbook.equations.isomerisation import isomerisation_rate
from gristbook.equations.registry import (
    BitternessUnits,
    Celsius,
    Kilograms,
    Litres,
    LitresPerHour,
    Milligrams,
    Minutes,
    Ratio,
    SpecificGravity,
    equation,
)
from gristbook.refusal import Refusal


@equation(
    source=sources.DEFINITION,
    where="boil-off told as litres of cold water an hour",
    formula="V = V_b − b t / 60 + V_d",
    symbols={"boil_l": "V_b", "boil_off": "b", "boiled_min": "t", "dissolved_l": "V_d"},
)
def wort_in_kettle(*, boil_l: Litres, boil_off: LitresPerHour, boiled_min: Minutes, dissolved_l: Litres) -> Litres:
    """Wort in the kettle some minutes into the boil, as cool wort [L].

    Parameters
    ----------
    boil_l : wort at the start of the boil [L]
    boil_off : water that steams away in an hour, as cold water [L/h]
    boiled_min : minutes boiled so far [min]
    dissolved_l : what malt extract, stirred in meanwhile, adds to the volume [L]

    Raises
    ------
    ValueError
        A negative argument, or a kettle that boils dry.

    >>> wort_in_kettle(boil_l=25, boil_off=3, boiled_min=60, dissolved_l=0)
    22.0
    """
    not_negative(boil_off, "a boil-off")
    not_negative(boiled_min, "a boil")
    not_negative(dissolved_l, "a volume")
    steam_l = boil_off * boiled_min / 60
    left = boil_l - steam_l + dissolved_l
    if left <= 0:
        raise Refusal(f"the kettle boils dry: {steam_l:.3g} L would steam away of {boil_l + dissolved_l:.3g} L of wort")
    return left


@equation(
    source=sources.DEFINITION,
    formula="V = V_k − V_l + V_a",
    symbols={"end_of_boil_l": "V_k", "left_in_kettle_l": "V_l", "added_l": "V_a"},
)
def fermenter_volume(*, end_of_boil_l: Litres, left_in_kettle_l: Litres, added_l: Litres) -> Litres:
    """Wort in the fermenter at pitching, top-up in it [L].

    Parameters
    ----------
    end_of_boil_l : wort at the end of the boil, as cool wort [L]
    left_in_kettle_l : wort that stays in the kettle [L]
    added_l : water poured in to make up the batch [L]

    >>> fermenter_volume(end_of_boil_l=22, left_in_kettle_l=2, added_l=0)
    20
    """
    not_negative(left_in_kettle_l, "what stays in the kettle")
    not_negative(added_l, "a top-up")
    into = end_of_boil_l - left_in_kettle_l + added_l
    positive(into, "the wort that reaches the fermenter")
    return into


@equation(
    source=sources.DEFINITION,
    formula="V_a = V − (V_k − V_l)",
    symbols={"batch_l": "V", "end_of_boil_l": "V_k", "left_in_kettle_l": "V_l"},
)
def top_up_water(*, batch_l: Litres, end_of_boil_l: Litres, left_in_kettle_l: Litres) -> Litres:
    """Water that makes a partial boil up to the batch [L].

    Parameters
    ----------
    batch_l : wort wanted in the fermenter [L]
    end_of_boil_l : wort at the end of the boil, as cool wort [L]
    left_in_kettle_l : wort that stays in the kettle [L]

    Raises
    ------
    ValueError
        The kettle gives more than the batch, or nothing at all.

    >>> top_up_water(batch_l=20, end_of_boil_l=9, left_in_kettle_l=1)
    12
    """
    from_kettle = end_of_boil_l - left_in_kettle_l
    positive(from_kettle, "the wort that leaves the kettle")
    if from_kettle > batch_l:
        raise Refusal(f"the kettle gives {from_kettle:.3g} L, more than the batch of {batch_l:.3g} L")
    return batch_l - from_kettle


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
    source=sources.DEFINITION,
    formula="t = Σ tᵢ",
    symbols={"parts": "tᵢ"},
)
def total_minutes(*, parts: tuple[Minutes, ...]) -> Minutes:
    """Minutes added up: in the boil, and the equivalent of a stand [min].

    Parameters
    ----------
    parts : minutes of each [min]

    >>> total_minutes(parts=(60, 3.307))
    63.307
    """
    for part in parts:
        not_negative(part, "a time")
    return math.fsum(parts)


@equation(
    source=sources.DEFINITION,
    formula="IBU = IBU₁ − IBU₀",
    symbols={"after": "IBU₁", "before": "IBU₀"},
)
def gained_bitterness(*, after: BitternessUnits, before: BitternessUnits) -> BitternessUnits:
    """Bitterness that a stand adds to hops which are in the kettle already [IBU].

    Parameters
    ----------
    after : bitterness with the stand [IBU]
    before : bitterness without it [IBU]

    >>> gained_bitterness(after=21.40, before=21.14)
    0.26
    """
    return after - before


@equation(
    source=sources.DEFINITION,
    where="1 IBU is 1 mg of iso-alpha acids in a litre",
    formula="m = IBU × V",
    symbols={"bitterness": "IBU", "volume_l": "V"},
)
def kit_iso_alpha(*, bitterness: BitternessUnits, volume_l: Litres) -> Milligrams:
    """Bitter substance in a hopped malt extract, from what its label promises [mg].

    Parameters
    ----------
    bitterness : bitterness that the label promises [IBU]
    volume_l : in so many litres [L]

    >>> kit_iso_alpha(bitterness=25, volume_l=23)
    575
    """
    not_negative(bitterness, "a bitterness")
    positive(volume_l, "a volume")
    return bitterness * volume_l


@equation(
    source=sources.DEFINITION,
    formula="V = V_b × V_k / (V_k − V_l)",
    symbols={"end_of_boil_l": "V_k", "left_in_kettle_l": "V_l", "batch_l": "V_b"},
)
def spread_volume(*, end_of_boil_l: Litres, left_in_kettle_l: Litres, batch_l: Litres) -> Litres:
    """Volume that what was dissolved in the kettle is spread over, once the rest has been topped up to the batch [L].

    Parameters
    ----------
    end_of_boil_l : wort in the kettle at the end of the boil [L]
    left_in_kettle_l : wort that stays there, with its share [L]
    batch_l : wort in the fermenter, topped up [L]

    >>> spread_volume(end_of_boil_l=9, left_in_kettle_l=1, batch_l=20)
    22.5
    """
    positive(end_of_boil_l - left_in_kettle_l, "the wort that leaves the kettle")
    return batch_l * end_of_boil_l / (end_of_boil_l - left_in_kettle_l)


@equation(source=sources.DEFINITION, formula="CF = V / V_k", symbols={"final_l": "V", "boil_l": "V_k"})
def concentration_factor(*, final_l: Litres, boil_l: Litres) -> Ratio:
    """Final volume against the boil's, which Garetz's hopping rate asks for [ratio].

    Parameters
    ----------
    final_l : volume of the batch [L]
    boil_l : volume of the wort that was boiled [L]

    >>> concentration_factor(final_l=20, boil_l=10)
    2.0
    """
    positive(boil_l, "a boil")
    return final_l / boil_l


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
