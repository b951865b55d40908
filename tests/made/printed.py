"""Workings read back from a page: the lines under a formula, and sums of numbers with their units, which pint reads.

Of the units that pint has not, each is one of its own, but for what the trade defines by others: a pack, a bottle and a
piece are counts, and a unit of bitterness is a milligram of iso-alpha acids in a litre.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from math import ceil, floor, log10
from typing import TypeAlias

import pint
import sums
from lxml import html
from terms import NotASum

Quantity: TypeAlias = "pint.Quantity[float]"

UREG: pint.UnitRegistry[float] = pint.UnitRegistry()
for _name in ("money", "milliequivalent", "as_carbonate", "cell", "mcu", "srm", "ebc", "plato", "lovibond", "volumes"):
    UREG.define(f"{_name} = [{_name}]")

UNITS: Mapping[str, str] = {
    **{unit: unit for unit in ("kg", "g", "mg", "L", "mL", "g/L", "mg/L", "mg/g", "L/kg", "mL/g", "L/h", "min", "bar")},
    **{unit: unit for unit in ("money", "money/kg", "money/L", "volumes", "kcal")},
    **dict.fromkeys(("", "g/g", "packs", "bottles", "pieces"), "dimensionless"),
    "%": "percent",
    "mL/100 g": "mL/hectogram",
    "days": "day",
    "°C": "delta_degC",
    "°P": "plato",
    "°L": "lovibond",
    "IBU": "mg/L",
    "MCU": "mcu",
    "SRM": "srm",
    "EBC": "ebc",
    "mEq": "milliequivalent",
    "mEq/mL": "milliequivalent/mL",
    "mg/L CaCO₃": "mg/L * as_carbonate",
    "10⁹ cells": "1e9 cell",
    "10⁹ cells/mL": "1e9 cell/mL",
    "10⁹ cells/pack": "1e9 cell",
    "money each": "money",
}
"""A unit as it is printed, and pint's words for it."""

_DOWN = str.maketrans("−⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "--0123456789")
_NUMBER = r"−?\d+(?:\.\d+)?(?:·10⁻?[⁰¹²³⁴-⁹]+)?"
_UNIT = "|".join(re.escape(unit) for unit in sorted(filter(None, UNITS), key=len, reverse=True))
_TOKEN = re.compile(
    rf"(?P<number>{_NUMBER})(?:\xa0(?P<unit>{_UNIT})(?=[ )]|$))?|(?P<sign>in steps of|rounded up|[+−×÷()])| "
)
_LETTER = re.compile(r"(?:^|, )(?P<letter>[^\s,=]+)\xa0=\xa0")
_UNIT_OF_LETTER = re.compile(rf", (?P<unit>{_UNIT})(?=: |; ?$|\.$)")


@dataclass(frozen=True, slots=True)
class Line:
    """What is printed of one figure of one kettle: its formula, which plain arithmetic has not, and the numbers.

    ``units`` are those of the formula's letters, where their words end with one.
    """

    formula: str
    units: tuple[tuple[str, str], ...]
    put_in: str
    result: str

    @property
    def number(self) -> float:
        """The result."""
        return number(self.result.partition("\xa0")[0])

    @property
    def digit(self) -> float:
        """One of the last digit that the result is printed with."""
        return last_digit(self.result.partition("\xa0")[0])

    def letters(self) -> dict[str, float | tuple[float, ...]]:
        """The numbers put into the formula; of a sum of numbers with units, what it is in the unit of its letter."""
        units, found = dict(self.units), [*_LETTER.finditer(self.put_in)]
        ends = [*(it.start() for it in found[1:]), len(self.put_in)]
        put: dict[str, float | tuple[float, ...]] = {}
        for it, end in zip(found, ends, strict=True):
            letter, numbers = it["letter"], self.put_in[it.end() : end]
            each = tuple(in_unit(text, units[letter]) for text in numbers.split(", ") if text)
            put[letter] = each if letter[-1] in "ᵢⱼ" else each[0]
        return put

    def worked_out(self) -> float:
        """What comes of the numbers put in, by the formula or in the unit of the result.

        Raises
        ------
        NotASum
            They are no sum as they are printed.
        pint.DimensionalityError
            Their units do not go together, or do not make the one that was wanted.
        """
        if self.formula:
            return sums.worked_out(self.formula, self.letters(), self.number)
        return in_unit(self.put_in, self.result.partition("\xa0")[2])


def number(text: str) -> float:
    """A printed number.

    >>> number("−2.5·10⁻³")
    -0.0025
    """
    mantissa, _, power = text.translate(_DOWN).partition("·10")
    return float(f"{mantissa}e{power or 0}")


def last_digit(text: str) -> float:
    """One of the last digit that a result was printed with: of four digits, of which zeros at the end are dropped, or
    of all that stand there where these are more.

    >>> last_digit("60"), last_digit("1.04312"), last_digit("154321"), last_digit("2.5·10⁻³")
    (0.01, 1e-05, 1.0, 1e-06)
    """
    mantissa, _, power = text.translate(_DOWN).partition("·10")
    last, size = 10.0 ** (int(power or 0) - len(mantissa.partition(".")[2])), abs(number(text))
    return min(last, 10.0 ** (floor(log10(size)) - 3)) if size else 1e-9


def in_unit(text: str, unit: str) -> float:
    """A number, which is in the unit already, or what a sum of numbers with their units is in it.

    >>> in_unit("2", "g"), in_unit("2\\xa0kg × 0.5", "g")
    (2.0, 1000.0)
    """
    if re.fullmatch(_NUMBER, text):
        return number(text)
    return float((_Sum(text).whole() / _one(unit)).to("dimensionless").magnitude)


@cache
def _one(unit: str) -> Quantity:
    return UREG.Quantity(1.0, "dimensionless") * UREG(UNITS[unit])


class _Sum:
    """Plain arithmetic in numbers with their units, read from left to right."""

    def __init__(self, text: str) -> None:
        self._text, self._next, place = text, 0, 0
        self._tokens: list[re.Match[str]] = []
        while place < len(text):
            found = _TOKEN.match(text, place)
            if found is None:
                raise NotASum(f"{text[place:]!r} in {text}")
            if found.lastgroup:
                self._tokens.append(found)
            place = found.end()

    def whole(self) -> Quantity:
        value = self._line()
        if self._next < len(self._tokens):
            raise NotASum(f"{self._tokens[self._next][0]!r} in {self._text}")
        return value

    def _line(self) -> Quantity:
        value = self._terms()
        if self._took("in steps of"):
            step = self._terms()
            value = floor(float((value / step).to("dimensionless").magnitude) + 0.5 + 1e-9) * step
        if self._took("rounded up"):
            value = UREG.Quantity(float(ceil(value.to("dimensionless").magnitude)), "dimensionless")
        return value

    def _terms(self) -> Quantity:
        value = self._factors()
        while sign := self._took("+", "−"):
            other = self._factors()
            value = value + other if sign == "+" else value - other
        return value

    def _factors(self) -> Quantity:
        value = self._factor()
        while sign := self._took("×", "÷"):
            other = self._factor()
            value = value * other if sign == "×" else value / other
        return value

    def _factor(self) -> Quantity:
        if self._took("("):
            value = self._line()
            if not self._took(")"):
                raise NotASum(f"a bracket is left open in {self._text}")
            return value
        if self._next == len(self._tokens) or not self._tokens[self._next]["number"]:
            raise NotASum(f"a number was expected in {self._text}")
        found = self._tokens[self._next]
        self._next += 1
        return number(found["number"]) * _one(found["unit"] or "")

    def _took(self, *signs: str) -> str:
        if self._next < len(self._tokens) and self._tokens[self._next]["sign"] in signs:
            self._next += 1
            return self._tokens[self._next - 1]["sign"]
        return ""


def text_of(element: html.HtmlElement) -> str:
    """The text of an element up to what is bold in it, what is set below as `_…` and what is set above as `^(…)`."""
    said = element.text or ""
    for child in element:
        if child.tag == "b":
            break
        inner = text_of(child)
        said += {"sub": f"_{inner}", "sup": f"^({inner})"}.get(child.tag, inner) + (child.tail or "")
    return said


def blocks(page: html.HtmlElement) -> Iterator[html.HtmlElement]:
    """Each formula of a page's workings, with the lines under it."""
    yield from page.iterfind(".//table[@class='steps formula']/tbody")


def told(block: html.HtmlElement) -> html.HtmlElement:
    """The formula that a block prints; None where it leads to another, or tells plain arithmetic in words."""
    said = block.find(".//p")
    return None if said.text == "As " or block.find(".//p[@class='keys']") is None else said


def lines(page: html.HtmlElement) -> Iterator[Line]:
    """Every line of a page's workings; a table that repeats what each model gives, worked out below, has none."""
    for block in blocks(page):
        if block.findtext(".//h3") == "After each published model":
            continue
        formula, units = _formula(page, block)
        for bold in block.iterfind("tr/td/b"):
            put_in = re.sub(r"\s(?:gives|=)\s$", "", text_of(bold.getparent()))
            yield Line(formula, units, put_in, text_of(bold))


def _formula(page: html.HtmlElement, block: html.HtmlElement) -> tuple[str, tuple[tuple[str, str], ...]]:
    """The formula that a block prints or leads to, and the units of its letters."""
    said, keys = told(block), block.find(".//p[@class='keys']")
    if keys is None:
        return "", ()
    if said is None:
        above = block.find(".//p").find("a").get("href")[1:]
        return _formula(page, page.get_element_by_id(above))
    return text_of(said), tuple(_units(keys))


def _units(keys: html.HtmlElement) -> Iterator[tuple[str, str]]:
    """Of each letter the unit that its words end with, if any."""
    for it in keys:
        before = it.getprevious()
        if before is None or before.tail.endswith("; "):
            unit = _UNIT_OF_LETTER.search(it.tail)
            yield text_of(it), unit["unit"] if unit else ""
