"""How a batch fermented: its chart, the looks at it, and other published corrections of its readings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from math import isnan

from markupsafe import Markup

from gristbook.charts import FrameCache, Planned, Run, days_chart
from gristbook.model.figures import words_of
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount_of
from gristbook.site.batch_words import compared
from gristbook.site.batches import BrewedBatch
from gristbook.site.dates import Day, day, moment
from gristbook.site.figures import Figure, Sentence, Shown
from gristbook.site.pictures import Picture
from gristbook.site.tables import model_name
from gristbook.targets.batches.results import BatchFigures, Corrected

TABLE, TABLE_NAME = "table-looks", "The looks at it"


@dataclass(frozen=True, slots=True)
class Look:
    """A look at the beer: when, its gravity as corrected and, where that prints otherwise, as read; its temperature.

    ``after`` so many days, whole ones where nobody wrote the hour down; `None` on the day of the brew.
    """

    when: Day
    after: Amount | None
    gravity: Figure | None
    as_read: Figure | None
    temperature: Figure | None


@dataclass(frozen=True, slots=True)
class Others:
    """What other published corrections make of one reading, by author and year."""

    what: str
    when: Day
    used: Figure
    rows: tuple[tuple[str, Figure], ...]


@dataclass(frozen=True, slots=True)
class CourseView:
    """The fermentation: whether it was over, the charts, every look, and other corrections."""

    stable: Sentence
    pictures: tuple[Picture, ...]
    looks: tuple[Look, ...]
    others: tuple[Others, ...]
    log: str


def course_view(brewed: BrewedBatch, shown: Shown, cache: FrameCache) -> CourseView | None:
    """How it fermented; nothing where nobody looked."""
    figures, course = brewed.figures, brewed.figures.course
    looks = tuple(_looks(figures, shown))
    log = figures.batch.measured.log
    if not looks and course.curve is None:
        return None
    pictures = (_gravity(brewed, cache), _temperature(brewed, cache))
    return CourseView(
        shown.say(*course.stability.words) if course.moments or log else (),
        tuple(picture for picture in pictures if picture is not None),
        looks,
        tuple(_others(figures, shown)),
        log.file if log else "",
    )


def _looks(figures: BatchFigures, shown: Shown) -> Iterator[Look]:
    if figures.original is not None:
        pitched = compared(figures, "temperature-at-pitching")
        warmth = pitched.measured if pitched is not None else None
        yield _look(day(figures.batch.brewed), 0.0, figures.original, warmth, shown)
    for it in figures.course.moments:
        day_only = (it.when.hour, it.when.minute) == (12, 0)
        yield _look(moment(it.when), int(it.days) if day_only else it.days, it.reading, it.temperature, shown)


def _look(when: Day, days: float, reading: Corrected | None, warmth: Value | None, shown: Shown) -> Look:
    gravity = shown(reading.gravity) if reading is not None else None
    as_read = shown(reading.shown) if reading is not None else None
    return Look(
        when,
        amount_of(days, "d") if days else None,
        gravity,
        as_read if as_read is not None and gravity is not None and as_read.text != gravity.text else None,
        shown(warmth) if warmth is not None else None,
    )


def _others(figures: BatchFigures, shown: Shown) -> Iterator[Others]:
    read: list[tuple[str, Day, Corrected | None]] = [
        ("Original gravity", day(figures.batch.brewed), figures.original),
        *(("Gravity", moment(it.when), it.reading) for it in figures.course.moments),
    ]
    for what, when, reading in read:
        if reading is not None and reading.others:
            rows = tuple((model_name(name), shown(value)) for name, value in reading.others)
            yield Others(what, when, shown(reading.gravity), rows)


def gravity_run(brewed: BrewedBatch, label: str) -> Run | None:
    """The gravities of a batch over its days, from the original one on; nothing where they say nothing of a course."""
    figures, curve = brewed.figures, brewed.figures.course.curve
    looks = [(it.days, it.reading.gravity.number) for it in figures.course.moments if it.reading is not None]
    if figures.original is not None:
        looks.insert(0, (0.0, figures.original.gravity.number))
    log = tuple(zip(curve.days, curve.gravities, strict=True)) if curve is not None else ()
    written = [point for point in log if not isnan(point[1])]
    return Run(label=label, marks=looks, curve=log if written else ()) if len(looks) > 1 or written else None


def _gravity(brewed: BrewedBatch, cache: FrameCache) -> Picture | None:
    run = gravity_run(brewed, "Readings")
    if run is None:
        return None
    svg = days_chart(
        name="gravity-chart",
        title="Gravity by the day",
        measure="gravity",
        runs=[run],
        moments=_moments(brewed.figures),
        planned=planned_gravities(brewed.figures),
        cache=cache,
    )
    caption = (
        "Each mark is a reading, put right for its temperature; shaded is where it was planned to begin and to end."
    )
    if run.curve:
        caption += " The line is what the instrument in the fermenter wrote, as it wrote it."
    return Picture(Markup(svg), caption, TABLE, TABLE_NAME)


def planned_gravities(figures: BatchFigures) -> list[Planned]:
    """Where nine brews in ten were planned to begin and to end."""
    plan = figures.batch.frozen.plan
    found = [(words_of(figure), plan[figure]) for figure in ("original-gravity", "final-gravity") if figure in plan]
    return [Planned(label=f"{name} as planned", low=it.low, high=it.high) for name, it in found if it.unit == "SG"]


def _temperature(brewed: BrewedBatch, cache: FrameCache) -> Picture | None:
    figures, curve = brewed.figures, brewed.figures.course.curve
    pitched = figures.batch.measured.pitched_at
    marks = [(0.0, pitched.number)] if pitched is not None else []
    marks += [(it.days, it.temperature.number) for it in figures.course.moments if it.temperature is not None]
    log = tuple(zip(curve.days, curve.temperatures, strict=True)) if curve is not None else ()
    written = [point for point in log if not isnan(point[1])]
    if len(marks) < 2 and not written:
        return None
    svg = days_chart(
        name="temperature-chart",
        title="Temperature by the day",
        measure="temperature",
        runs=[Run(label="Readings", marks=marks, curve=log if written else ())],
        moments=_moments(figures),
        cache=cache,
    )
    caption = "How warm the beer was."
    return Picture(Markup(svg), caption, TABLE, TABLE_NAME)


def _moments(figures: BatchFigures) -> list[tuple[str, float]]:
    """What was done to the beer, by the day after brewing; at noon, since nobody writes the hour down."""
    start = datetime.fromisoformat(figures.batch.brewed)
    words = {"dry hopping": "dry hops", "packaging": "packaged"}
    return [
        (words[it.what], (datetime.fromisoformat(it.day) - start).days + 0.5)
        for it in figures.occasions
        if it.what in words and it.day >= figures.batch.brewed
    ]
