"""Every edition of a recipe: made, rounded, worked out, and compared with the recipe as written."""

from __future__ import annotations

from dataclasses import dataclass
from math import log

from gristbook.model.book import Book
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.edition import Edition
from gristbook.problems import Problems
from gristbook.targets.chain import work_out
from gristbook.targets.editions.rounding import rounded
from gristbook.targets.editions.sizing import sized
from gristbook.targets.editions.swap import Swapped, as_extract, as_grain
from gristbook.targets.figures import Plan, named_figures
from gristbook.targets.plan import faults
from gristbook.worksheet import Value, apply

COMPARED = (
    "into the fermenter",
    "original gravity",
    "final gravity",
    "alcohol by volume",
    "bitterness",
    "colour",
    "total water",
    "grain mashed",
)
"""The figures that the table of editions shows side by side."""

KEPT: tuple[tuple[str, float, bool], ...] = (
    ("original gravity", 0.0015, False),
    ("bitterness", 0.05, True),
    ("colour", 0.03, True),
    ("final gravity", 0.0025, False),
)
"""What an edition keeps, how far it may drift unsaid, and whether that is a share of it."""


@dataclass(frozen=True, slots=True)
class Drift:
    """A kept figure as written, as worked out exactly, and from the rounded amounts."""

    name: str
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
    """The editions that a recipe gets: the book's, less what it drops, and its own."""
    recipe = plan.recipe
    wanted = {e.slug: e for e in (*book.editions, *recipe.editions) if e.slug not in recipe.dropped}
    return tuple(make(plan, edition, book) for edition in wanted.values() if not _is_home(edition, plan))


def make(plan: Plan, edition: Edition, book: Book) -> MadeEdition | RefusedEdition:
    """One edition of a recipe, or the reason why there is none."""
    try:
        return _made(plan, edition, book)
    except ValueError as refusal:
        return RefusedEdition(edition, str(refusal))


def _made(plan: Plan, edition: Edition, book: Book) -> MadeEdition:
    batch = edition.batch or plan.recipe.batch
    brewhouse = brewhouse_for(edition, batch, book)
    swapped = Swapped(plan.recipe, ())
    if edition.source == "extract":
        swapped = as_extract(plan, brewhouse, book.extracts)
    elif edition.source == "grain":
        swapped = as_grain(plan, book.base_malt, book.base_mash)
    recipe, drifted = sized(swapped.recipe, plan, brewhouse, batch, by_extract=edition.source == "extract")
    exact = work_out(recipe, brewhouse, plan.bitterness_model, plan.colour_model, apply)
    weighed = rounded(recipe, exact, edition.us)
    figures = work_out(weighed, brewhouse, plan.bitterness_model, plan.colour_model, apply)
    made = Plan(weighed, brewhouse, plan.bitterness_model, plan.colour_model, figures)
    problems = Problems()
    faults(made, problems)
    if problems.errors():
        raise ValueError("; ".join(f"{problem.what} ({problem.expected})" for problem in problems.errors()))
    home, exactly, now = plan.named, named_figures(exact), made.named
    drifts = tuple(
        Drift(name, home[name], exactly[name], now[name], _drifted(home[name], now[name], most, share))
        for name, most, share in KEPT
    )
    return MadeEdition(edition, made, drifts, (*swapped.notes, *drifted))


def brewhouse_for(edition: Edition, batch: Value, book: Book) -> Brewhouse:
    """The brewhouse named, or else the one whose own batch is nearest; whole grain needs one with a mash."""
    if edition.brewhouse:
        return book.brewhouses[edition.brewhouse]
    able = [b for b in book.brewhouses.values() if edition.source == "extract" or b.mash != "none"]
    if not able:
        raise ValueError("no brewhouse of this book has a mash")
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


def _drifted(home: Value, now: Value, most: float, share: bool) -> bool:
    limit = most * abs(home.number) if share else most
    return abs(now.number - home.number) > limit
