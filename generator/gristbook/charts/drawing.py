"""Drawing a frame with matplotlib. Nothing here loads it before a frame is really drawn."""

import io
from collections.abc import Callable
from typing import TYPE_CHECKING

from gristbook.charts.frame import Frame, Scale, Span, blank
from gristbook.charts.marks import RULE, SOFT, TEXT, WIDTH
from gristbook.charts.placing import Area
from gristbook.charts.tidy import STAND_INS, tidied

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def drawn_frame(
    paint: Callable[["Axes"], None],
    *,
    kind: str,
    height: float,
    plot: Area,
    x: Span,
    y: Span,
) -> Frame:
    """A frame whose axes lie around `plot`.

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
            (plot.left / WIDTH, 1 - plot.bottom / height, plot.width / WIDTH, plot.height / height), xlim=x, ylim=y
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


def mark_axes(axes: "Axes", foot: str, above: float, *headings: tuple[str, float, str]) -> None:
    """Marks on both axes, a word for the one at the foot, and headings so far `above` it, in lengths of the other.

    A heading is its words, its place along the foot, and what of it stands there.
    """
    axes.tick_params(length=6, width=1.5, color=STAND_INS[RULE], pad=5)
    axes.set_xlabel(foot, loc="right", color=STAND_INS[SOFT], labelpad=6)
    for words, across, anchor in headings:
        axes.text(across, above, words, transform=axes.transAxes, ha=anchor, color=STAND_INS[SOFT])
