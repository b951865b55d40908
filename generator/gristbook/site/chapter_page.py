"""What the page of a chapter is given: its beers, and what to buy for all of them, in every size of the book."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.model.edition import Edition
from gristbook.sheet.value import Value
from gristbook.site.addresses import Anchors
from gristbook.site.brews import FROM, Beer, brewed
from gristbook.site.figures import Figure, unlinked
from gristbook.site.index_page import Entry, Part, entries
from gristbook.site.prose import line, plain
from gristbook.site.words import capital, counted
from gristbook.targets.figures import Plan
from gristbook.targets.shopping import Purchase, shopping, total_cost

AS_WRITTEN = "As written"


@dataclass(frozen=True, slots=True)
class Bought:
    """A thing to buy: how much of it, where a recipe says so, and how many packs where it is sold in packs."""

    name: str
    amount: Figure | None
    packs: Figure | None
    cost: Figure | None


@dataclass(frozen=True, slots=True)
class Shelf:
    """Things of one kind."""

    title: str
    rows: tuple[Bought, ...]


@dataclass(frozen=True, slots=True)
class Basket:
    """What to buy for the beers of a chapter in one size; ``without`` are beers that it leaves out, and why.

    ``currency`` is empty in a book without prices, and ``total`` what the list costs without what is ``unpriced``.
    """

    anchor: str
    words: str
    us: bool
    beers: str
    without: tuple[tuple[str, str], ...]
    shelves: tuple[Shelf, ...]
    currency: str
    total: Figure | None
    unpriced: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChapterPage:
    """A chapter of the book."""

    title: Markup
    about: Markup
    entries: tuple[Entry, ...]
    baskets: tuple[Basket, ...]


def chapter_page(book: Book, part: Part, beers: Sequence[Beer]) -> ChapterPage:
    """The page of a chapter; ``beers`` are those that it holds."""
    plans = [beer.home.plan for beer in beers]
    return ChapterPage(line(part.title), line(part.about), entries(plans, "beer"), tuple(_baskets(book, beers, plans)))


def _baskets(book: Book, beers: Sequence[Beer], plans: Sequence[Plan]) -> Iterator[Basket]:
    anchors = Anchors("main", "buy", "units")
    yield _basket(book, anchors.take(f"buy {AS_WRITTEN}"), AS_WRITTEN, plans, (), us=book.units == "US")
    for edition in book.editions:
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
            yield _basket(book, anchors.take(f"buy {words}"), words, found, tuple(without), us=edition.us)


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


def _basket(
    book: Book, anchor: str, words: str, plans: Sequence[Plan], without: tuple[tuple[str, str], ...], *, us: bool
) -> Basket:
    bought = shopping(plans, prices=book.prices)
    shelves = tuple(
        Shelf(title, tuple(_bought(purchase) for purchase in purchases))
        for title, purchases in groupby(bought, key=lambda purchase: purchase.section)
    )
    total, unpriced = total_cost(bought)
    beers = f"{counted(len(plans))} {'beer' if len(plans) == 1 else 'beers'}"
    currency = book.prices.currency if book.prices and total is not None else ""
    return Basket(anchor, words, us, beers, without, shelves, currency, _unlinked(total), unpriced)


def _bought(purchase: Purchase) -> Bought:
    return Bought(purchase.name, _unlinked(purchase.amount), _unlinked(purchase.packs), _unlinked(purchase.cost))


def _unlinked(value: Value | None) -> Figure | None:
    return unlinked(value) if value is not None else None
