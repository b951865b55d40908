"""The ingredient line: an amount, a name, then what else matters, parted by commas; or a mapping of the same words."""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence, Set
from contextlib import suppress
from dataclasses import replace
from functools import partial
from typing import TypeVar

from gristbook.problems import Problems
from gristbook.reading.apart import AMERICAN, AMOUNT, BEHIND, LAST, LED, NAME, bare, in_order, line_with_a_colon
from gristbook.reading.commas import (
    miss_commas,
    named_behind,
    property_of,
    with_commas,
    without_asides,
    without_its_end,
)
from gristbook.reading.fields import Kind, shape_of
from gristbook.reading.heads import amount_and_name, something
from gristbook.reading.line import LATER, Broken, Line, Property
from gristbook.reading.notes import NOTE, TRIFLES, in_brackets, is_note, not_understood
from gristbook.reading.patterns import fits
from gristbook.reading.phrases import parted
from gristbook.reading.quantity import NUMBER, Quantity, Unreadable, comma_inside, leading_quantity
from gristbook.reading.tree import Node, Table, Text
from gristbook.reading.twice import is_aside

COUNTED = rf"(?P<value>{BEHIND}|{NUMBER})"
"""An amount behind the name of what is counted."""
APART = r"[,;](?![^()]*\))|\s\+\s|(?<=[^\d\s])\s[-–—]\s(?![^()]*\))(?!\d+(?:\.\d+)?\s*°?\s*[CF]\b)"
"""What parts a line: a comma, and none within brackets, or a plus."""

_COMMA_INSIDE = re.compile(r"(?<!\d)\d+,\d+")

K = TypeVar("K")
T = TypeVar("T")


def meant(text: Text, rows: Iterable[tuple[K, str]]) -> K:
    """What a text means that the pattern of one of ``rows`` fits, as its property has made sure."""
    return next(meaning for meaning, pattern in rows if fits(pattern, text.value))


def readable(nodes: Iterable[K], read: Callable[[K], T]) -> Iterator[T]:
    """What each of these is read as; one that cannot be read has filed its problem, and is left out."""
    for node in nodes:
        with suppress(Unreadable):
            yield read(node)


def bare_line(text: Text, problems: Problems) -> Line:
    """A line that is nothing but a text."""
    return Line(text.value, text.place, None, text, {}, {}, problems)


def read_line(
    node: Node,
    properties: tuple[Property, ...],
    problems: Problems,
    *,
    named: bool = True,
    mark: str = APART,
    runs_on: bool = False,
    is_name: Callable[[str], bool] = lambda _: True,
    of_name: Callable[[str, str], bool] = lambda *_: False,
    counts: Callable[[str], bool] = lambda _: False,
) -> Line:
    """A line or a mapping to its parts.

    ``named`` lines begin with an amount and a name; a part that is no property belongs to the name where ``of_name``
    knows it (`Munich malt, light`). ``mark`` is what parts them, a regular expression. What ends a name that
    ``is_name`` does not know is a part of its own, as if a comma stood before it; where a line ``runs_on``, blanks and
    small words part it like commas. What ``counts`` knows, a number counts. What is noted ends ``properties``.

    Raises
    ------
    Unreadable
        It cannot be read; the problem has been filed.
    """
    if isinstance(node, Table) and (line := line_with_a_colon(node, properties)):
        node = line
    if isinstance(node, Table):
        return _read_mapping(node, properties, problems, named)
    if not isinstance(node, Text):
        problems.error(node.place, "a list inside a list", expected="one ingredient a line")
        raise Unreadable
    if comma := _COMMA_INSIDE.search(node.value):
        what, expected, meant = comma_inside(comma[0])
        problems.error(node.at(comma.start()), what, within=node.value, expected=expected, suggestion=meant)
        raise Unreadable
    first, *last = node.split(LAST) if properties[-1].key == NOTE else [node]
    pieces = first.split(mark) + last
    if empty := next((piece for piece in pieces if not piece.value), None):
        what = "nothing between two commas" if empty is not pieces[-1] else "nothing after the last comma"
        problems.error(empty.place, what if len(pieces) > 1 else "an empty line", within=node.value)
        raise Unreadable
    pieces = in_order(pieces, properties, is_name) if named else pieces
    apart = partial(_apart, problems=problems, whole=node.value, runs_on=runs_on)
    try:
        amount, name, pieces = (
            amount_and_name(pieces, problems, node.value, lambda name: is_name(name) or counts(name))
            if named
            else (None, node.part(0, 0), pieces)
        )
    except Unreadable:
        with suppress(Unreadable):  # what is wrong further on is told as well
            _line_of(node, None, node.part(0, 0), apart(pieces[1:], properties), properties, problems, of_name)
        raise
    if named and amount is None:
        properties = (*properties, LATER if not counts(name.value) else replace(LATER, pattern=COUNTED))
    if named and not is_name(name.value):
        name, pieces = named_behind(name, pieces, properties, is_name, counted=amount is not None)
        name, ends = without_its_end(name, properties, is_name)
        pieces = [*ends, *pieces]
        if missed := [end for end in ends if not of_name(name.value, end.value)]:
            miss_commas([name, *missed], problems, node.value, after=f"{NUMBER}|{re.escape(name.value)}$")
    return _line_of(node, amount, name, apart(pieces, properties), properties, problems, of_name)


def _apart(
    pieces: Sequence[Text], properties: tuple[Property, ...], problems: Problems, whole: str, runs_on: bool
) -> Iterator[tuple[Text, list[Text]]]:
    """The pieces of a line, each with the parts that it is made of."""
    patterns = [known.pattern for known in properties]
    for piece in pieces:
        plain = bare(piece) if LED.search(piece.value) else piece
        parts = parted([plain], patterns, problems, whole) if runs_on else [plain]
        told, asides = without_asides(plain) if runs_on and parts == [plain] else (plain, [])
        if asides and not property_of(plain, properties):  # "raise to 76 °C with boiling water (about 5 L)"
            yield from _apart([told, *asides], properties, problems, whole, runs_on)
            continue
        found = [*with_commas(parts, properties, problems, whole)]
        whole_note = plain is not piece and found == [plain] and not property_of(plain, properties)
        yield piece, [piece] if whole_note else found


def _says_again(said: Sequence[Text], told: Set[str], properties: tuple[Property, ...]) -> bool:
    """Whether parts say what is told already, among words of their own, which are about something else then."""
    found = [property_of(part, properties) for part in said]
    once = {known.key for known in properties if not known.again}
    return NOTE in _kinds(properties) and None in found and any(it and it[0] in told & once for it in found)


def _line_of(
    node: Text,
    amount: Quantity | None,
    name: Text,
    pieces: Iterable[tuple[Text, list[Text]]],
    properties: tuple[Property, ...],
    problems: Problems,
    of_name: Callable[[str, str], bool],
) -> Line:
    parts: dict[str, Text] = {}
    left: list[Text] = []
    again: list[tuple[str, Text, Text]] = []
    said = (
        part
        for piece, found in pieces
        for part in ([piece] if found[1:] and _says_again(found, parts.keys(), properties) else found)
    )
    for piece in said:
        found = property_of(bare(piece) if LED.search(piece.value) else piece, properties)
        if found is None and of_name(name.value, piece.value) and not piece.value[0].isdigit():
            name = Text(f"{name.value} {piece.value}", name.place, exact=False)
        elif found is None:
            left += [] if TRIFLES.issuperset(piece.value.casefold().split()) else [piece]
        elif found[0] == AMOUNT and amount is None:
            amount = something(leading_quantity(found[1], problems, node.value), problems, node.value)
        elif found[0] in parts and any(known.again for known in properties if known.key == found[0]):
            parts[found[0]] = Text(f"{parts[found[0]].value}, {found[1].value}", piece.place, exact=False)
        elif found[0] not in parts and found[0] != AMOUNT:
            parts[found[0]] = found[1]
        else:
            again.append((found[0], found[1], piece))
    line = Line(node.value, node.place, amount, name, parts, _kinds(properties), problems)
    notes = [it for it in left if is_note(it, properties, node.value, parts.keys(), named=bool(name.value))]
    strange = [it for it in left if it not in notes]
    for piece in strange:
        not_understood(piece, properties, problems, node.value)
    for key, text, piece in again:
        first = parts.get(key, amount)
        instead = fits(r"(?:or|/) .+", piece.value)  # "or 3 drops for a bottle"
        if NOTE in line.kinds and (instead or in_brackets(piece, node.value) or is_aside(text, first)):
            notes.append(piece)
        else:
            words = first.value if isinstance(first, Text) else first.text if first else ""
            line.error(f"{key} is given twice", f"{words} or {text.value}", at=piece)
            strange.append(piece)
    line = replace(line, notes=tuple(sorted(notes, key=lambda it: it.place))) if notes else line
    if strange:
        raise Broken(line)
    return line


def _kinds(properties: tuple[Property, ...]) -> dict[str, Kind]:
    return {known.key: known.kind for known in properties}


def _read_mapping(table: Table, properties: tuple[Property, ...], problems: Problems, named: bool) -> Line:
    known = [candidate.key for candidate in properties] + ([AMOUNT, NAME] if named else [])
    parts: dict[str, Text] = {}
    before = len(problems)
    for word, node in table.entries:
        key = Text(AMERICAN.get(word.value, word.value), word.place)
        if key.value not in known:
            what, expected = f'a line has no "{key.value}"', "one of " + ", ".join(sorted(known))
            problems.unknown(key.place, what, key.value, known, expected=expected)
        elif not isinstance(node, Text):
            problems.error(node.place, f"{key.value} cannot be {shape_of(node)}", expected="words")
        elif (value := _value_of(key.value, node, properties, problems)) is not None:
            parts[key.value] = value
    amount, name = parts.pop(AMOUNT, None), parts.pop(NAME, None)
    if named and (name is None or not name.value) and len(problems) == before:
        problems.error(table.place, "a line needs a name", expected="name: what it is")
    if len(problems) > before:
        raise Unreadable
    read = leading_quantity(amount, problems) if amount else None
    given = something(read, problems, amount.value if amount else "")
    if amount and (read is None or amount.value[read.end :].strip()):
        problems.error(amount.place, f'"{amount.value}" is not an amount', expected="an amount, as 250 g")
        raise Unreadable
    whole = ", ".join(f"{key.value}: {node.value}" for key, node in table.entries if isinstance(node, Text))
    return Line(whole, table.place, given, name or Text("", table.place), parts, _kinds(properties), problems)


def _value_of(key: str, node: Text, properties: tuple[Property, ...], problems: Problems) -> Text | None:
    """The value under a key; a flag's "yes" and a part written out in full count, and its "no" is nothing said."""
    candidate = next((known for known in properties if known.key == key), None)
    if candidate is None:
        return node
    if match := candidate.found_in(node.value):
        return candidate.told(node, match)
    if candidate.kind.shape == "flag" and node.word in ("yes", "no"):
        return node if node.word == "yes" else None
    if candidate.kind.shape in ("flag", "word"):
        expected = candidate.kind.words if candidate.kind.shape == "flag" else f"something like {candidate.example}"
        problems.error(node.place, f'{key} cannot be "{node.value}"', expected=expected)
    return node
