"""Which pages there are, and what every one of them is given besides its own matter."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gristbook.model.book import Book

INDEX, SOURCES, STYLE, SCRIPT, ICON = "index.html", "sources.html", "style.css", "units.js", "icon.svg"


def recipe_path(slug: str) -> str:
    """The recipe itself."""
    return f"{slug}.html"


def working_path(slug: str) -> str:
    """The working of its figures."""
    return f"{slug}/working.html"


def card_path(slug: str) -> str:
    """The card to print."""
    return f"{slug}/card.html"


def figures_path(slug: str) -> str:
    """Its figures for a machine."""
    return f"{slug}/figures.json"


def page_path(slug: str) -> str:
    """Another page of the author's."""
    return f"{slug}.html"


@dataclass(frozen=True, slots=True)
class Link:
    """A way to another page, by its path in the site."""

    path: str
    words: str


@dataclass(frozen=True, slots=True)
class Site:
    """What all pages share: the book's names, its language, which units come first, and the links at the head."""

    title: str
    author: str
    address: str
    language: str
    us_first: bool
    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class Page:
    """One page to render: its file, its template, what its head says, and the view that its template is given."""

    path: str
    template: str
    title: str
    description: str
    view: object


def site_of(book: Book, titles: Mapping[str, str]) -> Site:
    """What all pages of a book share; ``titles`` are the author's pages by slug, as they are printed."""
    links = (
        Link(INDEX, "Beers"),
        *(Link(page_path(slug), title) for slug, title in titles.items()),
        Link(SOURCES, "Sources"),
    )
    address = book.address if not book.address or book.address.endswith("/") else book.address + "/"
    return Site(book.title, book.author, address, book.language, book.units == "US", links)
