"""What prose is written out with on every page of a book."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from markupsafe import Markup

from gristbook.model.batch import Batch
from gristbook.model.learning import Lesson
from gristbook.problems import Place, Problems
from gristbook.site.addresses import Anchors
from gristbook.site.album import Album
from gristbook.site.brew.batches import BATCH_SECTIONS
from gristbook.site.learn.drawings import drawing
from gristbook.site.learn.terms import Glossary
from gristbook.site.links import Links, lesson_source
from gristbook.site.prose import prose


@dataclass(frozen=True, slots=True)
class Desk:
    """Where links lead, the pictures, the glossary, and who is told of what is lost."""

    links: Links
    album: Album
    glossary: Glossary
    folder: Path | None
    problems: Problems

    def prose(self, text: str, path: str, place: Place, anchors: Anchors) -> Markup:
        """An author's Markdown, written in the file of ``place``, on the page ``path``."""

        def lost(address: str) -> None:
            self.problems.warning(place, "a link that leads nowhere", within=address, expected="a file of this book")

        found = self.album.of_page(path, place.path, self.folder, place)
        return prose(
            text,
            under=1,
            anchors=anchors,
            mend=self.links.for_page(path, place.path),
            lost=lost,
            show=lambda address, words: drawing(address) or found(address, words),
            terms=self.glossary.on(path),
        )

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
