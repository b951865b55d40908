"""By what a reader narrows the beers of the front page, without a script: a beer bears the keys it answers to."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from math import inf

from gristbook.site.amounts import amount_of
from gristbook.site.beer.editions import kit
from gristbook.site.figures import Sentence
from gristbook.site.words import balance_words, colour_word
from gristbook.targets.advice.misfits import fill
from gristbook.targets.figures import Plan

FEWEST = 4
"""Of fewer beers nobody need choose by a list."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A thing to choose by: its key, what it is called, and whether a brew answers to it."""

    key: str
    words: Sentence
    holds: Callable[[Plan], bool]


@dataclass(frozen=True, slots=True)
class Facet:
    """What one chooses by. ``any_size`` says that any edition of a beer may answer, not the recipe alone.

    ``first`` are those that stand open.
    """

    name: str
    words: str
    choices: tuple[Choice, ...]
    any_size: bool = False
    first: bool = False


@dataclass(frozen=True, slots=True)
class Narrowing:
    """A facet as the front page shows it: each choice with its key and how many beers answer to it."""

    name: str
    words: str
    first: bool
    choices: tuple[tuple[str, Sentence, int], ...]


def _between(key: str, words: str, low: float, high: float, figure: Callable[[Plan], float | None]) -> Choice:
    def holds(plan: Plan) -> bool:
        number = figure(plan)
        return number is not None and low <= number < high

    return Choice(key, (words,), holds)


def _coloured(key: str, *words: str) -> Choice:
    return Choice(key, (key,), lambda plan: colour_word(plan.figures.colour.srm.number) in words)


def _balanced(key: str, *words: str) -> Choice:
    return Choice(key, (words[0],), lambda plan: balance_words(plan.figures.bitterness.balance.number) in words)


def _pot(litres: float) -> Choice:
    return Choice(f"pot-{litres:.0f}", (amount_of(litres, "L"),), lambda plan: fill(plan).least <= litres)


def _beside(key: str, words: str, *kits: str) -> Choice:
    return Choice(key, (words,), lambda plan: kit(plan)[0] in kits)


def _from_extract(plan: Plan) -> bool:
    """Whether more of the wort comes out of tins and bags of malt extract than out of grain."""
    grist = plan.figures.grist
    bought = sum(line.extract.number for line in grist.sugars if line.sugar.from_malt)
    return bought > sum(line.extract.number for line in grist.malts)


def _strength(plan: Plan) -> float:
    return round(plan.figures.fermentation.abv.number, 1)


def _days(plan: Plan) -> float | None:
    return plan.figures.packaging.ready.number if plan.figures.packaging else None


def _begins_at(plan: Plan) -> float | None:
    return plan.recipe.ferment[0].temperature.number if plan.recipe.ferment else None


FROM = Facet(
    "from",
    "From",
    (
        Choice("grain", ("grain",), lambda plan: not _from_extract(plan)),
        Choice("extract", ("extract",), _from_extract),
    ),
    any_size=True,
    first=True,
)
"""What a beer is brewed from, in any of its sizes."""

FACETS = (
    FROM,
    Facet(
        "colour",
        "Colour",
        (
            _coloured("pale", "straw", "yellow", "gold", "light amber"),
            _coloured("amber", "amber", "copper", "light brown"),
            _coloured("dark", "brown", "dark brown", "nearly black", "black"),
        ),
        first=True,
    ),
    Facet(
        "strength",
        "Strength",
        (
            _between("small", "under 4.5 %", 0.0, 4.5, _strength),
            _between("ordinary", "4.5 to 6 %", 4.5, 6.0, _strength),
            _between("strong", "6 % and more", 6.0, inf, _strength),
        ),
        first=True,
    ),
    Facet(
        "balance",
        "Balance",
        (_balanced("malty", "malt leads"), _balanced("even", "even"), _balanced("hoppy", "hops lead", "bitter")),
    ),
    Facet("pot", "A pot of", tuple(map(_pot, (15.0, 25.0, 40.0))), any_size=True),
    Facet(
        "ready",
        "Ready in",
        (
            _between("month", "a month", 0.0, 32.0, _days),
            _between("season", "one to three months", 32.0, 92.0, _days),
            _between("year", "longer", 92.0, inf, _days),
        ),
    ),
    Facet(
        "ferments",
        "Ferments",
        (
            _between("cool", "in the cool, below 16 °C", -inf, 16.0, _begins_at),
            _between("room", "in a room", 16.0, inf, _begins_at),
        ),
    ),
)

POTS = (10, 12, 15, 17, 20, 25, 30, 35, 40, 50, 75, 100)
"""Sizes in which pots are sold (L; common practice, no source): something to choose by, and nothing rests on them."""

BREWS = (
    Facet("pot", "A pot of", tuple(map(_pot, POTS)), first=True),
    Facet(
        "beside",
        "Beside it",
        (
            _beside("alone", "nothing", ""),
            _beside("bag", "a bag", "", "bag"),
            _beside("tun", "a mash tun, as a cool box", "", "mash tun"),
        ),
        first=True,
    ),
)
"""By what a brew is chosen for the vessels that somebody has."""

KEYS = tuple(dict.fromkeys(choice.key for facet in (*FACETS, *BREWS) for choice in facet.choices))
"""Every key, for the style sheet, which has a rule for each."""


def keys_of(plan: Plan, editions: Iterable[Plan] = (), facets: Sequence[Facet] = FACETS) -> tuple[str, ...]:
    """The keys that a beer answers to, as it is written and in its editions."""
    every = (plan, *editions)
    return tuple(
        choice.key
        for facet in facets
        for choice in facet.choices
        if any(map(choice.holds, every if facet.any_size else (plan,)))
    )


def narrowings(beers: Sequence[Collection[str]], facets: Sequence[Facet] = FACETS) -> tuple[Narrowing, ...]:
    """What the beers of a book, given by their keys, may be narrowed by: where at least two answers are to be had."""
    if len(beers) < FEWEST:
        return ()
    found = []
    for facet in facets:
        counted = [(it.key, it.words, sum(it.key in keys for keys in beers)) for it in facet.choices]
        there = tuple(it for it in counted if it[2])
        if any(number < len(beers) for _, _, number in there):
            found.append(Narrowing(facet.name, facet.words, facet.first, there))
    return tuple(found)
