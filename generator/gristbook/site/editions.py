"""The same beer in other kettles: how its editions compare, and what an edition's page says of what changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.model.figures import words_of
from gristbook.site.brews import Beer, Brew, OtherBrew, brewed, refused_words
from gristbook.site.figures import Figure, unlinked
from gristbook.site.words import capital
from gristbook.targets.editions.make import COMPARED, Drift


@dataclass(frozen=True, slots=True)
class Choice:
    """A size of the beer to choose: what it is, its page and its card."""

    words: str
    path: str
    card: str


@dataclass(frozen=True, slots=True)
class Compared:
    """A figure in every size of the beer; `None` where a size has no such figure."""

    name: str
    cells: tuple[Figure | None, ...]


@dataclass(frozen=True, slots=True)
class Refused:
    """An edition that cannot honestly be made, and why."""

    words: str
    why: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """The beer in every size, as written first, side by side."""

    choices: tuple[Choice, ...]
    rows: tuple[Compared, ...]
    refused: tuple[Refused, ...]


@dataclass(frozen=True, slots=True)
class Kept:
    """A figure that an edition holds to: as written, worked out exactly, and from the amounts that are weighed."""

    name: str
    home: Figure
    exact: Figure
    rounded: Figure
    words: str


@dataclass(frozen=True, slots=True)
class Changes:
    """What an edition's page says besides the recipe: what it is, what cannot be kept, and where the others are."""

    words: str
    written: str
    us: bool
    recipe: str
    told: bool
    notes: tuple[str, ...]
    kept: tuple[Kept, ...]
    choices: tuple[Choice, ...]


def choices(beer: Beer, *, us_first: bool) -> tuple[Choice, ...]:
    """Every size of a beer, as written first."""
    return (
        _choice(f"as written, {written(beer.home, us_first=us_first)}", beer.home),
        *(_choice(edition.words, edition.brew) for edition in beer.editions),
    )


def written(home: Brew, *, us_first: bool) -> str:
    """What the recipe is as it is written: `20 L in the mill brewhouse`."""
    return brewed(home.plan.recipe.batch, home.plan.brewhouse.name, us=us_first)


def comparison(beer: Beer, *, us_first: bool) -> Comparison | None:
    """The editions of a beer side by side, for its own page; nothing where it has none and none was refused."""
    if not beer.editions and not beer.refused:
        return None
    refused = (Refused(refused_words(it.edition, beer.home.plan), it.why) for it in beer.refused)
    return Comparison(choices(beer, us_first=us_first), tuple(_rows(beer)), tuple(refused))


def changes(beer: Beer, edition: OtherBrew, *, us_first: bool) -> Changes:
    """What the page of an edition says of itself; ``us_first`` is the book's choice of units."""
    return Changes(
        edition.words,
        written(beer.home, us_first=us_first),
        edition.made.edition.us,
        beer.home.at.page,
        bool(beer.home.plan.recipe.prose.strip()),
        edition.made.notes,
        tuple(_kept(drift, beer.home, edition.brew) for drift in edition.made.drifts),
        choices(beer, us_first=us_first),
    )


def _choice(words: str, brew: Brew) -> Choice:
    return Choice(words, brew.at.page, brew.at.card)


def _rows(beer: Beer) -> Iterator[Compared]:
    here, brews = beer.home.at.page, tuple(beer.brews())
    for figure in COMPARED:
        values = [(brew, brew.plan.sheet.get(figure)) for brew in brews]
        if any(value is not None for _, value in values):
            cells = tuple(brew.shown(here)(value) if value is not None else None for brew, value in values)
            yield Compared(capital(words_of(figure)), cells)


def _kept(drift: Drift, home: Brew, now: Brew) -> Kept:
    """The figure as written leads to the recipe's working, that from the rounded amounts to the edition's own."""
    here = now.at.page
    gap = drift.rounded.number - drift.home.number
    words = "kept" if not drift.said else "higher than as written" if gap > 0 else "lower than as written"
    return Kept(
        capital(words_of(drift.figure)),
        home.shown(here)(drift.home),
        unlinked(drift.exact),
        now.shown(here)(drift.rounded),
        words,
    )
