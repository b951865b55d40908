"""Which pot have you: every brew of the book by the vessels that it needs, the smallest pot first."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from math import ceil

from markupsafe import Markup

from gristbook.site import pages as at
from gristbook.site.addresses import slug
from gristbook.site.amounts import SPACE, Amount, amount, amount_of
from gristbook.site.beer.editions import kit
from gristbook.site.beer.known import Known
from gristbook.site.book.narrowing import BREWS, POTS, Narrowing, keys_of, narrowings
from gristbook.site.pages import Group, Page
from gristbook.site.printing import Printing
from gristbook.site.prose import line
from gristbook.targets.advice.misfits import STIRRED, Fill, fill
from gristbook.targets.conventions import USABLE

KITS = (("", "malt extract"), ("bag", "malt extract"), ("bag", "grain"), ("mash tun", "grain"))
"""What brews need beside a pot and what they are made from, the least first."""


@dataclass(frozen=True, slots=True)
class Row:
    """A brew: its page, its beer, what it makes, how full its pot becomes, and what it may be chosen by.

    ``least`` and ``full`` (L) are for a script, which works out the share of a pot that somebody types; ``shares`` are
    those of the pots that one may choose, by their keys.
    """

    path: str
    title: Markup
    makes: Amount
    keys: tuple[str, ...]
    least: float
    pot: Amount
    full: float
    fullest: Amount
    what: str
    weight: Amount
    shares: tuple[tuple[str, Amount], ...]


@dataclass(frozen=True, slots=True)
class PotsPage:
    """Every brew by what it needs; ``boiled`` and ``mashed`` are what share of a pot a boil and a mash may fill."""

    narrowings: tuple[Narrowing, ...]
    beers: int
    kinds: tuple[Group[Row], ...]
    boiled: Amount
    mashed: Amount


def pots_page(printing: Printing) -> Page:
    """The page that leads from a pot to what can be brewed in it."""
    brews = [(beer, it) for beer in printing.beers.values() for it in beer.ask(_needs)]
    most = max((it.fill.least for _, it in brews), default=0.0)
    smaller = sum(litres < most for litres in POTS)
    pots = replace(BREWS[0], choices=BREWS[0].choices[: smaller + 1])  # up to the first that is large enough for all
    facets = (pots, *BREWS[1:])
    keys = {choice.key for facet in facets for choice in facet.choices}
    rows = [(it.kit, _row(beer, it, keys)) for beer, it in brews]
    rows.sort(key=lambda it: (it[1].least, it[1].title))
    titles = {kind: f"One pot{f' and a {kind[0]}' if kind[0] else ''}, from {kind[1]}" for kind in KITS}
    kinds = [
        Group(slug(title), title, tuple(row for its, row in rows if its == kind)) for kind, title in titles.items()
    ]
    found = narrowings([row.keys for _, row in rows], facets)
    shares = (amount_of(share, "fraction") for share in (USABLE, STIRRED))
    view = PotsPage(found, len(rows), tuple(kind for kind in kinds if kind.rows), *shares)
    words = "What can be brewed in a pot of your size, and how full it will be."
    return printing.page(at.POTS, "pots.html", "Which pot have you?", words, view)


def pot_of(fill: Fill) -> float:
    """The least that a brew's pot must hold to the brim (L), rounded up: a larger one does no harm."""
    return ceil(10 * fill.least - 1e-6) / 10


@dataclass(frozen=True, slots=True)
class _Need:
    """What a brew asks of a pot: its page, what it makes, its kit, how full a pot becomes, all that it answers to."""

    path: str
    makes: Amount
    kit: tuple[str, str]
    fill: Fill
    keys: tuple[str, ...]


def _needs(it: Known) -> tuple[_Need, ...]:
    brews = ((brew, brew.plan) for brew in it.beer.brews())
    return tuple(
        _Need(brew.at.page, amount(plan.recipe.batch), kit(plan), fill(plan), keys_of(plan, facets=BREWS))
        for brew, plan in brews
    )


def _row(beer: Known, need: _Need, among: Collection[str]) -> Row:
    it, keys, least = need.fill, tuple(key for key in need.keys if key in among), pot_of(need.fill)
    return Row(
        need.path,
        line(beer.title),
        need.makes,
        keys,
        least,
        amount_of(least, "L"),
        it.fullest,
        amount_of(it.fullest, "L", worked_out=True),
        it.what,
        Amount(f"{ceil(it.weight)}{SPACE}kg", amount_of(it.weight, "kg").us.partition(" ")[0]),
        tuple(
            (f"pot-{litres}", amount_of(round(it.fullest / litres, 2), "fraction"))
            for litres in POTS
            if f"pot-{litres}" in keys
        ),
    )
