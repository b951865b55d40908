"""The days of brews for a calendar, as RFC 5545 (iCalendar) and RFC 7986 (a calendar's name) have it.

Every day is the batch's own; nothing asks the clock, so that the same batch gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from urllib.parse import quote
from uuid import NAMESPACE_URL, uuid5

from gristbook.site.brew.batches import BrewedBatch
from gristbook.site.prose import plain
from gristbook.targets.batches.results import Occasion

TYPE = "text/calendar"

FOLDED_AT = 75
"""Octets of a line, without its end (RFC 5545, section 3.1)."""

STOOD_STILL = "Package nothing until the gravity has stood still."
FIRST_ONE = "Open one cold, over a sink, before any other."
TOO_MUCH = "There may be too much gas in these bottles: read the page of this brew before you touch them."
"""What to mind on a day (common practice, no source)."""

RECKONED = "Nobody wrote this day down: it follows from the plan."


def calendar(name: str, batches: Iterable[BrewedBatch], address: str) -> bytes:
    """The days of these batches as a calendar called ``name``; ``address`` is the book's, "" where it has none."""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Gristbook//Days of brews//EN",
        "CALSCALE:GREGORIAN",
        f"NAME:{escaped(name)}",
        *(line for batch in batches for day in batch.figures.occasions for line in _event(batch, day, address)),
        "END:VCALENDAR",
    ]
    return "".join(f"{folded(line)}\r\n" for line in lines).encode()


def _event(batch: BrewedBatch, occasion: Occasion, address: str) -> Iterator[str]:
    """One whole day. Its id comes from the batch's own name alone, so that a day that is moved stays the same entry."""
    own = batch.figures.batch
    notes = [*_to_mind(batch, occasion), *([RECKONED] if occasion.reckoned else [])]
    yield "BEGIN:VEVENT"
    yield f"UID:{uuid5(NAMESPACE_URL, f'{address}{own.recipe}/{own.slug}#{occasion.what}')}"
    yield f"DTSTAMP:{_compact(own.brewed)}T000000Z"
    yield f"DTSTART;VALUE=DATE:{_compact(occasion.day)}"
    yield f"SUMMARY:{escaped(f'{plain(batch.title)}: {occasion.what}')}"
    if notes:
        yield f"DESCRIPTION:{escaped(' '.join(notes))}"
    if address:
        yield f"URL:{address}{quote(batch.at.page)}"
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def _to_mind(batch: BrewedBatch, occasion: Occasion) -> Iterator[str]:
    bottles, packed = batch.figures.bottles, batch.figures.batch.measured.packaged
    if occasion.what == "brewing":
        written = dict(batch.figures.batch.frozen.sections)
        yield from (
            f"{what.capitalize()}: {'; '.join(written[what])}." for what in ("mash", "ferment") if what in written
        )
    elif occasion.what == "packaging":
        yield STOOD_STILL
    elif occasion.what == "ready" and packed is not None and packed.vessel != "keg":
        yield TOO_MUCH if bottles is not None and bottles.against else FIRST_ONE


def _compact(day: str) -> str:
    return day.replace("-", "")


def escaped(text: str) -> str:
    r"""Words as a TEXT value has them (section 3.3.11); control characters, which no line may hold, are left out.

    >>> escaped("Best; with oats, and rye")
    'Best\\; with oats\\, and rye'
    """
    for plain_letter, written in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\n", "\\n")):
        text = text.replace(plain_letter, written)
    return "".join(letter for letter in text if letter.isprintable())


def folded(line: str) -> str:
    """A line in pieces of 75 octets at most, never in the middle of a letter (section 3.1).

    >>> [len(piece.encode()) for piece in folded("x" * 160).split("\\r\\n")]
    [75, 75, 12]
    """
    pieces, room = [""], FOLDED_AT
    for letter in line:
        size = len(letter.encode())
        if size > room:
            pieces.append("")
            room = FOLDED_AT - 1
        pieces[-1] += letter
        room -= size
    return "\r\n ".join(pieces)
