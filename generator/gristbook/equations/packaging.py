"""Bottles for the beer."""

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Bottles, Litres, equation


@equation(source=sources.DEFINITION, formula="n = V / v", symbols={"beer_l": "V", "bottle_l": "v"})
def bottles_to_fill(*, beer_l: Litres, bottle_l: Litres) -> Bottles:
    """Bottles that the beer fills, not rounded: have the next whole number ready, and one to spare [bottles].

    Parameters
    ----------
    beer_l : beer to be packaged [L]
    bottle_l : what one bottle holds [L]

    Raises
    ------
    ValueError
        A negative volume of beer, or a bottle that holds nothing.

    >>> bottles_to_fill(beer_l=18.5, bottle_l=0.5)
    37.0
    """
    not_negative(beer_l, "a volume of beer")
    positive(bottle_l, "what a bottle holds")
    return beer_l / bottle_l
