"""YAML as text with places: every scalar stays a string until a reader who knows its kind types it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

import yaml

from gristbook.problems import Place, Problems

DEEPEST = 20
"""How many levels a file may nest: a book needs four."""


@dataclass(frozen=True, slots=True)
class Text:
    """A piece of an author's text. ``exact`` says that it stands in the file letter for letter from `place` on."""

    value: str
    place: Place
    exact: bool = True

    def part(self, start: int, stop: int | None = None) -> Text:
        """The piece from ``start`` to ``stop`` without the blanks around it, with its own place."""
        piece = self.value[start:stop]
        start += len(piece) - len(piece.lstrip())
        return Text(piece.strip(), self.at(start), self.exact)

    def at(self, offset: int) -> Place:
        """The place of a letter: its column where that is known, else where the text begins."""
        return replace(self.place, column=self.place.column + offset) if self.exact else self.place

    def split(self, mark: str) -> list[Text]:
        """The pieces between the marks, blanks trimmed."""
        pieces, start = [], 0
        for piece in self.value.split(mark):
            pieces.append(self.part(start, start + len(piece)))
            start += len(piece) + len(mark)
        return pieces


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
    reader = _Reader(source, path, problems, first_line)
    try:
        return reader.document()
    except _Refused:
        return None
    except yaml.MarkedYAMLError as fault:
        mark = fault.problem_mark or fault.context_mark
        place = reader.place(mark) if mark else Place(path, first_line)
        problems.error(place, *_in_an_authors_words(fault, reader.lines, mark))
    except yaml.YAMLError:
        problems.error(Place(path, first_line), "this file holds a character that is not text", expected="plain UTF-8")
    return None


class _Reader:
    def __init__(self, source: str, path: str, problems: Problems, first_line: int) -> None:
        self.lines = source.split("\n")
        self._path, self._problems, self._first_line = path, problems, first_line
        self._events: Iterator[Any] = yaml.parse(source, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))

    def place(self, mark: Any) -> Place:
        return Place(self._path, mark.line + self._first_line, mark.column + 1)

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
        if isinstance(event, yaml.AliasEvent):
            self._refuse(event, f'"*{event.anchor}" refers to another line', "the text itself")
        if getattr(event, "anchor", None):
            self._refuse(event, f'"&{event.anchor}" names a line for reference', "the text itself")
        if getattr(event, "tag", None) not in (None, "!"):
            self._refuse(event, f'a tag "{event.tag}"', "plain text")
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(event, depth)
        return self._mapping(event, depth)

    def _sequence(self, start: Any, depth: int) -> Listing:
        items = []
        while not isinstance(event := next(self._events), yaml.SequenceEndEvent):
            items.append(self._node(event, depth + 1))
        return Listing(tuple(items), self.place(start.start_mark))

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
        return Table(tuple(entries.values()), self.place(start.start_mark))

    def _scalar(self, event: Any) -> Text:
        mark = event.start_mark
        column = mark.column + (1 if event.style in ("'", '"') else 0)
        line = self.lines[mark.line] if mark.line < len(self.lines) else ""
        if "\n" not in event.value and line[column : column + len(event.value)] == event.value:
            return Text(event.value, Place(self._path, mark.line + self._first_line, column + 1))
        return Text(event.value, self.place(mark), exact=False)

    def _refuse(self, event: Any, what: str, expected: str) -> None:
        self._problems.error(self.place(event.start_mark), what, expected=expected)
        raise _Refused


def _in_an_authors_words(fault: yaml.MarkedYAMLError, lines: list[str], mark: Any) -> tuple[str]:
    """What a YAML error means to somebody who has never heard of YAML."""
    said = str(fault.problem or "")
    line = lines[mark.line].strip() if mark and mark.line < len(lines) else ""
    value = line.lstrip("- ").partition(": ")[2] or line.lstrip("- ")
    if "mapping values are not allowed" in said:
        return ('a colon and a blank (": ") inside a value; put the value in quotes',)
    if "cannot start any token" in said or value[:1] in ("@", "`", "%"):
        return (f'a value cannot start with "{(value or "?")[:1]}"; put it in quotes',)
    if "found character '\\t'" in said or "\t" in line[: len(line) - len(line.lstrip())]:
        return ("a tab at the start of a line; use blanks",)
    if "end of stream" in said or "end of quoted" in said or "quoted scalar" in str(fault.context or ""):
        return ("a quotation mark is opened and never closed",)
    if "block end" in said or "block collection" in str(fault.context or ""):
        return ("this line is not indented like the lines around it",)
    return (f"this cannot be read ({said})",)
