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
