"""Drawing a frame with matplotlib. Nothing here loads it before a frame is really drawn."""

import io
from collections.abc import Callable
from typing import TYPE_CHECKING

from gristbook.charts.frame import Frame, Scale, blank
from gristbook.charts.marks import RULE, SOFT, TEXT, WIDTH
from gristbook.charts.tidy import STAND_INS, tidied

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def drawn_frame(
    paint: Callable[["Axes"], None],
    *,
    kind: str,
    height: float,
    left: float,
    right: float,
    top: float,
    bottom: float,
    x: tuple[float, float],
    y: tuple[float, float],
) -> Frame:
    """A frame whose axes run from `left` to `right` and `top` to `bottom` (units of the picture, down from the top).

    `x` and `y` are the values at the ends of the axes; `paint` draws what belongs to this chart, in stand-in colours.
    """
    import matplotlib
    from matplotlib.figure import Figure

    with matplotlib.rc_context():
        # The settings of whoever runs this must not show in the book.
        matplotlib.rcdefaults()
        matplotlib.rcParams["font.size"] = TEXT
        # Text stays text, and names that matplotlib makes up are the same each time.
        matplotlib.rcParams["svg.fonttype"] = "none"
        matplotlib.rcParams["svg.hashsalt"] = "gristbook"
        # At 72 dots an inch, a unit of the picture is a point.
        figure = Figure(figsize=(WIDTH / 72, height / 72), dpi=72)
        figure.patch.set_visible(False)
        axes = figure.add_axes(
            (left / WIDTH, 1 - bottom / height, (right - left) / WIDTH, (bottom - top) / height), xlim=x, ylim=y
        )
        axes.patch.set_visible(False)
        axes.tick_params(length=0, labelcolor=STAND_INS[SOFT], pad=8)
        axes.spines[["top", "right"]].set_visible(False)
        axes.spines[:].set(color=STAND_INS[RULE], linewidth=1.5)
        paint(axes)
        # Where the ends of the axes really came to lie; matplotlib counts from the bottom.
        (x_start, y_start), (x_end, y_end) = axes.transData.transform([(x[0], y[0]), (x[1], y[1])])
        svg = io.StringIO()
        figure.savefig(svg, format="svg", metadata={"Date": None})
    return Frame(
        svg=blank(kind=kind, height=height, drawn=tidied(svg.getvalue())),
        x=Scale(low=x[0], high=x[1], start=round(float(x_start), 6), end=round(float(x_end), 6)),
        y=Scale(low=y[0], high=y[1], start=round(height - float(y_start), 6), end=round(height - float(y_end), 6)),
    )
