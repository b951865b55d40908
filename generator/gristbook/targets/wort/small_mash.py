"""A small mash: grain mashed in a bag beside malt extract, in no more water than it needs."""

from __future__ import annotations

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.targets.conventions import GRAIN_GIVES, practice

THICKNESS = practice(3.0, "L/kg", "water of a small mash")


def is_small(recipe: Recipe, brewhouse: Brewhouse) -> bool:
    """Whether what is mashed is mashed so: in a pot that makes no other mash, or else with its own little water.

    Where there is a tun, the malt extract stands for more grain than is mashed, too.
    """
    if not recipe.beside_extract or brewhouse.mash == "none":
        return recipe.beside_extract
    own_water = bool(recipe.mash) and recipe.mash[0].water is not None
    return own_water and (brewhouse.mash == "bag" or _less_than_extract(recipe))


def in_a_bag(recipe: Recipe, brewhouse: Brewhouse) -> bool:
    """Whether the mash is made in a bag in a pot, and in no tun."""
    return brewhouse.mash != "sparge" or is_small(recipe, brewhouse)


def _less_than_extract(recipe: Recipe) -> bool:
    grain = sum(malt.mass.number for malt in recipe.malts if malt.mass is not None and malt.steep is None)
    extract = sum(sugar.mass.number for sugar in recipe.sugars if sugar.mass is not None and sugar.from_malt)
    return grain < extract / GRAIN_GIVES.number
