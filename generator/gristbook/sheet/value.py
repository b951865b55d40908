"""A number that remembers where it came from; how sure it is follows from that, and is worked out when it is asked for.

Each named doubt is carried through every equation, so that two figures that rest on the same doubt move together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import inf, isfinite, sqrt
from typing import TypeAlias

from gristbook.equations.registry import OWN, Equation, about
from gristbook.problems import Place
from gristbook.refusal import Refusal
from gristbook.sheet import signs
from gristbook.sheet.doubts import Doubts, Ends, whole_of
from gristbook.sheet.origin import (
    By,
    Chosen,
    Decided,
    Given,
    Note,
    Origin,
    Read,
    Reckoned,
    Taught,
    Worked,
    beneath,
    numbers_of,
    post_order,
    put_in,
)
from gristbook.sheet.ranges import Sure, mover_of, range_of, sure_of
from gristbook.sheet.units import BOUNDS, factor_of, held, of_product, of_quotient


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
    _sure: Sure | None = field(default=None, init=False, compare=False, repr=False)
    _ends: tuple[float, float] | None = field(default=None, init=False, compare=False, repr=False)

    @property
    def sure(self) -> Sure:
        """How far each doubt moves the number, and what it is by other models; worked out when first asked for."""
        waiting = [self] if self._sure is None else []
        while waiting:
            asked = [it for it in beneath(waiting[-1].origin) if it._sure is None]
            waiting.extend(asked)
            if not asked:
                value = waiting.pop()
                object.__setattr__(value, "_sure", value._sure or sure_of(value))
        assert self._sure is not None, "it was the last of its lineage"
        return self._sure

    @property
    def doubts(self) -> Doubts:
        """How far each doubt moves the number when it lies at its low and at its high end."""
        return self.sure.doubts

    @property
    def ends(self) -> tuple[float, float]:
        """The low and high that nine brews in ten fall between, held to what the unit can be."""
        if self._ends is None:
            object.__setattr__(self, "_ends", range_of(self, *BOUNDS.get(self.unit, (-inf, inf))))
        assert self._ends is not None, "it was just worked out"
        return self._ends

    @property
    def certain(self) -> bool:
        """Whether nothing is in doubt."""
        return not self.doubts and len(self.sure.branches) < 2

    @property
    def spread(self) -> float:
        """One standard deviation, all doubts together and choices of models aside, in the value's own unit."""
        return sqrt(whole_of(self.doubts).variance)

    @property
    def low(self) -> float:
        """Nine brews in ten fall between this and `high`."""
        return self.ends[0]

    @property
    def high(self) -> float:
        """Nine brews in ten fall between `low` and this."""
        return self.ends[1]

    @property
    def mover(self) -> str:
        """The doubt that moves the number most, or nothing where it is certain."""
        return mover_of(self)

    @property
    def made(self) -> Given | Worked | Reckoned:
        """How the number itself was made, behind a decision, a reading's doubt, a lesson or a choice."""
        return self.origin.of.made if isinstance(self.origin, Decided | Read | Taught | Chosen) else self.origin

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
        return reckoned("×", (self, constant(factor, per)), unit)

    def __add__(self, other: Value) -> Value:
        return added((self, other))

    def __sub__(self, other: Value) -> Value:
        if self.unit != other.unit:
            raise TypeError(f"{other.unit} cannot be taken from {self.unit}")
        return reckoned("−", (self, other), self.unit)

    def __mul__(self, other: Value | float) -> Value:
        other = _pure(other)
        unit, factor = of_product(self.unit, other.unit)
        return reckoned("×", (self, other), unit, factor)

    def __truediv__(self, other: Value | float) -> Value:
        other = _pure(other)
        unit, factor = of_quotient(self.unit, other.unit)
        if other.number == 0:
            raise Refusal(f"{self.label or 'a number'} cannot be divided by {other.label or 'one'} of nothing")
        return reckoned("÷", (self, other), unit, factor)


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
    ends: Ends | None = None,
    doubt: str = "",
    metric: bool = False,
    us: bool = False,
) -> Value:
    """A value as it was written down; ``ends`` are how far its low and its high lie from it.

    They go by the name ``doubt``, else by the label, and are held to what the unit can be.
    """
    least, most = BOUNDS.get(unit, (-inf, inf))
    if ends is not None and least <= number <= most:
        ends = (min(0.0, max(ends[0], least - number)), max(0.0, min(ends[1], most - number)))
    return Value(number, unit, label, Given(by, words, place, written, ends, doubt or label, us), metric=metric)


def number(value: Value | float) -> float:
    """The bare number, for a comparison."""
    return value.number if isinstance(value, Value) else value


def settled(value: Value) -> Value:
    """A decision taken before the brew (a weight read off the scale): the same number, without doubts."""
    return replace(value, origin=Decided(value))


def as_it_comes(value: Value, doubts: Doubts) -> Value:
    """The same number as it comes out or is read, with further doubts by name."""
    return replace(value, origin=Read(value, doubts))


def chosen(name: str, by: str, options: Mapping[str, Value]) -> Value:
    """What the model ``by`` makes of a number; what the other ``options`` make of it is in its range."""
    return replace(options[by], origin=Chosen(options[by], name, options))


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
        raw = record.function(**numbers_of(inputs))
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
    return post_order(values, lambda it: not until(it))


def _pure(number: Value | float) -> Value:
    return number if isinstance(number, Value) else constant(float(number), "ratio")


def reckoned(sign: signs.Sign, parts: tuple[Value, ...], unit: str, factor: float = 1.0) -> Value:
    """What plain arithmetic gives, times a ``factor`` of units; a step on the way until it is named."""
    raw = signs.result(sign, tuple(part.number for part in parts), factor)
    metric = any(part.metric and part.unit == unit for part in parts)
    return Value(raw, unit, "", Reckoned(sign, parts, factor), metric=metric)


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
    return reckoned("+", opened, units.pop())


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
