"""A number that remembers where it came from and how sure it is.

A `Value` is `Given` (somebody wrote it down) or `Derived` (an equation made it from other values). From that lineage,
and from nothing else, come the working that a page shows and the range of a figure: each named source of doubt is
carried through every equation by its slope, so that two figures that rest on the same doubt move together.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import inf, isfinite, sqrt
from typing import Protocol, TypeAlias, TypeVar, cast

from gristbook.equations.registry import Equation, about
from gristbook.problems import Place
from gristbook.refusal import Refusal
from gristbook.slopes import carried

NINE_IN_TEN = 1.6448536269514722
"""Standard deviations to each side of the middle that hold nine values in ten of a normal distribution."""

_NOT_BELOW_NOTHING = (
    *("ratio", "kg", "g", "mg", "mg/L", "mEq/kg", "L", "mL", "min", "d", "°Lintner"),
    *("IBU", "SRM", "EBC", "MCU", "°L", "10⁹ cells", "packs", "vol"),
)
BOUNDS: Mapping[str, tuple[float, float]] = {
    "fraction": (0.0, 1.0),
    **dict.fromkeys(_NOT_BELOW_NOTHING, (0.0, inf)),
    "%": (0.0, 100.0),
}
"""What a figure can be at all, by unit: the one place where a number is held to physics."""


@dataclass(frozen=True, slots=True)
class Value:
    """A number with its unit, what it is called, and what one standard deviation of each named doubt does to it.

    ``metric`` is true of salts, metabisulfite and acids, weighed in g or measured in mL whoever brews.
    """

    number: float
    unit: str
    label: str
    doubts: tuple[tuple[str, float], ...] = ()
    metric: bool = field(default=False, kw_only=True)

    @property
    def spread(self) -> float:
        """One standard deviation, all doubts together, in the value's own unit."""
        return sqrt(sum(slope * slope for _, slope in self.doubts))

    @property
    def low(self) -> float:
        """Nine batches in ten fall between this and `high`."""
        return max(self.number - NINE_IN_TEN * self.spread, BOUNDS.get(self.unit, (-inf, inf))[0])

    @property
    def high(self) -> float:
        """Nine batches in ten fall between `low` and this."""
        return min(self.number + NINE_IN_TEN * self.spread, BOUNDS.get(self.unit, (-inf, inf))[1])

    @property
    def mover(self) -> str:
        """The doubt that moves the number most, or nothing where it is certain."""
        return max(self.doubts, key=lambda doubt: (abs(doubt[1]), doubt[0]))[0] if self.doubts else ""


@dataclass(frozen=True, slots=True)
class Given(Value):
    """A value that somebody wrote down: ``origin`` says who, in words; ``place`` is the line, where there is one."""

    origin: str = field(default="", compare=False, repr=False)
    place: Place | None = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Note:
    """Something to say about a result: words, one bound or two in their unit, and words after them."""

    before: str
    bounds: tuple[float, ...]
    unit: str
    after: str

    def __str__(self) -> str:
        ends = " to ".join(f"{bound:g}" for bound in self.bounds)
        return f"{self.before} {ends}{f' {self.unit}' if self.unit else ''}{self.after}"


@dataclass(frozen=True, slots=True)
class Derived(Value):
    """A value that an equation made, with the values put into it and what there is to say about the result."""

    equation: Equation | None = field(default=None, compare=False, repr=False)
    inputs: tuple[tuple[str, Value | tuple[Value, ...]], ...] = field(default=(), compare=False, repr=False)
    notes: tuple[Note, ...] = field(default=(), compare=False, repr=False)


Operand: TypeAlias = Value | float | tuple[Value | float, ...]
"""What may be put into an equation: a value, a constant of the method, or a list of either."""

N = TypeVar("N", bound=Value | float)
NC = TypeVar("NC", covariant=True)


class Calculator(Protocol[NC]):
    """What the chain of equations is handed: `apply` for pages, `bare` or `drawn(...)` for solving and sampling."""

    def __call__(
        self,
        equation: Callable[..., float],
        label: str,
        /,
        **values: Operand,
    ) -> NC:
        """Work out an equation from values by argument."""
        ...


def given(
    number: float,
    unit: str,
    label: str,
    *,
    origin: str,
    place: Place | None = None,
    sd: float = 0.0,
    doubt: str = "",
    metric: bool = False,
) -> Given:
    """A value as it was written down; ``sd`` is one standard deviation, under the name ``doubt`` (else the label)."""
    return Given(number, unit, label, ((doubt or label, sd),) if sd else (), origin, place, metric=metric)


def between(low: float, high: float) -> float:
    """One standard deviation of a number that nine times in ten lies between ``low`` and ``high``."""
    return (high - low) / (2 * NINE_IN_TEN)


class Drawn(float):
    """A number of one draw of the doubts, and beside it the number that was planned without them."""

    __slots__ = ("planned",)
    planned: float

    def __new__(cls, number: float, planned: float) -> Drawn:
        """Pair the number of a draw with the planned one."""
        drawn = super().__new__(cls, number)
        drawn.planned = planned
        return drawn


def settled(value: N) -> N:
    """A decision taken before the brew (a weight read off the scale): the same number and lineage, without doubts."""
    if isinstance(value, Value):
        return cast(N, replace(value, doubts=()))
    return cast(N, Drawn(value.planned, value.planned)) if isinstance(value, Drawn) else value


def number(value: Value | float) -> float:
    """The bare number, for a comparison."""
    return value.number if isinstance(value, Value) else value


def apply(equation: Callable[..., float], label: str, /, **values: Operand) -> Value:
    """Work out an equation and keep the lineage.

    Parameters
    ----------
    equation : a filed equation
    label : what the result is called on a page
    values : its arguments; a bare float is a constant of the method, in the argument's unit

    Raises
    ------
    TypeError
        An input's unit is not the one that the equation asks for.
    ValueError
        The equation refuses the numbers, or gives none.
    """
    record = about(equation)
    inputs = tuple((name, _as_values(value, name, record)) for name, value in values.items())
    numbers = {name: _numbers(value) for name, value in inputs}
    raw = worked(equation, numbers, label)
    result, clipped = bounded(raw, record.gives)
    held = (Note("held to", (result,), record.gives, f", the {clipped} there can be"),) if clipped else ()
    notes, doubts = (*_beyond(inputs, record), *held), carried(equation, numbers, inputs, raw)
    metric = record.metric or any(it.metric and it.unit == record.gives for it in _each(inputs))
    return Derived(result, record.gives, label, doubts, record, inputs, notes, metric=metric)


def lineage(*values: Value, ends: Container[int] = ()) -> Iterator[Value]:
    """Every value that ``values`` rest on, each once, what goes in before what comes out; ``ends`` are not opened."""
    seen: set[int] = set()
    stack: list[tuple[Value, bool]] = [(value, False) for value in reversed(values)]
    while stack:
        value, opened = stack.pop()
        if opened:
            yield value
        elif id(value) not in seen:
            seen.add(id(value))
            stack.append((value, True))
            opens = () if id(value) in ends else parents(value)
            stack.extend((parent, False) for parent in reversed(list(opens)))


def parents(value: Value) -> Iterator[Value]:
    """The values that were put into an equation to make this one."""
    return _each(value.inputs if isinstance(value, Derived) else ())


def _each(inputs: tuple[tuple[str, Value | tuple[Value, ...]], ...]) -> Iterator[Value]:
    return (value for _, it in inputs for value in (it if isinstance(it, tuple) else (it,)))


def _as_values(value: Operand, name: str, record: Equation) -> Value | tuple[Value, ...]:
    if isinstance(value, tuple):
        return tuple(_as_value(member, name, record) for member in value)
    return _as_value(value, name, record)


def _as_value(value: Value | float, name: str, record: Equation) -> Value:
    unit = record.units[name]
    if not isinstance(value, Value):
        return Given(float(value), unit, name.replace("_", " "), origin="a constant of the method")
    if value.unit != unit:
        raise TypeError(f"{record.name}({name}) is in {unit}, but {value.label} is in {value.unit}")
    return value


def _numbers(value: Value | tuple[Value, ...]) -> float | tuple[float, ...]:
    return tuple(member.number for member in value) if isinstance(value, tuple) else value.number


def worked(equation: Callable[..., float], numbers: Mapping[str, float | tuple[float, ...]], label: str) -> float:
    """An equation's own number; a `Refusal` where it is none, or more than a computer counts to."""
    try:
        result = equation(**numbers)
    except ArithmeticError:
        result = inf
    if not isfinite(result):
        raise Refusal(f"{label} has no number that is finite")
    return result


def bounded(raw: float, unit: str) -> tuple[float, str]:
    """A number held to what its unit can be at all; `least` or `most` where it had to be, else nothing."""
    low, high = BOUNDS.get(unit, (-inf, inf))
    if raw < low:
        return low, "least"
    if raw > high:
        return high, "most"
    return raw, ""


def _beyond(inputs: tuple[tuple[str, Value | tuple[Value, ...]], ...], record: Equation) -> Iterator[Note]:
    for name, value in inputs:
        valid = record.valid.get(name)
        for member in value if isinstance(value, tuple) else (value,):
            if valid and not valid.holds(member.number):
                words = f"{member.label} is beyond the source's range,"
                yield Note(words, (valid.low, valid.high), member.unit, f": {valid.reason}")
