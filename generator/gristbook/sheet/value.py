"""A number that remembers where it came from; how sure it is follows from that, and is worked out when it is asked for.

Each named source of doubt is carried through every equation by its slope, so that two figures that rest on the same
doubt move together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import fsum, inf, isfinite, sqrt
from typing import TypeAlias

from gristbook.equations.registry import OWN, Equation, about
from gristbook.problems import Place
from gristbook.refusal import Refusal
from gristbook.sheet.origin import By, Decided, Given, Note, Origin, Read, Reckoned, Taught, Worked, put_in
from gristbook.sheet.slopes import carried, without_noise
from gristbook.sheet.units import BOUNDS, factor_of, held, of_product, of_quotient

NINE_IN_TEN = 1.6448536269514722
"""Standard deviations to each side of the middle that hold nine values in ten of a normal distribution."""

Doubts: TypeAlias = Mapping[str, float]
"""What one standard deviation of each named doubt does to a number."""


@dataclass(frozen=True, slots=True)
class Value:
    """A number with its unit, what it is called ("" for a step on the way), and where it comes from.

    ``metric`` is true of salts, metabisulfite and acids, weighed in g or measured in mL whoever brews. Values add up,
    multiply and divide as numbers do, by the one table of units; a bare number is a pure one.
    """

    number: float
    unit: str
    label: str
    origin: Origin = field(compare=False, repr=False)
    metric: bool = field(default=False, kw_only=True)
    _doubts: Doubts | None = field(default=None, init=False, compare=False, repr=False)

    @property
    def doubts(self) -> Doubts:
        """What one standard deviation of each doubt does to the number; worked out once, when first asked for."""
        if self._doubts is None:
            for value in lineage(
                self, until=lambda it: it._doubts is not None or isinstance(it.origin, Decided | Taught)
            ):
                if value._doubts is None:
                    object.__setattr__(value, "_doubts", _doubts_of(value))
        return self._doubts or {}

    @property
    def spread(self) -> float:
        """One standard deviation, all doubts together, in the value's own unit."""
        return sqrt(sum(size * size for size in self.doubts.values()))

    @property
    def ends(self) -> tuple[float, float]:
        """The low and high that nine batches in ten fall between, held to what the unit can be."""
        reach, (least, most) = NINE_IN_TEN * self.spread, BOUNDS.get(self.unit, (-inf, inf))
        return max(self.number - reach, least), min(self.number + reach, most)

    @property
    def low(self) -> float:
        """Nine batches in ten fall between this and `high`."""
        return self.ends[0]

    @property
    def high(self) -> float:
        """Nine batches in ten fall between `low` and this."""
        return self.ends[1]

    @property
    def mover(self) -> str:
        """The doubt that moves the number most, or nothing where it is certain."""
        return max(self.doubts.items(), key=lambda doubt: (abs(doubt[1]), doubt[0]))[0] if self.doubts else ""

    @property
    def made(self) -> Given | Worked | Reckoned:
        """How the number itself was made, behind a decision, a reading's doubt or a lesson."""
        return self.origin.of.made if isinstance(self.origin, Decided | Read | Taught) else self.origin

    @property
    def place(self) -> Place | None:
        """The line that it was written on, where it is given and there is one."""
        return self.made.place if isinstance(self.made, Given) else None

    def called(self, label: str, *, metric: bool = False) -> Value:
        """The same number under a name of its own; plain arithmetic is held to what its unit can be when it is named.

        ``metric`` says that it is a salt, a metabisulfite or an acid, where that does not show in what it is made of.

        Raises
        ------
        Refusal
            It has no number that is finite.
        """
        number, origin = self.number, self.origin
        if isinstance(origin, Reckoned) and not self.label:
            number, notes = _held(number, self.unit, label)
            origin = replace(origin, notes=notes) if notes else origin
        return Value(number, self.unit, label, origin, metric=metric or self.metric)

    def told_in(self, unit: str) -> Value:
        """The same amount in another unit.

        Raises
        ------
        TypeError
            The one is not so many of the other.
        """
        factor, per = factor_of(self.unit, unit)
        return reckoned("×", (self, constant(factor, per)), self.number * factor, unit, (factor, self.number))

    def __add__(self, other: Value) -> Value:
        return added((self, other))

    def __sub__(self, other: Value) -> Value:
        if self.unit != other.unit:
            raise TypeError(f"{other.unit} cannot be taken from {self.unit}")
        return reckoned("−", (self, other), self.number - other.number, self.unit, (1.0, -1.0))

    def __mul__(self, other: Value | float) -> Value:
        other = _pure(other)
        unit, factor = of_product(self.unit, other.unit)
        slopes = (factor * other.number, factor * self.number)
        return reckoned("×", (self, other), self.number * other.number * factor, unit, slopes)

    def __truediv__(self, other: Value | float) -> Value:
        other = _pure(other)
        unit, factor = of_quotient(self.unit, other.unit)
        if other.number == 0:
            raise Refusal(f"{self.label or 'a number'} cannot be divided by {other.label or 'one'} of nothing")
        quotient = self.number / other.number * factor
        return reckoned("÷", (self, other), quotient, unit, (factor / other.number, -quotient / other.number))


Operand: TypeAlias = Value | float | tuple[Value | float, ...]
"""What may be put into an equation: a value, a constant of the method, or a list of either."""


def given(
    number: float,
    unit: str,
    label: str,
    *,
    words: str,
    by: By = By.METHOD,
    place: Place | None = None,
    written: str = "",
    sd: float = 0.0,
    doubt: str = "",
    metric: bool = False,
) -> Value:
    """A value as it was written down; ``sd`` is one standard deviation, under the name ``doubt`` (else the label)."""
    return Value(number, unit, label, Given(by, words, place, written, sd, doubt or label), metric=metric)


def number(value: Value | float) -> float:
    """The bare number, for a comparison."""
    return value.number if isinstance(value, Value) else value


def between(low: float, high: float) -> float:
    """One standard deviation of a number that nine times in ten lies between ``low`` and ``high``."""
    return (high - low) / (2 * NINE_IN_TEN)


def settled(value: Value) -> Value:
    """A decision taken before the brew (a weight read off the scale): the same number, without doubts."""
    return replace(value, origin=Decided(value))


def apply(equation: Callable[..., float], label: str, /, **values: Operand) -> Value:
    """Work out a published equation and keep the lineage.

    Parameters
    ----------
    equation : a filed equation
    label : what the result is called on a page
    values : its arguments; a bare float is a constant of the method, in the argument's unit

    Raises
    ------
    TypeError
        An input's unit is not the one that the equation asks for.
    Refusal
        The equation refuses the numbers, or gives none.
    """
    record = about(equation)
    if record.gives == OWN:
        record = record.of_unit(next(value.unit for value in values.values() if isinstance(value, Value)))
    inputs = tuple((name, _as_values(value, name, record)) for name, value in values.items())
    try:
        raw = record.function(**_numbers(inputs))
    except ArithmeticError:  # more than a computer counts to
        raw = inf
    result, notes = _held(raw, record.gives, label)
    origin = Worked(record, inputs, (*_beyond(inputs, record), *notes))
    metric = record.metric or any(it.metric and it.unit == record.gives for it in put_in(origin))
    return Value(result, record.gives, label, origin, metric=metric)


def constant(number: float, unit: str, label: str = "") -> Value:
    """A plain number of the method, of which there is nothing to say."""
    return Value(number, unit, label, Given(By.CONSTANT, "a constant of the method"))


def taught(value: Value) -> bool:
    """Whether batches have taught it, so that its lineage is its brewhouse's and not the plan's."""
    return isinstance(value.origin, Taught)


def lineage(*values: Value, until: Callable[[Value], bool] = taught) -> Iterator[Value]:
    """Every value that ``values`` rest on, each once, what goes in before what comes out.

    A value for which ``until`` holds is given, and not opened.
    """
    seen: set[int] = set()
    stack: list[tuple[Value, bool]] = [(value, False) for value in reversed(values)]
    while stack:
        value, opened = stack.pop()
        if opened:
            yield value
        elif id(value) not in seen:
            seen.add(id(value))
            stack.append((value, True))
            if not until(value):
                stack.extend((parent, False) for parent in reversed([*put_in(value.origin)]))


def _pure(number: Value | float) -> Value:
    return number if isinstance(number, Value) else constant(float(number), "ratio")


def reckoned(sign: str, parts: tuple[Value, ...], raw: float, unit: str, slopes: tuple[float, ...]) -> Value:
    """What plain arithmetic gives, a step on the way until it is named; ``slopes`` go by part."""
    metric = any(part.metric and part.unit == unit for part in parts)
    return Value(raw, unit, "", Reckoned(sign, parts, slopes), metric=metric)


def added(parts: tuple[Value, ...]) -> Value:
    """Values of one unit added up; what is itself a sum without a name is opened.

    Raises
    ------
    TypeError
        Their units differ.
    """
    opened = tuple(part for whole in parts for part in _terms(whole))
    units = {part.unit for part in opened}
    if len(units) != 1:
        raise TypeError(f"{', '.join(sorted(units))} do not add up")
    return reckoned("+", opened, fsum(part.number for part in opened), units.pop(), (1.0,) * len(opened))


def _terms(value: Value) -> tuple[Value, ...]:
    is_sum = isinstance(value.origin, Reckoned) and value.origin.sign == "+" and not value.label
    return value.origin.parts if is_sum else (value,)  # type: ignore[union-attr]


def _as_values(value: Operand, name: str, record: Equation) -> Value | tuple[Value, ...]:
    if isinstance(value, tuple):
        return tuple(_as_value(member, name, record) for member in value)
    return _as_value(value, name, record)


def _as_value(value: Value | float, name: str, record: Equation) -> Value:
    unit = record.arguments[name].unit
    if not isinstance(value, Value):
        return constant(float(value), unit, name.replace("_", " "))
    if value.unit != unit:
        raise TypeError(f"{record.name}({name}) is in {unit}, but {value.label} is in {value.unit}")
    return value


def _numbers(inputs: tuple[tuple[str, Value | tuple[Value, ...]], ...]) -> dict[str, float | tuple[float, ...]]:
    return {
        name: tuple(member.number for member in value) if isinstance(value, tuple) else value.number
        for name, value in inputs
    }


def _held(raw: float, unit: str, label: str) -> tuple[float, tuple[Note, ...]]:
    """A result held to what its unit can be, with a note where it had to be."""
    if not isfinite(raw):
        raise Refusal(f"{label or 'a result'} has no number that is finite")
    result, end = held(raw, unit)
    return result, (Note("held to", (result,), unit, f", the {end} there can be"),) if end else ()


def _beyond(inputs: tuple[tuple[str, Value | tuple[Value, ...]], ...], record: Equation) -> Iterator[Note]:
    for name, value in inputs:
        valid = record.arguments[name].valid
        for member in value if isinstance(value, tuple) else (value,):
            if valid and not valid.holds(member.number):
                words = f"{member.label} is beyond the source's range,"
                yield Note(words, (valid.low, valid.high), member.unit, f": {valid.reason}")


def _doubts_of(value: Value) -> Doubts:
    """The doubts of a value whose inputs know theirs."""
    match value.origin:
        case Given(sd=sd, doubt=doubt) | Taught(sd=sd, doubt=doubt):
            return {doubt: sd} if sd else {}
        case Decided():
            return {}
        case Read(of=of, sd=sd, doubt=doubt):
            return {**of.doubts, doubt: sd}
        case Reckoned(parts=parts, slopes=slopes):
            moved: dict[str, float] = {}
            for part, slope in zip(parts, slopes, strict=True):
                for doubt, own in part.doubts.items():
                    moved[doubt] = moved.get(doubt, 0.0) + slope * own
            return without_noise(moved, value.number)
        case Worked(equation=equation, inputs=inputs):
            numbers = _numbers(inputs)
            return carried(equation.function, numbers, inputs, equation.function(**numbers))
