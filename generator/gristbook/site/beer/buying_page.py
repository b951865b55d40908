"""What the page is given that one takes to the shop for one brew."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from markupsafe import Markup

from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount_of
from gristbook.site.beer.basket import Basket, basket
from gristbook.site.beer.brews import Brew, OtherBrew
from gristbook.site.pages import Link, chapter_path
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.targets.buying.cost import needs


@dataclass(frozen=True, slots=True)
class BuyingPage:
    """What to buy for one brew; ``made`` is what its edition is, "" as it was written.

    The ``chapters`` have the lists of several beers; ``bottles`` are how many of each size it fills, if any.
    """

    brew: Brew
    title: Markup
    made: str
    basket: Basket
    bottles: tuple[tuple[Value, Amount], ...]
    chapters: tuple[Link, ...]


def buying_page(brew: Brew, printing: Printing, made: OtherBrew | None = None) -> BuyingPage:
    """The shopping list of one brew."""
    us = made.made.edition.us if made else printing.book.units == "US"
    recipe, packaging = brew.plan.recipe, brew.plan.figures.packaging
    return BuyingPage(
        brew,
        line(recipe.title),
        made.words if made else "",
        basket([(recipe.title, [*needs(recipe, brew.plan.figures)])], printing.book.prices, printing.instead, us=us),
        tuple((size, amount_of(ceil(count.number), "bottles")) for size, count in packaging.bottles)
        if packaging and packaging.sugar
        else (),
        chapters_of(brew, printing),
    )


def chapters_of(brew: Brew, printing: Printing) -> tuple[Link, ...]:
    """The ways to the chapters that hold a beer."""
    holding = (part for part in printing.chapters if brew.plan.recipe.slug in part.slugs)
    return tuple(Link(chapter_path(part.anchor), plain(part.title)) for part in holding)
