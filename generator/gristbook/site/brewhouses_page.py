"""What the brews have taught, brewhouse by brewhouse: every setting as the book has it, and as its brews have it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from gristbook.charts import FrameCache, Stage, narrowing_chart
from gristbook.sheet.value import Value
from gristbook.site.addresses import Anchors, slug
from gristbook.site.amounts import SPACE, Amount, span
from gristbook.site.batches import BrewedBatch, setting
from gristbook.site.dates import Day, day
from gristbook.site.figures import Figure, Shown
from gristbook.site.pages import BREWHOUSES, Link
from gristbook.site.pictures import Picture
from gristbook.site.printing import Printing
from gristbook.site.prose import plain
from gristbook.targets.batches.learn import Learned, Weighed, learned

PRINTED: Mapping[str, tuple[float, str]] = {"fraction": (100.0, "%")}
"""What a unit is multiplied by on a chart, and called there; others stand as they are kept."""

MOST_STAGES = 12
"""So many brews a chart can show; of more, the last ones."""

CAPTION = (
    "A bar is where the next brew should fall nine times in ten, its stroke the middle, and a diamond what the "
    "brew showed; a hollow one moved nothing."
)


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


def brewhouses_page(printing: Printing) -> BrewhousesPage:
    """The page of all brewhouses of a book."""
    by_file = {it.figures.batch.place.path: it for it in printing.journal.batches}
    taken = Anchors("main", "units", "silent")
    shown = []
    for house in printing.journal.houses:
        anchor, figures = taken.take(house.name), Shown(house.working, BREWHOUSES, house.at)
        settings = tuple(_setting(it, figures, by_file, taken, printing.frames) for it in house.learned)
        shown.append(House(anchor, house.name, settings, house.at))
    told = {house.name for house in shown}
    return BrewhousesPage(tuple(shown), tuple(name for name in printing.book.brewhouses if name not in told))


def _setting(
    it: Learned, shown: Shown, by_file: Mapping[str, BrewedBatch], taken: Anchors, frames: FrameCache
) -> Setting:
    anchor = taken.take(f"{it.brewhouse} {setting(it)}")
    return Setting(
        anchor,
        setting(it),
        shown(it.setting),
        shown(it.value),
        span(it.own),
        Amount(f"{it.brews}{SPACE}{'brew' if it.brews == 1 else 'brews'}"),
        it.used,
        tuple(_told(weighed, shown, by_file[weighed.lesson.place.path]) for weighed in it.readings),
        f"table-{anchor}",
        _picture(it, anchor, by_file, frames) if len(it.readings) > 1 else None,
    )


def _told(weighed: Weighed, shown: Shown, brewed: BrewedBatch) -> Told:
    return Told(
        Link(brewed.at.page, plain(brewed.title)),
        day(brewed.figures.batch.brewed),
        shown(weighed.lesson.value),
        shown(weighed.weight),
        weighed.why.removesuffix("."),
    )


def _picture(it: Learned, anchor: str, by_file: Mapping[str, BrewedBatch], frames: FrameCache) -> Picture:
    svg = narrowing_chart(
        name=f"chart-{slug(anchor)}",
        title=f"{setting(it)} in the {it.brewhouse} brewhouse, brew by brew",
        unit=PRINTED.get(it.setting.unit, (1.0, it.setting.unit))[1],
        stages=list(_stages(it, by_file)),
        cache=frames,
    )
    return Picture(Markup(svg), CAPTION, f"table-{anchor}", setting(it))


def _stages(it: Learned, by_file: Mapping[str, BrewedBatch]) -> Iterator[Stage]:
    """The setting, and then the estimate after each brew in turn; of many, the last ones."""
    factor = PRINTED.get(it.setting.unit, (1.0, ""))[0]
    first = max(len(it.readings) + 1 - MOST_STAGES, 0)
    if first == 0:
        yield _stage("as the book has it", it.setting, factor)
    for count in range(max(first, 1), len(it.readings) + 1):
        so_far = learned(it.setting, (told.lesson for told in it.readings[:count]), yeast=it.yeast, used=it.used)
        weighed = it.readings[count - 1]
        brewed = by_file[weighed.lesson.place.path]
        label = f"{day(brewed.figures.batch.brewed).said}, {plain(brewed.title)}"
        stage = _stage(label, so_far.value if so_far is not None else it.setting, factor)
        yield replace(stage, reading=factor * weighed.lesson.value.number, aside=weighed.weight.number == 0)


def _stage(label: str, value: Value, factor: float) -> Stage:
    return Stage(label=label, middle=factor * value.number, low=factor * value.low, high=factor * value.high)
