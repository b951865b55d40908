"""The grist chart: each fermentable's share of the weight and of the extract."""

from collections.abc import Iterator, Sequence

from gristbook.charts import marks
from gristbook.charts.bars import RIGHT, ROWS, draw_frame
from gristbook.charts.caches import FrameCache
from gristbook.charts.frame import Frame, finished, kept_frame
from gristbook.charts.marks import ACCENT, INK, PAPER, SOFT, TEXT

# Label, share of the weight, share of the extract (both from 0 to 1), and what kind of fermentable it is.
Share = tuple[str, float, float, str]

_SOLID, _HOLLOW = 16.0, 9.0
# Where the two columns of figures end.
_WEIGHT, _EXTRACT = RIGHT - 140.0, RIGHT


def grist_chart(*, name: str, title: str, shares: Sequence[Share], cache: FrameCache, by: str = "by weight") -> str:
    """An SVG picture of a grist, a row an entry in the order given: a solid bar for its share of the weight and a
    thinner hollow one for its share of the extract.

    A share is label, share of the weight, share of the extract (from 0 to 1), kind; `name` comes before every id, and
    `by` says what is compared: weights, or extract as the grain that it stands for.
    Raises `ValueError` for no shares, a share that is not from 0 to 1, and a name that cannot begin an id.
    """
    if not shares:
        raise ValueError("a grist chart needs at least one share")
    for label, weight, extract, _ in shares:
        if not (0 <= weight <= 1.0001 and 0 <= extract <= 1.0001):
            raise ValueError(f"the shares of {label!r} must lie between 0 and 1: {weight}, {extract}")
    frame = kept_frame(draw_frame, cache, kind="grist", rows=len(shares), end=100, step=25, unit="%")
    rows = [part for row, share in enumerate(shares) for part in _row(frame, row, share)]
    said = [
        f"{label} ({kind}): {_percent(weight)} {by}, {_percent(extract)} of the extract"
        for label, weight, extract, kind in shares
    ]
    return finished(
        frame.svg,
        name=name,
        title=title,
        desc=f"Shares {by} and of the extract. {'; '.join(said)}.",
        over=[*_heading(by), *rows],
    )


def _heading(by: str) -> Iterator[str]:
    """The names of the two columns, each with a piece of its bar."""
    for words, end, hollow in ((by.removeprefix("by "), _WEIGHT, False), ("extract", _EXTRACT, True)):
        yield marks.words(words, end, ROWS["grist"].head - 14, anchor="end", fill=SOFT)
        yield _bar(end - marks.length(words) - 24, ROWS["grist"].head - 14 - 0.35 * TEXT, 20, hollow=hollow)


def _row(frame: Frame, row: int, share: Share) -> Iterator[str]:
    label, weight, extract, kind = share
    top = frame.y.at(row)
    baseline = top + TEXT
    room = _WEIGHT - 70 - frame.x.start
    label = marks.shortened(label, room)
    there_is_room = marks.length(f"{label}, {kind}") <= room
    yield marks.words(label, frame.x.start, baseline, then=kind if there_is_room else "")
    yield marks.words(_percent(weight), _WEIGHT, baseline, anchor="end")
    yield marks.words(_percent(extract), _EXTRACT, baseline, anchor="end", fill=SOFT)
    middle = top + ROWS["grist"].words + _SOLID / 2 + 2
    yield _bar(frame.x.start, middle, frame.x.at(weight * 100) - frame.x.start, hollow=False)
    middle += _SOLID / 2 + _HOLLOW / 2 + 3
    yield _bar(frame.x.start, middle, frame.x.at(extract * 100) - frame.x.start, hollow=True)


def _bar(left: float, middle: float, width: float, *, hollow: bool) -> str:
    height = _HOLLOW if hollow else _SOLID
    if hollow:
        return marks.box(left, middle - height / 2, width, height, fill=PAPER, stroke=INK, stroke_width=1.5)
    return marks.box(left, middle - height / 2, width, height, fill=ACCENT)


def _percent(share: float) -> str:
    return marks.rounded(share * 100, "%")
