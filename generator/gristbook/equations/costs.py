"""What a brew costs: each ingredient by what it is sold by, all of them together, and a litre of the beer.

Money is in whatever the author counts it in; prices are asked for as they are written on the shelf.
"""

from gristbook.equations.bounds import not_negative


def _times(amount: float, price: float) -> float:
    not_negative(amount, "an amount")
    not_negative(price, "a price")
    return amount * price
