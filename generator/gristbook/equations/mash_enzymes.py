"""The mash's enzymes: how much of them a grist brings, and where each works best.

Published ranges differ from book to book, so every one stands with its source. How fast beta-amylase dies is not here:
the two measurements at hand, 17 % left after 30 minutes at 65 °C and 8 % after 60, lie on no one curve.
"""

from dataclasses import dataclass
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive, side_by_side
from gristbook.equations.registry import Source, published


@dataclass(frozen=True, slots=True)
class EnzymeRange:
    """Temperatures at which an enzyme is at its best, as one source has them [°C]."""

    enzyme: str
    low_c: float
    high_c: float
    source: Source


# Rows of Palmer's come from whole °F: 95-113, 113-131, 131-150 and 154-162.
ENZYMES: Final = (
    EnzymeRange("beta-glucanase", 35, 45, sources.PALMER_2001),
    EnzymeRange("beta-glucanase", 40, 45, sources.ENZYME_ARTICLE),
    EnzymeRange("beta-glucanase", 40, 45, sources.ENZYME_ENCYCLOPAEDIA),
    EnzymeRange("protease", 45, 55, sources.PALMER_2001),
    EnzymeRange("protease", 45, 50, sources.ENZYME_ARTICLE),
    EnzymeRange("protease", 50, 54, sources.ENZYME_ENCYCLOPAEDIA),
    EnzymeRange("beta-amylase", 55, 66, sources.PALMER_2001),
    EnzymeRange("beta-amylase", 60, 65, sources.ENZYME_ARTICLE),
    EnzymeRange("beta-amylase", 62, 67, sources.ENZYME_ENCYCLOPAEDIA),
    EnzymeRange("alpha-amylase", 68, 72, sources.PALMER_2001),
    EnzymeRange("alpha-amylase", 70, 75, sources.ENZYME_ARTICLE),
    EnzymeRange("alpha-amylase", 71, 72, sources.ENZYME_ENCYCLOPAEDIA),
    EnzymeRange("alpha-amylase", 72, 75, sources.KUNZE),
)

# Mean power of a grist below which its starch may not be converted: the Companion's 35, older texts 40 [°Lintner].
LEAST_DIASTATIC_POWER: Final = 35.0


def enzymes_at(temperature: float) -> tuple[str, ...]:
    """Enzymes that some source has at their best at this temperature [°C], from the coolest to the hottest.

    >>> enzymes_at(65)
    ('beta-amylase',)
    >>> enzymes_at(45)
    ('beta-glucanase', 'protease')
    """
    at_work = (row.enzyme for row in ENZYMES if row.low_c <= temperature <= row.high_c)
    return tuple(dict.fromkeys(at_work))


@published(
    source=sources.WINDISCH_KOLBACH,
    where="under Lintner: the mean of the grist, by weight",
    formula="L = Σ mᵢ Lᵢ / Σ mᵢ",
)
def mean_diastatic_power(
    *,
    masses_kg: Annotated[tuple[float, ...], "kg", "mᵢ", "mass of each grain in the mash, those without enzymes too"],
    powers: Annotated[
        tuple[float, ...], "°Lintner", "Lᵢ", "diastatic power of each, 0 for roasted and caramel malt and for raw grain"
    ],
) -> Annotated[float, "°Lintner"]:
    """Diastatic power of a whole grist [°Lintner]; below 35 or so it may not convert its own starch.

    Refuses a negative mass or power, or no grain at all.

    >>> mean_diastatic_power(masses_kg=(3.6, 0.4), powers=(60, 0))
    54.0
    """
    side_by_side(masses_kg, powers, "masses and powers")
    for value in (*masses_kg, *powers):
        not_negative(value, "a mass or a power")
    positive(sum(masses_kg), "the whole grist")
    return sum(kg * power for kg, power in zip(masses_kg, powers, strict=True)) / sum(masses_kg)
