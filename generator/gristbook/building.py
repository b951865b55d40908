"""A book's folder to that of its site: read, worked out, made and written, of which stands what would be as it is."""

from __future__ import annotations

import os
from collections.abc import Callable, Collection, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from gristbook.again import Again, again, kept_of
from gristbook.built import OF_ONE_BEER, Site, keep, last_built, remember
from gristbook.charts.caches import frames
from gristbook.hands import hands
from gristbook.model.book import Book
from gristbook.problems import Problems
from gristbook.site.build import Lent, OnMade, Whole, make_share, make_site
from gristbook.site.disk.held import held, remade
from gristbook.site.disk.keeping import kept, taken_up
from gristbook.site.disk.owned import LIST, apart
from gristbook.site.disk.sources import digest_in, digests
from gristbook.site.disk.write import earlier, write
from gristbook.site.past import Past, Since, stamps

FORGOTTEN = Past()
"""What is known of a build that never was."""


def build(
    folder: Path,
    out: Path,
    problems: Problems,
    *,
    strict: bool = False,
    pdf: Callable[[bytes], bytes] | None = None,
    on_made: OnMade = lambda *_: None,
) -> Site | None:
    """Write the site of a book; `None` where nothing was written, for which `gristbook.interface.Book.build` has why.

    ``pdf`` makes a PDF of the whole book, and ``on_made`` is told of each piece before it is made.
    """
    sources = _sources(folder)
    past = _last_build(out) if pdf is None else FORGOTTEN
    digest = _digest(sources)
    with hands() as others:

        def begin(book: Book, paths: list[str]) -> None:
            apart(out, folder, book.texts)
            if pdf is None:
                others.begin(folder, digest, [Path(path).stem for path in paths])

        it = again(folder, sources, past, problems, begin)
        if it is None:
            return None
        site = make_site(
            *(it.book, it.plans, problems, frames()),
            pdf=pdf,
            hands=others.all,
            since=lambda press: Since(past, press, it.ground, out, it.texts),
            on_made=on_made,
            **_besides(it, folder),
        )
    if (strict and len(problems)) or has_an_error_of_the_whole(it.book, problems):
        return None
    return _written(it, site, out, problems, digest, strict=strict, pdf=pdf is not None)


def share(folder: Path, beers: Collection[str], digest: str) -> Mapping[str, Lent] | None:
    """What `gristbook.site.build.make_share` makes of some beers of a book; `None` where it cannot be made.

    So it is, too, where the book is no longer the one with that ``digest``.
    """
    sources = _sources(folder)
    if _digest(sources) != digest:
        return None
    it = again(folder, sources, FORGOTTEN, Problems(), lambda *_: None)
    return make_share(beers, it.book, it.plans, frames(), **_besides(it, folder)) if it else None


def has_an_error_of_the_whole(book: Book, problems: Problems) -> bool:
    """Whether the book or its theme has an error, which is every page's, and not only a text or a brewhouse."""
    return any(not it.text.endswith(OF_ONE_BEER) and it not in book.amiss for it in problems.errors())


def _besides(it: Again, folder: Path) -> dict[str, Any]:
    """What pages are made from besides the book and its plans."""
    return {"batches": it.brewed.batches, "lessons": it.brewed.lessons, "folder": folder, "theme": folder / "theme"}


def _sources(folder: Path) -> dict[str, bytes]:
    return {Path(path).as_posix(): held for path, held in digests(folder)}


def _digest(sources: Mapping[str, bytes]) -> str:
    return digest_in((os.path.join(*path.split("/")), held) for path, held in sources.items())


def _written(it: Again, site: Whole, out: Path, problems: Problems, digest: str, *, strict: bool, pdf: bool) -> Site:
    """Write a site, and keep what it came to."""
    files, there = remade(it.book, site.files, problems), {*site.files, *site.standing}
    stays = held(it.book, {*files, *site.standing}, problems, earlier(out, {*files, *site.standing}))
    done = write({**files, **stays.files}, out, site.standing)
    counts = done.new, done.changed, done.same, done.removed, len(stays.files)
    told = Site(len(it.plans), *counts, tuple(stays.texts), tuple(done.left))
    if not told.left and not pdf:
        with suppress(OSError):
            made = {name: piece for name, piece in site.pieces.items() if piece is not None}
            past = kept_of(it, site.press, made, site.ground, stamps(out, there))
            keep(kept(past), last_built(out, ".past"))
    if not told.left:
        remember(told, digest, out, (LIST, *there, *stays.files), problems, strict=strict, pdf=pdf)
    return told


def _last_build(out: Path) -> Past:
    """What the last build into a folder came to, as far as it can be read."""
    try:
        found = taken_up(last_built(out, ".past").read_bytes())
    except Exception:  # whatever may lie there: it is one more build from nothing
        return FORGOTTEN
    return found if isinstance(found, Past) else FORGOTTEN
