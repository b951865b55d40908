"""What an ingredient line begins with: an amount and a name."""

import re
from collections.abc import Callable

from gristbook.problems import Problems
from gristbook.reading.quantity import NUMBER, Quantity, Read, Unreadable, leading_count, leading_quantity
from gristbook.reading.tree import Text

_TINS = re.compile(
    rf"(?P<number>\d+)\s+(?:can|tin|jar|tub|bag)s?\s*\(\s*(?P<each>{NUMBER}\s*[^\W\d_]+)(?:\s+each)?\s*\)",
    re.IGNORECASE,
)

_LED = re.compile(rf"(?:add|and|plus)\s+(?={NUMBER})", re.IGNORECASE)
_OF = re.compile(r"of\s", re.IGNORECASE)
LEAST = 1e-9
"""An amount below this is none, in whatever unit."""


def amount_and_name(
    pieces: list[Text], problems: Problems, whole: str, is_name: Callable[[str], bool]
) -> tuple[Quantity | None, Text, list[Text]]:
    """The amount of a line, its name, and the pieces that are left; `Unreadable` with a problem filed otherwise."""
    first, rest = _by_the_tin(pieces[0]), pieces[1:]
    if led := _LED.match(first.value):
        first = first.part(led.end())
    read = leading_count(first, is_name) or leading_quantity(first, problems, whole)
    name = first.part(read.end) if read else first
    if not name.value and rest:
        name, rest = rest[0], rest[1:]
    if not name.value:
        problems.error(first.place, "no name", within=whole, expected="an amount and a name")
        raise Unreadable
    if of := _OF.match(name.value):
        name = name.part(of.end())
    return something(read, problems, whole), name, rest


def _by_the_tin(first: Text) -> Text:
    """ "1 can (1.7 kg) of a kit" as so many times the weight of one."""
    tins = _TINS.match(first.value)
    if tins is None:
        return first
    return Text(f"{tins['number']} x {tins['each']} {first.value[tins.end() :]}", first.place, exact=False)


def something(read: Read | None, problems: Problems, whole: str) -> Quantity | None:
    """The amount of a line, which cannot be nothing: absent is not zero."""
    if read and abs(read.quantity.number) < LEAST:
        problems.error(read.quantity.place, f'"{read.quantity.text}" is nothing', within=whole)
        raise Unreadable
    return read.quantity if read else None
