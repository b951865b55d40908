"""Where one line ends and the next begins: several in one, a line with a colon in it, the part that runs to the end."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from gristbook.reading.commas import parted_by_sense, property_of, spared
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import IN_WORDS, NUMBER, UP_TO
from gristbook.reading.tree import Node, Table, Text
from gristbook.reading.units import UNITS, spellings

if TYPE_CHECKING:
    from gristbook.reading.lines import Property

AMOUNT, NAME = "amount", "name"

COUNTED = ("kg", "L", "packs", "pieces")
"""What an amount that stands behind its name may be kept in."""

_UNITS = spellings(*(name for name, unit in UNITS.items() if unit.base in COUNTED))
IN_ALL = rf"(?:\d+\s*[x×]\s*)?{NUMBER}{UP_TO}\s*(?:{_UNITS}(?:\s*/\s*(?:h?L|gal))?)"
"""An amount that may stand behind its name, a pattern whose blanks stand for any number of them."""
COUNTED_IN_WORDS = rf"{IN_WORDS}\s+(?:{_UNITS})"
WEIGHED = IN_ALL.replace(" ", r"\s+") + r"(?!\w)"
_MARK = re.compile(r"(?:\s*[,;]\s*|\s+(?:\+|&|and)\s+)(?![^()]*\))", re.IGNORECASE)
_AMOUNT_AND_NAME = re.compile(
    rf"(?:(?:add|and|plus)\s+)?(?:{WEIGHED}\s+(?:of\s+)?|{IN_WORDS}\s+(?!of\b))[^\W\d_]", re.IGNORECASE
)
LED = re.compile(r"(?:add|and|plus)\s+", re.IGNORECASE)
"""What may stand before a part of a line."""

LAST = r",\s*(?=allergens?\b|notes?\s*:)"
"""Before a part of a line that runs on to its end, or to the next such, since it has commas of its own."""


def lines_in(node: Node, properties: tuple[Property, ...], alone: str = "") -> list[Node]:
    """The lines that a line is made of: another begins where an amount and a name stand behind those of the first.

    What ``alone`` fits, a pattern, is a name without an amount.
    """
    if isinstance(node, Table):
        node = line_with_a_colon(node, properties) or node
    if not isinstance(node, Text):
        return [node]
    pieces: list[Node] = []
    begun, tail = 0, re.search(LAST, node.value, re.IGNORECASE)
    for mark in _MARK.finditer(node.value, 0, tail.start() if tail else len(node.value)):
        whole = _AMOUNT_AND_NAME.match(node.value, begun) or (alone and fits(alone, node.value[begun : mark.start()]))
        apart = whole and _AMOUNT_AND_NAME.match(node.value, mark.end())
        if ";" in mark[0] or (apart and not _is_part(node.part(mark.end()).split("[,;]")[0], properties)):
            pieces.append(node.part(begun, mark.start()))
            begun = mark.end()
    return [*pieces, node.part(begun)] if pieces else [node]


def _is_part(piece: Text, properties: tuple[Property, ...]) -> bool:
    """Whether a piece is a part of its line, and no line of its own."""
    if led := LED.match(piece.value):
        piece = piece.part(led.end())
    return property_of(piece, properties) is not None or bool(spared(piece, properties))


def line_with_a_colon(table: Table, properties: tuple[Property, ...]) -> Text | None:
    """A line with a colon in it, which YAML takes for a table of one key: `allergens: milk`, "60 min: 30 g Perle".

    What says when leads; any other word before a colon is a name, and its amount stands behind it.
    """
    key, value = table.entries[0] if len(table.entries) == 1 else (None, None)
    if key is None or not isinstance(value, Text) or not value.value:
        return None
    line = Text(f"{key.value}: {value.value}", key.place, exact=False)
    if re.search(LAST, line.value, re.IGNORECASE):
        return line
    if all(parted_by_sense(piece, properties) for piece in key.split(",")):
        return Text(f"{value.value}, {key.value}", key.place, exact=False)
    told = re.match(NUMBER, value.value) or all(parted_by_sense(piece, properties) for piece in value.split(","))
    if told and key.value not in (AMOUNT, NAME, *(it.key for it in properties)):
        return Text(f"{key.value}, {value.value}", key.place, exact=False)
    return None
