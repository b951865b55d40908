"""The plan of a recipe, and the figures in it that have a name of their own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.sheet.value import Value
from gristbook.targets.cost import Cost
from gristbook.targets.results import Bitterness as Bitterness
from gristbook.targets.results import Colour as Colour
from gristbook.targets.results import Fermentation as Fermentation
from gristbook.targets.results import Figures as Figures
from gristbook.targets.results import Grist as Grist
from gristbook.targets.results import HopFigures as HopFigures
from gristbook.targets.results import KitFigures as KitFigures
from gristbook.targets.results import MaltFigures as MaltFigures
from gristbook.targets.results import Mash as Mash
from gristbook.targets.results import Packaging as Packaging
from gristbook.targets.results import Pitch as Pitch
from gristbook.targets.results import SugarFigures as SugarFigures
from gristbook.targets.results import Volumes as Volumes
from gristbook.targets.results import Water as Water
from gristbook.targets.results import Wort as Wort
from gristbook.targets.results import YeastFigures as YeastFigures


@dataclass(frozen=True, slots=True)
class Named:
    """A figure with a name: the part of the brew it belongs to, what it is called, where in the results it stands."""

    part: str
    name: str
    path: str


NAMED: tuple[Named, ...] = (
    Named("The grist", "base malt", "grist.roles.base"),
    Named("The grist", "specialty malt", "grist.roles.specialty"),
    Named("The grist", "unmalted grain", "grist.roles.adjunct"),
    Named("The grist", "sugar", "grist.roles.sugar"),
    Named("The grist", "diastatic power", "grist.roles.diastatic_power"),
    Named("The grist", "diastatic power, °WK", "grist.roles.windisch_kolbach"),
    Named("Water and mash", "grain mashed", "grist.mashed"),
    Named("Water and mash", "total water", "water.total"),
    Named("Water and mash", "mash water", "mash.water"),
    Named("Water and mash", "strike temperature", "mash.strike"),
    Named("Water and mash", "sparge water", "mash.sparge"),
    Named("Water and mash", "mash efficiency", "wort.mash_efficiency"),
    Named("Water and mash", "gravity of the first runnings", "mash.first_runnings"),
    Named("The water", "calcium in the water", "chemistry.treated.calcium"),
    Named("The water", "sulfate in the water", "chemistry.treated.sulfate"),
    Named("The water", "chloride in the water", "chemistry.treated.chloride"),
    Named("The water", "sulfate to chloride", "chemistry.sulfate_to_chloride"),
    Named("The water", "residual alkalinity", "chemistry.residual_alkalinity"),
    Named("The water", "mash pH", "chemistry.mash_ph"),
    Named("The water", "lactic acid for the mash", "chemistry.acid"),
    Named("The water", "metabisulfite against chlorine", "chemistry.metabisulfite"),
    Named("The boil", "boil volume", "volumes.boil"),
    Named("The boil", "boil volume, hot", "volumes.boil_hot"),
    Named("The boil", "gravity before the boil", "wort.before_the_boil"),
    Named("The boil", "volume at the end of the boil", "volumes.end_of_boil"),
    Named("The boil", "gravity after the boil", "wort.after_the_boil"),
    Named("Into the fermenter", "top-up water", "volumes.top_up"),
    Named("Into the fermenter", "into the fermenter", "volumes.into_fermenter"),
    Named("Into the fermenter", "original gravity", "wort.original"),
    Named("Into the fermenter", "original extract", "wort.original_plato"),
    Named("Into the fermenter", "brewhouse efficiency", "wort.brewhouse_efficiency"),
    Named("Into the fermenter", "temperature if topped up boiling", "cooling.if_boiling"),
    Named("Into the fermenter", "cool to, before topping up", "cooling.cool_to"),
    Named("Into the fermenter", "ice for boiling wort, in the top-up water", "cooling.ice"),
    Named("Into the fermenter", "cells to pitch", "pitch.cells"),
    Named("Into the fermenter", "packs of liquid yeast", "pitch.packs"),
    Named("The beer", "final gravity", "fermentation.final"),
    Named("The beer", "apparent extract", "fermentation.apparent_extract"),
    Named("The beer", "real extract", "fermentation.real_extract"),
    Named("The beer", "apparent attenuation", "fermentation.apparent_attenuation"),
    Named("The beer", "real attenuation", "fermentation.real_attenuation"),
    Named("The beer", "real degree of fermentation", "fermentation.degree_of_fermentation"),
    Named("The beer", "alcohol by volume", "fermentation.abv"),
    Named("The beer", "alcohol by weight", "fermentation.abw"),
    Named("The beer", "bitterness", "bitterness.total"),
    Named("The beer", "bitterness to gravity", "bitterness.balance"),
    Named("The beer", "late and dry hops", "bitterness.late_hops"),
    Named("The beer", "colour", "colour.srm"),
    Named("The beer", "colour, EBC", "colour.ebc"),
    Named("Packaging", "beer to package", "volumes.packaged"),
    Named("Packaging", "carbonation", "packaging.volumes"),
    Named("Packaging", "gas left from fermentation", "packaging.residual"),
    Named("Packaging", "priming sugar", "packaging.sugar"),
    Named("Packaging", "alcohol by volume, packaged", "packaging.packaged_abv"),
    Named("Packaging", "bottle pressure in warm storage", "packaging.pressure_warm"),
    Named("Packaging", "keg pressure in warm storage", "packaging.keg_pressure_warm"),
    Named("Packaging", "gas if bottled four points too soon", "packaging.gas_if_unfinished"),
    Named("Packaging", "bottle pressure then, in warm storage", "packaging.pressure_if_unfinished"),
    Named("Packaging", "days until it is ready", "packaging.ready"),
    Named("In the glass", "energy in a small bottle", "serving.kilocalories"),
    Named("In the glass", "energy in a small bottle, kJ", "serving.kilojoules"),
    Named("In the glass", "carbohydrate in a small bottle", "serving.carbohydrate"),
    Named("Instruments", "refractometer in the wort", "readings.refractometer_before"),
    Named("Instruments", "refractometer in the beer", "readings.refractometer_after"),
)
"""The named figures, in the order of the brew: pages, `expect:` and data files use these names and no others."""


@dataclass(frozen=True, slots=True)
class Plan:
    """A recipe in a brewhouse, with every figure worked out, and its cost where the book has prices."""

    recipe: Recipe
    brewhouse: Brewhouse
    bitterness_model: str
    colour_model: str
    figures: Figures
    cost: Cost | None

    @property
    def named(self) -> Mapping[str, Value]:
        """The figures that have a name of their own, in the order of the brew."""
        return named_figures(self.figures)


def named_figures(figures: Figures) -> dict[str, Value]:
    """Figures by their names; those that this recipe does not have are left out."""
    found = {named.name: _at(figures, named.path) for named in NAMED}
    return {name: value for name, value in found.items() if value is not None}


def _at(figures: Figures, path: str) -> Value | None:
    """What stands at a path of the results; nothing where a part of it is absent."""
    here: object = figures
    for step in path.split("."):
        here = getattr(here, step) if here is not None else None
    return here  # type: ignore[return-value]  # the paths lead to numbers, which a test holds
