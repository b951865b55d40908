"""The hops chart: what each addition brings, bitterness as a bar, flavour and aroma in words."""

import math
from collections.abc import Iterator, Sequence

from gristbook.charts import marks
from gristbook.charts.bars import RIGHT, ROWS, draw_frame
from gristbook.charts.caches import FrameCache
from gristbook.charts.frame import Frame, finished, kept_frame
from gristbook.charts.marks import ACCENT, INK, PAPER, SOFT, TEXT

# Label, when it goes in, bitterness (IBU) with its low and high, and what flavour and aroma it keeps, in words.
Addition = tuple[str, str, float, float, float, str]

_BAR, _CAP = 16.0, 7.0
# Where an axis may end, in tens, hundreds and so on, and into how many steps it is parted.
_AXES = {1: 5, 2: 4, 3: 3, 4: 4, 6: 3, 8: 4, 10: 4}


def hops_chart(*, name: str, title: str, additions: Sequence[Addition], cache: FrameCache) -> str:
    """An SVG picture of what each addition of hops brings, a row an addition in the order given.

    An addition is label, when in words, bitterness, low, high (IBU), and flavour and aroma kept in words, for which
    there are no figures. `name` comes before every id. Raises `ValueError` for no additions, bitterness below zero or
    not finite, and a name that cannot begin an id.
    """
    if not additions:
        raise ValueError("a hops chart needs at least one addition")
    for label, _, *figures, _ in additions:
        if not all(math.isfinite(ibu) and ibu >= 0 for ibu in figures):
            raise ValueError(f"the bitterness of {label!r} must be finite and not below zero: {figures}")
    end, step = _axis(max(max(ibu, low, high) for _, _, ibu, low, high, _ in additions))
    frame = kept_frame(draw_frame, cache, kind="hops", rows=len(additions), end=end, step=step, unit="IBU")
    rows = [part for row, addition in enumerate(additions) for part in _row(frame, row, addition)]
    said = "; ".join(_said(addition) for addition in additions)
    return finished(frame.svg, name=name, title=title, desc=f"What each addition of hops brings. {said}.", over=rows)


def _axis(most: float) -> tuple[float, float]:
    """The end of the axis, a round figure at or above the most bitterness, so that few frames serve many beers, and
    the step of its marks.
    """
    size = 10.0 ** math.floor(math.log10(max(most, 10)))
    return next((end * size, end * size / steps) for end, steps in _AXES.items() if end * size >= most)


def _row(frame: Frame, row: int, addition: Addition) -> Iterator[str]:
    label, when, ibu, low, high, kept = addition
    left, top = frame.x.start, frame.y.at(row)
    room = RIGHT - 90 - left
    # When it goes in tells two additions of one hop apart: where room is short, the name gives way.
    label = marks.shortened(label, room - marks.length(f", {when}"))
    yield marks.words(label, left, top + TEXT, then=when)
    yield marks.words(marks.rounded(ibu, "IBU"), RIGHT, top + TEXT, anchor="end")
    yield marks.words(marks.shortened(kept, RIGHT - left), left, top + 2.2 * TEXT, fill=SOFT)
    middle = top + ROWS["hops"].words + _BAR / 2 + 4
    if ibu == 0 and high == 0:
        yield marks.shape(*marks.diamond(left, middle, _CAP), fill=PAPER, stroke=INK, width=1.5)
        return
    yield marks.box(left, middle - _BAR / 2, frame.x.at(ibu) - left, _BAR, fill=ACCENT)
    # A strip of paper keeps the range readable where it lies on the bar.
    yield marks.line((frame.x.at(low), middle), (frame.x.at(high), middle), stroke=PAPER, width=5)
    yield marks.line((frame.x.at(low), middle), (frame.x.at(high), middle))
    for end in (low, high):
        yield marks.line((frame.x.at(end), middle - _CAP), (frame.x.at(end), middle + _CAP))


def _said(addition: Addition) -> str:
    label, when, ibu, low, high, kept = addition
    bitterness = f"{marks.rounded(ibu, 'IBU')}, likely {low:.0f} to {high:.0f}" if ibu or high else "no bitterness"
    return ", ".join(part for part in (label, when, bitterness, kept) if part)
