"""Sums of shares and of times, for figures that only add up what others have worked out."""

import math

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative
from gristbook.equations.registry import Days, Fraction, equation


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
