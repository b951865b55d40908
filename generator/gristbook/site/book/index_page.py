"""What the title page is given: the book, its chapters, and each beer with its colour and its first figures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.sheet.value import Value
from gristbook.site.band import Band, band
from gristbook.site.book.chapters import parts
from gristbook.site.pages import Group, of_recipe
from gristbook.site.prose import line
from gristbook.site.words import colour_word, ready_words
from gristbook.targets.figures import Plan


@dataclass(frozen=True, slots=True)
class Entry:
    """A beer on the title page; ``ferments`` is absent and ``ready`` empty where the recipe does not say."""

    path: str
    title: Markup
    summary: Markup
    band: Band
    strength: Value
    bitterness: Value
    gravity: Value
    colour_word: str
    colour: Value
    ferments: Value | None
    ready: str


@dataclass(frozen=True, slots=True)
class IndexPage:
    """The title page."""

    title: Markup
    author: str
    note: Markup
    chapters: tuple[Group[Entry], ...]


def index_page(book: Book, plans: Sequence[Plan]) -> IndexPage:
    """The title page of a book; a recipe in two chapters stands in both, one in none comes last."""
    by_slug = {plan.recipe.slug: plan for plan in plans}
    chapters = (
        Group(part.anchor, line(part.title), entries(by_slug[it] for it in part.slugs), line(part.about))
        for part in parts(book, by_slug)
    )
    return IndexPage(line(book.title), book.author, line(book.note), tuple(chapters))


def entries(plans: Iterable[Plan]) -> tuple[Entry, ...]:
    """Beers as a list shows them."""
    return tuple(map(_entry, plans))


def _entry(plan: Plan) -> Entry:
    figures, steps, srm = plan.figures, plan.recipe.ferment, plan.figures.colour.srm
    return Entry(
        of_recipe(plan.recipe.slug).page,
        line(plan.recipe.title),
        line(plan.recipe.summary),
        band(srm.number),
        figures.fermentation.abv,
        figures.bitterness.total,
        figures.wort.original,
        colour_word(srm.number),
        srm,
        steps[0].temperature if steps else None,
        ready_words(figures.packaging.ready.number) if figures.packaging else "",
    )
