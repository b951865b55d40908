"""A chart of curves: what follows from one thing that a brewer sets, with a band of doubt and bars in words."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gristbook.charts import marks
from gristbook.charts.frame import Scale, blank, finished
from gristbook.charts.marks import ACCENT, INK, PAPER, REGION, RULE, SOFT, TEXT, Point

_LEFT, _RIGHT, _TOP, _BOTTOM = 58.0, 622.0, 44.0, 320.0
_BAR = 46.0


@dataclass(frozen=True, slots=True)
class Axis:
    """What an axis is of, and the values that are marked on it, from its low to its high end."""

    label: str
    ticks: Sequence[float]


@dataclass(frozen=True, slots=True)
class Curve:
    """Points joined by a line, with words that end (or begin, ``after``) at one of them; ``read`` ones get a mark."""

    label: str
    points: Sequence[Point]
    at: Point
    after: bool = False
    read: Sequence[Point] = ()


@dataclass(frozen=True, slots=True)
class Ground:
    """A shaded area by its corners, with words that begin at a point."""

    label: str
    corners: Sequence[Point]
    at: Point


def curves_chart(
    *,
    name: str,
    title: str,
    x: Axis,
    y: Axis,
    curves: Sequence[Curve],
    grounds: Sequence[Ground] = (),
    spans: Sequence[tuple[float, float, str]] = (),
) -> str:
    """An SVG picture of curves over shaded grounds; `spans` are parts of the x axis named in words, below it.

    `name` comes before every id. Raises `ValueError` for an axis without two ticks, a number that is not finite, and a
    name that cannot begin an id.
    """
    points = [point for curve in curves for point in curve.points] + [p for g in grounds for p in g.corners]
    if len(x.ticks) < 2 or len(y.ticks) < 2 or not all(map(math.isfinite, (*x.ticks, *y.ticks, *sum(points, ())))):
        raise ValueError("a chart of curves has two ticks on each axis, and finite numbers")
    across = Scale(low=x.ticks[0], high=x.ticks[-1], start=_LEFT, end=_RIGHT)
    up = Scale(low=y.ticks[0], high=y.ticks[-1], start=_BOTTOM, end=_TOP)

    def place(point: Point) -> Point:
        return across.held(point[0]), up.held(point[1])

    drawn = [
        *(marks.shape(*map(place, ground.corners), fill=REGION, stroke=REGION, width=1) for ground in grounds),
        *_axes(across, up, x, y),
        *(part for curve in curves for part in _curve(curve, [*map(place, curve.points)], [*map(place, curve.read)])),
        *(marks.words(it.label, *place(it.at), fill=SOFT, halo=REGION) for it in grounds),
        *(
            marks.words(it.label, *place(it.at), anchor="start" if it.after else "end", halo=PAPER, weight="600")
            for it in curves
        ),
        *_spans(across, spans),
    ]
    height = _BOTTOM + 62 + (_BAR + 8) * len(spans)
    said = f"{y.label} against {x.label}. {' '.join(_said(curve) for curve in curves)}"
    said += "".join(f" Shaded: {ground.label}." for ground in grounds)
    said += "".join(f" From {low:g} to {high:g}: {words}." for low, high, words in spans)
    return finished(blank(kind="curves", height=height), name=name, title=title, desc=said, over=drawn)


def _axes(across: Scale, up: Scale, x: Axis, y: Axis) -> Iterator[str]:
    for tick in y.ticks:
        yield marks.line((_LEFT, up.at(tick)), (_RIGHT, up.at(tick)), stroke=RULE, width=1)
        yield marks.words(f"{tick:g}", _LEFT - 10, up.at(tick) + 0.35 * TEXT, anchor="end", fill=SOFT)
    for tick in x.ticks:
        yield marks.line((across.at(tick), _BOTTOM), (across.at(tick), _BOTTOM + 6), stroke=SOFT)
        yield marks.words(f"{tick:g}", across.at(tick), _BOTTOM + 6 + TEXT, anchor="middle", fill=SOFT)
    yield marks.line((_LEFT, _BOTTOM), (_RIGHT, _BOTTOM), stroke=SOFT)
    yield marks.words(y.label, 0, TEXT, fill=SOFT)
    yield marks.words(x.label, _RIGHT, _BOTTOM + 8 + 2.2 * TEXT, anchor="end", fill=SOFT)


def _curve(curve: Curve, points: Sequence[Point], read: Sequence[Point]) -> Iterator[str]:
    yield marks.line(*points, stroke=ACCENT, width=3)
    for x, y in read:
        yield marks.shape(*marks.diamond(x, y, 8), fill=INK, stroke=PAPER, width=1.5)


def _spans(across: Scale, spans: Sequence[tuple[float, float, str]]) -> Iterator[str]:
    """A bar a span, so wide as it reaches, with its words behind or before it."""
    for row, (low, high, words) in enumerate(spans):
        top = _BOTTOM + 62 + row * (_BAR + 8)
        left, right = across.held(low), across.held(high)
        yield marks.box(left, top + 26, right - left, 14, fill=ACCENT)
        yield marks.words(marks.shortened(words, _RIGHT - _LEFT), left, top + 20)


def _said(curve: Curve) -> str:
    (first_x, first_y), (last_x, last_y) = curve.points[0], curve.points[-1]
    return f"{curve.label}: from {first_y:.3g} at {first_x:g} to {last_y:.3g} at {last_x:g}."
