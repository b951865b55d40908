"""The brew day as it went: what was measured, turned into what it means. Balances of mass."""

from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.density import DENSITY, water_density
from gristbook.equations.gravity import gravity_from_plato, plato_from_gravity
from gristbook.equations.registry import Valid, checked_by_library, equation, published
from gristbook.refusal import Refusal


@checked_by_library(
    source=sources.KELL_1975,
    where="wort is taken to shrink as water does",
    formula=f"V = V_h ρ(T) / ρ(20), {DENSITY}",
)
def cool_volume(
    *,
    hot_l: Annotated[float, "L", "V_h", "volume as it was read"],
    temperature: Annotated[float, "°C", "T", "how warm the wort was then", Valid(0, 150, "the span of the paper")],
) -> Annotated[float, "L"]:
    """Volume at 20 °C of wort that was measured hot [L]: `density.hot_volume` the other way round.

    Refuses a negative volume.

    >>> cool_volume(hot_l=26.04, temperature=100)
    25.0
    """
    not_negative(hot_l, "a volume of wort")
    return hot_l * water_density(temperature=temperature) / water_density(temperature=20)


@published(
    source=sources.ASBC_EXTRACT,
    where="°Bx and °P are the same measure: grams of sugar, or of extract, in 100 g",
    formula="S such that Bx = −616.868 + 1111.14 S − 630.272 S² + 135.997 S³",
)
def gravity_from_brix(
    *,
    extract: Annotated[
        float,
        "°Bx",
        "Bx",
        "reading of the wort over the correction factor",
        Valid(0, 20, "the table that the cubic was fitted to ends at 20 °P"),
    ],
) -> Annotated[float, "SG"]:
    """Gravity of unfermented wort, by what a refractometer shows over its correction factor [20/20 °C].

    >>> gravity_from_brix(extract=12)
    1.04837
    """
    return gravity_from_plato(extract=extract)


@published(
    source=sources.ASBC_EXTRACT,
    where="°Bx and °P are the same measure: grams of sugar, or of extract, in 100 g",
    formula="Bx = −616.868 + 1111.14 S − 630.272 S² + 135.997 S³",
)
def brix_of_wort(
    *, gravity: Annotated[float, "SG", "S", "gravity of the wort, unfermented"]
) -> Annotated[float, "°Bx"]:
    """What a refractometer's reading over its correction factor would be in wort of this gravity [°Bx].

    >>> brix_of_wort(gravity=1.04837)
    12.00
    """
    return plato_from_gravity(gravity=gravity)


@equation(source=sources.DEFINITION, formula="η = (E − E_o) / m")
def mash_efficiency_shown(
    *,
    extract_kg: Annotated[float, "kg", "E", "extract in the kettle as measured"],
    besides_kg: Annotated[
        float, "kg", "E_o", "extract in it that the mash did not bring: sugars, malt extract, steeped grain"
    ],
    potential_kg: Annotated[float, "kg", "m", "extract that the mashed grain could give"],
) -> Annotated[float, "fraction"]:
    """Share of what the mashed grain could give that came into the kettle [fraction]; below 0 shows a slip.

    Refuses no mashed grain.

    >>> mash_efficiency_shown(extract_kg=2.60, besides_kg=0.2, potential_kg=3.2)
    0.75
    """
    positive(potential_kg, "what the mashed grain could give")
    return (extract_kg - besides_kg) / potential_kg


@equation(source=sources.LAVOISIER_1789, where="well-mixed: what stays takes its share", formula="s = V₁ / V")
def share_that_goes_on(
    *, part_l: Annotated[float, "L", "V₁", "what goes on"], whole_l: Annotated[float, "L", "V", "what there was"]
) -> Annotated[float, "fraction"]:
    """Share of the wort in a vessel, and of its extract, that goes on to the next [fraction].

    Refuses no wort, or more going on than there was.

    >>> share_that_goes_on(part_l=20.5, whole_l=22)
    0.9318
    """
    positive(whole_l, "a volume of wort")
    not_negative(part_l, "a volume of wort")
    if part_l > whole_l:
        raise Refusal(f"{part_l:.3g} L cannot come out of {whole_l:.3g} L")
    return part_l / whole_l


@equation(source=sources.DEFINITION, formula="p = 1000 (S − S₀)")
def points_above(
    *,
    gravity: Annotated[float, "SG", "S", "gravity of the beer"],
    expected: Annotated[float, "SG", "S₀", "gravity that it should end at"],
) -> Annotated[float, "points"]:
    """Gravity that still has to go before a beer is where it should end [points]; below nothing where it went further.

    >>> points_above(gravity=1.014, expected=1.010)
    4.0
    """
    return 1000 * (gravity - expected)
