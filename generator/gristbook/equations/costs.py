"""What a brew costs: each ingredient by what it is sold by, all of them together, and a litre of the beer.

Money is in whatever the author counts it in; prices are asked for as they are written on the shelf.
"""

import math

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import (
    Grams,
    Kilograms,
    Litres,
    Millilitres,
    Money,
    MoneyEach,
    MoneyPerKilogram,
    MoneyPerLitre,
    Packs,
    Pieces,
    equation,
)


@equation(source=sources.DEFINITION, formula="P = m p", symbols={"mass_kg": "m", "price": "p"})
def cost_of_kilograms(*, mass_kg: Kilograms, price: MoneyPerKilogram) -> Money:
    """Cost of what is weighed in kilograms [money].

    Parameters
    ----------
    mass_kg : weight [kg]
    price : of a kilogram [money/kg]

    >>> cost_of_kilograms(mass_kg=3.6, price=2.2)
    7.92
    """
    return _times(mass_kg, price)


@equation(source=sources.DEFINITION, formula="P = m p / 1000", symbols={"mass_g": "m", "price": "p"})
def cost_of_grams(*, mass_g: Grams, price: MoneyPerKilogram) -> Money:
    """Cost of what is weighed in grams [money].

    Parameters
    ----------
    mass_g : weight [g]
    price : of a kilogram [money/kg]

    >>> cost_of_grams(mass_g=40, price=36)
    1.44
    """
    return _times(mass_g, price) / 1000


@equation(source=sources.DEFINITION, formula="P = V p", symbols={"volume_l": "V", "price": "p"})
def cost_of_litres(*, volume_l: Litres, price: MoneyPerLitre) -> Money:
    """Cost of what is measured in litres [money].

    Parameters
    ----------
    volume_l : volume [L]
    price : of a litre [money/L]

    >>> cost_of_litres(volume_l=18, price=0.5)
    9.0
    """
    return _times(volume_l, price)


@equation(source=sources.DEFINITION, formula="P = v p / 1000", symbols={"volume_ml": "v", "price": "p"})
def cost_of_millilitres(*, volume_ml: Millilitres, price: MoneyPerLitre) -> Money:
    """Cost of what is measured in millilitres [money].

    Parameters
    ----------
    volume_ml : volume [mL]
    price : of a litre [money/L]

    >>> cost_of_millilitres(volume_ml=3, price=40)
    0.12
    """
    return _times(volume_ml, price) / 1000


@equation(source=sources.DEFINITION, formula="P = n p", symbols={"packs": "n", "price": "p"})
def cost_of_packs(*, packs: Packs, price: MoneyEach) -> Money:
    """Cost of what is sold by the pack [money].

    Parameters
    ----------
    packs : how many [packs]
    price : of one [money each]

    >>> cost_of_packs(packs=2, price=7.5)
    15.0
    """
    return _times(packs, price)


@equation(source=sources.DEFINITION, formula="P = n p", symbols={"pieces": "n", "price": "p"})
def cost_of_pieces(*, pieces: Pieces, price: MoneyEach) -> Money:
    """Cost of what is sold by the piece [money].

    Parameters
    ----------
    pieces : how many [pieces]
    price : of one [money each]

    >>> cost_of_pieces(pieces=0.5, price=0.3)
    0.15
    """
    return _times(pieces, price)


@equation(source=sources.DEFINITION, formula="P = Σ Pᵢ", symbols={"parts": "Pᵢ"})
def total_cost(*, parts: tuple[Money, ...]) -> Money:
    """Costs added up [money].

    Parameters
    ----------
    parts : each cost [money]

    >>> total_cost(parts=(7.92, 1.44))
    9.36
    """
    for part in parts:
        not_negative(part, "a cost")
    return math.fsum(parts)


@equation(source=sources.DEFINITION, formula="p = P / V", symbols={"cost": "P", "beer_l": "V"})
def cost_of_a_litre(*, cost: Money, beer_l: Litres) -> MoneyPerLitre:
    """What a litre of the beer costs [money/L].

    Parameters
    ----------
    cost : of everything in it [money]
    beer_l : beer that comes of it [L]

    Raises
    ------
    ValueError
        A negative cost, or no beer.

    >>> cost_of_a_litre(cost=14.8, beer_l=18.5)
    0.8
    """
    not_negative(cost, "a cost")
    positive(beer_l, "a volume of beer")
    return cost / beer_l


def _times(amount: float, price: float) -> float:
    not_negative(amount, "an amount")
    not_negative(price, "a price")
    return amount * price
