"""What the title page is given: the book, its chapters, and each beer with its colour and its first figures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.model.learning import FIRST
from gristbook.sheet.value import Value
from gristbook.site.band import Band, band
from gristbook.site.beer.known import Known
from gristbook.site.book.chapters import parts
from gristbook.site.book.listings import Listing, keys_in
from gristbook.site.book.narrowing import FROM, Narrowing, keys_of, narrowings
from gristbook.site.learn.examples import example
from gristbook.site.pages import Group, Link, lesson_path, of_recipe
from gristbook.site.prose import line, plain
from gristbook.site.words import colour_word, ready_words


@dataclass(frozen=True, slots=True)
class Entry:
    """A beer in a list; ``ready`` is empty where the recipe does not say.

    ``keys`` is what it may be chosen by. It stands ``again`` where an earlier chapter of the same page has it.
    ``made`` are the pages of editions that answer to what the recipe as it is written does not, each by that key.
    """

    path: str
    title: Markup
    summary: Markup
    band: Band
    strength: Value
    bitterness: Value
    colour_word: str
    ready: str
    keys: tuple[str, ...] = ()
    again: bool = False
    made: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class IndexPage:
    """The title page; ``begin`` is where somebody begins who has never brewed: the lesson of the day, the first beer.

    ``narrowings`` are what its beers may be chosen by, and ``listings`` the same where the choices are many.
    """

    title: Markup
    author: str
    note: Markup
    begin: tuple[Link, ...]
    narrowings: tuple[Narrowing, ...]
    listings: tuple[Listing, ...]
    beers: int
    chapters: tuple[Group[Entry], ...]


def index_page(
    book: Book,
    beers: Sequence[Known],
    lists: tuple[Listing, ...] = (),
) -> IndexPage:
    """The title page of a book; a recipe in two chapters stands in both, one in none comes last.

    ``lists`` are what they may be chosen by at length.
    """
    by_slug = {beer.slug: beer for beer in beers}
    keys = {beer.slug: beer.ask(_keys) for beer in beers}
    seen: set[str] = set()
    chapters = []
    for part in parts(book, by_slug):
        rows = tuple(
            _entry(by_slug[it], (*keys[it], *keys_in(lists, it)), by_slug[it].ask(_instead), again=it in seen)
            for it in part.slugs
        )
        seen.update(part.slugs)
        chapters.append(Group(part.anchor, line(part.title), rows, line(part.about)))
    return IndexPage(
        line(book.title),
        book.author,
        line(book.note),
        _begin(book, beers),
        narrowings(list(keys.values())),
        lists,
        len(by_slug),
        tuple(chapters),
    )


def _begin(book: Book, beers: Sequence[Known]) -> tuple[Link, ...]:
    """The lesson that a method leads to, and the first beer of the book."""
    lesson = book.learning.explains.get("method") if book.learning else None
    beer = example(FIRST, beers)
    first = [Link(of_recipe(beer.slug).page, plain(beer.title))] if beer else []
    read = [Link(lesson_path(lesson), plain(book.learning.lessons[lesson].title))] if book.learning and lesson else []
    return (*read, *first)


def entries(beers: Iterable[Known]) -> tuple[Entry, ...]:
    """Beers as a list shows them."""
    return tuple(map(_entry, beers))


def _entry(
    beer: Known, keys: tuple[str, ...] = (), made: tuple[tuple[str, str], ...] = (), *, again: bool = False
) -> Entry:
    strength, bitterness, srm, ready = beer.ask(_figures)
    return Entry(
        of_recipe(beer.slug).page,
        line(beer.title),
        line(beer.summary),
        band(srm),
        strength,
        bitterness,
        colour_word(srm),
        ready_words(ready) if ready is not None else "",
        keys,
        again,
        made,
    )


def _figures(it: Known) -> tuple[Value, Value, float, float | None]:
    """Its strength, its bitterness, its colour (SRM), and the days until it is ready, where the recipe says."""
    figures = it.plan.figures
    ready = figures.packaging.ready.number if figures.packaging else None
    return figures.fermentation.abv, figures.bitterness.total, figures.colour.srm.number, ready


def _keys(it: Known) -> tuple[str, ...]:
    return keys_of(it.plan, [one.brew.plan for one in it.beer.editions])


def _instead(it: Known) -> tuple[tuple[str, str], ...]:
    """The smallest edition from extract of a beer that is written from grain, and the other way round."""
    return tuple(_others(it))


def _others(it: Known) -> Iterator[tuple[str, str]]:
    made = [one.brew for one in it.beer.editions]
    for choice in FROM.choices:
        found = [(one.plan.recipe.batch.number, one.at.page) for one in made if choice.holds(one.plan)]
        if found and not choice.holds(it.plan):
            yield choice.key, min(found)[1]
