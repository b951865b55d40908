"""How a published equation is filed: its units, its source, its formula and the range that the source covers.

An equation is a plain function of keyword-only floats whose annotations carry units. The decorator files a record
beside it and returns the function untouched, so `help`, `doctest` and a debugger see four lines of arithmetic.
"""

from __future__ import annotations

import typing
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from inspect import Parameter, signature
from math import isclose
from typing import Annotated, TypeVar

METRIC = "in metric, whoever brews"
"""Stands behind the unit of salts, metabisulfite and acids: an ounce for a gram makes people ill."""

SpecificGravity = Annotated[float, "SG"]
DegreesPlato = Annotated[float, "°P"]
Fraction = Annotated[float, "fraction"]
Percent = Annotated[float, "%"]
Ratio = Annotated[float, "ratio"]
StandardDeviations = Annotated[float, "standard deviations"]
Kilograms = Annotated[float, "kg"]
Grams = Annotated[float, "g"]
Milligrams = Annotated[float, "mg"]
Litres = Annotated[float, "L"]
GramsOnAScale = Annotated[float, "g", METRIC]
GramsPerLitre = Annotated[float, "g/L"]
LitresPerKilogram = Annotated[float, "L/kg"]
LitresPerHour = Annotated[float, "L/h"]
MillilitresPerGram = Annotated[float, "mL/g"]
KilogramsPerCubicMetre = Annotated[float, "kg/m³"]
Minutes = Annotated[float, "min"]
PerMinute = Annotated[float, "1/min"]
Days = Annotated[float, "d"]
Celsius = Annotated[float, "°C"]
Fahrenheit = Annotated[float, "°F"]
Metres = Annotated[float, "m"]
Kilopascals = Annotated[float, "kPa"]
Bar = Annotated[float, "bar"]
BitternessUnits = Annotated[float, "IBU"]
Lovibond = Annotated[float, "°L"]
MaltEbc = Annotated[float, "EBC malt"]
MaltColourUnits = Annotated[float, "MCU"]
Srm = Annotated[float, "SRM"]
Ebc = Annotated[float, "EBC"]
Lintner = Annotated[float, "°Lintner"]
WindischKolbach = Annotated[float, "°WK"]
Nanometres = Annotated[float, "nm"]
Centimetres = Annotated[float, "cm"]
Absorbance = Annotated[float, "A"]
BillionCells = Annotated[float, "10⁹ cells"]
BillionCellsPerGram = Annotated[float, "10⁹ cells/g"]
BillionCellsPerPack = Annotated[float, "10⁹ cells/pack"]
Packs = Annotated[float, "packs"]
PitchRate = Annotated[float, "10⁶ cells/(mL·°P)"]
CarbonDioxideVolumes = Annotated[float, "vol"]
GramsPerGram = Annotated[float, "g/g"]
GramsPerMole = Annotated[float, "g/mol"]
GravityPoints = Annotated[float, "points"]
Kilocalories = Annotated[float, "kcal"]
Kilojoules = Annotated[float, "kJ"]
PointsPerPoundGallon = Annotated[float, "points·gal/lb"]
LitreDegreesPerKilogram = Annotated[float, "L°/kg"]
Millilitres = Annotated[float, "mL"]
MillilitresInASyringe = Annotated[float, "mL", METRIC]
GramsPerMillilitre = Annotated[float, "g/mL"]
Bottles = Annotated[float, "bottles"]
Pieces = Annotated[float, "pieces"]
Money = Annotated[float, "money"]
MoneyPerKilogram = Annotated[float, "money/kg"]
MoneyPerLitre = Annotated[float, "money/L"]
MoneyEach = Annotated[float, "money each"]
InoculationRate = Annotated[float, "10⁶ cells/mL"]
MilligramsPerLitre = Annotated[float, "mg/L"]
AsCalciumCarbonate = Annotated[float, "mg/L CaCO₃"]
Milliequivalents = Annotated[float, "mEq"]
MilliequivalentsPerLitre = Annotated[float, "mEq/L"]
MilliequivalentsPerMillilitre = Annotated[float, "mEq/mL"]
MilliequivalentsPerKilogram = Annotated[float, "mEq/kg"]
Buffering = Annotated[float, "mEq/(kg·pH)"]
AcidityShift = Annotated[float, "pH·kg/mEq"]
Acidity = Annotated[float, "pH"]
DegreesBrix = Annotated[float, "°Bx"]


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
class Equation:
    """All that is known of an equation besides its arithmetic. ``units`` and ``symbols`` go by argument.

    ``metric`` is true where what it gives is weighed in grams or measured in millilitres whoever brews.
    """

    name: str
    source: Source
    where: str
    formula: str
    units: Mapping[str, str]
    symbols: Mapping[str, str]
    gives: str
    valid: Mapping[str, Valid]
    metric: bool
    function: Callable[..., float]


_FILED: dict[str, Equation] = {}

F = TypeVar("F", bound=Callable[..., float])


def name_of(function: Callable[..., float]) -> str:
    """The name an equation is filed under, `module.function`."""
    return f"{function.__module__.rpartition('.')[2]}.{function.__name__}"


def equation(
    *,
    source: Source,
    formula: str,
    symbols: Mapping[str, str],
    where: str = "",
    valid: Mapping[str, Valid] | None = None,
) -> Callable[[F], F]:
    """File a published equation; the function itself comes back untouched.

    ``formula`` is the equation as its source prints it, in plain Unicode; ``symbols`` says which letter of the formula
    each argument is; ``where`` is the page or equation number; ``valid`` the span of each argument that it covers.

    Raises
    ------
    TypeError
        At import: an argument or the result has no unit, or a symbol or a range names no argument.
    """

    def file(function: F) -> F:
        name, hints = name_of(function), typing.get_type_hints(function, include_extras=True)
        units = {argument: _unit(hint, f"{name}({argument})") for argument, hint in hints.items()}
        gives = units.pop("return", None)
        if gives is None or set(units) != set(signature(function).parameters):
            raise TypeError(f"{name}: every argument and the result need a unit")
        if any(p.kind is not Parameter.KEYWORD_ONLY for p in signature(function).parameters.values()):
            raise TypeError(f"{name}: arguments are keyword-only")
        metric = METRIC in getattr(hints["return"], "__metadata__", ())
        if set(symbols) != set(units) or not set(valid or {}) <= set(units):
            raise TypeError(f"{name}: symbols must name every argument, and ranges no other")
        if name in _FILED:
            raise TypeError(f"{name} is filed already")
        _FILED[name] = Equation(
            name, source, where, formula, units, dict(symbols), gives, dict(valid or {}), metric, function
        )
        return function

    return file


def about(function: Callable[..., float]) -> Equation:
    """The record filed for an equation; `KeyError` if it was never filed."""
    return _FILED[name_of(function)]


def filed() -> list[Equation]:
    """Every equation of the modules imported so far, by name."""
    return [_FILED[name] for name in sorted(_FILED)]


def _unit(hint: object, where: str) -> str:
    """The unit in an annotation: of a float, or of each member of a tuple of floats."""
    if typing.get_origin(hint) is tuple:
        hint = typing.get_args(hint)[0]
    metadata = getattr(hint, "__metadata__", ())
    if not metadata or not isinstance(metadata[0], str):
        raise TypeError(f"{where} has no unit in its annotation")
    return metadata[0]
