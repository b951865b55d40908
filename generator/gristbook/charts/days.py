"""The chart over days: how gravity, or temperature, of one brew or of several went from day to day."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from gristbook.charts import marks
from gristbook.charts.caches import FrameCache
from gristbook.charts.days_frame import LEFT, RIGHT, draw_frame, fahrenheit
from gristbook.charts.frame import Frame, finished, kept_frame
from gristbook.charts.marks import ACCENT, INK, PAPER, REGION, SOFT, TEXT, Point

Measure = Literal["gravity", "temperature"]
Reading = tuple[float, float]
"""Days after the start of the brewing day, and what was read: SG or °C."""

MOST_RUNS = 4
"""So many brews can be told apart on one picture, by the shapes of their marks."""

_HEAD, _LINE, _POINT = 44.0, 30.0, 8.0
_DAYS = ((7, 1), (10, 2), (14, 2), (21, 3), (28, 7), (42, 7), (56, 14), (84, 14), (112, 28), (168, 28), (364, 91))
"""Where the axis of days may end, and the steps on it."""
_DASHES = (None, "12 6", "3 5", "12 5 3 5")


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A brew's readings by the day: `marks` are single looks, `curve` what an instrument wrote; NaN interrupts it."""

    label: str
    marks: Sequence[Reading]
    curve: Sequence[Reading] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """What was planned: where nine brews in ten should be, as a shaded band that words beside it explain."""

    label: str
    low: float
    high: float


def days_chart(
    *,
    name: str,
    title: str,
    measure: Measure,
    runs: Sequence[Run],
    moments: Sequence[tuple[str, float]] = (),
    planned: Sequence[Planned] = (),
    cache: FrameCache,
) -> str:
    """An SVG picture of readings over days; `moments` are things that happened, each with its day.

    `name` comes before every id. Raises `ValueError` for no readings, more than `MOST_RUNS` runs, readings that are not
    finite (but for gaps in a curve), and a name that cannot begin an id.
    """
    points = [point for run in runs for point in (*run.marks, *_solid(run.curve))]
    if not points or len(runs) > MOST_RUNS:
        raise ValueError(f"a chart over days has readings, of {MOST_RUNS} brews at most")
    if not all(math.isfinite(number) for point in points for number in point):
        raise ValueError("a chart cannot show a reading that is no number")
    last = max((*(day for day, _ in points), *(day for _, day in moments)))
    end, step = next(((float(e), float(s)) for e, s in _DAYS if e >= last), _long(last))
    low, high, rise = _axis(measure, [y for _, y in points] + [y for p in planned for y in (p.low, p.high)])
    above = len(moments) + (len(runs) if len(runs) > 1 else 0)
    frame = kept_frame(
        draw_frame,
        cache,
        measure=measure,
        head=_HEAD + _LINE * above,
        days=end,
        day_step=step,
        low=low,
        high=high,
        step=rise,
    )
    return finished(
        frame.svg,
        name=name,
        title=title,
        desc=" ".join(_said(measure, runs, moments, planned)),
        under=[_band(frame, band) for band in planned],
        over=[
            *_happened(frame, moments),
            *(part for count, run in enumerate(runs) for part in _run(frame, count, run)),
            *(_key(runs, len(moments)) if len(runs) > 1 else ()),
        ],
    )


def _solid(curve: Sequence[Reading]) -> list[Reading]:
    return [point for point in curve if not math.isnan(point[1])]


def _long(last: float) -> tuple[float, float]:
    """An axis of a year and more."""
    years = math.ceil(last / 364)
    return 364.0 * years, 182.0 * years


def _axis(measure: Measure, readings: Sequence[float]) -> tuple[float, float, float]:
    """Round ends that hold all readings, so that few frames serve many brews, and the step of the marks."""
    size = 0.010 if measure == "gravity" else 5.0
    low, high = math.floor(min(readings) / size + 1e-9), math.ceil(max(readings) / size - 1e-9)
    if measure == "gravity":
        low = min(low, 100)
    high = max(high, low + 2)
    step = next(each for each in (1, 2, 5, 10, 20, 50, 100) if (high - low) / each <= 7)
    high = low + math.ceil((high - low) / step) * step
    return round(low * size, 3), round(high * size, 3), round(step * size, 3)


def _band(frame: Frame, band: Planned) -> str:
    area = frame.area((frame.x.low, frame.x.high), (band.low, band.high))
    return marks.box(area.left, area.top, area.width, max(area.height, 1.5), fill=REGION)


def _happened(frame: Frame, moments: Sequence[tuple[str, float]]) -> Iterator[str]:
    """A line down from the words of each moment, which stand in rows above the axes."""
    for row, (what, day) in enumerate(moments):
        x, y = frame.x.held(day), TEXT + row * _LINE
        yield marks.line((x, y + 6), (x, frame.y.start), stroke=SOFT, width=1.0)
        end = x + marks.length(what) > RIGHT
        yield marks.words(what, x - 6 if end else x + 6, y, anchor="end" if end else "start", fill=SOFT)


def _run(frame: Frame, count: int, run: Run) -> Iterator[str]:
    """A curve where an instrument wrote one, else the looks joined up; and a mark for each look."""
    if _solid(run.curve):
        for solid, points in groupby(run.curve, key=lambda point: not math.isnan(point[1])):
            path = [frame.held(*point) for point in points]
            if solid and len(path) > 1:
                yield marks.line(*path, stroke=ACCENT)
    elif len(run.marks) > 1:
        yield _line(count, *(frame.held(*point) for point in run.marks))
    yield from (_mark(count, *frame.held(*point)) for point in run.marks)


def _line(count: int, *path: Point) -> str:
    return marks.line(*path, stroke=ACCENT, dashes=_DASHES[count])


def _mark(count: int, x: float, y: float) -> str:
    """A diamond, a square, or a triangle that stands or hangs: brews differ by shape, not by colour."""
    r = _POINT
    corners = (
        marks.diamond(x, y, r),
        ((x - r + 1, y - r + 1), (x + r - 1, y - r + 1), (x + r - 1, y + r - 1), (x - r + 1, y + r - 1)),
        ((x, y - r), (x + r, y + r - 1), (x - r, y + r - 1)),
        ((x, y + r), (x + r, y - r + 1), (x - r, y - r + 1)),
    )[count]
    return marks.shape(*corners, fill=INK, stroke=PAPER, width=1.5)


def _key(runs: Sequence[Run], rows_above: int) -> Iterator[str]:
    """Which mark is which brew's."""
    for count, run in enumerate(runs):
        y = TEXT + (rows_above + count) * _LINE
        yield _line(count, (LEFT, y - 0.35 * TEXT), (LEFT + 44, y - 0.35 * TEXT))
        yield _mark(count, LEFT + 22, y - 0.35 * TEXT)
        yield marks.words(marks.shortened(run.label, RIGHT - LEFT - 56), LEFT + 56, y)


def _said(
    measure: Measure, runs: Sequence[Run], moments: Sequence[tuple[str, float]], planned: Sequence[Planned]
) -> Iterator[str]:
    """The picture in words."""
    yield f"{'Gravity' if measure == 'gravity' else 'Temperature of the beer'} by the days since it was brewed."
    for run in runs:
        if run.marks:
            yield f"{run.label}: {', then '.join(_on(measure, point) for point in run.marks)}."
        if solid := _solid(run.curve):
            low, high = (_reading(measure, end(y for _, y in solid)) for end in (min, max))
            yield f"The curve that an instrument wrote runs between {low} and {high}."
    for what, day in moments:
        yield f"Day {day:.0f}: {what}."
    for band in planned:
        yield f"{band.label}: {_reading(measure, band.low)} to {_reading(measure, band.high)}."


def _on(measure: Measure, point: Reading) -> str:
    return f"{_reading(measure, point[1])} on day {point[0]:.1f}"


def _reading(measure: Measure, number: float) -> str:
    return f"{number:.3f}" if measure == "gravity" else f"{number:.1f} °C ({fahrenheit(number):.0f} °F)"
