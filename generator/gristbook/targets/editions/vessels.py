"""Whether an edition can be brewed in its vessels: the mash in its tun, the steep and the boil in the pot."""

from __future__ import annotations

from dataclasses import replace
from math import floor, inf

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.problems import Problems
from gristbook.refusal import Refusal
from gristbook.sheet.value import given, number
from gristbook.targets.advice.misfits import SLACK_L, STIRRED, infusions_l, mash_water_l, swelling
from gristbook.targets.conventions import GRAIN_DISPLACEMENT
from gristbook.targets.figures import Plan
from gristbook.targets.plan import faults
from gristbook.targets.results import Figures, Mash
from gristbook.targets.wort.small_mash import in_a_bag

THICKEST = 1.8
"""Litres of water to a kilogram of grist, below which a mash can hardly be stirred (common practice, no source)."""


def mashed_within(recipe: Recipe, brewhouse: Brewhouse, figures: Figures) -> tuple[Recipe, tuple[str, ...]]:
    """A mash as thick as the tun, or all the water that there is, asks for; and a word where it is thicker than usual.

    Several rests by infusion are left as they are, and `check` says so where they do not fit.
    """
    mash = figures.mash
    if mash is None or in_a_bag(recipe, brewhouse) or len(infusions_l(mash)) > 0:
        return recipe, ()
    water_l, in_tun_l = mash_water_l(figures, brewhouse), _room_l(mash, brewhouse)
    most = floor(100 * min(water_l, in_tun_l)) / 100
    if number(mash.water) <= most + SLACK_L or most < THICKEST * mash.grist.number:
        return recipe, ()
    why = "there is no more for it" if water_l <= in_tun_l else "the tun holds no more"
    poured = given(most, "L", "mash water", words=f"less than the usual thickness asks for: {why}")
    note = f"The mash is thicker than usual, {most / mash.grist.number:.1f} L to a kilogram, for {why}."
    return replace(recipe, mash=(replace(recipe.mash[0], water=poured), *recipe.mash[1:])), (note,)


def check(plan: Plan) -> None:
    """Refuse what the vessels and the bottles cannot hold.

    Raises
    ------
    Refusal
        Everything that does not fit, with the bound that it met.
    """
    problems = Problems()
    faults(plan, problems)
    found = [f"{problem.what} ({problem.expected})" for problem in problems.errors() if problem.expected]
    found += [problem.what for problem in problems.errors() if not problem.expected]
    if found:
        raise Refusal("; ".join(found))


def _room_l(mash: Mash, brewhouse: Brewhouse) -> float:
    """Water that fits into the tun with the grain (L)."""
    room = STIRRED * brewhouse.tun.number / swelling(mash) if brewhouse.tun else inf
    return room - GRAIN_DISPLACEMENT.number * mash.grist.number
