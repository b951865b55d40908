"""What the pages of a book are made from, worked out once: the book, its beers, its brews, its words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from gristbook.charts.caches import FrameCache
from gristbook.model.book import Book
from gristbook.model.style import Style
from gristbook.problems import Place
from gristbook.sheet.value import Value, lineage
from gristbook.site.beer.known import Known, edition_words
from gristbook.site.book.chapters import Part
from gristbook.site.brew.batches import Journal
from gristbook.site.figures import Figure, unlinked
from gristbook.site.outline import Outline
from gristbook.site.pages import HOME, INDEX, INGREDIENTS, STYLES, Link, Page, around
from gristbook.site.prose import plain
from gristbook.site.shelf.larder import Stocked, values_of


@dataclass(frozen=True)
class Printing:
    """All that a page may ask.

    ``beers`` go by the address of their recipe, in reading order; ``chapters`` hold them; ``stock`` and ``styles`` (by
    the path of their pages) are what they are made from and compared with, ``instead`` the names of what can stand in
    for each thing. ``written`` are the author's texts; ``frames`` keeps those of charts. ``examples`` are
    the beers of each lesson and the lessons of each beer, by the paths of their pages.
    """

    book: Book
    beers: Mapping[str, Known]
    chapters: tuple[Part, ...]
    journal: Journal
    stock: tuple[Stocked, ...]
    styles: Mapping[str, Style]
    instead: Mapping[str, tuple[str, ...]]
    written: Outline
    frames: FrameCache
    examples: Mapping[str, tuple[tuple[str, Link], ...]] = field(default_factory=dict)

    def page(
        self,
        path: str,
        template: str,
        title: str,
        description: str,
        view: object,
        *,
        place: Place = HOME,
        us_first: bool | None = None,
        data: str = "",
        figure: Callable[[Value], Figure] = unlinked,
        listed: bool = True,
    ) -> Page:
        """A page of this book; its title ends with the book's."""
        whole = f"{title} – {plain(self.book.title)}"
        return Page(path, template, whole, description, view, place, us_first, data, figure, listed)

    @cached_property
    def beside(self) -> Mapping[str, tuple[str, str]]:
        """The beers before and after each, "" where there is none."""
        return {slug: (before or "", after or "") for before, slug, after in around([*self.beers])}

    def titled(self, path: str) -> str | None:
        """What a page is called that others stand under, of those that are no others' own."""
        slug, _, edition = path.removesuffix(".html").partition("/")
        if beer := self.beers.get(slug):
            words, title = beer.ask(edition_words).get(edition, ""), plain(beer.title)
            return title if not edition else f"{title}, {words}" if words else None
        return plain(self.book.title) if path == INDEX else {INGREDIENTS: "Ingredients", STYLES: "Styles"}.get(path)

    def values(self) -> Iterator[Value]:
        """Every figure that some page tells the working of, but for those of beers."""
        for sheet in self.journal.worksheets():
            yield from sheet.told
        yield from lineage(*values_of(self.stock))
