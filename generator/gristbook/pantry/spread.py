"""A number with its low and high, as the pantry has it: `81.5 % (80 to 83)`, `65 to 74 %`, `4.5 % ± 0.5`, `9.1 %`."""

import re
from dataclasses import replace

from gristbook.pantry.records import Spread
from gristbook.problems import Problems
from gristbook.reading.fields import Kind
from gristbook.reading.quantity import Quantity, quantity
from gristbook.reading.tree import Text
from gristbook.reading.units import BASES

_BRACKETS = re.compile(r"(?P<typical>[^()]+)\((?P<range>[^()]+)\)")
_TO = re.compile(r"(?<=[^\s(–−-])\s*(?:\bto\b|[–−-])\s*(?=[\d.])")
_NUMERALS = "+-−0123456789.,/ ½¼¾⅓⅔⅛"


def read_spread(text: Text, kind: Kind, problems: Problems, source: str) -> Spread | None:
    """A text of a kind with its spread; `None` with a problem filed otherwise.

    A unit may be written once. ``65 to 74 %`` takes the middle as typical; what stands behind ``±`` leads from the
    typical to the low and to the high.
    """
    pieces = _pieces(text)
    unit = next((unit for piece in pieces if (unit := _unit_of(piece))), "")
    read = [found for piece in pieces if (found := _one(piece, unit, kind, problems, text.value))]
    if len(read) < len(pieces):
        return None
    numbers = [found.number for found in read]
    if len(numbers) == 3:
        typical, low, high = numbers
    else:
        low, high = numbers[0] - (read[0].tolerance or 0.0), numbers[-1] + (read[-1].tolerance or 0.0)
        typical = (numbers[0] + numbers[-1]) / 2
    if len({found.base for found in read}) > 1:
        problems.error(text.place, f'"{text.value}" mixes units', expected=kind.words)
    elif not low <= typical <= high:
        problems.error(text.place, f'"{text.value}" does not run from low to high', expected=kind.words)
    elif not kind.least <= low <= high <= kind.most:
        problems.error(text.place, f'"{text.value}" cannot be', expected=kind.words)
    else:
        return Spread(typical, low, high, read[0].base, source, text.place)
    return None


def _pieces(text: Text) -> list[Text]:
    """The one, two or three numbers of a spread: itself; low and high; typical, low and high."""
    brackets = _BRACKETS.fullmatch(text.value)
    start, end = brackets.span("range") if brackets else (0, len(text.value))
    to = _TO.search(text.value, start, end)
    if to is None:
        return [text]
    low, high = text.part(start, to.start()), text.part(to.end(), end)
    return [text.part(*brackets.span("typical")), low, high] if brackets else [low, high]


def _unit_of(piece: Text) -> str:
    """What is written behind the number of a piece."""
    return piece.value.partition("±")[0].lstrip(_NUMERALS).strip()


def _one(piece: Text, unit: str, kind: Kind, problems: Problems, within: str) -> Quantity | None:
    """One number of a spread, in its own unit or else in ``unit``, which stands in another of its pieces."""
    written = _unit_of(piece)
    scales = [base for base in kind.bases if base and base not in BASES]
    if scales:
        said = (written or unit).casefold()
        scale = next((base for base in scales if base.casefold() == said), scales[0])
        if written.casefold() == scale.casefold():
            piece = replace(piece, value=piece.value.replace(written, "", 1))
        found = quantity(piece, problems, ("",), kind.words, within)
        return replace(found, base=scale) if found else None
    if unit and not written:
        piece = replace(piece, value=f"{piece.value} {unit}")
    return quantity(piece, problems, kind.bases, kind.words, within)
