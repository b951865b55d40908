"""Days as a page prints them and as a machine reads them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime
from functools import lru_cache

from markupsafe import Markup, escape

MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July"),
    *("August", "September", "October", "November", "December"),
)

_WRITTEN = re.compile(r"(?P<day>\d{4}-\d{2}-\d{2})(?:[ T]+(?P<hour>\d{1,2}:\d{2})|-(?P<more>[\w-]*\w))?")
"""A day as a label has it, with its hour or whatever parts two brews of it in their files' names."""


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


@lru_cache(maxsize=4096)  # the same labels stand on the pages of every brew
def dated(words: str) -> Markup:
    """A label's words with the days in them as a page prints days, and its apostrophes curly.

    >>> dated("gravity on 2026-03-17, as read")
    Markup('gravity on <time class="name" datetime="2026-03-17">17\xa0March 2026</time>, as read')
    >>> dated("2026-03-18 07:30")
    Markup('<time class="name" datetime="2026-03-18">18\xa0March 2026, 07:30</time>')
    """
    out, end = Markup(), 0
    for match in _WRITTEN.finditer(words):
        try:
            found = day(match["day"])
        except ValueError:
            continue
        apart = match["hour"] or match["more"]
        said = found.said + (f", {apart}" if apart else "")
        time = Markup('<time class="name" datetime="{}">{}</time>').format(found.iso, said)
        out += escape(curly(words[end : match.start()])) + time
        end = match.end()
    return out + escape(curly(words[end:]))


def curly(words: str) -> str:
    """Words with the apostrophes of a printed page."""
    return words.replace("'", "’")
