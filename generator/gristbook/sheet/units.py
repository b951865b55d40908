"""What comes of units in plain arithmetic: one small table, and what a number of a unit can be at all."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf

SHARES = ("ratio", "fraction", "g/g")
"""Units of pure numbers: they leave the unit of what they are multiplied with as it is."""

_PRODUCTS: tuple[tuple[str, str, str, float], ...] = (
    ("kg", "L/kg", "L", 1.0),
    ("g", "mL/g", "L", 1e-3),
    ("g/L", "L", "g", 1.0),
    ("mg/L", "L", "g", 1e-3),
    ("IBU", "L", "mg", 1.0),
    ("L/h", "min", "L", 1 / 60),
    ("packs", "10⁹ cells/pack", "10⁹ cells", 1.0),
    ("mL", "10⁹ cells/mL", "10⁹ cells", 1.0),
    ("mL", "mEq/mL", "mEq", 1.0),
    ("L", "mEq/L", "mEq", 1.0),
    ("mL/L", "L", "mL", 1.0),
    ("kg", "money/kg", "money", 1.0),
    ("g", "money/kg", "money", 1e-3),
    ("L", "money/L", "money", 1.0),
    ("mL", "money/L", "money", 1e-3),
    ("packs", "money each", "money", 1.0),
    ("pieces", "money each", "money", 1.0),
    ("bottles", "L", "L", 1.0),
)
"""Two units, the unit of their product, and how much of it a product of one and one is."""

PRODUCTS: Mapping[tuple[str, str], tuple[str, float]] = {
    pair: (unit, factor) for one, other, unit, factor in _PRODUCTS for pair in ((one, other), (other, one))
}
_SCALES = {
    ("g/L", "mg/L"): (1000.0, "mg/g"),
    ("kg", "g"): (1000.0, "g/kg"),
    ("ratio", "fraction"): (1.0, "ratio"),
    ("ratio", "bottles"): (1.0, "ratio"),
}
QUOTIENTS: Mapping[tuple[str, str], tuple[str, float]] = {
    pair: found
    for one, other, unit, factor in reversed(_PRODUCTS)
    for pair, found in (((unit, one), (other, 1 / factor)), ((unit, other), (one, 1 / factor)))
}

_NOT_BELOW_NOTHING = (
    *("ratio", "kg", "g", "mg", "mg/L", "mEq/kg", "L", "mL", "min", "d", "°Lintner"),
    *("IBU", "SRM", "EBC", "MCU", "°L", "10⁹ cells", "packs", "vol"),
)
BOUNDS: Mapping[str, tuple[float, float]] = {
    "fraction": (0.0, 1.0),
    **dict.fromkeys(_NOT_BELOW_NOTHING, (0.0, inf)),
    "%": (0.0, 100.0),
}
"""What a figure can be at all, by unit: the one place where a number is held to physics."""


def of_product(one: str, other: str) -> tuple[str, float]:
    """The unit of a product, and the factor that comes with it.

    >>> of_product("L/h", "min"), of_product("fraction", "kg")
    (('L', 0.016666666666666666), ('kg', 1.0))

    Raises
    ------
    TypeError
        The table has no such product.
    """
    if one in SHARES and other in SHARES:
        return ("fraction" if one == other == "fraction" else "ratio"), 1.0
    if one in SHARES or other in SHARES:
        return (other if one in SHARES else one), 1.0
    if (one, other) not in PRODUCTS:
        raise TypeError(f"{one} times {other} is no unit of ours")
    return PRODUCTS[one, other]


def of_quotient(one: str, other: str) -> tuple[str, float]:
    """The unit of a quotient, and the factor that comes with it; of like units it is a ratio.

    >>> of_quotient("L", "kg"), of_quotient("L", "L")
    (('L/kg', 1.0), ('ratio', 1.0))

    Raises
    ------
    TypeError
        The table has no such quotient.
    """
    if one == other:
        return "ratio", 1.0
    if other in SHARES:
        return one, 1.0
    if (one, other) not in QUOTIENTS:
        raise TypeError(f"{one} over {other} is no unit of ours")
    return QUOTIENTS[one, other]


def factor_of(unit: str, other: str) -> tuple[float, str]:
    """How many of another unit one of a unit is, and the unit of that number.

    >>> factor_of("g/L", "mg/L")
    (1000.0, 'mg/g')

    Raises
    ------
    TypeError
        The one is not so many of the other.
    """
    if (unit, other) not in _SCALES:
        raise TypeError(f"{unit} cannot be told in {other}")
    return _SCALES[unit, other]


def held(raw: float, unit: str) -> tuple[float, str]:
    """A number held to what its unit can be at all; `least` or `most` where it had to be, else nothing."""
    low, high = BOUNDS.get(unit, (-inf, inf))
    if raw < low:
        return low, "least"
    return (high, "most") if raw > high else (raw, "")
