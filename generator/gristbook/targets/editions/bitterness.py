"""Hops that reach the bitterness of the recipe in another brewhouse: the longest boil addition gives way."""

from __future__ import annotations

from dataclasses import replace

from gristbook.equations import hopping, kettle
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Hop, Recipe
from gristbook.targets.chain import work_out
from gristbook.targets.figures import Bitterness, HopFigures, Plan
from gristbook.worksheet import Value, apply, number, settled

UNSAID = 0.01
"""The share of the total bitterness that may drift before a word is said."""


def hopped(recipe: Recipe, plan: Plan, brewhouse: Brewhouse) -> tuple[Recipe, tuple[str, ...]]:
    """The longest boil addition weighed so that the total bitterness is kept; else the drift in words.

    Parameters
    ----------
    recipe : with the weights that its gravity asks for
    plan : the home plan, whose bitterness is kept
    """
    found = work_out(recipe, brewhouse, plan.bitterness_model, plan.colour_model, apply).bitterness
    total = settled(plan.figures.bitterness.total)
    longest = _longest(found, recipe)
    if longest is None:
        return recipe, _drift(total, found.total.number, "No hop is boiled long enough to make up for it")
    others = [line.bitterness for line in found.hops if line is not longest]
    others += [line.bitterness for line in found.kits]
    rest = sum(other.number for other in others)
    if rest >= total.number:
        left = replace(recipe, hops=tuple(hop for hop in recipe.hops if hop is not longest.hop))
        words = f"The longest boiled hop, {longest.hop.name}, is left out, for the rest brings all the bitterness"
        return left, (f"{words}.", *_drift(total, rest, "Nothing else gives way"))
    besides = apply(hopping.total_bitterness, "bitterness of the other hops", parts=tuple(others) or (0.0,))
    label = f"bitterness wanted of {longest.hop.name}"
    wanted = settled(apply(kettle.gained_bitterness, label, after=total, before=besides))
    hops = tuple(replace(hop, mass=None, bitterness=wanted) if hop is longest.hop else hop for hop in recipe.hops)
    return replace(recipe, hops=hops), ()


def _longest(found: Bitterness[Value], recipe: Recipe) -> HopFigures[Value] | None:
    """The addition that boils longest and brings anything at all."""
    boiled = [
        line for line in found.hops if line.hop.use in ("boil", "first wort") and number(line.utilisation or 0.0) > 0
    ]
    return max(boiled, key=lambda line: _minutes(line.hop, recipe), default=None)


def _minutes(hop: Hop, recipe: Recipe) -> float:
    return recipe.boil.number if hop.minutes is None else hop.minutes.number


def _drift(total: Value, now: float, why: str) -> tuple[str, ...]:
    if abs(now - total.number) <= UNSAID * total.number:
        return ()
    way = "less bitter" if now < total.number else "bitterer"
    return (f"{why}: the beer is {way} than the recipe.",)
