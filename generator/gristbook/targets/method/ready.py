"""Before anything is hot: weigh, crush, clean, and treat the water."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Draft, draft, listed, measured, names, weighed
from gristbook.targets.method.water import water_sentences


def ready_steps(plan: Plan) -> Iterator[Draft]:
    """The steps up to a tub of good water."""
    recipe = plan.recipe
    yield draft(
        "weigh",
        "Weigh everything",
        "Weigh out the grain: {grain}.",
        "Weigh each addition of hops into a cup of its own, and stand the cups in the order of their times."
        if recipe.hops
        else "",
        "Weigh the {sugars} into {jugs}.",
        "Take the liquid yeast out of the cold as early as its maker says."
        if any(not yeast.dried for yeast in recipe.yeasts)
        else "",
        "The recipe does not say when to add {them}: follow the label.",
        grain=listed([weighed(line.mass, line.malt.name) for line in plan.figures.grist.malts]),
        sugars=names(sugar.name for sugar in recipe.sugars) or None,
        jugs="a dry jug" if len(recipe.sugars) == 1 else "dry jugs, one for each time",
        them=listed([measured(extra) for extra in recipe.extras if extra.moment is None]),
    )
    rolled = names(malt.name for malt in recipe.malts if malt.kind == "flaked")
    if any(malt.kind != "flaked" for malt in recipe.malts):
        yield draft(
            "crush",
            "Crush the grain",
            "Crush it, or buy it crushed, so that every kernel is cracked and its husk stays nearly whole.",
            "Rolled grain needs no crushing: leave out the {rolled}.",
            rolled=rolled or None,
        )
    yield draft(
        "clean",
        "Clean",
        "Wash and rinse everything that the beer will touch: a sanitiser works only on what is clean.",
        "Mix the sanitiser as its maker says, and find the contact time on its label. You will need it later.",
    )
    yield draft("water", "Treat the water", *water_sentences(plan))
