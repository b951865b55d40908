"""What is wrong in a book, said so that its author can mend it: where, what was read, what was expected."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from difflib import get_close_matches
from enum import Enum
from itertools import chain
from math import inf
from unicodedata import category

QUOTED = 200
"""Letters of an author's text that a message quotes."""


UNSHOWN = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})
"""Kinds of letters that nobody sees, and that may make a terminal do things, or show others in another order."""


class Severity(Enum):
    """An error stops its recipe; a warning is advice."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A spot in an author's file: the path as the author would type it, line and column counted from 1."""

    path: str
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing to mend: the fault, the text it was read in, what was expected, and the nearest right thing.

    ``safety`` says that whoever goes on by what stands there may be hurt: even a page made before has to go.
    ``stops`` is the text that it stops, by its path, where that is another than the one to mend. What names a habit of
    the author's is told ``once`` a file, with how many more lines have it.
    """

    place: Place
    what: str
    within: str = ""
    expected: str = ""
    suggestion: str = ""
    severity: Severity = Severity.ERROR
    safety: bool = False
    stops: str = ""
    once: str = ""
    more: int = 0

    @property
    def text(self) -> str:
        """The path of the text that suffers from it."""
        return self.stops or self.place.path

    def __str__(self) -> str:
        words = f"{self.place}: {self.severity.value}: {_short(self.what)}"
        if self.within and self.within not in self.what:
            words += f' in "{_cut(self.within)}"'
        if self.expected:
            words += f"; expected {_short(self.expected)}"
        if self.suggestion:
            words += f'; did you mean "{_cut(self.suggestion)}"?'
        if self.more:
            words += f" (and in {self.more} more {'line' if self.more == 1 else 'lines'})"
        return "".join(_spelled(letter) if category(letter) in UNSHOWN else letter for letter in words)


def _short(words: str) -> str:
    """Words with what they quote of an author's text cut to what one reads."""
    return _cut(re.sub(r'"([^"]*)"', lambda match: f'"{_cut(match[1])}"', words), 4 * QUOTED)


def _cut(words: str, most: int = QUOTED) -> str:
    return words if len(words) <= most else f"{words[: most - 1]}…"


def _spelled(letter: str) -> str:
    """A letter as it is written in a program."""
    return letter.encode("unicode_escape").decode()


class Problems:
    """The collector: every reader adds to it, nobody stops at the first. What is filed twice counts once."""

    def __init__(self) -> None:
        self._found: dict[Problem, None] = {}
        self._errors: dict[str, list[Problem]] = {}

    def file(self, problem: Problem) -> None:
        """File a problem that has been put together elsewhere."""
        if problem in self._found:
            return
        self._found[problem] = None
        if problem.severity is Severity.ERROR:
            self._errors.setdefault(problem.text, []).append(problem)

    def all(self) -> Iterator[Problem]:
        """All as they were filed, those of a habit each by itself."""
        yield from self._found

    def take(self, others: Problems | Iterable[Problem]) -> None:
        """File all that others have found."""
        for problem in others.all() if isinstance(others, Problems) else others:
            self.file(problem)

    def error(
        self,
        place: Place,
        what: str,
        *,
        within: str = "",
        expected: str = "",
        suggestion: str = "",
        safety: bool = False,
    ) -> None:
        """File an error: the recipe it stands in will not be published; one of ``safety`` takes down what was."""
        self.file(Problem(place, what, within, expected, suggestion, safety=safety))

    def warning(
        self, place: Place, what: str, *, within: str = "", expected: str = "", suggestion: str = "", once: str = ""
    ) -> None:
        """File a warning: advice that stops nothing; of those of one ``once`` only the first of a file is told."""
        self.file(Problem(place, what, within, expected, suggestion, Severity.WARNING, once=once))

    def unknown(
        self, place: Place, what: str, word: str, known: Iterable[str], *, within: str = "", expected: str = ""
    ) -> str:
        """File the error of a word that is none of those known, and give the nearest of them, else what is expected."""
        near = nearest(word, known)
        self.error(place, what, within=within, expected="" if near else expected, suggestion=near)
        return near

    def __iter__(self) -> Iterator[Problem]:
        """All problems once each, in the order of the files."""
        lines: dict[tuple[str, str], dict[int, Problem]] = {}
        for problem in sorted(self._found, key=_order):
            if problem.once:
                lines.setdefault((problem.place.path, problem.once), {}).setdefault(problem.place.line, problem)
        told = [replace(next(iter(each.values())), more=len(each) - 1) for each in lines.values()]
        return iter(sorted([*(it for it in self._found if not it.once), *told], key=_order))

    def __len__(self) -> int:
        return len(self._found)

    def errors(self, path: str | None = None) -> list[Problem]:
        """The errors, those that one file suffers from where ``path`` is given."""
        found = chain.from_iterable(self._errors.values()) if path is None else self._errors.get(path, ())
        return sorted(found, key=_order)


def _order(problem: Problem) -> tuple[Place, str]:
    return problem.place, problem.what


UNITS = {
    "SG": "",
    "pH": "",
    "ratio": "",
    "vol": " volumes",
    "d": " days",
    "fraction": " %",
    "10⁹ cells": " billion cells",
    "10⁶ cells/(mL·°P)": " million cells a millilitre and degree Plato",
}
"""Units that are not said as they are kept."""
PLACES = {"SG": ".3f", "pH": ".2f"}
"""Units whose numbers are always said with so many decimals."""


US: dict[str, tuple[float, float, str]] = {
    "L": (1 / 3.785411784, 0.0, "gal"),
    "kg": (1 / 0.45359237, 0.0, "lb"),
    "g": (1 / 28.349523125, 0.0, "oz"),
    "L/h": (1 / 3.785411784, 0.0, "gal/h"),
    "L/kg": (4 * 0.45359237 / 3.785411784, 0.0, "qt/lb"),
    "m": (1 / 0.3048, 0.0, "ft"),
    "°C": (1.8, 32.0, "°F"),
    "bar": (14.503774, 0.0, "psi"),
}
"""How many US units one of a kept unit is, where their zero lies, and what they are called."""


def spoken(number: float, unit: str, *, us: bool = False) -> str:
    """A number of a kept unit as a message says it: no more digits than somebody would read off.

    >>> spoken(1.01, "SG"), spoken(200.0, "10⁹ cells"), spoken(0.0525, "fraction"), spoken(1.0, "d")
    ('1.010', '200 billion cells', '5.25 %', '1 day')
    >>> spoken(20.0, "L", us=True), spoken(67.0, "°C", us=True)
    ('5.28 gal', '153 °F')
    """
    if us and unit in US:
        factor, zero, unit = US[unit]
        number = number * factor + zero
    number = 100 * number if unit == "fraction" else number
    digits = f"{number:{PLACES.get(unit, '.0f' if abs(number) >= 1000 else '.3g')}}"
    return "1 day" if (digits, unit) == ("1", "d") else f"{digits}{UNITS.get(unit, f' {unit}')}"


def in_us(words: str) -> str:
    """Words with their litres, kilograms and °C as a brewer says them in the United States.

    >>> in_us("the pot boils 9.5 L at most, and 3 L/h steam away")
    'the pot boils 2.51 gal at most, and 3 L/h steam away'
    """
    pattern = r"(?P<number>\d+(?:\.\d+)?) (?P<unit>L|kg|°C)(?![\w/])"
    return re.sub(pattern, lambda found: spoken(float(found["number"]), found["unit"], us=True), words)


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word of which ``word`` is a slip of the finger, or nothing: another right name is no slip.

    >>> nearest("kgg", ["g", "kg", "lb"]), nearest("Fugle", ["Fuggle"]), nearest("Citra", ["Ultra"])
    ('kg', 'Fuggle', '')
    """
    plain = {name.casefold(): name for name in known}
    written = word.casefold()
    near = {it: slips for it in sorted(plain) if (slips := _slips(written, it)) <= _likely(written, it)}
    return plain[min(near, key=lambda it: (near[it], it[:1] != written[:1], -len(it)))] if near else ""


def likest(piece: str, examples: Iterable[str], cutoff: float = 0.6) -> str:
    """The example that a piece of a line looks most like, whatever its numbers; "" where it looks like none.

    >>> likest("3 days", ["60 min", "dry 5 days"])
    'dry 5 days'
    """
    close = get_close_matches(piece.casefold(), sorted(examples), n=1, cutoff=cutoff)
    return close[0] if close else ""


_ROWS = ("1234567890", " qwertyuiop", " asdfghjkl", " zxcvbnm")
_VOWELS = frozenset("aeiouy")


def _likely(one: str, other: str) -> int:
    """How many slips a word of such a length may have."""
    longer = max(len(one), len(other))
    return 2 if longer > 7 else 1 if longer > 1 else 0


def _slips(one: str, other: str) -> float:
    """Letters dropped, added, swapped, or struck beside the right key or by ear; any other letter counts twice.

    Infinite where there are more than anybody makes in a word of that length.

    >>> _slips("titel", "title"), _slips("gypsem", "gypsum"), _slips("citra", "ultra"), _slips("alfa", "alpha")
    (1, 1, inf, 0)
    """
    one, other = one.replace("ph", "f"), other.replace("ph", "f")
    most = _likely(one, other)
    if abs(len(one) - len(other)) > most or len({*one} ^ {*other}) > 2 * most:
        return inf
    before: list[float] = []
    last: list[float] = [*range(len(other) + 1)]
    for row, letter in enumerate(one, 1):
        here: list[float] = [row]
        for column, right in enumerate(other, 1):
            struck = last[column - 1] + _miss(letter, right)
            here.append(min(struck, last[column] + 1, here[column - 1] + 1))
            if row > 1 and column > 1 and (letter, one[row - 2]) == (other[column - 2], right):
                here[column] = min(here[column], before[column - 2] + 1)
        before, last = last, here
    return last[-1]


def _miss(letter: str, right: str) -> int:
    """How far one letter is from another: the same, beside it on the keys or as another vowel, or elsewhere."""
    if letter == right:
        return 0
    near = right in _BESIDE.get(letter, "") or {letter, right} <= _VOWELS
    return 1 if near else 2


_BESIDE = {
    letter: {
        row[at]
        for row in _ROWS[max(0, line - 1) : line + 2]
        for at in range(max(0, place - 1), min(len(row), place + 2))
    }
    for line, keys in enumerate(_ROWS)
    for place, letter in enumerate(keys)
    if letter != " "
}
"""The keys about each key of a keyboard."""
