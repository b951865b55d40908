"""A row of glasses: what colour each of several malts gives the same beer."""

from collections.abc import Iterator, Sequence

from gristbook.charts import marks
from gristbook.charts.frame import blank, finished
from gristbook.charts.marks import SOFT, TEXT

_IN_A_ROW, _WIDE, _TALL, _LINES = 3, 200.0, 104.0, 2.6 * TEXT


def glasses_chart(*, name: str, title: str, glasses: Sequence[tuple[str, str, str]]) -> str:
    """An SVG picture of glasses, palest first: what is in each, a figure of it, its colour.

    `name` comes before every id. Raises `ValueError` for no glass and a name that cannot begin an id.
    """
    if not glasses:
        raise ValueError("a chart of glasses needs at least one")
    rows = -(-len(glasses) // _IN_A_ROW)
    drawn = [part for at, glass in enumerate(glasses) for part in _glass(at, *glass)]
    said = "; ".join(f"{label}, {figure}" for label, figure, _ in glasses)
    svg = blank(kind="glasses", height=rows * (_TALL + _LINES + 18))
    return finished(svg, name=name, title=title, desc=f"Glasses of beer, from pale to dark: {said}.", over=drawn)


def _glass(at: int, label: str, figure: str, colour: str) -> Iterator[str]:
    row, column = divmod(at, _IN_A_ROW)
    left, top = 20 + column * _WIDE, row * (_TALL + _LINES + 18)
    rim, foot, fill = (left, left + 92), (left + 12, left + 80), top + 22
    yield marks.shape(
        (rim[0] + 2, fill),
        (rim[1] - 2, fill),
        (foot[1], top + _TALL),
        (foot[0], top + _TALL),
        fill=colour,
        width=0,
    )
    yield marks.line((rim[0], top + 6), (foot[0], top + _TALL), (foot[1], top + _TALL), (rim[1], top + 6), stroke=SOFT)
    yield marks.words(marks.shortened(label, _WIDE + 20), left, top + _TALL + 1.2 * TEXT)
    yield marks.words(figure, left, top + _TALL + 2.3 * TEXT, fill=SOFT)
