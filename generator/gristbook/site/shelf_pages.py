"""The pages of a book's ingredients and of its styles: each thing that a beer uses, each style that one names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from gristbook.charts import FrameCache
from gristbook.model.book import Book
from gristbook.model.style import Style
from gristbook.site import pages as at
from gristbook.site.brews import Beer
from gristbook.site.ingredient_page import ingredient_page
from gristbook.site.larder import Stocked
from gristbook.site.pages import Page
from gristbook.site.prose import plain
from gristbook.site.shelves_page import shelves_page
from gristbook.site.style_page import style_page, styles_page
from gristbook.site.terms import Glossary
from gristbook.site.words import capital


def shelf_pages(
    book: Book,
    beers: Sequence[Beer],
    stock: Sequence[Stocked],
    styles: Mapping[str, Style],
    glossary: Glossary,
    cache: FrameCache,
) -> Iterator[Page]:
    """Both lists and all that they lead to; none in a book without a beer."""
    title = plain(book.title)
    if stock:
        words = "What the beers of this book are made from: what it brings, and what can stand in for it."
        yield Page(at.INGREDIENTS, "ingredients.html", f"Ingredients – {title}", words, shelves_page(stock))
    for thing in stock:
        view = ingredient_page(thing, book, glossary.on(thing.path))
        words = f"{view.name}: {view.taste or view.kind}, its numbers, the beers that use it, and what can stand in."
        yield Page(thing.path, "ingredient.html", f"{view.name} – Ingredients – {title}", words, view)
    if styles:
        words = "The styles that the beers of this book are compared with, by families."
        yield Page(at.STYLES, "styles.html", f"Styles – {title}", words, styles_page(styles, beers))
    for path, style in styles.items():
        style_view = style_page(path, style, beers, cache, glossary.on(path))
        words = f"{style.name}, of the family {style.family}: what is usual, and the beers of this book."
        yield Page(path, "style.html", f"{style.name} – Styles – {title}", capital(words), style_view)
