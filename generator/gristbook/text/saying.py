"""A value as a brewer says it in a line, in metric or in US units, so that it is read as it was written."""

import re
from collections.abc import Callable
from math import ceil, log10

from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value

OUNCE_KG, POUND_KG, GALLON_L, TEASPOON_L = 0.028349523125, 0.45359237, 3.785411784, 0.00492892159375

CUP_L = 0.1
"""Below this a volume of a spice is told by the spoon."""
IN_US = re.compile(r"(?<!imp )\b(?:gals?|gallons?|qts?|quarts?|ft|feet)\b|(?<![^\W\d])F\b", re.IGNORECASE)
"""What stands in a volume, a rate, a height or a temperature in the units of the United States."""

_PLUS_OR_MINUS = re.compile(r"±|\+/?-")
_TO = re.compile(r"\d[^±]*(?:\bto\b|[–−-])\s*\d")

Say = Callable[[Value], str]
"""A value as a brewer says it, in one system of units."""


def plain(number: float, figures: int = 6, places: int = 6) -> str:
    """A number in digits alone, to so many figures, without zeros at its end.

    >>> plain(3.6), plain(1234567.0), plain(0.000123456789), plain(2.0, 3)
    ('3.6', '1234570', '0.000123', '2')
    """
    if number == 0:
        return "0"
    at = figures - ceil(log10(abs(number)) + 1e-12)
    rounded = f"{round(number, at):.{max(min(at, places), 0)}f}"
    return rounded.rstrip("0").rstrip(".") if "." in rounded else rounded


def metric(value: Value) -> str:
    """Kilograms, litres, °C."""
    number = value.number
    match value.unit:
        case "kg" if number < 1:
            return f"{plain(1000 * number, 5, 2)} g"
        case "kg":
            return f"{plain(number, 6, 3)} kg"
        case "g" if number >= 1000:
            return f"{plain(number / 1000, 6, 3)} kg"
        case "g":
            return f"{plain(number, 5, 2)} g"
        case "L" if number < 0.1:
            return f"{plain(1000 * number, 5, 2)} mL"
        case "L":
            return f"{plain(number, 6, 3)} L"
    return _either(value)


def in_us(value: Value) -> str:
    """Pounds and ounces, gallons, °F.

    For yeast, whose packet says grams, use `metric`.
    """
    if value.metric:
        return metric(value)
    number = value.number
    match value.unit:
        case "kg" if number < POUND_KG:
            return _ounces(number / OUNCE_KG)
        case "kg":
            ounces = round(number / OUNCE_KG, 2)
            pounds, rest = divmod(ounces, 16)
            return f"{pounds:.0f} lb {plain(rest, 5, 2)} oz" if rest else f"{pounds:.0f} lb"
        case "g":
            return _ounces(number / (1000 * OUNCE_KG))
        case "L" if number >= 0.1:
            return f"{plain(number / GALLON_L, 6, 4)} gal"
        case "°C":
            return f"{plain(number * 1.8 + 32, 5, 2)} °F"
    return metric(value)


def _ounces(number: float) -> str:
    """A tenth of an ounce or less, as a trial brew takes, to more places than a scale has."""
    return f"{plain(number, 5, 3 if number > 0.1 else 5)} oz"


def _either(value: Value) -> str:
    """What both systems say alike."""
    number, unit = value.number, value.unit
    match unit:
        case "fraction":
            return f"{plain(100 * number, 6, 4)} %"
        case "points·gal/lb":
            return f"{plain(number, 6, 4)} ppg"
        case "ratio" | "10⁶ cells/(mL·°P)":
            return plain(number, 6, 4)
        case "min":
            return f"{plain(number, 6, 2)} min"
        case "d" if number < 1:
            return f"{plain(24 * number, 5, 2)} h"
        case "d" if number >= 21 and number % 7 == 0:
            return f"{number / 7:.0f} weeks"
        case "d":
            return f"{plain(number, 6, 3)} {'day' if number == 1 else 'days'}"
        case "SG":
            return f"{number:.4f}".rstrip("0").ljust(5, "0")
        case "EBC malt":
            return f"{plain(number, 5, 2)} EBC"
        case "vol":
            return f"{plain(number, 5, 3)} volumes"
        case "packs":
            return f"{plain(number, 5, 3)} {'pack' if number == 1 else 'packs'}"
        case "pieces":
            return plain(number, 5, 3)
    return f"{plain(number, 6, 3)} {unit}"


def spoons(value: Value) -> str:
    """A small volume (L) in teaspoons."""
    return f"{plain(value.number / TEASPOON_L, 5, 3)} tsp"


def in_line(*parts: str) -> str:
    """A line of the parts that there are."""
    return ", ".join(part for part in parts if part)


def noted(note: str) -> str:
    """What a line says besides, as a part of it."""
    return f"note: {note}" if note else ""


def with_doubt(value: Value, say: Say) -> str:
    """A value with what an author wrote behind ±, or as the range that he wrote."""
    said, size = say(value), 100 if value.unit == "fraction" else 1.8 if value.unit == "°C" and say is in_us else 1

    def written(number: float) -> str:
        return plain(size * number, 4, 3)

    match value.origin:
        case Given(written=words, ends=(low, half)) if _PLUS_OR_MINUS.search(words) or (
            _TO.search(words) and -low == half
        ):
            return f"{said} ± {written(half)}"
        case Given(written=words, ends=(low, high)) if _TO.search(words):
            return f"{said} ({written(value.number + low)} to {written(value.number + high)})"
    return said
