"""What a plan's water and boil cannot do: a mash that wants more than there is, a boil that climbs out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from gristbook.equations import boiling
from gristbook.model.brewhouse import Brewhouse
from gristbook.targets.editions.pot import climb_l, usable_l
from gristbook.targets.figures import Figures, Mash, Plan
from gristbook.worksheet import Value, number

SLACK_L = 1e-6


def misfits(plan: Plan) -> Iterator[str]:
    """Everything that does not fit, in words, with the bound that it met."""
    yield from _mash(plan)
    yield from _steep(plan)
    yield from _boil(plan)


def _mash(plan: Plan) -> Iterator[str]:
    mash, brewhouse = plan.figures.mash, plan.brewhouse
    if mash is None:
        return
    boiling_c = boiling.boiling_point(altitude=brewhouse.altitude.number)
    if mash.strike.number >= boiling_c:
        yield f"the strike water would be at {mash.strike.number:.0f} °C, and water boils at {boiling_c:.0f} °C here"
    all_in, there = number(mash.water) + sum(infusions_l(mash)), mash_water_l(plan.figures, brewhouse)
    if all_in > there + SLACK_L:
        yield f"the mash takes {all_in:.1f} L of water, and the wort leaves only {there:.1f} L for it"


def _steep(plan: Plan) -> Iterator[str]:
    water = plan.figures.water
    there = water.total.number - number(plan.figures.volumes.top_up or 0.0)
    if water.steep is not None and water.steep.number > there + SLACK_L:
        yield f"the steep takes {water.steep.number:.1f} L of water, and only {there:.1f} L go into the pot"


def _boil(plan: Plan) -> Iterator[str]:
    most = usable_l(plan.brewhouse)
    sugars = tuple(replace(line.sugar, mass=line.mass, share=None) for line in plan.figures.grist.sugars)
    peak = number(plan.figures.volumes.boil) + climb_l(replace(plan.recipe, sugars=sugars), plan.brewhouse)
    if peak > most + SLACK_L and number(plan.figures.volumes.boil) <= most + SLACK_L:
        yield f"the wort climbs to {peak:.1f} L in the boil, and the pot boils {most:.1f} L at most"


def infusions_l(mash: Mash[Value]) -> list[float]:
    """Boiling water poured in for each rest (L)."""
    return [number(rest.infusion) for rest in mash.rests if rest.infusion is not None]


def mash_water_l(figures: Figures[Value], brewhouse: Brewhouse) -> float:
    """All the water that goes through the mashed grain, mash and sparge together (L)."""
    steeped = brewhouse.absorption.number * figures.grist.steeped.number if figures.grist.steeped else 0.0
    return figures.water.total.number - number(figures.volumes.top_up or 0.0) - steeped
