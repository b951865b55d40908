"""What the brews have taught, brewhouse by brewhouse: every setting as the book has it, and as its brews have it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import get_args

from markupsafe import Markup

from gristbook.charts import FrameCache, Stage, narrowing_chart
from gristbook.sheet.value import Value
from gristbook.site.addresses import Anchors, slug
from gristbook.site.amounts import SPACE, Amount, span
from gristbook.site.batches import BrewedBatch
from gristbook.site.dates import Day, day
from gristbook.site.figures import Figure, Shown
from gristbook.site.pages import BREWHOUSES, Link, brewhouse_working
from gristbook.site.pictures import Picture
from gristbook.site.prose import plain
from gristbook.site.words import capital
from gristbook.site.working import Working, working
from gristbook.targets.batches.learn import Learned, Weighed, so_far
from gristbook.targets.batches.results import Subject

PRINTED: Mapping[str, tuple[float, str]] = {"fraction": (100.0, "%")}
"""What a unit is multiplied by on a chart, and called there; others stand as they are kept."""

MOST_STAGES = 12
"""So many brews a chart can show; of more, the last ones."""


@dataclass(frozen=True, slots=True)
class Told:
    """What one brew showed: how much it counted, and why not wholly; ``brew`` leads to its page."""

    brew: Link
    day: Day
    reading: Figure
    weight: Figure
    why: str


@dataclass(frozen=True, slots=True)
class Setting:
    """A setting as the book has it, as the next brew is expected, and the range of the mean itself.

    Where one brew alone has been heard, there is nothing to draw.
    """

    anchor: str
    name: str
    before: Figure
    now: Figure
    own: Amount | None
    brews: Amount
    used: bool
    readings: tuple[Told, ...]
    table: str
    picture: Picture | None


@dataclass(frozen=True, slots=True)
class House:
    """A brewhouse and what its brews have taught; ``working`` shows how."""

    anchor: str
    name: str
    settings: tuple[Setting, ...]
    working: str


@dataclass(frozen=True, slots=True)
class BrewhousesPage:
    """Every brewhouse that has taught something, and the names of those that have not."""

    houses: tuple[House, ...]
    silent: tuple[str, ...]
    brews: str


@dataclass(frozen=True, slots=True)
class Taught:
    """What was learned about one brewhouse, with its working."""

    name: str
    learned: tuple[Learned, ...]
    working: Working
    at: str


def taught_houses(names: Sequence[str], lessons: Sequence[Learned]) -> tuple[Taught, ...]:
    """The brewhouses that have learned something, in the book's order."""
    found, anchors = [], Anchors()
    for name in names:
        own = tuple(sorted((it for it in lessons if it.brewhouse == name), key=_place))
        if own:
            groups = [(title(it), _values(it)) for it in own]
            made = working(groups, {title(it): it.value for it in own})
            found.append(Taught(name, own, made, brewhouse_working(anchors.take(name))))
    return tuple(found)


def _place(it: Learned) -> tuple[int, str]:
    """The vessels in the order of the brew, then the yeasts by their names."""
    return list(get_args(Subject)).index(it.subject), it.yeast


def title(it: Learned) -> str:
    """What a setting is called; a yeast's attenuation by the yeast."""
    return capital(it.subject) + (f" of {it.yeast}" if it.yeast else "")


def values_of_lessons(houses: Sequence[Taught]) -> Iterator[Value]:
    """Everything whose working stands with the brewhouses."""
    for house in houses:
        for it in house.learned:
            yield from _values(it)


def _values(it: Learned) -> tuple[Value, ...]:
    weighed = (value for told in it.readings for value in (told.lesson.value, told.weight))
    return (it.setting, *weighed, it.value, it.spread)


def brewhouses_page(
    names: Sequence[str], houses: Sequence[Taught], batches: Sequence[BrewedBatch], brews: str, cache: FrameCache
) -> BrewhousesPage:
    """The page of all brewhouses of a book, called ``names``."""
    by_file = {it.figures.batch.place.path: it for it in batches}
    taken = Anchors("main", "units", "silent")
    shown = [
        House(
            taken.take(house.name),
            house.name,
            tuple(
                _setting(it, Shown(house.working, BREWHOUSES, house.at), by_file, taken, cache) for it in house.learned
            ),
            house.at,
        )
        for house in houses
    ]
    told = {house.name for house in houses}
    return BrewhousesPage(tuple(shown), tuple(name for name in names if name not in told), brews)


def _setting(
    it: Learned, shown: Shown, by_file: Mapping[str, BrewedBatch], taken: Anchors, cache: FrameCache
) -> Setting:
    anchor = taken.take(f"{it.brewhouse} {title(it)}")
    return Setting(
        anchor,
        title(it),
        shown(it.setting),
        shown(it.value),
        span(it.own),
        Amount(f"{it.brews}{SPACE}{'brew' if it.brews == 1 else 'brews'}"),
        it.used,
        tuple(_told(weighed, shown, by_file) for weighed in it.readings),
        f"table-{anchor}",
        _picture(it, anchor, by_file, cache) if len(it.readings) > 1 else None,
    )


def _told(weighed: Weighed, shown: Shown, by_file: Mapping[str, BrewedBatch]) -> Told:
    brewed = by_file[weighed.lesson.place.path]
    return Told(
        Link(brewed.at.page, plain(brewed.title)),
        day(brewed.figures.batch.brewed),
        shown(weighed.lesson.value),
        shown(weighed.weight),
        weighed.why.removesuffix("."),
    )


def _picture(it: Learned, anchor: str, by_file: Mapping[str, BrewedBatch], cache: FrameCache) -> Picture:
    svg = narrowing_chart(
        name=f"chart-{slug(anchor)}",
        title=f"{title(it)} in the {it.brewhouse} brewhouse, brew by brew",
        unit=PRINTED.get(it.setting.unit, (1.0, it.setting.unit))[1],
        stages=list(_stages(it, by_file)),
        cache=cache,
    )
    caption = (
        "A bar is where the next brew should fall nine times in ten, its stroke the middle, and a diamond what the "
        "brew showed; a hollow one moved nothing."
    )
    return Picture(Markup(svg), caption, f"table-{anchor}", title(it))


def _stages(it: Learned, by_file: Mapping[str, BrewedBatch]) -> Iterator[Stage]:
    """The setting, and then the estimate after each brew in turn: the last `MOST_STAGES` of them."""
    factor = PRINTED.get(it.setting.unit, (1.0, ""))[0]
    unshown = max(len(it.readings) - MOST_STAGES, 0)
    if len(it.readings) < MOST_STAGES:
        yield _stage("as the book has it", it.setting, factor)
    for heard, weighed in enumerate(it.readings[unshown:], start=unshown + 1):
        brewed = by_file[weighed.lesson.place.path]
        label = f"{day(brewed.figures.batch.brewed).said}, {plain(brewed.title)}"
        stage = _stage(label, so_far(it, heard), factor)
        yield replace(stage, reading=factor * weighed.lesson.value.number, aside=weighed.weight.number == 0)


def _stage(label: str, value: Value, factor: float) -> Stage:
    return Stage(label=label, middle=factor * value.number, low=factor * value.low, high=factor * value.high)
