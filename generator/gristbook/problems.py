"""What is wrong in a book, said so that its author can mend it: where, what was read, what was expected."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from enum import Enum


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
    """

    place: Place
    what: str
    within: str = ""
    expected: str = ""
    suggestion: str = ""
    severity: Severity = Severity.ERROR
    safety: bool = False

    def __str__(self) -> str:
        words = f"{self.place}: {self.severity.value}: {self.what}"
        if self.within and self.within not in self.what:
            words += f' in "{self.within}"'
        if self.expected:
            words += f"; expected {self.expected}"
        if self.suggestion:
            words += f'; did you mean "{self.suggestion}"?'
        return words


class Problems:
    """The collector: every reader adds to it, nobody stops at the first."""

    def __init__(self) -> None:
        self._found: list[Problem] = []

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
        self._found.append(Problem(place, what, within, expected, suggestion, safety=safety))

    def warning(self, place: Place, what: str, *, within: str = "", expected: str = "", suggestion: str = "") -> None:
        """File a warning: advice that stops nothing."""
        self._found.append(Problem(place, what, within, expected, suggestion, Severity.WARNING))

    def __iter__(self) -> Iterator[Problem]:
        """All problems once each, in the order of the files."""
        return iter(sorted(set(self._found), key=lambda problem: (problem.place, problem.what)))

    def __len__(self) -> int:
        return len(set(self._found))

    def errors(self, path: str | None = None) -> list[Problem]:
        """The errors, of one file where ``path`` is given."""
        return [
            problem
            for problem in self
            if problem.severity is Severity.ERROR and (path is None or problem.place.path == path)
        ]


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word that ``word`` was most likely meant to be, or nothing.

    >>> nearest("kgg", ["g", "kg", "lb"])
    'kg'
    """
    plain = {name.casefold(): name for name in known}
    close = get_close_matches(word.casefold(), sorted(plain), n=1, cutoff=0.6)
    return plain[close[0]] if close else ""
