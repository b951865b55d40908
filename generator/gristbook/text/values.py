"""From what was read to a `Value`: who said the number, where, and how sure it is."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.pantry.pantry import Pantry
from gristbook.pantry.poisons import poison_in
from gristbook.pantry.records import Spread
from gristbook.problems import Problems
from gristbook.reading.fields import TIME, Kind, read_quantity
from gristbook.reading.lines import Line, Property, read_line
from gristbook.reading.quantity import Quantity
from gristbook.reading.tree import Node, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, between, given
from gristbook.text.belonging import elsewhere


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
        place, harm = line.name.place, f"{poison.name}: {poison.harm}"
        if poison.care:
            self.problems.warning(place, harm, within=line.whole, expected="very little of it, or none")
            return line
        self.problems.error(place, harm, within=line.whole, expected="none of it in a beer", safety=True)
        return None

    def quantity(self, text: Text | None, kind: Kind, within: str) -> Quantity | None:
        """A text of a kind; `None` where it is absent or cannot be read (the problem has been filed)."""
        return read_quantity(text, kind, self.problems, within) if text is not None else None

    def minutes_in_boil(self, text: Text | None, boil_min: float, within: str) -> Quantity | None:
        """A time before the end of a boil of ``boil_min``; `None` where it is absent, or with its problem filed."""
        minutes = self.quantity(text, TIME, within)
        if minutes is None or minutes.number <= boil_min:
            return minutes
        self.problems.error(minutes.place, f"{minutes.text} is longer than the boil of {boil_min:g} min", within=within)
        return None

    def unknown(self, name: Text, what: str, section: str, within: str, near: str, expected: str) -> None:
        """File the error of a name that no ``what`` has: where it belongs, or what is ``near``, or what is expected."""
        if found := elsewhere(name.value, section, self.pantry):
            there = f"it under {found.section}"
            self.problems.error(name.place, f'"{name.value}" is {found.one}', within=within, expected=there)
            return
        what = f'unknown {what} "{name.value}"'
        self.problems.error(name.place, what, within=within, expected="" if near else expected, suggestion=near)


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
