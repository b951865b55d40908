"""The balance chart: where a beer stands between malt and hops, bitterness against original gravity."""

import math
from dataclasses import dataclass

from gristbook.charts import marks
from gristbook.charts.balance_frame import BALANCE, PLOT, VIEWS, draw_frame, lines_drawn, words_drawn
from gristbook.charts.caches import FrameCache
from gristbook.charts.frame import Frame, Scale, kept_frame
from gristbook.charts.marks import PAPER, REGION, TEXT
from gristbook.charts.placing import Area, Spot, best_spot

# A value, and the low and high that nine batches in ten fall between.
Ranged = tuple[float, float, float]

_CAP = 7.0
_POINT = 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StyleBox:
    """A style's ranges of original gravity (20/20 °C) and bitterness (IBU)."""

    name: str
    og_low: float
    og_high: float
    ibu_low: float
    ibu_high: float


def balance_chart(
    *, name: str, title: str, gravity: Ranged, bitterness: Ranged, style: StyleBox | None, cache: FrameCache
) -> str:
    """An SVG picture of bitterness (IBU) against original gravity (20/20 °C), with lines of equal bitterness per point.

    `gravity` and `bitterness` are value, low and high; `name` comes before every id. What lies beyond the axes stands
    at their end with an arrow and is said in the description. Raises `ValueError` for a name that cannot begin an id
    and a figure that is not finite.
    """
    view = _view(gravity, bitterness, style)
    words = "outer"
    frame = kept_frame(draw_frame, cache, view=view, words=words)
    cross = _cross_areas(frame, gravity, bitterness)
    if any(arm.shared(word) for arm in cross for word in words_drawn(frame, view=view, words=words)):
        words = "inner"
        frame = kept_frame(draw_frame, cache, view=view, words=words)
    full = [*cross, *words_drawn(frame, view=view, words=words)]
    lined = lines_drawn(frame, view=view)
    label = _label(frame, gravity[0], bitterness[0])
    spot = best_spot(label, _label_spots(frame, gravity, bitterness), within=PLOT, full=full, lined=lined)
    full.append(spot.area(label))
    region, region_name = _region(frame, style, full, lined) if style else ("", "")
    return frame.with_marks(
        name=name,
        title=title,
        desc=_said(frame, gravity, bitterness, style),
        under=[region],
        over=[
            region_name,
            *_cross(frame, gravity, bitterness),
            _point(frame, gravity[0], bitterness[0]),
            marks.words(label, spot.x, spot.y, anchor=spot.anchor, halo=PAPER, weight="bold"),
        ],
    )


def _view(gravity: Ranged, bitterness: Ranged, style: StyleBox | None) -> str:
    """The ordinary view if all that is to be shown fits into it."""
    highest = max(*gravity, style.og_high if style else 0)
    most = max(*bitterness, style.ibu_high if style else 0)
    ordinary = VIEWS["ordinary"]
    return "ordinary" if highest <= ordinary.highest_gravity and most <= ordinary.most_bitterness else "strong"


def _beyond(scale: Scale, value: float) -> int:
    """-1 below the axis, 1 above it, 0 on it."""
    return (value > scale.high) - (value < scale.low)


def _arms(frame: Frame, gravity: Ranged, bitterness: Ranged) -> tuple[Area, float, float]:
    """The box that the cross of ranges reaches across, and where its arms meet, all held within the axes."""
    left, right = (frame.x.at(frame.x.held(g)) for g in (min(gravity), max(gravity)))
    bottom, top = (frame.y.at(frame.y.held(b)) for b in (min(bitterness), max(bitterness)))
    x, y = frame.x.at(frame.x.held(gravity[0])), frame.y.at(frame.y.held(bitterness[0]))
    return Area(left, top, right, bottom), x, y


def _cross(frame: Frame, gravity: Ranged, bitterness: Ranged) -> list[str]:
    """The two ranges as thin lines, capped where they end and not where the axes cut them off."""
    box, x, y = _arms(frame, gravity, bitterness)
    drawn = [marks.line((box.left, y), (box.right, y)), marks.line((x, box.top), (x, box.bottom))]
    for end, at in ((min(gravity), box.left), (max(gravity), box.right)):
        if not _beyond(frame.x, end):
            drawn.append(marks.line((at, y - _CAP), (at, y + _CAP)))
    for end, at in ((min(bitterness), box.bottom), (max(bitterness), box.top)):
        if not _beyond(frame.y, end):
            drawn.append(marks.line((x - _CAP, at), (x + _CAP, at)))
    return drawn


def _cross_areas(frame: Frame, gravity: Ranged, bitterness: Ranged) -> list[Area]:
    """The room that the point and its cross take."""
    box, x, y = _arms(frame, gravity, bitterness)
    return [
        Area(x, y, x, y).wider(_POINT + 4),
        Area(box.left, y, box.right, y).wider(_CAP),
        Area(x, box.top, x, box.bottom).wider(_CAP),
    ]


def _point(frame: Frame, gravity: float, bitterness: float) -> str:
    """A diamond; beyond the axes an arrowhead that points to where the beer would be."""
    x, y = frame.x.at(frame.x.held(gravity)), frame.y.at(frame.y.held(bitterness))
    across, up = _beyond(frame.x, gravity), _beyond(frame.y, bitterness)
    if not across and not up:
        return marks.shape((x, y - _POINT), (x + _POINT, y), (x, y + _POINT), (x - _POINT, y))
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


def _label(frame: Frame, gravity: float, bitterness: float) -> str:
    """What stands beside the point: the figures too where the point cannot show them."""
    beyond = [f"{gravity:.3f}"] if _beyond(frame.x, gravity) else []
    beyond += [f"{bitterness:.0f} IBU"] if _beyond(frame.y, bitterness) else []
    return ", ".join(["this beer", *beyond])


def _label_spots(frame: Frame, gravity: Ranged, bitterness: Ranged) -> list[Spot]:
    """Around the point, between the arms of its cross, then beyond their ends."""
    box, x, y = _arms(frame, gravity, bitterness)
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
    ]


def _region(frame: Frame, style: StyleBox, full: list[Area], lined: list[Area]) -> tuple[str, str]:
    """The style's region, and its name where there is room in it or beside it."""
    left, right = (frame.x.at(frame.x.held(g)) for g in (style.og_low, style.og_high))
    bottom, top = (frame.y.at(frame.y.held(b)) for b in (style.ibu_low, style.ibu_high))
    region = marks.box(left, top, right - left, bottom - top, fill=REGION)
    above, below, first, last = top - 0.4 * TEXT, bottom + TEXT, top + 1.1 * TEXT, bottom - 0.5 * TEXT
    inside = [Spot(left + 8, first), Spot(right - 8, last, "end"), Spot(right - 8, first, "end"), Spot(left + 8, last)]
    beside = [Spot(left, above), Spot(left, below), Spot(right, above, "end"), Spot(right, below, "end")]
    beside += [Spot(right + 8, y) for y in (last, first)] + [Spot(left - 8, y, "end") for y in (first, last)]
    fits = [spot for spot in inside if spot.area(style.name).shared(Area(left, top, right, bottom)) > 0]
    spot = best_spot(style.name, [*fits, *beside], within=PLOT, full=full, lined=lined)
    halo = REGION if spot in inside else PAPER
    return region, marks.words(
        marks.shortened(style.name, PLOT.right - PLOT.left), spot.x, spot.y, anchor=spot.anchor, halo=halo
    )


def _said(frame: Frame, gravity: Ranged, bitterness: Ranged, style: StyleBox | None) -> str:
    """The picture in words."""
    points = (gravity[0] - 1) * 1000
    per_point = f", which is {bitterness[0] / points:.2f} IBU per point of gravity" if points > 0 else ""
    said = [
        "Bitterness in IBU against original gravity.",
        f"This beer: original gravity {gravity[0]:.3f}, likely {gravity[1]:.3f} to {gravity[2]:.3f};"
        f" bitterness {bitterness[0]:.0f} IBU, likely {bitterness[1]:.0f} to {bitterness[2]:.0f}{per_point}.",
    ]
    for what, scale, value in (("gravity", frame.x, gravity[0]), ("bitterness", frame.y, bitterness[0])):
        if side := _beyond(scale, value):
            where = "above the highest" if side > 0 else "below the lowest"
            said.append(f"Its {what} is {where} that the chart reaches; an arrow stands at the edge.")
    said.append(
        "Lines of equal balance, in IBU per point: "
        + ", ".join(f"{ratio:.1f} {leads}" for ratio, leads in BALANCE.items())
        + "."
    )
    if style:
        said.append(
            f"The shaded box is {style.name}: original gravity {style.og_low:.3f} to {style.og_high:.3f},"
            f" bitterness {style.ibu_low:.0f} to {style.ibu_high:.0f} IBU."
        )
    return " ".join(said)
