"""What the brews have taught, brewhouse by brewhouse: every setting as the book has it, and as its brews have it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from gristbook.charts.caches import FrameCache
from gristbook.charts.narrowing import Stage, narrowing_chart
from gristbook.equations.mash import MIDDLE_C
from gristbook.sheet.value import Value
from gristbook.site.addresses import Anchors, slug
from gristbook.site.amounts import SPACE, Amount, amount_of
from gristbook.site.beer.pictures import Picture
from gristbook.site.brew.batches import BrewedBatch, setting
from gristbook.site.dates import day
from gristbook.site.figures import Among, Figure, Shown
from gristbook.site.pages import BREWHOUSES, Group, Page
from gristbook.site.printing import Printing
from gristbook.site.prose import plain
from gristbook.targets.batches.learn import Learned, Weighed, so_far

PRINTED: Mapping[str, tuple[float, str]] = {"fraction": (100.0, "%")}
"""What a unit is multiplied by on a chart, and called there; others stand as they are kept."""

MOST_STAGES = 12
"""So many brews a chart can show; of more, the last ones."""

CAPTION = (
    "A bar is where the next brew should fall nine times in ten, its stroke the middle, and a diamond what the "
    "brew showed; a hollow one moved nothing."
)


@dataclass(frozen=True, slots=True)
class Setting:
    """A setting that brews have taught, with what each of them showed; ``brews`` says how many counted.

    What stood ``before`` may stand in several brewhouses; here it leads to the working of its own.

    Where one brew alone has been heard, there is nothing to draw.
    """

    anchor: str
    name: str
    learned: Learned
    before: Figure
    brews: Amount
    told: tuple[tuple[Weighed, BrewedBatch], ...]
    picture: Picture | None


@dataclass(frozen=True, slots=True)
class BrewhousesPage:
    """Every brewhouse that has taught something, each with the way to its working, and the names of the others.

    ``mashed_at`` is the mash that attenuations are told for, absent where no yeast has taught anything.
    """

    houses: tuple[tuple[Group[Setting], str], ...]
    silent: tuple[str, ...]
    mashed_at: Amount | None


def brewhouses_page(printing: Printing) -> Page:
    """The page of all brewhouses of a book."""
    houses, taken = printing.journal.houses, Anchors("main", "units", "silent", "how")
    by_file = {it.figures.batch.place.path: it for it in printing.journal.batches}
    figures = tuple(Shown(house.working, BREWHOUSES, house.at) for house in houses)
    taught = []
    for house, shown in zip(houses, figures, strict=True):
        anchor = taken.take(house.name)
        settings = tuple(_setting(it, shown, by_file, taken, printing.frames) for it in house.learned)
        taught.append((Group(anchor, house.name, settings), house.at))
    told = {house.name for house in houses}
    yeasts = any(it.yeast for house in houses for it in house.learned)
    view = BrewhousesPage(
        tuple(taught),
        tuple(name for name in printing.book.brewhouses if name not in told),
        amount_of(MIDDLE_C, "°C") if yeasts else None,
    )
    words = "What the brews have taught about each set of vessels."
    return printing.page(BREWHOUSES, "brewhouses.html", "Brewhouses", words, view, figure=Among(figures))


def _setting(
    it: Learned, shown: Shown, by_file: Mapping[str, BrewedBatch], taken: Anchors, frames: FrameCache
) -> Setting:
    anchor = taken.take(f"{it.brewhouse} {setting(it)}")
    return Setting(
        anchor,
        setting(it),
        it,
        shown(it.setting),
        Amount(f"{it.brews}{SPACE}{'brew' if it.brews == 1 else 'brews'}"),
        tuple((weighed, by_file[weighed.lesson.place.path]) for weighed in it.readings),
        _picture(it, anchor, by_file, frames) if len(it.readings) > 1 else None,
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
    for heard in range(max(first, 1), len(it.readings) + 1):
        weighed = it.readings[heard - 1]
        brewed = by_file[weighed.lesson.place.path]
        label = f"{day(brewed.figures.batch.brewed).said}, {plain(brewed.title)}"
        stage = _stage(label, so_far(it, heard), factor)
        yield replace(stage, reading=factor * weighed.lesson.value.number, aside=weighed.weight.number == 0)


def _stage(label: str, value: Value, factor: float) -> Stage:
    return Stage(label=label, middle=factor * value.number, low=factor * value.low, high=factor * value.high)
