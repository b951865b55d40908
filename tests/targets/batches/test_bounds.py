"""What is said of a batch is said just beyond its bound and not just within; the bounds are written here, each alone.

They are common practice, no source, unless a remark says more.
"""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import datetime, timedelta
from math import sqrt

import pytest
from even import even

from gristbook.problems import Place
from gristbook.sheet.value import given
from gristbook.targets.batches import frozen
from gristbook.targets.batches.beer import Beer
from gristbook.targets.batches.brewing import BrewDay
from gristbook.targets.batches.differences import differences
from gristbook.targets.batches.learn import learned
from gristbook.targets.batches.lessons import impossible
from gristbook.targets.batches.measured import bench_of, doubted
from gristbook.targets.batches.results import Lesson
from gristbook.targets.batches.work_out import work_out_batch

HERE = Place("b.md")
ONE_IN_TEN = 1.6448536
"""Standard deviations of a normal distribution beyond which one in ten lies, on both sides together (any table)."""


@pytest.mark.parametrize(
    ("unit", "number", "half"),
    [("SG", 1.05, 0.001), ("°P", 12, 0.25), ("°Bx", 12, 0.2), ("°C", 20, 0.5), ("g", 80, 1.0), ("L", 25, 0.5)],
)
def test_a_reading_is_right_within_what_its_instrument_is(unit: str, number: float, half: float) -> None:
    read = doubted(given(number, unit, "a reading", words="made up"))
    assert read.high - read.number == pytest.approx(half)


def test_a_refractometer_in_beer_is_as_doubtful_as_its_fits_lie_apart(desk) -> None:  # type: ignore[no-untyped-def]
    """The four published fits of `test_a_refractometer_in_beer_says_what_other_fits_make_of_it` lie 0.0028 apart."""
    final = work_out_batch(desk.batch({"original gravity": "12.48 °Bx", "final gravity": "6.24 °Bx"})).final.gravity
    assert final.doubts["the fit of a refractometer in beer"] == pytest.approx((-0.003, 0.003))


@pytest.mark.parametrize(
    ("subject", "setting", "half"),
    [
        ("conversion", 0.95, 0.03),
        ("attenuation", 0.75, 0.02),
        ("boil-off", 3.0, 0.05 * 3.0),
        ("left in kettle", 1.5, 0.2 * 1.5),
        ("left in fermenter", 1.0, 0.2 * 1.0),
    ],
)
def test_brews_differ_by_so_much_and_by_no_more_than_leaves_half_to_learn(subject, setting: float, half: float) -> None:  # type: ignore[no-untyped-def]
    """What a next brew may be out is what the brewhouse is like and, apart from that, what brews differ by."""

    def brew_to_brew(sd: float) -> float:
        known = given(setting, "ratio", "setting", words="made up", ends=even(sd))
        read = given(setting, "ratio", "reading", words="made up", ends=even(sd))
        found = learned(known, [Lesson(subject, "hall", "", read, "", "one", HERE)], used=True)
        assert found is not None
        return sqrt(found.spread.number**2 - found.own.spread**2)

    assert brew_to_brew(half) == pytest.approx(half / ONE_IN_TEN)
    assert brew_to_brew(half / 10) == pytest.approx(sqrt(0.5) * half / 10)


@pytest.mark.parametrize(("weight", "odd"), [(0.9985, True), (0.9995, False)])
def test_a_reading_that_counts_for_a_thousandth_less_is_said_to(weight: float, odd: bool) -> None:
    setting = given(0.74, "fraction", "efficiency", words="made up", ends=even(0.05))

    def last(number: float):  # type: ignore[no-untyped-def]
        read = [
            Lesson("conversion", "hall", "", given(it, "fraction", f"{at}", words="b", ends=even(0.01)), "", "", HERE)
            for at, it in enumerate((0.74, 0.74, number))
        ]
        found = learned(setting, read, used=True)
        assert found is not None
        return found.readings[-1]

    near, far = 0.74, 0.84
    for _ in range(40):
        middle = (near + far) / 2
        near, far = (middle, far) if last(middle).weight.number > weight else (near, middle)
    assert bool(last(near).why) is odd


NOTHING = BrewDay(**{field.name: None for field in fields(BrewDay)})
NO_BEER = Beer(None, None, None, None, None)


@pytest.mark.parametrize(
    ("figure", "bound", "way"),
    [
        ("mash_efficiency", 1.0, 1),
        ("mash_efficiency", 0.0, -1),
        ("boil_off", 0.0, -1),
        ("real_attenuation", 1.0, 1),
        ("apparent_attenuation", 0.0, -1),
    ],
)
def test_what_cannot_be_is_told_past_what_its_readings_may_be_out(figure: str, bound: float, way: int) -> None:
    """Out of nothing comes no extract, and out of the air no water: those bounds are no practice."""

    def found(by: float) -> bool:
        shown = given(bound + way * by, "fraction", figure, words="made up", ends=even(0.01))
        of_the_day = figure in ("mash_efficiency", "boil_off")
        day = replace(NOTHING, **{figure: shown}) if of_the_day else NOTHING
        return bool(impossible(day, NO_BEER if of_the_day else replace(NO_BEER, **{figure: shown})))

    assert not found(0.01 * ONE_IN_TEN - 1e-6)
    assert found(0.01 * ONE_IN_TEN + 1e-6)


@pytest.mark.parametrize(("end", "told"), [("1.0071", False), ("1.0069", True)])
def test_a_beer_that_goes_three_points_past_the_least_of_its_plan_is_told_of(desk, end: str, told: bool) -> None:  # type: ignore[no-untyped-def]
    lines = {
        "original gravity": "1.040",
        "readings": f'["2026-03-21, {end}", "2026-03-24, {end}"]',
        "packaged": "2026-03-28, 18.5 L, 80 g table sugar",
    }
    faults = work_out_batch(desk.batch(lines, plan={"final gravity": "1.010"})).faults
    assert any("It went down to " in fault.words for fault in faults) is told


@pytest.mark.parametrize(("litres", "told"), [("25.5", False), ("25.6", True)])
def test_wort_is_over_the_rim_above_what_the_kettle_boils(desk, litres: str, told: bool) -> None:  # type: ignore[no-untyped-def]
    kettle = {"wort that the kettle boils": "25.5 L"}
    faults = work_out_batch(desk.batch({"before the boil": f"{litres} L at 1.035"}, plan=kettle)).faults
    assert any(" of wort stand in a kettle that boils " in fault.words for fault in faults) is told


@pytest.mark.parametrize(
    ("pitched", "then", "cold"),
    [
        ("19 °C", "14.1", False),
        ("19 °C", "14", True),
        ("25 °C", "15", False),
        ("25 °C", "14.9", True),
    ],
)
def test_beer_below_15_degrees_and_5_below_its_usual_proves_nothing(desk, pitched, then, cold) -> None:  # type: ignore[no-untyped-def]
    readings = f'["2026-03-21, 1.010, {then} °C", "2026-03-24, 1.010, {then} °C"]'
    batch = desk.batch({"readings": readings}, plan={"temperature at pitching": pitched})
    assert (work_out_batch(batch).course.stability.stable is None) is cold


@pytest.mark.parametrize(("chilled", "stable"), [("1.0080", True), ("1.0079", False)])
def test_a_sample_of_cold_beer_may_read_two_points_lower(desk, chilled: str, stable: bool) -> None:  # type: ignore[no-untyped-def]
    readings = f'["2026-03-20, 1.010, 20 °C", "2026-03-23, 1.010, 20 °C", "2026-03-26, {chilled} at 20 °C, 4 °C"]'
    assert work_out_batch(desk.batch({"readings": readings})).course.stability.stable is stable


@pytest.mark.parametrize(("later", "stable"), [("1.0090", True), ("1.0089", False)])
def test_two_readings_agree_within_a_point_and_no_further(desk, later: str, stable: bool) -> None:  # type: ignore[no-untyped-def]
    readings = f'["2026-03-20, 1.010, 19 °C", "2026-03-23, {later}, 19 °C"]'
    assert work_out_batch(desk.batch({"readings": readings})).course.stability.stable is stable


def test_a_log_is_read_by_its_last_half_day_and_its_chart_has_so_many_points(desk) -> None:  # type: ignore[no-untyped-def]
    """481 hours, of which every third makes 161 points; 13 readings lie within the last half day and at its ends."""
    start = datetime(2026, 3, 14)
    rows = [f"{start + timedelta(hours=hour)},{1.010 if hour > 467 else 1.030},19.0" for hour in range(481)]
    (desk.folder / "bitter").mkdir()
    (desk.folder / "bitter" / "log.csv").write_text("taken,sg,beer\n" + "\n".join(rows) + "\n", "utf-8")
    course = work_out_batch(desk.batch({"log": "log.csv, time in taken, gravity in sg, temperature in beer"})).course
    shown = [part.number for part in course.stability.words if not isinstance(part, str)]
    assert shown == pytest.approx([1.030, 1.010], abs=1e-12)
    assert len(course.curve.days) == 161


def test_beside_what_a_log_wrote_stands_the_last_reading_by_hand_put_right(desk) -> None:  # type: ignore[no-untyped-def]
    """A sample at 15 °C that shows 1.012 is 1.0112: water is 0.99910 there and 0.99821 at 20 °C, less for the glass."""
    start = datetime(2026, 3, 14)
    rows = [f"{start + timedelta(hours=hour)},1.0121,19.0" for hour in range(240)]
    (desk.folder / "bitter").mkdir()
    (desk.folder / "bitter" / "log.csv").write_text("taken,sg,beer\n" + "\n".join(rows) + "\n", "utf-8")
    log = {"log": "log.csv, time in taken, gravity in sg, temperature in beer"}
    words = work_out_batch(desk.batch(log | {"readings": '["2026-03-22, 1.012 at 15 °C"]'})).course.stability.words
    assert [part.number for part in words if not isinstance(part, str)] == pytest.approx(
        [1.0121, 1.0121, 1.0112], abs=5e-5
    )
    assert "put right" in words[5]


@pytest.mark.parametrize(("now", "one_line"), [("aaabbb1234", True), ("aaabbb12345", False)])
def test_lines_that_are_three_fifths_alike_are_one_line_that_changed(desk, now: str, one_line: bool) -> None:  # type: ignore[no-untyped-def]
    """Of ten letters and ten, six are alike; of ten and eleven, six are less than three fifths."""
    batch = desk.batch({})
    batch = replace(batch, frozen=replace(batch.frozen, sections=(("malts", ("aaabbbxyzw",)),)))
    assert (len(differences(batch, (("malts", (now,)),))) == 1) is one_line


@pytest.mark.parametrize(("start", "late"), [(24.491, 0.0), (24.489, 0.011)])
def test_a_hundredth_of_a_litre_is_no_malt_extract(start: float, late: float) -> None:
    """21.5 L are left of it after an hour at 3 L/h."""
    end, steam = ("volume-at-the-end-of-the-boil", 21.5, "L"), ("boil-off", 3.0, "L/h")
    lines = (end, steam, ("length-of-the-boil", 60.0, "min"), ("boil-volume", start, "L"))
    kept = {name: given(number, unit, name, words="made up") for name, number, unit in lines}
    assert frozen.late_volume(kept).number == pytest.approx(late)


@pytest.mark.parametrize(
    ("name", "plan", "low", "high"),
    [
        ("left in the kettle", "1.5 L", 1.05, 2.1),
        ("left in the kettle", "1.5 ± 0.1 L", 1.4, 1.6),
        ("left in the fermenter", "1 L", 0.7, 1.5),
        ("mash temperature", "67 °C", 65.5, 67.8),
        ("temperature at pitching", "19 °C", 18, 20.5),
        ("boil-off", "3 L/h", 2.7, 3.3),
        ("boil volume", "25 L", 25, 25),
    ],
)
def test_a_plan_s_figure_without_a_range_is_as_sure_as_its_kind(desk, name: str, plan: str, low, high) -> None:  # type: ignore[no-untyped-def]
    """The kettle keeps 30 % less to 40 % more, the fermenter 30 % less to half as much again; a boil is within 10 %."""
    unit = plan.split()[-1]
    value = bench_of(desk.batch({}, plan={name: plan})).planned(name.replace(" ", "-"), unit)
    assert (value.low, value.high) == pytest.approx((low, high))


@pytest.mark.parametrize(("litres", "verdict"), [("1.6", "within"), ("2.3", "above"), ("0.9", "below")])
def test_what_stays_in_the_kettle_is_judged_by_what_it_usually_is_out(desk, litres: str, verdict: str) -> None:  # type: ignore[no-untyped-def]
    figures = work_out_batch(desk.batch({"left in kettle": f"{litres} L"}, plan={"left in the kettle": "1.5 L"}))
    (row,) = (it for it in figures.compared if it.figure == frozen.LEFT_IN_KETTLE)
    assert row.verdict == verdict


@pytest.mark.parametrize(("abv", "ready"), [("7.49 %", "2026-04-11"), ("7.5 %", "2026-05-23")])
def test_a_beer_from_seven_and_a_half_per_cent_on_is_left_for_eight_weeks(desk, abv: str, ready: str) -> None:  # type: ignore[no-untyped-def]
    figures = work_out_batch(desk.batch({"packaged": "2026-03-28, 18 L"}, plan={"alcohol by volume": abv}))
    assert [it.day for it in figures.occasions if it.what == "ready"] == [ready]
