"""One step of a working: its formula, the same with numbers, what was put in, and what came of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.equations.sources import DEFINITION
from gristbook.sheet.origin import Given, Note, Reckoned, Worked
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount_of, exact, from_to
from gristbook.site.beer.formulas import drawn, with_numbers
from gristbook.site.words import capital

CONSTANT = "a constant of the method"
BY_DEFINITION = "By definition"
"""What stands for the source where a figure follows from the meaning of its words."""


@dataclass(frozen=True, slots=True)
class PutIn:
    """A number put into a formula; ``anchor`` is where it comes from, empty for a constant of the method.

    ``label`` is empty where the letter that it stands for says it.
    """

    number: str
    label: str
    anchor: str


@dataclass(frozen=True, slots=True)
class Symbol:
    """A letter of a formula and the number, or the list of numbers, that it stands for."""

    letter: Markup
    numbers: tuple[PutIn, ...]


@dataclass(frozen=True, slots=True)
class NoteView:
    """Something to say about a result: words, bounds as they are printed, and the words of the source after them."""

    before: str
    bounds: Amount
    after: str


@dataclass(frozen=True, slots=True)
class Step:
    """A figure that an equation made; ``leads_to`` stands between the numbers put in and the result."""

    anchor: str
    label: str
    formula: Markup
    inserted: Markup
    symbols: tuple[Symbol, ...]
    leads_to: str
    result: str
    value: Value
    source: str
    citation: str
    where: str
    standing: str
    notes: tuple[NoteView, ...]


def step_of(value: Value, anchor: str, anchor_of: Callable[[Value], str]) -> Step:
    """A value that was worked out; ``anchor_of`` says where on the page another one stands."""
    made = value.made
    assert not isinstance(made, Given), "what is given is no step"
    record = made.equation if isinstance(made, Worked) else None
    told = _of_equation(made, anchor_of) if isinstance(made, Worked) else _of_arithmetic(made, anchor_of)
    formula, symbols, inserted = told
    return Step(
        anchor,
        capital(value.label),
        drawn(formula),
        drawn(inserted) if inserted != formula else Markup(),
        symbols,
        "gives" if "such that" in formula else "=",
        exact(value.number, value.unit),
        value,
        record.source.key if record else "",
        (BY_DEFINITION if record.source is DEFINITION else record.source.citation) if record else "",
        record.where if record else "",
        record.source.standing if record else "",
        tuple(_note(note) for note in made.notes),
    )


def in_words(made: Worked | Reckoned) -> tuple[str, str]:
    """A formula as plain text, and the same with numbers; "" where these cannot be put in as it stands."""
    told = _of_equation(made, _nowhere) if isinstance(made, Worked) else _of_arithmetic(made, _nowhere)
    return told[0], told[2]


def _nowhere(_: Value) -> str:
    """Plain text leads nowhere."""
    return ""


def _of_equation(made: Worked, anchor_of: Callable[[Value], str]) -> tuple[str, tuple[Symbol, ...], str]:
    """An equation's formula as its source prints it, its letters, and the formula with numbers for them."""
    record = made.equation
    put = [(record.arguments[name].symbol, value) for name, value in made.inputs]
    numbers = {
        letter: tuple(exact(v.number, _digits_of(v)) for v in it)
        if isinstance(it, tuple)
        else exact(it.number, _digits_of(it))
        for letter, it in put
    }
    symbols = tuple(
        Symbol(drawn(letter), tuple(_put_in(v, anchor_of) for v in (it if isinstance(it, tuple) else (it,))))
        for letter, it in put
    )
    return record.formula, symbols, with_numbers(record.formula, numbers)


def _of_arithmetic(made: Reckoned, anchor_of: Callable[[Value], str]) -> tuple[str, tuple[Symbol, ...], str]:
    """Plain arithmetic as it is said, what it was done with, and the same in numbers."""
    symbols = tuple(
        Symbol(drawn(leaf.label), (PutIn(exact(leaf.number, leaf.unit), "", anchor_of(leaf)),))
        for leaf in _leaves(made)
    )
    return _said(made, lambda leaf: leaf.label), symbols, _said(made, lambda leaf: exact(leaf.number, leaf.unit))


def _said(made: Reckoned, leaf: Callable[[Value], str]) -> str:
    """Arithmetic as one line; what has no name of its own stands in it as arithmetic, in brackets."""

    def part(value: Value) -> str:
        if value.label or not isinstance(value.made, Reckoned):
            return leaf(value) or exact(value.number, value.unit)
        return f"({_said(value.made, leaf)})"

    return f" {made.sign} ".join(part(value) for value in made.parts)


def _leaves(made: Reckoned) -> Iterator[Value]:
    for part in made.parts:
        if part.label:
            yield part
        elif isinstance(part.made, Reckoned):
            yield from _leaves(part.made)


def _note(note: Note) -> NoteView:
    shown = from_to(*note.bounds, note.unit) if len(note.bounds) == 2 else amount_of(note.bounds[0], note.unit)
    return NoteView(note.before, shown, note.after)


def _digits_of(value: Value) -> str:
    """A gravity keeps five decimals; other numbers stand in a formula without their unit."""
    return "SG" if value.unit == "SG" else ""


def _put_in(value: Value, anchor_of: Callable[[Value], str]) -> PutIn:
    anchor = anchor_of(value)
    return PutIn(exact(value.number, value.unit), value.label if anchor else CONSTANT, anchor)
