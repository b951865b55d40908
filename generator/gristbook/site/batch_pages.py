"""The pages of a book's batches: each with its working, all of them by date, and what they teach by brewhouse."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.charts import FrameCache
from gristbook.model.batch import Batch
from gristbook.model.book import Book
from gristbook.model.recipe import Recipe
from gristbook.problems import Place
from gristbook.sheet.value import Value
from gristbook.site import pages as at
from gristbook.site.batch_page import Since, batch_page, since_then
from gristbook.site.batches import BrewedBatch, brewed_batch, values_of_batches
from gristbook.site.brewhouses_page import Taught, brewhouses_page, taught_houses, values_of_lessons
from gristbook.site.brews import Beer, Brew
from gristbook.site.brews_page import Brewed, brews_here, brews_page
from gristbook.site.calendar import calendar
from gristbook.site.dates import Day, day
from gristbook.site.feeds import batch_json
from gristbook.site.pages import Link, Page
from gristbook.site.prose import line, plain
from gristbook.site.working import Elsewhere, Working
from gristbook.targets.batches.differences import differences
from gristbook.targets.batches.learn import NO_LESSONS, Lessons
from gristbook.targets.batches.results import BatchFigures
from gristbook.text.writing import sections_of, written_in_us


@dataclass(frozen=True, slots=True)
class BatchWorking:
    """The whole working of one batch, or of one brewhouse, and the way back to it."""

    title: Markup
    day: Day | None
    recipe: str
    page_words: str
    working: Working


@dataclass(frozen=True, slots=True)
class Journal:
    """The batches of a book and what they have taught, worked out once for all pages."""

    batches: tuple[BrewedBatch, ...] = ()
    houses: tuple[Taught, ...] = ()

    def of(self, recipe: str, edition: str | None = None) -> tuple[BrewedBatch, ...]:
        """The batches of a recipe, or of one of its editions only."""
        found = (it for it in self.batches if it.figures.batch.recipe == recipe)
        return tuple(it for it in found if edition is None or it.figures.batch.edition == edition)

    def paths(self) -> Mapping[str, str]:
        """The page of each batch's file."""
        return {it.figures.batch.place.path: it.at.page for it in self.batches}

    def elsewhere(self) -> Mapping[int, Elsewhere]:
        """What the brewhouses have learned, which is worked out with them."""
        return {
            id(it.value): Elsewhere(
                it.value,
                f"what the brews of the {house.name} have taught",
                f"{house.at}#{house.working.anchor(it.value)}",
            )
            for house in self.houses
            for it in house.learned
        }

    def values(self) -> Iterator[Value]:
        """Everything whose working stands with a batch or a brewhouse."""
        yield from values_of_batches(self.batches)
        yield from values_of_lessons(self.houses)


def journal(book: Book, batches: Sequence[BatchFigures], lessons: Lessons = NO_LESSONS) -> Journal:
    """All batches with their workings, and the brewhouses that they have taught."""
    return Journal(
        tuple(brewed_batch(figures) for figures in batches),
        taught_houses(tuple(book.brewhouses), lessons.learned),
    )


def brewed_here(
    journal: Journal, beer: Beer, here: str, cache: FrameCache, edition: str | None = None
) -> Brewed | None:
    """The batches of a beer, or of one of its editions, for the page ``here``."""
    return brews_here(journal.of(beer.home.plan.recipe.slug, edition), here, edition_words(beer), cache)


def edition_words(beer: Beer) -> Mapping[str, str]:
    """What each edition of a beer is, by its address."""
    return {it.made.edition.slug: it.words for it in beer.editions}


def batch_pages(
    book: Book, journal: Journal, beers: Mapping[str, Beer], texts: Mapping[str, Markup], cache: FrameCache
) -> Iterator[tuple[Page, Place]]:
    """Every page of the batches, and where in the book it comes from; ``texts`` has what each tells, by its path."""
    if not journal.batches:
        return
    name, home = plain(book.title), Place("book.yaml")
    for count, it in enumerate(journal.batches):
        batch = it.figures.batch
        view = batch_page(
            it,
            prose=texts[it.at.page],
            edition=_edition(batch, beers),
            since=_since(batch, beers),
            neighbours=_neighbours(journal, count),
            cache=cache,
        )
        when = day(batch.brewed).said
        title = f"{plain(it.title)}, brewed on {when}"
        words = f"What was planned and what was measured when {plain(it.title)} was brewed on {when}."
        yield Page(it.at.page, "brew.html", f"{title} – {name}", words, view), batch.place
        work = BatchWorking(line(it.title), day(batch.brewed), it.at.page, "the brew’s page", it.working)
        words = f"How every figure of {title} is worked out."
        yield Page(it.at.working, "brew-working.html", f"{title}, working – {name}", words, work), batch.place
    editions = {slug: edition_words(beer) for slug, beer in beers.items()}
    link = Link(at.BREWS_CALENDAR, at.BREWHOUSES)
    brews = brews_page(journal.batches, at.BREWS, editions, calendar=link)
    yield Page(at.BREWS, "brews.html", f"Brews – {name}", "Every brew of the book by its day.", brews), home
    yield from _houses(book, journal, name, cache)


def _houses(book: Book, journal: Journal, name: str, cache: FrameCache) -> Iterator[tuple[Page, Place]]:
    home = Place("book.yaml")
    view = brewhouses_page(tuple(book.brewhouses), journal.houses, journal.batches, at.BREWS, cache)
    words = "What the brews have taught about each set of vessels."
    yield Page(at.BREWHOUSES, "brewhouses.html", f"Brewhouses – {name}", words, view), home
    for house in journal.houses:
        work = BatchWorking(
            Markup.escape(f"the {house.name} brewhouse"), None, at.BREWHOUSES, "the brewhouses’ page", house.working
        )
        words = f"How what the brews have taught about the {house.name} brewhouse is worked out."
        yield Page(house.at, "brew-working.html", f"{house.name}, working – {name}", words, work), home


def batch_files(book: Book, journal: Journal, address: str) -> Iterator[tuple[str, bytes, Place]]:
    """What other programs read of the batches: figures as JSON, days as calendars."""
    for it in journal.batches:
        place = it.figures.batch.place
        yield it.at.data, batch_json(it.figures), place
        yield it.at.calendar, calendar(f"{plain(it.title)}, {it.figures.batch.brewed}", [it], address), place
    if journal.batches:
        yield at.BREWS_CALENDAR, calendar(plain(book.title), journal.batches, address), Place("book.yaml")


def _brewed(batch: Batch, beers: Mapping[str, Beer]) -> tuple[Brew, Recipe] | None:
    """Today's recipe of what was brewed, as written or in its edition; `None` where it is no longer there."""
    beer = beers.get(batch.recipe)
    if beer is None:
        return None
    brews = {it.made.edition.slug: it.brew for it in beer.editions} | {"": beer.home}
    found = brews.get(batch.edition)
    return (found, found.plan.recipe) if found is not None else None


def _edition(batch: Batch, beers: Mapping[str, Beer]) -> Link | None:
    """The edition that was brewed; without a path where the book has it no longer."""
    if not batch.edition:
        return None
    beer = beers.get(batch.recipe)
    words = edition_words(beer).get(batch.edition, batch.edition) if beer is not None else batch.edition
    found = _brewed(batch, beers)
    return Link(found[0].at.page if found is not None else "", words)


def _since(batch: Batch, beers: Mapping[str, Beer]) -> Since | None:
    found = _brewed(batch, beers)
    if found is None:
        return None
    brew, recipe = found
    today = sections_of(recipe, us=written_in_us(batch.frozen.sections))
    return since_then(Link(brew.at.page, plain(recipe.title)), differences(batch, today))


def _neighbours(journal: Journal, place: int) -> tuple[Link | None, Link | None]:
    """The brews before and after it, of whatever beer."""
    around = [journal.batches[n] if 0 <= n < len(journal.batches) else None for n in (place - 1, place + 1)]
    before, after = (
        Link(near.at.page, f"{plain(near.title)}, {day(near.figures.batch.brewed).said}") if near is not None else None
        for near in around
    )
    return before, after
