"""What a learner reads besides recipes: pages in groups, in reading order, and a glossary."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, get_args

from gristbook.problems import Place

RecipePart = Literal[
    "grist", "hops", "yeast", "water", "mash", "starter", "method", "packaging", "instruments", "figures"
]
RECIPE_PARTS: tuple[RecipePart, ...] = get_args(RecipePart)
"""The parts of a recipe's page that a learning page may be named for."""


@dataclass(frozen=True, slots=True)
class Example:
    """A beer that shows what a lesson tells: the one with the most or the least of a figure, or one with no such."""

    how: str
    figure: str = ""


FIRST = Example("first beer")
"""Where somebody begins who has never brewed."""


@dataclass(frozen=True, slots=True)
class Lesson:
    """A learning page; a sheet for a class is one of ``kind`` "lesson" and names the page with its ``answers``.

    ``shown_by`` are the beers that it would be seen in.
    ``place`` is the author's own file, `None` where the page is ours.
    """

    slug: str
    title: str
    summary: str
    kind: str
    answers: str
    prose: str
    prose_line: int
    place: Place | None
    shown_by: tuple[Example, ...] = ()


@dataclass(frozen=True, slots=True)
class Group:
    """Learning pages under a heading, by slug, in reading order."""

    title: str
    about: str
    pages: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Term:
    """A word of the trade: ``forms`` are all its shapes, itself first; ``see`` a page that tells more, or nothing."""

    term: str
    forms: tuple[str, ...]
    words: str
    see: str
    place: Place | None


@dataclass(frozen=True, slots=True)
class Learning:
    """The learning pages by slug, their groups, the glossary by the alphabet, and the page for a part of a recipe."""

    lessons: Mapping[str, Lesson]
    groups: tuple[Group, ...]
    terms: tuple[Term, ...]
    explains: Mapping[RecipePart, str]

    def in_order(self) -> Iterator[Lesson]:
        """The pages of all groups, each once, as they are to be read."""
        for slug in dict.fromkeys(slug for group in self.groups for slug in group.pages):
            yield self.lessons[slug]

    def apart(self) -> Iterator[tuple[Lesson, Lesson]]:
        """Each page of answers that stands in no group, with the sheet that it belongs to."""
        grouped = {slug for group in self.groups for slug in group.pages}
        for sheet in self.in_order():
            if sheet.answers and sheet.answers not in grouped:
                yield self.lessons[sheet.answers], sheet
