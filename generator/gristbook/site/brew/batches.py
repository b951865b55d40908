"""What the pages of batches are made from: figures with their working, what they have taught, where those stand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import get_args

from gristbook.model.book import Book
from gristbook.sheet.value import Value
from gristbook.site.addresses import slug
from gristbook.site.figures import Shown
from gristbook.site.pages import BatchAddress, houses_of, of_batch, working_of
from gristbook.site.words import capital
from gristbook.site.working.page import worksheet
from gristbook.site.working.walk import Elsewhere, Group, Kettle, values_in
from gristbook.site.working.worksheet import Working, Worksheet
from gristbook.targets.batches.learn import Learned, Lessons
from gristbook.targets.batches.results import BatchFigures, Subject

BATCH_SECTIONS = (
    *("main", "about", "tasted", "measured", "losses", "fermentation", "packaging", "on-the-day", "since", "frozen"),
    *("more", "table-measured", "table-losses", "table-looks", "table-corrections", "table-gas", "table-since"),
    *("table-before-the-boil", "table-end-of-the-boil", "table-in-the-fermenter", "units"),
    *("gravity-chart", "temperature-chart"),
)
"""The anchors of a batch's page, which no heading of the author's may take."""


@dataclass(frozen=True)
class BrewedBatch:
    """A batch worked out, with the working of everything that its pages show, which is made when it is asked for."""

    figures: BatchFigures
    at: BatchAddress

    @cached_property
    def _page(self) -> tuple[Worksheet, Working]:
        page, (own,) = worksheet([Kettle("", self.at.page, tuple(_groups(self.figures)), _names(self.figures))])
        return page, own

    @property
    def worksheet(self) -> Worksheet:
        """The page of the working."""
        return self._page[0]

    @property
    def working(self) -> Working:
        """Where its figures stand there."""
        return self._page[1]

    @property
    def title(self) -> str:
        """What was brewed, as it was called then; the recipe's address where nobody wrote that down."""
        return self.figures.batch.frozen.title or self.figures.batch.recipe

    def shown(self, here: str) -> Shown:
        """Makes figures of this batch for the page ``here``."""
        return Shown(self.working, here, self.at.working)


def brewed_batch(figures: BatchFigures) -> BrewedBatch:
    """A batch with its working."""
    return BrewedBatch(figures, of_batch(figures.batch.recipe, slug(figures.batch.slug)))


@dataclass(frozen=True, slots=True)
class Taught:
    """What was learned about one brewhouse, with its working, which stands at ``at``."""

    name: str
    learned: tuple[Learned, ...]
    worksheet: Worksheet
    working: Working
    at: str


@dataclass(frozen=True, slots=True)
class Journal:
    """The batches of a book and what they have taught, worked out once for all pages."""

    batches: tuple[BrewedBatch, ...] = ()
    houses: tuple[Taught, ...] = ()

    def of(self, recipe: str, edition: str | None = None) -> tuple[BrewedBatch, ...]:
        """The batches of a recipe, or of one of its editions only."""
        found = (it for it in self.batches if it.figures.batch.recipe == recipe)
        return tuple(it for it in found if edition is None or it.figures.batch.edition == edition)

    def elsewhere(self) -> Mapping[int, Elsewhere]:
        """What the brewhouses have learned, which is worked out with them."""
        return {
            id(it.value): Elsewhere(
                it.value,
                f"what the brews of the {house.name} have taught",
                f"{house.at}#{house.working.anchor(it.value)}",
            )
            for house in self.houses
            for it in house.learned
        }

    def worksheets(self) -> Iterator[Worksheet]:
        """The working of every batch and of every brewhouse."""
        yield from (batch.worksheet for batch in self.batches)
        yield from (house.worksheet for house in self.houses)


def journal(book: Book, batches: Sequence[BatchFigures], lessons: Lessons) -> Journal:
    """All batches with their workings, and the brewhouses that they have taught, in the book's order."""
    houses = []
    for name, path in houses_of(book, brewed=bool(batches)).items():
        own = tuple(sorted((it for it in lessons.learned if it.brewhouse == name), key=_place))
        if own:
            groups = tuple(Group(setting(it), _values(it), comes_to=it.value) for it in own)
            page, (working,) = worksheet([Kettle("", path, groups, {setting(it): it.value for it in own})])
            houses.append(Taught(name, own, page, working, working_of(path)))
    return Journal(tuple(brewed_batch(figures) for figures in batches), tuple(houses))


def setting(it: Learned) -> str:
    """What a setting is called; a yeast's attenuation by the yeast."""
    return capital(it.subject) + (f" of {it.yeast}" if it.yeast else "")


def _place(it: Learned) -> tuple[int, str]:
    """The vessels in the order of the brew, then the yeasts by their names."""
    return list(get_args(Subject)).index(it.subject), it.yeast


def _values(it: Learned) -> tuple[Value, ...]:
    weighed = (value for told in it.readings for value in (told.lesson.value, told.weight))
    return (it.setting, *weighed, it.value, it.spread)


def _groups(figures: BatchFigures) -> Iterator[Group]:
    """The parts of the working: the brew day step by step, then what follows from it."""
    for step in dict.fromkeys(row.step for row in figures.compared):
        yield _group(step, tuple(row for row in figures.compared if row.step == step))
    yield _group("Where extract was lost", figures.losses)
    yield _group("The fermentation", (figures.original, figures.course, figures.final))
    yield _group("Strength", (figures.abv, figures.apparent_attenuation, figures.real_attenuation))
    yield _group("Gas and pressure", figures.bottles)
    yield _group("What could have been done", figures.adjustments)
    yield _group("What it teaches", figures.lessons)
    yield _group("What does not add up", tuple(fault.words for fault in figures.faults))


def _group(title: str, record: object) -> Group:
    return Group(title, tuple(values_in(record)))


def _names(figures: BatchFigures) -> Mapping[str, Value]:
    """Figures whose anchor is their own name: what was measured, and what had been planned."""
    measured = {row.figure: row.measured for row in figures.compared}
    return measured | {f"{row.figure}-as-planned": row.planned for row in figures.compared if row.planned is not None}
