"""The fermentation and the bottles: when it was over, how much gas there is, and what is said against it."""

from __future__ import annotations

import pytest

from gristbook.problems import Place, Problems, Severity
from gristbook.sheet.value import Value
from gristbook.targets.advice.gas import beyond
from gristbook.targets.batches.brewed import brewed
from gristbook.targets.batches.work_out import work_out_batch


def worked(desk, readings: str, more: dict[str, str] | None = None, **how: object):  # type: ignore[no-untyped-def]
    lines = {"original gravity": "1.040", "readings": f"[{readings}]", **(more or {})}
    return work_out_batch(desk.batch(lines, **how))


@pytest.mark.parametrize(
    ("readings", "dry_hopped", "stable"),
    [
        ('"2026-03-21, 1.010", "2026-03-24, 1.010"', "", True),
        ('"2026-03-21, 1.011", "2026-03-24, 1.010"', "", True),
        ('"2026-03-21, 1.012", "2026-03-24, 1.010"', "", False),
        ('"2026-03-22, 1.010", "2026-03-24, 1.010"', "", None),  # two days are not three
        ('"2026-03-20, 1.010", "2026-03-23, 1.010", "2026-03-24, 1.010"', "", True),
        ('"2026-03-21, 1.010", "2026-03-24, 1.010"', "2026-03-22", None),  # the hops went in between
        ('"2026-03-21, 1.010", "2026-03-24, 1.010"', "2026-03-21", None),  # or on the day of the first
        ('"2026-03-21, 1.010", "2026-03-24, 1.010"', "2026-03-20", True),
        ('"2026-03-21, 1.010", "2026-03-24, 1.010", "2026-03-27, 1.009"', "2026-03-22", True),
        ('"2026-03-21, 1.010", "2026-03-24, 1.010", "2026-03-27, 1.008"', "2026-03-22", False),  # creep
        ('"2026-03-24, 1.010"', "", None),
    ],
)
def test_it_is_over_when_two_readings_three_days_apart_agree_after_the_dry_hops(desk, readings, dry_hopped, stable):  # type: ignore[no-untyped-def]
    more = {"dry hopped": dry_hopped} if dry_hopped else {}
    assert worked(desk, readings, more).course.stability.stable is stable


def test_dry_hops_that_nobody_wrote_down_leave_it_open(desk) -> None:  # type: ignore[no-untyped-def]
    twice = '"2026-03-21, 1.010", "2026-03-24, 1.010"'
    figures = worked(desk, twice, hops="20 g East Kent Golding, dry 3 days")
    assert figures.course.stability.stable is None
    assert worked(desk, twice, hops="11 g Fuggle, 30 min").course.stability.stable is True


def test_the_final_gravity_is_a_look_on_the_day_of_packaging(desk) -> None:  # type: ignore[no-untyped-def]
    more = {"final gravity": "1.010", "packaged": "2026-03-28"}
    figures = worked(desk, '"2026-03-24, 1.010"', more)
    assert [moment.when.date().isoformat() for moment in figures.course.moments] == ["2026-03-24", "2026-03-28"]
    assert figures.course.stability.stable is True
    assert figures.course.moments[0].days == 10.5


def test_a_log_shows_it_too_and_is_thinned_for_the_chart(desk) -> None:  # type: ignore[no-untyped-def]
    hours = range(24 * 20)
    rows = [
        f"2026-03-{14 + hour // 24:02d} {hour % 24:02d}:30,{max(1.010, 1.040 - hour / 8000):.4f},19.0" for hour in hours
    ]
    (desk.folder / "bitter").mkdir()
    rows = [row for row in rows if row[:10] <= "2026-03-31"]
    (desk.folder / "bitter" / "log.csv").write_text("taken,sg,beer\n" + "\n".join(rows) + "\n", "utf-8")
    lines = {"log": "log.csv, time in taken, gravity in sg, temperature in beer"}
    figures = work_out_batch(desk.batch(lines))
    curve = figures.course.curve
    assert curve is not None
    assert len(rows) > 400
    assert 100 < len(curve.days) <= 241
    assert curve.days[-1] == pytest.approx(17 + 23.5 / 24)
    assert figures.course.stability.stable is True


def test_gas_is_what_fermentation_left_and_what_the_sugar_adds(desk) -> None:  # type: ignore[no-untyped-def]
    """79.6 g of sucrose in 18.5 L are 1.12 volumes (stoichiometry), and beer at 20 °C holds 0.88 (Hibberd's table)."""
    more = {"final gravity": "1.0095", "packaged": "2026-03-28, 18.5 L, 79.6 g table sugar"}
    bottles = worked(desk, '"2026-03-24, 1.0095, 20 °C"', more).bottles
    assert bottles.residual.number == pytest.approx(0.88)
    assert bottles.priming.number == pytest.approx(1.12, abs=0.005)
    assert bottles.carbonation.number == pytest.approx(2.00, abs=0.005)
    assert [it.words[0] for it in bottles.against] == []


PROVEN = '"2026-03-21, 1.0095, 20 °C", "2026-03-24, 1.0095, 20 °C"'


def test_a_hot_store_is_judged_by_its_pressure(desk) -> None:  # type: ignore[no-untyped-def]
    more = {"packaged": "2026-03-28, 18.5 L, 95 g table sugar", "warmest storage": "60 °C"}
    (against,) = worked(desk, PROVEN, more).bottles.against
    assert against.severity is Severity.ERROR
    assert [part.unit for part in against.words if isinstance(part, Value)] == ["vol", "bar", "°C", "bar"]
    assert worked(desk, PROVEN, more | {"warmest storage": "24 °C"}).bottles.against == ()


@pytest.mark.parametrize(
    ("readings", "packaged", "comforted"),
    [
        (PROVEN, "18.5 L, 79.6 g table sugar", True),
        ('"2026-03-24, 1.0095, 20 °C"', "18.5 L, 79.6 g table sugar", False),
        ("", "18.5 L, 79.6 g table sugar", False),
        (PROVEN, "18.5 L, 150 g table sugar", False),
        (PROVEN, "18.5 L, keg", False),
    ],
)
def test_no_word_of_comfort_without_two_readings_that_agree(desk, readings, packaged, comforted) -> None:  # type: ignore[no-untyped-def]
    bottles = worked(desk, readings, {"packaged": f"2026-03-28, {packaged}"}).bottles
    assert bool(bottles.comfort) is comforted
    assert not (bottles.comfort and bottles.against)


@pytest.mark.parametrize(
    ("readings", "stable"),
    [
        ('"2026-03-20, 1.016, 19 °C", "2026-03-22, 1.014, 4 °C", "2026-03-26, 1.014, 4 °C"', None),
        ('"2026-03-20, 1.010, 19 °C", "2026-03-23, 1.010, 19 °C", "2026-03-26, 1.010, 4 °C"', True),
        ('"2026-03-20, 1.010, 19 °C", "2026-03-23, 1.010, 19 °C", "2026-03-26, 1.007, 4 °C"', False),
        ('"2026-03-20, 1.010, 16 °C", "2026-03-23, 1.010, 16 °C"', True),
    ],
)
def test_two_readings_in_the_cold_prove_nothing(desk, readings, stable) -> None:  # type: ignore[no-untyped-def]
    packaged = {"packaged": "2026-03-28, 18.5 L, 79.6 g table sugar", "final gravity": ""}
    assert worked(desk, readings, packaged).course.stability.stable is stable


def test_a_beer_that_eats_on_is_read_a_week_apart(desk) -> None:  # type: ignore[no-untyped-def]
    near, far = (f'["2026-03-{day}, 1.006, 20 °C", "2026-03-28, 1.006, 20 °C"]' for day in (24, 21))
    for readings, stable in ((near, None), (far, True)):
        desk.batch({"original gravity": "1.040", "readings": readings})
        path = desk.folder / "bitter" / "2026-03-14.md"
        path.write_text(
            path.read_text("utf-8").replace("yeast: english ale yeast, attenuative", "yeast: saison"), "utf-8"
        )
        (batch,) = desk.book().batches
        assert work_out_batch(batch).course.stability.stable is stable


def test_the_same_sugar_in_less_beer_is_more_gas(desk) -> None:  # type: ignore[no-untyped-def]
    """95 g of sucrose in 9 L are 2.75 volumes by the sugar's formula, and the beer holds 0.88 as it is."""
    for more in (
        {"packaged": "2026-03-28, 9 L, 95 g table sugar"},
        {"packaged": "2026-03-28, 95 g table sugar", "into the fermenter": "9 L"},
    ):
        bottles = worked(desk, PROVEN, more).bottles
        assert bottles.priming.number == pytest.approx(2.75, abs=0.01)
        assert [it.severity for it in bottles.against] == [Severity.ERROR]


def test_gas_left_goes_by_the_warmest_since_fermentation_ended(desk) -> None:  # type: ignore[no-untyped-def]
    early = '"2026-03-16, 1.030, 26 °C", "2026-03-20, 1.010, 20 °C"'
    readings = f'{early}, "2026-03-22, 22 °C", "2026-03-26, 1.010 at 20 °C, 4 °C"'
    more = {"packaged": "2026-03-28, 19 L, 80 g table sugar"}
    assert worked(desk, readings, more).bottles.residual.number == pytest.approx(0.83)  # 22 °C in Hibberd's table


def test_each_point_above_the_expected_end_is_half_a_volume_more(desk) -> None:  # type: ignore[no-untyped-def]
    bottled = {"packaged": "2026-03-18, 19 L, 80 g table sugar"}
    one, five = (worked(desk, f'"2026-03-17, {gravity}, 19 °C"', bottled).bottles for gravity in ("1.0120", "1.0160"))
    assert five.at_the_end.number - one.at_the_end.number == pytest.approx(
        4 * 0.49, abs=0.001
    )  # both are read at 19 °C
    assert five.pressure.number > one.pressure.number


def test_a_beer_that_stood_still_where_it_was_expected_is_done(desk) -> None:  # type: ignore[no-untyped-def]
    bottled = {"final gravity": "1.010", "packaged": "2026-03-28, 19 L, 80 g table sugar"}
    assert worked(desk, '"2026-03-24, 1.010"', bottled).bottles.unfinished is None
    stuck = {"final gravity": "1.020", "packaged": "2026-03-28, 19 L, 80 g table sugar"}
    figures = worked(desk, '"2026-03-24, 1.020"', stuck)
    assert figures.course.stability.stable is True
    assert figures.bottles.unfinished.number > 4  # it may go on all the same
    assert Severity.ERROR in [it.severity for it in figures.bottles.against]


@pytest.mark.parametrize(
    ("vessel", "volumes", "severity"),
    [
        ("bottles", 2.8, None),
        ("bottles", 2.81, Severity.WARNING),
        ("swing-top bottles", 2.81, Severity.WARNING),
        ("bottles", 3.51, Severity.ERROR),
        ("swing-top bottles", 3.51, Severity.ERROR),
        ("heavy bottles", 3.51, None),
        ("heavy bottles", 4.5, Severity.WARNING),
        ("heavy bottles", 5.5, Severity.ERROR),
        ("keg", 4.0, None),
        ("keg", 4.5, Severity.WARNING),
        ("keg", 6.0, Severity.WARNING),  # 8.3 bar
        ("keg", 7.0, Severity.ERROR),  # 9.8 bar, and 130 psi are 8.96
    ],
)
def test_each_vessel_has_its_bound(vessel: str, volumes: float, severity: Severity | None) -> None:
    against = beyond(volumes, 30, vessel, Place("a"))  # type: ignore[arg-type]  # one of the four
    assert (against.severity if against else None) is severity


@pytest.mark.parametrize(
    ("packaged", "more", "words"),
    [
        ("19 L, 80 g table sugar", "", "bottled before it stood still"),
        ("19 L, 80 g table sugar, keg", "", ""),
        ("19 L, 200 g table sugar, heavy bottles", "", "heavy bottle"),
        ("19 L, 80 g table sugar", "thrown away: it was sour\n", ""),
    ],
)
def test_bottling_that_is_not_safe_is_a_problem_of_its_line(desk, said, packaged, more, words) -> None:  # type: ignore[no-untyped-def]
    readings = '["2026-03-20, 1.018", "2026-03-24, 1.013"]'
    lines = {"original gravity": "1.040", "readings": readings, "packaged": f"2026-03-25, {packaged}"}
    desk.batch(lines, more=more)
    problems = Problems()
    brewed(desk.book(), problems)
    found = [line for line in said(problems) if "bitter/2026-03-14.md" in line and "gravity rises" not in line]
    assert any(words in line for line in found) if words else not [line for line in found if "bottle" in line]
