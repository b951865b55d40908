"""The site in pieces that can be made apart: the pages of each, and what they rest on besides what beers answer."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from itertools import chain
from typing import Any, TypeAlias

from markupsafe import Markup

from gristbook.problems import Place
from gristbook.site import pages as at
from gristbook.site.band import band, band_svg
from gristbook.site.beer.beer_pages import beer_pages
from gristbook.site.beer.known import Known, edition_words
from gristbook.site.beer.pictures import all_beers
from gristbook.site.book.chapter_page import chapter_page
from gristbook.site.book.feeds import figures_json
from gristbook.site.book.find_page import find_page
from gristbook.site.book.index_page import index_page
from gristbook.site.book.listings import Listing
from gristbook.site.book.pots_page import pots_page
from gristbook.site.book.table_page import table_page
from gristbook.site.brew.batch_page import in_us_units, lines_of
from gristbook.site.brew.batch_pages import batch_files, batch_pages, brews_calendar, brews_page, house_workings
from gristbook.site.brew.brewhouses_page import brewhouse_pages, made_in
from gristbook.site.learn.cautions_page import cautions_page
from gristbook.site.learn.learning_pages import learning_pages
from gristbook.site.moved import moved_pages
from gristbook.site.pages import Page, around
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.site.shelf.ingredient_page import ingredient_page, used_in
from gristbook.site.shelf.shelves_page import ShelvesPage, named, shelves
from gristbook.site.shelf.sources_page import sources_page, used
from gristbook.site.shelf.style_page import StylesPage, families, lies_within, style_page, told_of_spans
from gristbook.targets.advice.cautions import all_cautions

Data: TypeAlias = tuple[str, bytes, Place]
"""A file that no reader opens by itself: its path, what it holds, the text that brings it."""


@dataclass(frozen=True, slots=True)
class OwnPage:
    """Another page of the author's: its heading and its text."""

    title: Markup
    prose: Markup


@dataclass(frozen=True, slots=True)
class Piece:
    """Pages and files of the site that are made together, once they are asked for.

    ``rests_on`` is what they go by besides what all pages share, what beers are asked, and ``texts``, files of the
    book's that nobody else goes by. No page of a piece stands above one of another piece, but for the first, the lists
    of things, and those of beers.
    """

    pages: Callable[[], Iterable[Page]]
    data: Callable[[], Iterable[Data]] = tuple
    rests_on: tuple[object, ...] = ()
    texts: Callable[[str], bool] | None = None


BREWED = "brewhouses"
"""The piece before which those of the beers come."""


def pieces(printing: Printing, lists: tuple[Listing, ...], address: str) -> Mapping[str, Piece]:
    """Every piece but those of beers, in the order of the book, by the path of its first page without its ending.

    ``lists`` are what beers are chosen by on the first page; ``address`` is where the book is published.
    """
    found = chain(_front(printing, lists), _own(printing), _brews(printing, address))
    return dict(chain(found, _learning(printing), _sources(printing), _shelves(printing)))


def beer_piece(printing: Printing, slug: str) -> Piece:
    """All pages and files of a beer."""
    holding = ((part.anchor, part.title) for part in printing.chapters if slug in part.slugs)
    page = at.of_recipe(slug).page
    own, folder = printing.journal.of(slug), printing.beers[slug].place.path.removesuffix(".md") + "/"
    return Piece(
        lambda: chain(beer_pages(printing, [slug]), moved_pages(printing, [slug])),
        lambda: beer_data(printing.beers[slug]),
        (printing.beside[slug], *holding, printing.examples.get(page, ()), printing.written.desk.kept[page].asked()),
        (lambda path: path.startswith(folder)) if own else None,
    )


def let_go_of(printing: Printing, slug: str) -> None:
    """Ask a beer, when its own pages are made, what others will tell of it, and keep no more than that."""
    beer = printing.beers[slug]
    beer.ask(used)
    beer.ask(made_in)
    for thing in printing.stock:
        for edition in [edition for it, edition in thing.brews if it is beer]:
            beer.ask(used_in, thing.ingredient.shelf, thing.ingredient.name, edition, thing.path)
    for path, style in printing.styles.items():
        if beer.style and beer.style.name == style.name:
            beer.ask(told_of_spans, style, path)
        else:
            beer.ask(lies_within, style)
    for it in printing.journal.of(slug):
        batch = it.figures.batch
        if batch.edition in {"", *beer.ask(edition_words)}:
            beer.ask(lines_of, batch.edition, in_us_units(batch))
    beer.forget()


def beer_data(beer: Known) -> Iterator[Data]:
    """Its colour, and the figures of every brew for other programs."""
    recipe, srm = beer.plan.recipe, beer.plan.figures.colour.srm
    yield at.colour_path(recipe.slug), band_svg(band(srm.number)), recipe.place
    for it in beer.beer.brews():
        yield it.at.data, figures_json(it.plan, it.steps, it.judgement), recipe.place


def _front(printing: Printing, lists: tuple[Listing, ...]) -> Iterator[tuple[str, Piece]]:
    """The first page, the others that lead to all beers, and those of chapters."""
    beers, all_of_them = [*printing.beers.values()], (printing.chapters,)
    yield "index", Piece(lambda: [_first(printing, lists)], rests_on=(printing.chapters, lists))
    found = printing.chapters, printing.book.pages, [it.path for it in printing.stock]
    yield "find", Piece(lambda: [find_page(printing)], rests_on=found)
    if beers:
        yield "pots", Piece(lambda: [pots_page(printing)], rests_on=all_of_them)
        yield "table", Piece(lambda: [table_page(printing)], rests_on=all_of_them)
        drawn = partial(all_beers, beers, printing.frames)
        yield at.BALANCE, Piece(tuple, lambda: [(at.BALANCE, drawn(), at.HOME)], all_of_them)
    for part in printing.chapters:
        yield f"chapters/{part.anchor}", Piece(partial(_alone, chapter_page, printing, part), rests_on=(part,))


def _first(printing: Printing, lists: tuple[Listing, ...]) -> Page:
    book = printing.book
    title = plain(book.title)
    words = f"{title}, by {book.author}" if book.author else title
    return Page(at.INDEX, "index.html", title, words, index_page(book, [*printing.beers.values()], lists))


def _own(printing: Printing) -> Iterator[tuple[str, Piece]]:
    """The author's other pages."""
    for page in printing.book.pages:
        path, name = at.page_path(page.slug), plain(page.title)
        own, place = OwnPage(line(page.title), printing.written.texts[path]), Place(f"pages/{page.slug}.md")
        made = partial(printing.page, path, "page.html", name, name, own, place=place)
        yield f"pages/{page.slug}", Piece(partial(_alone, made), rests_on=(own,))


def _brews(printing: Printing, address: str) -> Iterator[tuple[str, Piece]]:
    """The brewhouses with what is brewed in them, and the batches."""
    journal = printing.journal
    every = [it.at.page for it in journal.batches]
    texts = _is_of_a_batch if every else None
    yield (
        BREWED,
        Piece(
            lambda: chain(brewhouse_pages(printing), house_workings(printing)),
            rests_on=(printing.chapters, every),
            texts=texts,
        ),
    )
    for before, it, after in around(journal.batches):
        own, beside = it.figures.batch.place.path, [one.at.page for one in (before, after) if one]
        yield (
            it.at.page.removesuffix(".html"),
            Piece(
                partial(batch_pages, printing, it, before, after),
                partial(batch_files, it, address),
                (beside, printing.written.texts[it.at.page]),
                partial(_is_of, own),
            ),
        )
    if every:
        yield (
            "brews",
            Piece(lambda: [brews_page(printing)], lambda: [brews_calendar(printing, address)], (every,), texts),
        )


def _learning(printing: Printing) -> Iterator[tuple[str, Piece]]:
    texts = printing.written.texts
    own = [texts[it] for it in texts if it.startswith("learn")]
    there = [*printing.beers, *(it.at.page for it in printing.journal.batches)]
    yield "learning", Piece(lambda: learning_pages(printing), rests_on=(printing.examples, own, there))


def _sources(printing: Printing) -> Iterator[tuple[str, Piece]]:
    def cautions() -> Iterator[Page]:
        words = "Every caution of the book in one place."
        yield printing.page(at.CAUTIONS, "cautions.html", "Take care", words, cautions_page(all_cautions()))

    def sources() -> Iterator[Page]:
        words, beers = "What every figure of the book rests on.", [*printing.beers.values()]
        yield printing.page(at.SOURCES, "sources.html", "Sources", words, sources_page(beers, printing.values()))

    yield "cautions", Piece(cautions)
    there = [it.at.page for it in printing.journal.batches]
    yield "sources", Piece(sources, rests_on=(printing.chapters, there), texts=_is_of_a_batch if there else None)


def _shelves(printing: Printing) -> Iterator[tuple[str, Piece]]:
    """The lists of ingredients and of styles, and all that they lead to; none in a book without a beer."""
    place = Place("pantry")

    def ingredients() -> Iterator[Page]:
        words = "What the beers of this book are made from: what it brings, and what can stand in for it."
        view = ShelvesPage(shelves(printing.stock), named(printing.book.larder))
        yield printing.page(at.INGREDIENTS, "ingredients.html", "Ingredients", words, view, place=place)

    def styles() -> Iterator[Page]:
        words = "The styles that the beers of this book are compared with, by families."
        yield printing.page(at.STYLES, "styles.html", "Styles", words, StylesPage(families(printing)), place=place)

    if printing.stock:
        yield "ingredients", Piece(ingredients)
    for it in printing.stock:
        brews = tuple((beer.slug, edition) for beer, edition in it.brews)
        yield it.path.removesuffix(".html"), Piece(partial(_alone, ingredient_page, printing, it), rests_on=brews)
    if printing.styles:
        yield "styles", Piece(styles, rests_on=(printing.chapters,))
    for path in printing.styles:
        made = Piece(partial(_alone, style_page, printing, path), rests_on=(printing.chapters,))
        yield path.removesuffix(".html"), made


def _is_of_a_batch(path: str) -> bool:
    """Whether a file of the book lies in a folder that is a recipe's, and not one of the book's own."""
    return "/" in path and not path.startswith(("pages/", "theme/", "pantry/"))


def _is_of(batch: str, path: str) -> bool:
    """Whether a file may be a batch's: its own, or a log, which may have any name."""
    return path.startswith(batch.removesuffix(".md")) or not path.endswith(".md")


def _alone(make: Callable[..., Page], *given: Any) -> Iterator[Page]:
    yield make(*given)
