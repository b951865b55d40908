"""The frame of a chart over the days of a brew: days along the foot, a reading upwards."""

from typing import TYPE_CHECKING

from gristbook.charts.drawing import drawn_frame, mark_axes
from gristbook.charts.frame import Frame
from gristbook.charts.marks import RULE, SOFT
from gristbook.charts.placing import Area
from gristbook.charts.tidy import STAND_INS

if TYPE_CHECKING:
    from matplotlib.axes import Axes

# Where the axes lie on the picture: the room above them is for words.
LEFT, RIGHT = 66.0, 622.0
_PLOT, _FOOT = 300.0, 64.0


def fahrenheit(celsius: float) -> float:
    """Degrees Fahrenheit of degrees Celsius: the scale on the other side of a temperature's axis."""
    return celsius * 9 / 5 + 32


def draw_frame(
    *, measure: str, head: float, days: float, day_step: float, low: float, high: float, step: float
) -> Frame:
    """Axes for a `measure` ("gravity", or "temperature" in °C with °F beside it), `head` below the top."""
    warmth = measure == "temperature"

    def paint(axes: "Axes") -> None:
        at = [low + step * count for count in range(round((high - low) / step) + 1)]
        axes.set_yticks(at, [f"{tick:g}" if warmth else f"{tick:.3f}" for tick in at])
        axes.set_xticks([day_step * count for count in range(round(days / day_step) + 1)])
        headings = (("°C", 0, "right"), ("°F", 1.02, "left")) if warmth else (("gravity", 0, "center"),)
        mark_axes(axes, "days", 1.06, *headings)
        for tick in at[1:]:
            axes.axhline(tick, color=STAND_INS[RULE], linewidth=0.75, zorder=0, clip_on=False)
        for tick in at if warmth else ():
            said = f"{fahrenheit(tick):.0f}"
            axes.text(days * 1.02, tick, said, ha="left", va="center", color=STAND_INS[SOFT])

    plot = Area(LEFT, head, RIGHT - 46 if warmth else RIGHT, head + _PLOT)
    return drawn_frame(paint, kind=measure, height=plot.bottom + _FOOT, plot=plot, x=(0, days), y=(low, high))
