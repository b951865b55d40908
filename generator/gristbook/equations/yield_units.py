"""Potential extract in the units of the trade: points of gravity from a weight of malt in a volume of wort.

Inside the book a potential is a share of the malt's weight. How many points that is depends a little on how thin the
wort is, so each unit is taken at the strength that it is told by: a pound in a gallon, a kilogram in ten litres.
"""

from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import fraction
from gristbook.equations.gravity import CONCENTRATION, wort_extract, wort_gravity
from gristbook.equations.registry import equation, published
from gristbook.refusal import Refusal

POUND_KG: Final = 0.45359237
GALLON_L: Final = 3.785411784  # US
LITRES_TO_A_KILOGRAM: Final = 10.0  # the strength of the wort in the analysis that degrees to a litre come from


@published(
    source=sources.ASBC_EXTRACT,
    where="a pound in a US gallon of wort; a balance of mass",
    formula=f"points such that 453.59237 p / 3.785411784 = c(S), S = 1 + points / 1000, {CONCENTRATION}",
)
def points_per_pound_gallon(
    *, potential: Annotated[float, "fraction", "p", "extract by weight, as the malt or sugar is weighed"]
) -> Annotated[float, "points·gal/lb"]:
    """Points of gravity that a pound gives in a US gallon of wort [points·gal/lb].

    Pure sucrose gives 46.17; books round it to 46, 46.2 or 46.31.
    Refuses a potential outside 0 to 1.

    >>> points_per_pound_gallon(potential=1)
    46.17
    """
    fraction(potential, "a potential")
    return 1000 * (wort_gravity(extract_kg=potential * POUND_KG, wort_l=GALLON_L) - 1)


@published(
    source=sources.ASBC_EXTRACT,
    where="a pound in a US gallon of wort; a balance of mass",
    formula=f"p = 3.785411784 c(S) / 453.59237, S = 1 + points / 1000, {CONCENTRATION}",
)
def potential_from_points_per_pound_gallon(
    *,
    points_per_pound_gallon: Annotated[
        float, "points·gal/lb", "points", "points of gravity of a pound in a US gallon of wort"
    ],
) -> Annotated[float, "fraction"]:
    """Potential extract of what is told in points from a pound in a US gallon [fraction].

    Refuses points below zero.

    >>> potential_from_points_per_pound_gallon(points_per_pound_gallon=37)
    0.800
    """
    return _potential(points_per_pound_gallon, GALLON_L / POUND_KG)


@published(
    source=sources.IOB_EXTRACT,
    where="a kilogram in ten litres of wort; gravity by the cubic fitted to ASBC Table 1",
    formula=f"L° such that 100 p = c(S), S = 1 + L° / 10000, {CONCENTRATION}",
)
def litre_degrees_per_kg(
    *, potential: Annotated[float, "fraction", "p", "extract by weight, as the malt or sugar is weighed"]
) -> Annotated[float, "L°/kg"]:
    """Litres of wort of 1.001 that a kilogram gives [L°/kg].

    Pure sucrose gives 385.6 in ten litres (388 in very thin wort, 384.0 in five litres); books use 384 to 386. A malt's
    own analysis by this method, mashed coarser and at one temperature, comes out some 2 % below its congress mash.
    Refuses a potential outside 0 to 1.

    >>> litre_degrees_per_kg(potential=1)
    385.6
    """
    fraction(potential, "a potential")
    gravity = wort_gravity(extract_kg=potential, wort_l=LITRES_TO_A_KILOGRAM)
    return LITRES_TO_A_KILOGRAM * 1000 * (gravity - 1)


@equation(
    source=sources.IOB_EXTRACT,
    where="a kilogram in ten litres of wort; gravity by the cubic fitted to ASBC Table 1",
    formula=f"p = c(S) / 100, S = 1 + L° / 10000, {CONCENTRATION}",
)
def potential_from_litre_degrees_per_kg(
    *, litre_degrees_per_kg: Annotated[float, "L°/kg", "L°", "litres of wort of 1.001 that a kilogram gives"]
) -> Annotated[float, "fraction"]:
    """Potential extract of what is told in litre-degrees from a kilogram [fraction].

    Refuses degrees below zero.

    >>> potential_from_litre_degrees_per_kg(litre_degrees_per_kg=300)
    0.777
    """
    return _potential(litre_degrees_per_kg / LITRES_TO_A_KILOGRAM, LITRES_TO_A_KILOGRAM)


def _potential(points: float, litres_to_a_kilogram: float) -> float:
    if points < 0:
        raise Refusal(f"a potential cannot be negative, as {points:g} points are")
    return wort_extract(gravity=1 + points / 1000, wort_l=litres_to_a_kilogram)
