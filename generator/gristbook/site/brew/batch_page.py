"""What the page of a batch is given: what became of it, then what was planned beside what was measured."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.model.batch import Batch, Vessel
from gristbook.problems import Severity
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount
from gristbook.site.band import Band, band
from gristbook.site.beer.known import Known, edition_words
from gristbook.site.brew.batch_course import CourseView, course_view
from gristbook.site.brew.batch_words import became, differed, differs, taught
from gristbook.site.brew.batches import BrewedBatch
from gristbook.site.figures import Sentence, joined
from gristbook.site.pages import Link, of_edition, of_recipe
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.targets.advice.caution_rows import CAUTIONS
from gristbook.targets.batches.differences import differences
from gristbook.targets.batches.results import Adjustment, BatchFigures, Compared, Remedy
from gristbook.targets.method.step import say
from gristbook.text.writing import Sections, sections_of, written_in_us

WHERE = {
    "before the boil": "Before the boil",
    "end of the boil": "At the end of the boil",
    "in the fermenter": "In the fermenter",
}
HOLDS = {"kettle": "What the kettle holds when the boil is over", "fermenter": "What the fermenter holds"}


@dataclass(frozen=True, slots=True)
class Since:
    """What has changed in the recipe since; ``recipe`` is where it stands today.

    ``changed`` are the sections in which it differs, with their lines: then and now, "" where there is none.
    """

    recipe: Link
    changed: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]


@dataclass(frozen=True, slots=True)
class GasView:
    """Gas and pressure in a table; ``verdict`` is what there is to say, ``cautions`` what to do about it."""

    vessel: Vessel
    rows: tuple[tuple[str, Value], ...]
    verdict: Sentence
    grave: bool
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Mending:
    """One measurement: what it found, what was wanted, and the ways to get there; ``mind`` is what to take care of.

    ``holds`` is what the ways end in, each in words with what the vessel then holds; there are none where nothing
    needed doing.
    """

    title: str
    holds: str
    anchor: str
    found: Sentence
    ways: tuple[tuple[Sentence, Remedy], ...]
    mind: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BatchPage:
    """A batch as its page tells it; ``since`` is absent where no recipe is left.

    ``parts`` are the figures of each part of the brew, so many of them ``as_planned``; what speaks against the
    packaging is in ``dangers``.
    """

    brewed: BrewedBatch
    title: Markup
    edition: Link | None
    band: Band | None
    became: Sentence
    differed: Sentence
    taught: Sentence
    as_planned: Amount
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
    words = beer.ask(edition_words) if beer else {}
    path = _page_of(beer, batch.edition) if beer and batch.edition in {"", *words} else ""
    return BatchPage(
        brewed=brewed,
        title=line(brewed.title),
        edition=Link(path, words.get(batch.edition, batch.edition)) if batch.edition else None,
        band=band(colour.number) if colour is not None and colour.unit == "SRM" else None,
        became=became(figures),
        differed=differed(figures),
        taught=taught(figures),
        as_planned=_as_planned(figures),
        dangers=tuple(it.words for it in sorted(at_packing, key=lambda it: it.severity is not Severity.ERROR)),
        doubts=tuple(fault.words for fault in figures.faults if fault not in at_packing),
        prose=printing.written.texts[brewed.at.page],
        parts=tuple(
            (step, tuple(row for row in figures.compared if row.step == step))
            for step in dict.fromkeys(row.step for row in figures.compared)
        ),
        course=course_view(figures, printing.frames),
        gas=_gas(figures),
        mendings=tuple(_mendings(figures.adjustments)),
        since=_since(batch, beer, path) if beer and path else None,
        before=before,
        after=after,
    )


def _as_planned(figures: BatchFigures) -> Amount:
    """How many of the figures that were planned and measured came out so, in words."""
    judged = [row for row in figures.compared if row.verdict]
    good = sum(not differs(row) for row in judged)
    return Amount(f"{good} of {len(judged)} as planned")


def _page_of(beer: Known, edition: str) -> str:
    return (of_edition(beer.slug, edition) if edition else of_recipe(beer.slug)).page


def _since(batch: Batch, beer: Known, path: str) -> Since:
    """The lines in which today's recipe differs from what it was, by its sections."""
    found = differences(batch, beer.ask(lines_of, batch.edition, in_us_units(batch)))
    return Since(
        Link(path, plain(beer.title)),
        tuple(
            (title, tuple((it.then, it.now) for it in found if it.section == title))
            for title in dict.fromkeys(it.section for it in found)
        ),
    )


def in_us_units(batch: Batch) -> bool:
    """Whether what was brewed is written in units of the United States."""
    return written_in_us(batch.frozen.sections)


def lines_of(it: Known, edition: str, us: bool) -> Sections:
    """The lines of a recipe as it is written, or of an edition that was made of it."""
    made = (one.brew.plan for one in it.beer.editions if one.made.edition.slug == edition)
    return sections_of(next(made, it.plan).recipe, us=us)


def _gas(figures: BatchFigures) -> GasView | None:
    """Gas and pressure of a batch that was packaged."""
    bottles, packed = figures.bottles, figures.batch.measured.packaged
    if bottles is None or packed is None:
        return None
    rows = (
        ("Gas left from fermentation", bottles.residual),
        ("Gas from priming", bottles.priming),
        ("Gas as packaged", bottles.carbonation),
        ("Gas from what had still to ferment", bottles.unfinished),
        ("Gas at the end", bottles.at_the_end),
        ("Warmest storage", bottles.warmest),
        ("Pressure there, over the air’s", bottles.pressure),
    )
    kind = "keg" if packed.vessel == "keg" else "keep"
    against = bool(bottles.against)
    return GasView(
        packed.vessel,
        tuple((label, value) for label, value in rows if value is not None),
        joined([it.words for it in bottles.against], " ") if against else bottles.comfort,
        against,
        tuple(
            row.words for row in CAUTIONS if (against or kind == "keg") and kind in row.kinds and row.when == "always"
        ),
    )


def _mendings(adjustments: Iterable[Adjustment]) -> Iterator[Mending]:
    """Each measurement of the kettle with what could be done about it."""
    for it in adjustments:
        found = say(
            "The {measured} held {volume} at {gravity}; the plan wants {wanted_volume} at {wanted} {there}.",
            measured="fermenter" if it.step == "in the fermenter" else "kettle",
            volume=it.volume,
            gravity=it.gravity,
            wanted_volume=it.wanted_volume,
            wanted=it.wanted,
            there="when the boil is over" if it.vessel == "kettle" else "in the fermenter",
        )
        ways = () if it.fits else tuple((_do(remedy), remedy) for remedy in (it.unmended, *it.remedies))
        yield Mending(WHERE[it.step], HOLDS[it.vessel], "table-" + it.step.replace(" ", "-"), found, ways, it.words)


def _do(remedy: Remedy) -> Sentence:
    parts: list[Sentence] = [
        (words, value, after)
        for words, value, after in (
            ("go on with ", remedy.keep, ""),
            ("leave out ", remedy.leave_out, " of the top-up"),
            ("stir in ", remedy.extract, " of dried malt extract"),
            ("pour in ", remedy.water, " of water"),
            ("boil on for ", remedy.boil_on, ""),
        )
        if value is not None
    ]
    return joined(parts, ", ") or ("do nothing",)
