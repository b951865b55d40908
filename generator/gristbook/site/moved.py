"""The pages at addresses of earlier versions: each says where its page is now, and leads there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from gristbook.site.pages import Page
from gristbook.site.printing import Printing
from gristbook.site.prose import plain


@dataclass(frozen=True, slots=True)
class MovedPage:
    """An address of an earlier version: what it was, and where that is now, a fragment carried on behind ``prefix``."""

    title: str
    new: str
    prefix: str


def moved_pages(printing: Printing, beers: Iterable[str]) -> Iterator[Page]:
    """A page at every old address of some beers; none of them is one to be found."""
    for beer in (printing.beers[slug].beer for slug in beers):
        for brew, words in ((beer.home, ""), *((it.brew, f", {it.words}") for it in beer.editions)):
            recipe = brew.plan.recipe
            for it in brew.at.moved:
                title = f"{plain(recipe.title)}{words}, {it.called}"
                view = MovedPage(title, it.new, it.prefix)
                about = f"Where to find {title}."
                yield printing.page(
                    *(it.old, "moved.html", f"{title}, moved", about, view), place=recipe.place, listed=False
                )
