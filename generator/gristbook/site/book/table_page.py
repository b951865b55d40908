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


@dataclass(frozen=True, slots=True)
class Row:
    """A beer: what a list says of it, its plan, the smallest pot of all its sizes (L), what those are brewed from."""

    entry: Entry
    plan: Plan
    least: float
    pot: Amount
    sources: str


def table_page(printing: Printing) -> Page:
    """The page of the table."""
    rows = sorted(map(_row, printing.beers.values()), key=lambda row: plain(row.plan.recipe.title).casefold())
    words = "Every beer of the book in a table."
    return printing.page(at.TABLE, "table.html", "All beers", words, {"rows": tuple(rows)})


def _row(beer: Beer) -> Row:
    plans = [brew.plan for brew in beer.brews()]
    (entry,), least = entries([beer.home.plan]), min(map(pot_of, plans))
    sources = sorted({kit(plan)[1].removeprefix("malt ") for plan in plans}, reverse=True)
    return Row(entry, beer.home.plan, least, amount_of(least, "L"), " or ".join(sources))
