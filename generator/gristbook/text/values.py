"""From what was read to a `Value`: who said the number, where, and how sure it is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

from gristbook.pantry.lookup import Match
from gristbook.pantry.pantry import Pantry
from gristbook.pantry.poisons import poison_in
from gristbook.pantry.records import Record, Spread
from gristbook.problems import Problems
from gristbook.reading.lines import Line, Property, read_line
from gristbook.reading.quantity import Quantity
from gristbook.reading.tree import Node
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, between, given
from gristbook.text.belonging import elsewhere

R = TypeVar("R", bound=Record)


@dataclass(frozen=True, slots=True)
class Desk:
    """What every reader of a book needs: the pantry to look things up in, and the collector of problems."""

    pantry: Pantry
    problems: Problems

    def ingredient(self, node: Node, properties: tuple[Property, ...], *, joins_name: bool = False) -> Line | None:
        """A line that names an ingredient; `None` with a problem filed where it cannot be read, or is poison."""
        line = read_line(node, properties, self.problems, joins_name=joins_name)
        poison = poison_in(line.name.value) if line else None
        if line is None or poison is None:
            return line
        harm = f"{poison.name}: {poison.harm}"
        if poison.care:
            line.warning(harm, "very little of it, or none", at=line.name)
            return line
        self.problems.error(line.name.place, harm, within=line.whole, expected="none of it in a beer", safety=True)
        return None

    def only(self, line: Line, match: Match[R], what: str, expected: str = "") -> R | None:
        """The one record that a line's name fits; several or none is a problem."""
        if match.found and match.only is None:
            line.error(f'"{line.name.value}" may be several', match.names, at=line.name)
        elif not match.found:
            self.unknown(line, match, what, f"{what}s", expected or f"a {what} of the pantry")
        return match.only

    def unknown(self, line: Line, match: Match[R], what: str, section: str, expected: str) -> None:
        """File the error of a name that no ``what`` has: where it belongs, or what is near, or what is expected."""
        name = line.name
        if found := elsewhere(name.value, section, self.pantry):
            line.error(f'"{name.value}" is {found.one}', f"it under {found.section}", at=name)
            return
        near = match.nearest
        line.error(f'unknown {what} "{name.value}"', "" if near else expected, at=name, suggestion=near)


def minutes_in_boil(line: Line, boil_min: float) -> Quantity | None:
    """A line's time before the end of a boil of ``boil_min``; `None` where it is absent, or with its problem filed."""
    minutes = line.quantity("time")
    if minutes is None or minutes.number <= boil_min:
        return minutes
    line.error(f"{minutes.text} is longer than the boil of {boil_min:g} min", at=minutes)
    return None


def in_days(read: Quantity, label: str) -> Value:
    """A time as an author wrote it, in days."""
    return said(read, label, unit="d", factor=1 / 1440)


def said(
    read: Quantity,
    label: str,
    *,
    unit: str = "",
    factor: float = 1.0,
    by: By = By.AUTHOR,
    origin: str = "the recipe",
    metric: bool = False,
) -> Value:
    """A number as an author wrote it, in ``unit`` (else its base), ``factor`` of them in a base.

    What stands behind a ± holds nine batches in ten.
    """
    spread = read.tolerance * factor
    return given(
        read.number * factor,
        unit or read.base,
        label,
        words=f"{origin}: {read.text}",
        by=by,
        written=read.text,
        place=read.place,
        sd=between(-spread, spread),
        metric=metric,
    )


def by_default(number: float, unit: str, label: str, why: str) -> Value:
    """A number that nobody wrote, decided by the reader of the text."""
    return given(number, unit, label, words=f"by default: {why}", by=By.DEFAULT)


def from_pantry(spread: Spread, label: str, *, unit: str = "", factor: float = 1.0) -> Value:
    """A number of the pantry in ``unit`` (else its own), ``factor`` of them in one of the pantry's.

    Nine in ten lie between its low and its high.
    """
    return given(
        spread.typical * factor,
        unit or spread.unit,
        label,
        words=f"the pantry: {spread.source}",
        by=By.PANTRY,
        place=spread.place,
        sd=between(spread.low, spread.high) * factor,
    )


def unread(unit: str) -> Value:
    """Stands where a number could not be read; its file has an error and goes no further."""
    return given(0.0, unit, "not read", words="not read")
