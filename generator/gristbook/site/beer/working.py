"""The working of a recipe's figures: every number that went into them, once, and where each is to be found."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass

from gristbook.sheet.origin import By, Given, Reckoned, Worked, put_in
from gristbook.sheet.value import Value, lineage
from gristbook.site.addresses import Anchors, slug
from gristbook.site.beer.steps import Step, step_of
from gristbook.site.words import capital


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
    value: Value
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
    values: tuple[Value, ...]
    anchor_of: Callable[[Value], str]

    @property
    def steps(self) -> tuple[Step, ...]:
        """Each made when it is asked for, since no page but its own does."""
        return tuple(step_of(value, self.anchor_of(value), self.anchor_of) for value in self.values)


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
    walked = set[int]()
    for title, values in kept:
        steps: list[Value] = []
        for value in lineage(*values, until=lambda value: id(value) in ends or id(value) in walked):
            walked.add(id(value))
            if not value.label:
                continue  # a step on the way stands in the line of what it leads to
            anchor, first = anchors.place(value)
            if not first:
                continue
            if id(value) in ends:
                led.append(_led(ends[id(value)], anchor))
            elif not isinstance(value.made, Given):
                steps.append(value)
            elif anchor:
                path = value.place.path if value.place else ""
                inputs.setdefault(path, []).append((value, _input(value, value.made, anchor)))
        if steps:
            sections.append(Section(slug(title), title, tuple(steps), anchors.of))
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


def _input(value: Value, given: Given, anchor: str) -> Input:
    line = given.place.line if given.place else None
    return Input(anchor, capital(value.label), value, given.words, line)


def _led(it: Elsewhere, anchor: str) -> Input:
    value = it.value
    return Input(anchor, capital(value.label), value, it.origin, None, it.path)


def _by_file(inputs: Mapping[str, list[tuple[Value, Input]]], anchors: _Anchoring) -> Iterator[Inputs]:
    """The recipe's own file first, then the others by path, last what no file gives."""
    for path in sorted(inputs, key=lambda path: (not path, "/" in path, path == "book.yaml", path)):
        rows = sorted(inputs[path], key=lambda row: (row[0].place is None, row[0].place or 0))
        yield Inputs(
            anchors.new(f"given in {path}" if path else "given by the method"), path, tuple(r for _, r in rows)
        )
