"""How a working prints numbers: what goes in has more digits than what comes out, so that the sum comes right."""

from __future__ import annotations

from functools import lru_cache

from gristbook.site.amounts import AT_HAND, SPACE, signed

_UNSPOKEN = {
    **dict.fromkeys(("fraction", "ratio", "SG", "pH"), ""),
    "EBC malt": "EBC",
    "d": "days",
    "vol": "volumes",
}
"""Units that are not written as they are kept."""
_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


@lru_cache(maxsize=AT_HAND)
def result(number: float, unit: str = "") -> str:
    """What comes out of a working, in its own unit.

    >>> result(0.20654321, "kg"), result(1.0431234, "SG"), result(154321.2)
    ('0.2065\\xa0kg', '1.04312', '154321')
    """
    return _exact(
        f"{number:.5f}" if unit == "SG" else f"{number:.4g}" if abs(number) < 9999.5 else f"{number:.0f}", unit
    )


@lru_cache(maxsize=AT_HAND)
def put_in(number: float, unit: str = "") -> str:
    """A number that goes into a working: enough digits to find all digits of the result.

    >>> put_in(0.20654321, "kg"), put_in(1.0431234, "SG"), put_in(0.000020654321)
    ('0.206543\\xa0kg', '1.043123', '2.06543·10⁻⁵')
    """
    return _exact(f"{number:.6f}" if unit == "SG" else f"{number:.6g}", unit)


def _exact(digits: str, unit: str) -> str:
    mantissa, e, power = digits.partition("e")
    if e:
        digits = f"{mantissa}·10{str(int(power)).translate(_RAISED)}"
    word = unit_word(unit)
    return signed(digits) + (f"{SPACE}{word}" if word else "")


def unit_word(unit: str) -> str:
    """How a kept unit is written behind a number; nothing for pure numbers."""
    return _UNSPOKEN.get(unit, unit)
