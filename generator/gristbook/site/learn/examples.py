"""Lessons and the beers of the book that show what they tell: each names the other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from gristbook.model.figures import words_of
from gristbook.model.learning import FIRST, Example, Learning, Lesson
from gristbook.site.pages import Link, lesson_path, of_recipe
from gristbook.site.prose import plain
from gristbook.targets.figures import Plan


def example(it: Example, plans: Sequence[Plan]) -> Plan | None:
    """The beer of the book that an example asks for, of two alike the one that is read first."""
    if it == FIRST:
        return next(iter(plans), None)
    if it.how == "no":
        return next((plan for plan in plans if it.figure not in plan.sheet), None)
    sign = 1 if it.how == "most" else -1
    having = [plan for plan in plans if it.figure in plan.sheet]
    return max(having, key=lambda plan: sign * plan.sheet[it.figure].number, default=None)


def examples(learning: Learning | None, plans: Sequence[Plan]) -> Mapping[str, tuple[tuple[str, Link], ...]]:
    """By the path of a lesson's page the beers that show it, and by that of a beer's the lessons that it shows.

    Each with what of it is seen there.
    """
    found: dict[str, list[tuple[str, Link]]] = {}
    for lesson, words, plan in _shown(learning, plans):
        beer = Link(of_recipe(plan.recipe.slug).page, plain(plan.recipe.title))
        told = Link(lesson_path(lesson.slug), plain(lesson.title))
        found.setdefault(told.path, []).append((words, beer))
        found.setdefault(beer.path, []).append((words, told))
    return {path: tuple(links) for path, links in found.items()}


def _shown(learning: Learning | None, plans: Sequence[Plan]) -> Iterator[tuple[Lesson, str, Plan]]:
    for lesson in learning.in_order() if learning else ():
        for it in lesson.shown_by:
            if (plan := example(it, plans)) is not None:
                yield lesson, it.how if it == FIRST else f"{it.how} {words_of(it.figure)}", plan
