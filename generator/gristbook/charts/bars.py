"""The frame of charts with one row an ingredient: words above, bars below, a scale at the foot."""

from typing import TYPE_CHECKING

from gristbook.charts.drawing import drawn_frame
from gristbook.charts.frame import Frame
from gristbook.charts.marks import RULE, SOFT
from gristbook.charts.tidy import STAND_INS

if TYPE_CHECKING:
    from matplotlib.axes import Axes

# Where the scale begins and ends, and the room for its figures at the foot.
LEFT, RIGHT = 10.0, 630.0
_FOOT = 36.0


def draw_frame(
    *, kind: str, rows: int, head: float, row_height: float, words_height: float, end: float, step: float, unit: str
) -> Frame:
    """A scale from 0 to `end` in steps, its lines only beside the bars and never through the words.

    Rows begin `head` below the top. The bars of a row lie between `words_height` and `row_height` below the row's top.
    The y scale counts rows downwards.
    """

    def paint(axes: "Axes") -> None:
        ticks = [step * count for count in range(round(end / step) + 1)]
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

    height = head + rows * row_height + _FOOT
    return drawn_frame(
        paint,
        kind=kind,
        height=height,
        left=LEFT,
        right=RIGHT,
        top=head,
        bottom=height - _FOOT,
        x=(0, end),
        y=(rows, 0),
    )
