"""A batch worked out: what its readings mean, by ways of reckoning that are not the project's own."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from gristbook.equations import density, gravity, mash, readings, registry
from gristbook.equations.registry import about
from gristbook.problems import Problems, Severity
from gristbook.sheet.value import lineage
from gristbook.targets.batches.brewed import brewed
from gristbook.targets.batches.work_out import work_out_batch

READ_ONCE = settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])


def row(figures, figure):  # type: ignore[no-untyped-def]
    return next(it for it in figures.compared if it.figure == figure)


@READ_ONCE
@given(
    efficiency=st.floats(0.55, 0.92),
    start_l=st.floats(23, 28),
    warm_c=st.floats(20, 95),
    boil_off=st.floats(1.5, 5),
    left_l=st.floats(0.3, 3),
    fermented=st.floats(0.6, 0.85),
)
def test_a_brew_whose_truth_is_known_is_found_again_from_its_readings(  # type: ignore[no-untyped-def]
    desk, efficiency, start_l, warm_c, boil_off, left_l, fermented
) -> None:
    """The truth goes through the published equations the other way round: swelling, a hydrometer in warm wort."""
    potential = desk.kept["potential-of-the-mashed-grain"].number
    start = gravity.wort_gravity(extract_kg=efficiency * potential, wort_l=start_l)
    end_l = start_l - boil_off
    end = gravity.wort_gravity(extract_kg=efficiency * potential, wort_l=end_l)
    plato = gravity.plato_from_gravity(gravity=end)
    final = gravity.gravity_from_plato(extract=plato * (1 - fermented))
    hot_l = density.hot_volume(cool_l=start_l, temperature=warm_c)
    shown = readings.hydrometer_reading(gravity=start, sample_c=30, calibration_c=20)
    figures = work_out_batch(
        desk.batch(
            {
                "before the boil": f"{hot_l:.9f} L at {warm_c:.9f} °C, {shown:.9f} at 30 °C",
                "boiled": "60 min",
                "end of the boil": f"{end_l:.9f} L",
                "left in kettle": f"{left_l:.9f} L",
                "into the fermenter": f"{end_l - left_l:.9f} L",
                "original gravity": f"{end:.9f}",
                "final gravity": f"{final:.9f}",
            }
        )
    )
    assert figures.mash_efficiency.number == pytest.approx(efficiency, abs=2e-6)
    assert figures.boil_off.number == pytest.approx(boil_off, abs=1e-4)
    assert figures.apparent_attenuation.number == pytest.approx(fermented, abs=1e-6)
    assert figures.real_attenuation.number == pytest.approx(0.8192 * fermented, abs=1e-6)  # Balling
    mash, kettle = figures.losses
    assert mash.lost.number == pytest.approx(potential * (1 - efficiency), abs=1e-4)
    assert kettle.measured.number == pytest.approx(1 - left_l / end_l, abs=1e-6)
    assert kettle.lost.number == pytest.approx(efficiency * potential * left_l / end_l, abs=1e-4)


def test_malt_extract_stirred_in_late_is_no_water_that_boiled_off(desk) -> None:  # type: ignore[no-untyped-def]
    """The plan has 20 L, less 3 L in the hour, and 19 L at the end: 2 L were stirred in, as in this brew of 21 L."""
    plan = {"boil volume": "20 L", "boil-off": "3 L/h", "volume at the end of the boil": "19 L"}
    brew = {"before the boil": "21 L", "boiled": "60 min", "end of the boil": "19.5 L"}
    assert work_out_batch(desk.batch(brew, plan=plan)).boil_off.number == pytest.approx(21 + 2 - 19.5)


def test_alcohol_as_brewed_is_balling_s(desk, measured) -> None:  # type: ignore[no-untyped-def]
    """1.050 and 1.010 give 5.316 % by the textbook chain of Balling, as in the published rows."""
    figures = work_out_batch(desk.batch({"original gravity": "1.050", "final gravity": "1.010"}))
    assert figures.abv.number == pytest.approx(5.316, abs=0.002)


def test_every_figure_leads_down_to_the_line_of_the_batch_that_it_was_read_from(desk, measured) -> None:  # type: ignore[no-untyped-def]
    figures = work_out_batch(desk.batch(measured))
    for compared in figures.compared:
        lines = {it.place.line for it in lineage(compared.measured) if it.place}
        assert lines, compared.figure
        assert all(it.place.path == "bitter/2026-03-14.md" for it in lineage(compared.measured) if it.place)


def test_a_brew_that_went_as_planned_is_within_and_one_that_did_not_says_on_which_side(desk) -> None:  # type: ignore[no-untyped-def]
    figures = work_out_batch(desk.batch({"original gravity": "1.0395", "into the fermenter": "15 L"}))
    assert row(figures, "original-gravity").verdict == "within"
    assert row(figures, "into-the-fermenter").verdict == "below"
    figures = work_out_batch(desk.batch({"original gravity": "1.055"}))
    assert row(figures, "original-gravity").verdict == "above"


def test_a_reading_without_a_spread_has_its_instrument_s_and_one_with_its_own(desk) -> None:  # type: ignore[no-untyped-def]
    figures = work_out_batch(desk.batch({"original gravity": "1.040", "into the fermenter": "20 L ± 0.1"}))
    value = row(figures, "original-gravity").measured
    assert value.high - value.number == pytest.approx(0.001)
    value = row(figures, "into-the-fermenter").measured
    assert value.high - value.number == pytest.approx(0.1)


@pytest.mark.parametrize("alone", [None, *["before the boil", "end of the boil", "original gravity", "packaged"]])
def test_what_nobody_measured_is_absent_and_nothing_else_is_wrong(desk, measured, alone) -> None:  # type: ignore[no-untyped-def]
    figures = work_out_batch(desk.batch({alone: measured[alone]} if alone else {"boiled": ""}))
    assert figures.abv is None
    assert not [fault for fault in figures.faults if fault.severity is Severity.ERROR]


@READ_ONCE
@given(data=st.data())
def test_any_part_of_the_readings_and_of_the_plan_is_worked_out(desk, data) -> None:  # type: ignore[no-untyped-def]
    from_all = {**_all()}
    kept = data.draw(st.sets(st.sampled_from(sorted(from_all))))
    gone = data.draw(st.sets(st.sampled_from(sorted(set(desk.kept) - {"original gravity"}))))
    batch = desk.batch({name: from_all[name] for name in kept}, plan=dict.fromkeys(gone, ""))
    assert work_out_batch(batch) == work_out_batch(batch)


def _all() -> dict[str, str]:
    return {
        "before the boil": "25.5 L at 1.022, 60 °C",
        "end of the boil": "22 L hot, 10.3 °Bx",
        "left in kettle": "1.5 L",
        "into the fermenter": "19.8 L",
        "original gravity": "10.2 °Bx",
        "readings": '["2026-03-17, 6.1 °Bx, 19 °C", "2026-03-21, 2.6 °P", "2026-03-22, 20 °C"]',
        "dry hopped": "2026-03-18",
        "final gravity": "5.0 °Bx",
        "packaged": "2026-03-28, 18.5 L, 95 g table sugar, keg",
    }


def test_a_figure_of_the_plan_in_another_unit_counts_as_not_planned(desk, measured) -> None:  # type: ignore[no-untyped-def]
    batch = desk.batch(measured, plan={"original gravity": "12 L", "boil-off": "3 IBU"})
    assert row(work_out_batch(batch), "original-gravity").planned is None


def test_the_day_that_it_is_ready_is_reckoned_where_nobody_wrote_it_down(desk, measured) -> None:  # type: ignore[no-untyped-def]
    """A beer of usual strength is ready two weeks after it was bottled: common practice, no source."""
    for more, day, reckoned in (("", "2026-04-11", True), ("ready: 2026-05-01\n", "2026-05-01", False)):
        (ready,) = (it for it in work_out_batch(desk.batch(measured, more=more)).occasions if it.what == "ready")
        assert (ready.day, ready.reckoned) == (day, reckoned)


def test_a_refractometer_in_beer_says_what_other_fits_make_of_it(desk) -> None:  # type: ignore[no-untyped-def]
    """12 and 6 °Bx over the factor: Terrill's cubic 1.01168, his line 1.01068, Novotný's 1.00947 and 1.00890."""
    figures = work_out_batch(desk.batch({"original gravity": "12.48 °Bx", "final gravity": "6.24 °Bx"}))
    assert figures.final.gravity.number == pytest.approx(1.01168, abs=2e-5)
    others = {name: value.number for name, value in figures.final.others}
    assert others["terrill 2011, linear"] == pytest.approx(1.01068, abs=2e-5)
    assert others["novotný 2017, linear"] == pytest.approx(1.00947, abs=2e-5)
    assert others["novotný 2017, quadratic"] == pytest.approx(1.00890, abs=2e-5)
    assert figures.final.gravity.high - figures.final.gravity.number >= 0.003


@pytest.mark.parametrize(
    ("wort", "beer", "found", "by_the_cubic"),
    [
        (12, 9, 1.02830, False),
        (8, 5, 1.01259, False),
        (16, 8, 1.01262, False),
        (16, 7.98, 1.01394, True),
        (12, 6, 1.01168, True),
    ],
)
def test_beer_that_still_ferments_is_not_read_by_a_fit_of_finished_beer(desk, wort, beer, found, by_the_cubic) -> None:  # type: ignore[no-untyped-def]
    """Terrill's fits are for beers at 1.014 at most, attenuated by 61 % at least; all else goes by Novotný's line.

    12 and 9 are 1.022 by the cubic, far above; 8 and 5 are 1.0129, but 59 % attenuated; 16 and 8 are 1.01401. The line
    is 1 − 0.002349 × 12 + 0.006276 × 9 = 1.02830.
    """
    brew = {"original gravity": f"{1.04 * wort:.4f} °Bx", "readings": f'["2026-03-17, {1.04 * beer:.4f} °Bx, 19 °C"]'}
    (look,) = work_out_batch(desk.batch(brew)).course.moments
    assert look.reading.gravity.number == pytest.approx(found, abs=2e-5)
    others = {name for name, _ in look.reading.others}
    assert ("terrill 2011, linear" in others) is by_the_cubic
    assert ("novotný 2017, linear" in others) is by_the_cubic
    assert ("still fermenting" in look.reading.gravity.label) is not by_the_cubic


def test_a_refractometer_without_the_wort_s_reading_is_said_to_say_nothing(desk) -> None:  # type: ignore[no-untyped-def]
    figures = work_out_batch(desk.batch({"final gravity": "6.24 °Bx"}))
    assert figures.final is None
    assert any("without the original gravity" in str(fault.words) for fault in figures.faults)


def test_the_reprinted_polynomial_stands_beside_hydrometers_that_it_is_for(desk) -> None:  # type: ignore[no-untyped-def]
    """1.050 at 40 °C is 1.0568 by Lyons, for a hydrometer made for 15 °C."""
    warm = {"original gravity": "1.050 at 40 °C"}
    ((name, value),) = work_out_batch(desk.batch({"hydrometer": "15 °C", **warm})).original.others
    assert (name, round(value.number, 4)) == ("lyons 1992", 1.0568)
    for made_for, is_there in (("13.9", False), ("14", True), ("16", True), ("16.1", False)):
        others = work_out_batch(desk.batch({"hydrometer": f"{made_for} °C", **warm})).original.others
        assert bool(others) is is_there
    assert work_out_batch(desk.batch(warm)).original.others == ()


@pytest.mark.parametrize(
    ("readings", "words"),
    [
        ({"before the boil": "26 L at 1.055"}, "more extract came out of the mash than the grain holds"),
        ({"before the boil": "22 L at 1.040", "end of the boil": "25 L at 1.036"}, "more wort after the boil"),
        ({"original gravity": "1.040", "final gravity": "0.981"}, "more extract fermented than there was"),
        ({"original gravity": "1.040", "final gravity": "1.050"}, "more gravity than its wort"),
    ],
)
def test_what_cannot_be_is_an_error_of_the_batch_and_no_lesson(desk, said, readings, words) -> None:  # type: ignore[no-untyped-def]
    problems = Problems()
    desk.batch(readings)
    done = brewed(desk.book(), problems)
    assert any("error" in line and words in line and "bitter/2026-03-14.md:" in line for line in said(problems))
    assert all(lesson.aside for batch in done.batches for lesson in batch.lessons if "cannot" in lesson.aside)
    assert any(lesson.aside for batch in done.batches for lesson in batch.lessons)


def test_a_batch_s_figures_stay_to_the_last_digit_when_the_book_changes(desk, measured) -> None:  # type: ignore[no-untyped-def]
    before, planned = work_out_batch(desk.batch(measured)), desk.plans()[0].named
    recipe, book = desk.folder / "bitter.md", desk.folder / "book.yaml"
    recipe.write_text(recipe.read_text("utf-8").replace("3.6 kg", "5.2 kg").replace("67 °C", "64 °C"), "utf-8")
    book.write_text(book.read_text("utf-8").replace("74 %", "60 %").replace("3 L/h", "5 L/h"), "utf-8")
    (desk.folder / "pantry").mkdir()
    (desk.folder / "pantry" / "malts.yaml").write_text(PALE, "utf-8")
    after = work_out_batch(desk.book().batches[0])
    assert desk.plans()[0].named["original-gravity"].number != planned["original-gravity"].number
    assert desk.plans()[0].named["colour"].number > planned["colour"].number + 5  # the pantry's new malt is darker
    assert numbers_of(after) == numbers_of(before)
    assert after == before


PALE = """\
- name: Pale ale malt
  kind: base
  cereal: barley
  extract: 70 % (69 to 71)
  moisture: 3 %
  colour: 30 °L (29 to 31)
  needs mash: yes
  usual share: 90 % (60 to 100)
  taste: made up
  source: made up
"""


def test_an_equation_of_the_plan_may_change_and_the_batch_stays(desk, measured, monkeypatch) -> None:  # type: ignore[no-untyped-def]
    before, planned = work_out_batch(desk.batch(measured)), desk.plans()[0].named
    filed = about(mash.mash_temperature_effect)
    another = replace(filed, function=lambda *, mash_c: 0.8 * filed.function(mash_c=mash_c))
    monkeypatch.setitem(registry._FILED, filed.name, another)
    assert desk.plans()[0].named["final-gravity"].number > planned["final-gravity"].number
    after = work_out_batch(desk.book().batches[0])
    assert numbers_of(after) == numbers_of(before)
    assert after == before


def numbers_of(figures):  # type: ignore[no-untyped-def]
    return [(it.figure, it.measured.number.hex(), it.measured.spread.hex(), it.verdict) for it in figures.compared]


@pytest.mark.parametrize("old", [False, True])
@pytest.mark.parametrize(
    ("first", "whole", "said"),
    [
        (1.0, 1.0, "The grain gave what was planned."),
        (0.85, 0.85, "The first runnings were thin, and the rest ran off as planned: the mash dissolved less."),
        (1.0, 0.85, "The mash dissolved what was planned, and less of it ran off:"),
        (0.85, 0.70, "The mash dissolved less than planned, and less of that ran off:"),
    ],
)
def test_what_did_not_dissolve_is_told_apart_from_what_did_not_run_off(  # type: ignore[no-untyped-def]
    desk, first: float, whole: float, said: str, old: bool
) -> None:
    """The first runnings show what dissolved, for nothing has been held back yet; the wort before the boil shows both.

    An old plan names neither, and its first runnings went by 95 %, whatever its efficiency said: they judge nothing.
    """
    figures = work_out_batch(lautered(desk, first, whole, old=old))
    assert figures.losses[0].words.startswith(said)
    shown = row(figures, "conversion").measured.number, row(figures, "lauter-efficiency").measured.number
    planned = desk.kept["conversion"].number, desk.kept["lauter-efficiency"].number
    assert shown == pytest.approx((first * planned[0], whole / first * planned[1]), rel=0.01)
    thin = row(figures, "gravity-of-the-first-runnings")
    assert thin.planned.number == pytest.approx(desk.kept["gravity-of-the-first-runnings"].number, abs=0.0005)
    assert thin.verdict == ("within" if first == 1 else "below")
    (lesson,) = (it for it in figures.lessons if it.subject == "conversion")
    assert (lesson.value.number, lesson.aside) == (row(figures, "conversion").measured.number, "")


@pytest.mark.parametrize("old", [False, True])
@pytest.mark.parametrize(("first", "whole"), [(0.8, 1.0), (0.87, 1.0), (1.0, 0.7)])
def test_first_runnings_and_an_efficiency_that_no_one_mash_has_tell_nothing_apart(  # type: ignore[no-untyped-def]
    desk, first: float, whole: float, old: bool
) -> None:
    """Grain keeps wort: not all of it runs off, nor much more than was planned; nor is a good third held back."""
    figures = work_out_batch(lautered(desk, first, whole, old=old))
    assert not {"conversion", "lauter-efficiency"} & {it.figure for it in figures.compared}
    (lesson,) = (it for it in figures.lessons if it.subject == "conversion")
    assert "do not agree" in lesson.aside
    (fault,) = figures.faults
    assert "do not agree" in " ".join(it for it in fault.words if isinstance(it, str))
    assert fault.severity is Severity.WARNING
    assert figures.losses[0].words.startswith("The grain gave ")


def lautered(desk, first: float, whole: float, *, old: bool):  # type: ignore[no-untyped-def]
    """A batch with so much of the planned extract in the first runnings, and so much of it in the kettle."""
    thin = desk.kept["gravity-before-the-boil"].number - 1

    def runnings(share: float) -> str:
        """The gravity of the first runnings with so much of the planned extract in the same water."""
        plato = gravity.plato_from_gravity(gravity=desk.kept["gravity-of-the-first-runnings"].number)
        in_water = share * plato / (100 - plato)
        return f"{gravity.gravity_from_plato(extract=100 * in_water / (1 + in_water)):.4f}"

    plan = {}
    if old:
        once = runnings(0.95 / desk.kept["conversion"].number)
        plan = {"conversion": "", "lauter efficiency": "", "gravity of the first runnings": once}
    brew = {
        "first runnings": runnings(first),
        "before the boil": f"{desk.kept['boil-volume'].number} L at {1 + whole * thin:.4f}",
    }
    return desk.batch(brew, plan=plan)
