"""Every edition of a recipe: made, rounded, worked out, and compared with the recipe as written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import log

from gristbook.model.book import Book
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.edition import Edition
from gristbook.model.recipe import Recipe
from gristbook.problems import in_us
from gristbook.refusal import Refusal
from gristbook.sheet.value import Value
from gristbook.targets.buying.cost import cost_of
from gristbook.targets.chain import work_out
from gristbook.targets.editions.rounding import rounded
from gristbook.targets.editions.sizing import sized
from gristbook.targets.editions.swap import Swapped, as_extract, as_grain
from gristbook.targets.editions.vessels import check, mashed_within
from gristbook.targets.figures import Plan

COMPARED = (
    "into-the-fermenter",
    "original-gravity",
    "final-gravity",
    "alcohol-by-volume",
    "bitterness",
    "colour",
    "total-water",
    "grain-mashed",
)
"""The figures that the table of editions shows side by side."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A figure that an edition keeps, and how far it may drift unsaid: before the amounts are rounded, and after.

    ``by_share`` tells whether the limits are shares of the figure.
    """

    figure: str
    exactly: float
    rounded: float
    by_share: bool

    def drifted(self, home: Value, exact: Value, rounded: Value) -> bool:
        """Whether there is a drift to speak of."""
        whole = abs(home.number) if self.by_share else 1.0
        return any(
            abs(now.number - home.number) > most * whole
            for now, most in ((exact, self.exactly), (rounded, self.rounded))
        )


KEPT: tuple[Kept, ...] = (
    Kept("original-gravity", 0.0005, 0.0015, False),
    Kept("bitterness", 0.01, 0.05, True),
    Kept("colour", 0.03, 0.03, True),
    Kept("final-gravity", 0.0015, 0.0015, False),
)


POINTS = ("a little", "a point", "two points", "three points", "four points", "five points", "many points")
ENDS: Mapping[str, str] = {
    "extract": ": malt extract ferments as its maker mashed it, whatever this recipe's mash",
    "grain": ": it ferments by its mash now, and not as malt extract does",
}
"""Why an edition from other things ends elsewhere."""


@dataclass(frozen=True, slots=True)
class Drift:
    """A kept figure as written, as worked out exactly, and from the rounded amounts."""

    figure: str
    home: Value
    exact: Value
    rounded: Value
    said: bool


@dataclass(frozen=True, slots=True)
class MadeEdition:
    """An edition that can be brewed: its plan from rounded amounts, what drifted, and what to know of it."""

    edition: Edition
    plan: Plan
    drifts: tuple[Drift, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RefusedEdition:
    """An edition that cannot honestly be made, and why."""

    edition: Edition
    why: str


def editions_of(plan: Plan, book: Book) -> tuple[MadeEdition | RefusedEdition, ...]:
    """The editions that a recipe gets, each made or refused."""
    return tuple(make(plan, edition, book) for edition in wanted(plan, book))


def wanted(plan: Plan, book: Book) -> tuple[Edition, ...]:
    """The editions that a recipe should get: the book's, less what it drops, and its own, in sound brewhouses."""
    recipe = plan.recipe
    dropped = {edition.slug for edition in recipe.dropped}
    asked = (it for it in (*book.editions, *recipe.editions) if it.brewhouse not in book.broken)
    found = {it.slug: it for it in asked if it.slug not in dropped}
    return tuple(edition for edition in found.values() if not _is_home(edition, plan))


def make(plan: Plan, edition: Edition, book: Book) -> MadeEdition | RefusedEdition:
    """One edition of a recipe, or the reason why there is none."""
    edition = edition.in_a_book(book.units)
    try:
        return _made(plan, edition, book)
    except Refusal as refusal:
        return RefusedEdition(edition, in_us(str(refusal)) if edition.us else str(refusal))


def _made(plan: Plan, edition: Edition, book: Book) -> MadeEdition:
    batch = edition.batch or plan.recipe.batch
    brewhouse = brewhouse_for(edition, plan, book).holding(batch)
    swapped = Swapped(plan.recipe, ())
    if edition.source == "extract":
        swapped = as_extract(plan, brewhouse, batch, book.extracts)
    elif edition.source == "grain":
        swapped = as_grain(plan, book.base_malt, book.base_mash)
    recipe, drifted = sized(swapped.recipe, plan, brewhouse, batch, by_extract=edition.source == "extract")

    def worked_out(recipe: Recipe) -> Plan:
        figures = work_out(recipe, brewhouse, plan.bitterness_model, plan.colour_model)
        cost = cost_of(recipe, figures, book.prices)
        return Plan(recipe, brewhouse, plan.bitterness_model, plan.colour_model, figures, cost, edition.us)

    exact = worked_out(recipe)
    made = worked_out(rounded(recipe, exact.figures, edition.us))
    weighed, thick = mashed_within(made.recipe, brewhouse, made.figures)
    if thick:
        made = worked_out(weighed)
    check(made)
    home, exactly, now = plan.sheet, exact.sheet, made.sheet
    drifts = tuple(
        Drift(kept.figure, *at, kept.drifted(*at))
        for kept in KEPT
        for at in [(home[kept.figure], exactly[kept.figure], now[kept.figure])]
    )
    return MadeEdition(edition, made, drifts, (*swapped.notes, *_ends(drifts, edition), *drifted, *thick))


def _ends(drifts: tuple[Drift, ...], edition: Edition) -> Iterator[str]:
    """A final gravity that is not that of the recipe, in words."""
    for drift in drifts:
        if drift.figure == "final-gravity" and drift.said:
            gap = round(1000 * drift.rounded.number) - round(1000 * drift.home.number)  # as both are printed
            points = POINTS[min(abs(gap), len(POINTS) - 1)]
            yield f"It ends {points} {'higher' if gap > 0 else 'lower'} than as written{ENDS.get(edition.source, '')}."


def brewhouse_for(edition: Edition, plan: Plan, book: Book) -> Brewhouse:
    """The brewhouse named, or else the one whose own batch is nearest; what is mashed needs one with a mash."""
    if edition.brewhouse:
        return book.brewhouses[edition.brewhouse]
    batch = edition.batch or plan.recipe.batch
    mashed = edition.source == "grain" or (edition.source == "as written" and not _from_extract(plan))
    able = [b for b in book.brewhouses.values() if not mashed or b.mash != "none"]
    if not able:
        raise Refusal("no brewhouse of this book has a mash")
    return min(able, key=lambda house: (abs(log(house.batch.number / batch.number)), house.name))


def _from_extract(plan: Plan) -> bool:
    return not any(malt.steep is None for malt in plan.recipe.malts)


def _is_home(edition: Edition, plan: Plan) -> bool:
    """An edition that is the recipe as it is written: nothing new to show."""
    same_size = edition.batch is None or abs(edition.batch.number / plan.recipe.batch.number - 1) < 0.01
    same_house = edition.brewhouse in (None, plan.brewhouse.name)
    from_extract = _from_extract(plan)
    same_source = edition.source == "as written" or (edition.source == "extract") == from_extract
    return same_size and same_house and same_source
