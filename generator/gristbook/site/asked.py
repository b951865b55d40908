"""The files of a site, each made once it is asked for, with no more around it than its part of the book has."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from gristbook.site.pages import Page
from gristbook.site.press import Press

NEAR: Mapping[str, str] = {
    **dict.fromkeys(("find", "pots", "table"), "index"),
    **dict.fromkeys(("ingredients", "styles"), "shelves"),
    "brewhouses": "brews",
    "glossary": "learning",
    "cautions": "sources",
}
"""In which part of the book a page is looked for first, by how its path begins, where the part is not called so."""


class Asked:
    """Makes the files of a site with a press of its own; ``dress`` are those that are there from the start."""

    def __init__(self, press: Press) -> None:
        press.dress()
        self.press, self.dress = press, press.files.made()
        self._parts, self._beers = dict(press.parts()), dict[str, Iterator[Page | None]]()

    def file(self, path: str) -> bytes | None:
        """A file by its path; `None` where the site has none, or where a template of the author's is at fault."""
        first, _, rest = path.removesuffix(".html").partition("/")
        beer = self.press.printing.beers.get(first)
        if path not in self.dress and not path.endswith(".html"):
            return next((data for name, data in self.press.data([beer] if beer else []) if name == path), None)
        if beer and first not in self._beers:
            self._beers[first] = self.press.beer_pages(first)
        near = "brews" if rest.startswith("brew-") else NEAR.get(first, first)
        likely = [self._parts[near]] if near in self._parts else []
        own = [self._beers[first]] if beer else []
        for part in (*likely, *own, *self._parts.values()):
            while self.press.files.get(path) is None and next(part, part) is not part:
                pass
        return self.press.files.get(path)
