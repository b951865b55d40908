"""What the pages of a batch are made from: its figures with their working, and where those stand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from gristbook.sheet.value import Value
from gristbook.site.addresses import slug
from gristbook.site.figures import Shown
from gristbook.site.pages import BatchAddress, of_batch
from gristbook.site.working import Working, values_in, working
from gristbook.targets.batches.results import BatchFigures

BATCH_SECTIONS = (
    *("main", "about", "tasted", "measured", "losses", "fermentation", "packaging", "on-the-day", "since", "frozen"),
    *(
        "more",
        "table-measured",
        "table-losses",
        "table-looks",
        "table-corrections",
        "table-gas",
        "table-since",
        "units",
    ),
    *("gravity-chart", "temperature-chart"),
)
"""The anchors of a batch's page, which no heading of the author's may take."""


@dataclass(frozen=True, slots=True)
class BrewedBatch:
    """A batch worked out, with the working of everything that its pages show."""

    figures: BatchFigures
    working: Working
    at: BatchAddress

    @property
    def title(self) -> str:
        """What was brewed, as it was called then; the recipe's address where nobody wrote that down."""
        return self.figures.batch.frozen.title or self.figures.batch.recipe

    def shown(self, here: str) -> Shown:
        """Makes figures of this batch for the page ``here``."""
        return Shown(self.working, here, self.at.working)


def brewed_batch(figures: BatchFigures) -> BrewedBatch:
    """A batch with its working."""
    batch = figures.batch
    return BrewedBatch(
        figures, working(list(_groups(figures)), _names(figures)), of_batch(batch.recipe, slug(batch.slug))
    )


def values_of_batches(batches: Iterable[BrewedBatch]) -> Iterator[Value]:
    """Everything whose working the pages of batches show."""
    for it in batches:
        for _, values in _groups(it.figures):
            yield from values


def _groups(figures: BatchFigures) -> Iterator[tuple[str, Sequence[Value]]]:
    """The parts of the working: the brew day step by step, then what follows from it."""
    for step in dict.fromkeys(row.step for row in figures.compared):
        rows = tuple(row for row in figures.compared if row.step == step)
        yield step, tuple(values_in(rows))
    yield "Where extract was lost", tuple(values_in(figures.losses))
    yield "The fermentation", tuple(values_in((figures.original, figures.course, figures.final)))
    yield "Strength", tuple(values_in((figures.abv, figures.apparent_attenuation, figures.real_attenuation)))
    yield "Gas and pressure", tuple(values_in(figures.bottles))
    yield "What could have been done", tuple(values_in(figures.adjustments))
    yield "What it teaches", tuple(values_in(figures.lessons))
    yield "What does not add up", tuple(values_in(tuple(fault.words for fault in figures.faults)))


def _names(figures: BatchFigures) -> Mapping[str, Value]:
    """Figures whose anchor is their own name: what was measured, and what had been planned."""
    measured = {row.figure: row.measured for row in figures.compared}
    return measured | {f"{row.figure}-as-planned": row.planned for row in figures.compared if row.planned is not None}
