"""The chain of equations, written once: from a recipe in a brewhouse to all of its figures, with any calculator."""

from __future__ import annotations

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.refusal import Refusal
from gristbook.sheet.value import Value, constant
from gristbook.targets.bitterness import Boil, bitterness
from gristbook.targets.colour import colour
from gristbook.targets.cooling import topping_up
from gristbook.targets.efficiency import by_load, for_shares, late_shares
from gristbook.targets.fermentation import fermentation
from gristbook.targets.grist import by_shares, grist, weigh
from gristbook.targets.mash import mash, water
from gristbook.targets.packaging import packaging
from gristbook.targets.pitch import pitch
from gristbook.targets.readings import readings
from gristbook.targets.results import Figures
from gristbook.targets.serving import serving
from gristbook.targets.volumes import late_volume, planned_end_of_boil, planned_start, volume_chain
from gristbook.targets.water_chemistry import water_chemistry
from gristbook.targets.wort import wort

ROUNDS = 4
"""Late malt extract takes room in the boil, by which the efficiency goes, by which the extract is weighed: each round
brings the weights a hundred times nearer."""


def work_out(recipe: Recipe, brewhouse: Brewhouse, bitterness_model: str, colour_model: str) -> Figures:
    """Everything about a recipe in a brewhouse.

    Parameters
    ----------
    calc : `apply` for values with lineage, `bare` or `drawn(...)` for plain numbers

    Raises
    ------
    ValueError
        The recipe cannot be brewed as it is written; the words say why.
    """
    if by_shares(recipe) and recipe.kettle is not None:
        raise Refusal("a partial boil needs weights: percentages cannot be worked out for it")
    planned = planned_end_of_boil(recipe, brewhouse, constant(0.0, "L"))
    late_l = constant(0.0, "L")
    for _ in range(ROUNDS if late_shares(recipe, brewhouse) else 1):
        efficiency: Value | None = None
        if by_shares(recipe):
            start = planned_start(recipe, brewhouse, planned, late_l)
            efficiency = for_shares(recipe, brewhouse, planned, start)
        weights = weigh(recipe, brewhouse, efficiency, planned)
        late_l = late_volume(recipe, weights)
    if late_l.number:
        planned = planned_end_of_boil(recipe, brewhouse, late_l)
    volumes = volume_chain(recipe, brewhouse, planned, late_l)
    if efficiency is None:
        efficiency = by_load(recipe, brewhouse, weights, volumes.boil)
    lines = grist(recipe, brewhouse, efficiency, weights)
    gravities = wort(recipe, efficiency, lines, volumes)
    fermented = fermentation(recipe, lines, gravities, volumes)
    mashing = mash(recipe, brewhouse, lines, volumes, weights)
    poured = water(recipe, brewhouse, lines, volumes, weights)
    return Figures(
        lines,
        volumes,
        gravities,
        fermented,
        bitterness(Boil(recipe, brewhouse, weights, lines, volumes, gravities), bitterness_model),
        colour(lines, volumes, colour_model),
        mashing,
        poured,
        topping_up(recipe, brewhouse, volumes),
        pitch(recipe, volumes, gravities),
        packaging(recipe, volumes, fermented),
        serving(gravities, fermented),
        readings(gravities, fermented),
        water_chemistry(recipe, brewhouse, lines, mashing, poured.total),
    )
