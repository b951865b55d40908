"""The working of a recipe's figures: every number that went into them, once, and where each is to be found."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass

from markupsafe import Markup

from gristbook.equations.sources import DEFINITION
from gristbook.sheet.origin import By, Given, Note, Reckoned, Worked, put_in
from gristbook.sheet.value import Value, lineage
from gristbook.site.addresses import Anchors, slug
from gristbook.site.amounts import Amount, amount, amount_of, exact, from_to, span
from gristbook.site.formulas import drawn, with_numbers
from gristbook.site.words import capital

CONSTANT = "a constant of the method"
BY_DEFINITION = "By definition"
"""What stands for the source where a figure follows from the meaning of its words."""


@dataclass(frozen=True, slots=True)
class PutIn:
    """A number put into a formula; ``anchor`` is where it comes from, empty for a constant of the method."""

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
    shown: Amount
    span: Amount | None
    mover: str
    source: str
    citation: str
    where: str
    standing: str
    notes: tuple[NoteView, ...]


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """A figure whose working stands on another page, at ``path``, and who says what it is."""

    value: Value
    origin: str
    path: str


@dataclass(frozen=True, slots=True)
class Input:
    """A figure that somebody wrote down, or that leads to its working on another page."""

    anchor: str
    label: str
    shown: Amount
    span: Amount | None
    origin: str
    line: int | None
    leads_to: str = ""


@dataclass(frozen=True, slots=True)
class Inputs:
    """The figures that one file gives, in the order of its lines; ``path`` is empty for those that no file gives.

    ``elsewhere`` is true of those whose working stands on another page.
    """

    anchor: str
    path: str
    rows: tuple[Input, ...]
    elsewhere: bool = False


@dataclass(frozen=True, slots=True)
class Section:
    """The steps that lead to one part of the plan and stand in no section before it."""

    anchor: str
    title: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Working:
    """All inputs and all steps, and every value with its anchor by its identity.

    The values are kept so that none can be thrown away and its identity given to another.
    """

    inputs: tuple[Inputs, ...]
    sections: tuple[Section, ...]
    anchors: Mapping[int, tuple[Value, str]]

    def anchor(self, value: Value) -> str:
        """Where on the page the value stands.

        Raises
        ------
        KeyError
            The working was not made from it.
        """
        return self.anchors[id(value)][1]


def values_in(record: object, without: tuple[type, ...] = ()) -> Iterator[Value]:
    """Every value in a record, its records and its lists, in the order of the fields; not in records ``without``."""
    if isinstance(record, Value):
        yield record
    elif is_dataclass(record) and not isinstance(record, without):
        for field in fields(record):
            yield from values_in(getattr(record, field.name), without)
    elif isinstance(record, tuple):
        for member in record:
            yield from values_in(member, without)


def working(
    groups: Sequence[tuple[str, Iterable[Value]]],
    names: Mapping[str, Value],
    taken: Iterable[str] = (),
    elsewhere: Mapping[int, Elsewhere] | None = None,
) -> Working:
    """The working of values in titled groups; ``names`` are the figures whose anchor is their own name.

    ``taken`` are the anchors that its page has given away already; ``elsewhere`` has, by their identity, the values
    that are worked out on another page.

    Values that say the same of the same inputs are one step, however often they were worked out.
    """
    kept, ends = [(title, tuple(values)) for title, values in groups], elsewhere or {}
    anchors = _Anchoring(names, [*taken, *(slug(title) for title, _ in kept)], ends)
    led: list[Input] = []
    inputs: dict[str, list[tuple[Value, Input]]] = {}
    sections: list[Section] = []
    for title, values in kept:
        steps: list[Step] = []
        for value in lineage(*values, until=lambda value: id(value) in ends):
            if not value.label:
                continue  # a step on the way stands in the line of what it leads to
            anchor, first = anchors.place(value)
            if not first:
                continue
            if id(value) in ends:
                led.append(_led(ends[id(value)], anchor))
            elif not isinstance(value.made, Given):
                steps.append(_step(value, anchor, anchors.of))
            elif anchor:
                path = value.place.path if value.place else ""
                inputs.setdefault(path, []).append((value, _input(value, value.made, anchor)))
        if steps:
            sections.append(Section(slug(title), title, tuple(steps)))
    others = [Inputs(anchors.new("worked out elsewhere"), "", tuple(led), elsewhere=True)] if led else []
    return Working((*_by_file(inputs, anchors), *others), tuple(sections), anchors.by_identity)


class _Anchoring:
    """Gives each value its anchor, the same to values that cannot be told apart."""

    def __init__(self, names: Mapping[str, Value], taken: Iterable[str], ends: Container[int]) -> None:
        self._ends = ends
        self.by_identity: dict[int, tuple[Value, str]] = {}
        self._by_meaning: dict[object, str] = {}
        self._free = Anchors("main", "given", *taken)
        self._names: dict[int, str] = {}
        for name, value in names.items():
            self._names.setdefault(id(value), name)

    def of(self, value: Value) -> str:
        return self.by_identity[id(value)][1] if value.label else ""

    def place(self, value: Value) -> tuple[str, bool]:
        """The value's anchor, and whether it is the first of its kind; a constant of the method has none."""
        if id(value) in self.by_identity:
            return self.of(value), False
        meaning = self._meaning(value)
        first = meaning not in self._by_meaning
        if first:
            constant = isinstance(value.made, Given) and value.made.by is By.CONSTANT
            self._by_meaning[meaning] = "" if constant else self.new(self._names.get(id(value), value.label))
        self.by_identity[id(value)] = value, self._by_meaning[meaning]
        return self.of(value), first

    def new(self, words: str) -> str:
        return self._free.take(words)

    def _meaning(self, value: Value) -> object:
        if id(value) in self._ends:
            return (value, "elsewhere")
        put = tuple((v.number, self.of(v)) for v in put_in(value.origin))
        match value.made:
            case Worked(equation=equation):
                return (value, equation.name, put)
            case Given(words=words, place=place):
                return (value, words, place)
            case Reckoned(sign=sign):
                return (value, sign, put)


def _step(value: Value, anchor: str, anchor_of: Callable[[Value], str]) -> Step:
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
        amount(value),
        span(value),
        value.mover,
        record.source.key if record else "",
        (BY_DEFINITION if record.source is DEFINITION else record.source.citation) if record else "",
        record.where if record else "",
        record.source.standing if record else "",
        tuple(_note(note) for note in made.notes),
    )


def _of_equation(made: Worked, anchor_of: Callable[[Value], str]) -> tuple[str, tuple[Symbol, ...], str]:
    """An equation's formula as its source prints it, its letters, and the formula with numbers for them."""
    record = made.equation
    put = [(record.symbols[name], value) for name, value in made.inputs]
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
    symbols = tuple(Symbol(drawn(leaf.label), (_put_in(leaf, anchor_of),)) for leaf in _leaves(made))
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


def _input(value: Value, given: Given, anchor: str) -> Input:
    line = given.place.line if given.place else None
    return Input(anchor, capital(value.label), amount(value), span(value), given.words, line)


def _led(it: Elsewhere, anchor: str) -> Input:
    value = it.value
    return Input(anchor, capital(value.label), amount(value), span(value), it.origin, None, it.path)


def _by_file(inputs: Mapping[str, list[tuple[Value, Input]]], anchors: _Anchoring) -> Iterator[Inputs]:
    """The recipe's own file first, then the others by path, last what no file gives."""
    for path in sorted(inputs, key=lambda path: (not path, "/" in path, path == "book.yaml", path)):
        rows = sorted(inputs[path], key=lambda row: (row[0].place is None, row[0].place or 0))
        yield Inputs(
            anchors.new(f"given in {path}" if path else "given by the method"), path, tuple(r for _, r in rows)
        )
