"""The learning pages, their table of contents, and the glossary."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from gristbook.model.learning import Learning, Lesson, RecipePart, Term
from gristbook.problems import Place
from gristbook.site import pages as at
from gristbook.site.addresses import Anchors, slug
from gristbook.site.learn.terms import Glossary
from gristbook.site.outline import CONTENTS
from gristbook.site.pages import Group, Link, Page
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain

OTHER = "Other"
"""The letter of a term that begins with none."""

EXPLAINED: Mapping[str, tuple[RecipePart, ...]] = {
    "ingredients": ("grist", "hops", "yeast"),
    "water": ("water",),
    "method": ("method",),
    "bottling": ("packaging",),
    "day": ("mash", "starter", "instruments"),
    "figures": ("figures",),
}
"""What a learning page can explain in each section of a recipe's page."""


@dataclass(frozen=True, slots=True)
class LessonPage:
    """A learning page; a sheet has its answers apart, and a page of answers leads back to its ``sheet``.

    ``examples`` are beers to see it in, each with what is seen.
    """

    lesson: Lesson
    title: Markup
    summary: Markup
    prose: Markup
    examples: tuple[tuple[str, Link], ...]
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
class LearningPage:
    """The contents of the learning pages; ``glossary`` is the path of the glossary, "" where there is none."""

    groups: tuple[Group[Lesson], ...]
    glossary: str


@dataclass(frozen=True, slots=True)
class GlossaryPage:
    """The terms by their first letter."""

    letters: tuple[Group[Entry], ...]


def learning_pages(printing: Printing) -> Iterator[Page]:
    """The learning pages, their table of contents and the glossary, where the book has them."""
    learning, home, called = printing.book.learning, Place(CONTENTS), plain(printing.book.learning_called) or "Learning"
    if learning is None:
        return
    if learning.groups:
        contents = LearningPage(tuple(_contents(learning)), at.GLOSSARY if learning.terms else "")
        words = "What the words and the steps of a recipe mean, from the first boil on."
        yield printing.page(at.LEARNING, "learning.html", called, words, contents, place=home)
    for lesson, view in _lessons(learning, printing):
        title, place = f"{plain(lesson.title)} – {called}", lesson.place or Place(f"learning/{lesson.slug}.md")
        yield printing.page(at.lesson_path(lesson.slug), "lesson.html", title, plain(lesson.summary), view, place=place)
    if learning.terms:
        words = "The words of the trade, by the alphabet."
        terms = GlossaryPage(tuple(_glossary(learning, printing.written.desk.glossary)))
        yield printing.page(at.GLOSSARY, "glossary.html", "Glossary", words, terms, place=home)


def _contents(learning: Learning) -> Iterator[Group[Lesson]]:
    anchors = Anchors("main", "glossary")
    for group in learning.groups:
        pages = tuple(learning.lessons[page] for page in group.pages)
        yield Group(anchors.take(group.title), line(group.title), pages, line(group.about))


def _lessons(learning: Learning, printing: Printing) -> Iterator[tuple[Lesson, LessonPage]]:
    """Every learning page: in reading order, then the answers that stand apart."""

    def page(lesson: Lesson, *others: Lesson | None) -> LessonPage:
        path = at.lesson_path(lesson.slug)
        text = printing.written.texts.get(path) or printing.written.desk.lesson(lesson, path)
        links = (lesson_link(other) if other else None for other in others)
        seen = printing.examples.get(path, ())
        return LessonPage(lesson, line(lesson.title), line(lesson.summary), text, seen, *links)

    for before, lesson, after in at.around([*learning.in_order()]):
        yield lesson, page(lesson, learning.lessons.get(lesson.answers), None, before, after)
    sheets: dict[str, tuple[Lesson, Lesson]] = {}
    for answers, sheet in learning.apart():
        sheets.setdefault(answers.slug, (answers, sheet))  # two sheets may share their answers
    for answers, sheet in sheets.values():
        yield answers, page(answers, None, sheet, None, None)


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


def _glossary(learning: Learning, glossary: Glossary) -> Iterator[Group[Entry]]:
    """The terms by the alphabet; what one says of itself links to the others that it uses."""
    letters = Anchors("main", *glossary.anchors.values())
    terms = sorted(learning.terms, key=lambda term: (_letter(term), slug(term.term), term.term))
    for letter, group in groupby(terms, key=_letter):
        yield Group(letters.take(f"letter {letter}"), letter, tuple(_entries(group, learning, glossary)))


def _letter(term: Term) -> str:
    first = slug(term.term)[0].upper()
    return first if first.isalpha() else OTHER


def _entries(terms: Iterable[Term], learning: Learning, glossary: Glossary) -> Iterator[Entry]:
    for term in terms:
        see = learning.lessons.get(term.see)
        words = line(term.words, glossary.within(at.GLOSSARY, glossary.anchors[term.term]))
        yield Entry(glossary.anchors[term.term], term.term, words, lesson_link(see) if see else None)
