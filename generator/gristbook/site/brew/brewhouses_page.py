"""A brewhouse: its vessels, every setting as the book has it and as its brews have it, and what is brewed in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from gristbook.charts.caches import FrameCache
from gristbook.charts.narrowing import Stage, narrowing_chart
from gristbook.equations.mash import MIDDLE_C
from gristbook.model.brewhouse import Brewhouse
from gristbook.sheet.value import Value
from gristbook.site.addresses import Anchors, slug
from gristbook.site.amounts import SPACE, Amount, amount, amount_of
from gristbook.site.beer.editions import kit
from gristbook.site.beer.known import Known
from gristbook.site.beer.pictures import Picture
from gristbook.site.brew.batches import BrewedBatch, Taught, setting
from gristbook.site.dates import day
from gristbook.site.figures import Among, Figure, Shown
from gristbook.site.pages import BREWHOUSES, Page, houses_of
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
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
class Brewed:
    """A beer that is worked out for a brewhouse: its page, its name, what it makes, what it is brewed from."""

    path: str
    title: Markup
    makes: Amount
    source: str


@dataclass(frozen=True, slots=True)
class HousePage:
    """A brewhouse: its vessels, what its brews have taught and where that is worked out, its beers, its brews.

    The last brew comes first. ``mashed_at`` is the mash that attenuations are told for, absent where no yeast has
    taught anything.
    """

    house: Brewhouse
    settings: tuple[Setting, ...]
    working: str
    beers: tuple[Brewed, ...]
    brews: tuple[BrewedBatch, ...]
    mashed_at: Amount | None


@dataclass(frozen=True, slots=True)
class HousesPage:
    """Every brewhouse: the path of its page, its anchor in the list, and what its own page is given."""

    houses: tuple[tuple[str, str, HousePage], ...]


def brewhouse_pages(printing: Printing) -> Iterator[Page]:
    """The list of all brewhouses, and the page of every one."""
    journal, book = printing.journal, printing.book
    taken, views = Anchors("main", "units", "vessels", "taught", "yeasts", "how", "beers", "brews"), []
    pages: list[Page] = []
    for name, path in houses_of(book, brewed=bool(journal.batches)).items():
        taught = next((it for it in journal.houses if it.name == name), None)
        shown = (Shown(taught.working, path, taught.at),) if taught else ()
        anchor, view = taken.take(name), _house(printing, book.brewhouses[name], taught, shown, taken)
        views.append((path, anchor, view))
        words = f"What the {name} brewhouse holds, what its brews have taught, and what is brewed in it."
        pages.append(printing.page(path, "brewhouse.html", f"{name} – Brewhouses", words, view, figure=Among(shown)))
    if views:
        words = "The sets of vessels that this book brews in."
        yield printing.page(BREWHOUSES, "brewhouses.html", "Brewhouses", words, HousesPage(tuple(views)))
    yield from pages


def _house(
    printing: Printing, house: Brewhouse, taught: Taught | None, shown: tuple[Shown, ...], taken: Anchors
) -> HousePage:
    by_file = {it.figures.batch.place.path: it for it in printing.journal.batches}
    learned = taught.learned if taught else ()
    brews = [it for it in printing.journal.batches if it.figures.batch.brewhouse == house.name]
    return HousePage(
        house,
        tuple(_setting(it, shown[0], by_file, taken, printing.frames) for it in learned),
        taught.at if taught else "",
        tuple(_beers(printing, house.name)),
        tuple(sorted(brews, key=lambda it: it.figures.batch.brewed, reverse=True)),
        amount_of(MIDDLE_C, "°C") if any(it.yeast for it in learned) else None,
    )


def _beers(printing: Printing, name: str) -> Iterator[Brewed]:
    for beer in printing.beers.values():
        for house, path, makes, source in beer.ask(made_in):
            if house == name:
                yield Brewed(path, line(beer.title), makes, source)


def made_in(it: Known) -> tuple[tuple[str, str, Amount, str], ...]:
    """The brewhouse of each brew, its page, what it makes, what it is brewed from."""
    brews = ((brew.at.page, brew.plan) for brew in it.beer.brews())
    return tuple((plan.brewhouse.name, path, amount(plan.recipe.batch), kit(plan)[1]) for path, plan in brews)


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
