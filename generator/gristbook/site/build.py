"""The whole site of a book in memory: every file by its path, and nothing written."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from gristbook.charts.caches import FrameCache
from gristbook.model.book import Book
from gristbook.problems import Place, Problems
from gristbook.site import pages as at
from gristbook.site.beer.brews import Beer
from gristbook.site.book.feed import feed
from gristbook.site.book.paper import paper_book
from gristbook.site.pages import Page
from gristbook.site.press import Press
from gristbook.site.render import Broken
from gristbook.targets.figures import Plan


@dataclass(frozen=True, slots=True)
class Share:
    """Which beers of a book one process makes the files of: each ``of``-th, from ``first`` on, in reading order."""

    first: int = 0
    of: int = 1

    def among(self, beers: Mapping[str, Beer]) -> Mapping[str, Beer]:
        """Its beers, by their address."""
        return {slug: beers[slug] for slug in [*beers][self.first :: self.of]}


Hand: TypeAlias = Callable[[], Mapping[str, bytes] | None]
"""Waits for what another process makes of its share, and gives its files; `None` where it could not make them all."""


def make_site(
    book: Book,
    plans: Sequence[Plan],
    problems: Problems,
    cache: FrameCache,
    *,
    pdf: Callable[[bytes], bytes] | None = None,
    hands: Sequence[Hand] = (),
    **more: Any,
) -> Mapping[str, bytes]:
    """Every file of the site by its path, sorted.

    Parameters
    ----------
    book, plans, problems, cache, more : as `Press` takes them
    pdf : makes a PDF of the book on paper, which is one of the files then; it takes pages that are made here
    hands : other processes, each at work on its share of the beers; the first share is made here
    """
    press = Press(book, plans, problems, cache, paper=at.PDF if pdf else "", **more)
    own, *others = (Share(n, len(hands) + 1) for n in range(len(hands) + 1))
    press.dress()
    made = [page for page in press.whole(own.among(press.printing.beers)) if pdf or page is None]
    for share, hand in zip(others, hands, strict=True):
        found = hand()
        if found is None:  # what is amiss in it is found here
            made += [page for page in press.of_beers(share.among(press.printing.beers)) if page is None]
        else:
            press.files.put_claimed(found)
    if pdf and None not in made:
        _bind(pdf, [page for page in made if page], press)
    if press.news:
        press.files.put(at.FEED, feed(book, press.site.address, press.news), Place("book.yaml"))
    return press.files.sorted(press.site.address)


def make_share(
    share: Share, book: Book, plans: Sequence[Plan], cache: FrameCache, **more: Any
) -> Mapping[str, bytes] | None:
    """The files of some of a book's beers, as `make_site` makes all of them; `None` where one cannot be made."""
    press = Press(book, plans, Problems(), cache, **more)
    pages = [*press.of_beers(share.among(press.printing.beers))]
    return press.files.made() if None not in pages else None


def _bind(pdf: Callable[[bytes], bytes], pages: Sequence[Page], press: Press) -> None:
    """The whole book as one more file."""
    try:
        made = paper_book(pages, press.printing, press.files.sorted(""), press.renderer.page)
    except Broken as fault:
        press.printing.written.broken(fault.path, fault.line, fault.why)
    else:
        press.files.put(at.PDF, pdf(made), Place("book.yaml"))
