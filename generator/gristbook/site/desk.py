"""What prose is written out with on every page of a book."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from markupsafe import Markup

from gristbook.model.batch import Batch
from gristbook.model.learning import Lesson
from gristbook.problems import Place, Problems, nearest
from gristbook.site.addresses import Anchors, slug
from gristbook.site.album import Album
from gristbook.site.brew.batches import BATCH_SECTIONS
from gristbook.site.learn.drawings import drawing
from gristbook.site.learn.terms import Glossary, Uses
from gristbook.site.links import Links, lesson_source
from gristbook.site.prose import Mend, Show, headings, prose, spots


@dataclass(frozen=True, slots=True)
class Written:
    """A text as it was written out, and all that was asked for on the way, each with its answer."""

    text: str
    links: tuple[tuple[str, str | None], ...]
    pictures: tuple[tuple[str, str, Mapping[str, str | int] | str | None], ...]
    lost: tuple[str, ...]
    terms: frozenset[str]
    anchors: tuple[str, ...]
    markup: Markup | None

    def bare(self) -> Written:
        """The same without what became of the text."""
        pictures = tuple((at, words, str(it) if isinstance(it, str) else it) for at, words, it in self.pictures)
        return replace(self, pictures=pictures, markup=None)

    def asked(self) -> tuple[object, ...]:
        """All that was asked for, with the answers."""
        return self.links, self.pictures

    def anew(self, mend: Mend, show: Show) -> Written:
        """The same questions with today's answers; each picture is laid among the files again."""
        links = tuple((link, mend(link)) for link, _ in self.links)
        pictures = tuple((address, words, show(address, words)) for address, words, _ in self.pictures)
        return replace(self, links=links, pictures=pictures)


@dataclass(frozen=True, slots=True)
class Desk:
    """Where links lead, the pictures, the glossary, and who is told of what is lost.

    ``kept`` has the texts of each page as an earlier desk with the same glossary wrote them: one is taken over where
    whatever was asked for has the same answer. ``texts`` are those of this book, each with where it begins.
    """

    links: Links
    album: Album
    glossary: Glossary
    folder: Path | None
    problems: Problems
    kept: dict[str, Written] = field(default_factory=dict)
    texts: dict[str, Place] = field(default_factory=dict)

    def prose(self, text: str, path: str, place: Place, anchors: Anchors) -> Markup:
        """An author's Markdown, which begins at ``place`` of its file, on the page ``path``."""
        mend, show = self._asked_of(text, path, place)
        terms, was = self.glossary.on(path), self.kept.get(path)
        if (
            was is None
            or was.markup is None
            or was.text != text
            or terms.seen
            or was.anew(mend, show).asked() != was.asked()
        ):
            was = self.kept[path] = _written(text, anchors, mend, show, terms)
        self._told(was, path, place)
        terms.seen.update(was.terms)
        assert was.markup is not None, "its text was written out"
        return was.markup

    def again(self, was: Written, path: str, place: Place) -> bool:
        """Whether a text as it was written out is what it would be today; it is taken for that then."""
        mend, show = self._asked_of(was.text, path, place)
        if was.anew(mend, show).asked() != was.asked():
            return False
        self.kept[path] = was
        self._told(was, path, place)
        return True

    def _asked_of(self, text: str, path: str, place: Place) -> tuple[Mend, Show]:
        """What answers for the links and the pictures of a text."""

        def at(address: str) -> Place:
            return _places(text, place, address)[0]

        found, mend = self.album.of_page(path, place.path, self.folder, at), self.links.for_page(path, place.path)
        return mend, lambda address, words: drawing(address) or found(address, words)

    def _told(self, was: Written, path: str, place: Place) -> None:
        """Know a text for one of this book's, and tell of what is lost in it."""
        self.texts[path] = place
        for address in was.lost:
            for it in _places(was.text, place, address):
                self.problems.warning(it, "a link that leads nowhere", within=address, expected="a file of this book")

    def batch(self, batch: Batch, path: str) -> Markup:
        """What a batch tells, with its own pictures, on its page ``path``."""
        return self.prose(batch.prose, path, Place(batch.place.path, batch.prose_line), Anchors(*BATCH_SECTIONS))

    def lesson(self, lesson: Lesson, path: str) -> Markup:
        """A learning page's Markdown; of one of ours, a link to what its author has left out becomes bare words."""
        anchors, source = Anchors("main"), lesson_source(lesson.slug)

        def show(address: str, words: str) -> Markup | None:
            return drawing(address)

        if lesson.place:
            return self.prose(lesson.prose, path, Place(source, lesson.prose_line), anchors)
        mend, terms = self.links.for_page(path, source), self.glossary.on(path)
        return prose(lesson.prose, under=1, anchors=anchors, mend=mend, lost=lambda _: None, show=show, terms=terms)

    def tell_missing_parts(self, ours: Mapping[str, str], free: Collection[str]) -> None:
        """Warn of each link to a part that its page does not have, once every text is written out.

        ``ours`` are texts that are not the author's, by the path of their page; ``free`` parts may be on any page.
        """
        for path, place in self.texts.items():
            it = self.kept[path]
            for address, there in it.links:
                page, _, part = (there or "").partition("#")
                to = normpath(join(dirname(path), unquote(page))) if page else path
                if not part or part in free or not (to in self.texts or to in ours):
                    continue
                known = self.kept[to].anchors if to in self.texts else _parts(ours[to])
                if part not in known:
                    what, near = "a link to a part that its page does not have", nearest(slug(unquote(part)), known)
                    expected = "" if near else f"one of {', '.join(known)}"
                    for at in _places(it.text, place, address):
                        self.problems.warning(at, what, within=address, suggestion=near, expected=expected)


@lru_cache(maxsize=256)
def _parts(text: str) -> tuple[str, ...]:
    """The anchors of a learning page."""
    return "main", *(anchor for anchor, _ in headings(text, Anchors("main")))


def _places(text: str, begins: Place, address: str) -> list[Place]:
    """Where a text that begins at a place of its file names an address."""
    return [Place(begins.path, begins.line + line - 1, column) for line, column in spots(text, address)]


def _written(text: str, anchors: Anchors, mend: Mend, show: Show, terms: Uses) -> Written:
    """A text written out, with what it asked for."""
    links, pictures, lost = dict[str, str | None](), [], list[str]()

    def mended(address: str) -> str | None:
        return links.setdefault(address, mend(address))

    def shown(address: str, words: str) -> Mapping[str, str | int] | Markup | None:
        pictures.append((address, words, it := show(address, words)))
        return it

    markup = prose(text, under=1, anchors=anchors, mend=mended, lost=lost.append, show=shown, terms=terms)
    asked = tuple(links.items()), tuple(pictures), tuple(lost)
    return Written(text, *asked, frozenset(terms.seen), tuple(anchors.taken), markup)
