"""What the parts of a printed formula do with numbers: letters, lists, tables, integrals, and what is to be solved."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace

PANELS = 256  # of Simpson's rule

Numbers = Mapping[str, float | tuple[float, ...]]
"""What is put into a formula, by its letters: a number, or a list of them for a letter with an index."""


class NotASum(Exception):
    """It cannot be worked out as it is printed: words, a letter that stands for nothing, a number that has no place."""


@dataclass(frozen=True, slots=True)
class Node:
    """A part of a formula: what it does in a scope, its letters, and the indices that no sum in it goes over."""

    do: Callable[[Scope], float]
    letters: frozenset[str] = frozenset()
    free: frozenset[str] = frozenset()


def of(do: Callable[..., float], *parts: Node) -> Node:
    """What a function makes of parts."""
    letters, free = (
        frozenset[str]().union(*sets) for sets in zip(*((it.letters, it.free) for it in parts), strict=True)
    )
    return Node(lambda scope: do(*(part.do(scope) for part in parts)), letters, free)


@dataclass(frozen=True, slots=True)
class Scope:
    """What letters stand for: numbers, what is told of them, and the place in the lists that are gone through."""

    numbers: Numbers
    told: Mapping[str, tuple[str, Node]]
    at: Mapping[str, int] = field(default_factory=dict)

    def of(self, name: str) -> float:
        found = self.numbers.get(name)
        if isinstance(found, tuple) and name[-1] in self.at:
            return found[self.at[name[-1]]]
        if isinstance(found, float | int):
            return found
        if name in self.told and not self.told[name][0]:
            return self.told[name][1].do(self)
        if name == "e":
            return math.e
        raise NotASum(f"{name} stands for nothing there")

    def called(self, name: str, given: float) -> float:
        parameter, body = self.told.get(name, ("", None))
        if not parameter or body is None:
            raise NotASum(f"{name}( ) stands for nothing")
        return body.do(self.put(parameter, given))

    def put(self, name: str, number: float) -> Scope:
        return replace(self, numbers={**self.numbers, name: number})

    def each(self, index: str) -> Iterable[Scope]:
        lengths = {len(it) for name, it in self.numbers.items() if isinstance(it, tuple) and name[-1] == index}
        if len(lengths) != 1:
            raise NotASum(f"lists of {index} have {sorted(lengths)} members")
        return (replace(self, at={**self.at, index: at}) for at in range(lengths.pop()))


def pieces(holds: Callable[[float, float], bool]) -> Callable[..., float]:
    """The first of the rows whose end a number does not pass, else the last number."""

    def found(here: float, last: float, *rows: float) -> float:
        return next((it for it, end in zip(rows[::2], rows[1::2], strict=True) if holds(here, end)), last)

    return found


def between(here: float, _: float, *rows: float) -> float:
    """Along straight lines between the rows; at both ends no further."""
    values, places = rows[::2], rows[1::2]
    here = min(max(here, places[0]), places[-1])
    after = max(1, bisect_left(places, here))
    share = (here - places[after - 1]) / (places[after] - places[after - 1])
    return values[after - 1] + (values[after] - values[after - 1]) * share


def integral(curve: Callable[[float], float], end: float) -> float:
    """From nothing to an end, by Simpson's rule."""
    step = end / PANELS
    at = [curve(n * step) for n in range(PANELS + 1)]
    return step / 3 * (at[0] + at[-1] + 4 * math.fsum(at[1:-1:2]) + 2 * math.fsum(at[2:-1:2]))


def zero(curve: Callable[[float], float], near: float) -> float:
    """Where a curve goes through nothing, by the secants from a place near by."""
    last, here = near, near * (1 + 1e-6) + 1e-9
    before, now = curve(last), curve(here)
    for _ in range(100):
        if now == before or abs(here - last) <= 1e-14 * abs(here):
            return here
        last, here, before = here, here - now * (here - last) / (now - before), now
        now = curve(here)
    raise NotASum("it has no result near by")
