"""How an equation is filed: its units, its source, its formula and the range that the source covers.

An equation is a plain function of keyword-only floats whose annotations carry units. The decorator files a record
beside it and returns the function untouched, so `help`, `doctest` and a debugger see four lines of arithmetic.
"""

from __future__ import annotations

import typing
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from inspect import Parameter, signature
from math import isclose
from typing import Final, TypeVar

PRINTED: Final = "printed"
BY_LIBRARY: Final = "by a library"
BY_HAND: Final = "by hand"
REGRESSION: Final = "regression"

METRIC = "in metric, whoever brews"
"""Stands behind the unit of what is weighed in g or measured in mL: an ounce for a gram makes people ill."""
OWN = "its own"
"""Stands for the unit of an equation that has none of its own: all that goes in has the same, and so has the result."""

UNITS: Final = frozenset(
    (
        OWN,
        *("fraction", "%", "ratio", "standard deviations", "g/g"),
        *("SG", "°P", "°Bx", "points", "L°/kg", "points·gal/lb"),
        *("kg", "g", "mg", "L", "mL", "kg/m³", "g/L", "mg/L", "L/kg", "g/mL", "g/mol"),
        *("min", "1/min", "d", "L/h", "°C", "m", "nm", "kPa", "bar", "kcal", "kJ"),
        *("IBU", "°L", "EBC malt", "MCU", "SRM", "EBC", "A", "°Lintner", "°WK"),
        *("10⁹ cells", "10⁹ cells/g", "packs", "10⁶ cells/(mL·°P)", "vol"),
        *("mg/L CaCO₃", "mEq", "mEq/L", "mEq/mL", "mEq/kg", "mEq/(kg·pH)", "pH·kg/mEq", "pH"),
    )
)
"""Every unit that an equation's argument or its result can have; gravities (SG) are at 20/20 °C."""


@dataclass(frozen=True, slots=True)
class Source:
    """A published work. ``standing`` says how far it was read: "read", "from memory", "common practice, no source"."""

    key: str
    authors: str
    year: str
    title: str
    published: str
    standing: str
    note: str = ""

    @property
    def citation(self) -> str:
        """One line for a page's list of sources."""
        return f"{', '.join(part for part in (self.authors, self.year) if part)}: {self.title}. {self.published}."


@dataclass(frozen=True, slots=True)
class Valid:
    """The span of an argument that the source covers, and how we know."""

    low: float
    high: float
    reason: str

    def holds(self, number: float) -> bool:
        """Whether a number lies in the span; what another unit's conversion leaves behind at an end does not count."""
        ends = (self.low, self.high)
        return self.low <= number <= self.high or any(isclose(number, end, rel_tol=1e-9) for end in ends)


@dataclass(frozen=True, slots=True)
class Argument:
    """What goes into an equation: its unit, its letter in the formula, what it is in words, and the span covered."""

    unit: str
    symbol: str
    words: str
    valid: Valid | None = None


@dataclass(frozen=True, slots=True)
class Equation:
    """All that is known of an equation besides its arithmetic; ``gives`` is the unit of its result.

    ``held`` says what its results are held to in `tests/published`: `PRINTED` ones, some worked out for it, or, of a
    `REGRESSION`, no more than what the formula gave as it was written down from memory.
    ``metric`` is true where what it gives is weighed in grams or measured in millilitres whoever brews.
    """

    name: str
    source: Source
    held: str
    where: str
    formula: str
    arguments: Mapping[str, Argument]
    gives: str
    metric: bool
    function: Callable[..., float]

    def of_unit(self, unit: str) -> Equation:
        """The same for numbers of one unit, where the equation has none of its own."""
        arguments = {name: replace(argument, unit=unit) for name, argument in self.arguments.items()}
        return replace(self, arguments=arguments, gives=unit)


_FILED: dict[str, Equation] = {}

F = TypeVar("F", bound=Callable[..., float])


def name_of(function: Callable[..., float]) -> str:
    """The name an equation is filed under, `module.function`."""
    return f"{function.__module__.rpartition('.')[2]}.{function.__name__}"


def published(*, source: Source, formula: str, where: str = "") -> Callable[[F], F]:
    """File an equation that is held to a result which its source, or somebody else, printed."""
    return equation(source=source, formula=formula, where=where, held=PRINTED)


def checked_by_library(*, source: Source, formula: str, where: str = "") -> Callable[[F], F]:
    """File an equation that is held to what a general-purpose library gives, nobody having printed a result."""
    return equation(source=source, formula=formula, where=where, held=BY_LIBRARY)


def equation(*, source: Source, formula: str, where: str = "", held: str = BY_HAND) -> Callable[[F], F]:
    """File an equation that is held to results worked out by hand, apart from us; the function comes back untouched.

    ``formula`` is the equation as its source prints it, in plain Unicode, and gives what the function gives when it is
    reckoned as it stands: what a letter or a function in it means stands behind it, after a comma (``ρ(x) = …``).
    ``where`` is the page or equation number.
    An argument's annotation tells all of it: ``Annotated[float, unit, its letter in the formula, words, Valid(…)]``,
    the last where the source covers a span only; the result's tells its unit, and `METRIC` where it is that.

    Raises
    ------
    TypeError
        At import: an argument or the result lacks any of it, or has a unit that is none of `UNITS`.
    """

    def file(function: F) -> F:
        name, hints = name_of(function), typing.get_type_hints(function, include_extras=True)
        if any(p.kind is not Parameter.KEYWORD_ONLY for p in signature(function).parameters.values()):
            raise TypeError(f"{name}: arguments are keyword-only")
        if name in _FILED:
            raise TypeError(f"{name} is filed already")
        gives, *behind = getattr(hints.pop("return", None), "__metadata__", ("",))
        arguments = {argument: _argument(hints.get(argument), f"{name}({argument})") for argument in hints}
        if gives not in UNITS or set(arguments) != set(signature(function).parameters):
            raise TypeError(f"{name}: every argument and the result need a unit")
        _FILED[name] = Equation(name, source, held, where, formula, arguments, gives, METRIC in behind, function)
        return function

    return file


def about(function: Callable[..., float]) -> Equation:
    """The record filed for an equation; `KeyError` if it was never filed."""
    return _FILED[name_of(function)]


def called(name: str) -> Equation:
    """The record that is filed under a name; `KeyError` if none is."""
    return _FILED[name]


def filed() -> list[Equation]:
    """Every equation of the modules imported so far, by name."""
    return [_FILED[name] for name in sorted(_FILED)]


def _argument(hint: object, where: str) -> Argument:
    """What an annotation tells of an argument."""
    match getattr(hint, "__metadata__", ()):
        case (str(unit), str(symbol), str(words)) if unit in UNITS:
            return Argument(unit, symbol, words)
        case (str(unit), str(symbol), str(words), Valid() as valid) if unit in UNITS:
            return Argument(unit, symbol, words, valid)
    raise TypeError(f"{where} needs a unit of ours, a symbol, words, and no more than a range behind them")
