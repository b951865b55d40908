"""Before anything is hot: weigh, crush, clean, and treat the water."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.targets.figures import Plan
from gristbook.targets.method_step import Draft, Sentence, draft, listed, measured, names, say, weighed
from gristbook.targets.method_water import water_sentences


def ready_steps(plan: Plan) -> Iterator[Draft]:
    """The steps up to a tub of good water."""
    yield draft("weigh", "Weigh everything", *_weighing(plan))
    rolled = names(malt.name for malt in plan.recipe.malts if malt.kind == "flaked")
    if any(malt.kind != "flaked" for malt in plan.recipe.malts):
        yield draft(
            "crush",
            "Crush the grain",
            "Crush it, or buy it crushed, so that every kernel is cracked and its husk stays nearly whole.",
            f"Rolled grain needs no crushing: leave out the {rolled}." if rolled else "",
        )
    yield draft(
        "clean",
        "Clean",
        "Wash and rinse everything that the beer will touch: a sanitiser works only on what is clean.",
        "Mix the sanitiser as its maker says, and find the contact time on its label. You will need it later.",
    )
    yield draft("water", "Treat the water", *water_sentences(plan))


def _weighing(plan: Plan) -> Iterator[Sentence | str]:
    recipe, malts = plan.recipe, plan.figures.grist.malts
    if malts:
        yield say("Weigh out the grain: {all}.", all=listed([weighed(line.mass, line.malt.name) for line in malts]))
    if recipe.hops:
        yield "Weigh each addition of hops into a cup of its own, and stand the cups in the order of their times."
    if recipe.sugars:
        into = "a dry jug" if len(recipe.sugars) == 1 else "dry jugs, one for each time"
        yield f"Weigh the {names(sugar.name for sugar in recipe.sugars)} into {into}."
    if any(not yeast.dried for yeast in recipe.yeasts):
        yield "Take the liquid yeast out of the cold as early as its maker says."
    untimed = [measured(extra) for extra in recipe.extras if extra.moment is None]
    if untimed:
        yield say("The recipe does not say when to add {them}: follow the label.", them=listed(untimed))
