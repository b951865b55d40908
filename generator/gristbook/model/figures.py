"""The figures that have a name of their own: the id they go by everywhere, and the words that people know them by.

An author's `expect:`, a batch's plan and every page say the words; data files and all code say the id. To call a figure
by better words, change them here and put the old ones under ``former``: what was written with them is read for ever.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figure:
    """A named figure: its id, the part of the brew it belongs to, what it is called and was called before, its unit.

    ``also`` is what brewers call it for short.
    """

    id: str
    part: str
    words: str
    unit: str
    former: tuple[str, ...] = ()
    also: tuple[str, ...] = ()


FIGURES: tuple[Figure, ...] = (
    Figure("base-malt", "The grist", "base malt", "fraction"),
    Figure("specialty-malt", "The grist", "specialty malt", "fraction"),
    Figure("unmalted-grain", "The grist", "unmalted grain", "fraction"),
    Figure("sugar", "The grist", "sugar", "fraction"),
    Figure("diastatic-power", "The grist", "diastatic power", "°Lintner"),
    Figure("diastatic-power-wk", "The grist", "diastatic power, °WK", "°WK"),
    Figure("grain-mashed", "Water and mash", "grain mashed", "kg"),
    Figure("total-water", "Water and mash", "total water", "L"),
    Figure("mash-water", "Water and mash", "mash water", "L"),
    Figure("strike-temperature", "Water and mash", "strike temperature", "°C"),
    Figure("sparge-water", "Water and mash", "sparge water", "L"),
    Figure("conversion", "Water and mash", "conversion", "fraction"),
    Figure("lauter-efficiency", "Water and mash", "lauter efficiency", "fraction"),
    Figure("mash-efficiency", "Water and mash", "mash efficiency", "fraction", also=("efficiency",)),
    Figure("gravity-of-the-first-runnings", "Water and mash", "gravity of the first runnings", "SG"),
    Figure("calcium-in-the-water", "The water", "calcium in the water", "mg/L"),
    Figure("sulfate-in-the-water", "The water", "sulfate in the water", "mg/L"),
    Figure("chloride-in-the-water", "The water", "chloride in the water", "mg/L"),
    Figure("sulfate-to-chloride", "The water", "sulfate to chloride", "ratio"),
    Figure("residual-alkalinity", "The water", "residual alkalinity", "mg/L CaCO₃"),
    Figure("mash-ph", "The water", "mash pH", "pH"),
    Figure(
        "lactic-acid-for-the-mash",
        "The water",
        "lactic acid for the mash, in all",
        "mL",
        former=("lactic acid for the mash",),
    ),
    Figure("metabisulfite-against-chlorine", "The water", "metabisulfite against chlorine", "g"),
    Figure("boil-volume", "The boil", "boil volume", "L", also=("pre-boil volume",)),
    Figure("boil-volume-hot", "The boil", "boil volume, hot", "L"),
    Figure("gravity-before-the-boil", "The boil", "gravity before the boil", "SG", also=("pre-boil gravity",)),
    Figure("volume-at-the-end-of-the-boil", "The boil", "volume at the end of the boil", "L"),
    Figure("gravity-after-the-boil", "The boil", "gravity after the boil", "SG"),
    Figure("top-up-water", "Into the fermenter", "top-up water", "L"),
    Figure("into-the-fermenter", "Into the fermenter", "into the fermenter", "L"),
    Figure("juice-of-the-fruit", "Into the fermenter", "juice of the fruit", "L"),
    Figure("original-gravity", "Into the fermenter", "original gravity", "SG", also=("OG", "starting gravity")),
    Figure("original-extract", "Into the fermenter", "original extract", "°P"),
    Figure("brewhouse-efficiency", "Into the fermenter", "brewhouse efficiency", "fraction"),
    Figure("temperature-if-topped-up-boiling", "Into the fermenter", "temperature if topped up boiling", "°C"),
    Figure("cool-to-before-topping-up", "Into the fermenter", "cool to, before topping up", "°C"),
    Figure(
        "ice-for-boiling-wort-in-the-top-up-water",
        "Into the fermenter",
        "ice for boiling wort, in the top-up water",
        "kg",
    ),
    Figure("cells-to-pitch", "Into the fermenter", "cells to pitch", "10⁹ cells"),
    Figure("packs-of-liquid-yeast", "Into the fermenter", "packs of liquid yeast", "packs"),
    Figure("final-gravity", "The beer", "final gravity", "SG", also=("FG", "finishing gravity", "terminal gravity")),
    Figure("apparent-extract", "The beer", "apparent extract", "°P"),
    Figure("real-extract", "The beer", "real extract", "°P"),
    Figure("apparent-attenuation", "The beer", "apparent attenuation", "fraction", also=("attenuation",)),
    Figure("real-attenuation", "The beer", "real attenuation", "fraction"),
    Figure("real-degree-of-fermentation", "The beer", "real degree of fermentation", "fraction"),
    Figure("alcohol-by-volume", "The beer", "alcohol by volume", "%", also=("ABV", "alcohol", "strength")),
    Figure("alcohol-by-weight", "The beer", "alcohol by weight", "%"),
    Figure("acid-of-the-fruit", "The beer", "acid of the fruit", "g/L"),
    Figure("bitterness", "The beer", "bitterness", "IBU", also=("IBU", "IBUs")),
    Figure("bitterness-to-gravity", "The beer", "bitterness to gravity", "ratio"),
    Figure("late-and-dry-hops", "The beer", "late and dry hops", "g/L"),
    Figure("colour", "The beer", "colour", "SRM", also=("color", "SRM")),
    Figure("colour-ebc", "The beer", "colour, EBC", "EBC", also=("EBC",)),
    Figure("beer-to-package", "Packaging", "beer to package", "L"),
    Figure("carbonation", "Packaging", "carbonation", "vol"),
    Figure("gas-left-from-fermentation", "Packaging", "gas left from fermentation", "vol"),
    Figure("priming-sugar", "Packaging", "priming sugar", "g"),
    Figure("alcohol-by-volume-packaged", "Packaging", "alcohol by volume, packaged", "%"),
    Figure("bottle-pressure-in-warm-storage", "Packaging", "bottle pressure in warm storage", "bar"),
    Figure("keg-pressure-in-warm-storage", "Packaging", "keg pressure in warm storage", "bar"),
    Figure("gas-if-bottled-four-points-too-soon", "Packaging", "gas if bottled four points too soon", "vol"),
    Figure("bottle-pressure-then-in-warm-storage", "Packaging", "bottle pressure then, in warm storage", "bar"),
    Figure("days-until-it-is-ready", "Packaging", "days until it is ready", "d"),
    Figure("energy-in-a-small-bottle", "In the glass", "energy in a small bottle", "kcal"),
    Figure("energy-in-a-small-bottle-kj", "In the glass", "energy in a small bottle, kJ", "kJ"),
    Figure("carbohydrate-in-a-small-bottle", "In the glass", "carbohydrate in a small bottle", "g"),
    Figure("refractometer-in-the-wort", "Instruments", "refractometer in the wort", "°Bx"),
    Figure("refractometer-in-the-beer", "Instruments", "refractometer in the beer", "°Bx"),
)  # fmt: skip
"""The figures of a plan, in the order of the brew."""

KEPT: tuple[Figure, ...] = (
    Figure("mash-temperature", "The mash", "mash temperature", "°C"),
    Figure(
        "share-of-the-dissolved-extract-that-runs-off",
        "The mash",
        "share of the dissolved extract that runs off",
        "fraction",
    ),
    Figure("potential-of-the-mashed-grain", "The mash", "potential of the mashed grain", "kg"),
    Figure("extract-besides-the-mash-before-the-boil", "The boil", "extract besides the mash, before the boil", "kg"),
    Figure("extract-besides-the-mash-end-of-the-boil", "The boil", "extract besides the mash, end of the boil", "kg"),
    Figure("boiling-point", "The boil", "boiling point", "°C"),
    Figure("boil-off", "The boil", "boil-off", "L/h"),
    Figure("length-of-the-boil", "The boil", "length of the boil", "min"),
    Figure("wort-that-the-kettle-boils", "The boil", "wort that the kettle boils", "L"),
    Figure("left-in-the-kettle", "Into the fermenter", "left in the kettle", "L"),
    Figure("temperature-at-pitching", "Into the fermenter", "temperature at pitching", "°C"),
    Figure("wort-that-the-fermenter-holds", "Into the fermenter", "wort that the fermenter holds", "L"),
    Figure("extract-added-in-the-fermenter", "The beer", "extract added in the fermenter", "kg"),
    Figure("attenuation-of-the-yeast", "The beer", "attenuation of the yeast", "fraction"),
    Figure("left-in-the-fermenter", "Packaging", "left in the fermenter", "L"),
    Figure("beer-packaged", "Packaging", "beer packaged", "L"),
    Figure("warmest-storage", "Packaging", "warmest storage", "°C"),
)  # fmt: skip
"""What a batch has besides: what it keeps of its plan to know what its readings mean, and what is only measured."""

_BY_ID: Mapping[str, Figure] = {figure.id: figure for figure in (*FIGURES, *KEPT)}
_BY_WORDS: Mapping[str, Figure] = {
    words.casefold(): figure for figure in _BY_ID.values() for words in (figure.words, *figure.former, *figure.also)
}


def figure_called(words: str) -> Figure | None:
    """The figure that is called so, is for short, or was once, in capitals or small; `None` where none is.

    >>> figure_called("mash pH").id, figure_called("ABV").id
    ('mash-ph', 'alcohol-by-volume')
    """
    return _BY_WORDS.get(" ".join(words.casefold().split()))


def known(figure: str) -> str:
    """An id that is in the table, as it is.

    Raises
    ------
    KeyError
        No figure has it, so that whoever asks by it would never find one.
    """
    return _BY_ID[figure].id


def words_of(figure: str) -> str:
    """What the figure of an id is called; an id that is in no table says itself."""
    return _BY_ID[figure].words if figure in _BY_ID else figure
