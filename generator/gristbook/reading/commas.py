"""The commas of a line that its author left out: what runs on without one is parted where its parts say something."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from gristbook.problems import Problems, likest
from gristbook.reading.patterns import compiled
from gristbook.reading.quantity import NUMBER, Unreadable, leading_quantity
from gristbook.reading.tree import Text

if TYPE_CHECKING:
    from gristbook.reading.lines import Property


def property_of(piece: Text, properties: tuple[Property, ...]) -> tuple[str, Text] | None:
    """Which property a piece is, and the text that says it; `None` where it is none."""
    for candidate in properties:
        if match := compiled(candidate.pattern).fullmatch(piece.value):
            told = candidate.told(piece, match) if candidate.unit else piece.part(*match.span("value"))
            return candidate.key, told
    return None


def without_its_end(name: Text, properties: tuple[Property, ...]) -> tuple[Text, list[Text]]:
    """A name, and the parts of its line that run on from it, or up to it, without a comma."""
    if property_of(name, properties):
        return name, []
    for blank in re.finditer(r"\s+", name.value):
        if ends := parted_by_sense(name.part(blank.end()), properties):
            return name.part(0, blank.start()), ends
    aside = re.match(r"\((?P<inside>[^()]+)\)\s+(?:of\s+)?", name.value)
    if aside and property_of(inside := name.part(*aside.span("inside")), properties):
        return name.part(aside.end()), [inside]
    for blank in reversed([*re.finditer(r"\s+(?:of\s+)?", name.value)]):
        if property_of(head := name.part(0, blank.start()), properties):
            return name.part(blank.end()), [head]
    return name, []


def behind_what_leads(pieces: list[Text], properties: tuple[Property, ...], amount: str) -> list[Text]:
    """The pieces of a line that says its moment first ("60 min: 30 g Perle"), with that behind the name.

    What leads ends before an ``amount``, a pattern, and is none itself.
    """
    first = pieces[0]
    if compiled(amount).match(first.value):
        return pieces
    for at in re.finditer(rf"(?:\s*[:–-]\s+|\s+|$)(?={amount}|$)", first.value, re.IGNORECASE):
        lead, rest = first.part(0, at.start()), [first.part(at.end())] if at.end() < len(first.value) else []
        clear = at[0].strip() or not re.fullmatch(NUMBER, lead.value)  # "1 1/2 oz" begins with no minute
        if (rest or len(pieces) > 1) and clear and _says_when(lead, properties, amount):
            return [*rest, *pieces[1:], lead]
    return pieces


def _says_when(lead: Text, properties: tuple[Property, ...], amount: str) -> bool:
    no_amount = not re.match(rf"(?:{amount}|{NUMBER}\s*%)", lead.value, re.IGNORECASE)
    return no_amount and bool(parted_by_sense(lead, properties))


def parted_by_sense(piece: Text, properties: tuple[Property, ...]) -> list[Text]:
    """A piece as the parts that it would be with the commas that it lacks; none where commas would not help."""
    if property_of(piece, properties):
        return [piece]
    if aside := re.match(r"\((?P<inside>[^()]+)\)\s*", piece.value):
        inside, behind = piece.part(*aside.span("inside")), piece.part(aside.end())
        pieces = [inside, *(parted_by_sense(behind, properties) if behind.value else [])]
        return pieces if property_of(inside, properties) and (len(pieces) > 1 or not behind.value) else []
    for blank in re.finditer(r"\s+", piece.value):
        head = piece.part(0, blank.start())
        if property_of(head, properties) and (rest := parted_by_sense(piece.part(blank.end()), properties)):
            return [head, *rest]
    return []


def miss_commas(parts: list[Text], problems: Problems, whole: str, after: str = NUMBER) -> None:
    """Warn of each comma that is missing between two numbers, or ``after`` what this fits; no words need one."""
    for before, part in pairwise(parts):
        if "(" not in whole and re.match(NUMBER, part.value) and re.match(after, before.value):
            what = f'a comma is missing after "{before.value}"'
            problems.warning(part.place, what, within=whole, expected=f"{before.value}, {part.value}")


def with_commas(pieces: list[Text], properties: tuple[Property, ...], problems: Problems, whole: str) -> Iterator[Text]:
    """The pieces of a line, those that lack a comma parted, with a warning."""
    for piece in pieces:
        parts = parted_by_sense(piece, properties)
        miss_commas(parts, problems, whole)
        yield from parts or [piece]


def not_understood(piece: Text, properties: tuple[Property, ...], problems: Problems, whole: str) -> Literal[True]:
    """Say why a part means nothing: most often its unit is misspelt, else a word is. It is true that one does."""
    if re.match(NUMBER, piece.value):
        try:
            leading_quantity(piece, problems, whole)
        except Unreadable:
            return True
    examples = [candidate.example for candidate in properties]
    like = likest(piece.value, examples)
    expected = "" if like else "something like " + ", ".join(examples)
    what = f'"{piece.value}" says nothing here'
    problems.error(piece.place, what, within=whole, expected=expected, suggestion=like)
    return True
