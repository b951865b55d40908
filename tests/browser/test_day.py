"""The day of a brew in a real browser: what is ticked, started, typed and copied is there after a reload."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

import pytest
import the_demo

from gristbook import cli
from gristbook.problems import Problems
from gristbook.text.batch import read_batch
from gristbook.text.values import Desk

Open = Callable[..., AbstractContextManager[Any]]

DAY = "quillmere-best/day.html"
HERE = "() => document.querySelector('.leaf.now').id"


def chosen_one_at_a_time(page: Any) -> None:
    page.check("input[name=shown][value=one]")


def test_who_ticks_to_step_twelve_and_reloads_is_at_step_twelve(opened: Open) -> None:
    with opened(DAY, width=360) as it:
        chosen_one_at_a_time(it.page)
        for _ in range(12):  # the start, and eleven steps
            it.page.click(".turn .on")
        assert it.page.evaluate(HERE) == "step-12"
        it.page.reload()
        assert it.page.evaluate(HERE) == "step-12"
        assert it.page.locator("#step-12 h3").is_visible()
        assert it.page.locator(".leaf:visible").count() == 1
        assert it.page.evaluate("() => [...document.querySelectorAll('.tick:checked')].length") == 11
        it.page.check("input[name=shown][value=all]")
        assert it.page.locator("li.leaf:visible").count() == it.page.locator("li.leaf").count() > 20
        assert it.complaints == []


def test_all_at_once_the_first_step_without_a_tick_is_where_one_is_after_a_reload(opened: Open) -> None:
    with opened(DAY, width=360) as it:
        for number in range(1, 12):
            it.page.check(f"#step-{number} .tick")
        it.page.reload()
        assert it.page.evaluate(HERE) == "step-12"
        it.page.wait_for_function("() => document.querySelector('#step-12').getBoundingClientRect().top < 200")


def test_a_changed_brew_keeps_no_old_ticks_but_what_was_read(opened: Open) -> None:
    with opened(DAY) as it:
        it.page.check("#step-1 .tick")
        it.page.fill("#measured [name='boiled.minutes']", "62")
        it.page.evaluate(
            """() => { const key = Object.keys(localStorage).find(key => key.startsWith('brew-day '));
            localStorage.setItem(key.replace(/[^ ]+$/, 'another-mark'), localStorage.getItem(key));
            localStorage.removeItem(key); }"""
        )
        it.page.reload()
        assert it.page.locator(".tick:checked").count() == 0
        assert it.page.input_value("#measured [name='boiled.minutes']") == "62"
        assert "has changed since" in it.page.inner_text(".told")


def test_a_clock_is_due_at_the_same_time_after_a_reload_and_every_addition_says_its_own(opened: Open) -> None:
    with opened(DAY) as it:
        it.page.evaluate("() => Date.now = () => new Date(2026, 2, 14, 10, 30).getTime()")
        it.page.click(".of-the-boil .run")
        said = it.page.locator(".of-the-boil output").inner_text()
        assert re.sub(r"\D", "", said) in ("1130", "01130")  # 60 min after half past ten
        times = it.page.locator(".additions output").all_inner_texts()
        by_hand = ["1030", "1110", "1115", "1120", "1130"]  # 60, 20, 15, 10 and 0 min before it
        assert [re.sub(r"\D", "", time)[-4:] for time in times] == by_hand
        it.page.reload()
        assert it.page.locator(".of-the-boil output").inner_text() == said
        assert it.page.locator(".additions output").all_inner_texts() == times


def test_another_packet_changes_the_grams_by_its_alpha_acids_and_leaves_late_hops(opened: Open) -> None:
    """By hand: 40 g at 4.5 % for a packet of 5.2 % are 40 × 4.5 / 5.2 = 34.6 g."""
    with opened(DAY) as it:
        assert it.page.locator("[data-packet]").count() == 1  # Golding goes in for the last 20 minutes, and later
        it.page.fill("[name='alpha.0']", "5,2")
        weighed = it.page.locator("[data-packet] output").text_content()
        assert weighed.startswith("35 g")
        assert it.page.locator("li.leaf .replaced").all_inner_texts()[0].startswith("40")
        assert "35 g" in it.page.locator("li.leaf .own").first.text_content()
        assert it.page.locator("li.leaf .own").count() == 1
        it.page.fill("[name='alpha.0']", "")
        assert it.page.locator("li.leaf .own").count() == 0


def test_a_reading_finds_its_row_and_none_that_was_not_worked_out(opened: Open) -> None:
    with opened(DAY) as it:
        it.page.fill("#step-13 [name='before the boil.volume'], li [name='before the boil.volume'] >> nth=0", "25")
        it.page.fill("li [name='before the boil.gravity'] >> nth=0", "1.030")
        cases = it.page.locator(".cases[data-step='before the boil']")
        row = cases.locator("tr[data-gravity='1.029'] td").all_text_contents()
        advice = it.page.locator(".advice:not([hidden])")
        assert row[1] in advice.text_content(), "25 L is the middle column, and 1.030 nearest to 1.029"
        it.page.fill("li [name='before the boil.gravity'] >> nth=0", "1.060")
        assert "beyond the table" in advice.text_content()


def test_a_warm_sample_is_put_right_before_it_is_held_against_the_table(opened: Open) -> None:
    """ISO 649's glass and the density of water: 1.036 at 35 °C is 1.0408 at 20 °C (a handbook's table has 1.0413)."""
    with opened("doorstep-ale/day.html") as it:
        advice = it.page.locator(".advice:not([hidden])")
        it.page.fill("li [name='original gravity.gravity'] >> nth=0", "1036")
        assert "How much wort is there?" in advice.text_content()
        it.page.fill("li [name='into the fermenter.volume'] >> nth=0", "10")
        assert "malt extract" in advice.text_content()
        it.page.fill("li [name='original gravity.heat'] >> nth=0", "35")
        assert "as planned" in advice.text_content()
        assert "1.040" in advice.text_content() or "1.041" in advice.text_content()
        it.page.fill("li [name='original gravity.heat'] >> nth=0", "45")
        assert "cool it" in advice.text_content()
        it.page.fill("li [name='original gravity.heat'] >> nth=0", "")
        it.page.fill("li [name='original gravity.gravity'] >> nth=0", "10.2")
        assert "A gravity is written as" in advice.text_content()


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A book of one beer, with what it stands on."""
    import shutil

    folder = tmp_path / "book"
    shutil.copytree(the_demo.DEMO, folder)
    return folder


def test_what_was_measured_goes_as_text_into_a_batch(
    opened: Open, book: Path, pantry: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    typed = {
        "brewed.day": "2026-11-29",
        "hydrometer.heat": "20",
        "mash temperature.heat": "66.5",
        "first runnings.gravity": "1.078",
        "before the boil.volume": "25.4",
        "before the boil.gravity": "1.034",
        "boiled.minutes": "62",
        "into the fermenter.volume": "19,5",
        "original gravity.gravity": "1.041",
        "original gravity.heat": "24",
        "readings.lines": "2026-12-03, 1.018, 19 °C\n2026-12-06, 1.010, 19 °C\n",
        "packaged.words": "2026-12-15, 18 L, 79 g table sugar, bottles",
        "tasted.lines": "2027-01-02, soft: a little sweet",
        "words": "It rained.\n\nThen it did not.",
        "alpha.0": "5.2",
    }
    with opened(DAY) as it:
        for name, words in typed.items():
            it.page.fill(f"#measured [name='{name}'], #start [name='{name}']", words)
        it.page.check("#measured [name='before the boil.volume-hot']")
        it.page.reload()
        text = it.page.input_value("#text")
        assert it.page.locator("li [name='original gravity.gravity']").input_value() == "1.041", "typed once"
        assert it.complaints == []
    (book / "notes.txt").write_text(text, "utf-8")
    assert "before the boil: 25.4 L hot at 1.034\n" in text
    assert cli.main(["brew", str(book / "quillmere-best.md"), "--from", str(book / "notes.txt")]) == cli.FINE
    ran = capsys.readouterr()
    assert ran.err == "", "its mark is the recipe's, and nothing in it is odd"
    assert re.search(r"Not in the notes:\n\n  end of the boil", ran.out)
    assert "original gravity" not in ran.out
    path, problems = book / "quillmere-best" / "2026-11-29.md", Problems()
    batch = read_batch(
        path.read_text("utf-8"),
        "quillmere-best/2026-11-29.md",
        book,
        the_demo.book().brewhouses,
        Desk(pantry, problems),
    )
    assert list(problems) == []
    assert batch is not None
    measured = batch.measured
    assert (measured.boiled.number, measured.into_the_fermenter.number) == (62, 19.5)
    assert measured.before_the_boil.volume.number == 25.4
    assert measured.before_the_boil.warmth.number > 95, "hot is as it boils"
    assert (measured.original.shown.number, measured.original.sample.number) == (1.041, 24)
    assert [moment.gravity.shown.number for moment in measured.moments] == [1.018, 1.010]
    assert measured.packaged.volume.number == 18
    assert [tasting.words for tasting in batch.tastings] == ["soft: a little sweet"]
    assert "Fuggle, 5.2 % alpha, 35 g instead of 40 g" in batch.prose
    assert batch.prose.rstrip().endswith("It rained.\n\nThen it did not.")


def test_without_scripts_every_step_is_there_to_read_and_nothing_that_needs_one(opened: Open) -> None:
    with opened(DAY, width=360, scripts=False) as it:
        steps = it.page.locator("li.leaf h3:visible").all_inner_texts()
        told = the_demo.plans()["quillmere-best"]
        from gristbook.targets.method.whole import steps as method

        assert [title.strip() for title in steps] == [step.title.replace("'", "’") for step in method(told)]
        assert it.page.locator("button:visible").count() == 0
        assert it.page.locator(".cases:visible").count() >= 2
        assert it.page.evaluate("() => document.documentElement.scrollWidth") <= 360
