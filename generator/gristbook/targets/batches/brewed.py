"""A book with its batches: they are worked out from their own files, then the book learns, and only then it plans."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from gristbook.model.book import Book
from gristbook.model.yeast import Yeast
from gristbook.problems import Problems, Severity
from gristbook.targets.advice.against import told
from gristbook.targets.batches.learn import Lessons, learn, taught_book
from gristbook.targets.batches.results import BatchFigures, Fault
from gristbook.targets.batches.work_out import work_out_batch


@dataclass(frozen=True, slots=True)
class Brewed:
    """A book's batches worked out, what they teach, and the book with its brewhouses and yeasts taught."""

    batches: tuple[BatchFigures, ...]
    lessons: Lessons
    book: Book


def brewed(
    book: Book, problems: Problems, before: Brewed | None = None, yeasts: Iterable[Yeast] | None = None
) -> Brewed:
    """Work out the batches of a book and let it learn; what is amiss in them is filed as problems of their files.

    ``yeasts`` are those of all its recipes in their order, where not all of them were read.
    ``before`` is what they came to in a book that differs from this one in its recipes alone: its batches are taken
    over, and its lessons where the recipes of today are taught the same.
    """
    batches = before.batches if before else tuple(work_out_batch(batch) for batch in book.batches)
    for figures in batches:
        for fault in figures.faults:
            _file(fault, problems)
    if yeasts is None:
        yeasts = (yeast for recipe in book.recipes for yeast in recipe.yeasts)
    lessons = learn(book, batches, yeasts)
    if before and lessons == before.lessons:
        lessons = before.lessons
    return Brewed(batches, lessons, taught_book(book, lessons))


def _file(fault: Fault, problems: Problems) -> None:
    file = problems.error if fault.severity is Severity.ERROR else problems.warning
    words = told(fault.words).rstrip(".")
    file(fault.place, words[:1].lower() + words[1:])
