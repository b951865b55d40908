"""The same beer in other kettles: how its editions compare, and what an edition's page says of what changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.model.figures import words_of
from gristbook.site.beer.brews import Beer, Brew, OtherBrew, refused_words
from gristbook.site.figures import Figure, unlinked
from gristbook.site.pages import Address
from gristbook.site.words import capital
from gristbook.targets.editions.make import COMPARED, Drift


@dataclass(frozen=True, slots=True)
class Choice:
    """A size of the beer to choose: what it is, and where its pages stand."""

    words: str
    at: Address


@dataclass(frozen=True, slots=True)
class Comparison:
    """The beer in every size, as written first, side by side.

    A row is a figure's name with the figure of each size, `None` where one has no such figure; ``refused`` are editions
    that cannot honestly be made, and why.
    """

    choices: tuple[Choice, ...]
    rows: tuple[tuple[str, tuple[Figure | None, ...]], ...]
    refused: tuple[tuple[str, str], ...]


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
    """What an edition's page says besides the recipe: how nearly its figures are kept, and where the others are."""

    beer: Beer
    edition: OtherBrew
    kept: tuple[Kept, ...]
    choices: tuple[Choice, ...]


def comparison(beer: Beer) -> Comparison | None:
    """The editions of a beer side by side, for its own page; nothing where it has none and none was refused."""
    if not beer.editions and not beer.refused:
        return None
    refused = ((refused_words(it.edition, beer.home.plan), it.why) for it in beer.refused)
    return Comparison(_choices(beer), tuple(_rows(beer)), tuple(refused))


def changes(beer: Beer, edition: OtherBrew) -> Changes:
    """What the page of an edition says of itself."""
    kept = (_kept(drift, beer.home, edition.brew) for drift in edition.made.drifts)
    return Changes(beer, edition, tuple(kept), _choices(beer))


def _choices(beer: Beer) -> tuple[Choice, ...]:
    """Every size of a beer, as written first."""
    home = Choice(f"as written, {beer.words}", beer.home.at)
    return (home, *(Choice(edition.words, edition.brew.at) for edition in beer.editions))


def _rows(beer: Beer) -> Iterator[tuple[str, tuple[Figure | None, ...]]]:
    brews = [(brew.shown(beer.home.at.page), brew.plan.sheet) for brew in beer.brews()]
    for figure in COMPARED:
        cells = tuple(shown(sheet.get(figure)) for shown, sheet in brews)
        if any(cells):
            yield capital(words_of(figure)), cells


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
