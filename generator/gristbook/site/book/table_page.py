"""All beers in one table, by their names; a script sorts them by any column."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.site import pages as at
from gristbook.site.amounts import Amount, amount_of
from gristbook.site.beer.brews import Beer
from gristbook.site.beer.editions import kit
from gristbook.site.book.index_page import Entry, entries
from gristbook.site.book.pots_page import pot_of
from gristbook.site.pages import Page
from gristbook.site.printing import Printing
from gristbook.site.prose import plain
from gristbook.targets.figures import Plan

SOURCES = ("malt extract", "grain")
"""What a beer may be brewed from, in the order of the columns."""


@dataclass(frozen=True, slots=True)
class Row:
    """A beer: what a list says of it, its plan, and the smallest pot of its sizes (in L, too) from each of `SOURCES`.

    There is no pot where none of its sizes is brewed from that.
    """

    entry: Entry
    plan: Plan
    pots: tuple[tuple[float, Amount] | None, ...]


@dataclass(frozen=True, slots=True)
class TablePage:
    """Every beer of the book, by its name."""

    rows: tuple[Row, ...]


def table_page(printing: Printing) -> Page:
    """The page of the table."""
    rows = sorted(map(_row, printing.beers.values()), key=lambda row: plain(row.plan.recipe.title).casefold())
    words = "Every beer of the book in a table."
    return printing.page(at.TABLE, "table.html", "All beers", words, TablePage(tuple(rows)))


def _row(beer: Beer) -> Row:
    plans = [brew.plan for brew in beer.brews()]
    (entry,) = entries([beer.home.plan])
    least = (min((pot_of(plan) for plan in plans if kit(plan)[1] == source), default=None) for source in SOURCES)
    return Row(entry, beer.home.plan, tuple((pot, amount_of(pot, "L")) if pot else None for pot in least))
