"""The ranges that pages show, held to Monte Carlo: every doubt of a brew is drawn, and the brew worked out anew.

A draw runs down the working of all named figures: each equation that the chain called, in its order, with the numbers
of this draw. That is thirty times quicker than to walk the chain for each, and a test holds it to the chain itself.

How far the two may lie apart, in standard deviations of the figure:

* chance: a fifth percentile of n draws is itself uncertain by √(0.05 · 0.95 / n) over the normal density there, 0.103;
  four of these are allowed;
* the bend: a range by slopes takes every curve for a straight line. Over the spreads of a brew (boil-off in a
  denominator, attenuation in a denominator) nine in ten lie within a tenth of a standard deviation of where it says;
* a figure that bends more: lactic acid for the mash goes with the buffering of malt, of which published figures lie
  from 30 to 58. What is even about their middle is what acid does to malt, the reciprocal (so that the pH of the mash
  goes straight), and the acid's high end is then half a standard deviation short;
* a kink: the Lamplighter's dried malt extract is wholly soluble, "100 %", with a spread that only half of can be: a
  draw above is held at 100 %, which the slope cannot know. There the allowance is a quarter.
"""

from __future__ import annotations

import importlib
import random
from array import array
from collections.abc import Callable, Mapping
from functools import cache
from math import sqrt
from pathlib import Path
from statistics import NormalDist, quantiles

import pytest

from gristbook.equations.registry import Equation
from gristbook.model.book import Book
from gristbook.problems import Problems
from gristbook.sampling import drawn
from gristbook.targets.chain import work_out
from gristbook.targets.figures import named_figures
from gristbook.text.book import read_book
from gristbook.worksheet import NINE_IN_TEN, Calculator, Derived, N, Value, apply, bounded, lineage

RECIPES = {"quillmere-best": 0.1, "great-spur": 0.1, "lamplighter-amber": 0.25}
"""Three brews of the demo book and the allowance for bends and kinks: a stand, a strong ale, a partial boil."""
BENT = {"lactic acid for the mash": 0.5}
"""What a figure is allowed besides, for a bend of its own."""


@cache
def book() -> Book:
    read = read_book(Path(__file__).parents[2] / "recipes", Problems())
    assert read is not None
    return read


def figures(slug: str, calc: Calculator[N]) -> dict[str, N | Value]:
    recipe = next(recipe for recipe in book().recipes if recipe.slug == slug)
    brewhouse = book().brewhouses[recipe.brewhouse]
    return named_figures(work_out(recipe, brewhouse, book().bitterness_model, book().colour_model, calc))


Step = tuple[int, Callable[..., float], tuple[tuple[str, int | tuple[int, ...]], ...], str]
"""Where an equation's result is kept, the equation, where each of its arguments is kept, and the result's unit."""


class Working:
    """The named figures of a recipe as a list of equations, to be run again with other numbers at its roots.

    What carries no doubt (what is certain, and what was settled before the brew) keeps the number of the plan.
    """

    def __init__(self, slug: str) -> None:
        planned = {name: value for name, value in figures(slug, apply).items() if isinstance(value, Value)}
        nodes = list(lineage(*planned.values()))
        place = {id(node): n for n, node in enumerate(nodes)}
        self.figures = {name: place[id(value)] for name, value in planned.items()}
        self.doubts = sorted({doubt for node in nodes for doubt, _ in node.doubts})
        self._numbers = [node.number for node in nodes]
        self._roots = [(n, node) for n, node in enumerate(nodes) if node.doubts and not isinstance(node, Derived)]
        self._steps: list[Step] = []
        for n, node in enumerate(nodes):
            if isinstance(node, Derived) and node.doubts and node.equation is not None:
                at = tuple(
                    (name, tuple(place[id(one)] for one in put_in) if isinstance(put_in, tuple) else place[id(put_in)])
                    for name, put_in in node.inputs
                )
                self._steps.append((n, function_of(node.equation), at, node.unit))

    def drawn(self, draws: Mapping[str, float]) -> list[float]:
        """Every number of the working, with every doubt ``draws[name]`` standard deviations off."""
        numbers = self._numbers.copy()
        for n, root in self._roots:
            moved = root.number + sum(slope * draws.get(doubt, 0.0) for doubt, slope in root.doubts)
            numbers[n] = bounded(moved, root.unit)[0]
        for n, equation, at, unit in self._steps:
            put_in = {
                name: tuple(numbers[one] for one in where) if isinstance(where, tuple) else numbers[where]
                for name, where in at
            }
            numbers[n] = bounded(equation(**put_in), unit)[0]
        return numbers


def function_of(record: Equation) -> Callable[..., float]:
    module, _, function = record.name.partition(".")
    return getattr(importlib.import_module(f"gristbook.equations.{module}"), function)  # type: ignore[no-any-return]


def sampled(slug: str, draws: int) -> dict[str, array[float]]:
    """Every named figure, as it came out in each draw."""
    working, dice = Working(slug), random.Random(20)
    found: dict[str, array[float]] = {name: array("d") for name in working.figures}
    for _ in range(draws):
        numbers = working.drawn({doubt: dice.gauss() for doubt in working.doubts})
        for name, place in working.figures.items():
            found[name].append(numbers[place])
    return found


def hold(slug: str, draws: int) -> None:
    density = NormalDist().pdf(NINE_IN_TEN)
    allowed = 4 * sqrt(0.05 * 0.95 / draws) / density + RECIPES[slug]
    planned, seen = figures(slug, apply), sampled(slug, draws)
    ranged = {name: value for name, value in planned.items() if isinstance(value, Derived) and value.mover}
    assert {"original gravity", "final gravity", "alcohol by volume", "bitterness", "colour"} <= set(ranged)
    for name, value in ranged.items():
        cuts = quantiles(seen[name], n=20)
        room = (allowed + BENT.get(name, 0.0)) * value.spread + 1e-9 * abs(value.number)
        assert abs(cuts[0] - value.low) <= room, f"{name}: a low of {value.low:g}, but {cuts[0]:g} when drawn"
        assert abs(cuts[-1] - value.high) <= room, f"{name}: a high of {value.high:g}, but {cuts[-1]:g} when drawn"


@pytest.mark.parametrize("slug", RECIPES)
def test_a_range_holds_nine_of_ten_drawn_brews(slug: str) -> None:
    hold(slug, draws=2_000)


@pytest.mark.slow
@pytest.mark.parametrize("slug", RECIPES)
def test_a_range_holds_nine_of_ten_of_a_hundred_thousand_drawn_brews(slug: str) -> None:
    hold(slug, draws=100_000)


@pytest.mark.parametrize("slug", RECIPES)
def test_to_run_down_the_working_is_to_walk_the_whole_chain(slug: str) -> None:
    """Figures without a range too: what the working takes for certain does not move in the chain either."""
    working, dice = Working(slug), random.Random(20)
    for _ in range(100):
        draws = {doubt: dice.gauss() for doubt in working.doubts}
        numbers = working.drawn(draws)
        chain = {name: value for name, value in figures(slug, drawn(draws)).items() if not isinstance(value, Value)}
        assert len(chain) > 30  # a root with a name, such as the calcium of a water, goes through as it is
        assert {name: numbers[working.figures[name]] for name in chain} == pytest.approx(chain, rel=1e-9)


def test_the_weights_of_a_plan_carry_no_doubt() -> None:
    for recipe in book().recipes:
        brewhouse = book().brewhouses[recipe.brewhouse]
        worked = work_out(recipe, brewhouse, book().bitterness_model, book().colour_model, apply)
        masses = [line.mass for line in worked.grist.malts]
        masses += [line.mass for line in worked.grist.sugars]
        masses += [line.mass for line in worked.bitterness.hops]
        masses += [line.amount for line in worked.pitch.yeasts] if worked.pitch else []
        assert masses
        assert [mass.label for mass in masses if mass.doubts] == [], recipe.slug
