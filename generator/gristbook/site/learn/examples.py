"""Lessons and the beers of the book that show what they tell: each names the other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from gristbook.model.figures import words_of
from gristbook.model.learning import FIRST, Example, Learning, Lesson
from gristbook.site.beer.known import Known
from gristbook.site.pages import Link, lesson_path, of_recipe
from gristbook.site.prose import plain


def example(it: Example, beers: Sequence[Known]) -> Known | None:
    """The beer of the book that an example asks for, of two alike the one that is read first."""
    if it == FIRST:
        return next(iter(beers), None)
    numbers = [(beer, beer.ask(_number, it.figure)) for beer in beers]
    if it.how == "no":
        return next((beer for beer, number in numbers if number is None), None)
    sign = 1 if it.how == "most" else -1
    having = [(beer, sign * number) for beer, number in numbers if number is not None]
    return max(having, key=lambda both: both[1])[0] if having else None


def _number(it: Known, figure: str) -> float | None:
    return it.plan.sheet[figure].number if figure in it.plan.sheet else None


def examples(learning: Learning | None, beers: Sequence[Known]) -> Mapping[str, tuple[tuple[str, Link], ...]]:
    """By the path of a lesson's page the beers that show it, and by that of a beer's the lessons that it shows.

    Each with what of it is seen there.
    """
    found: dict[str, list[tuple[str, Link]]] = {}
    for lesson, words, shown in _shown(learning, beers):
        beer = Link(of_recipe(shown.slug).page, plain(shown.title))
        told = Link(lesson_path(lesson.slug), plain(lesson.title))
        found.setdefault(told.path, []).append((words, beer))
        found.setdefault(beer.path, []).append((words, told))
    return {path: tuple(links) for path, links in found.items()}


def _shown(learning: Learning | None, beers: Sequence[Known]) -> Iterator[tuple[Lesson, str, Known]]:
    for lesson in learning.in_order() if learning else ():
        for it in lesson.shown_by:
            if (beer := example(it, beers)) is not None:
                yield lesson, it.how if it == FIRST else f"{it.how} {words_of(it.figure)}", beer
