"""The pages of a book's batches: each with its working, all of them by date, and what they teach by brewhouse."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.problems import Place
from gristbook.site import pages as at
from gristbook.site.book.calendar import calendar
from gristbook.site.book.feeds import batch_json
from gristbook.site.brew.batch_page import batch_page
from gristbook.site.brew.batches import BrewedBatch
from gristbook.site.brew.brews_page import BrewsPage, years
from gristbook.site.dates import Day, day
from gristbook.site.pages import Link, Page
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.site.working.worksheet import Worksheet


@dataclass(frozen=True, slots=True)
class BatchWorking:
    """The whole working of one batch, or of one brewhouse, and the way back to it."""

    title: Markup
    day: Day | None
    page_words: str
    worksheet: Worksheet


def batch_pages(
    printing: Printing, it: BrewedBatch, before: BrewedBatch | None, after: BrewedBatch | None
) -> Iterator[Page]:
    """The page of a batch, between those of two others, and its working."""
    when, place, title = day(it.figures.batch.brewed), it.figures.batch.place, _title(it)
    words = f"What was planned and what was measured when {plain(it.title)} was brewed on {when.said}."
    view = batch_page(it, printing, _link(before), _link(after))
    yield printing.page(it.at.page, "brew.html", title, words, view, place=place, figure=it.shown(it.at.page))
    work = BatchWorking(line(it.title), when, "the brew’s page", it.worksheet)
    words = f"How every figure of {title} is worked out."
    yield printing.page(it.at.working, "brew-working.html", f"{title}, working", words, work, place=place)


def brews_page(printing: Printing) -> Page:
    """All batches by their days."""
    words = "Every brew of the book by its day."
    return printing.page(at.BREWS, "brews.html", "Brews", words, BrewsPage(years(printing)))


def house_workings(printing: Printing) -> Iterator[Page]:
    """The working of the brewhouses that batches have taught."""
    for house in printing.journal.houses:
        name = f"the {house.name} brewhouse"
        work = BatchWorking(Markup.escape(name), None, "the brewhouse’s page", house.worksheet)
        words = f"How what the brews have taught about {name} is worked out."
        yield printing.page(house.at, "brew-working.html", f"{house.name}, working", words, work)


def _title(it: BrewedBatch) -> str:
    return f"{plain(it.title)}, brewed on {day(it.figures.batch.brewed).said}"


def _link(it: BrewedBatch | None) -> Link | None:
    return Link(it.at.page, f"{plain(it.title)}, {day(it.figures.batch.brewed).said}") if it is not None else None


def batch_files(it: BrewedBatch, address: str) -> Iterator[tuple[str, bytes, Place]]:
    """What other programs read of a batch: its figures as JSON, its days as a calendar."""
    place = it.figures.batch.place
    yield it.at.data, batch_json(it.figures), place
    yield it.at.calendar, calendar(f"{plain(it.title)}, {it.figures.batch.brewed}", [it], address), place


def brews_calendar(printing: Printing, address: str) -> tuple[str, bytes, Place]:
    """The days of all batches."""
    made = calendar(plain(printing.book.title), printing.journal.batches, address)
    return at.BREWS_CALENDAR, made, Place("book.yaml")
