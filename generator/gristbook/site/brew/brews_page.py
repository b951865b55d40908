"""Brews in lists: all of the book's by date, and those of one recipe on its page, with how they ran."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from gristbook.charts.caches import FrameCache
from gristbook.charts.days import MOST_RUNS, days_chart
from gristbook.model.batch import Batch
from gristbook.site.beer.known import Known, edition_words
from gristbook.site.beer.pictures import Picture
from gristbook.site.beer.sections import CHART, TABLE
from gristbook.site.brew.batch_course import gravity_run, planned_gravities
from gristbook.site.brew.batch_words import in_short
from gristbook.site.brew.batches import BrewedBatch
from gristbook.site.dates import day
from gristbook.site.figures import Figure
from gristbook.site.pages import BREWS
from gristbook.site.printing import Printing
from gristbook.site.prose import plain

TABLE_NAME = "Its brews"


@dataclass(frozen=True, slots=True)
class Entry:
    """A brew in a list: its page, what and in which edition, its figures, one line of what happened."""

    path: str
    batch: Batch
    title: str
    edition: str
    original: Figure | None
    final: Figure | None
    abv: Figure | None
    efficiency: Figure | None
    short: str


@dataclass(frozen=True, slots=True)
class Brewed:
    """The brews of one recipe, the last one first, with a chart of how they ran where they say that."""

    entries: tuple[Entry, ...]
    picture: Picture | None


def _entry(brewed: BrewedBatch, here: str, editions: Mapping[str, str]) -> Entry:
    """A brew in a list on the page ``here``; ``editions`` are the words of editions by their addresses."""
    figures, shown, batch = brewed.figures, brewed.shown(here), brewed.figures.batch
    return Entry(
        brewed.at.page,
        batch,
        plain(brewed.title),
        editions.get(batch.edition, batch.edition),
        shown(figures.original.gravity if figures.original else None),
        shown(figures.final.gravity if figures.final else None),
        shown(figures.abv),
        shown(figures.mash_efficiency),
        in_short(figures),
    )


def brews_here(beer: Known, here: str, printing: Printing, edition: str | None = None) -> Brewed | None:
    """The brews of a recipe, or of one of its editions, for its page; nothing where nobody has brewed it."""
    batches = printing.journal.of(beer.slug, edition)
    if not batches:
        return None
    last_first = sorted(batches, key=lambda it: (it.figures.batch.brewed, it.figures.batch.slug), reverse=True)
    entries = tuple(_entry(it, here, beer.ask(edition_words)) for it in last_first)
    return Brewed(entries, _picture(last_first, printing.frames))


def _picture(batches: Sequence[BrewedBatch], frames: FrameCache) -> Picture | None:
    """The courses of the last few brews, over each other."""
    found = [(it, gravity_run(it.figures, _label(it.figures.batch))) for it in batches]
    told = [(it, run) for it, run in found if run is not None][:MOST_RUNS]
    if not told:
        return None
    svg = days_chart(
        name=CHART,
        title="How its brews fermented",
        measure="gravity",
        runs=[run for _, run in reversed(told)],
        planned=planned_gravities(told[0][0].figures),
        cache=frames,
    )
    caption = "Gravity by the days since brewing; shaded is where the last of them was planned to begin and to end."
    if len(told) < len(batches):
        caption += " Brews without readings, and all but the last few, are left out."
    return Picture(Markup(svg), caption, TABLE, TABLE_NAME)


def _label(batch: Batch) -> str:
    said = day(batch.brewed).said
    return f"{said}, in the {batch.brewhouse} brewhouse" if batch.brewhouse else said


@dataclass(frozen=True, slots=True)
class BrewsPage:
    """All brews of the book by their year, the last one first."""

    years: tuple[tuple[str, tuple[Entry, ...]], ...]


def years(printing: Printing) -> tuple[tuple[str, tuple[Entry, ...]], ...]:
    """All brews of the book by the year, the last one first."""
    batches = printing.journal.batches
    brewed = [it.figures.batch for it in batches]
    words = {it.recipe: printing.beers[it.recipe].ask(edition_words) for it in brewed if it.recipe in printing.beers}
    last_first = sorted(batches, key=lambda it: (it.figures.batch.brewed, it.at.page), reverse=True)
    by_year = groupby(last_first, key=lambda it: it.figures.batch.brewed[:4])
    return tuple(
        (year, tuple(_entry(it, BREWS, words.get(it.figures.batch.recipe, {})) for it in its)) for year, its in by_year
    )
