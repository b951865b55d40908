"""What the page of a chapter is given: its beers, and what to buy for all of them, in every size of the book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.model.edition import Edition
from gristbook.site.addresses import Anchors
from gristbook.site.beer.basket import Basket, basket
from gristbook.site.beer.brews import FROM, Beer, brewed
from gristbook.site.book.chapters import Part
from gristbook.site.book.index_page import Entry, entries
from gristbook.site.pages import Page, chapter_path
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.site.words import capital
from gristbook.targets.figures import Plan

AS_WRITTEN = "As written"


@dataclass(frozen=True, slots=True)
class ChapterPage:
    """A chapter of the book."""

    title: Markup
    about: Markup
    entries: tuple[Entry, ...]
    baskets: tuple[Basket, ...]


def chapter_pages(printing: Printing) -> Iterator[Page]:
    """The page of every chapter."""
    for part in printing.chapters:
        words = f"The beers of the chapter {plain(part.title)}, and what to buy for them."
        view = _chapter_page(printing, part)
        yield printing.page(chapter_path(part.anchor), "chapter.html", plain(part.title), words, view)


def _chapter_page(printing: Printing, part: Part) -> ChapterPage:
    book, beers = printing.book, [printing.beers[slug] for slug in part.slugs]
    plans = [beer.home.plan for beer in beers]
    return ChapterPage(
        line(part.title), line(part.about), entries(plans), tuple(_baskets(book, beers, plans, printing.instead))
    )


def _baskets(
    book: Book, beers: Sequence[Beer], plans: Sequence[Plan], instead: Mapping[str, tuple[str, ...]]
) -> Iterator[Basket]:
    anchors = Anchors("main", "buy", "units")
    anchor, us = anchors.take(f"buy {AS_WRITTEN}"), book.units == "US"
    yield basket(plans, book.prices, instead, anchor, AS_WRITTEN, us=us)
    for edition in (it.in_a_book(book.units) for it in book.editions):
        found: list[Plan] = []
        without: list[tuple[str, str]] = []
        for beer in beers:
            plan = _in_edition(beer, edition)
            if isinstance(plan, Plan):
                found.append(plan)
            else:
                without.append((plain(beer.home.plan.recipe.title), plan))
        if found:
            words = capital(_words(edition))
            anchor = anchors.take(f"buy {words}")
            yield basket(found, book.prices, instead, anchor, words, tuple(without), us=edition.us)


def _in_edition(beer: Beer, edition: Edition) -> Plan | str:
    """A beer in an edition of the book, the recipe itself where it is that already; or else why there is none."""
    home = beer.home.plan
    if edition.slug in {dropped.slug for dropped in home.recipe.dropped}:
        return "its author leaves this size out"
    made = {it.made.edition.slug: it.made.plan for it in beer.editions}
    refused = {it.edition.slug: it.why for it in beer.refused}
    return made.get(edition.slug) or refused.get(edition.slug) or home


def _words(edition: Edition) -> str:
    vessels = f"in the {edition.brewhouse} brewhouse" if edition.brewhouse else ""
    if edition.batch is None:
        return (vessels or "each in its own size") + FROM[edition.source]
    return brewed(edition.batch, edition.brewhouse or "", us=edition.us) + FROM[edition.source]
