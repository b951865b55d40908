"""What is said to do on the day does what it says: extract and water are conserved, whoever reckons."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from gristbook.model.batch import WortStep
from gristbook.sheet.value import Value
from gristbook.sheet.value import given as noted
from gristbook.targets.batches.mending import (
    BIGGER,
    EXTRACT_COLD,
    HEAT_OFF,
    NO_REMEDY,
    READ_AGAIN,
    SCALD,
    STILL_STRONG,
    adjustment,
    likely_step,
)
from gristbook.targets.batches.results import Adjustment

GRAVITIES, LITRES = st.floats(1.020, 1.090), st.floats(8, 60)
POTENTIAL, ROOM = 0.96, 0.63  # dried malt extract: typical, and common practice


def value(number: float, unit: str, label: str) -> Value:
    return noted(number, unit, label, words="made up")


def plan(gravity: float, volume: float, **more: Value) -> dict[str, Value]:
    return {
        "gravity-after-the-boil": value(gravity, "SG", "gravity after the boil"),
        "volume-at-the-end-of-the-boil": value(volume, "L", "volume at the end of the boil"),
        "boil-off": value(3.0, "L/h", "boil-off"),
        "original-gravity": value(gravity, "SG", "original gravity"),
        "into-the-fermenter": value(volume, "L", "into the fermenter"),
        "bitterness": value(30.0, "IBU", "bitterness"),
        **more,
    }


def sg(extract_kg: float, wort_l: float) -> float:
    """Gravity of a wort, from the printed cubic by scipy's root finder."""

    def over(s: float) -> float:
        plato = -616.868 + 1111.14 * s - 630.272 * s * s + 135.997 * s**3
        return 10 * plato * s * 0.998203 * wort_l / 1000 - extract_kg

    return float(brentq(over, 0.99, 1.4, xtol=1e-12))


def extract_kg(gravity: float, wort_l: float) -> float:
    plato = -616.868 + 1111.14 * gravity - 630.272 * gravity**2 + 135.997 * gravity**3
    return 10 * plato * gravity * 0.998203 * wort_l / 1000


STEPS = st.sampled_from(["end of the boil", "in the fermenter"])


@given(STEPS, GRAVITIES, LITRES, GRAVITIES, LITRES)
def test_every_remedy_comes_to_what_it_promises(step, gravity, wort_l, wanted, wanted_l) -> None:  # type: ignore[no-untyped-def]
    made = adjustment(plan(wanted, wanted_l), step, value(gravity, "SG", "g"), value(wort_l, "L", "v"))
    held = extract_kg(gravity, wort_l)
    for remedy in made.remedies:
        kept_l = remedy.keep.number if remedy.keep else wort_l
        more = remedy.extract.number if remedy.extract else 0.0
        water = (remedy.water.number if remedy.water else 0.0) - (remedy.boil_on.number / 20 if remedy.boil_on else 0.0)
        then_l = kept_l + water + ROOM * more
        assert remedy.volume.number == pytest.approx(then_l, abs=1e-6)
        assert remedy.gravity.number == pytest.approx(sg(held * kept_l / wort_l + POTENTIAL * more, then_l), abs=1e-8)
        if remedy.gravity.number > wanted + 0.001 + 1e-8:  # water in part: all of it would be more than anybody pours
            assert remedy.volume.number == pytest.approx(wanted_l, abs=1e-6)
            assert held > extract_kg(wanted, 1.5 * wort_l)
            assert STILL_STRONG in made.words
        else:
            assert remedy.gravity.number >= wanted - 0.001 - 1e-8
        bitter = 30 * wanted_l * kept_l / wort_l  # what is bitter goes with its wort
        assert remedy.bitterness.number * then_l == pytest.approx(bitter)


@given(STEPS, GRAVITIES, LITRES, GRAVITIES, LITRES)
def test_nothing_is_proposed_that_no_cook_would_do(step, gravity, wort_l, wanted, wanted_l) -> None:  # type: ignore[no-untyped-def]
    """An hour of boiling, 50 g of extract and half a litre of water to a litre: common practice, no source."""
    room = {"wort-that-the-kettle-boils": value(40.0, "L", "kettle")}
    made = adjustment(plan(wanted, wanted_l, **room), step, value(gravity, "SG", "g"), value(wort_l, "L", "v"))
    assert (made.remedies == ()) or not made.fits
    for remedy in made.remedies:
        assert remedy.boil_on is None or (remedy.boil_on.number <= 60 and step == "end of the boil")
        assert remedy.extract is None or remedy.extract.number <= 0.05 * remedy.volume.number
        assert remedy.water is None or remedy.water.number <= 0.5 * wort_l
        assert remedy.volume.number <= 40 + 1e-9 or step == "in the fermenter"
        assert remedy.keep is None or 0 < remedy.keep.number < wort_l


@given(GRAVITIES, LITRES, st.floats(1.06, 20))
def test_too_much_wort_has_a_remedy(wanted, wanted_l, times) -> None:  # type: ignore[no-untyped-def]
    made = adjustment(
        plan(wanted, wanted_l), "end of the boil", value(wanted, "SG", "g"), value(times * wanted_l, "L", "v")
    )
    assert not made.fits
    (kept,) = made.remedies
    assert kept.keep.number == pytest.approx(wanted_l)
    assert kept.gravity.number == pytest.approx(wanted, abs=1e-8)
    assert BIGGER in made.words
    assert (READ_AGAIN in made.words) == (times >= 2)


@pytest.mark.parametrize(("gravity", "litres"), [(1.038, 21.5), (1.048, 21.5)])
def test_wort_a_little_off_is_strengthened_or_thinned(gravity: float, litres: float) -> None:
    made = adjustment(plan(1.042, 21.5), "end of the boil", value(gravity, "SG", "g"), value(litres, "L", "v"))
    first = made.remedies[0]
    assert (first.boil_on is not None) == (gravity < 1.042)
    assert (first.water is not None) == (gravity > 1.042)


@pytest.mark.parametrize(("gravity", "litres", "water"), [(1.070, 19.0, 2.5), (1.055, 21.0, 0.5)])
def test_wort_that_is_far_too_strong_and_short_is_filled_to_its_volume(
    gravity: float, litres: float, water: float
) -> None:
    """Points spread over litres, as brewers reckon: 70 × 19/21.5 are 61.9, and 55 × 21/21.5 are 53.7.

    For 1.042 they want 70 × 19/42, 31.7 L, and 55 × 21/42, 27.5 L; half as much water as wort is 9.5 L, and the second
    kettle boils 27 L.
    """
    made = mended(gravity, litres, wort_that_the_kettle_boils=27.0)
    (first,) = made.remedies
    assert first.water is not None
    assert first.water.number == pytest.approx(water)
    assert first.volume.number == pytest.approx(21.5)
    assert first.gravity.number == pytest.approx(1 + (gravity - 1) * litres / 21.5, abs=0.0004)
    assert first.bitterness is not None
    assert first.bitterness.number == pytest.approx(30.0), "that of the plan, in the plan's volume"
    assert STILL_STRONG in made.words
    assert NO_REMEDY not in made.words


def test_wort_that_is_thinned_to_its_gravity_is_not_called_strong() -> None:
    """48 × 20/42 are 22.9 L: 2.9 L of water, though 21.5 L would do."""
    (first,) = mended(1.048, 20.0).remedies
    assert first.water is not None
    assert first.water.number == pytest.approx(2.9, abs=0.1)
    assert STILL_STRONG not in mended(1.048, 20.0).words


def test_wort_that_is_short_of_both_is_filled_up_with_extract_and_water() -> None:
    made = adjustment(plan(1.042, 21.5), "end of the boil", value(1.040, "SG", "g"), value(18, "L", "v"))
    assert [
        remedy
        for remedy in made.remedies
        if abs(remedy.volume.number - 21.5) < 1e-6 and remedy.water and remedy.extract
    ]


def test_water_that_nobody_can_see_is_not_poured() -> None:
    """21.3 L at 1.037 want 0.32 kg of extract for 21.5 L at 1.042, which takes the 0.2 L by itself."""
    made = adjustment(plan(1.042, 21.5), "end of the boil", value(1.037, "SG", "g"), value(21.3, "L", "v"))
    stirred = [remedy for remedy in made.remedies if remedy.extract is not None]
    assert [(remedy.water, remedy.boil_on) for remedy in stirred] == [(None, None)]


def test_a_kettle_that_is_too_small_gets_no_water() -> None:
    """22 L at 1.060 want 10 L of water for 1.042: 32 L, and the kettle boils 28."""
    room = {"wort-that-the-kettle-boils": value(28.0, "L", "kettle")}
    strong, much = value(1.060, "SG", "g"), value(22.0, "L", "v")
    assert adjustment(plan(1.042, 21.5), "end of the boil", strong, much).remedies[0].water is not None
    small = adjustment(plan(1.042, 21.5, **room), "end of the boil", strong, much)
    assert not [remedy for remedy in small.remedies if remedy.keep is None]
    assert not small.fits


def test_what_nobody_can_mend_is_said_to_be_so() -> None:
    made = adjustment(plan(1.090, 21.5), "end of the boil", value(1.030, "SG", "g"), value(21.5, "L", "v"))
    assert (made.fits, made.remedies, made.words) == (False, (), (NO_REMEDY,))


def test_as_good_as_planned_needs_nothing() -> None:
    made = adjustment(plan(1.042, 21.5), "end of the boil", value(1.0425, "SG", "g"), value(21.7, "L", "v"))
    assert (made.fits, made.remedies, made.words) == (True, (), ())


@pytest.mark.parametrize(("gravity", "fits"), [(1.0399, True), (1.0441, True), (1.0390, False), (1.0450, False)])
def test_what_lies_within_the_plan_s_own_range_is_not_mended(gravity: float, fits: bool) -> None:
    """1.042 ± 0.0022, nine times in ten."""
    unsure = noted(1.042, "SG", "gravity after the boil", words="made up", ends=(-0.0022, 0.0022))
    wanted = plan(1.042, 21.5) | {"gravity-after-the-boil": unsure}
    made = adjustment(wanted, "end of the boil", value(gravity, "SG", "g"), value(21.5, "L", "v"))
    assert made.fits is fits


@pytest.mark.parametrize(
    ("gravity", "litres", "fits"),
    [
        (1.04295, 21.5, True),
        (1.04305, 21.5, False),
        (1.04105, 21.5, True),
        (1.04095, 21.5, False),
        (1.042, 21.09, True),
        (1.042, 21.05, False),
        (1.042, 22.55, True),
        (1.042, 22.60, False),
    ],
)
def test_what_no_instrument_tells_from_the_plan_is_not_mended(gravity: float, litres: float, fits: bool) -> None:
    """A point of gravity, 2 % of a volume short, 5 % over: common practice, no source."""
    made = adjustment(plan(1.042, 21.5), "end of the boil", value(gravity, "SG", "g"), value(litres, "L", "v"))
    assert made.fits is fits


def test_a_kettle_that_does_not_steam_is_not_boiled_on() -> None:
    still = plan(1.042, 21.5, **{"boil-off": value(0.0, "L/h", "boil-off")})
    made = adjustment(still, "end of the boil", value(1.038, "SG", "g"), value(21.5, "L", "v"))
    assert [remedy.boil_on for remedy in made.remedies] == [None] * len(made.remedies)
    assert made.remedies[0].extract is not None


def test_before_the_boil_the_boil_is_reckoned_in(desk) -> None:  # type: ignore[no-untyped-def]
    """24.5 L at the planned gravity boil down to the plan's own end, so that nothing need be done."""
    kept = desk.kept
    made = adjustment(kept, "before the boil", kept["gravity-before-the-boil"], kept["boil-volume"])
    assert made.unmended.gravity.number == pytest.approx(kept["gravity-after-the-boil"].number, abs=1e-9)
    assert made.unmended.volume.number == pytest.approx(kept["volume-at-the-end-of-the-boil"].number, abs=1e-9)
    assert made.unmended.bitterness.number == pytest.approx(kept["bitterness"].number)
    assert made.remedies == ()


TOPPED = {
    "top-up-water": value(12.0, "L", "top-up water"),
    "left-in-the-kettle": value(1.0, "L", "left in the kettle"),
    "into-the-fermenter": value(20.0, "L", "into the fermenter"),
    "original-gravity": value(1.0358, "SG", "original gravity"),
}
"""9 L at 1.090, of which 8 L are topped up to 20 L: 8 × 0.2334 kg/20 L are 1.0358, by the same cubic."""


def test_a_top_up_makes_up_for_what_was_boiled_away() -> None:
    """9 L less 1 L left, topped up to 20 L: 8/9 of the bitterness is there; at 11 L, 10/11 of it."""
    made = adjustment(plan(1.090, 9.0, **TOPPED), "end of the boil", value(1.09, "SG", "g"), value(11.0, "L", "v"))
    assert made.vessel == "fermenter"
    assert made.unmended.bitterness.number == pytest.approx(30 * (10 / 11) / (8 / 9))
    assert made.unmended.volume.number == 20.0
    assert made.unmended.gravity.number == pytest.approx(sg(extract_kg(1.09, 10.0), 20.0), abs=1e-8)


@pytest.mark.parametrize("litres", [8.6, 9.0, 10.0])
def test_a_boil_that_went_deeper_or_less_deep_needs_nothing_but_its_top_up(litres: float) -> None:
    shown, much = value(sg(extract_kg(1.090, 9.0), litres), "SG", "g"), value(litres, "L", "v")
    assert adjustment(plan(1.090, 9.0, **TOPPED), "end of the boil", shown, much).fits


def test_a_topped_up_brew_as_planned_needs_nothing_in_the_fermenter() -> None:
    much = value(20.0, "L", "v")
    made = adjustment(plan(1.090, 9.0, **TOPPED), "in the fermenter", value(1.0358, "SG", "g"), much)
    assert (made.fits, made.remedies) == (True, ())
    assert likely_step(plan(1.090, 9.0, **TOPPED), much) == "in the fermenter"
    assert likely_step(plan(1.090, 9.0, **TOPPED), value(9.5, "L", "v")) == "end of the boil"
    assert likely_step(plan(1.042, 21.5), much) == "end of the boil"


def test_thin_wort_that_is_yet_to_be_topped_up_is_topped_up_less() -> None:
    made = adjustment(plan(1.090, 9.0, **TOPPED), "end of the boil", value(1.08, "SG", "g"), value(9.0, "L", "v"))
    less = made.remedies[0]
    assert less.leave_out is not None
    assert less.gravity.number == pytest.approx(1.0358, abs=1e-8)
    assert less.volume.number == pytest.approx(20 - less.leave_out.number)


@pytest.mark.parametrize(("gravity", "litres"), [(1.050, 30.0), (1.034, 30.0), (1.028, 30.0)])
def test_too_much_wort_before_the_boil_is_drawn_off_and_comes_to_the_plan(gravity: float, litres: float) -> None:
    """24.5 L at 1.0369 boil down to 21.5 L at 1.042: what is drawn off is reckoned with before it boils."""
    boiled = plan(1.042, 21.5, **{"length-of-the-boil": value(60.0, "min", "boil")})
    made = adjustment(boiled, "before the boil", value(gravity, "SG", "g"), value(litres, "L", "v"))
    kept = next(remedy for remedy in made.remedies if remedy.keep is not None)
    more, water = (part.number if part else 0.0 for part in (kept.extract, kept.water))
    then_l = kept.keep.number + water + ROOM * more - 3.0
    assert kept.volume.number == pytest.approx(then_l)
    whole = extract_kg(gravity, litres) * kept.keep.number / litres + POTENTIAL * more
    assert kept.gravity.number == pytest.approx(sg(whole, then_l), abs=1e-8)
    assert kept.gravity.number == pytest.approx(1.042, abs=0.0011)
    assert kept.bitterness.number * then_l == pytest.approx(30 * 21.5)  # the hops are still to go in


def test_who_adds_something_is_told_what_to_mind() -> None:
    made = adjustment(plan(1.042, 21.5), "end of the boil", value(1.036, "SG", "g"), value(21.5, "L", "v"))
    assert SCALD in made.words
    assert HEAT_OFF in made.words
    cold = adjustment(plan(1.042, 21.5), "in the fermenter", value(1.036, "SG", "g"), value(21.5, "L", "v"))
    assert cold.words == (EXTRACT_COLD,)


def test_a_plan_that_does_not_say_what_is_wanted_is_refused() -> None:
    with pytest.raises(ValueError, match="does not say"):
        adjustment({}, "end of the boil", value(1.036, "SG", "g"), value(21.5, "L", "v"))
    boiled = plan(1.04, 20, **{"length-of-the-boil": value(60.0, "min", "boil")})
    with pytest.raises(ValueError, match="the kettle boils dry"):
        adjustment(boiled, "before the boil", value(1.036, "SG", "g"), value(2.0, "L", "v"))


def mended(gravity: float, litres: float, step: WortStep = "end of the boil", **more: float) -> Adjustment:
    rooms = {name.replace("_", "-"): value(most, "L", name) for name, most in more.items()}
    return adjustment(plan(1.042, 21.5, **rooms), step, value(gravity, "SG", "g"), value(litres, "L", "v"))


WANTED = extract_kg(1.042, 21.5)


@pytest.mark.parametrize(("away_l", "offered"), [(2.995, True), (3.005, False)])
def test_nobody_boils_on_for_more_than_an_hour(away_l: float, offered: bool) -> None:
    """3 L steam away in it."""
    thin = sg(extract_kg(1.042, 21.5 - away_l), 21.5)
    assert any(remedy.boil_on and not remedy.extract for remedy in mended(thin, 21.5).remedies) is offered


@pytest.mark.parametrize(("kg", "offered"), [(1.1095, True), (1.1105, False)])
def test_nobody_stirs_in_more_than_50_grams_for_a_litre(kg: float, offered: bool) -> None:
    """x kg in 21.5 + 0.63 x litres are 0.05 kg in one at 1.110 kg."""
    thin = sg(extract_kg(1.042, 21.5 + ROOM * kg) - 0.96 * kg, 21.5)
    assert any(remedy.extract and not remedy.boil_on for remedy in mended(thin, 21.5).remedies) is offered


@pytest.mark.parametrize(("times", "offered"), [(1.4999, True), (1.5001, False)])
def test_nobody_pours_in_more_than_half_as_much_water(times: float, offered: bool) -> None:
    strong = sg(extract_kg(1.042, times * 21.5), 21.5)
    assert any(remedy.water for remedy in mended(strong, 21.5).remedies) is offered


@pytest.mark.parametrize(("short", "offered"), [(0.0049, False), (0.0051, True)])
def test_water_is_poured_in_for_what_is_more_than_half_a_hundredth_short(short: float, offered: bool) -> None:
    """0.32 kg of malt extract bring the gravity, and their 0.2 L all of the volume but so much."""
    litres = 21.5 * (1 - short) - ROOM * 0.32
    found = mended(sg(WANTED - 0.96 * 0.32, litres), litres).remedies
    assert any(remedy.water and remedy.extract for remedy in found) is offered


@pytest.mark.parametrize(("room", "offered"), [(26.001, True), (25.999, False)])
def test_no_kettle_is_filled_past_what_it_boils(room: float, offered: bool) -> None:
    """21.5 L with 4.5 L of water."""
    strong = sg(extract_kg(1.042, 26), 21.5)
    found = mended(strong, 21.5, wort_that_the_kettle_boils=room).remedies
    assert any(remedy.water and not remedy.keep for remedy in found) is offered


@pytest.mark.parametrize(("times", "again"), [(0.5, True), (0.501, False), (1.999, False), (2.0, True)])
def test_half_the_volume_planned_or_twice_as_much_is_to_be_read_again(times: float, again: bool) -> None:
    assert (READ_AGAIN in mended(1.042, times * 21.5).words) is again
