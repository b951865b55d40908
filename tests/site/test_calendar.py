"""The days of brews as a calendar: RFC 5545 (iCalendar) and RFC 7986, by hand and by an independent reader."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from gristbook.site.book.calendar import calendar, escaped, folded
from gristbook.site.brew.batches import brewed_batch


@pytest.fixture
def batches(brews):  # type: ignore[no-untyped-def]
    return tuple(brewed_batch(figures) for figures in brews.done.batches)


def days(data: bytes) -> dict[tuple[str, date], dict[str, str]]:
    return {
        (str(event["SUMMARY"]), event["DTSTART"].dt): {
            name: str(event.get(name, "")) for name in ("DESCRIPTION", "UID")
        }
        for event in Calendar.from_ical(data).walk("VEVENT")
    }


def test_an_independent_reader_finds_every_day_of_the_book(brews) -> None:  # type: ignore[no-untyped-def]
    found = days(brews.files["brews.ics"])
    expected = {
        (f"{it.batch.frozen.title}: {day.what}", date.fromisoformat(day.day))
        for it in brews.done.batches
        for day in it.occasions
    }
    assert set(found) == expected
    assert ("Quay Bitter: dry hopping", date(2026, 3, 21)) in found
    assert ("Quay Bitter: packaging", date(2026, 3, 28)) in found
    assert ("Quay Bitter: ready", date(2026, 4, 18)) in found


def test_a_batch_has_a_calendar_of_its_own_days(brews) -> None:  # type: ignore[no-untyped-def]
    found = days(brews.files["quay-bitter/brew-2026-03-14.ics"])
    assert {what for what, _ in found} == {
        f"Quay Bitter: {it}" for it in ("brewing", "dry hopping", "packaging", "ready")
    }
    assert all(found[day]["UID"] == days(brews.files["brews.ics"])[day]["UID"] for day in found)


def test_the_day_of_brewing_has_the_rests_and_the_steps_of_the_ferment_in_the_recipes_words(batches) -> None:  # type: ignore[no-untyped-def]
    (first, *_) = batches
    own = first.figures.batch
    lines = (("mash", ("protein rest, 52 °C, 15 min", "67 °C, 60 min")), ("ferment", ("1.0 bar, 10 to 14 °C, 9 days",)))
    frozen = replace(own.frozen, sections=(*own.frozen.sections, *lines))
    batch = replace(first, figures=replace(first.figures, batch=replace(own, frozen=frozen)))
    found = {what: it["DESCRIPTION"] for (what, _), it in days(calendar("x", [batch], "")).items()}
    (brewing,) = [told for what, told in found.items() if what.endswith(": brewing")]
    assert brewing == "Mash: protein rest, 52 °C, 15 min; 67 °C, 60 min. Ferment: 1.0 bar, 10 to 14 °C, 9 days."


def test_days_are_whole_days_that_take_no_time(brews) -> None:  # type: ignore[no-untyped-def]
    """RFC 5545, 3.6.1: a DATE without an end lasts one day; 3.8.2.7: it does not block the day."""
    for event in Calendar.from_ical(brews.files["brews.ics"]).walk("VEVENT"):
        assert type(event["DTSTART"].dt) is date
        assert "DTEND" not in event
        assert event["TRANSP"] == "TRANSPARENT"


def test_a_calendar_has_what_the_standard_asks_of_every_part(brews) -> None:  # type: ignore[no-untyped-def]
    """RFC 5545, 3.6 and 3.6.1: PRODID and VERSION once; UID and DTSTAMP (in UTC) once in each event."""
    text = brews.files["brews.ics"].decode()
    assert text.startswith("BEGIN:VCALENDAR\r\n")
    assert text.endswith("END:VCALENDAR\r\n")
    assert len(re.findall(r"^(?:PRODID|VERSION):", text, re.MULTILINE)) == 2
    events = text.split("BEGIN:VEVENT\r\n")[1:]
    for event in events:
        for name in ("UID:", "DTSTAMP:", "DTSTART;", "SUMMARY:"):
            assert event.count(f"\r\n{name}") + event.startswith(name) == 1
        assert re.search(r"\r\nDTSTAMP:\d{8}T000000Z\r\n", event)


def test_lines_end_in_cr_lf_and_hold_75_octets_at_most(brews) -> None:  # type: ignore[no-untyped-def]
    """RFC 5545, 3.1."""
    for path in (path for path in brews.files if path.endswith(".ics")):
        data = brews.files[path]
        lines = data.split(b"\r\n")
        assert b"\n" not in b"".join(lines)
        assert b"\r" not in b"".join(lines)
        assert max(map(len, lines)) <= 75
        assert lines[-1] == b""


def test_the_same_day_keeps_its_id_when_it_is_moved_and_each_has_one_of_its_own(batches) -> None:  # type: ignore[no-untyped-def]
    """RFC 7986, 5.3: an id is a UUID, and the same for every revision of its event."""
    one = next(it for it in batches if it.figures.batch.brewed == "2026-03-14")
    moved = tuple(replace(day, day="2026-05-01") if day.what == "ready" else day for day in one.figures.occasions)
    later = replace(one, figures=replace(one.figures, occasions=moved))
    ids = [[entry["UID"] for entry in days(calendar("x", [it], "")).values()] for it in (one, later)]
    assert sorted(ids[0]) == sorted(ids[1])
    every = [entry["UID"] for entry in days(calendar("x", batches, "")).values()]
    assert len(every) == len(set(every)) == sum(len(it.figures.occasions) for it in batches)
    assert all(UUID(entry).version == 5 for entry in every)


def test_the_clock_is_never_asked(batches) -> None:  # type: ignore[no-untyped-def]
    text = calendar("x", batches, "").decode()
    stamps = set(re.findall(r"DTSTAMP:(\d{8})", text))
    assert stamps == {it.figures.batch.brewed.replace("-", "") for it in batches}


def test_a_day_that_nobody_wrote_down_says_so(brews) -> None:  # type: ignore[no-untyped-def]
    found = days(brews.files["quay-bitter/brew-2026-05-02.ics"])
    (ready,) = [entry for (what, _), entry in found.items() if what.endswith("ready")]
    assert "follows from the plan" in ready["DESCRIPTION"]
    written = days(brews.files["quay-bitter/brew-2026-03-14.ics"])
    assert not [entry for entry in written.values() if "follows from the plan" in entry["DESCRIPTION"]]


def test_bottles_with_too_much_gas_are_warned_of_on_the_day_they_are_ready(brews) -> None:  # type: ignore[no-untyped-def]
    found = days(brews.files["quay-bitter/brew-2026-05-02.ics"])
    assert any("too much gas" in entry["DESCRIPTION"] for (what, _), entry in found.items() if what.endswith("ready"))


def test_an_event_leads_to_the_page_of_its_brew(brews) -> None:  # type: ignore[no-untyped-def]
    for event in Calendar.from_ical(brews.files["brews.ics"]).walk("VEVENT"):
        assert str(event["URL"]).removeprefix("https://quillmere.example/notes/") in brews.pages


@given(st.text())
def test_any_words_come_back_from_an_independent_reader(words: str) -> None:
    """What no line may hold is left out; everything else survives escaping and folding."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:x", folded(f"NAME:{escaped(words)}"), "END:VCALENDAR", ""]
    data = "\r\n".join(lines).encode()
    assert max(map(len, data.split(b"\r\n"))) <= 75
    kept = "".join(letter for letter in words if letter.isprintable() or letter == "\n")
    read = re.sub("\r\n ", "", data.decode()).split("NAME:", 1)[1].split("\r\n")[0]
    assert (
        read.replace("\\\\", "\0").replace("\\n", "\n").replace("\\,", ",").replace("\\;", ";").replace("\0", "\\")
        == kept
    )


@pytest.mark.parametrize("words", ["a, b; c\\d", "ü" * 80, "\\n", "x" * 74 + "é", "“quoted”, 1:2"])
def test_an_independent_reader_gives_the_words_back(batches, words: str) -> None:  # type: ignore[no-untyped-def]
    it = batches[0]
    batch = replace(it.figures.batch, frozen=replace(it.figures.batch.frozen, title=words))
    data = calendar("x", [replace(it, figures=replace(it.figures, batch=batch))], "")
    read = {str(event["SUMMARY"]) for event in Calendar.from_ical(data).walk("VEVENT")}
    from gristbook.site.prose import plain

    assert f"{plain(words)}: brewing" in read
