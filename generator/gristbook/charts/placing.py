"""Finding room for words on a picture that is already partly full."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from gristbook.charts.marks import TEXT, length

# Above and below the baseline, as shares of the size of type.
_RISE, _FALL = 0.80, 0.25


@dataclass(frozen=True, slots=True)
class Area:
    """An upright rectangle of the picture, units down and right from its upper left corner."""

    left: float
    top: float
    right: float
    bottom: float

    def shared(self, other: "Area") -> float:
        """How much of this area the other covers."""
        width = min(self.right, other.right) - max(self.left, other.left)
        height = min(self.bottom, other.bottom) - max(self.top, other.top)
        return max(width, 0.0) * max(height, 0.0)

    def wider(self, by: float) -> "Area":
        """The area with a margin all round."""
        return Area(self.left - by, self.top - by, self.right + by, self.bottom + by)

    @property
    def size(self) -> float:
        """The area in square units."""
        return (self.right - self.left) * (self.bottom - self.top)


@dataclass(frozen=True, slots=True)
class Spot:
    """Where words may go: the start, middle or end of their baseline."""

    x: float
    y: float
    anchor: str = "start"

    def area(self, text: str) -> Area:
        """The room that these words take here."""
        width = length(text)
        left = self.x - {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        return Area(left, self.y - _RISE * TEXT, left + width, self.y + _FALL * TEXT)


def along(points: Sequence[tuple[float, float]], thickness: float) -> list[Area]:
    """A line, or words along one, as a row of small areas."""
    half = thickness / 2
    return [
        Area(x - half, y - half, x + half, y + half)
        for (x0, y0), (x1, y1) in pairwise(points)
        for steps in [max(1, math.ceil(math.hypot(x1 - x0, y1 - y0) / max(thickness, 4.0)))]
        for x, y in ((x0 + (x1 - x0) * i / steps, y0 + (y1 - y0) * i / steps) for i in range(steps + 1))
    ]


def best_spot(text: str, spots: Iterable[Spot], *, within: Area, full: Sequence[Area], lined: Sequence[Area]) -> Spot:
    """The first spot where the words cover least: hardly ever outside or on what is full, little on what is lined."""

    def cost(spot: Spot) -> float:
        area = spot.area(text)
        outside = area.size - area.shared(within)
        return 100 * outside + 10 * sum(map(area.shared, full)) + sum(map(area.shared, lined))

    return min(spots, key=cost)
