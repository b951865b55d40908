"""The chapters of a book that have a beer in them."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from gristbook.model.book import Book
from gristbook.site.addresses import Anchors

REST = "More beers"


@dataclass(frozen=True, slots=True)
class Part:
    """A chapter with a beer in it: its name on the front page, and the addresses of its beers."""

    anchor: str
    title: str
    about: str
    slugs: tuple[str, ...]


def parts(book: Book, there: Collection[str]) -> tuple[Part, ...]:
    """Chapters with a beer in them, of the beers that are ``there``; those in no chapter come last."""
    placed = {slug for chapter in book.chapters for slug in chapter.recipes}
    rest = tuple(slug for slug in sorted(there) if slug not in placed)
    chapters = [(c.title, c.about, tuple(slug for slug in c.recipes if slug in there)) for c in book.chapters]
    anchors = Anchors("main")
    return tuple(
        Part(anchors.take(title), title, about, slugs) for title, about, slugs in [*chapters, (REST, "", rest)] if slugs
    )
