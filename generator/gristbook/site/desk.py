"""What prose is written out with on every page of a book."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from markupsafe import Markup

from gristbook.model.batch import Batch
from gristbook.model.learning import Lesson
from gristbook.problems import Place, Problems
from gristbook.site.addresses import Anchors
from gristbook.site.album import Album
from gristbook.site.brew.batches import BATCH_SECTIONS
from gristbook.site.learn.drawings import drawing
from gristbook.site.learn.terms import Glossary, Uses
from gristbook.site.links import Links, lesson_source
from gristbook.site.prose import Mend, Show, prose


@dataclass(frozen=True, slots=True)
class Written:
    """A text as it was written out, and all that was asked for on the way, each with its answer."""

    text: str
    links: tuple[tuple[str, str | None], ...]
    pictures: tuple[tuple[str, str, Mapping[str, str | int] | Markup | None], ...]
    lost: tuple[str, ...]
    terms: frozenset[str]
    markup: Markup

    def stands(self, mend: Mend, show: Show) -> bool:
        """Whether all that was asked for has the answer that it had; each picture is laid among the files again."""
        shown = [show(address, words) == it for address, words, it in self.pictures]
        return all(shown) and all(mend(link) == there for link, there in self.links)


@dataclass(frozen=True, slots=True)
class Desk:
    """Where links lead, the pictures, the glossary, and who is told of what is lost.

    ``kept`` has the texts of each page as an earlier desk with the same glossary wrote them: one is taken over where
    whatever was asked for has the same answer.
    """

    links: Links
    album: Album
    glossary: Glossary
    folder: Path | None
    problems: Problems
    kept: dict[str, Written] = field(default_factory=dict)

    def prose(self, text: str, path: str, place: Place, anchors: Anchors) -> Markup:
        """An author's Markdown, written in the file of ``place``, on the page ``path``."""

        def lost(address: str) -> None:
            self.problems.warning(place, "a link that leads nowhere", within=address, expected="a file of this book")

        found, mend = self.album.of_page(path, place.path, self.folder, place), self.links.for_page(path, place.path)

        def show(address: str, words: str) -> Mapping[str, str | int] | Markup | None:
            return drawing(address) or found(address, words)

        terms, was = self.glossary.on(path), self.kept.get(path)
        if was is None or was.text != text or terms.seen or not was.stands(mend, show):
            was = self.kept[path] = _written(text, anchors, mend, show, terms)
        for address in was.lost:
            lost(address)
        terms.seen.update(was.terms)
        return was.markup

    def batch(self, batch: Batch, path: str) -> Markup:
        """What a batch tells, with its own pictures, on its page ``path``."""
        return self.prose(batch.prose, path, batch.place, Anchors(*BATCH_SECTIONS))

    def lesson(self, lesson: Lesson, path: str) -> Markup:
        """A learning page's Markdown; of one of ours, a link to what its author has left out becomes bare words."""
        anchors, source = Anchors("main"), lesson_source(lesson.slug)

        def show(address: str, words: str) -> Markup | None:
            return drawing(address)

        if lesson.place:
            return self.prose(lesson.prose, path, replace(lesson.place, path=source), anchors)
        mend, terms = self.links.for_page(path, source), self.glossary.on(path)
        return prose(lesson.prose, under=1, anchors=anchors, mend=mend, lost=lambda _: None, show=show, terms=terms)


def _written(text: str, anchors: Anchors, mend: Mend, show: Show, terms: Uses) -> Written:
    """A text written out, with what it asked for."""
    links, pictures, lost = dict[str, str | None](), [], list[str]()

    def mended(address: str) -> str | None:
        return links.setdefault(address, mend(address))

    def shown(address: str, words: str) -> Mapping[str, str | int] | Markup | None:
        pictures.append((address, words, it := show(address, words)))
        return it

    markup = prose(text, under=1, anchors=anchors, mend=mended, lost=lost.append, show=shown, terms=terms)
    return Written(text, tuple(links.items()), tuple(pictures), tuple(lost), frozenset(terms.seen), markup)
