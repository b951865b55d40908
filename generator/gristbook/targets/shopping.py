"""What to buy for several brews, times over, summed by ingredient, in packs where things are sold in packs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gristbook.equations import yeast
from gristbook.model.price import Prices
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply, given
from gristbook.targets.conventions import DRIED_PACK
from gristbook.targets.cost import cost_of_amount
from gristbook.targets.figures import Plan
from gristbook.targets.method_step import spoken
from gristbook.targets.water_chemistry import mix

SECTIONS = ("Malt", "Malt extract", "Sugar", "Hops", "Yeast", "Water, salts and acids", "Finings and spices")


@dataclass(frozen=True, slots=True)
class Purchase:
    """A thing to buy: ``amount`` where a recipe says how much, ``packs`` where it is sold so, ``cost`` by its price."""

    section: str
    name: str
    amount: Value | None
    packs: Value | None
    cost: Value | None


@dataclass(frozen=True, slots=True)
class _Need:
    """``sold_as`` is what the pantry calls it, if the list says more."""

    section: str
    name: str
    amount: Value | None
    sold_as: str
    packs: Value | None = None


def shopping(plans: Sequence[Plan], times: int = 1, prices: Prices | None = None) -> tuple[Purchase, ...]:
    """Everything to buy for the plans, each brewed so many times, by section and name; packs are paid for whole.

    Raises
    ------
    ValueError
        Brewing less than once.
    """
    if times < 1:
        raise ValueError("nothing is bought for a beer that is brewed less than once")
    needs: dict[tuple[int, str, str], list[_Need]] = {}
    for plan in plans:
        for need in _needs(plan):
            key = SECTIONS.index(need.section), need.name, need.amount.unit if need.amount else ""
            needs.setdefault(key, []).extend([need] * times)
    return tuple(_purchase(alike, prices) for _, alike in sorted(needs.items(), key=lambda entry: entry[0]))


def total_cost(bought: Sequence[Purchase]) -> tuple[Value | None, tuple[str, ...]]:
    """What a list costs, as far as there are prices, and the names of what has none."""
    parts = tuple(purchase.cost for purchase in bought if purchase.cost is not None)
    total = sum_of(parts, "cost of the list") if parts else None
    return total, tuple(purchase.name for purchase in bought if purchase.cost is None)


def _purchase(alike: Sequence[_Need], prices: Prices | None) -> Purchase:
    """Needs of one thing as one purchase."""
    first, packs = alike[0], _packs(alike)
    amount = _sum(first.name, [need.amount for need in alike if need.amount is not None])
    paid = amount
    if packs is not None and amount is not None and amount.unit == "g":
        paid = given(packs.number * DRIED_PACK.number, "g", f"{first.name}, in whole packets", words="as it is sold")
    cost = cost_of_amount(first.sold_as, paid, prices) if prices is not None and paid is not None else None
    return Purchase(first.section, first.name, amount, packs, cost)


def _needs(plan: Plan) -> Iterator[_Need]:
    """What one brew takes."""
    figures = plan.figures
    for malt in figures.grist.malts:
        yield _Need("Malt", malt.malt.name, malt.mass, malt.malt.name)
    for item in figures.grist.sugars:
        section, sugar = "Malt extract" if item.sugar.from_malt else "Sugar", item.sugar
        name = f"{sugar.name} ({sugar.label})" if sugar.label else sugar.name
        yield _Need(section, name, item.mass, sugar.pantry_name)
    for hop in figures.bitterness.hops:
        form = "whole" if hop.hop.whole else "pellets"
        yield _Need("Hops", f"{hop.hop.name}, {form}", hop.mass, hop.hop.name)
    for line in figures.pitch.yeasts if figures.pitch else ():
        in_packs = apply(yeast.dried_packs, "packets", mass_g=line.amount, pack_g=DRIED_PACK) if line.dose else None
        form = "dried" if line.yeast.dried else "liquid"
        yield _Need("Yeast", f"{line.yeast.name}, {form}", line.amount, line.yeast.name, in_packs)
    for water, volume in mix(plan.recipe.water, figures.water.total).others:
        yield _Need("Water, salts and acids", water.name, volume, water.name)
    for salt in plan.recipe.water.salts:
        yield _Need("Water, salts and acids", salt.name, salt.mass, salt.name)
    for acid in plan.recipe.water.acids:
        yield _Need("Water, salts and acids", acid.name, acid.volume, acid.name)
    for extra in plan.recipe.extras:
        yield _Need("Finings and spices", extra.name, extra.amount, extra.name)
    wanted = plan.recipe.carbonation
    if figures.packaging and figures.packaging.sugar is not None and wanted and wanted.sugar:
        name = spoken(wanted.sugar.name)
        yield _Need("Sugar", f"{name[:1].upper()}{name[1:]}, for priming", figures.packaging.sugar, wanted.sugar.name)


def _sum(name: str, amounts: list[Value]) -> Value | None:
    return sum_of(amounts, f"{name} to buy") if amounts else None


def _packs(alike: Sequence[_Need]) -> Value | None:
    packs = [need.packs for need in alike if need.packs is not None]
    return _sum("packets", packs) if packs else None
