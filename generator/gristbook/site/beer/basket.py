"""What to buy for some beers in one size, and how much of it is each beer's: for its own page and for a chapter's."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from gristbook.model.price import Prices
from gristbook.sheet.value import Value
from gristbook.site.amounts import bare
from gristbook.site.prose import plain
from gristbook.site.words import counted
from gristbook.targets.buying.cost import Need
from gristbook.targets.buying.shopping import Purchase, bought_for, total_cost


@dataclass(frozen=True, slots=True)
class Basket:
    """What to buy for some beers in one size; ``without`` are beers that it leaves out, and why.

    ``currency`` is empty in a book without prices, and ``total`` what the list costs without what is ``unpriced``.
    ``instead`` has the names of what can stand in for a thing. Of several beers, ``titles`` are theirs, and ``shares``
    says for a script how much of each thing is whose: by the beer's place in ``titles`` amount, packs and cost.
    """

    anchor: str
    words: str
    us: bool
    beers: str
    without: tuple[tuple[str, str], ...]
    shelves: tuple[tuple[str, tuple[Purchase, ...]], ...]
    currency: str
    total: Value | None
    unpriced: tuple[str, ...]
    instead: Mapping[str, tuple[str, ...]]
    titles: tuple[str, ...]
    shares: Mapping[str, str]


def basket(
    brews: Sequence[tuple[str, Sequence[Need]]],
    prices: Prices | None,
    instead: Mapping[str, tuple[str, ...]],
    anchor: str = "buy",
    words: str = "",
    without: tuple[tuple[str, str], ...] = (),
    *,
    us: bool,
) -> Basket:
    """The list for some beers, each brewed once: for each its title and what goes into it."""
    bought = bought_for((need for _, needs in brews for need in needs), prices)
    shelves = tuple((title, tuple(rows)) for title, rows in groupby(bought, key=lambda purchase: purchase.section))
    total, unpriced = total_cost(bought)
    beers = f"{counted(len(brews))} {'beer' if len(brews) == 1 else 'beers'}"
    currency = prices.currency if prices and total is not None else ""
    titles = tuple(plain(title) for title, _ in brews)
    shares = _shares([needs for _, needs in brews], prices) if len(brews) > 1 else {}
    return Basket(anchor, words, us, beers, without, shelves, currency, total, unpriced, instead, titles, shares)


def _shares(brews: Sequence[Sequence[Need]], prices: Prices | None) -> Mapping[str, str]:
    """How much of each thing is whose, by the thing's key."""
    found: dict[str, list[str]] = {}
    for place, needs in enumerate(brews):
        for it in bought_for(needs, prices):
            numbers = ",".join(bare(value.number) if value else "" for value in (it.amount, it.packs, it.cost))
            found.setdefault(it.key, []).append(f"{place},{numbers}")
    return {key: " ".join(shares) for key, shares in found.items()}
