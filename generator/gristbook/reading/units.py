"""The units that a brewer writes: a short list of our own, so that no word means something else.

`t` is not a tonne here and `oz` is always a weight. Temperatures are scales with an offset; degrees Plato, malt colour
in EBC and potentials are equations, never units.
"""

import re
from dataclasses import dataclass
from functools import cache


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: ``factor`` of its base make ``per`` of it, and its zero lies at ``zero`` of the base."""

    base: str
    factor: float
    words: tuple[str, ...]
    zero: float = 0.0
    per: float = 1.0

    def in_base(self, number: float) -> float:
        """A number of this unit in its base.

        >>> round(UNITS["pound"].in_base(1.5), 4)
        0.6804
        """
        return number / self.per * self.factor + self.zero


_PACKS = (
    "pack",
    "packet",
    "pkt",
    "pk",
    "package",
    "pkg",
    "sachet",
    "vial",
    "tube",
    "pouch",
    "liquid pack",
    "smack pack",
)
_DRIED = tuple(f"{how} {word}" for how in ("dry", "dried") for word in ("pack", "packet", "sachet"))
_PIECES = (
    *("piece", "pod", "stick", "tablet", "tab", "bean", "star", "sprig", "strip", "capsule"),
    *("teabag", "head", "handful", "slice"),
)

UNITS: dict[str, Unit] = {
    "gram": Unit("kg", 0.001, ("g", "gram", "grams", "gm", "gms", "gramme", "grammes")),
    "kilogram": Unit("kg", 1.0, ("kg", "kilo", "kilos", "kilogram", "kilograms", "kgs")),
    "milligram": Unit("kg", 1e-6, ("mg",)),
    "ounce": Unit("kg", 0.028349523125, ("oz", "ounce", "ounces")),
    "pound": Unit("kg", 0.45359237, ("lb", "lbs", "pound", "pounds", "#")),
    "litre": Unit("L", 1.0, ("L", "l", "litre", "litres", "liter", "liters")),
    "millilitre": Unit("L", 0.001, ("mL", "ml", "millilitre", "millilitres", "milliliter", "milliliters")),
    "centilitre": Unit("L", 0.01, ("cL", "cl")),
    "decilitre": Unit("L", 0.1, ("dL", "dl")),
    "hectolitre": Unit("L", 100.0, ("hL", "hl")),
    "us_gallon": Unit("L", 3.785411784, ("gal", "gals", "US gal", "gallon", "gallons", "US gallon", "US gallons")),
    "us_quart": Unit("L", 3.785411784 / 4, ("qt", "qts", "quart", "quarts")),
    "us_pint": Unit("L", 3.785411784 / 8, ("pt", "pts", "pint", "pints", "US pt")),
    "us_cup": Unit("L", 3.785411784 / 16, ("cup", "cups")),
    "us_fluid_ounce": Unit("L", 3.785411784 / 128, ("fl oz",)),
    "us_tablespoon": Unit("L", 3.785411784 / 256, ("tbsp", "tablespoon", "tablespoons")),
    "us_teaspoon": Unit("L", 3.785411784 / 768, ("tsp", "teaspoon", "teaspoons")),
    "pinch": Unit("L", 3.785411784 / 768 / 16, ("pinch", "pinches")),
    "imperial_gallon": Unit(
        "L",
        4.54609,
        (
            *(f"{where} gal{more}" for where in ("imp", "imperial", "UK") for more in ("", "lon", "lons")),
            *(
                f"gal{more} {where}"
                for where in ("(imperial)", "imperial", "(UK)", "UK")
                for more in ("", "lon", "lons")
            ),
        ),
    ),
    "imperial_pint": Unit("L", 4.54609 / 8, ("imp pt",)),
    "second": Unit("min", 1 / 60, ("s", "second", "seconds")),
    "minute": Unit("min", 1.0, ("min", "mins", "minute", "minutes", "'", "′")),
    "hour": Unit("min", 60.0, ("h", "hr", "hrs", "hour", "hours")),
    "day": Unit("min", 1440.0, ("d", "day", "days")),
    "week": Unit("min", 10080.0, ("week", "weeks", "wk", "wks")),
    "fortnight": Unit("min", 20160.0, ("fortnight", "fortnights")),
    "month": Unit("min", 43830.0, ("month", "months", "mo", "mos", "mth", "mths")),
    "year": Unit("min", 525960.0, ("year", "years", "yr", "yrs")),
    "celsius": Unit("°C", 1.0, ("°C", "C", "degC", "deg C", "degrees C")),
    "fahrenheit": Unit("°C", 5 / 9, ("°F", "F", "degF", "deg F", "degrees F"), zero=32 / -1.8),
    "degree": Unit("degrees", 1.0, ("degrees", "degree", "deg", "°")),
    "metre": Unit("m", 1.0, ("m", "metre", "metres")),
    "foot": Unit("m", 0.3048, ("ft", "feet")),
    "percent": Unit("fraction", 0.01, ("%", "per cent", "percent", "%vol", "% vol", "% vol.", "%vol.")),
    "lovibond": Unit("°L", 1.0, ("°L", "Lovibond", "lovibond")),
    "ebc": Unit("EBC malt", 1.0, ("EBC",)),
    "plato": Unit("°P", 1.0, ("°P", "Plato")),
    "brix": Unit("°Bx", 1.0, ("°Bx", "Bx", "Brix", "°Brix")),
    "billion_cells": Unit("cells", 1.0, ("billion cells", "bn cells")),
    "ibu": Unit("IBU", 1.0, ("IBU", "IBUs")),
    "srm": Unit("SRM", 1.0, ("SRM",)),
    "carbonation": Unit("vol", 1.0, ("volumes", "volume", "vol", "vols")),
    "bar": Unit("bar", 1.0, ("bar",)),
    "kilopascal": Unit("bar", 0.01, ("kPa",)),
    "psi": Unit("bar", 0.45359237 * 9.80665 / 0.0254**2 / 1e5, ("psi", "PSI")),
    "pack": Unit(
        "packs",
        1.0,
        (*(f"{word}{s}" for word in (*_PACKS, *_DRIED) for s in ("", "s")), "pouches"),
    ),
    "piece": Unit(
        "pieces",
        1.0,
        (*(f"{word}{plural}" for word in _PIECES for plural in ("", "s")), "leaf", "leaves", "bunch", "bunches"),
    ),
    "part_per_million": Unit("g/L", 0.001, ("ppm",)),
    "millilitre_in_a_litre": Unit("mL/L", 1.0, ("mL/L", "ml/L", "ml/l", "mL/l")),
    "point_per_pound_per_gallon": Unit("points·gal/lb", 1.0, ("ppg",)),
    "litre_degree_per_kilogram": Unit("L°/kg", 1.0, ("L°/kg",)),
}
"""Every unit by its name, and what may be written for it, the usual form first."""

QUOTIENTS: dict[tuple[str, str], tuple[str, float, float]] = {
    ("L", "kg"): ("L/kg", 1.0, 1.0),
    ("L", "min"): ("L/h", 1.0, 60.0),
    ("kg", "L"): ("g/L", 0.001, 1.0),
}
"""The bases of two units parted by a slash: the base of the whole, and what its own two sides are of these."""

BASES = frozenset({unit.base for unit in UNITS.values()} | {base for base, *_ in QUOTIENTS.values()})
"""The units in which quantities are kept."""

SPELLED: dict[str, str] = {word: name for name, unit in UNITS.items() for word in unit.words}
_FOLDED = {word.casefold(): unit for word, unit in reversed(SPELLED.items())}


def spellings(*units: str) -> str:
    """A pattern for every way in which units may be written, the longest first; its blanks stand for any number.

    >>> spellings("us_quart")
    '(?:quarts|quart|qts|qt)(?:\\\\.(?!\\\\d))?'
    """
    words = sorted((word for unit in units for word in UNITS[unit].words), key=len, reverse=True)
    return rf"(?:{'|'.join(words)})(?:\.(?!\d))?"


@cache
def unit_named(word: str) -> Unit | None:
    """The unit that a word, or two words parted by a slash, stands for; `None` if there is none that a brewer uses.

    >>> unit_named("lbs").base, unit_named("L/kg").base, unit_named("kgg"), unit_named("lb/kg")
    ('kg', 'L/kg', None, None)
    """
    word = re.sub(r"\s+per\s+(?!cent\b)", "/", word.removesuffix("."))
    if whole := SPELLED.get(re.sub(r"\s", "", word)):
        return UNITS[whole]
    sides = [" ".join(side.split()) for side in re.sub(r"°\s+", "°", word).split("/")]
    found = [UNITS[name] for side in sides if (name := SPELLED.get(side) or _FOLDED.get(side.casefold()))]
    if len(found) < len(sides) or len(sides) > 2:
        return None
    if len(found) == 1:
        return found[0]
    over, under = found
    if (over.base, under.base) not in QUOTIENTS:
        return None
    base, above, below = QUOTIENTS[over.base, under.base]
    return Unit(base, over.factor / above, (), per=under.factor / below)
