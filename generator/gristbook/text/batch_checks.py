"""What no single line of a batch can know: days in their order, gravities that fall, volumes that can be."""

from collections.abc import Iterator
from datetime import datetime
from itertools import pairwise

from gristbook.model.batch import Batch, Level, Reading, is_a_slip
from gristbook.problems import Place, Problems, spoken
from gristbook.reading.fields import Fields

RISE = {"SG": 0.002, "°P": 0.5, "°Bx": 0.5}
"""By so much may a later gravity lie above an earlier one, unsaid: twice what an instrument is out."""
AS_WARM = 5.0
"""Two samples are as warm as each other within so many °C, so that their readings may be compared as they stand."""
ADDED_AT_PACKAGING = 1.05
"""Primings and a volume read off a bucket make this much of the wort, at most."""
HOTTEST_SAMPLE = 60.0
"""Past this (°C) no correction of a hydrometer is held to anything, and wort may break its glass."""
AS_READ = 0.1
"""Degrees Fahrenheit come out a little beside."""
POURED = 1.03
"""What two readings of a kettle's marks make of wort that nothing was added to, at most."""
OTHER_BOIL = (15.0, 0.25)
"""A boil is another one by more minutes than this, and by more than this share of the plan's."""
COLDEST_SAMPLE = -2.0
"""Colder wort or beer (°C) is ice, and no instrument stands in it."""
LONGEST_YEARS = 10
"""A batch is over long before; a reading later than this has its year wrong."""


def check_batch(batch: Batch, fields: Fields, problems: Problems) -> None:
    """File what cannot be (an error), and what is odd (a warning)."""
    _check_samples(batch, problems)
    _check_boil(batch, problems)
    _check_days(batch, fields, problems)
    _check_fall(batch, problems)
    _check_volumes(batch, problems)
    _check_last(batch, problems)


def _days(batch: Batch, fields: Fields) -> Iterator[tuple[str, str, Place]]:
    """Each day of the batch after its brewing, what it was, and where it stands."""
    measured = batch.measured
    for moment in measured.moments:
        yield moment.when.date().isoformat(), "a reading", moment.place
    if measured.dry_hopped:
        table = fields.table("measured")
        place = next((node.place for key, node in table.entries if key.value == "dry hopped"), None) if table else None
        yield measured.dry_hopped, "dry hops", place or batch.place
    if measured.packaged:
        yield measured.packaged.day, "packaging", measured.packaged.place
    ready = fields.text("ready")
    if ready and batch.ready:
        yield batch.ready, "the day it was ready", ready.place
    for tasting in batch.tastings:
        yield tasting.day, "a tasting", tasting.place


def _check_days(batch: Batch, fields: Fields, problems: Problems) -> None:
    packaged = batch.measured.packaged
    for day, what, place in _days(batch, fields):
        if day < batch.brewed:
            problems.error(place, f"{what} on {day}, before it was brewed", expected=f"{batch.brewed} or later")
        elif int(day[:4]) > int(batch.brewed[:4]) + LONGEST_YEARS:
            problems.error(place, f"{what} on {day}, {LONGEST_YEARS} years after it was brewed")
        elif packaged and what in ("a reading", "dry hops") and day > packaged.day:
            file = problems.error if what == "dry hops" else problems.warning
            file(place, f"{what} on {day}, after it was packaged on {packaged.day}")
        elif packaged and what == "the day it was ready" and day < packaged.day:
            problems.warning(place, f"ready on {day}, before it was packaged on {packaged.day}")
    log = batch.measured.log
    brewed = datetime.fromisoformat(batch.brewed) if batch.brewed else datetime.min
    if log and log.times[-1] < brewed:
        problems.error(log.place, f"{log.file} ends on {log.times[-1]:%Y-%m-%d}, before this was brewed")
    elif log and log.times[0].year > brewed.year + LONGEST_YEARS:
        problems.error(log.place, f"{log.file} begins in {log.times[0].year}")


def _check_samples(batch: Batch, problems: Problems) -> None:
    """A hydrometer in hot wort: what was read is worth little, and its sample may have been cooled without a word."""
    measured = batch.measured
    levels = [level.gravity for level in (measured.before_the_boil, measured.end_of_the_boil) if level]
    looks = [moment.gravity for moment in measured.moments]
    for reading in (measured.first_runnings, *levels, measured.original, *looks, measured.final):
        if reading is None or reading.sample is None or reading.shown.unit == "°Bx":
            continue
        if reading.sample.number < COLDEST_SAMPLE:
            what = f"{_said(reading)} was read in a sample at {reading.sample.number:.0f} °C, which is frozen"
            problems.warning(reading.place, what, expected="how warm the sample was as it was read")
        if reading.sample.number > HOTTEST_SAMPLE + AS_READ:
            problems.warning(
                reading.place,
                f"{_said(reading)} was read in a sample at {reading.sample.number:.0f} °C, and hot wort breaks glass",
                expected="how warm the sample was as it was read, or another reading once it is cool",
            )


def _check_boil(batch: Batch, problems: Problems) -> None:
    """A boil takes water out: there is less wort, and it is stronger. And it took as long as was planned."""
    measured, planned = batch.measured, batch.frozen.boil_min
    before, end, boiled = measured.before_the_boil, measured.end_of_the_boil, measured.boiled
    apart = abs(boiled.number - planned) if planned is not None and boiled is not None else 0.0
    if planned is not None and boiled is not None and apart > max(OTHER_BOIL[0], OTHER_BOIL[1] * planned):
        what = f"boiled for {boiled.number:.0f} min, and {planned:.0f} min were planned"
        problems.warning(boiled.place or batch.place, what, expected="the minutes from the first bubble to the last")
    if before is None or end is None:
        return
    if before.gravity and end.gravity and before.gravity.shown.unit == end.gravity.shown.unit:
        fall = before.gravity.shown.number - end.gravity.shown.number
        if fall > RISE[end.gravity.shown.unit] and _as_warm(before.gravity, end.gravity):
            what = f"the gravity falls from {_said(before.gravity)} to {_said(end.gravity)} in the boil"
            problems.warning(end.gravity.place, what, expected="a rise, unless water was added")
    if (
        before.volume is None
        or end.volume is None
        or "extracts" in dict(batch.frozen.sections)
        or _warmth(before) != _warmth(end)
    ):
        return
    if end.volume.number > POURED * before.volume.number:
        what = f"{end.volume.number:.3g} L at the end of a boil of {before.volume.number:.3g} L"
        problems.warning(end.place, what, expected="less, unless water was added")


def _warmth(level: Level) -> float | None:
    return level.warmth.number if level.warmth is not None else None


def _check_fall(batch: Batch, problems: Problems) -> None:
    """Beer does not gain extract by itself: a gravity that rises was misread, or something was stirred in."""
    measured = batch.measured
    readings = [measured.original, *(moment.gravity for moment in measured.moments), measured.final]
    for before, after in pairwise(reading for reading in readings if reading is not None):
        rise = after.shown.number - before.shown.number
        if after.shown.unit == before.shown.unit and rise > RISE[after.shown.unit] and _as_warm(before, after):
            problems.warning(
                after.place,
                f"the gravity rises from {_said(before)} to {_said(after)}",
                expected="a fall, unless something was added",
            )


def _check_last(batch: Batch, problems: Problems) -> None:
    """A final gravity that nobody can have read, by what was read on the day of packaging."""
    measured = batch.measured
    looks = [moment for moment in measured.moments if moment.gravity is not None]
    if measured.final is None or measured.packaged is None or not looks:
        return
    last, day = looks[-1].gravity, looks[-1].when.date().isoformat()
    if last is None or day < measured.packaged.day or last.shown.unit != measured.final.shown.unit:
        return
    fall = last.shown.number - measured.final.shown.number
    if fall > RISE[last.shown.unit] and _as_warm(last, measured.final):
        what = f"{_said(last)} was read on the day that it was packaged"
        problems.warning(measured.final.place, what, expected="that for the final gravity, or another day")


def _said(reading: Reading) -> str:
    return spoken(reading.shown.number, reading.shown.unit)


def _as_warm(one: Reading, other: Reading) -> bool:
    if one.sample is None or other.sample is None:
        return True
    return abs(one.sample.number - other.sample.number) <= AS_WARM


def _check_volumes(batch: Batch, problems: Problems) -> None:
    packaged, fermenter = batch.measured.packaged, batch.measured.into_the_fermenter
    planned = batch.frozen.plan.get("into-the-fermenter")
    if fermenter and planned and is_a_slip(fermenter, planned):
        what = f"{fermenter.number:.3g} L into the fermenter, and {planned.number:.3g} L were planned"
        problems.warning(fermenter.place or batch.place, what, expected="the volume, read again")
    if packaged is None or packaged.volume is None or fermenter is None:
        return
    if packaged.volume.number > ADDED_AT_PACKAGING * fermenter.number:
        problems.error(
            packaged.place,
            f"{packaged.volume.number:.3g} L packaged out of {fermenter.number:.3g} L",
            expected="no more than went into the fermenter",
        )
