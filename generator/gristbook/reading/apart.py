"""Where one line ends and the next begins: several in one, a line with a colon in it, the part that runs to the end."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING

from gristbook.reading.commas import INSTEAD, behind_what_leads, parted_by_sense, property_of, spared, without_its_end
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import NUMBER, UP_TO
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.tree import Node, Table, Text
from gristbook.reading.units import UNITS, spellings

if TYPE_CHECKING:
    from gristbook.reading.line import Property

AMOUNT, NAME = "amount", "name"
AMERICAN = {"color": "colour"}
"""Keys of a mapping as they are spelled elsewhere."""

COUNTED = ("kg", "L", "packs", "pieces")
"""What an amount that stands behind its name may be kept in."""

_UNITS = spellings(*(name for name, unit in UNITS.items() if unit.base in COUNTED))
IN_ALL = rf"(?:\d+\s*[x×]\s*)?{NUMBER}{UP_TO}\s*(?:{_UNITS}(?:\s*/\s*(?:h?L|gal))?)"
"""An amount that may stand behind its name, a pattern whose blanks stand for any number of them."""
_IN_TWO = rf"{NUMBER}\s*{spellings('pound')}\s*{NUMBER}\s*{spellings('ounce')}|{IN_ALL}"
BEHIND = rf"{_IN_TWO}|{IN_WORDS}\s+(?:{_UNITS})"
"""What may stand behind its name: an amount, also in two units as 8 lb 12 oz, or one in words."""
WEIGHED = IN_ALL.replace(" ", r"\s+") + r"(?!\w)"
_MARK = re.compile(r"(?:\s*(?:,(?!\d)|(?<!\d),|;)\s*|\s+(?:\+|&|and)\s+)(?![^()]*\))", re.IGNORECASE)
_TIMES = spellings("minute", "hour", "day", "week", "fortnight", "month", "year")
_AMOUNT_AND_NAME = re.compile(
    rf"(?:(?:add|and|plus|another)\s+)*(?:(?:{WEIGHED}|{NUMBER}\s*(?:%|IBU))\s+(?:of\s+)?|{NUMBER}\s+(?=[^\W\d_]+\s+tablets?\b)|{IN_WORDS}\s+{_UNITS}\s+of\s+|{IN_WORDS}\s+(?!(?:of|{_TIMES})\b))"
    r"(?!or\s+(?:so|thereabouts)\b|(?:after|at|before|for|from|in|into|of|on|to|when|with)\s)(?P<name>[^\W\d_].*)",
    re.IGNORECASE,
)
_NAME_AND_AMOUNT = re.compile(rf"(?P<name>[^\W\d_]\D*?)\s+\(?{WEIGHED}\)?", re.IGNORECASE)
_SHARE = re.compile(rf"{NUMBER}\s*(?:%|IBU)")
_NUMBERED = re.compile(rf"(?:(?:add|and|plus|another)\s+)*{NUMBER}", re.IGNORECASE)
LED = re.compile(
    r"^(?:(?:add|and|plus)(?:\s+another(?=\s+\d))?|about|around|roughly|approximately)\s+|\s+(?:or\s+(?:so|thereabouts)|more\s+or\s+less|give\s+or\s+take)$",
    re.IGNORECASE,
)
"""What leads to a part of a line, or says that it is not meant to the gram: "and 10 g", "80 L or so"."""
_COUNTED = re.compile(rf"{NUMBER}|{IN_WORDS}", re.IGNORECASE)
_HALVES = re.compile(
    rf"(?P<amount>{WEIGHED})\s+(?P<name>[^,;()]+?)\s*[,(;]\s*half(?:\s+of\s+(?:it|them))?\s+(?P<one>[^,;()]+?),?"
    r"\s*(?:and\s+)?(?:(?:the\s+)?other\s+half|half|the\s+rest)\s+(?P<two>[^,;()]+)\)?(?P<more>.*)",
    re.IGNORECASE,
)

_EACH = re.compile(
    rf"(?P<amount>{WEIGHED})\s+each(?:\s+of)?\s+(?P<names>[^,;@()\d]+?(?:,\s*[^,;@()\d]+?)*\s+(?:and|&)\s+[^,;@()\d]+?)"
    r"(?P<more>\s*(?:[,;(@]|\b(?:at|for)\b).*)?",
    re.IGNORECASE,
)
"""So much each of several things: "30 g each of Cascade and Centennial, flameout"."""

LAST = rf",\s*(?=allergens?\b|notes?\s*:)|\s*[,;–-]\s*(?={INSTEAD})"
"""Before a part of a line that runs on to its end, or to the next such, since it has commas of its own."""


def bare(piece: Text) -> Text:
    """A part of a line without what leads to it or blurs it."""
    while found := LED.search(piece.value):
        piece = piece.part(found.end()) if not found.start() else piece.part(0, found.start())
    return piece


def in_order(pieces: list[Text], properties: tuple[Property, ...], is_name: Callable[[str], bool]) -> list[Text]:
    """The pieces of a line with its amount and its name first: "60 min: 30 g Perle", "the sachet, 7 g ale yeast"."""
    pieces = behind_what_leads(pieces, properties, WEIGHED)
    if len(pieces) == 1 or _COUNTED.match(pieces[0].value) or is_name(pieces[0].value):
        return pieces
    for at, piece in enumerate(pieces):
        if (found := _AMOUNT_AND_NAME.fullmatch(piece.value)) and is_name(found["name"]):
            return [piece, *pieces[:at], *pieces[at + 1 :]]
    return pieces


def lines_in(
    node: Node, properties: tuple[Property, ...], is_name: Callable[[str], bool], alone: str = ""
) -> list[Node]:
    """The lines that a line is made of: another begins where an amount and a name stand behind those of the first.

    What ``alone`` fits, a pattern, is a name without an amount; behind a semicolon ``is_name`` knows one.
    """
    if isinstance(node, Table):
        node = line_with_a_colon(node, properties) or node
    if not isinstance(node, Text):
        return [node]
    if "half" in node.value and (halves := _HALVES.fullmatch(node.value)):
        told = (f"0.5 x {halves['amount']} {halves['name']}, {halves[when]}{halves['more']}" for when in ("one", "two"))
        return [Text(it, node.place, exact=False) for it in told]
    if " each" in node.value and (each := _EACH.fullmatch(node.value)):
        several = re.split(r",\s*|\s+(?:and|&)\s+", each["names"])
        return [Text(f"{each['amount']} {name}{each['more'] or ''}", node.place, exact=False) for name in several]

    def names(words: str) -> bool:
        bare_name, _ = without_its_end(Text(words, node.place, exact=False), properties, is_name)
        return is_name(words) or is_name(bare_name.value)

    pieces: list[Node] = []
    begun, tail = 0, re.search(LAST, node.value, re.IGNORECASE)
    for mark in _MARK.finditer(node.value, 0, tail.start() if tail else len(node.value)):
        if ";" not in mark[0] and not any(
            it.match(node.value, mark.end()) for it in (_AMOUNT_AND_NAME, _NAME_AND_AMOUNT)
        ):
            continue
        first, behind = (node.part(*span).split("[,;]")[0] for span in ((begun, mark.start()), (mark.end(), None)))
        whole = re.match(WEIGHED, first.value) or _AMOUNT_AND_NAME.match(first.value)
        whole = whole or (fits(alone, first.value) if alone else None)
        part = property_of(behind, properties) or (_SHARE.match(behind.value) and not _SHARE.match(first.value))
        apart = None if part else _AMOUNT_AND_NAME.match(behind.value)
        weighed = whole and apart and _NUMBERED.match(behind.value) and not _SHARE.match(behind.value)
        if not apart and (turned := _NAME_AND_AMOUNT.fullmatch(first.value)) and is_name(turned["name"]):
            whole, apart = turned, _NAME_AND_AMOUNT.fullmatch(behind.value)
        known = apart and (whole or ";" in mark[0] or is_name(first.value)) and names(apart["name"])
        if known or ((weighed or ";" in mark[0]) and _is_line(behind, properties, weighed, is_name)):
            pieces.append(node.part(begun, mark.start()))
            begun = mark.end()
    return [*pieces, node.part(begun)] if pieces else [node]


def _is_line(first: Text, properties: tuple[Property, ...], apart: object, is_name: Callable[[str], bool]) -> bool:
    """Whether what begins with a piece is a line of its own, ``apart`` by its amount or by its name."""
    piece = bare(first)
    named = apart or is_name(piece.value)
    return bool(named) and not (property_of(piece, properties) or spared(piece, properties))


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
