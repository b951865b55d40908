"""What the title page is given: the book, its chapters, and each beer with its colour and its first figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.site.addresses import Anchors
from gristbook.site.band import Band, band
from gristbook.site.figures import Figure, unlinked
from gristbook.site.pages import recipe_path
from gristbook.site.prose import line
from gristbook.site.words import colour_word
from gristbook.targets.figures import Plan

REST = "More beers"


@dataclass(frozen=True, slots=True)
class Entry:
    """A beer on the title page."""

    path: str
    title: Markup
    summary: Markup
    band: Band
    strength: Figure
    bitterness: Figure
    gravity: Figure
    colour_word: str
    colour: Figure


@dataclass(frozen=True, slots=True)
class ChapterView:
    """A chapter of the book and its beers."""

    anchor: str
    title: Markup
    about: Markup
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class IndexPage:
    """The title page."""

    title: Markup
    author: str
    note: Markup
    chapters: tuple[ChapterView, ...]


def index_page(book: Book, plans: Sequence[Plan]) -> IndexPage:
    """The title page of a book; a recipe in two chapters stands in both, one in none comes last."""
    by_slug = {plan.recipe.slug: plan for plan in plans}
    anchors = Anchors("main")
    chapters = []
    for title, about, slugs in _chapters(book, by_slug):
        anchor = anchors.take(title)
        entries = tuple(_entry(by_slug[slug], f"{anchor}-{slug}") for slug in slugs)
        chapters.append(ChapterView(anchor, line(title), line(about), entries))
    return IndexPage(line(book.title), book.author, line(book.note), tuple(chapters))


def reading_order(book: Book, plans: Sequence[Plan]) -> tuple[Plan, ...]:
    """The plans as a reader meets them, each once."""
    by_slug = {plan.recipe.slug: plan for plan in plans}
    slugs = dict.fromkeys(slug for _, _, members in _chapters(book, by_slug) for slug in members)
    return tuple(by_slug[slug] for slug in slugs)


def _chapters(book: Book, by_slug: Mapping[str, Plan]) -> list[tuple[str, str, list[str]]]:
    """Chapters with a beer in them; a beer that could not be planned is not there."""
    placed = {slug for chapter in book.chapters for slug in chapter.recipes}
    rest = [slug for slug in sorted(by_slug) if slug not in placed]
    chapters = [(c.title, c.about, [slug for slug in c.recipes if slug in by_slug]) for c in book.chapters]
    return [chapter for chapter in [*chapters, (REST, "", rest)] if chapter[2]]


def _entry(plan: Plan, name: str) -> Entry:
    figures = plan.figures
    return Entry(
        recipe_path(plan.recipe.slug),
        line(plan.recipe.title),
        line(plan.recipe.summary),
        band(name, figures.colour.srm.number),
        unlinked(figures.fermentation.abv),
        unlinked(figures.bitterness.total),
        unlinked(figures.wort.original),
        colour_word(figures.colour.srm.number),
        unlinked(figures.colour.srm),
    )
