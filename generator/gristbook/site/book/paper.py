"""The whole book on paper: the pages of the site set by templates of their own, as one document, and that as a PDF."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from html import unescape
from itertools import groupby
from posixpath import dirname, join, normpath
from typing import Any
from urllib.parse import unquote, urlsplit

from markupsafe import Markup, escape

from gristbook.site.addresses import slug
from gristbook.site.figures import unlinked
from gristbook.site.pages import CAUTIONS, GLOSSARY, SOURCES, Group, Page, lesson_path, of_recipe
from gristbook.site.printing import Printing
from gristbook.site.prose import plain

SET = frozenset(f"{kind}.html" for kind in ("recipe", "page", "lesson", "glossary", "cautions", "sources"))
"""The templates of the pages that a book on paper has, each with one of its own for it."""

WANTED = (
    "a PDF wants WeasyPrint, which is not here: pip install 'gristbook[pdf]' "
    "(and of your system Pango: on Debian libpango-1.0-0, libpangoft2-1.0-0 and libharfbuzz-subset0)"
)

LAST = ((CAUTIONS, "Take care"), (GLOSSARY, "Glossary"), (SOURCES, "Sources"))
"""What comes behind all chapters."""

INK = {"paper": "#fff", "ink": "#000", "ink-soft": "#444", "rule": "#bbb", "accent": "#6b3a10", "region": "#eee"}
"""What a chart is drawn in: the library knows no properties within a drawing."""

LETTERS = "Palatino Linotype, Palatino, P052, TeX Gyre Pagella, Liberation Serif, serif"
"""What a chart is lettered in, as the book is: a drawing has no style sheet there."""

_NAMED = re.compile(r'\b(id|href|src)="([^"]*)"|var\(--([a-z-]+)\)|url\(#([^)"]+)\)')
_HALO = re.compile(r' paint-order="stroke" stroke="[^"]*" stroke-width="[^"]*" stroke-linejoin="round"')
"""What parts words from the lines beneath: the library would paint it over the words."""


class NoPdf(Exception):
    """What makes a PDF is not installed; its words say what to install."""


@dataclass(frozen=True, slots=True)
class PaperBook:
    """What the document is made from: the site's own views, and the ``leaves`` by the path of the page that each was.

    ``front`` is the view of the title page and ``learning`` that of the learning pages' contents, if there are any;
    ``at`` has the anchor of each leaf and ``titles`` its title. Leaves that none of these lists are the author's
    ``own``, lessons that stand ``apart`` (answers), and the ``last``, with their words. The ``index`` has what is
    looked up, by letters: the words and where they stand.
    """

    front: object
    learning: object | None
    own: tuple[str, ...]
    apart: tuple[str, ...]
    last: tuple[tuple[str, str], ...]
    leaves: Mapping[str, Markup]
    titles: Mapping[str, str]
    at: Mapping[str, str]
    index: tuple[Group[tuple[str, tuple[str, ...]]], ...]


def printer() -> Callable[[bytes], bytes]:
    """What makes a PDF of a document that brings all of its pictures: it opens no file and asks no network.

    Raises
    ------
    NoPdf
        The library is not installed, or not what it needs of the system.
    """
    try:
        from weasyprint import HTML  # as slow to load as it is large, and nobody else waits for it
        from weasyprint.urls import URLFetcher
    except (ImportError, OSError) as fault:
        raise NoPdf(WANTED) from fault
    return lambda html: bytes(
        HTML(string=html.decode(), url_fetcher=URLFetcher(allowed_protocols=["data"])).write_pdf()
    )


def paper_book(
    pages: Sequence[Page], printing: Printing, files: Mapping[str, bytes], render: Callable[[Page], bytes]
) -> bytes:
    """The document: ``pages`` are those of the site, ``files`` has the pictures, ``render`` makes HTML of a page."""
    views = {page.template: page.view for page in pages}
    kept = {page.path: page for page in pages if page.template in SET}
    at = {path: f"p{number}" for number, path in enumerate(kept)}
    texts = {
        path: render(replace(page, template=f"paper/{page.template}", figure=unlinked)).decode()
        for path, page in kept.items()
    }
    there = {f"{at[path]}-{name}" for path, text in texts.items() for name in re.findall(r'\bid="([^"]*)"', text)}
    leaves = {
        path: Markup(_Leaf(path, at, there, files).bound(text)) for path, text in texts.items()
    }  # ours, or escaped
    own = tuple(path for path, page in kept.items() if page.template == "page.html")
    learning = printing.book.learning
    apart = (
        tuple(lesson_path(answers) for answers in dict.fromkeys(it.slug for it, _ in learning.apart()))
        if learning
        else ()
    )
    last = tuple((path, words) for path, words in LAST if path in kept)
    titles = {path: page.title.removesuffix(f" – {plain(printing.book.title)}") for path, page in kept.items()}
    index = tuple(_index(printing, at))
    view = PaperBook(views["index.html"], views.get("learning.html"), own, apart, last, leaves, titles, at, index)
    front = next(page for page in pages if page.template == "index.html")
    return render(replace(front, template="paper/book.html", view=view))


@dataclass(frozen=True, slots=True)
class _Leaf:
    """A page on its way into the document: its names become the document's, its links lead within it or nowhere."""

    path: str
    at: Mapping[str, str]
    there: set[str]
    files: Mapping[str, bytes]

    def bound(self, text: str) -> str:
        return _NAMED.sub(self._named, _HALO.sub("", text)).replace(
            'class="chart ', f'font-family="{LETTERS}" class="chart '
        )

    def _named(self, found: re.Match[str]) -> str:
        kind, value, colour, within = found.groups()
        if colour:
            return INK.get(colour, "currentColor")
        if within:
            return f"url(#{self.at[self.path]}-{within})"
        if kind == "id":
            return f'id="{self.at[self.path]}-{value}"'
        address = unescape(value)
        if kind == "src":
            return f'src="{escape(self._picture(address))}"'
        return f'href="{escape(led)}"' if (led := self._led(address)) else ""

    def _led(self, address: str) -> str:
        if urlsplit(address).scheme:
            return address
        path, _, name = address.partition("#")
        leaf = self.at.get(self._resolved(path))
        if leaf is None:
            return ""
        return f"#{leaf}-{name}" if f"{leaf}-{name}" in self.there else f"#{leaf}"

    def _resolved(self, path: str) -> str:
        return normpath(join(dirname(self.path), unquote(path))) if path else self.path

    def _picture(self, address: str) -> str:
        data = self.files.get(self._resolved(address), b"")
        return f"data:;base64,{b64encode(data).decode()}"


def _index(printing: Printing, at: Mapping[str, str]) -> Any:
    """Ingredients and styles by the alphabet, each with the anchors of the recipes that it stands in."""
    found: dict[str, list[str]] = {}
    for thing in printing.stock:
        leaves = [f"{at[of_recipe(beer.slug).page]}-ingredients" for beer, edition in thing.brews if not edition]
        if leaves:
            found.setdefault(thing.ingredient.name, []).extend(leaves)
    for beer in printing.beers.values():
        style = beer.style
        if style is not None:
            found.setdefault(style.name, []).append(f"{at[of_recipe(beer.slug).page]}-outcome")
    rows = sorted(found.items(), key=lambda it: slug(it[0]))
    for letter, group in groupby(rows, key=lambda it: slug(it[0])[:1].upper()):
        yield Group(letter, letter, tuple((words, tuple(leaves)) for words, leaves in group))
