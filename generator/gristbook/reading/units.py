"""The units that a brewer writes, and the one place where pint lives.

The list is short and ours, so that no word means something else: `t` is not a tonne here and `oz` is always a weight.
Temperatures are scales with an offset; degrees Plato, malt colour in EBC and potentials are equations, never units.
"""

from __future__ import annotations

import re
from functools import cache

import pint

DEFINITIONS = """
gram = [mass] = g
kilogram = 1000 * gram = kg
milligram = 0.001 * gram = mg
ounce = 28.349523125 * gram = oz
pound = 453.59237 * gram = lb
litre = [volume] = L
millilitre = 0.001 * litre = mL
hectolitre = 100 * litre = hL
us_gallon = 3.785411784 * litre = gal
us_quart = us_gallon / 4 = qt
us_pint = us_gallon / 8 = pt
us_cup = us_gallon / 16 = cup
us_fluid_ounce = us_gallon / 128 = floz
us_tablespoon = us_gallon / 256 = tbsp
us_teaspoon = us_gallon / 768 = tsp
imperial_gallon = 4.54609 * litre
imperial_pint = imperial_gallon / 8
minute = [time] = min
second = minute / 60 = s
hour = 60 * minute = h
day = 1440 * minute = d
week = 10080 * minute
kelvin = [temperature] = K
celsius = kelvin; offset: 273.15 = degC
fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = degF
metre = [length] = m
foot = 0.3048 * metre = ft
part = []
percent = 0.01 * part
lovibond = [lovibond]
ebc = [ebc]
plato = [plato]
brix = [brix]
ibu = [bitterness]
carbonation = [carbonation]
pack = [pack]
piece = [piece]
point_per_pound_per_gallon = [point_per_pound_per_gallon] = ppg
litre_degree_per_kilogram = [litre_degree_per_kilogram]
part_per_million = 0.001 * gram / litre = ppm
"""

WORDS: dict[str, tuple[str, ...]] = {
    "gram": ("g", "gram", "grams"),
    "kilogram": ("kg", "kilo", "kilos", "kilogram", "kilograms"),
    "milligram": ("mg",),
    "ounce": ("oz", "ounce", "ounces"),
    "pound": ("lb", "lbs", "pound", "pounds"),
    "litre": ("L", "l", "litre", "litres", "liter", "liters"),
    "millilitre": ("mL", "ml", "millilitre", "millilitres"),
    "hectolitre": ("hL", "hl"),
    "us_gallon": ("gal", "US gal", "gallon", "gallons", "US gallon", "US gallons"),
    "us_quart": ("qt", "quart", "quarts"),
    "us_pint": ("pt", "US pt"),
    "us_cup": ("cup", "cups"),
    "us_fluid_ounce": ("fl oz",),
    "us_tablespoon": ("tbsp", "tablespoon", "tablespoons"),
    "us_teaspoon": ("tsp", "teaspoon", "teaspoons"),
    "imperial_gallon": ("imp gal", "imp gallon", "imp gallons"),
    "imperial_pint": ("imp pt",),
    "second": ("s", "second", "seconds"),
    "minute": ("min", "mins", "minute", "minutes"),
    "hour": ("h", "hr", "hrs", "hour", "hours"),
    "day": ("d", "day", "days"),
    "week": ("week", "weeks"),
    "celsius": ("°C", "C", "degC", "deg C", "degrees C"),
    "fahrenheit": ("°F", "F", "degF", "deg F", "degrees F"),
    "metre": ("m", "metre", "metres"),
    "foot": ("ft", "feet"),
    "percent": ("%", "per cent", "percent"),
    "lovibond": ("°L", "Lovibond", "lovibond"),
    "ebc": ("EBC",),
    "plato": ("°P", "Plato"),
    "brix": ("°Bx", "Bx", "Brix", "°Brix"),
    "ibu": ("IBU",),
    "carbonation": ("volumes", "volume", "vol", "vols"),
    "pack": ("pack", "packs", "packet", "packets", "sachet", "sachets"),
    "part_per_million": ("ppm",),
    "point_per_pound_per_gallon": ("ppg",),
    "litre_degree_per_kilogram": ("L°/kg",),
    "piece": ("piece", "pieces", "pod", "pods", "stick", "sticks", "tablet", "tablets"),
}
"""What may be written for each unit, the usual form first."""

BASES: dict[str, str] = {
    "kg": "kilogram",
    "L": "litre",
    "min": "minute",
    "°C": "celsius",
    "m": "metre",
    "fraction": "part",
    "°L": "lovibond",
    "EBC malt": "ebc",
    "°P": "plato",
    "°Bx": "brix",
    "IBU": "ibu",
    "vol": "carbonation",
    "packs": "pack",
    "pieces": "piece",
    "L/kg": "litre / kilogram",
    "L/h": "litre / hour",
    "g/L": "gram / litre",
    "points·gal/lb": "point_per_pound_per_gallon",
    "L°/kg": "litre_degree_per_kilogram",
}
"""The unit in which each kind of quantity is kept, and its name in the definitions."""

SPELLED: dict[str, str] = {word: unit for unit, words in WORDS.items() for word in words}
_FOLDED = {word.casefold(): unit for word, unit in reversed(SPELLED.items())}


def spellings(*units: str) -> str:
    """A pattern for every way in which units may be written, the longest first; its blanks stand for any number.

    >>> spellings("us_quart")
    '(?:quarts|quart|qt)'
    """
    words = sorted((word for unit in units for word in WORDS[unit]), key=len, reverse=True)
    return f"(?:{'|'.join(words)})"


@cache
def _registry() -> pint.UnitRegistry[float]:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None)
    for line in DEFINITIONS.strip().splitlines():
        registry.define(line)
    return registry


def unit_named(word: str) -> str | None:
    """The unit that a word, or two words parted by a slash, stands for; `None` if there is none that a brewer uses.

    >>> unit_named("lbs"), unit_named("L/kg"), unit_named("kgg"), unit_named("lb/kg")
    ('pound', 'litre / kilogram', None, None)
    """
    if whole := SPELLED.get(re.sub(r"\s", "", word)):
        return whole
    sides = [" ".join(side.split()) for side in re.sub(r"°\s+", "°", word).split("/")]
    found = [SPELLED.get(side) or _FOLDED.get(side.casefold()) for side in sides]
    if not all(found):
        return None
    unit = " / ".join(side for side in found if side)
    return unit if len(sides) == 1 or "/" in (base_of(unit) or "") else None


@cache
def base_of(unit: str) -> str | None:
    """The base in which quantities of this unit are kept: "kg" for a pound; `None` for what nobody asks for."""
    registry = _registry()
    dimension = registry.Unit(unit).dimensionality
    return next((base for base, name in BASES.items() if registry.Unit(name).dimensionality == dimension), None)


def convert(number: float, unit: str, base: str) -> float:
    """A number of ``unit`` in ``base``.

    >>> round(convert(1.5, "pound", "kg"), 4)
    0.6804
    """
    return float(_registry().Quantity(number, unit).to(BASES[base]).magnitude)
