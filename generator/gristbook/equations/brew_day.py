"""The brew day as it went: what was measured, turned into what it means. Balances of mass."""

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.density import water_density
from gristbook.equations.gravity import gravity_from_plato, plato_from_gravity
from gristbook.equations.registry import (
    Celsius,
    DegreesBrix,
    Fraction,
    GravityPoints,
    Kilograms,
    Litres,
    LitresPerHour,
    Minutes,
    SpecificGravity,
    Valid,
    equation,
)
from gristbook.refusal import Refusal


@equation(
    source=sources.KELL_1975,
    where="wort is taken to shrink as water does",
    formula="V = V_h ρ(T) / ρ(20 °C)",
    symbols={"hot_l": "V_h", "temperature": "T"},
    valid={"temperature": Valid(0, 150, "the span of the paper")},
)
def cool_volume(*, hot_l: Litres, temperature: Celsius) -> Litres:
    """Volume at 20 °C of wort that was measured hot [L]: `density.hot_volume` the other way round.

    Parameters
    ----------
    hot_l : volume as it was read [L]
    temperature : how warm the wort was then [°C]

    >>> cool_volume(hot_l=26.04, temperature=100)
    25.0
    """
    not_negative(hot_l, "a volume of wort")
    return hot_l * water_density(temperature=temperature) / water_density(temperature=20)


@equation(
    source=sources.ASBC_EXTRACT,
    where="°Bx and °P are the same measure: grams of sugar, or of extract, in 100 g",
    formula="S such that Bx = −616.868 + 1111.14 S − 630.272 S² + 135.997 S³",
    symbols={"extract": "Bx"},
    valid={"extract": Valid(0, 20, "the table that the cubic was fitted to ends at 20 °P")},
)
def gravity_from_brix(*, extract: DegreesBrix) -> SpecificGravity:
    """Gravity of unfermented wort, by what a refractometer shows over its correction factor [20/20 °C].

    Parameters
    ----------
    extract : reading of the wort over the correction factor [°Bx]

    >>> gravity_from_brix(extract=12)
    1.04837
    """
    return gravity_from_plato(extract=extract)


@equation(
    source=sources.ASBC_EXTRACT,
    where="°Bx and °P are the same measure: grams of sugar, or of extract, in 100 g",
    formula="Bx = −616.868 + 1111.14 S − 630.272 S² + 135.997 S³",
    symbols={"gravity": "S"},
)
def brix_of_wort(*, gravity: SpecificGravity) -> DegreesBrix:
    """What a refractometer's reading over its correction factor would be in wort of this gravity [°Bx].

    Parameters
    ----------
    gravity : gravity of the wort, unfermented [20/20 °C]

    >>> brix_of_wort(gravity=1.04837)
    12.00
    """
    return plato_from_gravity(gravity=gravity)


@equation(
    source=sources.DEFINITION,
    where="solved for what was stirred in",
    formula="V_d = V − V_b + b t / 60",
    symbols={"end_l": "V", "boil_l": "V_b", "boil_off": "b", "boiled_min": "t"},
)
def dissolved_while_boiling(*, end_l: Litres, boil_l: Litres, boil_off: LitresPerHour, boiled_min: Minutes) -> Litres:
    """What malt extract stirred in during a boil adds to the wort, by a plan's volumes [L].

    Parameters
    ----------
    end_l : wort at the end of the boil, cool [L]
    boil_l : wort at its start, cool [L]
    boil_off : water that steams away in an hour, as cold water [L/h]
    boiled_min : length of the boil [min]

    >>> dissolved_while_boiling(end_l=22.63, boil_l=25, boil_off=3, boiled_min=60)
    0.63
    """
    return end_l - boil_l + boil_off * boiled_min / 60


@equation(
    source=sources.DEFINITION,
    where="solved for the boil-off",
    formula="b = 60 (V_b + V_d − V) / t",
    symbols={"boil_l": "V_b", "dissolved_l": "V_d", "end_l": "V", "boiled_min": "t"},
)
def boil_off_shown(*, boil_l: Litres, dissolved_l: Litres, end_l: Litres, boiled_min: Minutes) -> LitresPerHour:
    """Water that steamed away in an hour, by the wort before the boil and after it [L/h].

    Parameters
    ----------
    boil_l : wort at the start of the boil, cool [L]
    dissolved_l : what was stirred in meanwhile [L]
    end_l : wort at the end, cool [L]
    boiled_min : length of the boil [min]

    Raises
    ------
    ValueError
        A boil of no length.

    >>> boil_off_shown(boil_l=25, dissolved_l=0, end_l=21.7, boiled_min=66)
    3.0
    """
    positive(boiled_min, "the length of a boil")
    return 60 * (boil_l + dissolved_l - end_l) / boiled_min


@equation(
    source=sources.DEFINITION,
    formula="η = (E − E_o) / m",
    symbols={"extract_kg": "E", "besides_kg": "E_o", "potential_kg": "m"},
)
def mash_efficiency_shown(*, extract_kg: Kilograms, besides_kg: Kilograms, potential_kg: Kilograms) -> Fraction:
    """Share of what the mashed grain could give that came into the kettle [fraction]; below 0 shows a slip.

    Parameters
    ----------
    extract_kg : extract in the kettle as measured [kg]
    besides_kg : extract in it that the mash did not bring: sugars, malt extract, steeped grain [kg]
    potential_kg : extract that the mashed grain could give [kg]

    Raises
    ------
    ValueError
        No mashed grain.

    >>> mash_efficiency_shown(extract_kg=2.60, besides_kg=0.2, potential_kg=3.2)
    0.75
    """
    positive(potential_kg, "what the mashed grain could give")
    return (extract_kg - besides_kg) / potential_kg


@equation(source=sources.LAVOISIER_1789, formula="E = E₁ − E₂", symbols={"came_kg": "E₁", "got_through_kg": "E₂"})
def extract_lost(*, came_kg: Kilograms, got_through_kg: Kilograms) -> Kilograms:
    """Extract that came into a vessel and did not leave it with the wort [kg].

    Parameters
    ----------
    came_kg : extract that came in [kg]
    got_through_kg : extract that left with the wort [kg]

    >>> extract_lost(came_kg=3.2, got_through_kg=2.4)
    0.8
    """
    return came_kg - got_through_kg


@equation(
    source=sources.LAVOISIER_1789,
    where="well-mixed: what stays takes its share",
    formula="s = V₁ / V",
    symbols={"part_l": "V₁", "whole_l": "V"},
)
def share_that_goes_on(*, part_l: Litres, whole_l: Litres) -> Fraction:
    """Share of the wort in a vessel, and of its extract, that goes on to the next [fraction].

    Parameters
    ----------
    part_l : what goes on [L]
    whole_l : what there was [L]

    Raises
    ------
    ValueError
        No wort, or more going on than there was.

    >>> share_that_goes_on(part_l=20.5, whole_l=22)
    0.9318
    """
    positive(whole_l, "a volume of wort")
    not_negative(part_l, "a volume of wort")
    if part_l > whole_l:
        raise Refusal(f"{part_l:.3g} L cannot come out of {whole_l:.3g} L")
    return part_l / whole_l


@equation(
    source=sources.DEFINITION,
    formula="p = 1000 (S − S₀)",
    symbols={"gravity": "S", "expected": "S₀"},
)
def points_above(*, gravity: SpecificGravity, expected: SpecificGravity) -> GravityPoints:
    """Gravity that still has to go before a beer is where it should end [points]; below nothing where it went further.

    Parameters
    ----------
    gravity : gravity of the beer [SG]
    expected : gravity that it should end at [SG]

    >>> points_above(gravity=1.014, expected=1.010)
    4.0
    """
    return 1000 * (gravity - expected)
