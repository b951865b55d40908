"""Extract as a mass: what malts and sugars bring, what a grist must weigh, and where the extract goes."""

from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import fraction, no_more, not_negative, positive, side_by_side
from gristbook.equations.registry import Valid, equation, published

Moisture = Annotated[float, "fraction", "M", "water in the malt as it is"]
FineGrindDryBasis = Annotated[
    float, "fraction", "E_db", "extract of the finely ground, dried malt, as its analysis says"
]


@published(source=sources.ASBC_MALT_4, formula="E = E_db (1 − M)")
def as_is_potential(*, fine_grind_dry_basis: FineGrindDryBasis, moisture: Moisture) -> Annotated[float, "fraction"]:
    """Share of a malt's weight, as it is weighed, that can become extract [fraction].

    Refuses a share outside 0 to 1.

    >>> as_is_potential(fine_grind_dry_basis=0.78, moisture=0.035)
    0.7527
    """
    fraction(fine_grind_dry_basis, "extract of dry malt")
    fraction(moisture, "moisture")
    return fine_grind_dry_basis * (1 - moisture)


@published(source=sources.NOONAN_1996, formula="E = E_db / (1 + M) − 0.002")
def as_is_noonan(
    *,
    coarse_grind_dry_basis: Annotated[
        float, "fraction", "E_db", "extract of the coarsely ground, dried malt, as its analysis says"
    ],
    moisture: Moisture,
) -> Annotated[float, "fraction"]:
    """Extract of a coarsely ground malt as it is weighed, by a brewer's short cut [fraction].

    It differs from the balance of mass, E_db (1 − M), by 0.1 point at 3.5 % of moisture, and the other way round by
    0.3 at 8 %: the balance is what this book uses.
    Refuses a share outside 0 to 1.

    >>> as_is_noonan(coarse_grind_dry_basis=0.78, moisture=0.035)  # the printed example
    0.752
    """
    fraction(coarse_grind_dry_basis, "extract of dry malt")
    fraction(moisture, "moisture")
    return coarse_grind_dry_basis / (1 + moisture) - 0.002


@equation(source=sources.ASBC_MALT_4, formula="E = (E_db − d) (1 − M)")
def coarse_as_is(
    *,
    fine_grind_dry_basis: FineGrindDryBasis,
    fine_coarse_difference: Annotated[
        float,
        "fraction",
        "d",
        "what the coarse grind gives less, in the same analysis",
        Valid(0.01, 0.02, "malts differ by 1 to 2 points (from memory)"),
    ],
    moisture: Moisture,
) -> Annotated[float, "fraction"]:
    """Extract of a malt as it is weighed, ground as coarsely as a brewer grinds it [fraction].

    Refuses a share outside 0 to 1, or a difference of more than the whole extract.

    >>> coarse_as_is(fine_grind_dry_basis=0.81, fine_coarse_difference=0.015, moisture=0.04)
    0.7632
    """
    fraction(fine_grind_dry_basis, "extract of dry malt")
    fraction(fine_coarse_difference, "a difference of extracts")
    fraction(moisture, "moisture")
    no_more(fine_coarse_difference, fine_grind_dry_basis, "a difference of extracts")
    return (fine_grind_dry_basis - fine_coarse_difference) * (1 - moisture)


@equation(source=sources.LAVOISIER_1789, where="Σ m xᵢ yᵢ = E, solved for m", formula="m = E / Σ xᵢ yᵢ")
def grist_mass(
    *,
    extract_kg: Annotated[float, "kg", "E", "extract wanted from the grist"],
    shares: Annotated[tuple[float, ...], "fraction", "xᵢ", "each line's share of the grist by weight; 1 in all"],
    yields: Annotated[
        tuple[float, ...],
        "fraction",
        "yᵢ",
        "each line's extract by its weight: potential times efficiency, or the potential if it dissolves",
    ],
) -> Annotated[float, "kg"]:
    """What a grist given in shares must weigh to bring this extract [kg].

    Refuses a negative extract, a share or a yield outside 0 to 1, or a grist that brings nothing.

    >>> grist_mass(extract_kg=1.4282, shares=(0.5, 0.5), yields=(0.793 * 0.70, 0.778 * 0.70))
    2.597
    """
    not_negative(extract_kg, "an extract")
    side_by_side(shares, yields, "shares and yields")
    for part in (*shares, *yields):
        fraction(part, "a share or a yield")
    from_each_kg = sum(part * brings for part, brings in zip(shares, yields, strict=True))
    positive(from_each_kg, "the extract from a kilogram of the grist")
    return extract_kg / from_each_kg
