"""The same beer in other kettles: how its editions compare, and what an edition's page says of what changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.model.figures import words_of
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount, amount_of
from gristbook.site.beer.brews import Beer, Brew, OtherBrew, refused_words
from gristbook.site.figures import Figure, Sentence, unlinked
from gristbook.site.pages import Address
from gristbook.site.words import capital
from gristbook.targets.editions.make import COMPARED, Drift
from gristbook.targets.figures import Plan
from gristbook.targets.wort.small_mash import in_a_bag, is_small


@dataclass(frozen=True, slots=True)
class Choice:
    """A kettle to choose for the beer: what one needs for it, what it is called, and where its pages stand."""

    need: Sentence
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


def _litres(vessel: Value) -> Amount:
    """What a vessel holds, in whole litres: nobody buys a pot by tenths."""
    return Amount(amount_of(round(vessel.number), vessel.unit).metric, amount(vessel).us)


def comparison(beer: Beer, here: str) -> Comparison | None:
    """The editions of a beer side by side on the page ``here``; nothing where it has none and none was refused."""
    if not beer.editions and not beer.refused:
        return None
    refused = ((refused_words(it.edition, beer.home.plan), it.why) for it in beer.refused)
    return Comparison(_choices(beer), tuple(_rows(beer, here)), tuple(refused))


def changes(beer: Beer, edition: OtherBrew, here: str) -> Changes:
    """What a page ``here`` of an edition says of itself."""
    kept = (_kept(drift, beer.home, edition.brew, here) for drift in edition.made.drifts)
    return Changes(beer, edition, tuple(kept), _choices(beer))


def _choices(beer: Beer) -> tuple[Choice, ...]:
    """Every size of a beer, as written first."""
    home = Choice(need(beer.home.plan), f"as written, {beer.words}", beer.home.at)
    return (home, *(Choice(need(it.brew.plan), it.words, it.brew.at) for it in beer.editions))


def need(plan: Plan) -> Sentence:
    """What one needs for a brew: its pots by what they hold to the brim, and what it is brewed from."""
    (beside, source), kettle, tun = kit(plan), plan.brewhouse.kettle, plan.brewhouse.tun
    pot = ("one ", *((_litres(kettle), " ") if kettle else ()), "pot")
    size = (" of ", _litres(tun)) if tun and beside == "mash tun" else ()
    return *pot, *((f" and a {beside}", *size) if beside else ()), f", from {source}"


def kit(plan: Plan) -> tuple[str, str]:
    """What a brew needs beside a pot, empty where that is nothing, and what it is brewed from."""
    recipe, brewhouse, grist = plan.recipe, plan.brewhouse, plan.figures.grist
    mashed = plan.figures.mash is not None
    if mashed and not in_a_bag(recipe, brewhouse):
        return "mash tun", "grain"
    bag = "bag" if mashed or grist.steeped is not None else ""
    return bag, "grain" if mashed and not is_small(recipe, brewhouse) else "malt extract"


def _rows(beer: Beer, here: str) -> Iterator[tuple[str, tuple[Figure | None, ...]]]:
    brews = [(brew.shown(here), brew.plan.sheet) for brew in beer.brews()]
    for figure in COMPARED:
        cells = tuple(shown(sheet.get(figure)) for shown, sheet in brews)
        if any(cells):
            yield capital(words_of(figure)), cells


def _kept(drift: Drift, home: Brew, now: Brew, here: str) -> Kept:
    """The figure as written leads to the recipe's working, that from the rounded amounts to the edition's own."""
    gap = drift.rounded.number - drift.home.number
    words = "kept" if not drift.said else "higher than as written" if gap > 0 else "lower than as written"
    return Kept(
        capital(words_of(drift.figure)),
        home.shown(here)(drift.home),
        unlinked(drift.exact),
        now.shown(here)(drift.rounded),
        words,
    )
