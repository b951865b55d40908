"""The frame of charts with one row an ingredient: words above, bars below, a scale at the foot."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gristbook.charts.drawing import drawn_frame
from gristbook.charts.frame import Frame
from gristbook.charts.marks import RULE, SOFT
from gristbook.charts.placing import Area
from gristbook.charts.tidy import STAND_INS

if TYPE_CHECKING:
    from matplotlib.axes import Axes

# Where the scale begins and ends, and the room for its figures at the foot.
LEFT, RIGHT = 10.0, 630.0
_FOOT = 36.0


@dataclass(frozen=True, slots=True)
class Rows:
    """Where rows begin below the top, how high each is, and how much of it is for the words above its bars."""

    head: float
    height: float
    words: float


ROWS = {"hops": Rows(2.0, 92.0, 56.0), "narrowing": Rows(2.0, 62.0, 31.0)}


def draw_frame(*, kind: str, rows: int, start: float | None = None, end: float, step: float, unit: str) -> Frame:
    """A scale from `start` to `end` in steps, its lines only beside the bars and never through the words.

    Where nothing is said of its start, bars begin at 0, on a firm line. The y scale counts rows downwards.
    """
    low, each = start or 0.0, ROWS[kind]

    def paint(axes: "Axes") -> None:
        ticks = [low + step * count for count in range(round((end - low) / step) + 1)]
        axes.set_xticks(ticks, [f"{tick:g}" for tick in ticks[:-1]] + [f"{ticks[-1]:g} {unit}"])
        axes.get_xticklabels()[0].set_horizontalalignment("left")
        axes.get_xticklabels()[-1].set_horizontalalignment("right")
        axes.set_yticks([])
        axes.spines[:].set_visible(False)
        for row in range(rows):
            for tick in ticks:
                firm = start is None and tick == 0
                axes.plot(
                    [tick, tick],
                    [row + each.words / each.height, row + 1],
                    color=STAND_INS[SOFT if firm else RULE],
                    linewidth=1.5 if firm else 1,
                    solid_capstyle="butt" if start is None else "projecting",
                    clip_on=False,
                )

    height = each.head + rows * each.height + _FOOT
    plot = Area(LEFT, each.head, RIGHT, height - _FOOT)
    return drawn_frame(paint, kind=kind, height=height, plot=plot, x=(low, end), y=(rows, 0))
