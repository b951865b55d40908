"""The frame of charts with one row an ingredient: words above, bars below, a scale at the foot."""

from typing import TYPE_CHECKING

from gristbook.charts.drawing import drawn_frame
from gristbook.charts.frame import Frame
from gristbook.charts.marks import RULE, SOFT
from gristbook.charts.tidy import STAND_INS

if TYPE_CHECKING:
    from matplotlib.axes import Axes

# Where the scale begins and ends, how high the heading is, and what the scale's figures take at the foot.
LEFT, RIGHT = 10.0, 630.0
HEAD, FOOT = 36.0, 36.0


def draw_frame(*, kind: str, rows: int, row_height: float, words_height: float, end: float, unit: str) -> Frame:
    """A scale from 0 to `end` in quarters or fifths, its lines only beside the bars and never through the words.

    The bars of a row lie between `words_height` and `row_height` below its top; the y scale counts rows downwards.
    """

    def paint(axes: "Axes") -> None:
        steps = 5 if end % 5 == 0 and end % 4 else 4
        ticks = [end * step / steps for step in range(steps + 1)]
        axes.set_xticks(ticks, [f"{tick:g}" for tick in ticks[:-1]] + [f"{ticks[-1]:g} {unit}"])
        axes.get_xticklabels()[0].set_horizontalalignment("left")
        axes.get_xticklabels()[-1].set_horizontalalignment("right")
        axes.set_yticks([])
        axes.spines[:].set_visible(False)
        for row in range(rows):
            for tick in ticks:
                axes.plot(
                    [tick, tick],
                    [row + words_height / row_height, row + 1],
                    color=STAND_INS[SOFT if tick == 0 else RULE],
                    linewidth=1.5 if tick == 0 else 1,
                    solid_capstyle="butt",
                    clip_on=False,
                )

    height = HEAD + rows * row_height + FOOT
    return drawn_frame(
        paint, kind=kind, height=height, left=LEFT, right=RIGHT, top=HEAD, bottom=height - FOOT, x=(0, end), y=(rows, 0)
    )
