"""Numbers with units, as people write them: `3.0 kg`, `1 1/2 lb`, `1 lb 4 oz`, `½ tsp`, `72 % ± 4`, `1.048 ± 0.002`."""

import re
from dataclasses import dataclass
from fractions import Fraction as Exact
from math import inf

from gristbook.problems import Place, Problems
from gristbook.reading.tree import Text
from gristbook.reading.units import SPELLED, unit_named

SLASH = "[/⁄]"
VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8"}

NUMBER = rf"(?:\d+\s+\d+{SLASH}\d+|\d+{SLASH}\d+|\d+\s*[¼½¾⅓⅔⅛]|[¼½¾⅓⅔⅛]|\d+(?:\.\d+)?|\.\d+)"
_WORDS = r"(?:US|imp)\s+(?:gal(?:lons?)?|pt)\b|fl\s+oz\b|per\s+cent\b|deg(?:rees)?\s+[CF]\b|L°\s*/\s*kg"
UNIT = rf"(?:{_WORDS}|(?:°\s?)?[^\W\d_]+(?:\s*/\s*[^\W\d_]+)?|%)"
_AMOUNT = re.compile(rf"\s*(?P<sign>[-−+]?)(?P<number>{NUMBER})(?P<rest>[.,]?\d*)\s*(?P<unit>{UNIT})?", re.IGNORECASE)
LARGEST = 1e9
"""No number in a book is larger: no brew holds so many grams, and figures made of more would overflow."""

_TOLERANCE = re.compile(rf"\s*(?:±|\+/-|\+-)\s*(?P<number>{NUMBER})\s*(?P<unit>{UNIT})?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number in the base of its kind ("kg", "L", "min", "°C", "fraction", …; "" where it has none).

    ``tolerance`` is what stands behind the ±; ``text`` is what the author wrote.
    """

    number: float
    base: str
    text: str
    place: Place
    tolerance: float = 0.0


@dataclass(frozen=True, slots=True)
class Read:
    """A quantity found at the start of a text, and the offset where the text goes on."""

    quantity: Quantity
    end: int


def leading_quantity(text: Text, problems: Problems, within: str = "") -> Read | None:
    """The quantity that a text begins with; `None` with no problem filed where it begins with no number.

    Raises
    ------
    Unreadable
        It begins with a number that makes no quantity; the problem has been filed.
    """
    within = within or text.value
    first = _AMOUNT.match(text.value)
    if not first:
        return None
    number, base, end = _one(text, first, problems, within)
    last = first
    while (more := _AMOUNT.match(text.value, end)) and base in ("kg", "L", "min") and _continues(last, more, base):
        further, _, end = _one(text, more, problems, within)
        number, last = number + further, more
    tolerance = 0.0
    if spread := _TOLERANCE.match(text.value, end):
        if not first["unit"] and (unit := unit_named(spread["unit"] or "")):  # "22 ± 0.5 L" says it once, for both
            base, number = unit.base, unit.in_base(number)
        tolerance, end = _tolerance(text, spread, first, base, problems, within)
    written = " ".join(text.value[:end].split())
    return Read(Quantity(number, base, written, text.at(first.start("sign")), tolerance), end)


class Unreadable(Exception):
    """A text that is no quantity; the problem has been filed."""


def quantity(text: Text, problems: Problems, bases: tuple[str, ...], words: str, within: str = "") -> Quantity | None:
    """A text that is one quantity and nothing else, in one of ``bases``; `None` with a problem filed otherwise.

    ``words`` says what was expected, with an example.
    """
    within = within or text.value
    try:
        read = leading_quantity(text, problems, within)
    except Unreadable:
        return None
    if read is None:
        problems.error(text.place, f'"{text.value}" is not {words.partition(",")[0]}', within=within, expected=words)
        return None
    if rest := text.value[read.end :].strip():
        problems.error(text.part(read.end).place, f'"{rest}" after {read.quantity.text}', within=within, expected=words)
        return None
    if read.quantity.base not in bases:
        problems.error(text.place, f'"{text.value}" is not {words.partition(",")[0]}', within=within, expected=words)
        return None
    return read.quantity


def any_quantity(text: Text, problems: Problems, noun: str, expected: str, within: str = "") -> Quantity | None:
    """A text that is one quantity and nothing else, of whatever kind; `None` with a problem filed otherwise."""
    try:
        read = leading_quantity(text, problems, within)
    except Unreadable:
        return None
    if read is None or text.value[read.end :].strip():
        problems.error(text.place, f'"{text.value}" is {noun}', within=within, expected=expected)
        return None
    return read.quantity


def comma_inside(written: str, place: Place, problems: Problems, within: str) -> None:
    """File the problem of a number with a comma in it, which is a decimal or parts the thousands."""
    point = written.replace(",", ".")
    thousands = bool(re.fullmatch(r"\d{1,3},\d{3}", written))
    problems.error(
        place,
        f'"{written}" has a comma in it',
        within=within,
        expected=f"{point} or {written.replace(',', '')}" if thousands else "a point",
        suggestion="" if thousands else point,
    )


def plain_number(written: str) -> float:
    """A number as a brewer writes it; infinite where it has hundreds of digits.

    >>> plain_number("1 1/2"), plain_number("½"), plain_number("2¼"), plain_number(".5")
    (1.5, 0.5, 2.25, 0.5)
    """
    if len(written) < 30 and written.replace(".", "", 1).isdecimal():  # as nearly all are, and without fractions
        return float(written)
    written = written.replace("⁄", "/")
    for sign, spelled in VULGAR.items():
        written = written.replace(sign, f" {spelled}")
    try:
        return float(sum((Exact(part) for part in written.split()), Exact(0)))
    except (OverflowError, ValueError):  # more digits than a computer counts to, or than it reads
        return inf


def _continues(last: re.Match[str], more: re.Match[str], base: str) -> bool:
    """Whether an amount goes on, as ounces do after pounds: in a smaller unit of the same kind."""
    unit = unit_named(more["unit"] or "")
    before = unit_named(last["unit"] or "")
    return unit is not None and before is not None and unit.base == base and unit.factor < before.factor


def _number(text: Text, match: re.Match[str], problems: Problems, within: str) -> float:
    """The number that a match holds, if it is one that a brewer can mean."""
    place = text.at(match.start("number"))
    try:
        number = plain_number(match["number"])
    except ZeroDivisionError:
        problems.error(place, f'"{match["number"]}" divides by nothing', within=within)
        raise Unreadable from None
    if number > LARGEST:
        problems.error(place, "a number that no brew can hold", within=within)
        raise Unreadable
    return number


def _one(text: Text, match: re.Match[str], problems: Problems, within: str) -> tuple[float, str, int]:
    """A number and its unit: the number in the base, the base, where it ends."""
    if match["rest"]:
        place, whole = text.at(match.start("number")), f"{match['number']}{match['rest']}"
        if re.fullmatch(r"\d+,\d+", whole):
            comma_inside(whole, place, problems, within)
        else:
            problems.error(place, f'"{whole}" is not a number', within=within)
        raise Unreadable
    number = _number(text, match, problems, within)
    if not match["unit"]:
        if match["sign"] in ("-", "−"):
            problems.error(text.at(match.start("sign")), f'"{match[0].strip()}" is below nothing', within=within)
            raise Unreadable
        return number, "", match.end("number")
    unit = unit_named(match["unit"])
    if unit is None:
        problems.unknown(
            text.at(match.start("unit")),
            f'unknown unit "{match["unit"]}"',
            match["unit"],
            (word for word in SPELLED if "/" not in word),
            within=within,
            expected="a unit of the trade, as kg, g, lb, oz, L, mL, gal, min, days",
        )
        raise Unreadable
    if match["sign"] in ("-", "−"):
        if unit.base not in ("°C", "m", "°P", "°Bx"):  # colder than ice, lower than the sea, lighter than water
            problems.error(text.at(match.start("sign")), f'"{match[0].strip()}" is below nothing', within=within)
            raise Unreadable
        number = -number
    return unit.in_base(number), unit.base, match.end("unit")


def _tolerance(
    text: Text, spread: re.Match[str], first: re.Match[str], base: str, problems: Problems, within: str
) -> tuple[float, int]:
    """What stands behind the ±, in the base, and where it ends: in its own unit, or in the one that stands before."""
    number, own = _number(text, spread, problems, within), unit_named(spread["unit"] or "")
    if own is None:  # a word that is no unit belongs to what follows
        own, end = unit_named(first["unit"] or ""), spread.end("number")
    elif own.base == base:
        end = spread.end()
    else:
        problems.error(
            text.at(spread.start("unit")),
            f'"{spread["unit"]}" is not the unit of what stands before the ±',
            within=within,
        )
        raise Unreadable
    return number * (own.factor / own.per if own is not None else 1.0), end
