"""What the page to find things on is given: every thing of the book that has a place of its own, by kinds.

It is a list that reads as it stands; a script hides what is not asked for, and puts what is called so first.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from gristbook.sheet.value import Value
from gristbook.site import pages as at
from gristbook.site.addresses import Anchors
from gristbook.site.beer.known import Known
from gristbook.site.book.find_words import FIRST_AID, HEADINGS, PARTS, STAND_IN
from gristbook.site.pages import Group, Link, Page
from gristbook.site.printing import Printing
from gristbook.site.prose import headings, plain
from gristbook.site.shelf.shelves_page import shelf_of, words_of
from gristbook.targets.buying.cost import needs


@dataclass(frozen=True, slots=True)
class Found:
    """A thing and its place: its words, what is said of it, what else it is ``called`` and by what ``also`` found.

    ``figures`` stand beside a beer; ``more`` leads to a part of its page that is asked for by itself.
    """

    path: str
    words: str
    about: str = ""
    called: str = ""
    also: str = ""
    figures: tuple[Value, ...] = ()
    more: Link | None = None


@dataclass(frozen=True, slots=True)
class FindPage:
    """All that may be found, by its kind."""

    kinds: tuple[Group[Found], ...]


def find_page(printing: Printing) -> Page:
    """The page of all that may be found."""
    kinds = (
        ("beers", "Beers", _by_name(_beers(printing))),
        ("ingredients", "Ingredients", _by_name(_ingredients(printing))),
        ("styles", "Styles", _by_name(_styles(printing))),
        ("lessons", "Lessons", _by_name(_lessons(printing))),
        ("sections", "In the lessons", tuple(_sections(printing))),
        ("parts", "On every beer’s pages", tuple(_parts(printing))),
        ("pages", "Other pages", tuple(_pages(printing))),
        ("words", "Words of the trade", _by_name(_terms(printing))),
    )
    groups = tuple(Group(*kind) for kind in kinds if kind[2])
    words = "Every beer, ingredient, style, lesson, page and word of the book."
    return printing.page(at.FIND, "find.html", "Find", words, FindPage(groups))


def _by_name(found: Iterable[Found]) -> tuple[Found, ...]:
    return tuple(sorted(found, key=lambda it: it.words.casefold()))


def _beers(printing: Printing) -> Iterator[Found]:
    for beer in printing.beers.values():
        figures, named = beer.ask(_figures), [beer.style.name] if beer.style else []
        also = " ".join(dict.fromkeys((*beer.ask(_goes_in), *named)))
        yield Found(at.of_recipe(beer.slug).page, plain(beer.title), plain(beer.summary), also=also, figures=figures)


def _figures(it: Known) -> tuple[Value, ...]:
    return it.plan.figures.fermentation.abv, it.plan.figures.bitterness.total


def _goes_in(it: Known) -> tuple[str, ...]:
    return tuple(dict.fromkeys(need.sold_as for need in needs(it.plan.recipe, it.plan.figures)))


def _ingredients(printing: Printing) -> Iterator[Found]:
    for it in printing.stock:
        thing, about = it.ingredient, words_of(it.ingredient) or it.ingredient.about
        more = Link(f"{it.path}#what-can-stand-in", "what can stand in") if it.instead else None
        also = f"{shelf_of(thing)[1]} {STAND_IN if more else ''}".strip()
        yield Found(it.path, thing.name, about, " ".join(thing.also), also, more=more)


def _styles(printing: Printing) -> Iterator[Found]:
    for path, style in printing.styles.items():
        yield Found(path, style.name, style.family)


def _lessons(printing: Printing) -> Iterator[Found]:
    learning = printing.book.learning
    for lesson in learning.in_order() if learning else ():
        yield Found(at.lesson_path(lesson.slug), plain(lesson.title), plain(lesson.summary))


def _sections(printing: Printing) -> Iterator[Found]:
    """What stands under a heading of a lesson that no other lesson has."""
    learning = printing.book.learning
    lessons = [*learning.in_order()] if learning else []
    found = [(it, *heading) for it in lessons for heading in headings(it.prose, Anchors("main"))]
    often = Counter(words for _, _, words in found)
    for lesson, anchor, words in found:
        if often[words] == 1:
            path, called = f"{at.lesson_path(lesson.slug)}#{anchor}", HEADINGS.get(f"{lesson.slug}#{anchor}", "")
            yield Found(path, plain(words), plain(lesson.title), called)


def _parts(printing: Printing) -> Iterator[Found]:
    """The parts of a beer's pages, each with the way to that of the first beer."""
    prices = printing.book.prices
    for beer in [*printing.beers.values()][:1]:
        title = plain(beer.title)
        for part in PARTS:
            path = f"{getattr(at.of_recipe(beer.slug), part.page)}#{part.anchor}".rstrip("#")
            money = f", and what it costs in {prices.currency}" if prices and part.page == "buy" else ""
            yield Found(path, part.words + money, f"For example: {title}", part.called)


def _pages(printing: Printing) -> Iterator[Found]:
    if printing.beers:
        yield Found(at.POTS, "Which pot have you?", "What can be brewed in it", "kettle size litres")
        yield Found(at.TABLE, "All beers", "In a table, by any column", "compare sort list")
    yield Found(at.CAUTIONS, "Take care", "Every caution, and what to do when something has happened", FIRST_AID)
    yield Found(at.SOURCES, "Sources", "What every figure of the book rests on", "references books papers")
    for page in printing.book.pages:
        path, title = at.page_path(page.slug), plain(page.title)
        yield Found(path, title)
        for anchor, words in headings(page.prose, Anchors("main")):
            yield Found(f"{path}#{anchor}", plain(words), title)


def _terms(printing: Printing) -> Iterator[Found]:
    learning, anchors = printing.book.learning, printing.written.desk.glossary.anchors
    for term in learning.terms if learning else ():
        yield Found(f"{at.GLOSSARY}#{anchors[term.term]}", term.term, called=" ".join(term.forms))
