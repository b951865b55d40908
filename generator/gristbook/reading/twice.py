"""A quantity that is told twice: in another unit beside the first ("8.8 lb (4 kg)"), or as a part of its own."""

from __future__ import annotations

import re
from contextlib import suppress

from gristbook.problems import Problems
from gristbook.reading.quantity import NUMBER, UNIT, Quantity, Unreadable, leading_quantity
from gristbook.reading.tree import Text

ROUNDED, LOOSELY = 0.05, 0.25
"""So far apart may lie what is told in two units: both rounded, or one of them by rule of thumb, which is told then."""
DEGREES = 1.5
"""The same of temperatures (°C)."""

_ABOUT = r"(?:(?:about|approx\.?|ca\.?|around|or|i\.e\.|=|~|≈)\s*)*"
_TWICE = re.compile(
    rf"(?P<one>(?<![\d.,]){NUMBER}\s*{UNIT}(?:\s+{NUMBER}\s*oz)?)\s*(?:(?P<aside>\(|\[)|/|=|≈|\bor\b|,?\s*\bi\.e\.)\s*"
    rf"{_ABOUT}(?P<other>{NUMBER}\s*{UNIT})(?(aside)\s*[)\]])(?=\W|$)",
    re.IGNORECASE,
)
_BESIDE = re.compile(r"[(\[/=≈]|\bor\b|\bi\.e\.")
"""Without one of these nothing is told twice so."""


def once_told(text: Text, problems: Problems) -> Text:
    """A text without what only says a quantity of it again, in another unit.

    Files a warning where the two are rather far apart, and an error where both cannot be right.

    >>> from gristbook.problems import Place
    >>> once_told(Text("8.8 lb (4 kg) pale ale malt", Place("a.md")), Problems()).value
    '8.8 lb pale ale malt'
    """
    if text.value.endswith("."):
        return once_told(text.part(0, len(text.value.rstrip(" ."))), problems) if text.value.strip(" .") else text
    if not _BESIDE.search(text.value):
        return text
    for found in _TWICE.finditer(text.value):
        one, other = (quantity_in(text.part(*found.span(group))) for group in ("one", "other"))
        if one is None or other is None or one.base != other.base or one.text.split()[-1:] == other.text.split()[-1:]:
            continue
        if not found["aside"] and not told_again(one, other):
            continue  # "10 days or 2 weeks" is a choice
        if not told_again(one, other):
            far = not told_again(one, other, LOOSELY)
            file = problems.error if far else problems.warning
            what = f'"{one.text}" and "{other.text}" are not the same'
            file(one.place, what if far else f"{what}: the first counts", within=text.value, expected="one of them")
        kept = f"{text.value[: found.end('one')]} {text.value[found.end() :].lstrip()}".strip()
        return once_told(Text(kept.replace(" ,", ","), text.place, exact=False), problems)
    return text


def told_again(one: Quantity, other: Quantity, within: float = ROUNDED) -> bool:
    """Whether two quantities of one kind are about the same."""
    apart = abs(one.number - other.number)
    if one.base == "°C":
        return apart <= DEGREES * within / ROUNDED
    return one.base == other.base and apart <= within * max(abs(one.number), abs(other.number))


def is_aside(text: Text, first: Quantity | Text | None) -> bool:
    """Whether what is told after the ``first`` is the same, or in a unit that tells of something else.

    So "about 18 IBU" behind 28 g of hops.
    """
    before = quantity_in(first) if isinstance(first, Text) else first
    again = quantity_in(text)
    if before is None or again is None:
        return isinstance(first, Text) and first.word == text.word
    return before.base != again.base or told_again(before, again)


def quantity_in(text: Text) -> Quantity | None:
    """The quantity that a text begins with, if it is one."""
    with suppress(Unreadable):
        read = leading_quantity(text, Problems())
        return read.quantity if read else None
    return None
