"""A chart's frame: axes, lines and words that many beers share, drawn once by matplotlib and kept as text.

A frame knows its two scales, so that a beer's marks can be set into it as plain SVG without matplotlib, which takes
half a second to load and thirty milliseconds to draw.
"""

import functools
import hashlib
import importlib
import inspect
import json
import re
from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass
from importlib.metadata import version
from typing import Self

from gristbook.charts.caches import FrameCache
from gristbook.charts.marks import WIDTH, Point, element
from gristbook.charts.placing import Area

# A low and a high.
Span = tuple[float, float]

# Where one beer's parts go in a frame's text. Nothing written can look like them: in SVG text `<` is escaped.
HEAD, UNDER, OVER = "<!--head-->", "<!--under-->", "<!--over-->"
# Where the chart's name goes, before every id. It is replaced before anything of the author's is set in.
NAME = "@name@"

# What a frame looks like is decided here beside the chart's own module: a change in any of them makes every key new.
_MODULES = ("frame", "drawing", "tidy", "marks", "placing")


@dataclass(frozen=True, slots=True)
class Scale:
    """A straight axis: the values at its two ends, and where on the picture these ends stand.

    >>> Scale(low=0, high=100, start=20, end=620).at(50)
    320.0
    """

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Where on the picture this value stands."""
        return self.start + (value - self.low) * (self.end - self.start) / (self.high - self.low)

    def held(self, value: float) -> float:
        """Where this value stands, or the end of the axis that it lies beyond."""
        return self.at(min(max(value, self.low), self.high))


@dataclass(frozen=True, slots=True)
class Frame:
    """The SVG of what a chart's beers share, with places for the rest, and the scales of its two axes."""

    svg: str
    x: Scale
    y: Scale

    def held(self, x: float, y: float) -> Point:
        """Where two values meet, held within the axes."""
        return self.x.held(x), self.y.held(y)

    def area(self, x: Span, y: Span) -> Area:
        """The box between two lows and two highs, held within the axes."""
        left, bottom = self.held(x[0], y[0])
        right, top = self.held(x[1], y[1])
        return Area(left, top, right, bottom)

    def to_text(self) -> str:
        """The frame as a cache keeps it."""
        return json.dumps(asdict(self), sort_keys=True)

    @classmethod
    def from_text(cls, text: str) -> Self | None:
        """The frame that a cache kept, or None if the text is damaged."""
        try:
            parts = json.loads(text)
            frame = cls(svg=parts["svg"], x=Scale(**parts["x"]), y=Scale(**parts["y"]))
            return frame if all(frame.svg.count(place) == 1 for place in (HEAD, UNDER, OVER)) else None
        except (ValueError, TypeError, KeyError, AttributeError):
            return None


def finished(svg: str, *, name: str, title: str, desc: str, under: Iterable[str] = (), over: Iterable[str] = ()) -> str:
    """A frame's SVG with one beer's marks set under and over what it draws, and words that say what it shows.

    `name` comes before every id, so that several charts can live on one page. Raises `ValueError` if it cannot.
    """
    if not re.fullmatch(r"[A-Za-z][A-Za-z0-9_-]*", name):
        raise ValueError(f"a chart's name must be a letter, then letters, digits, - or _: {name!r}")
    head = element("title", title, id=f"{name}-title") + element("desc", desc, id=f"{name}-desc")
    whole = svg.replace(NAME, name).replace(HEAD, head)
    return whole.replace(UNDER, "".join(under)).replace(OVER, "".join(over))


def blank(*, kind: str, height: float, drawn: str = "") -> str:
    """An empty frame's SVG. Its size is only a view box: the page decides how large it is."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="chart chart-{kind}" viewBox="0 0 {WIDTH:g} {height:g}"'
        f' role="img" aria-labelledby="{NAME}-title" aria-describedby="{NAME}-desc">'
        f"{HEAD}{UNDER}{drawn}{OVER}</svg>"
    )


def kept_frame(draw: Callable[..., Frame], cache: FrameCache, **data: float | str) -> Frame:
    """The frame that `draw(**data)` gives, from the cache if it was drawn before."""
    key = frame_key(draw, **data)
    kept = cache.get(key)
    frame = Frame.from_text(kept) if kept is not None else None
    if frame is None:
        frame = draw(**data)
        cache[key] = frame.to_text()
    return frame


def frame_key(draw: Callable[..., Frame], **data: float | str) -> str:
    """The key of a frame: the code that draws it, its data, and the version of matplotlib."""
    said = json.dumps(data, sort_keys=True, separators=(",", ":"), allow_nan=False)
    return hashlib.sha256("\0".join((_code(draw.__module__), draw.__qualname__, said)).encode()).hexdigest()


@functools.cache
def _code(module: str) -> str:
    """A hash of the sources that decide what a frame looks like, read once: the version without loading matplotlib."""
    sources = [
        inspect.getsource(importlib.import_module(f"gristbook.charts.{each}"))
        for each in (module.rpartition(".")[2], *_MODULES)
    ]
    return hashlib.sha256("\0".join((*sources, version("matplotlib"))).encode()).hexdigest()
