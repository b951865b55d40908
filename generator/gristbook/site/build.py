"""The whole site of a book in memory: every file by its path, and nothing written."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Protocol, TypeAlias

from gristbook.charts.caches import FrameCache
from gristbook.model.book import Book
from gristbook.problems import Place, Problems
from gristbook.site import pages as at
from gristbook.site.beer.known import Question, Remembered, Worked
from gristbook.site.book.feed import feed
from gristbook.site.book.paper import paper_book
from gristbook.site.disk.files import Put
from gristbook.site.disk.keeping import kept, taken_up
from gristbook.site.pages import Page
from gristbook.site.past import Made, Past, Since
from gristbook.site.pieces import Piece, let_go_of
from gristbook.site.press import Press
from gristbook.site.prose import plain
from gristbook.site.render import Broken
from gristbook.targets.figures import Plan

Heard: TypeAlias = dict[Question, dict[str, None]]
"""What was asked, and of which beers."""

Lent: TypeAlias = tuple[Heard, Sequence[Put], bytes]
"""A piece that another process has made: what was asked for it, its files, and what its beer has answered, as kept."""


class Hand(Protocol):
    """Another process at work on some ``beers``; called, it gives their pieces, or `None` where it cannot make all."""

    @property
    def beers(self) -> Collection[str]:
        """Which ones."""

    def __call__(self) -> Mapping[str, Lent] | None:
        """Wait for it."""


OnMade: TypeAlias = Callable[[str, int, int], object]
"""Told which piece is next, how many are made, and of how many."""


@dataclass(frozen=True, slots=True)
class Whole:
    """A site: the files that were made, by their paths and sorted, and those that stand as they are in its folder.

    ``pieces`` says of every piece what it was made from, `None` of one that could not be made; ``press`` made them, on
    the ``ground`` of them all.
    """

    files: Mapping[str, bytes]
    standing: frozenset[str]
    pieces: Mapping[str, Made | None]
    press: Press
    ground: str


def make_site(
    book: Book,
    plans: Sequence[Plan | Worked | Remembered],
    problems: Problems,
    cache: FrameCache,
    *,
    pdf: Callable[[bytes], bytes] | None = None,
    hands: Sequence[Hand] = (),
    since: Callable[[Press], Since] | None = None,
    on_made: OnMade = lambda *_: None,
    **more: Any,
) -> Whole:
    """Every file of the site.

    Parameters
    ----------
    book, plans, problems, cache, more : as `Press` takes them
    pdf : makes a PDF of the book on paper, which is one of the files then; it takes pages that are made here
    hands : other processes, each at work on its share of the beers
    since : what an earlier build came to, of which stands what would be the same
    on_made : told before each piece is made
    """
    press = Press(book, plans, problems, cache, paper=at.PDF if pdf else "", **more)
    press.dress()
    before = since(press) if since else Since(Past(), press, "", None, {})
    pieces, pages, lent = dict[str, Made | None](), list[Page | None](), _Lent(hands)
    order = [*press.order(sorted(press.printing.beers, key=lent.has))]
    for done, name in enumerate(order):
        on_made(plain(press.printing.beers[name].title) if name in press.printing.beers else name, done, len(order))
        piece = press.piece(name)
        if stands := before.stands(name, piece):
            for path, (place, listed) in stands.files.items():
                press.files.stand(path, place, listed=listed)
            pieces[name] = stands
            continue
        first = len(press.files)
        found = lent.get(name) if lent.has(name) else None
        heard, there = _lay(name, found, press) if found else _make(name, piece, press)
        files = {it.path: (it.place, it.listed) for it in press.files.made(first)}
        pieces[name] = None if None in there else before.made(piece, heard, files)
        pages += [page for page in there if pdf or page is None]
    if pdf and None not in pages:
        _bind(pdf, [page for page in pages if page], press)
    if press.news:
        press.files.put(at.FEED, feed(book, press.site.address, press.news), Place("book.yaml"))
    return Whole(press.files.sorted(press.site.address), press.files.standing, pieces, press, before.ground)


class _Lent:
    """What other processes make, for which they are waited for when it is first asked for."""

    def __init__(self, hands: Sequence[Hand]) -> None:
        self._hands, self._beers = hands, {slug for hand in hands for slug in hand.beers}

    def has(self, name: str) -> bool:
        """Whether one of them was asked for it."""
        return name in self._beers

    def get(self, name: str) -> Lent | None:
        """A piece, unless it could not be made there."""
        return self._made.get(name)

    @cached_property
    def _made(self) -> Mapping[str, Lent]:
        return {name: lent for hand in self._hands for name, lent in (hand() or {}).items()}


def _make(name: str, piece: Piece, press: Press) -> tuple[Heard, list[Page | None]]:
    """Make a piece here; gives what was asked for it, and its pages as `Press.make` does."""
    heard: Heard = {}
    with press.ear.listening(heard):
        pages = [*press.make(piece)]
    if name in press.printing.beers:
        let_go_of(press.printing, name)
    return heard, pages


def _lay(name: str, lent: Lent, press: Press) -> tuple[Heard, list[Page | None]]:
    """Lay what another process made of a piece among the files."""
    heard, files, answers = lent
    press.printing.beers[name].answers |= taken_up(answers)
    for it in files:
        press.files.put(it.path, it.data, it.place, listed=it.listed)
    return heard, []


def make_share(
    beers: Iterable[str], book: Book, plans: Sequence[Plan | Worked | Remembered], cache: FrameCache, **more: Any
) -> Mapping[str, Lent] | None:
    """The pieces of some of a book's beers, as `make_site` makes all of them; `None` where one cannot be made."""
    press, made = Press(book, plans, Problems(), cache, **more), dict[str, Lent]()
    for name in (slug for slug in beers if slug in press.printing.beers):
        first = len(press.files)
        heard, pages = _make(name, press.piece(name), press)
        if None in pages:
            return None
        made[name] = heard, [*press.files.made(first)], kept(press.printing.beers[name].answers)
    return made


def _bind(pdf: Callable[[bytes], bytes], pages: Sequence[Page], press: Press) -> None:
    """The whole book as one more file."""
    try:
        made = paper_book(pages, press.printing, press.files.sorted(""), press.renderer.page)
    except Broken as fault:
        press.printing.written.broken(fault.path, fault.line, fault.why)
    else:
        press.files.put(at.PDF, pdf(made), Place("book.yaml"))
