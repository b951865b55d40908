"""What a site is made of, without its pages: the author's texts written out, and who makes which file.

A check and a build both go through here, so that what one finds wrong the other finds, too.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import chain
from pathlib import Path

from markupsafe import Markup

from gristbook.model.batch import Batch
from gristbook.model.book import Book
from gristbook.problems import Place, Problems
from gristbook.site import pages as at
from gristbook.site.addresses import Anchors, slug
from gristbook.site.album import Album
from gristbook.site.beer.known import Known, Remembered
from gristbook.site.beer.sections import SECTIONS
from gristbook.site.book.chapters import parts
from gristbook.site.book.feed import dated
from gristbook.site.desk import Desk
from gristbook.site.disk.files import Files
from gristbook.site.learn.terms import Glossary
from gristbook.site.links import Links, lesson_source
from gristbook.site.themes import assets, templates

CONTENTS = lesson_source("contents").replace(".md", ".yaml")
"""Where an author lists the learning pages."""


class Texts(dict[str, Markup]):
    """Texts written out, by the path of their page; one that is as it was is written out when it is asked for."""

    def __init__(self) -> None:
        self.later: dict[str, Callable[[], Markup]] = {}

    def __missing__(self, path: str) -> Markup:
        """Write it out now."""
        self[path] = found = self.later[path]()
        return found


@dataclass(frozen=True, slots=True)
class Outline:
    """The author's texts written out, by the path of their page, and with what; whether the theme reads well."""

    texts: Texts
    desk: Desk
    theme_is_sound: bool

    def broken(self, path: str, line: int, why: str) -> None:
        """A page cannot be made by a template of the author's; nothing new where its fault was read there before."""
        if self.theme_is_sound:
            self.desk.problems.error(Place(path, line), why)


def outline(
    book: Book,
    beers: Sequence[Known],
    batches: Sequence[Batch],
    files: Files,
    problems: Problems,
    *,
    folder: Path | None = None,
    theme: Path | None = None,
    before: Desk | None = None,
) -> Outline:
    """All that can be wrong with a site besides its figures, found without drawing a chart or making a page.

    Parameters
    ----------
    beers : those that have pages
    files : every file of the site is claimed there by what brings it; pictures are put there
    folder, theme : where the book lies and its theme, for pictures and templates
    before : with what the same book was written out earlier
    """
    sound = True
    if theme is not None and theme.is_dir():
        read = [_put(name, file, files, problems) for name, file in assets(theme).items()]
        sound = (not templates(theme) or _sound(theme, problems)) and all(read)
    glossary = Glossary(book.learning.terms if book.learning else ())
    brewed = {batch.place.path: _batch(batch).page for batch in batches}
    links, album = Links(book, beers, glossary, brewed), Album(files.put_once, problems)
    kept = before.kept if before and before.glossary.terms == glossary.terms else {}
    desk = Desk(links, album, glossary, folder, problems, kept)
    written = _texts(book, beers, batches, desk)
    lessons = book.learning.lessons.values() if book.learning else ()
    ours = {at.lesson_path(it.slug): it.prose for it in lessons if not it.place}
    desk.tell_missing_parts(ours, {"top", *(_ids(theme) if theme and sound else ())})
    for path, place in chain(_of_beers(beers), _of_batches(batches), _of_book(book, beers, bool(batches))):
        files.claim(path, place)
    return Outline(written, desk, sound)


def _put(name: str, file: Path, files: Files, problems: Problems) -> bool:
    """Whether a file of the theme could be read; it is among the site's then."""
    try:
        files.put(name, file.read_bytes(), Place("theme"))
    except OSError as fault:
        problems.error(Place(f"theme/{name}"), f"this file cannot be read: {fault.strerror}")
        return False
    return True


def _ids(theme: Path) -> Iterator[str]:
    """What an author's templates, which could be read, call parts of a page."""
    for file in templates(theme).values():
        yield from re.findall(r"""\bid=["']?([^"'\s>]+)""", file.read_text("utf-8"))


def _sound(theme: Path, problems: Problems) -> bool:
    from gristbook.site.templates import is_sound  # a book without templates does not wait for it

    return is_sound(theme, problems)


def _texts(book: Book, beers: Sequence[Known], batches: Sequence[Batch], desk: Desk) -> Texts:
    """Every text of the author's by the path of its page; of what is lost in it, the desk's problems are told."""
    found = Texts()
    for page in book.pages:
        path = at.page_path(page.slug)
        found[path] = desk.prose(page.prose, path, Place(f"pages/{page.slug}.md", page.prose_line), Anchors("main"))
    for beer in beers:
        path = at.of_recipe(beer.slug).page
        write = partial(_of_a_beer, beer, path, desk)
        if isinstance(beer.of, Remembered) and desk.again(beer.of.written, path, beer.prose_begins):
            found.later[path] = write
        else:
            found[path] = write()
    for batch in batches:
        path = _batch(batch).page
        found[path] = desk.batch(batch, path)
    for lesson in book.learning.lessons.values() if book.learning else ():
        path = at.lesson_path(lesson.slug)
        if lesson.place:
            found[path] = desk.lesson(lesson, path)
    return found


def _of_a_beer(beer: Known, path: str, desk: Desk) -> Markup:
    return desk.prose(beer.plan.recipe.prose, path, beer.prose_begins, Anchors(*SECTIONS))


def _of_beers(beers: Sequence[Known]) -> Iterator[tuple[str, Place]]:
    for beer in beers:
        own, place = at.of_recipe(beer.slug), beer.place
        for brew in (own, *(at.of_edition(beer.slug, edition) for edition in beer.editions)):
            for path in brew.paths():
                yield path, place
        yield own.working, place
        yield at.colour_path(beer.slug), place


def _of_batches(batches: Sequence[Batch]) -> Iterator[tuple[str, Place]]:
    for batch in batches:
        own = _batch(batch)
        for path in (own.page, own.working, own.data, own.calendar):
            yield path, batch.place


def _of_book(book: Book, beers: Sequence[Known], brewed: bool) -> Iterator[tuple[str, Place]]:
    for page in book.pages:
        yield at.page_path(page.slug), Place(f"pages/{page.slug}.md")
    learning = book.learning
    for lesson in learning.lessons.values() if learning else ():
        yield at.lesson_path(lesson.slug), lesson.place or Place(f"learning/{lesson.slug}.md")
    if learning and learning.groups:
        yield at.LEARNING, Place(CONTENTS)
    if learning and learning.terms:
        yield at.GLOSSARY, Place(CONTENTS)
    chapters = parts(book, {beer.slug for beer in beers})
    houses = at.houses_of(book, brewed=brewed).values()
    brews = (*((at.BREWHOUSES,) if houses else ()), *houses, *((at.BREWS, at.BREWS_CALENDAR) if brewed else ()))
    news = (at.FEED,) if book.address and dated(beers) else ()
    pages = (at.chapter_path(part.anchor) for part in chapters)
    found = (at.POTS, at.TABLE, at.BALANCE) if beers else ()
    for path in (at.INDEX, *found, *pages, at.CAUTIONS, at.SOURCES, *brews, *news):
        yield path, Place("book.yaml")


def _batch(batch: Batch) -> at.BatchAddress:
    return at.of_batch(batch.recipe, slug(batch.slug))
