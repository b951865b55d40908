"""What a pot can boil: the whole wort or, where that would climb out, a part of it, topped up in the fermenter."""

from __future__ import annotations

from dataclasses import replace
from math import floor, inf

from gristbook.equations import boiling, density
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.refusal import Refusal
from gristbook.sheet.value import Value, constant, given, number, settled
from gristbook.targets.conventions import USABLE
from gristbook.targets.wort.volumes import joins_late, late_volume, planned_end_of_boil, planned_start

START = "wort at the start of the boil"
SYRUP = 0.5
"""Kilograms of extract in a litre, about 1.19, past which nobody boils a wort (common practice, no source)."""
SLACK = 1e-9
"""So that a boil of all but the whole wort does not come out above it by the last digit."""


def late_l(recipe: Recipe, before_the_end: float = 0.0) -> Value:
    """What malt extract stirred in during the boil, up to some minutes before its end, adds to the wort (L)."""
    sugars = ((sugar, sugar.mass) for sugar in recipe.sugars if sugar.mass is not None)
    return late_volume(recipe, sugars, before_the_end)


def usable_l(brewhouse: Brewhouse) -> float:
    """Cool wort that a pot may boil: it swells in the heat, and a fifth of the pot is left to the foam."""
    if brewhouse.kettle is None:
        return inf
    boiling_c = boiling.boiling_point(altitude=brewhouse.altitude.number)
    return USABLE * brewhouse.kettle.number / density.hot_volume(cool_l=1.0, temperature=boiling_c)


def climb_l(recipe: Recipe, brewhouse: Brewhouse) -> float:
    """How far above its start the wort climbs in the boil, where more is stirred in than has steamed away (L)."""
    most = 0.0
    for sugar in recipe.sugars:
        if joins_late(sugar, recipe) and sugar.minutes is not None:
            boiled_min = recipe.boil.number - sugar.minutes.number
            so_far = late_l(recipe, before_the_end=sugar.minutes.number)
            most = max(most, so_far.number - brewhouse.boil_off.number * boiled_min / 60)
    return most


def boiled(recipe: Recipe, brewhouse: Brewhouse, asked: Value | None) -> Value | None:
    """Wort at the start of a partial boil, or nothing where the whole wort is boiled.

    Parameters
    ----------
    recipe : with its weights, in the batch that is wanted; one that is boiled in part already stays so
    asked : the partial boil that its author asks of this very pot, where there is less than the whole wort in it

    Raises
    ------
    Refusal
        A mash whose wort the pot cannot boil, or a pot that gives nothing to the fermenter.
    """
    most = usable_l(brewhouse) - climb_l(recipe, brewhouse)
    whole = _start(replace(recipe, kettle=None), brewhouse)
    wanted = asked if asked is not None and asked.number < whole.number else whole
    if wanted.number <= most and (wanted is asked or recipe.kettle is None):
        return wanted if wanted is asked else None
    if any(malt.steep is None for malt in recipe.malts) and not recipe.beside_extract:
        raise Refusal(
            f"the pot of {brewhouse.name} boils {max(most, 0):.1f} L at most, and {wanted.number:.1f} L of wort would "
            "have to be boiled"
        )
    return _pot(recipe, brewhouse, min(most, (1 - SLACK) * whole.number))


def _start(recipe: Recipe, brewhouse: Brewhouse) -> Value:
    """Wort at the start of a boil that leaves the recipe's batch, and what stays behind, at its end."""
    end = planned_end_of_boil(recipe, brewhouse, constant(0.0, "L"))
    late = late_l(recipe)
    if number(late) >= end.number:
        raise Refusal(f"{number(late):.1f} L of malt extract would go into {end.number:.1f} L of wort")
    return settled(planned_start(recipe, brewhouse, end, late))


def _pot(recipe: Recipe, brewhouse: Brewhouse, most: float) -> Value:
    """As much as the pot boils, in half litres where it is large enough for them."""
    start = floor(2 * most) / 2 if most >= 1 else most
    steam = brewhouse.boil_off.number * recipe.boil.number / 60
    left = start + late_l(recipe).number - steam - brewhouse.left_in_kettle.number
    if start <= 0 or left <= 0:
        raise Refusal(
            f"the pot of {brewhouse.name} boils {max(most, 0):.1f} L at most, of which {steam:.1f} L would steam away "
            f"and {brewhouse.left_in_kettle.number:.1f} L stay behind: nothing would reach the fermenter"
        )
    return given(start, "L", START, words=f"what the pot of {brewhouse.name} boils without climbing out of it")
