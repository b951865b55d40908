"""What a template may ask for: the view that each page is made from, and the types of what it holds."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from inspect import getdoc, getmembers
from typing import Any

from gristbook.site.beer.beer_pages import WorkingPage
from gristbook.site.beer.buying_page import BuyingPage
from gristbook.site.beer.card_page import CardPage
from gristbook.site.beer.day_page import DayPage
from gristbook.site.beer.recipe_page import RecipePage
from gristbook.site.beer.study_page import StudyPage
from gristbook.site.book.chapter_page import ChapterPage
from gristbook.site.book.find_page import FindPage
from gristbook.site.book.index_page import IndexPage
from gristbook.site.book.paper import SET, PaperBook
from gristbook.site.book.pots_page import PotsPage
from gristbook.site.book.table_page import TablePage
from gristbook.site.brew.batch_page import BatchPage
from gristbook.site.brew.batch_pages import BatchWorking
from gristbook.site.brew.brewhouses_page import HousePage, HousesPage
from gristbook.site.brew.brews_page import BrewsPage
from gristbook.site.learn.cautions_page import CautionsPage
from gristbook.site.learn.learning_pages import GlossaryPage, LearningPage, LessonPage
from gristbook.site.moved import MovedPage
from gristbook.site.pages import Page, Site
from gristbook.site.pieces import OwnPage
from gristbook.site.shelf.ingredient_page import IngredientPage
from gristbook.site.shelf.shelves_page import ShelvesPage
from gristbook.site.shelf.sources_page import SourcesPage
from gristbook.site.shelf.style_page import StylePage, StylesPage
from gristbook.site.templates import made_of

OF_THE_SITE: Mapping[str, type[Any]] = {
    "brew-working.html": BatchWorking,
    "brew.html": BatchPage,
    "brewhouse.html": HousePage,
    "brewhouses.html": HousesPage,
    "brews.html": BrewsPage,
    "buy.html": BuyingPage,
    "card.html": CardPage,
    "cautions.html": CautionsPage,
    "chapter.html": ChapterPage,
    "day.html": DayPage,
    "edition.html": RecipePage,
    "find.html": FindPage,
    "glossary.html": GlossaryPage,
    "index.html": IndexPage,
    "ingredient.html": IngredientPage,
    "ingredients.html": ShelvesPage,
    "learning.html": LearningPage,
    "lesson.html": LessonPage,
    "moved.html": MovedPage,
    "page.html": OwnPage,
    "pots.html": PotsPage,
    "recipe.html": RecipePage,
    "sources.html": SourcesPage,
    "study.html": StudyPage,
    "style.html": StylePage,
    "styles.html": StylesPage,
    "table.html": TablePage,
    "working.html": WorkingPage,
}
"""What the `view` of every page of a site is, by its template; a test holds it to the pages that are made."""

VIEWS: Mapping[str, type[Any]] = {
    **OF_THE_SITE,
    **{f"paper/{name}": OF_THE_SITE[name] for name in sorted(SET)},
    "paper/book.html": PaperBook,
}
"""The same, with what is set on paper."""


@dataclass(frozen=True, slots=True)
class Variable:
    """What may be asked of a thing: its name, its type as a template is given it, and a sentence where it has one."""

    name: str
    type: str
    words: str


def variables(of: type[Any]) -> Iterator[Variable]:
    """All that a template may ask of a thing of this type."""
    for field in fields(of):
        yield Variable(field.name, _given(str(field.type)), "")
    for name, what in getmembers(of, lambda it: isinstance(it, property)):
        yield Variable(name, _given(str(what.fget.__annotations__["return"])), _sentence(what))


def about(of: type[Any]) -> str:
    """What a thing of this type is, as its class says it."""
    return " ".join((getdoc(of) or "").split()).replace("``", "`")


def pages_with(template: str) -> tuple[str, ...]:
    """The templates of pages that a part of pages, as `entry.html`, stands in: it is given their view."""
    return tuple(page for page in VIEWS if page != template and template in made_of(page))


@cache
def types() -> Mapping[str, tuple[type[Any], ...]]:
    """Every type that views lead to, by its name, which may be that of several."""
    found: dict[type[Any], None] = {}
    more = [Page, Site, *VIEWS.values()]
    while more:
        one = more.pop(0)
        if one not in found:
            found[one] = None
            more += _types_in(one)
    return {it.__name__: tuple(one for one in found if one.__name__ == it.__name__) for it in found}


def _types_in(of: type[Any]) -> Iterator[type[Any]]:
    """The records that its variables are, or hold."""
    known = vars(sys.modules[of.__module__])
    for variable in variables(of):
        for word in re.findall(r"\w+", variable.type):
            if isinstance(one := known.get(word), type) and is_dataclass(one):
                yield one


def _given(written: str) -> str:
    """The type of what a template is given: the figure of a value, for the page at hand."""
    return re.sub(r"\bValue\b", "Figure", written)


def _sentence(of: object) -> str:
    return " ".join((getdoc(of) or "").split())


def properties(style: str) -> list[tuple[str, str]]:
    """What a style sheet goes by, each with what it is said to be for, or else its value.

    >>> properties(":root { --ink: #000; /* words */ --line: 1rem; } a { --x: 1; }")
    [('--ink', 'words'), ('--line', '1rem')]
    """
    root = style.partition(":root {")[2].partition("}")[0]
    found = re.findall(r"(--[\w-]+): ([^;]+);(?: /\* (.+?) \*/)?", root)
    return [(name, words or value) for name, value, words in found]
