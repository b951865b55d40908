"""What the title page is given: the book, its chapters, and each beer with its colour and its first figures."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.site.addresses import Anchors
from gristbook.site.band import Band, band
from gristbook.site.figures import Figure, unlinked
from gristbook.site.pages import chapter_path, of_recipe
from gristbook.site.prose import line
from gristbook.site.words import colour_word, ready_words
from gristbook.targets.figures import Plan

REST = "More beers"


@dataclass(frozen=True, slots=True)
class Entry:
    """A beer on the title page; ``ferments`` is absent and ``ready`` empty where the recipe does not say."""

    path: str
    title: Markup
    summary: Markup
    band: Band
    strength: Figure
    bitterness: Figure
    gravity: Figure
    colour_word: str
    colour: Figure
    ferments: Figure | None
    ready: str


@dataclass(frozen=True, slots=True)
class ChapterView:
    """A chapter of the book and its beers."""

    anchor: str
    path: str
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


@dataclass(frozen=True, slots=True)
class Part:
    """A chapter with a beer in it: its name on the front page, and the addresses of its beers."""

    anchor: str
    title: str
    about: str
    slugs: tuple[str, ...]


def index_page(book: Book, plans: Sequence[Plan]) -> IndexPage:
    """The title page of a book; a recipe in two chapters stands in both, one in none comes last."""
    by_slug = {plan.recipe.slug: plan for plan in plans}
    chapters = tuple(
        ChapterView(
            part.anchor,
            chapter_path(part.anchor),
            line(part.title),
            line(part.about),
            entries([by_slug[slug] for slug in part.slugs], part.anchor),
        )
        for part in parts(book, by_slug)
    )
    return IndexPage(line(book.title), book.author, line(book.note), chapters)


def reading_order(book: Book, plans: Sequence[Plan]) -> tuple[Plan, ...]:
    """The plans as a reader meets them, each once."""
    by_slug = {plan.recipe.slug: plan for plan in plans}
    slugs = dict.fromkeys(slug for part in parts(book, by_slug) for slug in part.slugs)
    return tuple(by_slug[slug] for slug in slugs)


def parts(book: Book, there: Collection[str]) -> tuple[Part, ...]:
    """Chapters with a beer in them, of the beers that are ``there``; those in no chapter come last."""
    placed = {slug for chapter in book.chapters for slug in chapter.recipes}
    rest = [slug for slug in sorted(there) if slug not in placed]
    chapters = [(c.title, c.about, [slug for slug in c.recipes if slug in there]) for c in book.chapters]
    anchors = Anchors("main")
    return tuple(
        Part(anchors.take(title), title, about, tuple(slugs))
        for title, about, slugs in [*chapters, (REST, "", rest)]
        if slugs
    )


def entries(plans: Sequence[Plan], name: str) -> tuple[Entry, ...]:
    """Beers as a list shows them; ``name`` goes before the ids of their colours."""
    return tuple(_entry(plan, f"{name}-{plan.recipe.slug}") for plan in plans)


def _entry(plan: Plan, name: str) -> Entry:
    figures, steps = plan.figures, plan.recipe.ferment
    return Entry(
        of_recipe(plan.recipe.slug).page,
        line(plan.recipe.title),
        line(plan.recipe.summary),
        band(name, figures.colour.srm.number),
        unlinked(figures.fermentation.abv),
        unlinked(figures.bitterness.total),
        unlinked(figures.wort.original),
        colour_word(figures.colour.srm.number),
        unlinked(figures.colour.srm),
        unlinked(steps[0].temperature) if steps else None,
        ready_words(figures.packaging.ready.number) if figures.packaging else "",
    )
