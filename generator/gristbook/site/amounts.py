"""How a value is shown, in metric and in US units: one table of sizes and places, and nothing else decides it.

A row says from which number on it is used, the unit it prints, how much of the kept unit one of the printed is, and how
many decimals. A test holds every size to pint.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value

SPACE = "\u00a0"
"""Between a number and its unit: they never part at the end of a line."""

AT_HAND = 32768
"""Numbers whose printed form is kept: those of a shelf of beers, whose workings are made before their pages are."""

POUND, OUNCE = 0.45359237, 0.028349523125
GALLON, QUART, FLUID_OUNCE, TEASPOON = 3.785411784, 0.946352946, 0.0295735295625, 0.00492892159375
FAHRENHEIT, FOOT, PSI = 5 / 9, 0.3048, 0.0689475729


@dataclass(frozen=True, slots=True)
class Row:
    """From ``least`` on (in the kept unit): the printed ``unit``, its ``size`` in the kept one, and its decimals.

    ``trim`` drops zeros at the end of a number that somebody wrote down (67 °C, not 67.0 °C; what was worked out keeps
    them); ``zero`` is where the printed scale begins; ``even`` is for numbers that come out even in the unit.
    """

    least: float
    unit: str
    size: float = 1.0
    places: int = 0
    trim: bool = False
    zero: float = 0.0
    even: bool = False

    def rounded(self, number: float) -> float:
        """The number in the printed unit, as it will be read."""
        return round(number / self.size + self.zero, self.places)


@dataclass(frozen=True, slots=True)
class Rule:
    """How a kept unit is printed: metric rows, and US rows where they differ; the largest ``least`` first."""

    metric: tuple[Row, ...]
    us: tuple[Row, ...] = ()


@dataclass(frozen=True, slots=True)
class Amount:
    """A value as it is printed; ``us`` is empty where both read alike."""

    metric: str
    us: str = ""


def _one(unit: str, places: int = 0, trim: bool = False) -> Rule:
    return Rule((Row(0, unit, places=places, trim=trim),))


_SMALL_WEIGHTS = (Row(0.01, "g", 0.001), Row(0.001, "g", 0.001, 1, trim=True), Row(0, "g", 0.001, 2, trim=True))
_US_WEIGHTS = (
    Row(4 * POUND, "lb oz", OUNCE),
    Row(POUND, "lb oz", OUNCE, 1, trim=True),
    Row(10 * OUNCE, "oz", OUNCE, 1, trim=True),
    Row(0.005, "oz", OUNCE, 2),
    *_SMALL_WEIGHTS,
)
_US_VOLUMES = (
    Row(10 * GALLON, "gal", GALLON, 1, trim=True),
    Row(GALLON, "gal", GALLON, 2, trim=True),
    Row(QUART, "qt", QUART, 1, trim=True),
    Row(FLUID_OUNCE, "fl oz", FLUID_OUNCE, 1, trim=True),
    Row(0, "tsp", TEASPOON, 2, trim=True),
)


def _per_thousand(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """The rows of kilograms for what is kept in grams."""
    return tuple(Row(1000 * r.least, r.unit, 1000 * r.size, r.places, r.trim) for r in rows)


_VOLUMES = (Row(1, "L", places=1, trim=True), Row(0.01, "mL", 0.001), Row(0, "mL", 0.001, 1, trim=True))
_WEIGHTS = (Row(1, "kg", places=2), *_SMALL_WEIGHTS)

RULES: Mapping[str, Rule] = {
    "kg": Rule(_WEIGHTS, _US_WEIGHTS),
    "g": Rule(_per_thousand(_WEIGHTS), _per_thousand(_US_WEIGHTS)),
    "mg": _one("mg"),
    "L": Rule(_VOLUMES, _US_VOLUMES),
    "L/kg": Rule((Row(0, "L/kg", places=2, trim=True),), (Row(0, "qt/lb", QUART / POUND, 2, trim=True),)),
    "L/h": Rule((Row(0, "L/h", places=1, trim=True),), (Row(0, "gal/h", GALLON, 2),)),
    "mL/100 g": _one("mL in 100 g", 2, trim=True),
    "mL/g": Rule((Row(0, "mL/g", places=1, trim=True),), (Row(0, "fl oz/oz", FLUID_OUNCE / OUNCE, 2),)),
    "g/L": Rule((Row(0, "g/L", places=1),), (Row(0, "oz/gal", 1000 * OUNCE / GALLON, 2),)),
    "°C": Rule((Row(0, "°C", places=1, trim=True),), (Row(0, "°F", FAHRENHEIT, zero=32.0),)),
    "m": Rule((Row(0, "m"),), (Row(0, "ft", FOOT),)),
    "bar": Rule((Row(0, "bar", places=1),), (Row(0, "psi", PSI),)),
    "kPa": Rule((Row(0, "kPa", places=1),), (Row(0, "psi", 100 * PSI, 1),)),
    "SG": _one("", 3),
    "°P": _one("°P", 1),
    "fraction": Rule((Row(0, "%", 0.01, 1, trim=True),)),
    "%": _one("%", 1),
    "ratio": _one("", 2),
    "standard deviations": _one("standard deviations", 2, trim=True),
    "points": _one("points", 1, trim=True),
    "IBU": Rule((Row(10, "IBU"), Row(0, "IBU", places=1, trim=True))),
    "SRM": Rule((Row(10, "SRM"), Row(0, "SRM", places=1, trim=True))),
    "EBC": Rule((Row(10, "EBC"), Row(0, "EBC", places=1, trim=True))),
    "°L": _one("°L", 1, trim=True),
    "EBC malt": _one("EBC", 1, trim=True),
    "MCU": _one("MCU", 1),
    "vol": _one("volumes", 1),
    "min": Rule((Row(240, "h", 60, 1, trim=True), Row(10, "min"), Row(0, "min", places=1, trim=True))),
    "d": Rule((Row(28, "weeks", 7, even=True), Row(0, "days", places=1, trim=True))),
    "10⁹ cells": Rule((Row(10, "billion cells"), Row(0, "billion cells", places=1))),
    "10⁹ cells/g": _one("billion cells a gram", 1, trim=True),
    "10⁹ cells/pack": _one("billion cells a pack", 1, trim=True),
    "10⁶ cells/(mL·°P)": _one("million cells a millilitre and degree Plato", 2),
    "packs": _one("packs", 1, trim=True),
    "pieces": _one("pieces", 2, trim=True),
    "g/g": _one("g/g", 3),
    "g/mol": _one("g/mol", 2),
    "kcal": _one("kcal"),
    "kJ": _one("kJ"),
    "mL": Rule((Row(1000, "L", 1000, 1), Row(0, "mL", places=1, trim=True)), _per_thousand(_US_VOLUMES)),
    "mg/L": _one("mg/L"),
    "mg/L CaCO₃": _one("mg/L as CaCO₃"),
    "mEq": _one("mEq", 1),
    "mEq/L": _one("mEq/L", 2),
    "mEq/kg": _one("mEq/kg", 1),
    "mEq/(kg·pH)": _one("mEq/kg for each pH", 1),
    "pH·kg/mEq": _one("pH for each mEq in a kilogram", 4),
    "mEq/mL": _one("mEq/mL", 2),
    "g/mL": _one("g/mL", 3),
    "pH": Rule((Row(0, "", places=2),)),
    "bottles": _one("bottles"),
    "money": _one("", 2),
    "money/kg": _one("a kilogram", 2),
    "money/L": _one("a litre", 2),
    "money each": _one("each", 2),
    "°Bx": _one("°Bx", 1),
    "10⁶ cells/mL": _one("million cells a millilitre", 1),
    "points·gal/lb": _one("ppg", 1),
    "L°/kg": _one("L°/kg"),
    "kg/m³": _one("kg/m³", 1),
    "nm": _one("nm"),
    "cm": _one("cm", 1, trim=True),
    "A": _one("", 3),
    "1/min": _one("a minute", 5),
    "°Lintner": _one("°Lintner"),
    "°WK": _one("°WK"),
}
"""Every unit that a value is kept in, and how it is printed."""

_SINGULAR = {f"{one}s": one for one in ("pack", "piece", "bottle", "point", "volume", "day", "week")}


def amount(value: Value) -> Amount:
    """A value as it is printed: what somebody wrote down without zeros at its end, what was worked out with them."""
    shown = amount_of(value.number, value.unit, worked_out=not isinstance(value.made, Given))
    return Amount(shown.metric) if value.metric else shown


@lru_cache(maxsize=AT_HAND)
def amount_of(number: float, unit: str, *, worked_out: bool = False) -> Amount:
    """A bare number of a kept unit as it is printed.

    Raises
    ------
    KeyError
        The table has no rule for the unit.

    >>> amount_of(3.6, "kg")
    Amount(metric='3.60\\xa0kg', us='7\\xa0lb 15\\xa0oz')
    """
    rule = RULES[unit]
    metric, us = (_kept(rows) if worked_out else rows for rows in (rule.metric, rule.us))
    return _both(_text(number, metric), _text(number, us) if us else "")


def span(value: Value) -> Amount | None:
    """The low and high that nine batches in ten fall between; nothing where they read alike."""
    return _span(value.number, value.low, value.high, value.unit, value.metric) if not value.certain else None


@lru_cache(maxsize=AT_HAND)
def _span(number: float, low: float, high: float, unit: str, metric_only: bool) -> Amount | None:
    rule = RULES[unit]
    metric = _between(number, (low, high), rule.metric)
    if not metric or metric_only or not rule.us:
        return Amount(metric) if metric else None
    return _both(metric, _between(number, (low, high), rule.us))


def from_to(low: float, high: float, unit: str) -> Amount:
    """A span of bare numbers, as it is printed.

    >>> from_to(17, 22, "°C")
    Amount(metric='17 to 22\\xa0°C', us='63 to 72\\xa0°F')
    """
    first, last = amount_of(low, unit), amount_of(high, unit)
    us = f"{first.us.partition(SPACE)[0]} to {last.us}" if last.us else ""
    return Amount(f"{first.metric.partition(SPACE)[0]} to {last.metric}", us)


def bare(number: float) -> str:
    """A number for a machine, to nine digits: the same on every computer."""
    return f"{number:.9g}"


def _both(metric: str, us: str) -> Amount:
    return Amount(metric, "" if us == metric else us)


def _between(number: float, span: tuple[float, float], rows: tuple[Row, ...]) -> str:
    """Both ends as the number itself is printed, the unit said once; nothing where they read alike."""
    row = (_row(number, rows),)
    ends = [_text(end, row) for end in span]
    if ends[0] == ends[1]:
        return ""
    if any("." in end for end in ends):
        ends = [_text(end, _kept(row)) for end in span]
    (first, _, unit), (_, _, other) = (end.partition(SPACE) for end in ends)
    return f"{first} and {ends[1]}" if unit == other and SPACE not in unit else f"{ends[0]} and {ends[1]}"


@cache
def _kept(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """The rows with zeros kept, but for ounces after pounds and for what is counted, which nobody writes so."""
    return tuple(row if row.unit in ("lb oz", "packs", "pieces", "days") else replace(row, trim=False) for row in rows)


def _text(number: float, rows: tuple[Row, ...]) -> str:
    row = _row(number, rows)
    shown = row.rounded(number)
    if row.unit == "lb oz":
        return _pounds(shown, row)
    digits = _digits(shown, row)
    unit = _SINGULAR.get(row.unit, row.unit) if digits == "1" else row.unit
    return f"{digits}{SPACE}{unit}" if unit else digits


def _row(number: float, rows: tuple[Row, ...]) -> Row:
    """The first row that the number reaches, or the one above if rounding lifts it there; none is in the kept unit."""
    if number == 0:
        return replace(next((row for row in rows if row.size == 1.0 and not row.even), rows[0]), trim=True)
    if len(rows) == 1:
        return rows[0]
    rows = tuple(row for row in rows if not row.even or number % row.size == 0) or rows
    place = next((n for n, row in enumerate(rows) if abs(number) >= row.least), len(rows) - 1)
    row = rows[place]
    lifted = place > 0 and abs(row.rounded(number) - row.zero) * row.size >= rows[place - 1].least * (1 - 1e-9)
    return rows[place - 1] if lifted else row


def _pounds(ounces: float, row: Row) -> str:
    pounds, rest = divmod(ounces, 16)
    whole = f"{pounds:.0f}{SPACE}lb"
    return f"{whole} {_digits(round(rest, row.places), row)}{SPACE}oz" if round(rest, row.places) else whole


def _digits(shown: float, row: Row) -> str:
    digits = f"{shown:.{row.places}f}"
    if row.trim and "." in digits:
        digits = digits.rstrip("0").rstrip(".")
    return signed(digits)


def signed(digits: str) -> str:
    """Digits with a true minus in front, and none before nothing."""
    if not digits.startswith("-"):
        return digits
    return digits[1:] if set(digits) <= set("-0.") else "−" + digits[1:]
