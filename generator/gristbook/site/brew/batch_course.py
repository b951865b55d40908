"""How a batch fermented: its chart, the looks at it, and other published corrections of its readings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from math import isnan

from markupsafe import Markup

from gristbook.charts.caches import FrameCache
from gristbook.charts.days import Planned, Run, days_chart
from gristbook.model.figures import words_of
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount, amount_of
from gristbook.site.beer.pictures import Picture
from gristbook.site.brew.batch_words import compared
from gristbook.site.dates import Day, day, moment
from gristbook.site.figures import Sentence
from gristbook.targets.batches.results import BatchFigures, Corrected

TABLE, TABLE_NAME = "table-looks", "The looks at it"

DONE = {"dry hopping": "dry hops", "packaging": "packaged"}
"""What is done to a beer while it ferments, as a chart calls it."""


@dataclass(frozen=True, slots=True)
class Look:
    """A look at the beer: when, its gravity as corrected and, where that prints otherwise, as read; its temperature.

    ``after`` so many days, whole ones where nobody wrote the hour down; `None` on the day of the brew.
    """

    when: Day
    after: Amount | None
    gravity: Value | None
    as_read: Value | None
    temperature: Value | None


@dataclass(frozen=True, slots=True)
class Other:
    """A reading that others would correct otherwise."""

    what: str
    when: Day
    reading: Corrected


@dataclass(frozen=True, slots=True)
class CourseView:
    """The fermentation: whether it was over, the charts, every look, and other corrections."""

    stable: Sentence
    pictures: tuple[Picture, ...]
    looks: tuple[Look, ...]
    others: tuple[Other, ...]
    log: str


def course_view(figures: BatchFigures, frames: FrameCache) -> CourseView | None:
    """How it fermented; nothing where nobody looked."""
    course, log = figures.course, figures.batch.measured.log
    looks = tuple(_looks(figures))
    if not looks and course.curve is None:
        return None
    return CourseView(
        course.stability.words if course.moments or log else (),
        tuple(_pictures(figures, frames)),
        looks,
        tuple(_others(figures)),
        log.file if log else "",
    )


def _looks(figures: BatchFigures) -> Iterator[Look]:
    if figures.original is not None:
        pitched = compared(figures, "temperature-at-pitching")
        yield _look(day(figures.batch.brewed), 0.0, figures.original, pitched.measured if pitched else None)
    for it in figures.course.moments:
        day_only = (it.when.hour, it.when.minute) == (12, 0)
        yield _look(moment(it.when), int(it.days) if day_only else it.days, it.reading, it.temperature)


def _look(when: Day, days: float, reading: Corrected | None, warmth: Value | None) -> Look:
    after = amount_of(days, "d") if days else None
    if reading is None:
        return Look(when, after, None, None, warmth)
    differs = amount(reading.shown) != amount(reading.gravity)
    return Look(when, after, reading.gravity, reading.shown if differs else None, warmth)


def _others(figures: BatchFigures) -> Iterator[Other]:
    if figures.original is not None and figures.original.others:
        yield Other("Original gravity", day(figures.batch.brewed), figures.original)
    for it in figures.course.moments:
        if it.reading is not None and it.reading.others:
            yield Other("Gravity", moment(it.when), it.reading)


def gravity_run(figures: BatchFigures, label: str) -> Run | None:
    """The gravities of a batch over its days, from the original one on; nothing where they say nothing of a course."""
    curve = figures.course.curve
    first = [(0.0, figures.original.gravity.number)] if figures.original is not None else []
    looks = [(it.days, it.reading.gravity.number) for it in figures.course.moments if it.reading is not None]
    return _run(label, first + looks, (curve.days, curve.gravities) if curve is not None else ((), ()))


def _temperature_run(figures: BatchFigures) -> Run | None:
    curve, pitched = figures.course.curve, figures.batch.measured.pitched_at
    first = [(0.0, pitched.number)] if pitched is not None else []
    looks = [(it.days, it.temperature.number) for it in figures.course.moments if it.temperature is not None]
    return _run("Readings", first + looks, (curve.days, curve.temperatures) if curve is not None else ((), ()))


def _run(label: str, marks: list[tuple[float, float]], log: tuple[Sequence[float], Sequence[float]]) -> Run | None:
    curve = tuple(zip(*log, strict=True))
    written = any(not isnan(number) for _, number in curve)
    return Run(label=label, marks=marks, curve=curve if written else ()) if len(marks) > 1 or written else None


def planned_gravities(figures: BatchFigures) -> list[Planned]:
    """Where nine brews in ten were planned to begin and to end."""
    plan = figures.batch.frozen.plan
    found = [(words_of(figure), plan[figure]) for figure in ("original-gravity", "final-gravity") if figure in plan]
    return [Planned(label=f"{name} as planned", low=it.low, high=it.high) for name, it in found if it.unit == "SG"]


def _pictures(figures: BatchFigures, frames: FrameCache) -> Iterator[Picture]:
    """Gravity and temperature by the day."""
    moments, gravities, warmths = _moments(figures), gravity_run(figures, "Readings"), _temperature_run(figures)
    if gravities is not None:
        svg = days_chart(
            name="gravity-chart",
            title="Gravity by the day",
            measure="gravity",
            runs=[gravities],
            moments=moments,
            planned=planned_gravities(figures),
            cache=frames,
        )
        caption = (
            "Each mark is a reading, put right for its temperature; shaded is where it was planned to begin and to end."
        )
        if gravities.curve:
            caption += " The line is what the instrument in the fermenter wrote, as it wrote it."
        yield Picture(Markup(svg), caption, TABLE, TABLE_NAME)
    if warmths is not None:
        svg = days_chart(
            name="temperature-chart",
            title="Temperature by the day",
            measure="temperature",
            runs=[warmths],
            moments=moments,
            cache=frames,
        )
        yield Picture(Markup(svg), "How warm the beer was.", TABLE, TABLE_NAME)


def _moments(figures: BatchFigures) -> list[tuple[str, float]]:
    """What was done to the beer, by the day after brewing; at noon, since nobody writes the hour down."""
    start = datetime.fromisoformat(figures.batch.brewed)
    return [
        (DONE[it.what], (datetime.fromisoformat(it.day) - start).days + 0.5)
        for it in figures.occasions
        if it.what in DONE and it.day >= figures.batch.brewed
    ]
