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

import random
from array import array
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from functools import cache
from math import sqrt
from pathlib import Path
from statistics import NormalDist, quantiles
from typing import TypeVar

import pytest
from replay import Replay

from gristbook.model.book import Book
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.problems import Problems
from gristbook.sheet.origin import By, Decided, Given
from gristbook.sheet.units import held
from gristbook.sheet.value import NINE_IN_TEN, Value, lineage
from gristbook.targets.chain import work_out
from gristbook.targets.figures import named_figures
from gristbook.text.book import read_book

RECIPES = {"quillmere-best": 0.1, "great-spur": 0.1, "lamplighter-amber": 0.25}
"""Three brews of the demo book and the allowance for bends and kinks: a stand, a strong ale, a partial boil."""
BENT = {"lactic-acid-for-the-mash": 0.5}
"""What a figure is allowed besides, for a bend of its own."""

T = TypeVar("T")


@cache
def book() -> Book:
    read = read_book(Path(__file__).parents[2] / "recipes", Problems())
    assert read is not None
    return read


def of(slug: str) -> tuple[Recipe, Brewhouse]:
    recipe = next(recipe for recipe in book().recipes if recipe.slug == slug)
    return recipe, book().brewhouses[recipe.brewhouse]


def figures(recipe: Recipe, brewhouse: Brewhouse) -> dict[str, Value]:
    worked = named_figures(work_out(recipe, brewhouse, book().bitterness_model, book().colour_model))
    return {name: value for name, value in worked.items() if isinstance(value, Value)}


def sampled(replay: Replay, draws: int) -> dict[str, array[float]]:
    """Every figure, as it came out in each draw."""
    dice = random.Random(20)
    found: dict[str, array[float]] = {name: array("d") for name in replay.figures}
    for _ in range(draws):
        for name, drawn in replay.drawn({doubt: dice.gauss() for doubt in replay.doubts}).items():
            found[name].append(drawn)
    return found


def hold(slug: str, draws: int) -> None:
    density = NormalDist().pdf(NINE_IN_TEN)
    allowed = 4 * sqrt(0.05 * 0.95 / draws) / density + RECIPES[slug]
    planned = figures(*of(slug))
    seen = sampled(Replay(planned), draws)
    ranged = {name: value for name, value in planned.items() if value.mover}
    assert {"original-gravity", "final-gravity", "alcohol-by-volume", "bitterness", "colour"} <= set(ranged)
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


def moved(written: T, shifts: dict[str, float]) -> T:
    """A recipe or a brewhouse whose author wrote other numbers, certain ones."""
    if isinstance(written, Value):
        given = written.origin
        if not isinstance(given, Given) or not given.sd:
            return written
        number = held(written.number + given.sd * shifts.get(given.doubt, 0.0), written.unit)[0]
        return replace(written, number=number, origin=replace(given, sd=0.0))
    if isinstance(written, tuple):
        return tuple(moved(part, shifts) for part in written)  # type: ignore[return-value]
    if is_dataclass(written) and not isinstance(written, type):
        parts = {part.name: getattr(written, part.name) for part in fields(written) if part.init}
        changed = {name: moved(part, shifts) for name, part in parts.items()}
        return replace(written, **{name: new for name, new in changed.items() if new is not parts[name]})
    return written


def doubts_written(written: object) -> Iterator[str]:
    """Every doubt of a number that the author wrote."""
    if isinstance(written, Value) and isinstance(written.origin, Given) and written.origin.sd:
        yield written.origin.doubt
    parts = written if isinstance(written, tuple) else ()
    if is_dataclass(written) and not isinstance(written, Value):
        parts = tuple(getattr(written, part.name) for part in fields(written))
    for part in parts:
        yield from doubts_written(part)


@pytest.mark.parametrize("slug", RECIPES)
def test_to_run_down_the_working_is_to_walk_the_whole_chain(slug: str) -> None:
    """A brew is worked out anew from other numbers in its recipe and brewhouse.

    What a decision rests on is left alone: anew, it would be decided otherwise. So is a convention of the method.
    """
    recipe, brewhouse = of(slug)
    planned, kept = figures(recipe, brewhouse), set[str]()
    for value in lineage(*planned.values()):
        if isinstance(value.origin, Decided):
            kept |= value.origin.of.doubts.keys()
        elif isinstance(value.origin, Given) and value.origin.by is By.METHOD:
            kept |= value.doubts.keys()
    doubts = sorted({*doubts_written(recipe), *doubts_written(brewhouse)} - kept)
    assert len(doubts) >= 5, doubts
    replay, dice = Replay(planned), random.Random(20)
    for _ in range(20):
        draws = {doubt: dice.gauss() for doubt in doubts}
        anew = figures(moved(recipe, draws), moved(brewhouse, draws))
        drawn = replay.drawn(draws)
        assert {name: drawn[name] for name in anew} == pytest.approx({n: v.number for n, v in anew.items()}, rel=1e-9)


def test_the_weights_of_a_plan_carry_no_doubt() -> None:
    for recipe in book().recipes:
        brewhouse = book().brewhouses[recipe.brewhouse]
        worked = work_out(recipe, brewhouse, book().bitterness_model, book().colour_model)
        masses = [line.mass for line in worked.grist.malts]
        masses += [line.mass for line in worked.grist.sugars]
        masses += [line.mass for line in worked.bitterness.hops]
        masses += [line.amount for line in worked.pitch.yeasts] if worked.pitch else []
        assert masses
        assert [mass.label for mass in masses if mass.doubts] == [], recipe.slug
