"""How doubts go through an equation: by its slopes to both sides, which is what makes kinks right."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Protocol, TypeAlias

from gristbook.sheet.doubts import Doubts, Ends, added_up, rough


class Doubted(Protocol):
    """A number, and how far each named doubt moves it."""

    @property
    def number(self) -> float:
        """The number."""
        ...

    @property
    def doubts(self) -> Doubts:
        """By name."""
        ...


Numbers: TypeAlias = Mapping[str, float | tuple[float, ...]]
Inputs: TypeAlias = "tuple[tuple[str, Doubted | tuple[Doubted, ...]], ...]"
Slopes: TypeAlias = tuple[float, float]
"""What a result changes by for each unit that an input grows by, and for each that it falls by."""

FEW = 50
"""Members of a list that doubts are carried through one by one; a longer list's all at once."""


def carried(equation: Callable[..., float], numbers: Numbers, inputs: Inputs) -> dict[str, Ends]:
    """The doubts of a result: each input's ends times the equation's slope to that side."""
    centre = equation(**numbers)
    return added_up(_parts(_Moved(equation, numbers, centre), inputs), centre)


@dataclass(frozen=True, slots=True)
class _Moved:
    """An equation at its own numbers, and what comes of moving one of them."""

    equation: Callable[..., float]
    numbers: Numbers
    centre: float

    def by(self, name: str, shifts: Mapping[int, float]) -> float | None:
        """How far the result moves with some members of an input; `None` where the equation refuses."""
        whole = self.numbers[name]
        put: float | tuple[float, ...]
        if isinstance(whole, tuple):
            put = tuple(x + shifts.get(i, 0.0) for i, x in enumerate(whole))
        else:
            put = whole + shifts[0]
        try:
            result = self.equation(**{**self.numbers, name: put})
        except (ValueError, ArithmeticError):  # outside of what its mathematics allow, too
            return None
        return result - self.centre if isfinite(result) else None


def _parts(moved: _Moved, inputs: Inputs) -> Iterator[tuple[str, Ends]]:
    for name, value in inputs:
        members = value if isinstance(value, tuple) else (value,)
        if len(members) > FEW:
            yield from _along(moved, name, members)
            continue
        for index, member in enumerate(members):
            if member.doubts:
                slopes = _slopes(moved, name, index, member)
                for doubt, ends in member.doubts.items():
                    yield doubt, turned(ends, slopes)


def turned(ends: Ends, slopes: Slopes) -> Ends:
    """What the two ends of a doubt do behind a step of these slopes."""
    (low, high), (up, down) = ends, slopes
    return low * (up if low > 0 else down), high * (up if high > 0 else down)


def _slopes(moved: _Moved, name: str, index: int, member: Doubted) -> Slopes:
    """At about one standard deviation to each side; where the equation refuses one of them, the other's."""
    step = max(rough(member.doubts), 1e-9 * abs(member.number))
    above, below = moved.by(name, {index: step}), moved.by(name, {index: -step})
    if above is None and below is None:
        step *= 1e-3
        above, below = moved.by(name, {index: step}), moved.by(name, {index: -step})
    up, down = (above or 0.0) / step, -(below or 0.0) / step
    return (up if above is not None else down), (down if below is not None else up)


def _along(moved: _Moved, name: str, members: tuple[Doubted, ...]) -> Iterator[tuple[str, Ends]]:
    """What each doubt of a long list does to the result, all members moved by it at once.

    One after another would work the equation out for every member over the whole list: a book of a thousand lines
    would take a million.
    """
    shares: dict[str, list[tuple[int, Ends]]] = {}
    for index, member in enumerate(members):
        for doubt, ends in member.doubts.items():
            shares.setdefault(doubt, []).append((index, ends))
    for doubt, of in shares.items():
        low, high = (moved.by(name, {index: ends[side] for index, ends in of}) for side in (0, 1))
        yield doubt, (low if low is not None else -(high or 0.0), high if high is not None else -(low or 0.0))
