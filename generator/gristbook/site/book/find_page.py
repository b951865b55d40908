"""What the page to find things on is given: every thing of the book that has a place of its own, by kinds.

It is a list that reads as it stands; a script hides what does not begin with the words that are typed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.site import pages as at
from gristbook.site.pages import Group, Page
from gristbook.site.printing import Printing
from gristbook.site.prose import plain
from gristbook.site.shelf.shelves_page import shelf_of, words_of
from gristbook.targets.buying.cost import needs
from gristbook.targets.figures import Plan


@dataclass(frozen=True, slots=True)
class Found:
    """A thing and its place: what it is called, what is said of it, and by what else one finds it."""

    path: str
    words: str
    about: str
    also: str = ""


def find_page(printing: Printing) -> Page:
    """The page of all that may be found."""
    kinds = (
        ("beers", "Beers", _beers(printing)),
        ("ingredients", "Ingredients", _ingredients(printing)),
        ("styles", "Styles", _styles(printing)),
        ("lessons", "Lessons", _lessons(printing)),
        ("words", "Words of the trade", _terms(printing)),
    )
    rows = ((anchor, title, tuple(sorted(found, key=lambda it: it.words.casefold()))) for anchor, title, found in kinds)
    groups = tuple(Group(anchor, title, found) for anchor, title, found in rows if found)
    words = "Every beer, ingredient, style, lesson and word of the book."
    return printing.page(at.FIND, "find.html", "Find", words, {"kinds": groups})


def _beers(printing: Printing) -> Iterator[Found]:
    for beer in printing.beers.values():
        recipe = beer.home.plan.recipe
        also = " ".join(dict.fromkeys((*_goes_in(beer.home.plan), *((recipe.style.name,) if recipe.style else ()))))
        yield Found(beer.home.at.page, plain(recipe.title), plain(recipe.summary), also)


def _goes_in(plan: Plan) -> Iterator[str]:
    yield from (need.sold_as for need in needs(plan.recipe, plan.figures))


def _ingredients(printing: Printing) -> Iterator[Found]:
    for it in printing.stock:
        thing = it.ingredient
        yield Found(it.path, thing.name, words_of(thing) or thing.about, " ".join((shelf_of(thing)[1], *thing.also)))


def _styles(printing: Printing) -> Iterator[Found]:
    for path, style in printing.styles.items():
        yield Found(path, style.name, style.family)


def _lessons(printing: Printing) -> Iterator[Found]:
    learning = printing.book.learning
    for lesson in learning.in_order() if learning else ():
        yield Found(at.lesson_path(lesson.slug), plain(lesson.title), plain(lesson.summary))


def _terms(printing: Printing) -> Iterator[Found]:
    learning, anchors = printing.book.learning, printing.written.desk.glossary.anchors
    for term in learning.terms if learning else ():
        yield Found(f"{at.GLOSSARY}#{anchors[term.term]}", term.term, "", " ".join(term.forms))
