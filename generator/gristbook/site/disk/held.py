"""What was made well before stays until it is made well again, and says on its pages that it is as it was.

A recipe, a page, a batch or a learning page with an error has no page this time, and so has a recipe whose brewhouse
has one. What an earlier run made of it is held, with the pictures and the pages that it leads to. Only an error of
safety takes it down.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from html import unescape
from pathlib import PurePosixPath
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from gristbook.model.book import Book
from gristbook.model.paths import BOOK_FOLDERS, TAKEN
from gristbook.problems import Problems
from gristbook.reading.names import DATED, alike, one_form
from gristbook.site import pages as at

MARK = (
    b'<p class="caution" role="note"><strong>As it was.</strong> There is an error in what this page is made from. '
    b"Until that is mended, it stands here as it was last made.</p>"
)
_OPENS = (re.compile(rb"<main\b[^>]*>"), re.compile(rb"<body\b[^>]*>"))
_LEADS_TO = re.compile(rb'(?:href|src)="([^"#]+)')


@dataclass(frozen=True, slots=True)
class Held:
    """Files of an earlier run that stay, by path, and the texts of the book that wait to be mended."""

    files: Mapping[str, bytes]
    texts: tuple[str, ...]


def own_page(text: str) -> str:
    """The page that is made from a text of the book, by its path there."""
    parts = tuple(map(one_form, PurePosixPath(text).with_suffix("").parts))
    match parts:
        case ("theme", "learning", name):
            return at.lesson_path(name)
        case ("pages", name):
            return at.page_path(name)
        case (*_, recipe, day) if DATED.fullmatch(day):
            return at.of_batch(recipe, day).page
        case _:
            return at.of_recipe(parts[-1]).page


def _is_recipe(text: str) -> bool:
    path = PurePosixPath(text)
    return path.parts[0] not in BOOK_FOLDERS and not DATED.fullmatch(path.stem)


def remade(book: Book, made: Mapping[str, bytes], problems: Problems) -> dict[str, bytes]:
    """What was made from sound texts: not ours in the place of a learning page of the author's that has an error."""
    amiss = {own_page(it.place.path) for it in problems.errors() if it.place.path.startswith("theme/learning/")}
    lessons = book.learning.lessons.values() if book.learning else ()
    ours = {at.lesson_path(lesson.slug) for lesson in lessons if lesson.place is None} & amiss
    return {path: data for path, data in made.items() if path not in ours}


def held(book: Book, made: Collection[str], problems: Problems, earlier: Mapping[str, bytes]) -> Held:
    """What stays of ``earlier``, the files that a run before wrote and this one did not make."""
    unsafe = {it.text for it in problems.errors() if it.safety}
    amiss = {it.text for it in problems.errors()} - unsafe
    waiting = {
        text: own_page(text)
        for text in book.texts
        if own_page(text) not in made and text not in unsafe and (text in amiss or (book.broken and _is_recipe(text)))
    }
    pages, names = set(waiting.values()), {alike(path) for path in made}
    broken = _of_broken(book, {*made, *pages})
    stay = {path for path in earlier if owners(path) & pages or broken(path)}
    wanted = {there for path in stay for there in leads_to(path, earlier[path])}
    stay |= {path for path in wanted & earlier.keys() if _shared(path, unsafe=bool(unsafe))}
    stay = {path for path in stay if alike(path) not in names}
    texts = tuple(text for text, page in waiting.items() if page in stay)
    return Held({path: _marked(earlier[path]) if path.endswith(".html") else earlier[path] for path in stay}, texts)


def owners(path: str) -> set[str]:
    """The page that a file belongs to: its own, its batch's, its recipe's."""
    folder, _, name = path.partition("/")
    if name.startswith("brew-"):
        stem = re.sub(r"(-working)?\.[a-z]+$", "", name.removeprefix("brew-"))
        return {at.of_batch(folder, stem).page}
    return {path, at.of_recipe(folder).page} if name and folder not in TAKEN else {path}


def _of_broken(book: Book, there: Collection[str]) -> Callable[[str], bool]:
    """What tells the files of brewhouses that could not be read: what they taught, editions of beers that are there."""
    asked = (*book.editions, *(it for recipe in book.recipes for it in recipe.editions))
    gone = {it.slug for it in asked if it.brewhouse in book.broken}

    def broken(path: str) -> bool:
        folder, _, name = path.partition("/")
        if at.of_recipe(folder).page in there:
            return any(path in at.of_edition(folder, slug).paths() for slug in gone)
        return bool(book.broken and name) and f"{folder}.html" == at.BREWHOUSES

    return broken


def leads_to(path: str, data: bytes) -> Iterator[str]:
    """The files of the site that a page shows or links to."""
    for found in _LEADS_TO.findall(data) if path.endswith(".html") else ():
        yield normpath(join(dirname(path), unquote(unescape(found.decode()))))


def _shared(path: str, *, unsafe: bool) -> bool:
    """Whether it is nobody's own: a picture, or a page of the site, unless that may show what is dangerous."""
    return not path.endswith(".html") or (not unsafe and path.partition("/")[0] in TAKEN)


def _marked(page: bytes) -> bytes:
    """A page that says that it is as it was, once."""
    if MARK in page:
        return page
    found = next(filter(None, (opens.search(page) for opens in _OPENS)), None)
    end = found.end() if found else len(page)
    return page[:end] + MARK + page[end:]
