"""The files of a site, collected."""

from __future__ import annotations

from gristbook.problems import Place, Problems
from gristbook.site.feeds import robots, sitemap


class Files:
    """Collects the files; a second producer of one is a problem, also where only a careless disk takes them for one."""

    def __init__(self, problems: Problems) -> None:
        self._problems = problems
        self._files: dict[str, bytes] = {}
        self._places: dict[str, tuple[str, Place]] = {}

    def claim(self, path: str, place: Place) -> bool:
        """Whether the text at ``place`` may bring a file: nothing else has claimed it, or one that looks like it."""
        first = self._places.setdefault(path.casefold(), (path, place))
        if first != (path, place):
            expected = f"another name: {first[1]} makes {first[0]}"
            self._problems.error(place, f'"{path}" is made twice', expected=expected)
        return first == (path, place)

    def is_claimed(self, path: str) -> bool:
        """Whether something brings a file, or one that looks like it."""
        return path.casefold() in self._places

    def put(self, path: str, data: bytes, place: Place) -> None:
        """A file that the text at ``place`` brings."""
        if self.claim(path, place):
            self._files[path] = data

    def put_once(self, path: str, data: bytes, place: Place) -> None:
        """A file that several pages may bring, as long as it is the same."""
        if self._files.get(path) != data:
            self.put(path, data, place)

    def sorted(self, address: str) -> dict[str, bytes]:
        """All files, with a list of the pages where the book has an address."""
        html = [path for path in self._files if path.endswith(".html")]
        if address:
            self.put("sitemap.xml", sitemap(address, html), Place("book.yaml"))
            self.put("robots.txt", robots(address), Place("book.yaml"))
        return {path: self._files[path] for path in sorted(self._files)}
