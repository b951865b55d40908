"""What the page of a batch is given: what became of it, then what was planned beside what was measured."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.charts import FrameCache
from gristbook.model.figures import words_of
from gristbook.problems import Severity
from gristbook.site.band import Band, band
from gristbook.site.batch_course import CourseView, course_view
from gristbook.site.batch_gas import GasView, gas_view
from gristbook.site.batch_mending import Mending, mendings
from gristbook.site.batch_words import VERDICTS, became
from gristbook.site.batches import BrewedBatch
from gristbook.site.dates import Day, day
from gristbook.site.figures import Figure, Sentence, Shown
from gristbook.site.pages import BatchAddress, Link
from gristbook.site.prose import line
from gristbook.site.words import capital
from gristbook.targets.batches.results import BatchFigures, Compared, Difference

THROUGH = {"mash": "Out of the mash", "kettle": "Out of the kettle", "fermenter": "Out of the fermenter"}
"""What a share of extract got through, by the vessel."""


@dataclass(frozen=True, slots=True)
class Row:
    """A figure as planned and as measured; ``verdict`` says in words how they stand."""

    name: str
    planned: Figure | None
    measured: Figure
    verdict: str


@dataclass(frozen=True, slots=True)
class Part:
    """The figures of one part of the brew."""

    title: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class LossRow:
    """What got through a vessel and what was lost there; ``words`` say what to look at."""

    name: str
    planned: Figure | None
    measured: Figure
    lost: Figure
    words: str


@dataclass(frozen=True, slots=True)
class Changed:
    """A section of the recipe with the lines in which it differs from today's: then and now, "" where there is none."""

    title: str
    lines: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Since:
    """What has changed in the recipe since; ``recipe`` is where it stands today."""

    recipe: Link
    changed: tuple[Changed, ...]


@dataclass(frozen=True, slots=True)
class BatchPage:
    """A batch as its page tells it; ``since`` is absent where no recipe is left."""

    title: Markup
    day: Day
    brewhouse: str
    edition: Link | None
    band: Band | None
    became: Sentence
    thrown_away: str
    no_lesson: str
    dangers: tuple[Sentence, ...]
    doubts: tuple[Sentence, ...]
    prose: Markup
    tastings: tuple[tuple[Day, str], ...]
    parts: tuple[Part, ...]
    losses: tuple[LossRow, ...]
    course: CourseView | None
    gas: GasView | None
    mendings: tuple[Mending, ...]
    since: Since | None
    frozen: tuple[tuple[str, tuple[str, ...]], ...]
    at: BatchAddress
    before: Link | None
    after: Link | None


def batch_page(
    brewed: BrewedBatch,
    *,
    prose: Markup,
    edition: Link | None,
    since: Since | None,
    neighbours: tuple[Link | None, Link | None],
    cache: FrameCache,
) -> BatchPage:
    """The page of a batch, its figures linked to its own working."""
    figures, shown = brewed.figures, brewed.shown(brewed.at.page)
    batch = figures.batch
    colour = batch.frozen.plan.get("colour")
    dangers = [fault for fault in figures.faults if fault.place == _packed_at(figures)]
    doubts = [fault for fault in figures.faults if fault not in dangers]
    return BatchPage(
        title=line(brewed.title),
        day=day(batch.brewed),
        brewhouse=batch.brewhouse,
        edition=edition,
        band=band(batch.recipe, colour.number) if colour is not None and colour.unit == "SRM" else None,
        became=became(figures, shown),
        thrown_away=batch.thrown_away.removesuffix("."),
        no_lesson=batch.no_lesson.removesuffix("."),
        dangers=tuple(
            shown.say(*fault.words) for fault in sorted(dangers, key=lambda it: it.severity is not Severity.ERROR)
        ),
        doubts=tuple(shown.say(*fault.words) for fault in doubts),
        prose=prose,
        tastings=tuple((day(tasting.day), tasting.words) for tasting in batch.tastings),
        parts=tuple(_parts(figures.compared, shown)),
        losses=tuple(_losses(figures, shown)),
        course=course_view(brewed, shown, cache),
        gas=gas_view(figures, shown),
        mendings=tuple(mendings(figures.adjustments, shown)),
        since=since,
        frozen=tuple((capital(title), lines) for title, lines in batch.frozen.sections),
        at=brewed.at,
        before=neighbours[0],
        after=neighbours[1],
    )


def _packed_at(figures: BatchFigures) -> object:
    """The line of packaging: what is said against it is a danger, not a doubt of the figures."""
    packed = figures.batch.measured.packaged
    return packed.place if packed is not None else None


def _parts(compared: Sequence[Compared], shown: Shown) -> Iterator[Part]:
    for step in dict.fromkeys(row.step for row in compared):
        rows = (row for row in compared if row.step == step)
        yield Part(
            step,
            tuple(
                Row(
                    capital(words_of(row.figure)),
                    shown(row.planned) if row.planned is not None else None,
                    shown(row.measured),
                    VERDICTS[row.verdict],
                )
                for row in rows
            ),
        )


def _losses(figures: BatchFigures, shown: Shown) -> Iterator[LossRow]:
    for loss in figures.losses:
        planned = shown(loss.planned) if loss.planned is not None else None
        yield LossRow(THROUGH[loss.vessel], planned, shown(loss.measured), shown(loss.lost), loss.words)


def since_then(recipe: Link, differences: Sequence[Difference]) -> Since:
    """The lines in which a recipe differs from what it was, by its sections."""
    sections = dict.fromkeys(it.section for it in differences)
    return Since(
        recipe,
        tuple(
            Changed(capital(title), tuple((it.then, it.now) for it in differences if it.section == title))
            for title in sections
        ),
    )
