"""Days as a page prints them and as a machine reads them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July"),
    *("August", "September", "October", "November", "December"),
)


@dataclass(frozen=True, slots=True)
class Day:
    """A day, or a moment of one: in words, and as ISO 8601 writes it."""

    iso: str
    said: str


def day(iso: str) -> Day:
    """An ISO date in words.

    Raises
    ------
    ValueError
        There is no such day.

    >>> day("2026-03-14").said
    '14\\xa0March 2026'
    """
    found = date.fromisoformat(iso)
    return Day(iso, f"{found.day}\u00a0{MONTHS[found.month - 1]} {found.year}")


def moment(when: datetime) -> Day:
    """A moment in words; noon stands for a day whose hour nobody wrote down.

    >>> moment(datetime(2026, 3, 18, 7, 30)).said, moment(datetime(2026, 3, 18, 12)).said
    ('18\\xa0March 2026, 07:30', '18\\xa0March 2026')
    """
    whole = day(when.date().isoformat())
    if (when.hour, when.minute) == (12, 0):
        return whole
    return Day(when.isoformat(timespec="minutes"), f"{whole.said}, {when:%H:%M}")
