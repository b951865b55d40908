"""The plan of a recipe, and its sheet: every figure in it that has an id, by that id."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields
from typing import Any

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.sheet.ids import id_of, ids_of_lines
from gristbook.sheet.value import Value
from gristbook.targets.buying.cost import Cost
from gristbook.targets.results import Figures

PATHS: Mapping[str, str] = {
    "base-malt": "grist.roles.base",
    "specialty-malt": "grist.roles.specialty",
    "unmalted-grain": "grist.roles.adjunct",
    "sugar": "grist.roles.sugar",
    "diastatic-power": "grist.roles.diastatic_power",
    "diastatic-power-wk": "grist.roles.windisch_kolbach",
    "grain-mashed": "grist.mashed",
    "total-water": "water.total",
    "mash-water": "mash.water",
    "strike-temperature": "mash.strike",
    "sparge-water": "mash.sparge",
    "conversion": "mash.conversion",
    "lauter-efficiency": "mash.lauter",
    "mash-efficiency": "wort.mash_efficiency",
    "gravity-of-the-first-runnings": "mash.first_runnings",
    "calcium-in-the-water": "chemistry.treated.calcium",
    "sulfate-in-the-water": "chemistry.treated.sulfate",
    "chloride-in-the-water": "chemistry.treated.chloride",
    "sulfate-to-chloride": "chemistry.sulfate_to_chloride",
    "residual-alkalinity": "chemistry.residual_alkalinity",
    "mash-ph": "chemistry.mash_ph",
    "lactic-acid-for-the-mash": "chemistry.acid",
    "metabisulfite-against-chlorine": "chemistry.metabisulfite",
    "boil-volume": "volumes.boil",
    "boil-volume-hot": "volumes.boil_hot",
    "gravity-before-the-boil": "wort.before_the_boil",
    "volume-at-the-end-of-the-boil": "volumes.end_of_boil",
    "gravity-after-the-boil": "wort.after_the_boil",
    "top-up-water": "volumes.top_up",
    "into-the-fermenter": "volumes.into_fermenter",
    "juice-of-the-fruit": "volumes.fruit",
    "original-gravity": "wort.original",
    "original-extract": "wort.original_plato",
    "brewhouse-efficiency": "wort.brewhouse_efficiency",
    "temperature-if-topped-up-boiling": "cooling.if_boiling",
    "cool-to-before-topping-up": "cooling.cool_to",
    "ice-for-boiling-wort-in-the-top-up-water": "cooling.ice",
    "cells-to-pitch": "pitch.cells",
    "packs-of-liquid-yeast": "pitch.packs",
    "final-gravity": "fermentation.final",
    "apparent-extract": "fermentation.apparent_extract",
    "real-extract": "fermentation.real_extract",
    "apparent-attenuation": "fermentation.apparent_attenuation",
    "real-attenuation": "fermentation.real_attenuation",
    "real-degree-of-fermentation": "fermentation.degree_of_fermentation",
    "alcohol-by-volume": "fermentation.abv",
    "alcohol-by-weight": "fermentation.abw",
    "acid-of-the-fruit": "fermentation.fruit_acid",
    "bitterness": "bitterness.total",
    "bitterness-to-gravity": "bitterness.balance",
    "late-and-dry-hops": "bitterness.late_hops",
    "colour": "colour.srm",
    "colour-ebc": "colour.ebc",
    "beer-to-package": "volumes.packaged",
    "carbonation": "packaging.volumes",
    "gas-left-from-fermentation": "packaging.residual",
    "priming-sugar": "packaging.sugar",
    "alcohol-by-volume-packaged": "packaging.packaged_abv",
    "bottle-pressure-in-warm-storage": "packaging.pressure_warm",
    "keg-pressure-in-warm-storage": "packaging.keg_pressure_warm",
    "gas-if-bottled-four-points-too-soon": "packaging.gas_if_unfinished",
    "bottle-pressure-then-in-warm-storage": "packaging.pressure_if_unfinished",
    "days-until-it-is-ready": "packaging.ready",
    "energy-in-a-small-bottle": "serving.kilocalories",
    "energy-in-a-small-bottle-kj": "serving.kilojoules",
    "carbohydrate-in-a-small-bottle": "serving.carbohydrate",
    "refractometer-in-the-wort": "readings.refractometer_before",
    "refractometer-in-the-beer": "readings.refractometer_after",
}
"""Where in the results each named figure stands, by its id."""


LINES: tuple[tuple[str, str, str], ...] = (
    ("malt", "grist.malts", "malt"),
    ("sugar", "grist.sugars", "sugar"),
    ("hop", "bitterness.hops", "hop"),
    ("kit", "bitterness.kits", "kit"),
    ("yeast", "pitch.yeasts", "yeast"),
)
"""The kinds of lines that have figures of their own, where in the results they stand, and what of each has a name."""


@dataclass(frozen=True, slots=True)
class Plan:
    """A recipe in a brewhouse, with every figure worked out, and its cost where the book has prices.

    Of a book in ``us`` units, or an edition, problems are told in them.
    ``sheet`` has all that goes by an id: the named figures in the order of the brew, then those of each line.
    """

    recipe: Recipe
    brewhouse: Brewhouse
    bitterness_model: str
    colour_model: str
    figures: Figures
    cost: Cost | None
    us: bool = False
    sheet: Mapping[str, Value] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "sheet", {**named_figures(self.figures), **dict(_lines(self.figures))})

    @property
    def named(self) -> Mapping[str, Value]:
        """The named figures by id, in the order of the brew; those of lines are left out."""
        return {figure: value for figure, value in self.sheet.items() if figure in PATHS}


def named_figures(figures: Figures) -> dict[str, Value]:
    """Figures by their ids; those that this recipe does not have are left out."""
    found = {figure: _at(figures, path) for figure, path in PATHS.items()}
    return {figure: value for figure, value in found.items() if value is not None}


def _lines(figures: Figures) -> Iterator[tuple[str, Value]]:
    """The figures of each line of the recipe, as `hop.fuggle/bitterness`."""
    for kind, path, what in LINES:
        lines = _at(figures, path) or ()
        for own, line in zip(ids_of_lines(kind, (getattr(line, what).name for line in lines)), lines, strict=True):
            for part in fields(line):
                value = getattr(line, part.name)
                if isinstance(value, Value):
                    yield f"{own}/{id_of(part.name)}", value


def _at(figures: Figures, path: str) -> Any:
    """What stands at a path of the results; nothing where a part of it is absent."""
    here: object = figures
    for step in path.split("."):
        here = getattr(here, step) if here is not None else None
    return here
