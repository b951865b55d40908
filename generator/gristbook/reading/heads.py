"""What an ingredient line begins with: an amount and a name."""

import re
from collections.abc import Callable

from gristbook.problems import Problems
from gristbook.reading.quantity import NUMBER, Quantity, Read, Unreadable, leading_count, leading_quantity, number_in
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.tree import Text
from gristbook.reading.units import spellings

_EACH = rf"(?P<each>{NUMBER}(?:\s*|-)[^\W\d_]+)"
TIN = r"(?:can|tin|jar|tub|bag|box|pack(?:et|age)?|sachet)s?"
_TINS = re.compile(
    rf"(?P<number>\d+|{IN_WORDS})\s+(?:of\s+an?\s+)?"
    rf"(?:{_EACH}\s+{TIN}\b|{TIN}\s*\(\s*{_EACH.replace('each', 'inside')}(?:\s+each)?\s*\)"
    rf"|{TIN}\s+(?:of\s+)?(?=[^\W\d_]))",
    re.IGNORECASE,
)
_WEIGHT = re.compile(rf"{NUMBER}\s*{spellings('gram', 'kilogram', 'ounce', 'pound')}(?=$)", re.IGNORECASE)

_LED = re.compile(rf"(?:(?:add|and|plus|another)\s+)+(?={NUMBER})", re.IGNORECASE)
_OF = re.compile(rf"(?:{TIN}\s+)?of\s|{TIN}\s", re.IGNORECASE)
LEAST = 1e-9
"""An amount below this is none, in whatever unit."""


def amount_and_name(
    pieces: list[Text], problems: Problems, whole: str, is_name: Callable[[str], bool]
) -> tuple[Quantity | None, Text, list[Text]]:
    """The amount of a line, its name, and the pieces that are left; `Unreadable` with a problem filed otherwise."""
    first, rest = pieces[0], pieces[1:]
    if tins := _TINS.match(first.value):
        first, rest = _by_the_tin(first, tins, rest)
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


def _by_the_tin(first: Text, tins: re.Match[str], rest: list[Text]) -> tuple[Text, list[Text]]:
    """ "1 can (1.7 kg) of a kit", "one 11 gram packet of a yeast", "1 tin of a kit, 1.7 kg": so many times one."""
    each = tins["each"] or tins["inside"]
    if each is None:
        weight = next((it for it in rest if _WEIGHT.fullmatch(it.value)), None)
        if weight is None:
            return first, rest
        each, rest = weight.value, [it for it in rest if it is not weight]
    so_many = f"{number_in(tins['number']):g} x {each.replace('-', ' ')}"
    return Text(f"{so_many} {first.value[tins.end() :].lstrip()}", first.place, exact=False), rest


def something(read: Read | None, problems: Problems, whole: str) -> Quantity | None:
    """The amount of a line, which cannot be nothing: absent is not zero."""
    if read and abs(read.quantity.number) < LEAST:
        problems.error(read.quantity.place, f'"{read.quantity.text}" is nothing', within=whole)
        raise Unreadable
    return read.quantity if read else None
