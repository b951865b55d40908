"""What the title page is given: the book, its chapters, and each beer with its colour and its first figures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.model.learning import FIRST
from gristbook.sheet.value import Value
from gristbook.site.band import Band, band
from gristbook.site.book.chapters import parts
from gristbook.site.book.listings import Listing, keys_in
from gristbook.site.book.narrowing import FROM, Narrowing, keys_of, narrowings
from gristbook.site.learn.examples import example
from gristbook.site.pages import Group, Link, lesson_path, of_recipe
from gristbook.site.prose import line, plain
from gristbook.site.words import colour_word, ready_words
from gristbook.targets.figures import Plan


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
    plans: Sequence[Plan],
    made: Mapping[str, Mapping[str, Plan]] | None = None,
    lists: tuple[Listing, ...] = (),
) -> IndexPage:
    """The title page of a book; a recipe in two chapters stands in both, one in none comes last.

    ``made`` are the editions of each recipe by their pages, and ``lists`` what they may be chosen by at length.
    """
    by_slug = {plan.recipe.slug: plan for plan in plans}
    editions = {slug: (made or {}).get(slug, {}) for slug in by_slug}
    keys = {slug: keys_of(plan, editions[slug].values()) for slug, plan in by_slug.items()}
    seen: set[str] = set()
    chapters = []
    for part in parts(book, by_slug):
        beers = tuple(
            _entry(by_slug[it], (*keys[it], *keys_in(lists, it)), editions[it], again=it in seen) for it in part.slugs
        )
        seen.update(part.slugs)
        chapters.append(Group(part.anchor, line(part.title), beers, line(part.about)))
    return IndexPage(
        line(book.title),
        book.author,
        line(book.note),
        _begin(book, plans),
        narrowings(list(keys.values())),
        lists,
        len(by_slug),
        tuple(chapters),
    )


def _begin(book: Book, plans: Sequence[Plan]) -> tuple[Link, ...]:
    """The lesson that a method leads to, and the first beer of the book."""
    lesson = book.learning.explains.get("method") if book.learning else None
    beer = example(FIRST, plans)
    first = [Link(of_recipe(beer.recipe.slug).page, plain(beer.recipe.title))] if beer else []
    read = [Link(lesson_path(lesson), plain(book.learning.lessons[lesson].title))] if book.learning and lesson else []
    return (*read, *first)


def entries(plans: Iterable[Plan]) -> tuple[Entry, ...]:
    """Beers as a list shows them."""
    return tuple(map(_entry, plans))


def _entry(
    plan: Plan, keys: tuple[str, ...] = (), made: Mapping[str, Plan] | None = None, *, again: bool = False
) -> Entry:
    figures, srm = plan.figures, plan.figures.colour.srm
    return Entry(
        of_recipe(plan.recipe.slug).page,
        line(plan.recipe.title),
        line(plan.recipe.summary),
        band(srm.number),
        figures.fermentation.abv,
        figures.bitterness.total,
        colour_word(srm.number),
        ready_words(figures.packaging.ready.number) if figures.packaging else "",
        keys,
        again,
        tuple(_instead(plan, made or {})),
    )


def _instead(plan: Plan, made: Mapping[str, Plan]) -> Iterator[tuple[str, str]]:
    """The smallest edition from extract of a beer that is written from grain, and the other way round."""
    for choice in FROM.choices:
        found = [(it.recipe.batch.number, path) for path, it in made.items() if choice.holds(it)]
        if found and not choice.holds(plan):
            yield choice.key, min(found)[1]
