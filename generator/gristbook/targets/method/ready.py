"""Before anything is hot: weigh, crush, clean, and treat the water."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.targets.beer.pitching import first
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Draft, draft, listed, measured, names, weighed
from gristbook.targets.method.water import water_sentences


def ready_steps(plan: Plan) -> Iterator[Draft]:
    """The steps up to a tub of good water."""
    recipe = plan.recipe
    yield from _starter(plan)
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


def _starter(plan: Plan) -> Iterator[Draft]:
    """Days ahead, where the liquid yeast that the recipe names is too little as it comes."""
    pitch = plan.figures.pitch
    if pitch is None or not pitch.starters:
        return
    asked = any(line.yeast.starter is not None for line in first(pitch))
    if not asked and sum(line.cells.number for line in first(pitch)) >= pitch.cells.number:
        return
    one_step = [it for it in pitch.starters if it.steps == 1]
    grown = next((it for it in one_step if it.standing.number >= pitch.cells.number), one_step[-1])
    yield draft(
        "starter",
        "Grow a starter",
        "Some days ahead, stir {extract} of pale dried malt extract into enough water to make {wort}, boil it for ten "
        "minutes, and let it cool in its pot under a lid.",
        "Pour it into a sanitised jar that it half fills, add the yeast, and lay foil over the mouth: never a lid.",
        "Keep it as warm as an ale, and swirl it whenever you pass. It has done when the foam has fallen.",
        "Even so it is short of what this wort wants: buy another pack besides."
        if grown.standing.number < pitch.cells.number
        else "",
        extract=grown.extract,
        wort=grown.volume,
    )
