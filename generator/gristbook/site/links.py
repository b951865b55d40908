"""What a link in one of the book's files becomes on a page: which file of the book became which page."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from gristbook.model.book import Book
from gristbook.site import pages as at
from gristbook.site.addresses import way
from gristbook.site.beer.known import Known
from gristbook.site.learn.terms import Glossary
from gristbook.site.prose import elsewhere


class Links:
    """Knows the page of every file, and the pages that a text may call by a word: cautions, sources, glossary."""

    def __init__(
        self, book: Book, beers: Sequence[Known], glossary: Glossary, batches: Mapping[str, str] | None = None
    ) -> None:
        self._pages = {beer.place.path: at.of_recipe(beer.slug).page for beer in beers}
        self._pages |= {f"pages/{page.slug}.md": at.page_path(page.slug) for page in book.pages}
        self._pages |= batches or {}
        self._named = {"cautions": at.CAUTIONS, "sources": at.SOURCES}
        if book.learning:
            self._pages |= {lesson_source(slug): at.lesson_path(slug) for slug in book.learning.lessons}
            self._named |= {"glossary": at.GLOSSARY, "learning": at.LEARNING}
        self._there = {at.INDEX, *self._named.values(), *self._pages.values()}
        self._terms = set(glossary.anchors.values())

    def for_page(self, here: str, source: str) -> Callable[[str], str | None]:
        """What a link written in the file ``source`` is on the page ``here``; `None` where it leads nowhere."""

        def mend(address: str) -> str | None:
            if elsewhere(address):
                return address
            path, mark, fragment = address.partition("#")
            if not path:
                return address if fragment else None
            wanted = normpath(join(dirname(source), unquote(path)))
            there = self._pages.get(wanted) or self._named.get(path) or (wanted if wanted in self._there else None)
            if there is None or (there == at.GLOSSARY and fragment and fragment not in self._terms):
                return None
            return way(here, there) + mark + fragment

        return mend


def lesson_source(slug: str) -> str:
    """Where an author writes, or would write, a learning page."""
    return f"theme/learning/{slug}.md"
