"""Numbers with units, as people write them: `3.0 kg`, `1 1/2 lb`, `1 lb 4 oz`, `½ tsp`, `72 % ± 4`, `1.048 ± 0.002`."""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction as Exact
from functools import lru_cache
from math import inf, isclose

from gristbook.problems import Place, Problems, nearest
from gristbook.reading.spoken import IN_WORDS, SPOKEN
from gristbook.reading.tree import Text
from gristbook.reading.units import SPELLED, unit_named

SLASH = "[/⁄]"
VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8"}

NUMBER = rf"(?:\d+\s+\d+{SLASH}\d+|\d+{SLASH}\d+|\d+\s*[¼½¾⅓⅔⅛]|[¼½¾⅓⅔⅛]|\d+(?:\.\d+)?|\.\d+)"
_WORDS = (
    r"(?:US|UK|imp(?:erial)?\.?)\s+(?:gal(?:lons?)?|pt)\b|gal(?:lons?)?\s+(?:UK\b|imperial\b|\(UK\)|\(imperial\))|fl\.?\s+oz\b|(?:liquid|smack|dry|dried)\s+(?:pack|packet|sachet)s?\b|"
    r"(?:billion|bn)\s+(?:\w+\s+)?cells\b|per\s+cent\b|%\s*(?:by\s+)?vol(?:ume)?\b\.?|deg(?:rees)?\s+[CF]\b|L°\s*/\s*kg"
)
_A_LITRE = r"(?:\s*/\s*[^\W\d_]+|\s+per\s+(?:L|lit(?:re|er)|hL|hectolit(?:re|er)|kg|gal(?:lon)?)\b)"
UNIT = rf"(?:{_WORDS}|(?:°\s?)?[^\W\d_]+{_A_LITRE}?|[%'′°#])(?:\.(?!\d))?"
UP_TO = rf"(?:\s*°?\s*(?:[-–—]|\bto\b)\s*(?:{NUMBER}|{IN_WORDS}))?"
"""What makes a range of a number: "3-4 days", which is read as its middle and as its half on either side."""
SIZED = r"(?:(?:more|big|large|small|generous|good|heaped|level)\s+)?"
"""What may stand between a number and its unit, and changes neither."""
_TIMES = r"(?:(?P<times>\d+(?:\.\d+)?)\s*[x×]\s*(?=\d))?"
_AMOUNT = re.compile(
    r"\s*(?:and\s+)?(?:(?:about|approx(?:\.|imately)?|circa|ca\.?|roughly|around)\s+(?=\S)|~\s*)?(?!\d+(?:st|nd|rd|th)\b)"
    rf"(?P<sign>[-−+]?){_TIMES}(?P<number>{NUMBER}|{IN_WORDS})(?P<rest>[.,]?\d*)"
    rf"(?P<upto>{UP_TO})\s*{SIZED}(?P<unit>(?!or\b){UNIT})?",
    re.IGNORECASE,
)
_REMARK = re.compile(
    r"\((?=[^()]*[^\W\d_]{2})[^()]+\)|[,;](?!\s*\d+(?:[.,]\d+)?\s*$).+|or (?:so|thereabouts)"
    r"|(?!(?:of|or|to(?=\s*\d)|x|and)\b)[^\W\d][^\d±]*(?:[,;(].*)?"
)
"""What may stand behind a quantity and is none: what is in brackets, or behind a comma, or words without a number."""
_HALF_MORE = re.compile(r"\s+and\s+a\s+half\b", re.IGNORECASE)
COUNTED = ("pack", "piece")
"""Units that count, for which a word that is none was hardly meant."""
ROUNDED = 0.05
"""So far apart may a quantity lie that is told in two units, both rounded to what one says."""
LARGEST = 1e9
"""No number in a book is larger: no brew holds so many grams, and figures made of more would overflow."""

_TOLERANCE = re.compile(rf"\s*(?:±|\+/-|\+-)\s*(?P<number>{NUMBER})\s*(?P<unit>{UNIT})?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number in the base of its kind ("kg", "L", "min", "°C", "fraction", …; "" where it has none).

    ``tolerance`` is what stands behind the ±, `None` where there is no ±; ``text`` is what the author wrote.
    """

    number: float
    base: str
    text: str
    place: Place
    tolerance: float | None = None


@dataclass(frozen=True, slots=True)
class Read:
    """A quantity found at the start of a text, and the offset where the text goes on."""

    quantity: Quantity
    end: int


class Unreadable(Exception):
    """What stands there cannot be read; the problem has been filed."""


class _Fault(Exception):
    """Why a text is no quantity: where, what was read, what was expected, and what was meant."""

    def __init__(self, place: Place, what: str, expected: str = "", suggestion: str = "") -> None:
        self.place, self.what, self.expected, self.suggestion = place, what, expected, suggestion


def leading_quantity(text: Text, problems: Problems, within: str = "") -> Read | None:
    """The quantity that a text begins with; `None` with no problem filed where it begins with no number.

    Raises
    ------
    Unreadable
        It begins with a number that makes no quantity; the problem has been filed.
    """
    first = _AMOUNT.match(text.value)
    if first and first["number"][0].isalpha() and unit_named(first["unit"] or "") is None:
        return None  # "a" begins a name, and counts before a unit
    try:
        return _leading(text, first) if first else None
    except _Fault as it:
        problems.error(it.place, it.what, within=within or text.value, expected=it.expected, suggestion=it.suggestion)
        raise Unreadable from None


def leading_count(text: Text, is_name: Callable[[str], bool]) -> Read | None:
    """A number that counts what stands behind it, with no unit between them; `None` where that is not so."""
    so_many = re.match(rf"\s*(?P<number>{NUMBER}|{IN_WORDS})\s+(?P<name>[^\W\d_].*)", text.value, re.IGNORECASE)
    first = _AMOUNT.match(text.value)
    if so_many is None or first is None or unit_named(first["unit"] or "") or not is_name(so_many["name"]):
        return None
    if _misspelt(first["unit"] or "") and not so_many["name"].startswith(f"{first['unit']} of"):
        return None
    number = number_in(so_many["number"])
    place = text.at(so_many.start("number"))
    return Read(Quantity(number, "", so_many["number"], place), so_many.end("number")) if number < LARGEST else None


def _leading(text: Text, first: re.Match[str]) -> Read:
    number, base, end = _one(text, first)
    last, tolerance = first, _half_of_a_range(text, first, base) if first["upto"] else None
    while (more := _AMOUNT.match(text.value, end)) and base in ("kg", "L", "min") and _continues(last, more, base):
        further, _, end = _one(text, more)
        number, last = number + further, more
    if base and (half := _HALF_MORE.match(text.value, end)) and (unit := unit_named(last["unit"] or "")):
        number, end = number + unit.factor / unit.per / 2, half.end()
    if spread := _TOLERANCE.match(text.value, end):
        if not first["unit"] and (unit := unit_named(spread["unit"] or "")):  # "22 ± 0.5 L" says it once, for both
            base, number = unit.base, unit.in_base(number)
        tolerance, end = _tolerance(text, spread, first, base)
    written = " ".join(text.value[:end].split())
    return Read(Quantity(number, base, written, text.at(first.start("sign")), tolerance), end)


def quantity(text: Text, problems: Problems, bases: tuple[str, ...], words: str, within: str = "") -> Quantity | None:
    """A text that is one quantity and nothing else, in one of ``bases``; `None` with a problem filed otherwise.

    ``words`` says what was expected, with an example.
    """
    try:
        read = leading_quantity(_before_words(text) if "" in bases else text, problems, within)
    except Unreadable:
        return None
    place, what = text.place, f'"{text.value}" is not {words.partition(",")[0]}'
    rest = text.value[read.end :].strip() if read else ""
    said_again = bool(read and rest and _says_again(rest, read.quantity))
    if read and read.quantity.base in bases and not said_again and _REMARK.fullmatch(rest):
        told = f'"{rest.strip("(,;) ")}" is not reckoned'
        problems.warning(text.part(read.end).place, told, within=within or text.value)
        return read.quantity
    if read and rest and not said_again:
        place, what = text.part(read.end).place, f'"{rest}" after {read.quantity.text}'
    elif read and read.quantity.base in bases:
        return read.quantity
    elif read and read.quantity.base == "m" and "min" in bases:  # "60m" of a boil
        return replace(read.quantity, base="min")
    problems.error(place, what, within=within or text.value, expected=words)
    return None


def _before_words(text: Text) -> Text:
    """A number without the words behind it that are no unit, nor a slip of one: "1.033 ish"."""
    words = re.fullmatch(rf"(?P<number>{NUMBER})\s*(?P<word>(?:or )?[^\W\d_]+)[^\d±]*", text.value)
    if words is None or unit_named(words["word"]) or _misspelt(words["word"]):
        return text
    return text.part(0, words.end("number"))


def _says_again(rest: str, first: Quantity) -> bool:
    """Whether what stands behind a quantity, in brackets, is the same in another unit: "19 L (5 gal)"."""
    again = re.fullmatch(rf"\((?P<number>{NUMBER})\s*(?P<unit>{UNIT})\)", rest)
    unit = unit_named(again["unit"]) if again else None
    if again is None or unit is None or unit.base != first.base:
        return False
    return isclose(unit.in_base(number_in(again["number"])), first.number, rel_tol=ROUNDED)


def any_quantity(
    text: Text, problems: Problems, noun: str, expected: str, within: str = "", *, remarks: bool = False
) -> Quantity | None:
    """A text that is one quantity, of whatever kind, and nothing else but ``remarks``; `None` with a problem filed."""
    try:
        read = leading_quantity(_before_words(text) if remarks else text, problems, within)
    except Unreadable:
        return None
    rest = text.value[read.end :].strip() if read else ""
    if remarks and read and rest and _REMARK.fullmatch(rest):
        told = f'"{rest.strip("(,;) ")}" is not reckoned'
        problems.warning(text.part(read.end).place, told, within=within or text.value)
    elif read is None or rest:
        problems.error(text.place, f'"{text.value}" is {noun}', within=within, expected=expected)
        return None
    return read.quantity


def in_its_unit(number: float, like: Quantity) -> str:
    """A number of the base as an author would write it who wrote ``like``: in the unit, or the first, of that.

    >>> in_its_unit(110.0, Quantity(149.0, "°C", "300 °F", Place("")))
    '230 °F'
    """
    first = _AMOUNT.match(like.text)
    unit = unit_named(first["unit"] or "") if first else None
    if first is None or unit is None:
        return f"{number:g}"
    return f"{(number - unit.zero) / unit.factor * unit.per:.4g} {first['unit']}"


def comma_inside(written: str) -> tuple[str, str, str]:
    """What is wrong with a number that has a comma in it, a decimal or between the thousands; expected, and meant."""
    what, point = f'"{written}" has a comma in it', written.replace(",", ".")
    if re.fullmatch(r"\d{1,3},\d{3}", written):
        return what, f"{point} or {written.replace(',', '')}", ""
    return what, "a point", point


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


@lru_cache(maxsize=4096)
def number_in(written: str) -> float:
    """A number in digits or in words."""
    return SPOKEN[" ".join(written.casefold().split())] if written[0].isalpha() else plain_number(written)


def _continues(last: re.Match[str], more: re.Match[str], base: str) -> bool:
    """Whether an amount goes on, as ounces do after pounds: in a smaller unit of the same kind."""
    unit = unit_named(more["unit"] or "")
    before = unit_named(last["unit"] or "")
    return unit is not None and before is not None and unit.base == base and unit.factor < before.factor


def _number(text: Text, match: re.Match[str]) -> float:
    """The number that a match holds, if it is one that a brewer can mean."""
    return _meant(match["number"], text.at(match.start("number")))


def _meant(written: str, place: Place) -> float:
    try:
        number = number_in(written)
    except ZeroDivisionError:
        raise _Fault(place, f'"{written}" divides by nothing') from None
    if number > LARGEST:
        raise _Fault(place, "a number that no brew can hold")
    return number


def _one(text: Text, match: re.Match[str]) -> tuple[float, str, int]:
    """A number and its unit: the number in the base, the base, where it ends."""
    if match["rest"]:
        place, whole = text.at(match.start("number")), f"{match['number']}{match['rest']}"
        if re.fullmatch(r"\d+,\d+", whole):
            raise _Fault(place, *comma_inside(whole))
        raise _Fault(place, f'"{whole}" is not a number')
    number, written = _number(text, match) * float(match["times"] or 1), match["unit"]
    number = (number + _upper(text, match)) / 2 if match["upto"] else number
    unit, below = unit_named(written or ""), match["sign"] in ("-", "−")
    if written and unit is None:
        near = _misspelt(written)
        expected = "" if near else "a unit of the trade, as kg, g, lb, oz, L, mL, gal, min, days"
        raise _Fault(text.at(match.start("unit")), f'unknown unit "{written}"', expected, near)
    base = unit.base if unit else ""
    if below and base not in ("°C", "m", "°P", "°Bx"):  # colder than ice, lower than the sea, lighter than water
        raise _Fault(text.at(match.start("sign")), f'"{match[0].strip()}" is below nothing')
    if unit is None:
        return number, "", match.end("upto")
    return unit.in_base(-number if below else number), base, match.end("unit")


def _upper(text: Text, match: re.Match[str]) -> float:
    """The upper end of a range."""
    written = re.sub(r"^\s*°?\s*(?:[-–—]|to\b)\s*", "", match["upto"], flags=re.IGNORECASE)
    return _meant(written, text.at(match.end("upto") - len(written)))


def _half_of_a_range(text: Text, match: re.Match[str], base: str) -> float:
    """How far a range goes to either side of its middle, in the base."""
    unit = unit_named(match["unit"] or "")
    return abs(_upper(text, match) - _number(text, match)) / 2 * (unit.factor / unit.per if unit and base else 1.0)


def _misspelt(written: str) -> str:
    """The unit that a word was meant for, "" where it looks like none."""
    return nearest(written, (word for word in SPELLED if _like_a_measure(word, written)))


def _like_a_measure(word: str, written: str) -> bool:
    """Whether a unit may have been misspelt so: "5 table sugar" lacks its unit, and means no tablet or tablespoon."""
    return "/" not in word and SPELLED[word] not in COUNTED and len(word) <= len(written) + 2


def _tolerance(text: Text, spread: re.Match[str], first: re.Match[str], base: str) -> tuple[float, int]:
    """What stands behind the ±, in the base, and where it ends: in its own unit, or in the one that stands before."""
    number, own = _number(text, spread), unit_named(spread["unit"] or "")
    if own is None:  # a word that is no unit belongs to what follows
        own, end = unit_named(first["unit"] or ""), spread.end("number")
    elif own.base == base:
        end = spread.end()
    else:
        what = f'"{spread["unit"]}" is not the unit of what stands before the ±'
        raise _Fault(text.at(spread.start("unit")), what)
    return number * (own.factor / own.per if own is not None else 1.0), end
