"""The book's feed: its dated recipes, the newest first (Atom, RFC 4287). Nothing in it asks what day it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from urllib.parse import quote
from xml.sax.saxutils import escape, quoteattr

from gristbook.model.book import Book
from gristbook.site.beer.known import Known
from gristbook.site.pages import FEED, of_recipe
from gristbook.site.prose import plain

MIDNIGHT = "T00:00:00Z"
"""What is added to an author's date, since a feed counts seconds."""


def dated(recipes: Iterable[Known]) -> tuple[Known, ...]:
    """The recipes that have a date, the newest first; those of one day by their address."""
    found = sorted((it for it in recipes if it.date), key=lambda it: it.slug)
    return tuple(sorted(found, key=lambda it: it.date, reverse=True))


def feed(book: Book, address: str, recipes: Sequence[Known]) -> bytes:
    """The feed of ``recipes``, newest first and at least one, of a book that is published at ``address``."""
    lines = [
        '<?xml version="1.0" encoding="utf-8"?>',
        f'<feed xmlns="http://www.w3.org/2005/Atom" xml:lang={quoteattr(book.language)}>',
        f"<id>{escape(address)}</id>",
        f"<title>{escape(plain(book.title))}</title>",
        f"<updated>{recipes[0].date}{MIDNIGHT}</updated>",
        f"<author><name>{escape(book.author or plain(book.title))}</name></author>",
        f'<link rel="self" type="application/atom+xml" href={quoteattr(address + FEED)}/>',
        f'<link rel="alternate" type="text/html" href={quoteattr(address)}/>',
        *(line for recipe in recipes for line in _entry(recipe, address)),
        "</feed>",
    ]
    return ("\n".join(lines) + "\n").encode()


def _entry(recipe: Known, address: str) -> Iterator[str]:
    page = address + quote(of_recipe(recipe.slug).page)
    yield "<entry>"
    yield f"<id>{escape(page)}</id>"
    yield f"<title>{escape(plain(recipe.title))}</title>"
    yield f"<published>{recipe.date}{MIDNIGHT}</published>"
    yield f"<updated>{recipe.date}{MIDNIGHT}</updated>"
    yield f'<link rel="alternate" type="text/html" href={quoteattr(page)}/>'
    if recipe.summary:
        yield f"<summary>{escape(plain(recipe.summary))}</summary>"
    yield "</entry>"
