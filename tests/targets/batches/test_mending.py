"""What is said to do on the day does what it says: extract and water are conserved, whoever reckons."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from gristbook.targets.batches.mending import HEAT_OFF, SCALD, adjustment
from gristbook.worksheet import Value
from gristbook.worksheet import given as noted

GRAVITIES, LITRES = st.floats(1.020, 1.090), st.floats(8, 60)
POTENTIAL, ROOM = 0.96, 0.63  # dried malt extract: typical, and common practice


def value(number: float, unit: str, label: str) -> Value:
    return noted(number, unit, label, origin="made up")


def plan(gravity: float, volume: float, **more: Value) -> dict[str, Value]:
    return {
        "gravity after the boil": value(gravity, "SG", "gravity after the boil"),
        "volume at the end of the boil": value(volume, "L", "volume at the end of the boil"),
        "boil-off": value(3.0, "L/h", "boil-off"),
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


@given(GRAVITIES, LITRES, GRAVITIES, LITRES)
def test_every_remedy_comes_to_the_gravity_that_it_promises(gravity, wort_l, wanted, wanted_l) -> None:  # type: ignore[no-untyped-def]
    made = adjustment(plan(wanted, wanted_l), "end of the boil", value(gravity, "SG", "g"), value(wort_l, "L", "v"))
    held = extract_kg(gravity, wort_l)
    for remedy in made.remedies:
        more = remedy.extract.number if remedy.extract else 0.0
        water = (remedy.water.number if remedy.water else 0.0) - (remedy.boil_on.number / 20 if remedy.boil_on else 0.0)
        then_l = wort_l + water + ROOM * more
        assert remedy.volume.number == pytest.approx(then_l, abs=1e-6)
        assert remedy.gravity.number == pytest.approx(sg(held + POTENTIAL * more, then_l), abs=1e-8)
        assert remedy.gravity.number == pytest.approx(wanted, abs=1e-8)
        assert remedy.bitterness.number * then_l == pytest.approx(30 * wanted_l)  # nothing bitter is lost


@given(GRAVITIES, LITRES, GRAVITIES, LITRES)
def test_thin_wort_is_boiled_or_strengthened_and_strong_wort_is_thinned(gravity, wort_l, wanted, wanted_l) -> None:  # type: ignore[no-untyped-def]
    made = adjustment(plan(wanted, wanted_l), "end of the boil", value(gravity, "SG", "g"), value(wort_l, "L", "v"))
    if gravity < wanted - 0.001:
        assert made.remedies[0].boil_on is not None
        assert made.remedies[1].extract is not None
        assert made.remedies[0].volume.number <= wort_l
    elif gravity > wanted + 0.001:
        assert made.remedies[0].water is not None
        assert made.remedies[0].volume.number >= wort_l


@given(GRAVITIES, LITRES, GRAVITIES, LITRES)
def test_gravity_and_volume_are_both_reached_wherever_no_extract_is_too_much(gravity, wort_l, wanted, wanted_l) -> None:  # type: ignore[no-untyped-def]
    made = adjustment(plan(wanted, wanted_l), "end of the boil", value(gravity, "SG", "g"), value(wort_l, "L", "v"))
    amiss = abs(wort_l - wanted_l) > 0.02 * wanted_l or abs(gravity - wanted) > 0.001
    short = extract_kg(wanted, wanted_l) - extract_kg(gravity, wort_l)
    reached = [
        it for it in made.remedies if abs(it.volume.number - wanted_l) < 1e-6 and abs(it.gravity.number - wanted) < 1e-6
    ]
    if amiss and short > 1e-6:
        assert reached


def test_as_good_as_planned_needs_nothing() -> None:
    made = adjustment(plan(1.042, 21.5), "end of the boil", value(1.0425, "SG", "g"), value(21.7, "L", "v"))
    assert (made.remedies, made.words) == ((), ())


def test_before_the_boil_the_boil_is_reckoned_in(desk) -> None:  # type: ignore[no-untyped-def]
    """24.5 L at the planned gravity boil down to the plan's own end, so that nothing need be done."""
    kept = desk.kept
    made = adjustment(kept, "before the boil", kept["gravity before the boil"], kept["boil volume"])
    assert made.unmended.gravity.number == pytest.approx(kept["gravity after the boil"].number, abs=1e-9)
    assert made.unmended.volume.number == pytest.approx(kept["volume at the end of the boil"].number, abs=1e-9)
    assert made.unmended.bitterness.number == pytest.approx(kept["bitterness"].number)
    assert made.remedies == ()


def test_a_top_up_makes_up_for_what_was_boiled_away() -> None:
    """9 L less 1 L left, topped up to 20 L: 8/9 of the bitterness is there; at 11 L, 10/11 of it."""
    topped = {
        "top-up water": value(12.0, "L", "top-up water"),
        "left in the kettle": value(1.0, "L", "left in the kettle"),
        "into the fermenter": value(20.0, "L", "into the fermenter"),
    }
    made = adjustment(plan(1.090, 9.0, **topped), "end of the boil", value(1.09, "SG", "g"), value(11.0, "L", "v"))
    assert made.unmended.bitterness.number == pytest.approx(30 * (10 / 11) / (8 / 9))


def test_who_adds_something_is_told_what_to_mind() -> None:
    made = adjustment(plan(1.042, 21.5), "end of the boil", value(1.036, "SG", "g"), value(21.5, "L", "v"))
    assert SCALD in made.words
    assert HEAT_OFF in made.words


def test_a_plan_that_does_not_say_what_is_wanted_is_refused() -> None:
    with pytest.raises(ValueError, match="does not say"):
        adjustment({}, "end of the boil", value(1.036, "SG", "g"), value(21.5, "L", "v"))
    boiled = plan(1.04, 20, **{"length of the boil": value(60.0, "min", "boil")})
    with pytest.raises(ValueError, match="wort left in the kettle"):
        adjustment(boiled, "before the boil", value(1.036, "SG", "g"), value(2.0, "L", "v"))
