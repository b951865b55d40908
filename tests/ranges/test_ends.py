"""Every doubt of every figure, held to that of a brew which is worked out anew with it at its low and at its high.

Draws tell whether a range is as wide as it should be; a doubt that is forgotten, counted twice or turned round shows in
them only where it is large. Here each has to move each figure as far, and to the same sides, as plain code says.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import hypot
from pathlib import Path

import pytest
from drawn_plan import ends
from the_demo import SLUGS, plans

from gristbook.model.moment import Stand
from gristbook.problems import Problems
from gristbook.targets.figures import Plan
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

BOOK = Path(__file__).parent / "book"
OTHERS = tuple(sorted(path.stem for path in BOOK.glob("*.md")))

Moves = Mapping[str, tuple[float, float]]

APART = 0.03
"""How far two may lie apart, as a share of all of a figure's doubts together: the book's slopes are local."""
AT_THE_KNEE = {"mash as it stands": 0.15}
"""The same of a mash that may stand below 65 °C, where the curve of what ferments ends."""
BENT = {("everything-sure", "cells-to-pitch"): 0.05}
"""The same where all that is left is a bend: more wort of the same extract is thinner, and wants as many cells."""
BANDS = {"rager 1990", "garetz 1994", "daniels 1996"}
"""Tables of bands: what a stand is worth, in doubt, may jump from one to the next, and no slope says how far."""


def plan_of(slug: str) -> Plan:
    if slug in SLUGS:
        return plans()[slug]
    read = read_book(BOOK, Problems())
    assert read is not None
    return next(plan for plan in plan_book(read, Problems()) if plan.recipe.slug == slug)


def unlike(told: Moves, found: Moves, room: float) -> Iterator[str]:
    """Doubts that the book has and the brew has not, or the other way round."""
    whole = hypot(*(high - low for low, high in found.values()))
    left = dict(found)

    def apart(name: str, move: tuple[float, float]) -> float:
        return max(abs(a - b) for a, b in zip(left[name], move, strict=True))

    for doubt, move in sorted(told.items(), key=lambda it: -abs(it[1][1] - it[1][0])):
        near = min(left, key=lambda name: apart(name, move), default="")
        if near and apart(near, move) <= AT_THE_KNEE.get(near, room) * whole:
            del left[near]
        elif max(map(abs, move)) > room * whole:
            yield f"the book has {doubt} at {move[0]:.3g}, {move[1]:.3g}"
    for doubt, move in left.items():
        if max(map(abs, move)) > room * whole:
            yield f"the brew has {doubt} at {move[0]:.3g}, {move[1]:.3g}"


def told(plan: Plan) -> Iterator[tuple[tuple[str, str], Mapping[str, Moves]]]:
    """By a model of bitterness and one of colour, the doubts of the figures that the book prints by them."""
    bitter, colour = plan.bitterness_model, plan.colour_model
    yield (bitter, colour), {figure: value.doubts for figure, value in plan.named.items()}
    stands = any(isinstance(hop.use, Stand) for hop in plan.recipe.hops)
    for model, value in plan.figures.bitterness.models:
        if not (stands and model in BANDS):
            yield (model, colour), {"bitterness": value.doubts}
    for model, value in plan.figures.colour.models:
        yield (bitter, model), {"colour": value.doubts}


@pytest.mark.parametrize("slug", [*SLUGS, *OTHERS])
def test_each_doubt_moves_each_figure_as_far_as_in_a_brew_worked_out_with_it(slug: str) -> None:
    plan, wrong = plan_of(slug), []
    for models, figures in told(plan):
        for figure, found in ends(plan, *models).items():
            if figure in figures:
                lines = unlike(figures[figure], found, BENT.get((slug, figure), APART))
                wrong += [f"{figure} ({', '.join(models)}): {line}" for line in lines]
    assert not wrong, "\n".join(wrong)
