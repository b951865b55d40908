"""The learning pages, their table of contents, and the glossary."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from gristbook.model.learning import Learning, Lesson, RecipePart, Term
from gristbook.site import pages as at
from gristbook.site.addresses import Anchors, slug
from gristbook.site.pages import Link
from gristbook.site.prose import line, plain
from gristbook.site.terms import Glossary

OTHER = "Other"
"""The letter of a term that begins with none."""

EXPLAINED: Mapping[str, tuple[RecipePart, ...]] = {
    "ingredients": ("grist", "hops", "yeast"),
    "water": ("water",),
    "method": ("method",),
    "bottling": ("packaging",),
    "day": ("mash", "instruments"),
    "figures": ("figures",),
}
"""What a learning page can explain in each section of a recipe's page."""


@dataclass(frozen=True, slots=True)
class LessonLine:
    """A learning page in the list of all."""

    path: str
    title: str
    summary: Markup
    sheet: bool


@dataclass(frozen=True, slots=True)
class GroupView:
    """Learning pages that belong together."""

    anchor: str
    title: Markup
    about: Markup
    lessons: tuple[LessonLine, ...]


@dataclass(frozen=True, slots=True)
class ContentsPage:
    """All learning pages, and the way to the glossary."""

    groups: tuple[GroupView, ...]
    glossary: str


@dataclass(frozen=True, slots=True)
class LessonPage:
    """A learning page; a sheet has its answers apart, and a page of answers leads back to its ``sheet``."""

    title: Markup
    summary: Markup
    prose: Markup
    is_sheet: bool
    answers: Link | None
    sheet: Link | None
    before: Link | None
    after: Link | None


@dataclass(frozen=True, slots=True)
class Entry:
    """A term of the glossary."""

    anchor: str
    term: str
    words: Markup
    see: Link | None


@dataclass(frozen=True, slots=True)
class Letter:
    """The terms that begin with a letter."""

    anchor: str
    letter: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class GlossaryPage:
    """The glossary by the alphabet."""

    letters: tuple[Letter, ...]


def contents_page(learning: Learning) -> ContentsPage:
    """The table of contents."""
    anchors = Anchors("main", "glossary")
    groups = tuple(
        GroupView(
            anchors.take(group.title),
            line(group.title),
            line(group.about),
            tuple(_line(learning.lessons[page]) for page in group.pages),
        )
        for group in learning.groups
    )
    return ContentsPage(groups, at.GLOSSARY if learning.terms else "")


def _line(lesson: Lesson) -> LessonLine:
    return LessonLine(at.lesson_path(lesson.slug), plain(lesson.title), line(lesson.summary), lesson.kind == "lesson")


def lesson_pages(learning: Learning) -> Iterator[tuple[Lesson, LessonPage]]:
    """Every learning page but for its prose: in reading order, then the answers that stand apart."""
    order = list(learning.in_order())
    for place, lesson in enumerate(order):
        before, after = (order[n] if 0 <= n < len(order) else None for n in (place - 1, place + 1))
        answers = learning.lessons.get(lesson.answers)
        yield lesson, _page(lesson, answers=answers, before=before, after=after)
    seen = set[str]()
    for lesson, sheet in learning.apart():
        if lesson.slug not in seen:  # two sheets may share their answers
            seen.add(lesson.slug)
            yield lesson, _page(lesson, sheet=sheet)


def _page(
    lesson: Lesson,
    *,
    answers: Lesson | None = None,
    sheet: Lesson | None = None,
    before: Lesson | None = None,
    after: Lesson | None = None,
) -> LessonPage:
    links = (lesson_link(other) if other else None for other in (answers, sheet, before, after))
    return LessonPage(line(lesson.title), line(lesson.summary), Markup(), lesson.kind == "lesson", *links)


def lesson_link(lesson: Lesson) -> Link:
    """The way to a learning page."""
    return Link(at.lesson_path(lesson.slug), plain(lesson.title))


def explained(learning: Learning | None) -> dict[str, tuple[Link, ...]]:
    """The learning pages that explain each section of a recipe's page, by the section's anchor."""
    pages = learning.explains if learning else {}
    found = {
        section: dict.fromkeys(learning.lessons[pages[part]] for part in parts if part in pages) if learning else {}
        for section, parts in EXPLAINED.items()
    }
    return {section: tuple(map(lesson_link, lessons)) for section, lessons in found.items()}


def glossary_page(learning: Learning, glossary: Glossary) -> GlossaryPage:
    """The terms by the alphabet; what one says of itself links to the others that it uses."""
    letters = Anchors("main", *glossary.anchors.values())
    terms = sorted(learning.terms, key=lambda term: (_letter(term), slug(term.term), term.term))
    return GlossaryPage(
        tuple(
            Letter(letters.take(f"letter {letter}"), letter, tuple(_entries(list(group), learning, glossary)))
            for letter, group in groupby(terms, key=_letter)
        )
    )


def _letter(term: Term) -> str:
    first = slug(term.term)[0].upper()
    return first if first.isalpha() else OTHER


def _entries(terms: Sequence[Term], learning: Learning, glossary: Glossary) -> Iterator[Entry]:
    for term in terms:
        see = learning.lessons.get(term.see)
        words = line(term.words, glossary.within(at.GLOSSARY, glossary.anchors[term.term]))
        yield Entry(glossary.anchors[term.term], term.term, words, lesson_link(see) if see else None)
