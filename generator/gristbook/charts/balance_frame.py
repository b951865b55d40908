"""The frame of the balance chart: bitterness against original gravity, with lines of equal bitterness per point."""

import math
from typing import TYPE_CHECKING

from gristbook.charts.drawing import drawn_frame, mark_axes
from gristbook.charts.frame import Frame
from gristbook.charts.marks import SOFT, TEXT, Point, length
from gristbook.charts.placing import Area, Stroke
from gristbook.charts.tidy import STAND_INS

if TYPE_CHECKING:
    from matplotlib.axes import Axes

# Where the axes lie on the picture.
HEIGHT = 440.0
PLOT = Area(left=58, top=40, right=622, bottom=372)

# How far the axes reach, and what is marked on them: one frame for every beer, so that one may compare.
LEAST_GRAVITY, HIGHEST_GRAVITY, MOST_BITTERNESS = 1.025, 1.110, 90.0
GRAVITIES, BITTERNESSES = (1.04, 1.06, 1.08, 1.1), (0, 20, 40, 60, 80)

# Where words begin that do not stand at their lines' end.
WORDS_BEGIN = {"middle": 1.058, "inner": 1.040}


# Where the words along the lines may stand, the best place first.
WORDS = ("outer", "middle", "inner")

# Bitterness (IBU) per point of gravity (0.001 above 1.000), and what the beer tastes of along that line.
# Where the words stand is common practice, no source.
BALANCE = {0.3: "malt leads", 0.5: "even", 0.7: "hops lead", 1.0: "bitter"}


def draw_frame(*, words: str) -> Frame:
    """Axes and lines; the words stand at the `outer` end of their lines, in the `middle` or at the `inner` end."""

    def paint(axes: "Axes") -> None:
        axes.set_xticks(GRAVITIES, [f"{gravity:.3f}" for gravity in GRAVITIES])
        axes.set_yticks(BITTERNESSES)
        headings = ("bitterness, IBU", 0, "left"), ("lines: IBU per point", 1, "right")
        mark_axes(axes, "original gravity", 1.055, *headings)
        for ratio in BALANCE:
            _paint_line(axes, ratio, words)

    x, y = (LEAST_GRAVITY, HIGHEST_GRAVITY), (0, MOST_BITTERNESS)
    return drawn_frame(paint, kind="balance", height=HEIGHT, plot=PLOT, x=x, y=y)


def _paint_line(axes: "Axes", ratio: float, words: str) -> None:
    ends = (LEAST_GRAVITY, _line_end(ratio))
    axes.plot(ends, [_on_line(ratio, g) for g in ends], color=STAND_INS[SOFT], linewidth=1.5, clip_on=False)
    at = _words_at(ratio, words)
    axes.text(
        at,
        _on_line(ratio, at),
        line_words(ratio),
        rotation=math.degrees(math.atan(ratio * 1000)),
        rotation_mode="anchor",
        transform_rotates_text=True,
        ha="right" if words == "outer" else "left",
        va="bottom",
        color=STAND_INS[SOFT],
    )


def line_words(ratio: float) -> str:
    """What is written on the line of this many IBU per point."""
    return f"{BALANCE[ratio]} {ratio:.1f}"


def lines_drawn(frame: Frame) -> list[Stroke]:
    """The room that the lines themselves take."""
    return [
        Stroke(*_place(frame, ratio, LEAST_GRAVITY), *_place(frame, ratio, _line_end(ratio)), thickness=3)
        for ratio in BALANCE
    ]


def words_drawn(frame: Frame, words: str) -> list[Stroke]:
    """The room that the words along the lines take, for each place of the words."""
    drawn: list[Stroke] = []
    for ratio in BALANCE:
        x, y = _place(frame, ratio, _words_at(ratio, words))
        (low_x, low_y), (high_x, high_y) = (_place(frame, ratio, g) for g in (frame.x.low, frame.x.high))
        slope = math.atan2(high_y - low_y, high_x - low_x)
        # Half a letter's height off the line, on its upper side.
        x, y = x + math.sin(slope) * TEXT / 2, y - math.cos(slope) * TEXT / 2
        reach = length(line_words(ratio)) * (-1 if words == "outer" else 1)
        drawn.append(Stroke(x, y, x + math.cos(slope) * reach, y + math.sin(slope) * reach, thickness=TEXT))
    return drawn


def _place(frame: Frame, ratio: float, gravity: float) -> Point:
    return frame.x.at(gravity), frame.y.at(_on_line(ratio, gravity))


def _on_line(ratio: float, gravity: float) -> float:
    return ratio * (gravity - 1) * 1000


def _line_end(ratio: float) -> float:
    """The gravity at which a line leaves the view, to the right or at the top."""
    return min(HIGHEST_GRAVITY, 1 + MOST_BITTERNESS / ratio / 1000)


def _words_at(ratio: float, words: str) -> float:
    """The gravity at which a line's words end (outer) or begin (middle and inner)."""
    if words in WORDS_BEGIN:
        return WORDS_BEGIN[words]
    return min(HIGHEST_GRAVITY + 0.002, 1 + (MOST_BITTERNESS * 0.95) / ratio / 1000)
