"""All beers in one table, by their names; a script sorts them by any column."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.sheet.value import Value
from gristbook.site import pages as at
from gristbook.site.amounts import Amount, amount_of
from gristbook.site.beer.editions import kit
from gristbook.site.beer.known import Known
from gristbook.site.book.index_page import Entry, entries
from gristbook.site.book.pots_page import pot_of
from gristbook.site.pages import Page
from gristbook.site.printing import Printing
from gristbook.site.prose import plain
from gristbook.targets.advice.misfits import fill

SOURCES = ("malt extract", "grain")
"""What a beer may be brewed from, in the order of the columns."""


@dataclass(frozen=True, slots=True)
class Row:
    """A beer: what a list says of it, its style by name, and the smallest pot of its sizes (in L, too).

    ``style`` is "" where it names none, and ``wait`` is absent where it does not say when it is ready. There is a pot
    for each of `SOURCES`, or none where no size is brewed from that.
    """

    entry: Entry
    style: str
    colour: Value
    gravity: Value
    wait: Value | None
    pots: tuple[tuple[float, Amount] | None, ...]


@dataclass(frozen=True, slots=True)
class TablePage:
    """Every beer of the book, by its name."""

    rows: tuple[Row, ...]


def table_page(printing: Printing) -> Page:
    """The page of the table."""
    beers = sorted(printing.beers.values(), key=lambda beer: plain(beer.title).casefold())
    words = "Every beer of the book in a table."
    return printing.page(at.TABLE, "table.html", "All beers", words, TablePage(tuple(map(_row, beers))))


def _row(beer: Known) -> Row:
    (entry,), style, pots = entries([beer]), beer.style, beer.ask(_pots)
    told = tuple((pot, amount_of(pot, "L")) if pot else None for pot in pots)
    return Row(entry, style.name if style else "", *beer.ask(_figures), told)


def _figures(it: Known) -> tuple[Value, Value, Value | None]:
    figures = it.plan.figures
    return figures.colour.srm, figures.wort.original, figures.packaging.ready if figures.packaging else None


def _pots(it: Known) -> tuple[float | None, ...]:
    plans = [brew.plan for brew in it.beer.brews()]
    return tuple(
        min((pot_of(fill(plan)) for plan in plans if kit(plan)[1] == source), default=None) for source in SOURCES
    )
