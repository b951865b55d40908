"""Finding room for words on a picture that is already partly full."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from gristbook.charts.marks import TEXT, length

# How far letters reach above and below their baseline, as shares of the size of type.
_RISE, _FALL = 0.80, 0.25


@dataclass(frozen=True, slots=True)
class Area:
    """An upright rectangle of the picture, in units to the right and down from the picture's upper left corner."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom."""
        return self.bottom - self.top

    @property
    def size(self) -> float:
        """The area in square units."""
        return self.width * self.height

    def wider(self, by: float) -> "Area":
        """The area with a margin all round."""
        return Area(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def shared(self, other: "Area") -> float:
        """How many square units lie in both.

        >>> Area(0, 0, 10, 10).shared(Area(8, 5, 20, 20))
        10
        """
        width = min(self.right, other.right) - max(self.left, other.left)
        height = min(self.bottom, other.bottom) - max(self.top, other.top)
        return max(width, 0) * max(height, 0)


@dataclass(frozen=True, slots=True)
class Stroke:
    """A straight line with a thickness; words along a line are one too."""

    x0: float
    y0: float
    x1: float
    y1: float
    thickness: float

    def shared(self, area: Area) -> float:
        """About how many square units of the stroke lie in the area.

        >>> Stroke(-10, 5, 30, 5, thickness=2).shared(Area(0, 0, 10, 10))
        24.0
        """
        around = area.wider(self.thickness / 2)
        first, last = 0.0, 1.0
        for start, end, low, high in (
            (self.x0, self.x1, around.left, around.right),
            (self.y0, self.y1, around.top, around.bottom),
        ):
            if start == end:
                if not low <= start <= high:
                    return 0.0
                continue
            near, far = sorted(((low - start) / (end - start), (high - start) / (end - start)))
            first, last = max(first, near), min(last, far)
        return max(last - first, 0) * math.hypot(self.x1 - self.x0, self.y1 - self.y0) * self.thickness


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


@dataclass(frozen=True, slots=True)
class Room:
    """What words must stay within, what they must not cover, and what they had better not."""

    within: Area
    full: Sequence[Area | Stroke]
    lined: Sequence[Area | Stroke]

    def cost(self, area: Area) -> float:
        """How badly words here would do."""
        outside = area.size - area.shared(self.within)
        covered = sum(each.shared(area) for each in self.full)
        return 100 * outside + 10 * covered + sum(each.shared(area) for each in self.lined)

    def losses(self, text: str, spots: Iterable[Spot], *, near: tuple[float, float]) -> list[tuple[float, Spot, Area]]:
        """How badly these words would do at each spot, and the room they take there.

        Among spots that do as little harm, the one nearer to what the words belong to loses less. Being off it in
        height counts for more: words are wide.
        """
        x, y = near
        return [
            (
                self.cost(area) + 3 * abs((area.left + area.right) / 2 - x) + 6 * abs((area.top + area.bottom) / 2 - y),
                spot,
                area,
            )
            for spot in dict.fromkeys(spots)
            for area in [spot.area(text)]
        ]


def best_pair(
    first: Sequence[tuple[float, Spot, Area]], second: Sequence[tuple[float, Spot, Area]], *, apart: float
) -> tuple[float, Spot, Spot]:
    """The spots for two pieces of words that together lose least, when they also keep this far apart."""
    best: tuple[float, Spot, Spot] | None = None
    for loss, spot, area in first:
        around = area.wider(apart)
        for other_loss, other, other_area in second:
            if best is not None and loss + other_loss >= best[0]:
                continue  # what they would cover of each other makes it no better
            total = loss + other_loss + 10 * around.shared(other_area)
            if best is None or total < best[0]:
                best = total, spot, other
    assert best is not None, "there is always a spot"
    return best
