"""Where things stand in the site: names for files and anchors, and the way from one page to another."""

from __future__ import annotations

from functools import lru_cache
from posixpath import dirname, relpath
from urllib.parse import quote

from gristbook.reading.names import short
from gristbook.sheet.ids import id_of


@lru_cache(maxsize=16384)  # the kettles of a beer, and the beers of a book, have figures of the same names
def slug(words: str) -> str:
    """Words as a name for a file or an anchor.

    >>> slug("boil volume, hot"), slug("Kölsch-like ale & co.")
    ('boil-volume-hot', 'kolsch-like-ale-co')
    """
    return short(id_of(words) or "part")


class Anchors:
    """Names on one page, no two alike: the second gets a 2 at its end; ``taken`` are all in their order."""

    def __init__(self, *taken: str) -> None:
        self.taken = dict.fromkeys(taken)

    def take(self, words: str) -> str:
        """A name made from words, that nothing else on the page has."""
        wanted = name = slug(words)
        count = 1
        while name in self.taken:
            count += 1
            name = f"{wanted}-{count}"
        self.taken[name] = None
        return name


def way(here: str, there: str) -> str:
    """The relative link from one file of the site to another; ``there`` may have a fragment.

    >>> way("best/card.html", "index.html"), way("best.html", "best/working.html#colour")
    ('../index.html', 'best/working.html#colour')
    """
    path, mark, fragment = there.partition("#")
    if path in ("", here):
        return f"#{fragment}"
    return _between(here, path) + mark + fragment


@lru_cache(maxsize=4096)  # a page has hundreds of figures, whose workings stand on few others
def _between(here: str, there: str) -> str:
    return quote(relpath(there, dirname(here) or "."))
