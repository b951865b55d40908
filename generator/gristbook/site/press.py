"""What the files of a site are made with, and the making of them, a piece at a time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from gristbook.charts.caches import FrameCache
from gristbook.model.book import Book
from gristbook.problems import Place, Problems
from gristbook.site import pages as at
from gristbook.site.beer.known import Ear, Known, Remembered, Worked, edition_words
from gristbook.site.book.chapters import parts
from gristbook.site.book.feed import dated
from gristbook.site.book.listings import keys_in, listings
from gristbook.site.book.narrowing import KEYS
from gristbook.site.brew.batches import journal
from gristbook.site.disk.files import Files
from gristbook.site.learn.examples import examples
from gristbook.site.outline import outline
from gristbook.site.pages import Page
from gristbook.site.pieces import BREWED, Piece, beer_piece, pieces
from gristbook.site.printing import Printing
from gristbook.site.prose import plain
from gristbook.site.render import Broken, Renderer
from gristbook.site.shelf.larder import names_of, paths, stocked
from gristbook.site.shelf.style_page import styles_of
from gristbook.site.themes import EXTRA
from gristbook.targets.batches.learn import NO_LESSONS, Lessons
from gristbook.targets.batches.results import BatchFigures
from gristbook.targets.figures import Plan


class Press:
    """Makes pages, each once it is asked for.

    Parameters
    ----------
    plans : the recipes that can be brewed, worked out or remembered; others have no page
    problems : told of links that lead nowhere, of two producers of one file, and of broken templates
    cache : keeps the frames of charts
    folder : where the book lies, for its pictures
    theme : the book's own templates and styles, if it has any
    batches, lessons : the book's batches worked out, and what they have taught
    paper : the path of the book as a PDF, "" where there will be none
    before : what printed this book earlier, of which all is taken over that cannot have changed: beers whose plans, and
        brews whose lessons, are the very same objects
    """

    def __init__(
        self,
        book: Book,
        plans: Sequence[Plan | Worked | Remembered],
        problems: Problems,
        cache: FrameCache,
        *,
        folder: Path | None = None,
        theme: Path | None = None,
        batches: Sequence[BatchFigures] = (),
        lessons: Lessons = NO_LESSONS,
        paper: str = "",
        before: Press | None = None,
    ) -> None:
        taught_alike = before is not None and before.lessons is lessons
        brews = before.printing.journal if before and taught_alike else journal(book, batches, lessons)
        kept, learned = {id(it.of): it for it in before.beers} if before else {}, brews.elsewhere()
        self.ear: Ear = before.ear if before else Ear()
        self.beers: tuple[Known, ...] = tuple(kept.get(id(it)) or Known(it, book, learned, self.ear) for it in plans)
        every = {it.slug: it for it in self.beers}
        chapters = parts(book, every)
        beers = {slug: every[slug] for part in chapters for slug in part.slugs}
        ordered = [*beers.values()]
        stock, styles = stocked(book, ordered), styles_of(ordered)
        self.files, earlier = Files(problems), before.printing.written.desk if before else None
        whole = book, self.beers, [it.batch for it in batches], self.files, problems
        written = outline(*whole, folder=folder, theme=theme, before=earlier)
        seen_in, names = examples(book.learning, ordered), names_of(stock)
        self.printing: Printing = Printing(book, beers, chapters, brews, stock, styles, names, written, cache, seen_in)
        self.lessons: Lessons = lessons
        lists = listings(ordered, stock)
        site = at.site_of(
            book,
            {page.slug: plain(page.title) for page in book.pages},
            things=paths(stock),
            styles={style.name: path for path, style in styles.items()},
            brewed=bool(brews.batches),
        )
        self.news = dated(ordered) if site.address else ()
        self.site = replace(
            site,
            paper=paper,
            extra=EXTRA if theme and (theme / EXTRA).is_file() else "",
            feed=at.FEED if self.news else "",
            kettles=max((1 + len(beer.ask(edition_words)) for beer in ordered), default=0),
            narrowing=(*KEYS, *keys_in(lists)),
        )
        self.pieces: Mapping[str, Piece] = pieces(self.printing, lists, site.address)
        same = before.renderer if before else None
        self.renderer: Renderer = Renderer(self.site, theme, same, sound=written.theme_is_sound)

    def dress(self) -> None:
        """What pages are dressed in."""
        try:
            for path, data in self.renderer.assets().items():
                self.files.put(path, data, Place("theme"))
        except Broken as fault:
            self.printing.written.broken(fault.path, fault.line, fault.why)

    def order(self, beers: Iterable[str]) -> Iterator[str]:
        """The names of all pieces in the order of the book, with those of some beers."""
        for name in self.pieces:
            yield from beers if name == BREWED else ()
            yield name

    def piece(self, name: str) -> Piece:
        """A piece of the site: of the book, or a beer's by its address."""
        return self.pieces.get(name) or beer_piece(self.printing, name)

    def make(self, piece: Piece) -> Iterator[Page | None]:
        """Make the files of a piece; gives every page, once it is among the files, and `None` for one that fails."""
        for path, data, place in piece.data():
            self.files.put(path, data, place)
        return self.pages(piece)

    def pages(self, piece: Piece) -> Iterator[Page | None]:
        """Make the pages of a piece, and give them as `make` does."""
        titles: dict[str, str] = {}
        book = plain(self.printing.book.title)
        for page in piece.pages():
            page = replace(page, trail=at.trail(page.path, lambda it: titles.get(it) or self.printing.titled(it)))
            titles[page.path] = page.title.removesuffix(f" – {book}")
            try:
                self.files.put(page.path, self.renderer.page(page), page.place, listed=page.listed)
            except Broken as fault:
                self.printing.written.broken(fault.path, fault.line, fault.why)
                yield None
            else:
                yield page
