"""The files of a site, collected."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from gristbook.model.paths import ROBOTS, SITEMAP
from gristbook.problems import Place, Problems
from gristbook.reading.names import alike, shown, unfit
from gristbook.site.book.feeds import robots, sitemap


@dataclass(frozen=True, slots=True)
class Put:
    """A file of the site, the text that brings it, and whether it is a page to be found."""

    path: str
    data: bytes
    place: Place
    listed: bool


class Files:
    """Collects the files; a second producer of one is a problem, also where only a careless disk takes them for one."""

    def __init__(self, problems: Problems) -> None:
        self._problems = problems
        self._files: dict[str, bytes] = {}
        self._places: dict[str, tuple[str, Place]] = {}
        self._folders: set[str] = set()
        self._unlisted: set[str] = set()
        self._standing: set[str] = set()

    def claim(self, path: str, place: Place) -> bool:
        """Whether the text at ``place`` may bring a file: nothing has claimed it yet, or one that looks like it."""
        folded, folders = alike(path), _folders(alike(path))
        first = self._places.get(folded)
        why = next(filter(None, map(unfit, path.split("/"))), "")
        if why:
            self._problems.error(place, f'no file of the site can be called "{shown(path)}": {why}')
        elif first is not None:
            expected = f"another name: {first[1]} makes {first[0]}"
            self._problems.error(place, f'"{path}" is made twice', expected=expected)
        elif folded in self._folders or self._places.keys() & folders:
            self._problems.error(place, f'"{path}" would be a file and a folder', expected="another name")
        else:
            self._places[folded] = path, place
            self._folders |= folders
            return True
        return False

    def is_claimed(self, path: str) -> bool:
        """Whether something brings a file, or one that looks like it."""
        return alike(path) in self._places

    def put(self, path: str, data: bytes, place: Place, *, listed: bool = True) -> None:
        """A file that the text at ``place`` brings, and may have claimed; ``listed``, if it is a page to be found."""
        if self._claimed(path, place):
            self._files[path] = data
            self._unlisted |= set() if listed else {path}

    def _claimed(self, path: str, place: Place) -> bool:
        return self._places.get(alike(path)) == (path, place) or self.claim(path, place)

    def put_once(self, path: str, data: bytes, place: Place) -> None:
        """A file that several pages may bring, as long as it is the same."""
        if self._files.get(path) != data:
            self.put(path, data, place)

    def stand(self, path: str, place: Place, *, listed: bool) -> None:
        """A file that is as it was in the folder of the site, and was brought by the text at ``place``."""
        self._claimed(path, place)
        self._unlisted |= set() if listed else {path}
        self._standing.add(path)

    @property
    def standing(self) -> frozenset[str]:
        """The files that are as they were."""
        return frozenset(self._standing)

    def get(self, path: str) -> bytes | None:
        """A file that has been put already."""
        return self._files.get(path)

    def made(self, first: int = 0) -> Iterator[Put]:
        """What has been put so far, from the ``first`` on that many others came before."""
        for path, data in islice(self._files.items(), first, None):
            yield Put(path, data, self._places[alike(path)][1], path not in self._unlisted)

    def __len__(self) -> int:
        return len(self._files)

    def sorted(self, address: str) -> dict[str, bytes]:
        """All files, with a list of the pages where the book has an address."""
        html = [it for it in (self._files.keys() | self._standing) - self._unlisted if it.endswith(".html")]
        if address:
            self.put(SITEMAP, sitemap(address, html), Place("book.yaml"))
            self.put(ROBOTS, robots(address), Place("book.yaml"))
        return {path: self._files[path] for path in sorted(self._files)}


def _folders(path: str) -> set[str]:
    """The folders that a file lies in."""
    parts = path.split("/")
    return {"/".join(parts[:many]) for many in range(1, len(parts))}
