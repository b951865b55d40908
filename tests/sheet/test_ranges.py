"""What comes of doubts together: three sums, two halves, and models as models."""

from __future__ import annotations

import random
from pathlib import Path
from statistics import NormalDist, quantiles

import pytest

from gristbook.problems import Problems
from gristbook.sheet.doubts import NINE_IN_TEN, Triple, mixed, read_back, sums_of, triple_of
from gristbook.sheet.value import chosen, given
from gristbook.targets.chain import work_out
from gristbook.text.book import read_book

ALPHA, VOLUME, SCALE = (-3.30, 1.98), (0.54, -0.52), (-0.88, 0.88)
"""Worked by hand: 30 g (29 to 31) of hops with 8.0 % alpha acids (7.0 to 8.6) in 20 L (19.6 to 20.4), of which 22 % is
used, are 26.4 IBU; the low and the high end of each moves it by so much."""


@pytest.mark.parametrize("ends", [(-1.0, 1.0), (-2.0, 5.0), (-4.0, 1.0), (-3.0, 0.0), (0.0, 2.0)])
def test_a_doubt_that_stands_alone_gives_back_its_own_ends(ends: tuple[float, float]) -> None:
    triple = triple_of(10.0, {"alone": ends})
    assert (triple.low, triple.high) == (10.0 + ends[0], 10.0 + ends[1])
    again = read_back(10.0, sums_of(ends))  # by the sums, too; five rounds come so near
    near = 0.01 * (ends[1] - ends[0])
    assert (again.low, again.middle, again.high) == pytest.approx((10.0 + ends[0], 10.0, 10.0 + ends[1]), abs=near)


def test_three_doubts_together_are_what_they_are_by_hand() -> None:
    triple = triple_of(26.4, {"alpha": ALPHA, "volume": VOLUME, "scale": SCALE})
    assert (triple.low, triple.middle, triple.high) == pytest.approx((22.95, 26.36, 28.63), abs=0.006)
    assert sums_of(ALPHA).variance == pytest.approx(2.634, abs=0.001)


def test_three_doubts_together_are_what_they_are_when_drawn() -> None:
    dice, seen = random.Random(20), []
    for _ in range(50_000):
        z = [dice.gauss() / NINE_IN_TEN for _ in range(3)]
        ends = (ALPHA, VOLUME, SCALE)
        seen.append(26.4 + sum(e[1] * x if x > 0 else -e[0] * x for e, x in zip(ends, z, strict=True)))
    cuts = quantiles(seen, n=20)
    assert (cuts[0], cuts[-1]) == pytest.approx((22.95, 28.63), abs=0.06)


def test_models_are_mixed_and_not_averaged() -> None:
    by_hand = [Triple(22.95 * k, 26.36 * k, 28.63 * k) for k in (1.0, 26 / 22, 16 / 22)]
    assert mixed(by_hand, 0.05) == pytest.approx(17.6, abs=0.02)
    assert mixed(by_hand, 0.95) == pytest.approx(32.84, abs=0.03)


def test_a_choice_is_one_wherever_it_is_met_and_what_follows_is_worked_out_for_each_model() -> None:
    def by(model: str, number: float):  # type: ignore[no-untyped-def]
        return given(number, "IBU", model, words="a test", ends=(-0.1 * number, 0.1 * number), doubt="alpha")

    first = chosen("model", "b", {name: by(name, n) for name, n in (("a", 10.0), ("b", 20.0), ("c", 40.0))})
    other = chosen("model", "b", {name: by(name, n) for name, n in (("a", 5.0), ("b", 4.0), ("c", 2.0))})
    whole = (first + other).called("whole")
    assert whole.number == 24.0
    assert sorted(it.number for it in whole.sure.branches.values()) == [15.0, 24.0, 42.0]
    assert whole.mover == "model"
    assert whole.low < 15.0
    assert whole.high > 42.0
    assert (whole - other - first).spread == pytest.approx(0.0, abs=1e-9)


def test_two_choices_in_one_figure_are_every_pair() -> None:
    one, other = (
        chosen(name, "a", {key: given(n, "L", key, words="a test") for key, n in (("a", 1.0), ("b", 2.0 * times))})
        for name, times in (("first", 1.0), ("second", 10.0))
    )
    assert sorted(it.number for it in (one + other).sure.branches.values()) == [2.0, 3.0, 21.0, 22.0]


def test_an_even_doubt_is_the_normal_distribution_s_own() -> None:
    assert pytest.approx(NormalDist().inv_cdf(0.95)) == NINE_IN_TEN
    middle = given(20.0, "L", "batch", words="a test", ends=(-1.0, 1.0))
    assert (middle.low, middle.high, middle.spread) == (19.0, 21.0, pytest.approx(1 / NINE_IN_TEN))


def test_certain_is_another_thing_than_unsaid() -> None:
    for ends in (None, (0.0, 0.0)):
        value = given(20.0, "L", "batch", words="a test", ends=ends)
        assert (value.certain, value.low, value.high, value.mover) == (True, 20.0, 20.0, "")


def test_no_printed_model_lies_outside_of_its_range() -> None:
    for recipe in _book().recipes:
        brewhouse = _book().brewhouses[recipe.brewhouse]
        worked = work_out(recipe, brewhouse, _book().bitterness_model, _book().colour_model)
        beer = worked.bitterness
        for found, models in ((beer.total, beer.models), (worked.colour.srm, worked.colour.models)):
            for name, by_it in models:
                assert found.low <= by_it.number <= found.high, (recipe.slug, name)


def test_the_weights_of_a_plan_carry_no_doubt() -> None:
    for recipe in _book().recipes:
        brewhouse = _book().brewhouses[recipe.brewhouse]
        worked = work_out(recipe, brewhouse, _book().bitterness_model, _book().colour_model)
        masses = [line.mass for line in worked.grist.malts]
        masses += [line.mass for line in worked.grist.sugars]
        masses += [line.mass for line in worked.bitterness.hops]
        masses += [line.amount for line in worked.pitch.yeasts] if worked.pitch else []
        assert masses
        assert [mass.label for mass in masses if mass.doubts] == [], recipe.slug


def _book():  # type: ignore[no-untyped-def]
    read = read_book(Path(__file__).parents[2] / "recipes", Problems())
    assert read is not None
    return read
