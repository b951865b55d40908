"""The chain of equations, written once: from a recipe in a brewhouse to all of its figures."""

from __future__ import annotations

from dataclasses import replace

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.refusal import Refusal
from gristbook.sheet.value import constant
from gristbook.targets.beer.fermentation import fermentation
from gristbook.targets.beer.packaging import packaging
from gristbook.targets.beer.pitch import pitch
from gristbook.targets.beer.readings import readings
from gristbook.targets.beer.serving import serving
from gristbook.targets.hops.bitterness import bitterness
from gristbook.targets.hops.boil_gravity import Boil
from gristbook.targets.results import Figures, Volumes
from gristbook.targets.water.chemistry import water_chemistry
from gristbook.targets.wort.colour import colour
from gristbook.targets.wort.cooling import topping_up
from gristbook.targets.wort.efficiency import by_conversion, by_load, for_shares
from gristbook.targets.wort.gravities import wort
from gristbook.targets.wort.grist import Efficiency, Weights, by_shares, grist, weigh
from gristbook.targets.wort.mash import mash, water
from gristbook.targets.wort.volumes import (
    joins_late,
    late_volume,
    planned_end_of_boil,
    planned_start,
    takes_room,
    volume_chain,
    with_pulp,
)

ROUNDS = 4
"""Late malt extract takes room in the boil, by which the efficiency goes, by which the extract is weighed: each round
brings the weights a hundred times nearer."""


def work_out(recipe: Recipe, brewhouse: Brewhouse, bitterness_model: str, colour_model: str) -> Figures:
    """Everything about a recipe in a brewhouse, by the models of these names.

    Raises
    ------
    Refusal
        The recipe cannot be brewed as it is written; the words say why.
    """
    brewhouse = with_pulp(as_it_mashes(by_conversion(brewhouse), recipe), recipe)
    weights, efficiency, volumes = _weighed(recipe, brewhouse)
    lines = grist(recipe, brewhouse, efficiency, weights)
    gravities = wort(recipe, efficiency.mash, lines, volumes)
    fermented = fermentation(recipe, lines, gravities, volumes)
    mashing = mash(recipe, brewhouse, lines, volumes, efficiency)
    poured = water(recipe, brewhouse, lines, volumes)
    return Figures(
        lines,
        volumes,
        gravities,
        fermented,
        bitterness(Boil(recipe, brewhouse, lines, volumes, gravities), bitterness_model),
        colour(lines, volumes, colour_model),
        mashing,
        poured,
        topping_up(recipe, brewhouse, volumes),
        pitch(recipe, volumes, gravities),
        packaging(recipe, lines, volumes, fermented),
        serving(gravities, fermented),
        readings(gravities, fermented),
        water_chemistry(recipe, brewhouse, lines, mashing, poured.total),
    )


def as_it_mashes(brewhouse: Brewhouse, recipe: Recipe) -> Brewhouse:
    """The brewhouse with all the water in its mash, as in a bag, for a recipe that wants no sparge."""
    unsparged = recipe.sparge is not None and recipe.sparge.way == "no" and brewhouse.mash == "sparge"
    return replace(brewhouse, mash="bag") if unsparged else brewhouse


def _weighed(recipe: Recipe, brewhouse: Brewhouse) -> tuple[Weights, Efficiency, Volumes]:
    """The weights of the grist, the efficiency they were weighed by, and the volumes that they leave room for."""
    shares = by_shares(recipe)
    if shares and recipe.kettle is not None:
        raise Refusal("a partial boil needs weights: percentages cannot be worked out for it")
    planned, late_l = planned_end_of_boil(recipe, brewhouse, NOTHING_LATE), NOTHING_LATE
    efficiency: Efficiency | None = None
    for _ in range(ROUNDS if shares and any(takes_room(it) and joins_late(it, recipe) for it in recipe.sugars) else 1):
        if shares:
            start = planned_start(recipe, brewhouse, planned, late_l)
            efficiency = for_shares(recipe, brewhouse, planned, start)
        weights = weigh(recipe, brewhouse, efficiency.mash if efficiency else None, planned)
        late_l = late_volume(recipe, zip(recipe.sugars, weights.sugars, strict=True))
    if late_l.number:
        planned = planned_end_of_boil(recipe, brewhouse, late_l)
    volumes = volume_chain(recipe, brewhouse, planned, late_l)
    return weights, by_load(recipe, brewhouse, weights, volumes.boil), volumes


NOTHING_LATE = constant(0.0, "L")
