"""How doubts go through an equation: by its slopes, worked out from its own numbers on both sides."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from math import isfinite, nan
from typing import Protocol, TypeAlias


class Doubted(Protocol):
    """A number, what one standard deviation of each named doubt does to it, and of all of them together."""

    @property
    def number(self) -> float:
        """The number."""
        ...

    @property
    def doubts(self) -> Mapping[str, float]:
        """By name."""
        ...

    @property
    def spread(self) -> float:
        """One standard deviation."""
        ...


Inputs: TypeAlias = "tuple[tuple[str, Doubted | tuple[Doubted, ...]], ...]"

FEW = 50
"""Members of a list that doubts are carried through one by one; a longer list's all at once."""

LEAST_DOUBT = 1e-10
"""A doubt that moves a number by a smaller share than this is what the slopes' arithmetic leaves behind."""


def carried(
    equation: Callable[..., float],
    numbers: Mapping[str, float | tuple[float, ...]],
    inputs: Inputs,
    centre: float,
) -> dict[str, float]:
    """The doubts of the result: each input's doubts times the equation's slope in that input."""
    total: dict[str, float] = {}
    for name, value in inputs:
        if isinstance(value, tuple) and len(value) > FEW:
            for doubt, size in _along(equation, numbers, name, value, centre):
                total[doubt] = total.get(doubt, 0.0) + size
            continue
        for index, member in enumerate(value if isinstance(value, tuple) else (value,)):
            if member.doubts:
                slope = _slope(equation, numbers, name, index, member, centre)
                for doubt, size in member.doubts.items():
                    total[doubt] = total.get(doubt, 0.0) + slope * size
    return without_noise(total, centre)


def without_noise(doubts: Mapping[str, float], centre: float) -> dict[str, float]:
    """Doubts by name, without those that the slopes' arithmetic leaves behind."""
    noise = LEAST_DOUBT * abs(centre)
    return {doubt: doubts[doubt] for doubt in sorted(doubts) if abs(doubts[doubt]) > noise}


def _along(
    equation: Callable[..., float],
    numbers: Mapping[str, float | tuple[float, ...]],
    name: str,
    members: tuple[Doubted, ...],
    centre: float,
) -> Iterator[tuple[str, float]]:
    """What each doubt of a long list does to the result, all members moved by it at once.

    One after another would work the equation out for every member over the whole list: a book of a thousand lines
    would take a million.
    """
    shares: dict[str, list[tuple[int, float]]] = {}
    for index, member in enumerate(members):
        for doubt, size in member.doubts.items():
            shares.setdefault(doubt, []).append((index, size))
    whole = numbers[name]

    def at(shift: float) -> float:
        moved = list(whole) if isinstance(whole, tuple) else [whole]
        for index, size in shares[doubt]:
            moved[index] += shift * size
        try:
            return equation(**{**numbers, name: tuple(moved)})
        except (ValueError, ArithmeticError):
            return nan

    for doubt in shares:
        above, below = at(1e-3) - centre, centre - at(-1e-3)
        sizes = [side / 1e-3 for side in (above, below) if isfinite(side)]
        yield doubt, sum(sizes) / len(sizes) if sizes else 0.0


def _slope(
    equation: Callable[..., float],
    numbers: Mapping[str, float | tuple[float, ...]],
    name: str,
    index: int,
    member: Doubted,
    centre: float,
) -> float:
    """Central difference; one-sided where the equation refuses the other side.

    At the edge of a band of a table, a small step would take the whole jump for a slope: there the step is the spread.
    """
    step = max(1e-3 * member.spread, 1e-9 * abs(member.number))

    def at(shift: float) -> float | None:
        whole = numbers[name]
        moved = (
            tuple(x + shift if i == index else x for i, x in enumerate(whole))
            if isinstance(whole, tuple)
            else whole + shift
        )
        try:
            result = equation(**{**numbers, name: moved})
        except (ValueError, ArithmeticError):  # outside of what its mathematics allow, too
            return None
        return result if isfinite(result) else None

    above, below = at(step), at(-step)
    if above is not None and below is not None:
        up, down = above - centre, centre - below
        if abs(up - down) > 0.5 * max(abs(up), abs(down)):  # a kink, a peak, or a jump
            far_up, far_down = at(member.spread), at(-member.spread)
            if far_up is not None and far_down is not None:
                changes = max(far_up, centre, far_down) - min(far_up, centre, far_down)
                if abs(up + down) > 0.1 * changes:  # of a whole spread's change in a thousandth of it
                    return (far_up - far_down) / (2 * member.spread)
        return (above - below) / (2 * step)
    if above is not None:
        return (above - centre) / step
    return (centre - below) / step if below is not None else 0.0
