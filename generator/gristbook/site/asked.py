"""The files of a site, each made once it is asked for, with no more around it than its piece of the book has."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from gristbook.site.pages import Page
from gristbook.site.pieces import Piece
from gristbook.site.press import Press

NEAR: Mapping[str, tuple[str, ...]] = {"glossary": ("learning",)}
"""The piece of a page that is neither called so itself nor lies in a folder that is."""


class Asked:
    """Makes the files of a site with a press of its own; ``dress`` are those that are there from the start."""

    def __init__(self, press: Press) -> None:
        press.dress()
        self.press, self.dress = press, {it.path: it.data for it in press.files.made()}
        self._beers, self._begun = dict[str, Piece](), dict[str, Iterator[Page | None]]()

    def file(self, path: str) -> bytes | None:
        """A file by its path; `None` where the site has none, or where a template of the author's is at fault."""
        if path not in self.dress and not path.endswith(".html"):
            return next((data for it in self._near(path).values() for name, data, _ in it.data() if name == path), None)
        for name, piece in self._near(path).items():
            if name not in self._begun:
                self._begun[name] = self.press.pages(piece)
            while self.press.files.get(path) is None and next(self._begun[name], self) is not self:
                pass
        return self.press.files.get(path)

    def _near(self, path: str) -> dict[str, Piece]:
        """The pieces that a file may be of: that of its own name first, then that of a beer, then all others."""
        stem, first = path.removesuffix(".html"), path.removesuffix(".html").partition("/")[0]
        if first in self.press.printing.beers and first not in self._beers:
            self._beers[first] = self.press.piece(first)
        likely = [it for it in (stem, path, first, f"pages/{stem}", *NEAR.get(stem, ())) if it in self.press.pieces]
        own = {first: self._beers[first]} if first in self._beers else {}
        return {**{it: self.press.pieces[it] for it in likely}, **own, **self.press.pieces}
