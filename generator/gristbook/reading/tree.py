"""YAML as text with places: every scalar stays a string until a reader who knows its kind types it."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, TypeAlias

import yaml

from gristbook.problems import Place, Problems
from gristbook.reading.refusals import BEGINS, in_an_authors_words, shown_at_its_start

COLON = "\ue000"
"""Stands in for a colon inside a value while YAML is read; a letter of private use, which no author writes."""

NOT_TEXT = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
"""Characters that no text is made of, and that XML and most programs choke on."""

CUT = re.compile(r"[ \t]+(?P<rest>#(?:[^\s#].*|[ \t]+\d+[ \t]*$))", re.MULTILINE)
"""What stands behind a value and looks like a part of it; a comment has a blank and words after its "#"."""

CURLY = re.compile("[“„‘](?P<inside>[^“„‘”’]*)[“”’]")
"""A value within quotes that a word processor made of the straight ones."""

DEEPEST = 20
"""How many levels a file may nest: a book needs four."""


@cache
def _mark(mark: str) -> re.Pattern[str]:
    return re.compile(mark, re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Text:
    """A piece of an author's text. ``exact`` says that it stands in the file letter for letter from `place` on."""

    value: str
    place: Place
    exact: bool = True

    @property
    def word(self) -> str:
        """The text as a keyword is compared: in small letters, one blank between words."""
        return " ".join(self.value.casefold().split())

    def part(self, start: int, stop: int | None = None) -> Text:
        """The piece from ``start`` to ``stop`` without the blanks around it, with its own place."""
        piece = self.value[start:stop]
        start += len(piece) - len(piece.lstrip())
        return Text(piece.strip(), self.at(start), self.exact)

    def at(self, offset: int) -> Place:
        """The place of a letter: its column where that is known, else where the text begins."""
        place = self.place
        return Place(place.path, place.line, place.column + offset) if self.exact and offset else place

    def split(self, mark: str) -> list[Text]:
        """The pieces between the marks, a regular expression for capitals and small letters alike, blanks trimmed."""
        pieces, start = [], 0
        for found in _mark(mark).finditer(self.value):
            pieces.append(self.part(start, found.start()))
            start = found.end()
        return [*pieces, self.part(start)]


@dataclass(frozen=True, slots=True)
class Listing:
    """A YAML sequence."""

    items: tuple[Node, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Table:
    """A YAML mapping, keys in the author's order, none of them twice."""

    entries: tuple[tuple[Text, Node], ...]
    place: Place


Node: TypeAlias = Text | Listing | Table


class _Refused(Exception):
    """The file cannot be read further; the problem has been filed."""


def read_yaml(source: str, path: str, problems: Problems, first_line: int = 1) -> Node | None:
    """Text of one YAML document to a tree; `None` where it is empty or cannot be read (a problem says why).

    ``first_line`` is the line of the file on which ``source`` begins.
    """
    if not is_text(source, path, problems, first_line):
        return None
    reader = _Reader(source, path, problems, first_line)
    try:
        return reader.document()
    except _Refused:
        return None
    except yaml.MarkedYAMLError as fault:
        if (at := _inner_colon(fault, source)) is not None:
            return read_yaml(f"{source[:at]}{COLON}{source[at + 1 :]}", path, problems, first_line)
        said = f"{fault.context}; {fault.problem}"
        mark = fault.context_mark if shown_at_its_start(said) else fault.problem_mark
        place = reader.place(mark.index if mark else 0)
        words, offset = in_an_authors_words(said, reader.line(place), place.column - 1)
        problems.error(replace(place, column=offset + 1), words)
    except yaml.reader.ReaderError as fault:
        _no_text(reader.place(fault.position), chr(fault.character), problems)
    return None


def _inner_colon(fault: yaml.MarkedYAMLError, source: str) -> int | None:
    """Where a colon stands inside a value, as in "title: Winter: a beer", which YAML takes for a second name's."""
    mark = fault.problem_mark
    if mark is None or "mapping values" not in str(fault.problem) or source[mark.index : mark.index + 1] != ":":
        return None
    before = source[source.rfind("\n", 0, mark.index) + 1 : mark.index]
    return mark.index if ": " in before else None


def is_text(source: str, path: str, problems: Problems, first_line: int = 1) -> bool:
    """Whether a source holds only what text is made of; the first character that is not has been filed."""
    if odd := NOT_TEXT.search(source):
        line, start = source.count("\n", 0, odd.start()), source.rfind("\n", 0, odd.start())
        _no_text(Place(path, line + first_line, odd.start() - start), odd[0], problems)
    return odd is None


def _no_text(place: Place, letter: str, problems: Problems) -> None:
    problems.error(place, f"a character that is not text, U+{ord(letter):04X}", expected="plain UTF-8")


class _Reader:
    def __init__(self, source: str, path: str, problems: Problems, first_line: int) -> None:
        self._source, self._path, self._problems, self._first_line = source, path, problems, first_line
        self._lines, self._has_a_cut = source.split("\n"), CUT.search(source) is not None
        self._starts = [0, *(offset + 1 for offset, letter in enumerate(source) if letter == "\n")]
        self._events: Iterator[Any] = yaml.parse(source, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))

    def place(self, index: int) -> Place:
        """Where a letter stands as an editor counts; YAML has further characters that it takes for a line's end."""
        line = bisect_right(self._starts, index) - 1
        return Place(self._path, line + self._first_line, index - self._starts[line] + 1)

    def line(self, place: Place) -> str:
        return self._lines[place.line - self._first_line]

    def document(self) -> Node | None:
        found: Node | None = None
        documents = 0
        for event in self._events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self._refuse(event, "a second document begins here", "one document a file")
            elif isinstance(event, yaml.NodeEvent):
                found = self._node(event, 1)
        return found

    def _node(self, event: Any, depth: int) -> Node:
        if depth > DEEPEST:
            self._refuse(event, "this nests too deeply", f"at most {DEEPEST} levels")
        marked = isinstance(event, yaml.AliasEvent) or event.anchor or event.tag not in (None, "!")
        if marked:  # references and types, which no author of recipes means
            self._refuse(event, BEGINS.format(here=self._source[event.start_mark.index]))
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(event, depth)
        return self._mapping(event, depth)

    def _sequence(self, start: Any, depth: int) -> Listing:
        items = []
        while not isinstance(event := next(self._events), yaml.SequenceEndEvent):
            items.append(self._node(event, depth + 1))
        return Listing(tuple(items), self.place(start.start_mark.index))

    def _mapping(self, start: Any, depth: int) -> Table:
        entries: dict[str, tuple[Text, Node]] = {}
        while not isinstance(event := next(self._events), yaml.MappingEndEvent):
            key = self._node(event, depth + 1)
            value = self._node(next(self._events), depth + 1)
            if not isinstance(key, Text):
                self._problems.error(key.place, "a key that is not a word", expected="a word, a colon, a value")
            elif key.value in entries:
                first = entries[key.value][0].place.line
                self._problems.error(
                    key.place, f'"{key.value}" is given twice', expected=f"it once (line {first} has it)"
                )
            else:
                entries[key.value] = (key, value)
        return Table(tuple(entries.values()), self.place(start.start_mark.index))

    def _scalar(self, event: Any) -> Text:
        start = event.start_mark.index
        if odd := NOT_TEXT.search(event.value):  # spelled out in quotation marks, as "\x07"
            _no_text(self.place(start), odd[0], self._problems)
            raise _Refused
        if self._has_a_cut:
            self._look_behind(event)
        opened = start + (1 if event.style in ("'", '"') else 0)
        value, exact = event.value.replace(COLON, ":"), False
        if "\n" not in event.value and self._source.startswith(event.value, opened):
            start, exact = opened, True
        if not event.style and (curly := CURLY.fullmatch(value)):
            what = f"the curly quotes are letters of the value {curly[0]}"
            self._problems.warning(self.place(start), what, expected=f'"{curly["inside"]}", or no quotes')
        return Text(value, self.place(start), exact)

    def _look_behind(self, event: Any) -> None:
        """Warn of a "#" behind a value that an author may mean, as in "Porter #3": YAML ends the value before it."""
        place = self.place(event.end_mark.index)
        if cut := CUT.match(self.line(place), place.column - 1):
            place = replace(place, column=cut.start("rest") + 1)
            what = f'"{cut["rest"].strip()}" is cut off: what stands behind a "#" is a comment'
            self._problems.warning(place, what, expected="the whole value in quotes, or a blank after the #")

    def _refuse(self, event: Any, what: str, expected: str = "") -> None:
        self._problems.error(self.place(event.start_mark.index), what, expected=expected)
        raise _Refused
