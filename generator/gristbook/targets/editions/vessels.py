"""Whether an edition can be brewed in its vessels: the mash in its tun, the steep and the boil in the pot."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import floor, inf

from gristbook.equations import boiling
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.problems import Problems
from gristbook.targets.conventions import GRAIN_DISPLACEMENT
from gristbook.targets.editions.pot import climb_l, usable_l
from gristbook.targets.figures import Figures, Mash, Plan
from gristbook.targets.plan import faults
from gristbook.worksheet import Value, given, number

THICKEST = 1.8
"""Litres of water to a kilogram of grist, below which a mash can hardly be stirred (common practice, no source)."""
SLACK_L = 1e-6


def mashed_within(recipe: Recipe, brewhouse: Brewhouse, figures: Figures[Value]) -> tuple[Recipe, tuple[str, ...]]:
    """A mash as thick as the tun, or all the water that there is, asks for; and a word where it is thicker than usual.

    Several rests by infusion are left as they are, and `check` says so where they do not fit.
    """
    mash = figures.mash
    if mash is None or brewhouse.mash == "bag" or len(_infusions(mash)) > 0:
        return recipe, ()
    water_l, in_tun_l = _mash_water_l(figures, brewhouse), _room_l(mash, brewhouse)
    most = floor(100 * min(water_l, in_tun_l)) / 100
    if number(mash.water) <= most + SLACK_L or most < THICKEST * mash.grist.number:
        return recipe, ()
    why = "there is no more for it" if water_l <= in_tun_l else "the tun holds no more"
    poured = given(most, "L", "mash water", origin=f"less than the usual thickness asks for: {why}")
    note = f"The mash is thicker than usual, {most / mash.grist.number:.1f} L to a kilogram, for {why}."
    return replace(recipe, mash=(replace(recipe.mash[0], water=poured), *recipe.mash[1:])), (note,)


def check(plan: Plan) -> None:
    """Refuse what the vessels and the bottles cannot hold.

    Raises
    ------
    ValueError
        Everything that does not fit, with the bound that it met.
    """
    problems = Problems()
    faults(plan, problems)
    found = [f"{problem.what} ({problem.expected})" for problem in problems.errors()]
    found += [*_mash(plan), *_steep(plan), *_boil(plan)]
    if found:
        raise ValueError("; ".join(found))


def _mash(plan: Plan) -> Iterator[str]:
    mash, brewhouse = plan.figures.mash, plan.brewhouse
    if mash is None:
        return
    boiling_c = boiling.boiling_point(altitude=brewhouse.altitude.number)
    if mash.strike.number >= boiling_c:
        yield f"the strike water would be at {mash.strike.number:.0f} °C, and water boils at {boiling_c:.0f} °C here"
    all_in, there = number(mash.water) + sum(_infusions(mash)), _mash_water_l(plan.figures, brewhouse)
    if all_in > there + SLACK_L:
        yield f"the mash takes {all_in:.1f} L of water, and the wort leaves only {there:.1f} L for it"


def _steep(plan: Plan) -> Iterator[str]:
    water = plan.figures.water
    there = water.total.number - number(plan.figures.volumes.top_up or 0.0)
    if water.steep is not None and water.steep.number > there + SLACK_L:
        yield f"the steep takes {water.steep.number:.1f} L of water, and only {there:.1f} L go into the pot"


def _boil(plan: Plan) -> Iterator[str]:
    most = usable_l(plan.brewhouse)
    peak = number(plan.figures.volumes.boil) + climb_l(plan.recipe, plan.brewhouse)
    if peak > most + SLACK_L and number(plan.figures.volumes.boil) <= most + SLACK_L:
        yield f"the wort climbs to {peak:.1f} L in the boil, and the pot boils {most:.1f} L at most"


def _infusions(mash: Mash[Value]) -> list[float]:
    return [number(rest.infusion) for rest in mash.rests if rest.infusion is not None]


def _mash_water_l(figures: Figures[Value], brewhouse: Brewhouse) -> float:
    """All the water that goes through the mashed grain, mash and sparge together (L)."""
    steeped = brewhouse.absorption.number * figures.grist.steeped.number if figures.grist.steeped else 0.0
    return figures.water.total.number - number(figures.volumes.top_up or 0.0) - steeped


def _room_l(mash: Mash[Value], brewhouse: Brewhouse) -> float:
    """Water that fits into the tun with the grain (L)."""
    return brewhouse.tun.number - GRAIN_DISPLACEMENT.number * mash.grist.number if brewhouse.tun else inf
