"""In which unit and to which step a value is shown, in metric and in US units: one table, and nothing else decides it.

A row says from which number on it is used, the unit it prints, how much of the kept unit one of the printed is, how
many decimals, and the step that a kitchen can measure (common practice, no source: a scale of 1 g or 0.05 oz, a jug
marked in 5 mL, a spoon in quarters). A test holds every size to pint.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import ceil, copysign, floor

EXACT = 1e-9
"""A number of a computer so near to another is that other."""

POUND, OUNCE = 0.45359237, 0.028349523125
GALLON, QUART, FLUID_OUNCE, TEASPOON = 3.785411784, 0.946352946, 0.0295735295625, 0.00492892159375
FAHRENHEIT, FOOT, PSI = 5 / 9, 0.3048, 0.0689475729


@dataclass(frozen=True, slots=True)
class Row:
    """From ``least`` on (in the kept unit): the printed ``unit``, its ``size`` in the kept one, and its decimals.

    ``trim`` drops zeros at the end of a number that somebody wrote down (67 °C, not 67.0 °C; what was worked out keeps
    them); ``zero`` is where the printed scale begins; ``even`` is for numbers that come out even in the unit; ``step``
    is what a kitchen can measure or a brewer can use, of which there is at least one in anything; ``up`` is for what
    is bought whole.
    """

    least: float
    unit: str
    size: float = 1.0
    places: int = 0
    trim: bool = False
    zero: float = 0.0
    even: bool = False
    step: float = 0.0
    up: bool = False

    def rounded(self, number: float, *, written: bool = False) -> float:
        """The number in the printed unit, as it will be read; what is ``written`` in so few decimals stays."""
        shown = number / self.size + self.zero
        if not self.step or (written and abs(shown - round(shown, self.places)) < EXACT):
            return round(shown, self.places)
        many = abs(shown) / self.step
        steps = max(ceil(many - EXACT) if self.up else floor(many + 0.5 + EXACT), 1 if shown else 0)
        return copysign(round(steps * self.step, self.places), shown)

    def kept_to(self, number: float, most: float) -> Row:
        """The row with as many more decimals as bring the number within ``most`` of itself; two at most."""
        if self.step or not most:
            return self
        if abs(self._off(number)) <= most:
            return self
        more = replace(self, places=self.places + 1)
        return more if abs(more._off(number)) <= most else replace(self, places=self.places + 2)

    def _off(self, number: float) -> float:
        return (self.rounded(number) - self.zero) * self.size - number


@dataclass(frozen=True, slots=True)
class Rule:
    """How a kept unit is printed: metric rows, and US rows where they differ; the largest ``least`` first."""

    metric: tuple[Row, ...]
    us: tuple[Row, ...] = ()


def _one(unit: str, places: int = 0, trim: bool = False) -> Rule:
    return Rule((Row(0, unit, places=places, trim=trim),))


def _per_thousand(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """The rows of kilograms for what is kept in grams, of litres for millilitres."""
    return tuple(replace(row, least=1000 * row.least, size=1000 * row.size) for row in rows)


_PINCHES = (Row(0.0005, "g", 0.001, 1, trim=True, step=0.1), Row(0, "g", 0.001, 2, trim=True, step=0.01))
_SMALL_WEIGHTS = (Row(0.01, "g", 0.001, step=1), Row(0.002, "g", 0.001, 1, trim=True, step=0.5), *_PINCHES)
_WEIGHTS = (Row(10, "kg", places=2, step=0.05), Row(1, "kg", places=2, step=0.01), *_SMALL_WEIGHTS)
_FINE_WEIGHTS = (
    *_WEIGHTS[:2],
    Row(0.01, "g", 0.001, 1, trim=True, step=0.5),
    Row(0.001, "g", 0.001, 1, trim=True, step=0.1),
    _PINCHES[-1],
)
_US_WEIGHTS = (
    Row(4 * POUND, "lb oz", OUNCE, step=1),
    Row(POUND, "lb oz", OUNCE, 1, trim=True, step=0.5),
    Row(10 * OUNCE, "oz", OUNCE, 3, trim=True, step=0.1),
    Row(0.01, "oz", OUNCE, 3, trim=True, step=0.05),
    *_SMALL_WEIGHTS[1:],
)
_VOLUMES = (
    Row(1, "L", places=1, trim=True, step=0.1),
    Row(0.1, "mL", 0.001, step=5),
    Row(0.01, "mL", 0.001, step=1),
    Row(0.002, "mL", 0.001, 1, trim=True, step=0.5),
    Row(0, "mL", 0.001, 1, trim=True, step=0.1),
)
_FINE_VOLUMES = (*_VOLUMES[:3], Row(0.005, "mL", 0.001, 1, trim=True, step=0.5), _VOLUMES[-1])
_US_VOLUMES = (
    Row(10 * GALLON, "gal", GALLON, 1, trim=True, step=0.1),
    Row(GALLON, "gal", GALLON, 2, trim=True, step=0.05),
    Row(QUART, "qt", QUART, 1, trim=True, step=0.1),
    Row(FLUID_OUNCE, "fl oz", FLUID_OUNCE, 1, trim=True, step=0.5),
    Row(0, "tsp", TEASPOON, 2, trim=True, step=0.25),
)
FINE: Mapping[str, tuple[Row, ...]] = {
    "kg": _FINE_WEIGHTS,
    "g": _per_thousand(_FINE_WEIGHTS),
    "L": _FINE_VOLUMES,
    "mL": _per_thousand(_FINE_VOLUMES),
}
"""For salts, sulfites and acids, which a pocket scale and a syringe measure."""

RULES: Mapping[str, Rule] = {
    "kg": Rule(_WEIGHTS, _US_WEIGHTS),
    "g": Rule(_per_thousand(_WEIGHTS), _per_thousand(_US_WEIGHTS)),
    "mg": _one("mg"),
    "L": Rule(_VOLUMES, _US_VOLUMES),
    "L/kg": Rule((Row(0, "L/kg", places=2, trim=True),), (Row(0, "qt/lb", QUART / POUND, 2, trim=True),)),
    "L/h": Rule((Row(0, "L/h", places=1, trim=True),), (Row(0, "gal/h", GALLON, 2),)),
    "mL/100 g": _one("mL in 100 g", 2, trim=True),
    "mL/g": Rule((Row(0, "mL/g", places=1, trim=True),), (Row(0, "fl oz/oz", FLUID_OUNCE / OUNCE, 2),)),
    "g/L": Rule(
        (Row(1, "g/L", places=1, step=0.1), Row(0, "g/L", places=2, step=0.01)),
        (Row(0, "oz/gal", 1000 * OUNCE / GALLON, 2, step=0.01),),
    ),
    "°C": Rule((Row(0, "°C", places=1, trim=True, step=1),), (Row(0, "°F", FAHRENHEIT, zero=32.0, step=1),)),
    "m": Rule((Row(0, "m"),), (Row(0, "ft", FOOT),)),
    "bar": Rule((Row(0, "bar", places=1),), (Row(0, "psi", PSI),)),
    "kPa": Rule((Row(0, "kPa", places=1),), (Row(0, "psi", 100 * PSI, 1),)),
    "SG": _one("", 3),
    "°P": _one("°P", 1),
    "fraction": Rule((Row(0, "%", 0.01, 1, trim=True),)),
    "%": Rule((Row(0, "%", places=1, step=0.1),)),
    "ratio": _one("", 2),
    "standard deviations": _one("standard deviations", 2, trim=True),
    "points": _one("points", 1, trim=True),
    "IBU": Rule((Row(10, "IBU"), Row(0, "IBU", places=1, trim=True))),
    "SRM": Rule((Row(10, "SRM"), Row(0, "SRM", places=1, trim=True))),
    "EBC": Rule((Row(10, "EBC"), Row(0, "EBC", places=1, trim=True))),
    "°L": _one("°L", 1, trim=True),
    "EBC malt": _one("EBC", 1, trim=True),
    "MCU": _one("MCU", 1),
    "vol": Rule((Row(1, "volumes", places=1, step=0.1), Row(0, "volumes", places=2, step=0.01))),
    "min": Rule((Row(240, "h", 60, 1, trim=True), Row(10, "min"), Row(0, "min", places=1, trim=True))),
    "d": Rule((Row(28, "weeks", 7, even=True), Row(0, "days", places=1, trim=True))),
    "10⁹ cells": Rule((Row(10, "billion cells"), Row(0, "billion cells", places=1))),
    "10⁹ cells/g": _one("billion cells a gram", 1, trim=True),
    "10⁹ cells/mL": _one("billion cells a millilitre", 1, trim=True),
    "10⁹ cells/pack": _one("billion cells a pack", 1, trim=True),
    "10⁶ cells/(mL·°P)": _one("million cells a millilitre and degree Plato", 2),
    "packs": Rule((Row(0, "packs", places=1, trim=True, step=1, up=True),)),
    "pieces": _one("pieces", 2, trim=True),
    "g/g": _one("g/g", 3),
    "g/mol": _one("g/mol", 2),
    "kcal": _one("kcal"),
    "kJ": _one("kJ"),
    "mL": Rule(_per_thousand(_VOLUMES), _per_thousand(_US_VOLUMES)),
    "mg/L": Rule((Row(10, "mg/L", step=1), Row(0, "mg/L", places=1, trim=True, step=0.1))),
    "mg/L CaCO₃": _one("mg/L as CaCO₃"),
    "mEq": _one("mEq", 1),
    "mEq/L": _one("mEq/L", 2),
    "mEq/kg": _one("mEq/kg", 1),
    "mEq/(kg·pH)": _one("mEq/kg for each pH", 1),
    "pH·kg/mEq": _one("pH for each mEq in a kilogram", 4),
    "mEq/mL": _one("mEq/mL", 2),
    "g/mL": _one("g/mL", 3),
    "pH": Rule((Row(0, "", places=2),)),
    "bottles": Rule((Row(0, "bottles", step=1),)),
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
