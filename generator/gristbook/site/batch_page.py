"""What the page of a batch is given: what became of it, then what was planned beside what was measured."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from gristbook.model.batch import Batch
from gristbook.problems import Severity
from gristbook.site.band import Band, band
from gristbook.site.batch_course import CourseView, course_view
from gristbook.site.batch_gas import GasView, gas_view
from gristbook.site.batch_mending import Mending, mendings
from gristbook.site.batch_words import became
from gristbook.site.batches import BrewedBatch
from gristbook.site.brews import Brew
from gristbook.site.figures import Sentence
from gristbook.site.pages import Link
from gristbook.site.printing import Printing
from gristbook.site.prose import plain
from gristbook.targets.batches.differences import differences
from gristbook.targets.batches.results import Compared
from gristbook.text.writing import sections_of, written_in_us


@dataclass(frozen=True, slots=True)
class Since:
    """What has changed in the recipe since; ``recipe`` is where it stands today.

    ``changed`` are the sections in which it differs, with their lines: then and now, "" where there is none.
    """

    recipe: Link
    changed: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]


@dataclass(frozen=True, slots=True)
class BatchPage:
    """A batch as its page tells it; ``since`` is absent where no recipe is left.

    ``parts`` are the figures of each part of the brew; what speaks against the packaging is in ``dangers``.
    """

    brewed: BrewedBatch
    edition: Link | None
    band: Band | None
    became: Sentence
    dangers: tuple[Sentence, ...]
    doubts: tuple[Sentence, ...]
    prose: Markup
    parts: tuple[tuple[str, tuple[Compared, ...]], ...]
    course: CourseView | None
    gas: GasView | None
    mendings: tuple[Mending, ...]
    since: Since | None
    before: Link | None
    after: Link | None


def batch_page(brewed: BrewedBatch, printing: Printing, before: Link | None, after: Link | None) -> BatchPage:
    """The page of a batch, between those of the brews before and after it."""
    figures, batch = brewed.figures, brewed.figures.batch
    colour, packed = batch.frozen.plan.get("colour"), batch.measured.packaged
    at_packing = [fault for fault in figures.faults if packed is not None and fault.place == packed.place]
    beer = printing.beers.get(batch.recipe)
    editions = {it.made.edition.slug: it for it in beer.editions} if beer is not None else {}
    edition = editions.get(batch.edition)
    today = edition.brew if edition else beer.home if beer is not None and not batch.edition else None
    words = edition.words if edition else batch.edition
    return BatchPage(
        brewed=brewed,
        edition=Link(today.at.page if today else "", words) if batch.edition else None,
        band=band(batch.recipe, colour.number) if colour is not None and colour.unit == "SRM" else None,
        became=became(figures),
        dangers=tuple(it.words for it in sorted(at_packing, key=lambda it: it.severity is not Severity.ERROR)),
        doubts=tuple(fault.words for fault in figures.faults if fault not in at_packing),
        prose=printing.written.texts[brewed.at.page],
        parts=tuple(
            (step, tuple(row for row in figures.compared if row.step == step))
            for step in dict.fromkeys(row.step for row in figures.compared)
        ),
        course=course_view(figures, printing.frames),
        gas=gas_view(figures),
        mendings=tuple(mendings(figures.adjustments)),
        since=_since(batch, today) if today else None,
        before=before,
        after=after,
    )


def _since(batch: Batch, today: Brew) -> Since:
    """The lines in which today's recipe differs from what it was, by its sections."""
    recipe = today.plan.recipe
    found = differences(batch, sections_of(recipe, us=written_in_us(batch.frozen.sections)))
    return Since(
        Link(today.at.page, plain(recipe.title)),
        tuple(
            (title, tuple((it.then, it.now) for it in found if it.section == title))
            for title in dict.fromkeys(it.section for it in found)
        ),
    )
