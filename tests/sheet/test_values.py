"""A number that remembers: what `apply` keeps, what it refuses, and what it says about the result."""

from __future__ import annotations

import pickle
from statistics import NormalDist
from time import perf_counter

import pytest
from replay import Replay

from gristbook.equations import attenuation, colour, extract, gravity, learning
from gristbook.problems import Place
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import in_steps, less, rounded_up, share_of, sum_of
from gristbook.sheet.origin import By, Decided, Given, Reckoned, Worked
from gristbook.sheet.value import NINE_IN_TEN, Value, apply, between, given, lineage, settled


def litres(number: float, doubt: str = "", sd: float = 0.0) -> Value:
    return given(number, "L", doubt or "a volume", words="a test", sd=sd, doubt=doubt)


def kilograms(number: float, sd: float = 0.0) -> Value:
    return given(number, "kg", "malt", words="a test", sd=sd)


def both(*parts: Value) -> Value:
    return sum_of(parts, "both")


def test_nine_in_ten_is_the_normal_distribution_s_own() -> None:
    assert pytest.approx(NormalDist().inv_cdf(0.95)) == NINE_IN_TEN
    middle = given(20.0, "L", "batch", words="a test", sd=between(19.0, 21.0))
    assert [middle.low, middle.high] == pytest.approx([19.0, 21.0])


def test_one_doubt_read_twice_adds_up_and_two_doubts_do_not() -> None:
    one, same, other = litres(10, "boil-off", 0.3), litres(8, "boil-off", 0.4), litres(8, "trub", 0.4)
    assert both(one, same).spread == pytest.approx(0.7)
    assert both(one, other).spread == pytest.approx(0.5)


def test_a_doubt_cancels_in_a_difference() -> None:
    kettle_l = litres(20, "boil-off", 0.3)
    assert (both(kettle_l, litres(2)) - kettle_l).spread == pytest.approx(0.0, abs=1e-9)


def test_the_mover_is_the_doubt_that_moves_the_number_most() -> None:
    assert both(litres(10, "boil-off", 0.3), litres(8, "trub", 0.4)).mover == "trub"
    assert both(litres(10), litres(8)).mover == ""


def test_a_decision_keeps_its_number_and_lineage_and_loses_its_doubts() -> None:
    planned = both(litres(10, "boil-off", 0.3), litres(8))
    decided = settled(planned)
    assert (decided.number, decided.unit, decided.label) == (planned.number, planned.unit, planned.label)
    assert isinstance(decided.origin, Decided)
    assert decided.doubts == {}
    assert list(lineage(decided))[:-1] == list(lineage(planned))[:-1]


def test_a_decision_does_not_move_with_a_draw() -> None:
    whole = sum_of((litres(10, "boil-off", 0.3), litres(8)), "whole")
    replay = Replay({"error of pouring": whole - settled(whole)})
    assert replay.drawn({"boil-off": 2.0}) == {"error of pouring": pytest.approx(0.6)}
    assert replay.drawn({}) == {"error of pouring": 0.0}


def test_a_value_comes_back_from_a_pickle_equal_with_its_lineage() -> None:
    made = both(litres(10, "boil-off", 0.3), litres(8))
    again = pickle.loads(pickle.dumps(made))
    assert again == made
    assert hash(again) == hash(made)
    assert [value.label for value in lineage(again)] == [value.label for value in lineage(made)]


def test_where_a_value_comes_from_takes_no_part_in_comparing_it() -> None:
    here = given(20, "L", "batch", words="the recipe", by=By.AUTHOR, place=Place("a.md", 4, 1))
    there = given(20, "L", "batch", words="the brewhouse", by=By.AUTHOR, place=Place("book.yaml", 9, 5))
    assert here == there
    assert "a.md" not in repr(here)
    assert "parts" not in repr(both(here, there))


def diamond(levels: int) -> tuple[Value, list[str]]:
    value: Value = litres(1.0, "root", 0.01)
    labels = [value.label]
    for level in range(levels):
        value = sum_of((value, value), f"level {level}")
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
    with pytest.raises(TypeError, match=r"gravity\.wort_gravity\(wort_l\) is in L, but malt is in kg"):
        apply(gravity.wort_gravity, "gravity", extract_kg=2.0, wort_l=kilograms(5))
    for nonsense in (lambda: litres(1) + kilograms(5), lambda: litres(1) - kilograms(5)):
        with pytest.raises(TypeError):
            nonsense()
    with pytest.raises(TypeError, match="kg times kg is no unit of ours"):
        kilograms(1) * kilograms(1)
    with pytest.raises(TypeError, match="kg over L is no unit of ours"):
        kilograms(1) / litres(1)
    with pytest.raises(TypeError, match="kg cannot be told in L"):
        kilograms(1).told_in("L")


def test_a_product_and_a_quotient_have_the_unit_that_comes_of_theirs() -> None:
    # 4 kg in 12 L are 3 L/kg; 60 min at 3 L/h are 3 L; 30 g at 40 a kilogram are 1.20.
    assert_is(litres(12) / kilograms(4), 3.0, "L/kg")
    assert_is(given(3.0, "L/h", "boil-off", words="a test") * given(60.0, "min", "boil", words="a test"), 3.0, "L")
    assert_is(given(30.0, "g", "hops", words="a test") * given(40.0, "money/kg", "price", words="a test"), 1.2, "money")
    assert_is(litres(12) / litres(4), 3.0, "ratio")
    assert_is(kilograms(4) * 1.5, 6.0, "kg")
    assert_is(given(0.5, "g/L", "hops", words="a test").told_in("mg/L"), 500.0, "mg/L")


def assert_is(value: Value, number: float, unit: str) -> None:
    assert (value.number, value.unit, value.label) == (pytest.approx(number), unit, "")
    assert isinstance(value.origin, Reckoned)


def test_doubts_go_through_a_product_and_a_quotient_by_their_slopes() -> None:
    # Of independent doubts, relative ones add up in squares: 3 % and 4 % are 5 %.
    one, other = litres(10, "a", 0.3), given(5.0, "kg", "b", words="a test", sd=0.2)
    assert (one / other).spread / (one / other).number == pytest.approx(0.05)
    share = given(0.5, "fraction", "b", words="a test", sd=0.02)
    assert (one * share).spread / (one * share).number == pytest.approx(0.05)
    assert (one / one).spread == pytest.approx(0.0, abs=1e-12)


def test_nothing_is_a_divisor_of_nothing() -> None:
    with pytest.raises(Refusal, match="malt"):
        litres(1) / kilograms(0)
    with pytest.raises(Refusal, match="a number cannot be divided by one of nothing"):
        (litres(1) * 1.0) / (kilograms(0) * 1.0)
    with pytest.raises(Refusal, match="above zero"):
        share_of(kilograms(0), kilograms(0), "share")


def test_no_more_is_taken_away_than_there_is() -> None:
    assert less(litres(20), litres(3), litres(2), left="wort", label="left").number == 15
    with pytest.raises(Refusal, match="wort"):
        less(litres(20), litres(19), litres(2), left="wort")
    assert less(litres(20), litres(20), left="wort").number == 0
    with pytest.raises(Refusal, match="wort"):
        less(litres(20), litres(20), left="wort", some=True)


@pytest.mark.parametrize(
    ("one", "other", "product", "of_two_and_three"),
    [
        # By hand: 2 of the one times 3 of the other.
        *(("kg", "L/kg", "L", 6.0), ("g", "mL/g", "L", 0.006), ("g/L", "L", "g", 6.0), ("mg/L", "L", "g", 0.006)),
        *(("IBU", "L", "mg", 6.0), ("L/h", "min", "L", 0.1), ("packs", "10⁹ cells/pack", "10⁹ cells", 6.0)),
        *(("mL", "mEq/mL", "mEq", 6.0), ("kg", "money/kg", "money", 6.0), ("g", "money/kg", "money", 0.006)),
        *(("L", "money/L", "money", 6.0), ("mL", "money/L", "money", 0.006), ("packs", "money each", "money", 6.0)),
        *(("pieces", "money each", "money", 6.0), ("bottles", "L", "L", 6.0)),
    ],
)
def test_units_multiply_and_divide_as_they_do_by_hand(
    one: str, other: str, product: str, of_two_and_three: float
) -> None:
    two, three = given(2.0, one, "a", words="a test"), given(3.0, other, "b", words="a test")
    for whole in (two * three, three * two):
        assert_is(whole, of_two_and_three, product)
    if product != other:
        assert_is(two * three / two, 3.0, other)


def test_a_share_and_another_scale_carry_their_doubts() -> None:
    # 10 % and 10 % are 14.1 % of a share of a half; a thousandth is a thousandth of the doubt.
    half = share_of(litres(3, "a", 0.3), litres(6, "b", 0.6), "share")
    assert half.spread == pytest.approx(0.5 * 0.1 * 2**0.5)
    assert given(0.5, "g/L", "hops", words="a test", sd=0.05).told_in("mg/L").spread == pytest.approx(50)


def test_a_long_list_carries_its_doubts_as_a_short_one_does() -> None:
    # The mean of sixty like sacks is as doubtful as one of them, and of sixty unlike ones an eighth or so.
    for count in (5, 60):
        for alike in (True, False):
            sacks = tuple(
                given(0.75, "fraction", f"{at}", words="a test", sd=0.01, doubt="all" if alike else f"{at}")
                for at in range(count)
            )
            mean = apply(attenuation.blended_attenuation, "mean", extracts_kg=tuple([1.0] * count), attenuations=sacks)
            assert mean.spread == pytest.approx(0.01 if alike else 0.01 / count**0.5, rel=1e-6)


def test_a_scale_and_a_shop_have_steps() -> None:
    step = given(0.05, "kg", "step", words="a test")
    assert in_steps(kilograms(3.874), step, "weight").number == pytest.approx(3.85)
    assert in_steps(kilograms(0.001), step, "weight").number == 0.05
    for halves in (1, 3, 5, 7, 9, 11):
        assert in_steps(kilograms(halves * 0.025), step, "weight").number == pytest.approx((halves + 1) * 0.025)
    assert in_steps(kilograms(0), step, "weight").number == 0
    packs = given(1.2, "packs", "packs", words="a test")
    assert (rounded_up(packs, "packs").number, rounded_up(packs / 1.2, "packs").number) == (2, 1)
    last_digits = [rounded_up(packs * (one / 1.2), "packs").number for one in (2 + 9e-7, 2 + 2e-6)]
    assert last_digits == [2, 3], "a millionth of a pack is none"


def test_of_nothing_the_sum_is_nothing_in_its_unit() -> None:
    assert_unit = sum_of((), "hops", "g")
    assert (assert_unit.number, assert_unit.unit, assert_unit.label) == (0.0, "g", "hops")


def test_a_bare_number_is_a_constant_of_the_method_in_the_argument_s_unit() -> None:
    found = apply(gravity.wort_gravity, "gravity", extract_kg=kilograms(2), wort_l=20.0)
    constant = next(value for value in lineage(found) if value.number == 20.0)
    assert isinstance(constant.origin, Given)
    assert (constant.unit, constant.origin.by, constant.label) == ("L", By.CONSTANT, "wort l")


def test_a_figure_beyond_physics_is_held_there_and_says_so() -> None:
    # A yeast of 98 % in a mash that gives 1.06 times as much: no yeast takes more than all.
    keen = given(0.98, "fraction", "attenuation", words="a test")
    effect = given(1.06, "ratio", "effect", words="a test")
    held = apply(attenuation.attenuation_at_mash_temperature, "attenuation", attenuation=keen, effect=effect)
    assert isinstance(held.origin, Worked)
    assert held.number == 1.0
    assert list(map(str, held.origin.notes)) == ["held to 1 fraction, the most there can be"]
    step = given(20.0, "IBU", "after", words="a test") - given(21.0, "IBU", "before", words="a test")
    assert step.number == -1, "a step on the way is no figure yet"
    gain = step.called("gain")
    assert isinstance(gain.origin, Reckoned)
    assert (gain.number, *map(str, gain.origin.notes)) == (0.0, "held to 0 IBU, the least there can be")


def test_a_range_stops_where_physics_does() -> None:
    alpha = given(0.02, "fraction", "alpha", words="a test", sd=0.02)
    assert alpha.low == 0.0
    assert alpha.high == pytest.approx(0.02 + NINE_IN_TEN * 0.02)


def test_a_number_outside_its_source_s_range_is_worked_out_and_noted() -> None:
    dark = apply(colour.srm_morey_1995, "colour", colour=given(200.0, "MCU", "malt colour", words="a test"))
    assert isinstance(dark.origin, Worked)
    assert dark.number == pytest.approx(1.4922 * 200**0.6859)
    (note,) = dark.origin.notes
    assert str(note).startswith("malt colour is beyond the source's range, ")


def test_an_equation_s_refusal_comes_through_in_its_own_words() -> None:
    with pytest.raises(ValueError, match="volume"):
        apply(gravity.wort_gravity, "gravity", extract_kg=2.0, wort_l=0.0)


def test_a_number_that_is_not_finite_is_refused() -> None:
    endless = given(float("inf"), "L", "endless", words="a test")
    with pytest.raises(Refusal, match="has no number that is finite"):
        both(endless, litres(1))


def test_a_doubt_at_the_edge_of_physics_is_carried_by_the_side_that_exists() -> None:
    # A malt's extract is 100 % of its dry matter: more is refused, and as it is, 95 % of what it is changed by shows.
    all_of_it = given(1.0, "fraction", "extract", words="a test", sd=0.05)
    got = apply(extract.as_is_potential, "potential", fine_grind_dry_basis=all_of_it, moisture=0.05)
    assert got.spread == pytest.approx(0.05 * 0.95)


def test_a_draw_moves_every_use_of_its_doubt_and_no_other() -> None:
    alpha = given(0.05, "fraction", "alpha", words="a test", sd=0.005)
    grams = given(30.0, "g", "weight", words="a test", sd=1.0)
    replay = Replay({"twice": grams * alpha + grams * alpha})
    assert replay.drawn({"alpha": 1.0}) == {"twice": pytest.approx(2 * 30 * 0.055)}
    assert replay.drawn({}) == {"twice": pytest.approx(2 * 30 * 0.05)}


def test_an_equation_of_no_unit_of_its_own_takes_that_of_what_goes_in() -> None:
    def an_hour(number: float) -> Value:
        return given(number, "L/h", "boil-off", words="a test")

    # Berger 1985, section 4.2, example 1 (from memory): a prior of N(100, 225), and 115 read with a variance of 100.
    put_in = {"setting": an_hour(100), "setting_spread": an_hour(15), "brew_to_brew": 0.0}
    learned = apply(
        learning.learned_mean, "boil-off", **put_in, readings=(an_hour(115),), reading_spreads=(an_hour(10),)
    )
    assert (learned.number, learned.unit) == (pytest.approx(110.385, abs=0.001), "L/h")
    with pytest.raises(TypeError, match="is in L/h, but a volume is in L"):
        apply(learning.learned_mean, "boil-off", **put_in, readings=(litres(115),), reading_spreads=(an_hour(10),))
