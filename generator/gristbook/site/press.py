"""What the files of a site are made with, and the making of them: some beers' own, and all others."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from pathlib import Path

from markupsafe import Markup

from gristbook.charts.caches import FrameCache
from gristbook.model.book import Book
from gristbook.problems import Place, Problems
from gristbook.site import pages as at
from gristbook.site.band import band, band_svg
from gristbook.site.beer.beer_pages import beer_pages
from gristbook.site.beer.brews import Beer, beer_of
from gristbook.site.beer.pictures import all_beers
from gristbook.site.book.chapter_page import chapter_pages
from gristbook.site.book.chapters import parts
from gristbook.site.book.feed import dated
from gristbook.site.book.feeds import figures_json
from gristbook.site.book.find_page import find_page
from gristbook.site.book.index_page import index_page
from gristbook.site.book.listings import Listing, keys_in, listings
from gristbook.site.book.narrowing import KEYS
from gristbook.site.book.pots_page import pots_page
from gristbook.site.book.table_page import table_page
from gristbook.site.brew.batch_pages import batch_files, batch_pages
from gristbook.site.brew.batches import journal
from gristbook.site.brew.brewhouses_page import brewhouse_pages
from gristbook.site.disk.files import Files
from gristbook.site.learn.cautions_page import cautions_page
from gristbook.site.learn.examples import examples
from gristbook.site.learn.learning_pages import learning_pages
from gristbook.site.moved import moved_pages
from gristbook.site.outline import outline
from gristbook.site.pages import Page
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.site.render import Broken, Renderer
from gristbook.site.shelf.ingredient_page import ingredient_pages
from gristbook.site.shelf.larder import names_of, paths, stocked
from gristbook.site.shelf.shelves_page import ShelvesPage, named, shelves
from gristbook.site.shelf.sources_page import sources_page
from gristbook.site.shelf.style_page import StylesPage, families, style_pages, styles_of
from gristbook.site.themes import EXTRA
from gristbook.targets.advice.cautions import all_cautions
from gristbook.targets.batches.learn import NO_LESSONS, Lessons
from gristbook.targets.batches.results import BatchFigures
from gristbook.targets.figures import Plan


@dataclass(frozen=True, slots=True)
class OwnPage:
    """Another page of the author's: its heading and its text."""

    title: Markup
    prose: Markup


class Press:
    """Makes pages, each once it is asked for.

    Parameters
    ----------
    plans : the recipes that can be brewed; others have no page
    problems : told of links that lead nowhere, of two producers of one file, and of broken templates
    cache : keeps the frames of charts
    folder : where the book lies, for its pictures
    theme : the book's own templates and styles, if it has any
    batches, lessons : the book's batches worked out, and what they have taught
    paper : the path of the book as a PDF, "" where there will be none
    before : what printed this book earlier, of which all is taken over that cannot have changed: beers whose plans, and
        brews whose lessons, are the very same objects
    """

    def __init__(
        self,
        book: Book,
        plans: Sequence[Plan],
        problems: Problems,
        cache: FrameCache,
        *,
        folder: Path | None = None,
        theme: Path | None = None,
        batches: Sequence[BatchFigures] = (),
        lessons: Lessons = NO_LESSONS,
        paper: str = "",
        before: Press | None = None,
    ) -> None:
        by_slug = {plan.recipe.slug: plan for plan in plans}
        taught_alike = before is not None and before.lessons is lessons
        brews = before.printing.journal if before and taught_alike else journal(book, batches, lessons)
        kept = {id(it.home.plan): it for it in before.printing.beers.values()} if before else {}
        chapters, learned = parts(book, by_slug), brews.elsewhere()
        ordered = [by_slug[slug] for part in chapters for slug in part.slugs]
        beers = {it.recipe.slug: kept.get(id(it)) or beer_of(it, book, learned) for it in ordered}
        stock, styles = stocked(book, [*beers.values()]), styles_of(beers.values())
        self.files, homes = Files(problems), [beer.home.plan for beer in beers.values()]
        earlier = before.printing.written.desk if before else None
        whole = book, plans, [it.batch for it in batches], self.files, problems
        written = outline(*whole, folder=folder, theme=theme, before=earlier)
        seen_in, names = examples(book.learning, homes), names_of(stock)
        self.printing: Printing = Printing(book, beers, chapters, brews, stock, styles, names, written, cache, seen_in)
        self.lessons: Lessons = lessons
        self._lists = listings([*beers.values()], stock)
        site = at.site_of(
            book,
            {page.slug: plain(page.title) for page in book.pages},
            things=paths(stock),
            styles={style.name: path for path, style in styles.items()},
            brewed=bool(brews.batches),
        )
        self.news = dated(homes) if site.address else ()
        self.site = replace(
            site,
            paper=paper,
            extra=EXTRA if theme and (theme / EXTRA).is_file() else "",
            feed=at.FEED if self.news else "",
            kettles=max((1 + len(beer.editions) for beer in beers.values()), default=0),
            narrowing=(*KEYS, *keys_in(self._lists)),
        )
        same = before.renderer if before else None
        self.renderer: Renderer = Renderer(self.site, theme, same, sound=written.theme_is_sound)

    def dress(self) -> None:
        """What pages are dressed in."""
        try:
            for path, data in self.renderer.assets().items():
                self.files.put(path, data, Place("theme"))
        except Broken as fault:
            self.printing.written.broken(fault.path, fault.line, fault.why)

    def whole(self, beers: Mapping[str, Beer]) -> Iterator[Page | None]:
        """Make every file but those of other beers than ``beers``; gives the pages as `_put` does."""
        self._data(chain(_data(self.printing, self.site.address), _data_of(beers.values())))
        for part in self.parts(beers).values():
            yield from part

    def parts(self, beers: Collection[str] = ()) -> Mapping[str, Iterator[Page | None]]:
        """The pages of `whole` in the order of the book, in parts that can be made apart, by names of their own."""
        return {name: self._put(pages) for name, pages in _parts(self.printing, self._lists, beers).items()}

    def data(self, beers: Iterable[Beer]) -> Iterator[tuple[str, bytes]]:
        """The files that are no page: those of some beers, then those of the whole book."""
        found = chain(_data_of(beers), _data(self.printing, self.site.address))
        yield from ((path, data) for path, data, _ in found)

    def of_beers(self, beers: Mapping[str, Beer]) -> Iterator[Page | None]:
        """Make the files of some beers alone; gives their pages as `_put` does."""
        self._data(_data_of(beers.values()))
        yield from self.beer_pages(*beers)

    def beer_pages(self, *beers: str) -> Iterator[Page | None]:
        """Make the pages of some beers, by their addresses; gives them as `_put` does."""
        return self._put(beer_pages(self.printing, beers))

    def _data(self, found: Iterable[tuple[str, bytes, Place]]) -> None:
        for path, data, place in found:
            self.files.put(path, data, place)

    def _put(self, pages: Iterable[Page]) -> Iterator[Page | None]:
        """Every page, once it is among the files; `None` for one that could not be made."""
        for page in _trailed(pages, self.printing):
            try:
                self.files.put(page.path, self.renderer.page(page), page.place, listed=page.listed)
            except Broken as fault:
                self.printing.written.broken(fault.path, fault.line, fault.why)
                yield None
            else:
                yield page


def _trailed(pages: Iterable[Page], printing: Printing) -> Iterator[Page]:
    """Each page with those above it, which are the first of the book, a beer's own, or have come before it."""
    book = plain(printing.book.title)
    titles = {at.INDEX: book}
    for beer in printing.beers.values():
        title = titles[beer.home.at.page] = plain(beer.home.plan.recipe.title)
        titles |= {it.brew.at.page: f"{title}, {it.words}" for it in beer.editions}
    for page in pages:
        yield replace(page, trail=at.trail(page.path, titles))
        titles[page.path] = page.title.removesuffix(f" – {book}")


def _parts(printing: Printing, lists: tuple[Listing, ...], beers: Collection[str]) -> Mapping[str, Iterator[Page]]:
    """Every page but those of other beers than ``beers``; ``lists`` are what beers are chosen by on the first.

    No page of a part stands above one of another part, but for the first and those of beers.
    """
    return {
        "index": _front(printing, lists),
        "chapters": chapter_pages(printing),
        "pages": _own(printing),
        "beers": beer_pages(printing, beers),
        "brews": chain(brewhouse_pages(printing), batch_pages(printing)),
        "learning": learning_pages(printing),
        "sources": _sources(printing),
        "shelves": _shelves(printing),
        "moved": moved_pages(printing),
    }


def _front(printing: Printing, lists: tuple[Listing, ...]) -> Iterator[Page]:
    """The first page, and the others that lead to all beers."""
    book, plans = printing.book, [beer.home.plan for beer in printing.beers.values()]
    title = plain(book.title)
    words = f"{title}, by {book.author}" if book.author else title
    made = {slug: {it.brew.at.page: it.brew.plan for it in beer.editions} for slug, beer in printing.beers.items()}
    yield Page(at.INDEX, "index.html", title, words, index_page(book, plans, made, lists))
    yield find_page(printing)
    if printing.beers:
        yield pots_page(printing)
        yield table_page(printing)


def _own(printing: Printing) -> Iterator[Page]:
    """The author's other pages."""
    for page in printing.book.pages:
        path, name = at.page_path(page.slug), plain(page.title)
        own = OwnPage(line(page.title), printing.written.texts[path])
        yield printing.page(path, "page.html", name, name, own, place=Place(f"pages/{page.slug}.md"))


def _sources(printing: Printing) -> Iterator[Page]:
    words = "Every caution of the book in one place."
    yield printing.page(at.CAUTIONS, "cautions.html", "Take care", words, cautions_page(all_cautions()))
    words, plans = "What every figure of the book rests on.", [beer.home.plan for beer in printing.beers.values()]
    yield printing.page(at.SOURCES, "sources.html", "Sources", words, sources_page(plans, printing.values()))


def _shelves(printing: Printing) -> Iterator[Page]:
    """The lists of ingredients and of styles, and all that they lead to; none in a book without a beer."""
    place = Place("pantry")
    if printing.stock:
        words = "What the beers of this book are made from: what it brings, and what can stand in for it."
        view = ShelvesPage(shelves(printing.stock), named(printing.book.larder))
        yield printing.page(at.INGREDIENTS, "ingredients.html", "Ingredients", words, view, place=place)
    yield from ingredient_pages(printing)
    if printing.styles:
        words = "The styles that the beers of this book are compared with, by families."
        yield printing.page(at.STYLES, "styles.html", "Styles", words, StylesPage(families(printing)), place=place)
    yield from style_pages(printing)


def _data(printing: Printing, address: str) -> Iterator[tuple[str, bytes, Place]]:
    """What no reader opens: pictures that pages take in, figures for other programs, days for calendars."""
    if printing.beers:
        plans = (beer.home.plan for beer in printing.beers.values())
        yield at.BALANCE, all_beers(plans, printing.frames), at.HOME
    yield from batch_files(printing, address)


def _data_of(beers: Iterable[Beer]) -> Iterator[tuple[str, bytes, Place]]:
    for beer in beers:
        recipe, srm = beer.home.plan.recipe, beer.home.plan.figures.colour.srm
        yield at.colour_path(recipe.slug), band_svg(band(srm.number)), recipe.place
        for it in beer.brews():
            yield it.at.data, figures_json(it.plan, it.steps, it.judgement), recipe.place
