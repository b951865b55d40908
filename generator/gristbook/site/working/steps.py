"""One figure of one kettle: by what formula it comes, with which numbers, and what comes out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

from markupsafe import Markup, escape

from gristbook.sheet.origin import Given, Note, Reckoned, Worked
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount, amount_of, from_to, span
from gristbook.site.working.numbers import put_in, result
from gristbook.site.working.walk import Walk, without, words_of

Link: TypeAlias = Callable[[Value, bool], str]
"""Where a value stands on the page, or, if true, all that come by its formula; "" for nowhere."""


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter of a formula, what it means, and the values that one kettle puts in for it."""

    letter: str
    words: str
    unit: str
    values: tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """What one kettle makes of a figure.

    ``form`` is the same for all that come by one formula, and nothing for what was given. ``put_in`` are the numbers
    put in, by letter, or all of plain arithmetic in one; ``result`` is what comes out, ``us`` the same in US
    units, ``between`` its range, or a fraction in per cent. ``thing`` is what the figure is of.
    """

    value: Value
    walk: Walk
    thing: str
    form: object
    put_in: tuple[str, ...]
    result: str
    us: str
    between: Amount | None

    @property
    def words(self) -> str:
        """What the figure is called, of any thing of its kind."""
        return without(self.thing, words_of(self.value))

    @property
    def line(self) -> str:
        """What tells the line of the thing that it is of from others."""
        return self.walk.line(self.value)

    @property
    def printed(self) -> object:
        """All that a reader sees of it."""
        return self.form, self.put_in, self.result, self.between

    @property
    def given_by(self) -> object:
        """What tells one line that somebody wrote from another."""
        made = self.value.made
        return self.printed, (made.words, made.place) if isinstance(made, Given) else None

    @property
    def notes(self) -> tuple[Note, ...]:
        """What there is to say about the result."""
        return () if isinstance(self.value.made, Given) else self.value.made.notes


def step_of(value: Value, walk: Walk) -> Step:
    """The numbers of one kettle; what was given has none put in, and only what pages show has a range or US units."""
    made, thing = value.made, walk.thing(value)
    form: object = None
    numbers: tuple[str, ...] = ()
    if id(value) not in walk.ends:
        match made:
            case Worked(equation=equation):
                form = equation.name, equation.gives
                numbers = tuple(", ".join(_put_in(it, walk) for it in values_of(put)) for _, put in made.inputs)
            case Reckoned():
                form, numbers = in_words(made, walk, nowhere, thing), (in_numbers(made, walk),)
    seen = form is None or walk.shown(value)
    us, between = (amount(value).us, span(value)) if seen else ("", None)
    per_cent = amount(value) if value.unit == "fraction" and between is None else None
    return Step(value, walk, thing, form, numbers, result(value.number, value.unit), us, between or per_cent)


def letters_of(made: Worked) -> tuple[Letter, ...]:
    """The letters of an equation, and what was put in for each."""
    arguments = (made.equation.arguments[name] for name, _ in made.inputs)
    return tuple(
        Letter(it.symbol, it.words, it.unit, values_of(put))
        for it, (_, put) in zip(arguments, made.inputs, strict=True)
    )


def symbols_of(made: Worked) -> Iterator[str]:
    """The letters alone."""
    arguments = made.equation.arguments
    return (arguments[name].symbol for name, _ in made.inputs)


def values_of(put: Value | tuple[Value, ...]) -> tuple[Value, ...]:
    """What was put in for one letter: a value, or all of a list."""
    return put if isinstance(put, tuple) else (put,)


def in_words(made: Reckoned, walk: Walk, link: Link, thing: str = "") -> Markup:
    """Plain arithmetic with words for its numbers; each leads to where ``link`` says, if anywhere.

    The words are for any ``thing`` of its kind, where one is named; things of one kind are added up as such.
    """
    if made.sign == "+":
        kinds = {without(walk.thing(it), words_of(it)) if not walk.in_line(it) else "" for it in made.parts}
        if len(made.parts) > 1 and len(kinds) == 1 and kinds != {""}:
            return Markup("Σ {} of each").format(_linked(kinds.pop(), link(made.parts[0], True)))

    def word(value: Value) -> str:
        words = without(thing, words_of(value)) or put_in(value.number, value.unit)
        return _linked(words, link(value, False))

    return Markup(_said(made, walk, word))


def _linked(words: str, href: str) -> Markup:
    return Markup(f"<a href=#{href}>{escape(words)}</a>") if href else escape(words)


def nowhere(_: Value, __: bool) -> str:
    """Words that lead nowhere."""
    return ""


def in_numbers(made: Reckoned, walk: Walk) -> str:
    """Plain arithmetic in numbers with their units."""
    return _said(made, walk, lambda value: put_in(value.number, value.unit))


def _said(made: Reckoned, walk: Walk, leaf: Callable[[Value], str]) -> str:
    """Arithmetic as one line; what stands in the line that uses it is in brackets."""

    def part(value: Value) -> str:
        inner = value.made
        if not isinstance(inner, Reckoned) or not walk.in_line(value):
            return leaf(value)
        said = _said(inner, walk, leaf)
        return f"({said})" if len(made.parts) > 1 and len(inner.parts) > 1 else said

    if made.sign == "rounded up":
        return f"{part(made.parts[0])} {made.sign}"
    return f" {made.sign} ".join(part(value) for value in made.parts)


def _put_in(value: Value, walk: Walk) -> str:
    if isinstance(value.made, Reckoned) and walk.in_line(value):
        return in_numbers(value.made, walk)
    return put_in(value.number, "SG" if value.unit == "SG" else "")


def bounds_of(note: Note) -> Amount:
    """The bounds of a note as they are printed."""
    return from_to(*note.bounds, note.unit) if len(note.bounds) == 2 else amount_of(note.bounds[0], note.unit)
