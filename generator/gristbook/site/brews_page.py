"""Brews in lists: all of the book's by date, and those of one recipe on its page, with how they ran."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.charts import MOST_RUNS, FrameCache, days_chart
from gristbook.sheet.value import Value
from gristbook.site.batch_course import gravity_run, planned_gravities
from gristbook.site.batch_words import in_short
from gristbook.site.batches import BrewedBatch
from gristbook.site.dates import Day, day
from gristbook.site.figures import Figure
from gristbook.site.pages import Link
from gristbook.site.pictures import Picture
from gristbook.site.prose import plain
from gristbook.site.sections import CHART, TABLE

TABLE_NAME = "Its brews"


@dataclass(frozen=True, slots=True)
class Entry:
    """A brew in a list: when, what and where, its figures, one line of what happened, why it was thrown away if so."""

    path: str
    day: Day
    title: str
    brewhouse: str
    edition: str
    original: Figure | None
    final: Figure | None
    abv: Figure | None
    efficiency: Figure | None
    short: str
    thrown_away: str


@dataclass(frozen=True, slots=True)
class Brewed:
    """The brews of one recipe, the last one first, with a chart of how they ran where they say that."""

    entries: tuple[Entry, ...]
    picture: Picture | None


@dataclass(frozen=True, slots=True)
class Year:
    """The brews of a year, the last one first."""

    year: str
    anchor: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class BrewsPage:
    """All brews of the book; ``calendar`` has their days."""

    years: tuple[Year, ...]
    calendar: str
    brewhouses: str


def entry(brewed: BrewedBatch, here: str, editions: Mapping[str, str]) -> Entry:
    """A brew in a list on the page ``here``; ``editions`` are the words of editions by their addresses."""
    figures, shown = brewed.figures, brewed.shown(here)
    batch = figures.batch

    def one(value: Value | None) -> Figure | None:
        return shown(value) if value is not None else None

    return Entry(
        brewed.at.page,
        day(batch.brewed),
        plain(brewed.title),
        batch.brewhouse,
        editions.get(batch.edition, batch.edition),
        one(figures.original.gravity if figures.original else None),
        one(figures.final.gravity if figures.final else None),
        one(figures.abv),
        one(figures.mash_efficiency),
        in_short(figures),
        batch.thrown_away.removesuffix("."),
    )


def brews_here(
    batches: Sequence[BrewedBatch], here: str, editions: Mapping[str, str], cache: FrameCache
) -> Brewed | None:
    """The brews of a recipe for its page; nothing where nobody has brewed it."""
    if not batches:
        return None
    last_first = sorted(batches, key=lambda it: (it.figures.batch.brewed, it.figures.batch.slug), reverse=True)
    return Brewed(tuple(entry(it, here, editions) for it in last_first), _picture(last_first, cache))


def _picture(batches: Sequence[BrewedBatch], cache: FrameCache) -> Picture | None:
    """The courses of the last few brews, over each other."""
    found = [(it, gravity_run(it, _label(it))) for it in batches]
    told = [(it, run) for it, run in found if run is not None][:MOST_RUNS]
    if not told:
        return None
    svg = days_chart(
        name=CHART,
        title="How its brews fermented",
        measure="gravity",
        runs=[run for _, run in reversed(told)],
        planned=planned_gravities(told[0][0].figures),
        cache=cache,
    )
    caption = "Gravity by the days since brewing; shaded is where the last of them was planned to begin and to end."
    if len(told) < len(batches):
        caption += " Brews without readings, and all but the last few, are left out."
    return Picture(Markup(svg), caption, TABLE, TABLE_NAME)


def _label(brewed: BrewedBatch) -> str:
    batch = brewed.figures.batch
    said = day(batch.brewed).said
    return f"{said}, in the {batch.brewhouse} brewhouse" if batch.brewhouse else said


def brews_page(
    batches: Sequence[BrewedBatch], here: str, editions: Mapping[str, Mapping[str, str]], *, calendar: Link
) -> BrewsPage:
    """All brews by year; ``editions`` are the words of each recipe's editions by their addresses."""
    last_first = sorted(batches, key=lambda it: (it.figures.batch.brewed, it.at.page), reverse=True)
    years = dict.fromkeys(it.figures.batch.brewed[:4] for it in last_first)
    return BrewsPage(
        tuple(
            Year(
                year,
                f"brewed-in-{year}",
                tuple(
                    entry(it, here, editions.get(it.figures.batch.recipe, {}))
                    for it in last_first
                    if it.figures.batch.brewed[:4] == year
                ),
            )
            for year in years
        ),
        calendar.path,
        calendar.words,
    )
