"""What an earlier build of a book came to, and what of it would be the same today.

Of every beer its answers are kept, and of every piece of the site what it rested on and what it asked; no page is. A
piece stands where all of that is as it was, and its files are as they were written.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeAlias

from gristbook.model.yeast import Yeast
from gristbook.problems import Place, Problem
from gristbook.site.beer.known import WHOLE, Question, Remembered
from gristbook.site.desk import Written
from gristbook.site.disk.spelled import digest
from gristbook.site.pieces import Piece
from gristbook.site.press import Press

Stamp: TypeAlias = tuple[int, int, int]
"""How large a file is, when it was written, and its number on the disk."""


@dataclass(frozen=True, slots=True)
class Made:
    """A piece as it was made: what it rested on, the beers by what they were asked, and its files.

    A file has the text that brings it, and whether it is a page to be found.
    """

    rests_on: str
    heard: Mapping[Question, tuple[str, ...]]
    files: Mapping[str, tuple[Place, bool]]


@dataclass(frozen=True, slots=True)
class Was:
    """A beer of an earlier build: what its text held, what was told of it, its yeasts, its text, its answers."""

    slug: str
    text: bytes
    told: tuple[Problem, ...]
    yeasts: tuple[Yeast, ...]
    written: Written
    answers: dict[Question, object]


@dataclass(frozen=True, slots=True)
class Past:
    """An earlier build: what all its pages rested on, its beers and its pieces, and its files as they were written.

    ``beers`` go by the paths of their recipes. All were read by what ``reading`` stands for, worked out on the same
    ``footing``, and their pages rested on the same ``ground``.
    """

    reading: str = ""
    footing: str = ""
    ground: str = ""
    beers: Mapping[str, Was] = field(default_factory=dict)
    pieces: Mapping[str, Made] = field(default_factory=dict)
    stamps: Mapping[str, Stamp] = field(default_factory=dict)


def stamps(out: Path, files: Iterable[str]) -> dict[str, Stamp]:
    """The stamps of those files of a folder that are there."""
    found: dict[str, Stamp] = {}
    for path in files:
        with suppress(OSError):
            it = os.lstat(os.path.join(out, path))
            found[path] = it.st_size, it.st_mtime_ns, it.st_ino
    return found


class Since:
    """What stands since an earlier build.

    Parameters
    ----------
    press : of today
    out : the folder of the site
    texts : what the files of the book hold that are not every page's
    """

    def __init__(self, past: Past, press: Press, ground: str, out: Path | None, texts: Mapping[str, bytes]) -> None:
        self._past, self._texts = past, texts
        self.ground = digest(ground, press.site)
        on_disk = stamps(out, past.stamps) if out and past.ground == self.ground else {}
        self._intact = {path for path, it in on_disk.items() if it == past.stamps[path]}
        self._was = {was.slug: was for was in past.beers.values()}
        self._beers = {it.slug: it for it in press.beers}
        self._alike: dict[tuple[Question, str], bool] = {}

    def rests_on(self, piece: Piece) -> str:
        """All that a piece rests on besides the ground and what beers answer, in a word."""
        own = [it for it in self._texts.items() if piece.texts and piece.texts(it[0])]
        return digest(piece.rests_on, own)

    def stands(self, name: str, piece: Piece) -> Made | None:
        """A piece as it was made, where it would be the same today."""
        made = self._past.pieces.get(name) if self._intact else None
        if made is None or not made.files.keys() <= self._intact or made.rests_on != self.rests_on(piece):
            return None
        alike = (self._is_alike(asked, slug) for asked, slugs in made.heard.items() for slug in slugs)
        return made if all(alike) else None

    def _is_alike(self, asked: Question, slug: str) -> bool:
        """Whether a beer answers as it did."""
        beer, was = self._beers.get(slug), self._was.get(slug)
        if beer is None or was is None:
            return False
        if isinstance(beer.of, Remembered):
            return True
        if (asked, slug) not in self._alike:
            known = asked != WHOLE and asked in was.answers
            self._alike[asked, slug] = known and digest(was.answers[asked]) == digest(beer.answer(asked))
        return self._alike[asked, slug]

    def made(
        self, piece: Piece, heard: Mapping[Question, Iterable[str]], files: Mapping[str, tuple[Place, bool]]
    ) -> Made:
        """A piece as it has been made now."""
        return Made(self.rests_on(piece), {asked: tuple(slugs) for asked, slugs in heard.items()}, files)
