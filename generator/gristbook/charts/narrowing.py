"""The chart of an estimate that narrows: what was taken for granted, and what each brew made of it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gristbook.charts import marks
from gristbook.charts.bars import LEFT, RIGHT, ROWS, draw_frame
from gristbook.charts.caches import FrameCache
from gristbook.charts.frame import Frame, finished, kept_frame
from gristbook.charts.marks import ACCENT, INK, PAPER, TEXT

_BAR, _POINT = 7.0, 9.0
_STEPS = (1.0, 2.0, 5.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """An estimate, with the low and high that the next brew should fall between nine times in ten.

    `reading` is what the brew of this stage showed; one that is set `aside` moved nothing.
    """

    label: str
    middle: float
    low: float
    high: float
    reading: float | None = None
    aside: bool = False


def narrowing_chart(*, name: str, title: str, unit: str, stages: Sequence[Stage], cache: FrameCache) -> str:
    """An SVG picture of an estimate, a row a stage in the order given, from the setting to the last brew.

    `name` comes before every id. Raises `ValueError` for no stages, a number that is not finite, and a name that cannot
    begin an id.
    """
    numbers = [n for s in stages for n in (s.low, s.middle, s.high, s.reading) if n is not None]
    if not stages or not all(map(math.isfinite, numbers)):
        raise ValueError("a chart of an estimate has stages, and finite numbers")
    low, high, step = _axis(min(numbers), max(numbers))
    rows, ends = len(stages), {"start": low, "end": high}
    frame = kept_frame(draw_frame, cache, kind="narrowing", rows=rows, **ends, step=step, unit=unit)
    drawn = [part for row, stage in enumerate(stages) for part in _row(frame, row, stage)]
    said = " ".join(_said(stage, unit) for stage in stages)
    return finished(frame.svg, name=name, title=title, desc=f"How the estimate narrows. {said}", over=drawn)


def _axis(low: float, high: float) -> tuple[float, float, float]:
    """Round ends that hold everything, and four to eight steps between them."""
    room = max(high - low, 1e-6 * max(abs(high), 1e-6))
    size = 10.0 ** math.floor(math.log10(room / 4))
    step = next((each * size for each in _STEPS if room / (each * size) <= 6), 10 * size)
    digits = max(0, 2 - math.floor(math.log10(step)))
    return (
        round(math.floor(low / step) * step, digits),
        round(math.ceil(high / step) * step, digits),
        round(step, digits),
    )


def _row(frame: Frame, row: int, stage: Stage) -> Iterator[str]:
    top = frame.y.at(row)
    middle = top + 0.75 * ROWS["narrowing"].height
    then = "set aside" if stage.aside else ""
    room = RIGHT - LEFT - marks.length(f", {then}" if then else "")
    yield marks.words(marks.shortened(stage.label, room), LEFT, top + 0.9 * TEXT, then=then)
    low, mid, high = (frame.x.at(end) for end in (stage.low, stage.middle, stage.high))
    yield marks.line((low, middle), (high, middle), stroke=ACCENT, width=_BAR)
    yield marks.line((mid, middle - 12), (mid, middle + 12), stroke=INK, width=2.5)
    if stage.reading is not None:
        point = marks.diamond(frame.x.at(stage.reading), middle, _POINT)
        yield marks.shape(*point, fill=PAPER if stage.aside else INK, stroke=INK if stage.aside else PAPER, width=1.5)


def _said(stage: Stage, unit: str) -> str:
    read = "" if stage.reading is None else f" It showed {stage.reading:.3g} {unit}{', set aside' * stage.aside}."
    return f"{stage.label}: {stage.middle:.3g} {unit}, likely {stage.low:.3g} to {stage.high:.3g}.{read}"
