"""What becomes of brewing water on its way to the mash: waters mixed, salts' alkalinity added, acid shared out."""

import math

from gristbook.equations import sources
from gristbook.equations.bounds import fraction, no_more, not_negative, positive, side_by_side
from gristbook.equations.registry import (
    AsCalciumCarbonate,
    Fraction,
    Litres,
    Milliequivalents,
    MilliequivalentsPerLitre,
    MilliequivalentsPerMillilitre,
    MilligramsPerLitre,
    Millilitres,
    equation,
)
from gristbook.equations.water import CHALK_PER_MILLIEQUIVALENT


@equation(
    source=sources.LAVOISIER_1789,
    formula="c = Σ cᵢ Vᵢ / Σ Vᵢ",
    symbols={"concentrations": "cᵢ", "volumes_l": "Vᵢ"},
)
def mixed_concentration(
    *, concentrations: tuple[MilligramsPerLitre, ...], volumes_l: tuple[Litres, ...]
) -> MilligramsPerLitre:
    """An ion of several waters mixed [mg/L].

    Parameters
    ----------
    concentrations : of the ion in each water [mg/L]
    volumes_l : of each water [L]

    Raises
    ------
    ValueError
        Lists of different lengths, a negative amount, or no water.

    >>> mixed_concentration(concentrations=(120, 0), volumes_l=(20, 10))
    80.0
    """
    for concentration in concentrations:
        not_negative(concentration, "a concentration")
    return _mean(concentrations, volumes_l)


@equation(
    source=sources.LAVOISIER_1789,
    where="alkalinity mixes as an ion does, while nothing falls out",
    formula="Alk = Σ Alkᵢ Vᵢ / Σ Vᵢ",
    symbols={"alkalinities": "Alkᵢ", "volumes_l": "Vᵢ"},
)
def mixed_alkalinity(
    *, alkalinities: tuple[AsCalciumCarbonate, ...], volumes_l: tuple[Litres, ...]
) -> AsCalciumCarbonate:
    """Alkalinity of several waters mixed [mg/L as CaCO₃].

    Parameters
    ----------
    alkalinities : of each water [mg/L as CaCO₃]
    volumes_l : of each water [L]

    Raises
    ------
    ValueError
        Lists of different lengths, a negative amount, or no water.

    >>> mixed_alkalinity(alkalinities=(150, 0), volumes_l=(20, 10))
    100.0
    """
    for alkalinity in alkalinities:
        not_negative(alkalinity, "an alkalinity")
    return _mean(alkalinities, volumes_l)


@equation(source=sources.DEFINITION, formula="V = x V₀", symbols={"share": "x", "whole_l": "V₀"})
def share_of_water(*, share: Fraction, whole_l: Litres) -> Litres:
    """A share of the brewing water [L].

    Parameters
    ----------
    share : of the whole [fraction]
    whole_l : all the brewing water [L]

    Raises
    ------
    ValueError
        A share outside 0 to 1, or a negative volume.

    >>> share_of_water(share=0.5, whole_l=30)
    15.0
    """
    fraction(share, "a share of the water")
    not_negative(whole_l, "a volume of water")
    return share * whole_l


@equation(
    source=sources.ATOMIC_MASSES,
    where="half a CaCO₃ takes up one acid",
    formula="Alk = Alk₀ + 50.04 Σ aᵢ",
    symbols={"alkalinity": "Alk₀", "added_meq": "aᵢ"},
)
def alkalinity_with_salts(
    *, alkalinity: AsCalciumCarbonate, added_meq: tuple[MilliequivalentsPerLitre, ...]
) -> AsCalciumCarbonate:
    """Alkalinity of a water with baking soda, chalk or lime in it [mg/L as CaCO₃].

    Parameters
    ----------
    alkalinity : of the water before [mg/L as CaCO₃]
    added_meq : what each salt brings [mEq/L]

    Raises
    ------
    ValueError
        A negative amount.

    >>> alkalinity_with_salts(alkalinity=100, added_meq=(1.0,))
    150.04
    """
    not_negative(alkalinity, "an alkalinity")
    for added in added_meq:
        not_negative(added, "an alkalinity")
    return alkalinity + CHALK_PER_MILLIEQUIVALENT * math.fsum(added_meq)


@equation(
    source=sources.DEFINITION,
    where="`acid_volume` the other way round",
    formula="A = v c",
    symbols={"volume_ml": "v", "acid_strength": "c"},
)
def acid_added(*, volume_ml: Millilitres, acid_strength: MilliequivalentsPerMillilitre) -> Milliequivalents:
    """Acid in so many millilitres from the bottle [mEq].

    Parameters
    ----------
    volume_ml : poured in [mL]
    acid_strength : acid in a millilitre of what the bottle holds [mEq/mL]

    Raises
    ------
    ValueError
        A negative amount.

    >>> acid_added(volume_ml=2, acid_strength=11.78)
    23.56
    """
    not_negative(volume_ml, "a volume of acid")
    not_negative(acid_strength, "an acid's strength")
    return volume_ml * acid_strength


@equation(
    source=sources.LAVOISIER_1789,
    formula="A = A₀ V / V₀",
    symbols={"acid_meq": "A₀", "part_l": "V", "whole_l": "V₀"},
)
def acid_in_part(*, acid_meq: Milliequivalents, part_l: Litres, whole_l: Litres) -> Milliequivalents:
    """Acid that a part of the water takes along, when it was stirred into the whole [mEq].

    Parameters
    ----------
    acid_meq : stirred into the whole [mEq]
    part_l : the part [L]
    whole_l : all the water that the acid went into [L]

    Raises
    ------
    ValueError
        A negative amount, no water, or a part that is more than the whole.

    >>> acid_in_part(acid_meq=24, part_l=15, whole_l=30)
    12.0
    """
    not_negative(acid_meq, "an amount of acid")
    not_negative(part_l, "a volume of water")
    positive(whole_l, "a volume of water")
    no_more(part_l, whole_l, "a part of the water")
    return acid_meq * part_l / whole_l


@equation(source=sources.LAVOISIER_1789, formula="A = Σ Aᵢ", symbols={"parts_meq": "Aᵢ"})
def total_acid(*, parts_meq: tuple[Milliequivalents, ...]) -> Milliequivalents:
    """Acid from several bottles, added up [mEq].

    Parameters
    ----------
    parts_meq : from each [mEq]

    >>> total_acid(parts_meq=(12, 20.5))
    32.5
    """
    for part in parts_meq:
        not_negative(part, "an amount of acid")
    return math.fsum(parts_meq)


def _mean(of: tuple[float, ...], volumes_l: tuple[float, ...]) -> float:
    """The mean by volume."""
    side_by_side(of, volumes_l, "waters and their volumes")
    for volume in volumes_l:
        not_negative(volume, "a volume of water")
    positive(math.fsum(volumes_l), "a volume of water")
    return math.fsum(one * volume for one, volume in zip(of, volumes_l, strict=True)) / math.fsum(volumes_l)
