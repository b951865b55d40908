"""A style on the frame of the balance chart: the ground that it covers, and the beers that are measured by it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from operator import itemgetter

from gristbook.charts import marks
from gristbook.charts.balance import StyleBox, ground, words_over
from gristbook.charts.balance_frame import PLOT, WORDS, draw_frame, lines_drawn, words_drawn
from gristbook.charts.caches import FrameCache
from gristbook.charts.frame import Frame, finished, kept_frame
from gristbook.charts.marks import INK, TEXT, Point
from gristbook.charts.placing import Area, Room, Spot

_POINT = 9.0
_NAME_ROOM = 300.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A beer: its name, original gravity (20/20 °C), bitterness (IBU), and its own colour."""

    name: str
    gravity: float
    bitterness: float
    colour: str


def style_chart(*, name: str, title: str, style: StyleBox, beers: Sequence[Mark], cache: FrameCache) -> str:
    """An SVG picture of a style's ground, bitterness (IBU) against original gravity, with beers marked on it.

    `name` comes before every id. A beer beyond the axes stands at their end; the words have its numbers. Raises
    `ValueError` for a name that cannot begin an id and a figure that is not finite.
    """
    if not all(math.isfinite(number) for beer in beers for number in (beer.gravity, beer.bitterness)):
        raise ValueError("a chart cannot show a beer without a gravity or a bitterness")
    frame = kept_frame(draw_frame, cache, words=WORDS[0])
    region = style.region(frame)
    return finished(
        frame.svg,
        name=name,
        title=title,
        desc=" ".join(_said(style, beers)),
        under=[ground(region)],
        over=[*_names(frame, region, beers), *(_point(frame, beer) for beer in beers)],
    )


def _at(frame: Frame, beer: Mark) -> Point:
    return frame.held(beer.gravity, beer.bitterness)


def _point(frame: Frame, beer: Mark) -> str:
    corners = marks.diamond(*_at(frame, beer), _POINT)
    return marks.shape(*corners, fill=beer.colour, stroke=INK, width=1.5)


def _names(frame: Frame, region: Area, beers: Sequence[Mark]) -> Iterator[str]:
    """Each beer's name beside its mark, where it covers least of what stands there already."""
    points = [Area(x, y, x, y).wider(_POINT + 3) for x, y in (_at(frame, beer) for beer in beers)]
    full: list[Area] = [*points]
    words = words_drawn(frame, WORDS[0])
    for beer in beers:
        label = marks.shortened(beer.name, _NAME_ROOM)
        room = Room(within=PLOT, full=[*full, *words], lined=lines_drawn(frame))
        x, y = _at(frame, beer)
        _, spot, area = min(room.losses(label, _spots(x, y), near=(x, y)), key=itemgetter(0))
        full.append(area)
        yield words_over(label, spot, region)


def _spots(x: float, y: float) -> Iterator[Spot]:
    """To the right and left of a mark, above and below it, and a line further off."""
    aside, low = _POINT + 8, y + 0.3 * TEXT
    for off in (0.0, -0.7 * TEXT, 0.7 * TEXT, -1.4 * TEXT, 1.4 * TEXT):
        yield Spot(x + aside, low + off)
        yield Spot(x - aside, low + off, "end")
    for off in (-_POINT - 0.4 * TEXT, _POINT + TEXT):
        yield Spot(x, y + off, "middle")


def _said(style: StyleBox, beers: Sequence[Mark]) -> Iterator[str]:
    """The picture in words."""
    yield "Bitterness in IBU against original gravity."
    yield style.said()
    for beer in beers:
        within = style.og_low <= beer.gravity <= style.og_high and style.ibu_low <= beer.bitterness <= style.ibu_high
        where = "in the box" if within else "outside the box"
        yield f"{beer.name}: original gravity {beer.gravity:.3f}, bitterness {beer.bitterness:.0f} IBU, {where}."
