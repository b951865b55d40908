"""What goes into a beer and is in no figure of it, said on page, card and in JSON."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.model.extra import Extra
from gristbook.model.recipe import Recipe
from gristbook.targets.beer.finished import in_the_beer
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Sentence, names, say, spoken

TELLS_L = 0.1
"""From so many litres on, a liquid that goes into the beer tells in its volume (our own)."""


def unreckoned(plan: Plan) -> Iterator[Sentence]:
    """A sentence for each thing of which something is not reckoned."""
    yield from filter(None, _fruit(plan))
    unknown = [extra.name for extra in plan.recipe.extras if not extra.known]
    if unknown:
        yield (f"Of {names(unknown)} nothing is known, and nothing is reckoned: no sugar, no volume, no dose.",)
    for extra in in_the_beer(plan.recipe):
        if extra.spirit:
            yield (f"The alcohol and the volume of {spoken(extra.name)} are not reckoned: the beer is stronger.",)
        elif extra.known and _tells(extra):
            yield (
                f"The volume of {spoken(extra.name)} is not reckoned: the beer is so much more, and so much thinner.",
            )
    yield from _notes(plan.recipe)


def _notes(recipe: Recipe) -> Iterator[Sentence]:
    """What the recipe says of its steps and its water in words that nobody reckons with."""
    said = {
        "the water": [recipe.water.note],
        "the mash": [*(it.note for it in recipe.mash), recipe.sparge.note if recipe.sparge else ""],
        "the ferment": [it.note for it in recipe.ferment],
        "the carbonation": [recipe.carbonation.note if recipe.carbonation else ""],
    }
    for what, notes in said.items():
        if told := "; ".join(filter(None, notes)):
            yield (f"The recipe notes of {what}: {told}.",)


def _fruit(plan: Plan) -> Iterator[Sentence]:
    flesh = {it.name: it.flesh for it in plan.recipe.sugars if it.flesh is not None}
    yield say(
        "The beer turns sourer by the acid of the {fruit}, about {acid}, mostly {kinds}: its pH is not reckoned, nor "
        "the colour of the fruit.",
        fruit=names(flesh) or None,
        acid=plan.figures.fermentation.fruit_acid,
        kinds=names(it.sour_of for it in flesh.values()),
    )


def _tells(extra: Extra) -> bool:
    return extra.amount is not None and extra.amount.unit == "L" and extra.amount.number >= TELLS_L
