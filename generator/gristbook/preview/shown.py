"""What a preview shows: each page as it is now, or as it last was, and what is wrong in the book."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterable
from hashlib import sha256
from pathlib import Path
from threading import Condition
from typing import Any
from urllib.parse import quote

from gristbook.built import OF_ONE_BEER
from gristbook.charts.caches import FolderCache, MemoryCache, users_cache
from gristbook.preview.standing import NoBook, Standing, sources
from gristbook.problems import Place, Problem, Severity
from gristbook.site.disk.held import leads_to, own_page, owners

MOST_KEPT, MOST_SHOWN = 100, 50
"""Pages that are kept as they last were, and problems that are shown on one."""


class Preview:
    """A book that is read anew by each `look`, and asked by many threads at once.

    Parameters
    ----------
    tell : told of a fault of our own, which ends nothing here

    Raises
    ------
    NoBook
        There is no book to begin with.
    OSError
        The disk refuses.
    """

    def __init__(self, folder: Path, tell: Callable[[Exception], None]) -> None:
        kept = users_cache()
        self._cache = FolderCache(kept / "charts") if kept else MemoryCache()
        self._folder, self._tell, self._sources = folder, tell, sources(folder)
        self._now = Standing(folder, self._sources, self._cache)
        self._in_the_way: tuple[Problem, ...] = ()
        self._kept: dict[str, bytes] = {}
        self._changed, self._looks, self._rested, self._lead = Condition(), 0, 0, (0, "")
        gc.collect()
        gc.freeze()  # what a large book is made of need not be looked through at every rest

    def problems(self) -> list[Problem]:
        """All that is wrong in the book, found so far."""
        with self._changed:
            return [*self._in_the_way] or self._now.problems()

    def look(self) -> None:
        """Read what has changed in the folder; where the whole book cannot be read, it stays as it was, and is told."""
        with self._changed:
            found = sources(self._folder)
            if found == self._sources:
                return
            saved = [path for path in found if found[path] != self._sources.get(path)]
            self._sources, self._in_the_way = found, ()
            try:
                now = Standing(self._folder, found, self._cache, self._now)
                problems = tuple(now.problems())
                if any(it.severity is Severity.ERROR and not it.text.endswith(OF_ONE_BEER) for it in problems):
                    self._in_the_way = problems
                else:
                    self._now = now
            except NoBook as why:
                self._in_the_way = tuple(why.problems)
            except OSError as fault:
                what = f"{fault.filename or 'the folder'} cannot be read: {fault.strerror or fault}"
                self._in_the_way = (Problem(Place("book.yaml"), what),)
            except Exception as fault:
                self._fault(fault)
            self._looks += 1
            texts = [path for path in saved if path in self._now.shell.book.texts]
            if len(texts) == 1 and self._has(own_page(texts[0])):
                self._lead = self._looks, own_page(texts[0])
            self._changed.notify_all()

    def rest(self) -> None:
        """Let go of what earlier pages were made from, while nobody waits."""
        with self._changed:
            if self._rested != self._looks:
                gc.collect()
                self._rested = self._looks

    def file(self, path: str) -> bytes | None:
        """A file of the site; a page that cannot be made is as it last was."""
        with self._changed:
            return self._file(path)

    def news(self, path: str, seen: int, seconds: float) -> tuple[int, dict[str, Any]] | None:
        """What the browser that shows the page at ``path`` has to know, once there have been more looks than ``seen``.

        `None` where there was none for so many seconds; ``seen`` is -1 of a browser that knows nothing yet.
        """
        with self._changed:
            if not self._changed.wait_for(lambda: self._looks > seen, seconds):
                return None
            data, held = self._file(path), {own_page(it) for it in self._now.held}
            stale = self._in_the_way or held & owners(path) or (data and not self._has(path))
            when, lead = self._lead
            leads = -1 < seen < when and lead not in owners(path)
            told = {
                "mark": self.mark(path),
                "stale": bool(data and stale),
                "lead": quote(f"/{lead}") if leads else "",
                **self._told([*self._in_the_way] or self._now.problems(), path),
            }
            return self._looks, told

    def mark(self, path: str) -> str:
        """What a page holds, with all that it is dressed in, in a word: the same as long as it looks the same."""
        with self._changed:
            page, dress = self._file(path) or b"", self._now.site.dress
            parts = [page, *(dress[it] for it in sorted({*leads_to(path, page)} & dress.keys()))]
            return sha256(b"".join(sha256(it).digest() for it in parts)).hexdigest()[:16]

    def _file(self, path: str) -> bytes | None:
        try:
            data = self._now.site.file(path)
        except Exception as fault:  # of ours; the page is as it was
            self._fault(fault)
            data = None
        if path.endswith(".html") and data is not None:
            self._kept.pop(path, None)
            self._kept[path] = data
            for oldest in [*self._kept][:-MOST_KEPT]:
                del self._kept[oldest]
        return self._kept.get(path) if data is None else data

    def _fault(self, fault: Exception) -> None:
        self._tell(fault)
        what = "a fault of Gristbook's own, not of the book: the terminal says more"
        self._in_the_way = tuple(dict.fromkeys((*self._in_the_way, Problem(Place("book.yaml"), what))))

    def _has(self, path: str) -> bool:
        """Whether the site as it is now has a page of that name."""
        return self._now.site.press.files.is_claimed(path)

    def _told(self, problems: Iterable[Problem], path: str) -> dict[str, Any]:
        """Problems for the page at a path: its own first, then errors; no more than one reads."""
        texts, own = {*self._now.shell.book.texts}, owners(path)

        def row(it: Problem) -> dict[str, Any]:
            page = own_page(it.text)
            return {
                "where": f"{it.place.path}:{it.place.line}",
                "severity": it.severity.value,
                "words": str(it).removeprefix(f"{it.place}: {it.severity.value}: "),
                "own": page in own and it.text in texts,
                "page": quote(f"/{page}") if it.text in texts and self._has(page) else "",
            }

        rows = sorted(map(row, problems), key=lambda it: (not it["own"], it["severity"] != "error"))
        return {"problems": rows[:MOST_SHOWN], "more": max(0, len(rows) - MOST_SHOWN)}
