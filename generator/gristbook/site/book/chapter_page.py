"""What the page of a chapter is given: its beers, and what to buy for all of them, in every size of the book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.model.edition import Edition
from gristbook.site.addresses import Anchors
from gristbook.site.beer.basket import Basket, basket
from gristbook.site.beer.brews import FROM, brewed
from gristbook.site.beer.known import Known
from gristbook.site.book.chapters import Part
from gristbook.site.book.index_page import Entry, entries
from gristbook.site.pages import Page, chapter_path
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.site.words import capital
from gristbook.targets.buying.cost import Need, needs

AS_WRITTEN = "As written"


@dataclass(frozen=True, slots=True)
class ChapterPage:
    """A chapter of the book."""

    title: Markup
    about: Markup
    entries: tuple[Entry, ...]
    baskets: tuple[Basket, ...]


def chapter_page(printing: Printing, part: Part) -> Page:
    """The page of a chapter."""
    words = f"The beers of the chapter {plain(part.title)}, and what to buy for them."
    view = _chapter(printing, part)
    return printing.page(chapter_path(part.anchor), "chapter.html", plain(part.title), words, view)


def _chapter(printing: Printing, part: Part) -> ChapterPage:
    book, beers = printing.book, [printing.beers[slug] for slug in part.slugs]
    return ChapterPage(
        line(part.title), line(part.about), entries(beers), tuple(_baskets(book, beers, printing.instead))
    )


def _baskets(book: Book, beers: Sequence[Known], instead: Mapping[str, tuple[str, ...]]) -> Iterator[Basket]:
    anchors = Anchors("main", "buy", "units")
    anchor, us = anchors.take(f"buy {AS_WRITTEN}"), book.units == "US"
    as_written = [(beer.title, beer.ask(_needs, "")) for beer in beers]
    yield basket(as_written, book.prices, instead, anchor, AS_WRITTEN, us=us)
    for edition in (it.in_a_book(book.units) for it in book.editions):
        found: list[tuple[str, tuple[Need, ...]]] = []
        without: list[tuple[str, str]] = []
        for beer in beers:
            if why := beer.ask(_without, edition.slug):
                without.append((plain(beer.title), why))
            else:
                found.append((beer.title, beer.ask(_needs, edition.slug)))
        if found:
            words = capital(_words(edition))
            anchor = anchors.take(f"buy {words}")
            yield basket(found, book.prices, instead, anchor, words, tuple(without), us=edition.us)


def _without(it: Known, edition: str) -> str:
    """Why there is no such edition of a beer; "" where there is one, or where the recipe itself is that already."""
    if edition in {dropped.slug for dropped in it.plan.recipe.dropped}:
        return "its author leaves this size out"
    return {refused.edition.slug: refused.why for refused in it.beer.refused}.get(edition, "")


def _needs(it: Known, edition: str) -> tuple[Need, ...]:
    """What goes into a beer in an edition of the book, or as it is written where that has none."""
    made = (one.brew.plan for one in (it.beer.editions if edition else ()) if one.made.edition.slug == edition)
    plan = next(made, it.plan)
    return tuple(needs(plan.recipe, plan.figures))


def _words(edition: Edition) -> str:
    vessels = f"in the {edition.brewhouse} brewhouse" if edition.brewhouse else ""
    if edition.batch is None:
        return (vessels or "each in its own size") + FROM[edition.source]
    return brewed(edition.batch, edition.brewhouse or "", us=edition.us) + FROM[edition.source]
