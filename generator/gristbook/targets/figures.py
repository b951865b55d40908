"""What the chain of equations gives, phenomenon by phenomenon, and the plan that holds it all.

Every record is generic in its number: `Value` for pages, `float` for solving and for Monte Carlo runs.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Generic

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Hop, HoppedKit, Malt, Recipe, Sugar, Yeast
from gristbook.worksheet import N, Value


@dataclass(frozen=True, slots=True)
class MaltFigures(Generic[N]):
    """A malt in this brew: its weight (kg), its extract in the kettle (kg), its shares by weight and by extract."""

    malt: Malt
    mass: N | Value
    extract: N
    colour: N | Value
    share_by_weight: N
    share_by_extract: N


@dataclass(frozen=True, slots=True)
class SugarFigures(Generic[N]):
    """A sugar or malt extract in this brew: weight (kg), extract (kg), shares of the whole grist."""

    sugar: Sugar
    mass: N | Value
    extract: N
    share_by_weight: N
    share_by_extract: N


@dataclass(frozen=True, slots=True)
class Grist(Generic[N]):
    """All that brings extract. ``extract`` is what the kettle holds at the end of the boil."""

    malts: tuple[MaltFigures[N], ...]
    sugars: tuple[SugarFigures[N], ...]
    mashed: N | None
    steeped: N | None
    extract: N


@dataclass(frozen=True, slots=True)
class Volumes(Generic[N]):
    """The volume chain, litres at 20 °C unless hot. ``top_up`` is water added in the fermenter."""

    batch: N | Value
    boil: N | Value
    boil_hot: N
    end_of_boil: N
    end_of_boil_hot: N
    left_in_kettle: N | Value
    top_up: N | None
    into_fermenter: N
    packaged: N


@dataclass(frozen=True, slots=True)
class Wort(Generic[N]):
    """Gravities of the wort, and what became of the malt's extract.

    ``equivalent_original`` differs from the original gravity only where sugar goes into the fermenter.
    """

    before_the_boil: N
    after_the_boil: N
    original: N
    original_plato: N
    equivalent_original: N
    equivalent_original_plato: N
    extract_in_fermenter: N
    mash_efficiency: N | Value | None
    brewhouse_efficiency: N | None


@dataclass(frozen=True, slots=True)
class Fermentation(Generic[N]):
    """What the yeast makes of it. Attenuations are fractions, strengths per cent; before priming."""

    real_attenuation: N
    apparent_attenuation: N
    real_extract: N
    apparent_extract: N
    final: N
    abw: N
    abv: N


@dataclass(frozen=True, slots=True)
class HopFigures(Generic[N]):
    """One addition of hops: weight (g), the minutes that count, the share of alpha acids that ends up bitter, IBU."""

    hop: Hop
    mass: N | Value
    minutes: N | None
    utilisation: N | None
    bitterness: N


@dataclass(frozen=True, slots=True)
class KitFigures(Generic[N]):
    """A hopped extract and the bitterness it brings."""

    kit: HoppedKit
    bitterness: N


@dataclass(frozen=True, slots=True)
class Bitterness(Generic[N]):
    """Bitterness by addition and in all, by the book's model; ``models`` has the total by every model.

    ``gain_in_stand`` is what a hot stand adds to hops that are in the kettle already; it is not in the total.
    """

    hops: tuple[HopFigures[N], ...]
    kits: tuple[KitFigures[N], ...]
    total: N
    balance: N
    gain_in_stand: N | None
    models: tuple[tuple[str, N], ...]


@dataclass(frozen=True, slots=True)
class Colour(Generic[N]):
    """The beer's colour by the book's model; ``models`` has every model that covers it."""

    malt_colour: N
    srm: N
    ebc: N
    models: tuple[tuple[str, N], ...]


@dataclass(frozen=True, slots=True)
class Mash(Generic[N]):
    """Water and heat for the mash. ``water`` and ``strike`` belong to the first rest."""

    grist: N
    thickness: N
    water: N | Value
    sparge: N | None
    strike: N
    volume: N
    absorbed: N


@dataclass(frozen=True, slots=True)
class Water(Generic[N]):
    """All the brewing water, and the water of a steep."""

    total: N
    steep: N | None


@dataclass(frozen=True, slots=True)
class YeastFigures(Generic[N]):
    """One yeast and how much of it: grams of dried yeast or packs, the cells in it, the dose of dried yeast (g/L)."""

    yeast: Yeast
    amount: N | Value
    cells: N
    dose: N | None


@dataclass(frozen=True, slots=True)
class Pitch(Generic[N]):
    """Cells that the wort wants, packs of liquid yeast that hold them, and what the recipe gives."""

    rate: N | Value
    cells: N
    packs: N
    yeasts: tuple[YeastFigures[N], ...]


@dataclass(frozen=True, slots=True)
class Packaging(Generic[N]):
    """Gas and priming. ``sugar`` (g) and ``added_alcohol`` (% by volume) only where bottles are primed."""

    volumes: N | Value
    residual: N
    sugar: N | None
    sugar_per_litre: N | None
    added_alcohol: N | None
    packaged_abv: N
    pressure_warm: N


@dataclass(frozen=True, slots=True)
class Figures(Generic[N]):
    """Everything that the chain works out for one recipe in one brewhouse."""

    grist: Grist[N]
    volumes: Volumes[N]
    wort: Wort[N]
    fermentation: Fermentation[N]
    bitterness: Bitterness[N]
    colour: Colour[N]
    mash: Mash[N] | None
    water: Water[N]
    pitch: Pitch[N] | None
    packaging: Packaging[N] | None


@dataclass(frozen=True, slots=True)
class Plan:
    """A recipe in a brewhouse, with every figure worked out."""

    recipe: Recipe
    brewhouse: Brewhouse
    bitterness_model: str
    colour_model: str
    figures: Figures[Value]

    @property
    def named(self) -> Mapping[str, Value]:
        """The figures that have a name of their own, in the order of the brew."""
        return named_figures(self.figures)


def named_figures(figures: Figures[N]) -> dict[str, N | Value]:
    """Figures by the name that pages, `expect:` and data files use."""
    wort, fermentation, volumes = figures.wort, figures.fermentation, figures.volumes
    found: dict[str, N | Value | None] = {
        "grain mashed": figures.grist.mashed,
        "total water": figures.water.total,
        "mash water": figures.mash.water if figures.mash else None,
        "strike temperature": figures.mash.strike if figures.mash else None,
        "sparge water": figures.mash.sparge if figures.mash else None,
        "boil volume": volumes.boil,
        "boil volume, hot": volumes.boil_hot,
        "gravity before the boil": wort.before_the_boil,
        "volume at the end of the boil": volumes.end_of_boil,
        "gravity after the boil": wort.after_the_boil,
        "top-up water": volumes.top_up,
        "into the fermenter": volumes.into_fermenter,
        "original gravity": wort.original,
        "original extract": wort.original_plato,
        "brewhouse efficiency": wort.brewhouse_efficiency,
        "cells to pitch": figures.pitch.cells if figures.pitch else None,
        "packs of liquid yeast": figures.pitch.packs if figures.pitch else None,
        "final gravity": fermentation.final,
        "apparent extract": fermentation.apparent_extract,
        "real extract": fermentation.real_extract,
        "apparent attenuation": fermentation.apparent_attenuation,
        "real attenuation": fermentation.real_attenuation,
        "alcohol by volume": fermentation.abv,
        "alcohol by weight": fermentation.abw,
        "bitterness": figures.bitterness.total,
        "bitterness to gravity": figures.bitterness.balance,
        "colour": figures.colour.srm,
        "colour, EBC": figures.colour.ebc,
        "beer to package": volumes.packaged,
        "carbonation": figures.packaging.volumes if figures.packaging else None,
        "gas left from fermentation": figures.packaging.residual if figures.packaging else None,
        "priming sugar": figures.packaging.sugar if figures.packaging else None,
        "alcohol by volume, packaged": figures.packaging.packaged_abv if figures.packaging else None,
        "bottle pressure at 30 °C": figures.packaging.pressure_warm if figures.packaging else None,
    }
    return {name: value for name, value in found.items() if value is not None}
