"""What to buy for several brews, times over, summed by ingredient, in packs where things are sold in packs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from gristbook.model.price import Prices
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, given
from gristbook.targets.buying.cost import SECTIONS, Need, cost_of_amount, needs
from gristbook.targets.conventions import DRIED_PACK
from gristbook.targets.figures import Plan

HEAVY: Mapping[str, float] = {"kg": 1000.0, "L": 1000.0}
"""How many grams or millilitres a unit is."""


@dataclass(frozen=True, slots=True)
class Purchase:
    """A thing to buy: ``amount`` where a recipe says how much, ``packs`` where it is sold so, ``cost`` by its price.

    ``sold_as`` is what the pantry calls it, and ``note`` what the lines of it say besides.
    """

    section: str
    name: str
    sold_as: str
    amount: Value | None
    packs: Value | None
    cost: Value | None
    note: str = ""

    @property
    def key(self) -> str:
        """What is one purchase: a thing by its name, and how it is measured."""
        return f"{self.name} {self.unit}".strip()

    @property
    def unit(self) -> str:
        """What its amount is kept in; "" where nobody says how much."""
        return self.amount.unit if self.amount is not None else ""

    @property
    def size(self) -> float:
        """How much it is to carry: g, mL or a number of things; less than nothing where nobody says how much."""
        return self.amount.number * HEAVY.get(self.amount.unit, 1.0) if self.amount is not None else -1.0


def shopping(plans: Sequence[Plan], times: int = 1, prices: Prices | None = None) -> tuple[Purchase, ...]:
    """Everything to buy for the plans, each brewed so many times, by section, most first; packs are paid for whole.

    Raises
    ------
    ValueError
        Brewing less than once.
    """
    if times < 1:
        raise ValueError("nothing is bought for a beer that is brewed less than once")
    return bought_for((it for plan in plans for it in needs(plan.recipe, plan.figures) for _ in range(times)), prices)


def bought_for(wanted: Iterable[Need], prices: Prices | None = None) -> tuple[Purchase, ...]:
    """Everything that brews need, by section, most first; packs are paid for whole."""
    alike: dict[tuple[int, str, str], list[Need]] = {}
    for need in wanted:
        key = SECTIONS.index(need.section), need.name, need.amount.unit if need.amount else ""
        alike.setdefault(key, []).append(need)
    bought = (_purchase(alike[key], prices) for key in sorted(alike))
    return tuple(sorted(bought, key=lambda it: (SECTIONS.index(it.section), -it.size)))


def total_cost(bought: Sequence[Purchase]) -> tuple[Value | None, tuple[str, ...]]:
    """What a list costs, as far as there are prices, and the names of what has none."""
    total = _sum("cost of the list", (purchase.cost for purchase in bought))
    return total, tuple(purchase.name for purchase in bought if purchase.cost is None)


def _purchase(alike: Sequence[Need], prices: Prices | None) -> Purchase:
    """Needs of one thing as one purchase."""
    first = alike[0]
    packs = _sum("packets to buy", (need.packs for need in alike))
    amount = _sum(f"{first.name} to buy", (need.amount for need in alike))
    paid = amount
    if packs is not None and amount is not None and amount.unit == "g":
        paid = given(packs.number * DRIED_PACK.number, "g", f"{first.name}, in whole packets", words="as it is sold")
    cost = cost_of_amount(first.sold_as, paid, prices) if prices is not None and paid is not None else None
    note = "; ".join(dict.fromkeys(need.note for need in alike if need.note))
    return Purchase(first.section, first.name, first.sold_as, amount, packs, cost, note)


def _sum(label: str, amounts: Iterable[Value | None]) -> Value | None:
    known = [amount for amount in amounts if amount is not None]
    return sum_of(known, label) if known else None
