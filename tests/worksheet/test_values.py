"""A number that remembers: what `apply` keeps, what it refuses, and what it says about the result."""

from __future__ import annotations

import pickle
from statistics import NormalDist
from time import perf_counter

import pytest

from gristbook.equations import attenuation, colour, extract, gravity, hopping, kettle, sums
from gristbook.problems import Place
from gristbook.sampling import bare, drawn
from gristbook.worksheet import (
    NINE_IN_TEN,
    Calculator,
    Derived,
    Given,
    N,
    Value,
    apply,
    between,
    given,
    lineage,
    settled,
)


def litres(number: float, doubt: str = "", sd: float = 0.0) -> Given:
    return given(number, "L", doubt or "a volume", origin="a test", sd=sd, doubt=doubt)


def both(*parts: Value) -> Value:
    return apply(sums.total_volume, "both", parts_l=parts)


def what_is_left(whole: Value, part: Value) -> Value:
    return apply(sums.remaining_volume, "what is left", whole_l=whole, part_l=part)


def test_nine_in_ten_is_the_normal_distribution_s_own() -> None:
    assert pytest.approx(NormalDist().inv_cdf(0.95)) == NINE_IN_TEN
    middle = given(20.0, "L", "batch", origin="a test", sd=between(19.0, 21.0))
    assert [middle.low, middle.high] == pytest.approx([19.0, 21.0])


def test_one_doubt_read_twice_adds_up_and_two_doubts_do_not() -> None:
    one, same, other = litres(10, "boil-off", 0.3), litres(8, "boil-off", 0.4), litres(8, "trub", 0.4)
    assert both(one, same).spread == pytest.approx(0.7)
    assert both(one, other).spread == pytest.approx(0.5)


def test_a_doubt_cancels_in_a_difference() -> None:
    kettle_l = litres(20, "boil-off", 0.3)
    assert what_is_left(both(kettle_l, litres(2)), kettle_l).spread == pytest.approx(0.0, abs=1e-9)


def test_the_mover_is_the_doubt_that_moves_the_number_most() -> None:
    assert both(litres(10, "boil-off", 0.3), litres(8, "trub", 0.4)).mover == "trub"
    assert both(litres(10), litres(8)).mover == ""


def test_a_decision_keeps_its_number_and_lineage_and_loses_its_doubts() -> None:
    planned = both(litres(10, "boil-off", 0.3), litres(8))
    decided = settled(planned)
    assert (decided.number, decided.unit, decided.label) == (planned.number, planned.unit, planned.label)
    assert decided.doubts == ()
    assert list(lineage(decided))[:-1] == list(lineage(planned))[:-1]


def test_a_decision_does_not_move_with_a_draw() -> None:
    def brew(calc: Calculator[N]) -> N:
        whole = calc(sums.total_volume, "whole", parts_l=(litres(10, "boil-off", 0.3), litres(8)))
        poured = settled(whole)
        return calc(sums.remaining_volume, "error of pouring", whole_l=whole, part_l=poured)

    assert brew(drawn({"boil-off": 2.0})) == pytest.approx(0.6)
    assert brew(bare) == 0


def test_a_value_comes_back_from_a_pickle_equal_with_its_lineage() -> None:
    made = both(litres(10, "boil-off", 0.3), litres(8))
    again = pickle.loads(pickle.dumps(made))
    assert again == made
    assert hash(again) == hash(made)
    assert [value.label for value in lineage(again)] == [value.label for value in lineage(made)]


def test_where_a_value_comes_from_takes_no_part_in_comparing_it() -> None:
    here = given(20, "L", "batch", origin="the recipe", place=Place("a.md", 4, 1))
    there = given(20, "L", "batch", origin="the brewhouse", place=Place("book.yaml", 9, 5))
    assert here == there
    assert "a.md" not in repr(here)
    assert "inputs" not in repr(both(here, there))


def diamond(levels: int) -> tuple[Value, list[str]]:
    value: Value = litres(1.0, "root", 0.01)
    labels = [value.label]
    for level in range(levels):
        value = apply(sums.total_volume, f"level {level}", parts_l=(value, value))
        labels.append(value.label)
    return value, labels


def test_a_lineage_is_walked_once_and_in_order_though_every_level_is_used_twice() -> None:
    top, labels = diamond(24)
    started = perf_counter()
    walked = [value.label for value in lineage(top)]
    assert perf_counter() - started < 0.05  # as a tree it would be 33 million steps
    assert walked == labels
    assert top.number == 2.0**24
    assert top.spread == pytest.approx(0.01 * 2.0**24)


def test_a_lineage_of_several_figures_gives_what_they_share_once() -> None:
    shared = litres(10, "boil-off", 0.3)
    one, other = both(shared, litres(1)), both(shared, litres(2))
    walked = list(lineage(one, other))
    assert sum(value is shared for value in walked) == 1
    assert walked.index(shared) < walked.index(one) < walked.index(other)


def test_what_is_in_another_unit_is_refused() -> None:
    gallons = given(5.0, "kg", "malt", origin="a test")
    with pytest.raises(TypeError, match=r"total_volume\(parts_l\) is in L, but malt is in kg"):
        both(litres(1), gallons)


def test_a_bare_number_is_a_constant_of_the_method_in_the_argument_s_unit() -> None:
    whole = apply(sums.remaining_volume, "rest", whole_l=litres(5), part_l=2.0)
    constant = next(value for value in lineage(whole) if value.number == 2.0)
    assert isinstance(constant, Given)
    assert (constant.unit, constant.origin, constant.label) == ("L", "a constant of the method", "part l")


def test_a_figure_beyond_physics_is_held_there_and_says_so() -> None:
    # A yeast of 98 % in a mash that gives 1.06 times as much: no yeast takes more than all.
    keen = given(0.98, "fraction", "attenuation", origin="a test")
    effect = given(1.06, "ratio", "effect", origin="a test")
    held = apply(attenuation.attenuation_at_mash_temperature, "attenuation", attenuation=keen, effect=effect)
    assert isinstance(held, Derived)
    assert held.number == 1.0
    assert list(map(str, held.notes)) == ["held to 1 fraction, the most there can be"]
    less = apply(
        kettle.gained_bitterness,
        "gain",
        after=given(20.0, "IBU", "after", origin="a test"),
        before=given(21.0, "IBU", "before", origin="a test"),
    )
    assert isinstance(less, Derived)
    assert (less.number, *map(str, less.notes)) == (0.0, "held to 0 IBU, the least there can be")


def test_a_range_stops_where_physics_does() -> None:
    alpha = given(0.02, "fraction", "alpha", origin="a test", sd=0.02)
    assert alpha.low == 0.0
    assert alpha.high == pytest.approx(0.02 + NINE_IN_TEN * 0.02)


def test_a_number_outside_its_source_s_range_is_worked_out_and_noted() -> None:
    dark = apply(colour.srm_morey_1995, "colour", colour=given(200.0, "MCU", "malt colour", origin="a test"))
    assert isinstance(dark, Derived)
    assert dark.number == pytest.approx(1.4922 * 200**0.6859)
    (note,) = dark.notes
    assert str(note).startswith("malt colour is beyond the source's range, ")


def test_an_equation_s_refusal_comes_through_in_its_own_words() -> None:
    with pytest.raises(ValueError, match="volume"):
        apply(gravity.wort_gravity, "gravity", extract_kg=2.0, wort_l=0.0)


def test_a_number_that_is_not_finite_is_refused() -> None:
    endless = given(float("inf"), "L", "endless", origin="a test")
    with pytest.raises(ValueError, match="batch has no number that is finite"):
        apply(sums.total_volume, "batch", parts_l=(endless,))


def test_a_doubt_at_the_edge_of_physics_is_carried_by_the_side_that_exists() -> None:
    # All of 4 kg × 80 % at an efficiency of one: more is refused, and the slope is 3.2 kg to a whole.
    all_of_it = given(1.0, "fraction", "efficiency", origin="a test", sd=0.05)
    got = apply(extract.grain_extract, "extract", mass_kg=4.0, potential=0.8, efficiency=all_of_it)
    assert got.spread == pytest.approx(0.05 * 3.2)


def test_a_draw_moves_every_use_of_its_doubt_and_no_other() -> None:
    alpha = given(0.05, "fraction", "alpha", origin="a test", sd=0.005)
    grams = given(30.0, "g", "weight", origin="a test", sd=1.0)
    drawn_mg = drawn({"alpha": 1.0})(hopping.alpha_acids, "alpha acids", hops_g=grams, alpha=alpha)
    assert drawn_mg == pytest.approx(30_000 * 0.055)
    assert drawn({})(hopping.alpha_acids, "alpha acids", hops_g=grams, alpha=alpha) == pytest.approx(1500)
    assert bare(hopping.alpha_acids, "alpha acids", hops_g=grams, alpha=alpha) == pytest.approx(1500)
