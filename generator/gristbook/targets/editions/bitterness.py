"""Hops that reach the bitterness of the recipe in another brewhouse: the longest boil addition gives way."""

from __future__ import annotations

from dataclasses import replace

from gristbook.model.amount import Wanted
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.hop import Hop
from gristbook.model.moment import BeforeTheEnd, FirstWort
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, number, settled
from gristbook.targets.chain import work_out
from gristbook.targets.figures import Plan
from gristbook.targets.hops.hopping_rate import at_another_rate, hopping_rate
from gristbook.targets.results import Bitterness, Figures, HopFigures

UNSAID = 0.01
"""The share of the total bitterness that may drift before a word is said."""


def hopped(recipe: Recipe, figures: Figures, plan: Plan, brewhouse: Brewhouse) -> tuple[Recipe, tuple[str, ...]]:
    """The longest boil addition weighed so that the total bitterness is kept; else the drift in words.

    Parameters
    ----------
    recipe : with the weights that its gravity asks for
    figures : what it comes to in the brewhouse
    plan : the home plan, whose bitterness is kept
    """
    found = figures.bitterness
    total = settled(plan.figures.bitterness.total)
    longest = _longest(found, recipe)
    if longest is None:
        return recipe, _drift(total, found.total.number, "No hop is boiled long enough to make up for it")
    besides = _besides(longest, total, figures)
    if besides.number >= total.number:
        left = replace(recipe, hops=tuple(hop for hop in recipe.hops if hop is not longest.hop))
        words = f"The longest boiled hop, {longest.hop.name}, is left out, for the rest brings all the bitterness"
        now = work_out(left, brewhouse, plan.bitterness_model, plan.colour_model).bitterness.total.number
        return left, (f"{words}.", *_drift(total, now, "Nothing else gives way"))
    label = f"bitterness wanted of {longest.hop.name}"
    wanted = settled((total - besides).called(label))
    hops = tuple(replace(hop, amount=Wanted(wanted)) if hop is longest.hop else hop for hop in recipe.hops)
    return replace(recipe, hops=hops), ()


def _besides(longest: HopFigures, total: Value, figures: Figures) -> Value:
    """What all but the longest addition will bring when the total is reached.

    By a model with a hopping rate, an addition with a weight of its own gives more or less as the total is another.
    """
    found = figures.bitterness
    kits = tuple(kit.bitterness for kit in found.kits)
    then = None
    if found.hopping_rate is not None:
        of_kits = sum_of(kits, "bitterness of the hopped extract", "IBU")
        then = hopping_rate((), ((total - of_kits).called("bitterness wanted of all hops"),), figures.volumes)

    def brings(line: HopFigures) -> Value:
        if then is None or found.hopping_rate is None or line.hop.bitterness is not None:
            return line.bitterness
        return at_another_rate(line.bitterness, found.hopping_rate, then, line.hop.name)

    others = (brings(line) for line in found.hops if line is not longest)
    return sum_of((*others, *kits), "bitterness of the other hops", "IBU")


def _longest(found: Bitterness, recipe: Recipe) -> HopFigures | None:
    """The addition that boils longest and brings anything at all."""
    boiled = [
        line
        for line in found.hops
        if isinstance(line.hop.use, BeforeTheEnd | FirstWort) and number(line.utilisation or 0.0) > 0
    ]
    return max(boiled, key=lambda line: _minutes(line.hop, recipe), default=None)


def _minutes(hop: Hop, recipe: Recipe) -> float:
    return hop.use.minutes.number if isinstance(hop.use, BeforeTheEnd) else recipe.boil.number


def _drift(total: Value, now: float, why: str) -> tuple[str, ...]:
    if abs(now - total.number) <= UNSAID * total.number:
        return ()
    way = "less bitter" if now < total.number else "bitterer"
    return (f"{why}: the beer is {way} than the recipe.",)
