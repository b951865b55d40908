"""A small mash: grain mashed in a bag beside malt extract, in no more water than it needs."""

from __future__ import annotations

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import less
from gristbook.sheet.value import Value
from gristbook.targets.conventions import practice

THICKNESS = practice(3.0, "L/kg", "water of a small mash")


def is_small(recipe: Recipe, brewhouse: Brewhouse) -> bool:
    """Whether what is mashed is mashed so: in a pot that makes no other mash, or in a bag with its own little water."""
    own_water = bool(recipe.mash) and recipe.mash[0].water is not None
    return recipe.beside_extract and (brewhouse.mash == "none" or (brewhouse.mash == "bag" and own_water))


def efficiency_of(brewhouse: Brewhouse) -> Value:
    """Extract that a small mash brings, of what its grain could give: as in the brewhouse's other mashes.

    Where that goes by the load, it is what the mash dissolves, less what the grain keeps of so much water.
    """
    if brewhouse.efficiency is not None:
        return brewhouse.efficiency
    runs_off = less(THICKNESS, brewhouse.absorption, left="what runs off a small mash", some=True)
    return (brewhouse.conversion * (runs_off / THICKNESS)).called("mash efficiency")
