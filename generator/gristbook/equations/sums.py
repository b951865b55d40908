"""Sums and differences, for figures that only add up or take apart what others have worked out."""

import math

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative
from gristbook.equations.registry import Days, Fraction, Grams, Litres, equation


@equation(source=sources.DEFINITION, formula="s = Σ sᵢ", symbols={"parts": "sᵢ"})
def total_share(*, parts: tuple[Fraction, ...]) -> Fraction:
    """Shares of one whole, added up [fraction].

    Parameters
    ----------
    parts : each share [fraction]

    >>> total_share(parts=(0.055, 0.010))
    0.065
    """
    for part in parts:
        not_negative(part, "a share")
    return math.fsum(parts)


@equation(source=sources.DEFINITION, formula="t = Σ tᵢ", symbols={"parts": "tᵢ"})
def total_days(*, parts: tuple[Days, ...]) -> Days:
    """Days in the fermenter and in the bottle, added up [d].

    Parameters
    ----------
    parts : days of each stretch [d]

    >>> total_days(parts=(10, 14))
    24.0
    """
    for part in parts:
        not_negative(part, "a time")
    return math.fsum(parts)


@equation(source=sources.DEFINITION, formula="V = Σ Vᵢ", symbols={"parts_l": "Vᵢ"})
def total_volume(*, parts_l: tuple[Litres, ...]) -> Litres:
    """Volumes added up [L].

    Parameters
    ----------
    parts_l : each volume [L]

    >>> total_volume(parts_l=(0.63, 1.0))
    1.63
    """
    for part in parts_l:
        not_negative(part, "a volume")
    return math.fsum(parts_l)


@equation(source=sources.DEFINITION, formula="V = V₁ − V₂", symbols={"whole_l": "V₁", "part_l": "V₂"})
def remaining_volume(*, whole_l: Litres, part_l: Litres) -> Litres:
    """What is left of a volume when a part of it is gone [L].

    Parameters
    ----------
    whole_l : the whole [L]
    part_l : the part that is gone [L]

    >>> remaining_volume(whole_l=22, part_l=2)
    20
    """
    not_negative(part_l, "a volume")
    not_negative(whole_l - part_l, "what is left of a volume")
    return whole_l - part_l


@equation(source=sources.DEFINITION, formula="m = Σ mᵢ", symbols={"parts_g": "mᵢ"})
def total_hops(*, parts_g: tuple[Grams, ...]) -> Grams:
    """Weights of hops added up [g].

    Parameters
    ----------
    parts_g : each weight [g]

    >>> total_hops(parts_g=(50, 40))
    90.0
    """
    for part in parts_g:
        not_negative(part, "a weight")
    return math.fsum(parts_g)
