"""The commas of a line that its author left out: what runs on without one is parted where its parts say something."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from gristbook.problems import Problems
from gristbook.reading.quantity import NUMBER
from gristbook.reading.tree import Text

if TYPE_CHECKING:
    from gristbook.reading.lines import Property


_ASIDE = r"\((?P<inside>[^()]+)\)"


def property_of(piece: Text, properties: tuple[Property, ...]) -> tuple[str, Text] | None:
    """Which property a piece is, and the text that says it; `None` where it is none."""
    for candidate in properties:
        if match := candidate.found_in(piece.value):
            return candidate.key, piece.part(match.start("value"), match.end("value"))
    return None


def without_its_end(name: Text, properties: tuple[Property, ...]) -> tuple[Text, list[Text]]:
    """A name, and the parts of its line that run on from it, or up to it, without a comma."""
    if property_of(name, properties):
        return name, []
    for blank in re.finditer(r"\s+", name.value):
        if ends := _parted(name.part(blank.end()), properties):
            return name.part(0, blank.start()), ends
    aside = re.match(r"\((?P<inside>[^()]+)\)\s+(?:of\s+)?", name.value)
    if aside and property_of(inside := name.part(*aside.span("inside")), properties):
        return name.part(aside.end()), [inside]
    for blank in reversed([*re.finditer(r"\s+(?:of\s+)?", name.value)]):
        if property_of(head := name.part(0, blank.start()), properties):
            return name.part(blank.end()), [head]
    return _without_asides(name)


def _without_asides(name: Text) -> tuple[Text, list[Text]]:
    """A name, and what stands in brackets in it."""
    asides = [*re.finditer(_ASIDE, name.value)]
    bare = " ".join(re.sub(_ASIDE, " ", name.value).split())
    if not asides or not bare:
        return name, []
    kept = name.part(0, asides[0].start())
    inside = [part for aside in asides for part in name.part(*aside.span("inside")).split(",")]
    return kept if kept.value == bare else Text(bare, name.place, exact=False), inside


def _parted(piece: Text, properties: tuple[Property, ...]) -> list[Text]:
    """A piece as the parts that it would be with the commas that it lacks; none where commas would not help."""
    if property_of(piece, properties):
        return [piece]
    if aside := re.match(_ASIDE + r"\s*", piece.value):
        inside, behind = piece.part(*aside.span("inside")).split(","), piece.part(aside.end())
        rest = _parted(behind, properties) if behind.value else []
        said = any(property_of(part, properties) for part in inside)
        return [*inside, *rest] if said and bool(rest) == bool(behind.value) else []
    for blank in re.finditer(r"\s+", piece.value):
        head = piece.part(0, blank.start())
        if property_of(head, properties) and (rest := _parted(piece.part(blank.end()), properties)):
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
        parts = _parted(piece, properties)
        miss_commas(parts, problems, whole)
        if parts or "(" not in piece.value:
            yield from parts or [piece]
        else:
            bare, asides = _without_asides(piece)
            yield from (*(_parted(bare, properties) or [bare]), *asides)
