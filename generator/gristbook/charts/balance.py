"""The balance chart: where a beer stands between malt and hops, bitterness against original gravity."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from operator import itemgetter

from gristbook.charts import marks
from gristbook.charts.balance_frame import BALANCE, HEIGHT, PLOT, WORDS, draw_frame, lines_drawn, words_drawn
from gristbook.charts.caches import FrameCache
from gristbook.charts.frame import Frame, Scale, Span, blank, finished, kept_frame
from gristbook.charts.marks import PAPER, REGION, RULE, TEXT, Point, element
from gristbook.charts.placing import Area, Room, Spot, best_pair

# A value, and the low and high that nine batches in ten fall between.
Ranged = tuple[float, float, float]

_CAP = 7.0
_POINT = 9.0
# A style's name is given in full in the description.
_NAME_ROOM = 330.0
# What words do that cross two or three lines or stand a little off: no reason to move the words along the lines.
_LITTLE_HARM = 1500.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StyleBox:
    """A style's ranges of original gravity (20/20 °C) and bitterness (IBU)."""

    name: str
    og_low: float
    og_high: float
    ibu_low: float
    ibu_high: float

    def region(self, frame: Frame) -> Area:
        """The ground that the style covers, held within the axes."""
        return frame.area((self.og_low, self.og_high), (self.ibu_low, self.ibu_high))

    def said(self) -> str:
        """The ground in words."""
        return (
            f"The shaded box is {self.name}: original gravity {self.og_low:.3f} to {self.og_high:.3f},"
            f" bitterness {self.ibu_low:.0f} to {self.ibu_high:.0f} IBU."
        )


@dataclass(frozen=True, slots=True)
class _Beer:
    """A beer on a frame, its gravity and its bitterness held within the axes."""

    frame: Frame
    gravity: Ranged
    bitterness: Ranged

    @property
    def point(self) -> Point:
        """Where its cross meets."""
        return self.frame.held(self.gravity[0], self.bitterness[0])

    @property
    def reach(self) -> Area:
        """The box that its cross of ranges reaches across."""
        return self.frame.area(_ends(self.gravity), _ends(self.bitterness))

    @property
    def beyond(self) -> tuple[int, int]:
        """To which side its point lies beyond each axis."""
        return _beyond(self.frame.x, self.gravity[0]), _beyond(self.frame.y, self.bitterness[0])


@dataclass(frozen=True, slots=True)
class _Layout:
    """What is drawn under and over the frame besides the point, and how much of it covers something else."""

    words: str
    harm: float
    under: list[str]
    over: list[str]


def balance_chart(
    *, name: str, title: str, gravity: Ranged, bitterness: Ranged, style: StyleBox | None, cache: FrameCache
) -> str:
    """An SVG picture of bitterness (IBU) against original gravity (20/20 °C), with lines of equal bitterness per point.

    `gravity` and `bitterness` are value, low and high; `name` comes before every id. What lies beyond the axes stands
    at their end with an arrow and is said in the description. Raises `ValueError` for a name that cannot begin an id
    and a figure that is not finite.
    """
    if not all(map(math.isfinite, (*gravity, *bitterness))):
        raise ValueError(f"a chart cannot show gravity {gravity} and bitterness {bitterness}")
    frame = kept_frame(draw_frame, cache, words=WORDS[0])
    beer = _Beer(frame, gravity, bitterness)
    layout = _layout(beer, WORDS[0], style)
    if layout.harm > _LITTLE_HARM:
        layout = min(layout, *(_layout(beer, words, style) for words in WORDS[1:]), key=lambda each: each.harm)
        frame = kept_frame(draw_frame, cache, words=layout.words)
    return finished(
        frame.svg,
        name=name,
        title=title,
        desc=_said(beer, style),
        under=layout.under,
        over=[*layout.over, *_cross(beer), _point(beer)],
    )


def dots(*, title: str, beers: Iterable[tuple[float, float]], cache: FrameCache) -> str:
    """A picture of gravities and bitternesses as faint dots, to lie under any chart on the same frame.

    A file of its own, which takes no colour from a page: a grey that shows on light and dark paper.
    """
    frame = kept_frame(draw_frame, cache, words=WORDS[0])
    at = sorted({frame.held(*beer) for beer in beers})
    drawn = [element("circle", cx=x, cy=y, r=6.0, fill="#888", fill_opacity=0.45) for x, y in at]
    return finished(blank(kind="dots", height=HEIGHT), name="dots", title=title, desc="", over=drawn)


def _ends(ranged: Ranged) -> Span:
    return min(ranged), max(ranged)


def _beyond(scale: Scale, value: float) -> int:
    """-1 below the axis, 1 above it, 0 on it."""
    return (value > scale.high) - (value < scale.low)


def _cross(beer: _Beer) -> list[str]:
    """The two ranges as thin lines, capped where they end and not where the axes cut them off."""
    box, (x, y) = beer.reach, beer.point
    drawn = [marks.line((box.left, y), (box.right, y)), marks.line((x, box.top), (x, box.bottom))]
    for end, at in zip(_ends(beer.gravity), (box.left, box.right), strict=True):
        if not _beyond(beer.frame.x, end):
            drawn.append(marks.line((at, y - _CAP), (at, y + _CAP)))
    for end, at in zip(_ends(beer.bitterness), (box.bottom, box.top), strict=True):
        if not _beyond(beer.frame.y, end):
            drawn.append(marks.line((x - _CAP, at), (x + _CAP, at)))
    return drawn


def _cross_areas(beer: _Beer) -> list[Area]:
    """The room that the point and its cross take."""
    box, (x, y) = beer.reach, beer.point
    across, upright = Area(box.left, y, box.right, y), Area(x, box.top, x, box.bottom)
    return [Area(x, y, x, y).wider(_POINT + 4), across.wider(_CAP), upright.wider(_CAP)]


def _point(beer: _Beer) -> str:
    """A diamond; beyond the axes an arrowhead that points to where the beer would be."""
    (x, y), (across, up) = beer.point, beer.beyond
    if not across and not up:
        return marks.shape(*marks.diamond(x, y, _POINT))
    turn = math.atan2(-up, across)
    corners = ((1.2, 0), (-1, -1), (-1, 1))
    return marks.shape(
        *(
            (
                x + _POINT * (a * math.cos(turn) - b * math.sin(turn)),
                y + _POINT * (a * math.sin(turn) + b * math.cos(turn)),
            )
            for a, b in corners
        )
    )


def _label(beer: _Beer) -> str:
    """What stands beside the point: the figures too where the point cannot show them."""
    across, up = beer.beyond
    beyond = [f"{beer.gravity[0]:.3f}"] if across else []
    beyond += [f"{beer.bitterness[0]:.0f} IBU"] if up else []
    return ", ".join(["this beer", *beyond])


def _label_spots(beer: _Beer) -> list[Spot]:
    """Around the point, between the arms of its cross, then beyond their ends."""
    box, (x, y) = beer.reach, beer.point
    gap = _POINT + 6
    return [
        Spot(x + gap, y - gap),
        Spot(x + gap, y + gap + 0.7 * TEXT),
        Spot(x - gap, y - gap, "end"),
        Spot(x - gap, y + gap + 0.7 * TEXT, "end"),
        Spot(max(box.right, x) + gap, y + 0.35 * TEXT),
        Spot(min(box.left, x) - gap, y + 0.35 * TEXT, "end"),
        Spot(x, box.top - gap, "middle"),
        Spot(x, box.bottom + gap + 0.7 * TEXT, "middle"),
        Spot(x + gap, y - gap - TEXT),
        Spot(x + gap, y + gap + 1.7 * TEXT),
        Spot(x - gap, y - gap - TEXT, "end"),
        Spot(x - gap, y + gap + 1.7 * TEXT, "end"),
    ]


def _layout(beer: _Beer, words: str, style: StyleBox | None) -> _Layout:
    """The style's region, and where its name and the beer's go, for one place of the words along the lines."""
    region = style.region(beer.frame) if style else None
    along, cross, lines = words_drawn(beer.frame, words), _cross_areas(beer), lines_drawn(beer.frame)
    harm = 10 * sum(word.shared(arm) for word in along for arm in cross)
    beside = Room(within=PLOT, full=[*cross, *along], lined=[*lines, region] if region else lines)
    label = _label(beer)
    label_losses = beside.losses(label, _label_spots(beer), near=beer.point)
    if not style or not region:
        loss, spot, _ = min(label_losses, key=itemgetter(0))
        return _Layout(words, harm + loss, under=[], over=[words_over(label, spot, region, weight="bold")])
    within = Room(within=PLOT, full=[*cross, *along], lined=lines)
    named = marks.shortened(style.name, _NAME_ROOM)
    middle = ((region.left + region.right) / 2, (region.top + region.bottom) / 2)
    name_losses = within.losses(named, _region_spots(region, named), near=middle)
    loss, spot, name_spot = best_pair(label_losses, name_losses, apart=6)
    over = [words_over(named, name_spot, region), words_over(label, spot, region, weight="bold")]
    return _Layout(words, harm + loss, under=[ground(region)], over=over)


def ground(region: Area) -> str:
    """The shaded box of a style; what lies below shows through."""
    return marks.box(region.left, region.top, region.width, region.height, fill=REGION, fill_opacity=0.7, stroke=RULE)


def words_over(text: str, spot: Spot, region: Area | None, weight: str | None = None) -> str:
    """Words that interrupt the lines they cross, in the colour of what lies beneath them."""
    area = spot.area(text)
    inside = region is not None and region.shared(area) > 0.8 * area.size
    return marks.words(text, spot.x, spot.y, anchor=spot.anchor, halo=REGION if inside else PAPER, weight=weight)


def _region_spots(region: Area, text: str) -> list[Spot]:
    """In the corners of the region, if the words fit into it, then all along its sides."""
    width = marks.length(text)
    above, below = region.top - 0.4 * TEXT, region.bottom + TEXT
    first, last = region.top + 1.1 * TEXT, region.bottom - 0.5 * TEXT
    starts, ends = region.left + 8, region.right - 8
    inside = [Spot(starts, first), Spot(ends, last, "end"), Spot(ends, first, "end"), Spot(starts, last)]
    fits = all(spot.area(text).shared(region) == spot.area(text).size for spot in inside)
    corners = [Spot(region.left, above), Spot(region.right, below, "end")]
    # Words wider than the region may stand out on either side, as long as they still touch it.
    slid = [region.left - (width - 30) + (region.width + width - 60) * step / 12 for step in range(13)]
    held = [min(max(x, PLOT.left + 4), PLOT.right - width) for x in slid]
    beside = [Spot(x, y) for y in (above, below, above - 0.7 * TEXT, below + 0.7 * TEXT) for x in held]
    beside += [Spot(region.right + 8, y) for y in (last, first)] + [Spot(starts - 16, y, "end") for y in (first, last)]
    return [*(inside if fits else []), *corners, *beside]


def _said(beer: _Beer, style: StyleBox | None) -> str:
    """The picture in words."""
    gravity, bitterness = beer.gravity, beer.bitterness
    points = (gravity[0] - 1) * 1000
    per_point = f", which is {bitterness[0] / points:.2f} IBU per point of gravity" if points > 0 else ""
    said = [
        "Bitterness in IBU against original gravity.",
        f"This beer: original gravity {gravity[0]:.3f}, likely {gravity[1]:.3f} to {gravity[2]:.3f};"
        f" bitterness {bitterness[0]:.0f} IBU, likely {bitterness[1]:.0f} to {bitterness[2]:.0f}{per_point}.",
    ]
    for what, side in zip(("gravity", "bitterness"), beer.beyond, strict=True):
        if side:
            where = "above the highest" if side > 0 else "below the lowest"
            said.append(f"Its {what} is {where} that the chart reaches; an arrow stands at the edge.")
    lines = ", ".join(f"{ratio:.1f} {leads}" for ratio, leads in BALANCE.items())
    said.append(f"Lines of equal balance, in IBU per point: {lines}.")
    return " ".join([*said, style.said()] if style else said)
