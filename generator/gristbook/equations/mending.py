"""What mends a wort on the brew day: boiling on, water, malt extract. Extract and water are conserved."""

from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.gravity import CONCENTRATION, extract_concentration
from gristbook.equations.registry import equation

InTheWort = Annotated[float, "kg", "E", "extract in the wort"]
GravityWanted = Annotated[float, "SG", "SG", "gravity wanted"]
WortAsItIs = Annotated[float, "L", "V", "wort as it is, cool"]


@equation(
    source=sources.LAVOISIER_1789,
    where="extract stays, water steams away",
    formula=f"t = 60 (V − 1000 E / c(SG)) / b, {CONCENTRATION}",
)
def minutes_to_boil_down(
    *,
    extract_kg: InTheWort,
    wort_l: WortAsItIs,
    gravity: GravityWanted,
    boil_off: Annotated[float, "L/h", "b", "water that steams away in an hour"],
) -> Annotated[float, "min"]:
    """How long to boil on until the wort has a wanted gravity [min].

    Refuses wort that is strong enough already, or a kettle that does not steam.

    >>> minutes_to_boil_down(extract_kg=2.3, wort_l=22, gravity=1.044, boil_off=3)
    37.1
    """
    positive(boil_off, "a boil-off")
    away_l = wort_l - 1000 * extract_kg / extract_concentration(gravity=gravity)
    not_negative(away_l, "the water to boil away")
    return 60 * away_l / boil_off


@equation(
    source=sources.LAVOISIER_1789,
    where="extract stays, and is thinned",
    formula=f"V_w = 1000 E / c(SG) − V, {CONCENTRATION}",
)
def water_to_thin(*, extract_kg: InTheWort, wort_l: WortAsItIs, gravity: GravityWanted) -> Annotated[float, "L"]:
    """Water that brings wort down to a wanted gravity [L].

    Refuses wort that is thin enough already.

    >>> water_to_thin(extract_kg=2.6, wort_l=21, gravity=1.044)
    1.77
    """
    more_l = 1000 * extract_kg / extract_concentration(gravity=gravity) - wort_l
    not_negative(more_l, "the water to add")
    return more_l


@equation(source=sources.LAVOISIER_1789, formula=f"V = 1000 E / c(SG), {CONCENTRATION}")
def wort_of_gravity(
    *, extract_kg: InTheWort, gravity: Annotated[float, "SG", "SG", "gravity of the wort"]
) -> Annotated[float, "L"]:
    """Volume in which an extract makes wort of a gravity [L].

    Refuses a gravity of no extract.

    >>> wort_of_gravity(extract_kg=2.6, gravity=1.044)
    22.77
    """
    not_negative(extract_kg, "an extract")
    concentration = extract_concentration(gravity=gravity)
    positive(concentration, "the extract of a litre")
    return 1000 * extract_kg / concentration


@equation(
    source=sources.LAVOISIER_1789,
    where="malt extract brings extract, and room that it takes",
    formula=f"m = (c(SG) V / 1000 − E) / (p − v c(SG) / 1000), {CONCENTRATION}",
)
def malt_extract_to_strengthen(
    *,
    extract_kg: InTheWort,
    wort_l: WortAsItIs,
    gravity: GravityWanted,
    potential: Annotated[float, "fraction", "p", "share of the malt extract that is extract, about 0.96 when dried"],
    litres_per_kg: Annotated[float, "L/kg", "v", "what a kilogram adds to the wort"],
) -> Annotated[float, "kg"]:
    """Malt extract that brings wort up to a wanted gravity [kg].

    Refuses wort that is strong enough already, or a gravity that malt extract itself does not have.

    >>> malt_extract_to_strengthen(extract_kg=2.3, wort_l=22, gravity=1.044, potential=0.96, litres_per_kg=0.63)
    0.2386
    """
    wanted = extract_concentration(gravity=gravity) / 1000
    positive(potential - litres_per_kg * wanted, "what the malt extract brings above the gravity wanted")
    short_kg = wanted * wort_l - extract_kg
    not_negative(short_kg, "the extract that is missing")
    return short_kg / (potential - litres_per_kg * wanted)


@equation(source=sources.LAVOISIER_1789, formula=f"m = (c(SG) V / 1000 − E) / p, {CONCENTRATION}")
def malt_extract_to_fill(
    *,
    extract_kg: InTheWort,
    wanted_l: Annotated[float, "L", "V", "wort wanted, cool"],
    gravity: GravityWanted,
    potential: Annotated[float, "fraction", "p", "share of the malt extract that is extract"],
) -> Annotated[float, "kg"]:
    """Malt extract that is missing for a wanted volume of a wanted gravity, whatever water that takes [kg].

    Refuses more extract in the wort than is wanted.

    >>> malt_extract_to_fill(extract_kg=2.3, wanted_l=22, gravity=1.044, potential=0.96)
    0.2207
    """
    positive(potential, "what the malt extract brings")
    short_kg = extract_concentration(gravity=gravity) / 1000 * wanted_l - extract_kg
    not_negative(short_kg, "the extract that is missing")
    return short_kg / potential
