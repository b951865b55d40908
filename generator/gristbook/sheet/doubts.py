"""How sure a number is: by named doubt, how far it moves when that doubt lies at its low and at its high end.

A doubt is a triple: the 5th, 50th and 95th hundredth of what a thing may be, taken as two halves of normals that share
the typical value as their middle. Doubts that do not hang together are added by their first three cumulants (Barlow
2003, arXiv physics/0306138), and what comes out is read back as two halves again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import erf, hypot, sqrt
from typing import NamedTuple, TypeAlias

NINE_IN_TEN = 1.6448536269514722
"""Standard deviations to each side of the middle that hold nine values in ten of a normal distribution."""

Ends: TypeAlias = tuple[float, float]
"""How far a number moves when a doubt lies at its low end, and when it lies at its high end."""

CERTAIN: Ends = (0.0, 0.0)

Doubts: TypeAlias = Mapping[str, Ends]
"""The ends of each named doubt."""

MEAN, FOURTH, THIRD = 0.3989422804014327, 0.7978845608028654, 2.393653682408596
"""1/√2π, 2/√2π and 6/√2π: the first and third moments of half a normal."""
WIDER, SKEW = 0.3633802276324186, 0.09107984824505426
"""1 − 2/π and (4/π − 1)/3: how unequal halves widen and lean."""
STEEPEST = 1.64
"""No skewness that two halves can have is larger."""


class Triple(NamedTuple):
    """The 5th, 50th and 95th hundredth of what a number may be."""

    low: float
    middle: float
    high: float

    def below(self, number: float) -> float:
        """The share of what it may be that lies below a number."""
        half = self.high - self.middle if number > self.middle else self.middle - self.low
        if half <= 0:
            return 0.5 if number == self.middle else float(number > self.middle)
        return (1 + erf(NINE_IN_TEN * (number - self.middle) / half / sqrt(2))) / 2


class Sums(NamedTuple):
    """How far doubts move the mean of a number, its variance, and its third cumulant; those of several add up."""

    shift: float
    variance: float
    lean: float


def sums_of(ends: Ends) -> Sums:
    """The cumulants of one doubt."""
    return _summed((ends,))


def whole_of(doubts: Doubts) -> Sums:
    """The cumulants of all doubts of a number together, which do not hang together."""
    return _summed(doubts.values())


def _summed(parts: Iterable[Ends]) -> Sums:
    shift = variance = lean = 0.0
    for low, high in parts:
        b, a = -low / NINE_IN_TEN, high / NINE_IN_TEN
        own, square = MEAN * (a - b), (a * a + b * b) / 2
        shift += own
        variance += square - own * own
        lean += FOURTH * (a * a * a - b * b * b) - 3 * own * square + 2 * own * own * own
    return Sums(shift, variance, lean)


def read_back(number: float, sums: Sums) -> Triple:
    """Two halves that have these cumulants about a number; a doubt that stands alone gives back its own ends."""
    if sums.variance <= 0:
        return Triple(number, number, number)
    lean = min(max(sums.lean / sums.variance**1.5, -STEEPEST), STEEPEST)
    t = lean / THIRD
    for _ in range(5):
        t = min(max(lean * (1 + WIDER * t * t) ** 1.5 / (THIRD * (1 + SKEW * t * t)), -1.0), 1.0)
    c = sqrt(sums.variance / (1 + WIDER * t * t))
    middle = number + sums.shift - FOURTH * c * t
    return Triple(middle - NINE_IN_TEN * c * (1 - t), middle, middle + NINE_IN_TEN * c * (1 + t))


def triple_of(number: float, doubts: Doubts) -> Triple:
    """What a number may be with all of its doubts together."""
    if len(doubts) == 1:
        ((first, second),) = doubts.values()
        low, high = (first, second) if first < second else (second, first)
        if low <= 0 <= high:
            return Triple(number + low, number, number + high)
    return read_back(number, whole_of(doubts))


def mixed(triples: Sequence[Triple], share: float) -> float:
    """What ``share`` of the values lie below when each of the triples is as likely as the others."""
    ends = [it.low if share < 0.5 else it.high for it in triples]
    below, above = min(ends), max(ends)
    for _ in range(40):
        half = (below + above) / 2
        if sum(it.below(half) for it in triples) < share * len(triples):
            below = half
        else:
            above = half
    return (below + above) / 2


def rough(doubts: Doubts) -> float:
    """About one standard deviation of all doubts together: the step at which slopes are taken."""
    return hypot(*(high - low for low, high in doubts.values())) / (2 * NINE_IN_TEN)


def added_up(parts: Iterable[tuple[str, Ends]], centre: float) -> dict[str, Ends]:
    """The ends of each doubt together, by name; without those that the arithmetic of slopes leaves behind."""
    total: dict[str, Ends] = {}
    for doubt, ends in parts:
        before = total.get(doubt)
        total[doubt] = ends if before is None else (before[0] + ends[0], before[1] + ends[1])
    noise = LEAST_DOUBT * abs(centre)
    return {doubt: (low, high) for doubt, (low, high) in total.items() if abs(low) > noise or abs(high) > noise}


LEAST_DOUBT = 1e-10
"""A doubt that moves a number by a smaller share than this is what the slopes' arithmetic leaves behind."""
