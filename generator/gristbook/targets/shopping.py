"""What to buy for several brews, times over, summed by ingredient, in packs where things are sold in packs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from gristbook.equations import extract, sums, yeast
from gristbook.targets.conventions import DRIED_PACK
from gristbook.targets.figures import Plan
from gristbook.worksheet import Value, apply

SECTIONS = ("Malt", "Malt extract", "Sugar", "Hops", "Yeast", "Finings and spices")


@dataclass(frozen=True, slots=True)
class Purchase:
    """A thing to buy and how much of it; ``packs`` where it is sold in packs besides."""

    section: str
    name: str
    amount: Value
    packs: Value | None


@dataclass(frozen=True, slots=True)
class _Need:
    section: str
    name: str
    amount: Value
    packs: Value | None = None


ADDED: Mapping[str, tuple[Callable[..., float], str]] = {
    "kg": (extract.total_mass, "parts_kg"),
    "g": (sums.total_hops, "parts_g"),
    "L": (sums.total_volume, "parts_l"),
    "packs": (yeast.total_packs, "parts"),
}
"""How amounts of each unit are added up."""


def shopping(plans: Sequence[Plan], times: int = 1) -> tuple[Purchase, ...]:
    """Everything to buy for the plans, each brewed so many times, by section and name.

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
            key = SECTIONS.index(need.section), need.name, need.amount.unit
            needs.setdefault(key, []).extend([need] * times)
    return tuple(
        Purchase(
            alike[0].section,
            alike[0].name,
            _sum(alike[0].name, [need.amount for need in alike]),
            _packs(alike),
        )
        for _, alike in sorted(needs.items(), key=lambda entry: entry[0])
    )


def _needs(plan: Plan) -> Iterator[_Need]:
    """What one brew takes."""
    figures = plan.figures
    for malt in figures.grist.malts:
        yield _Need("Malt", malt.malt.name, malt.mass)
    for sugar in figures.grist.sugars:
        yield _Need("Malt extract" if sugar.sugar.from_malt else "Sugar", sugar.sugar.name, sugar.mass)
    for hop in figures.bitterness.hops:
        form = "whole" if hop.hop.whole else "pellets"
        yield _Need("Hops", f"{hop.hop.name}, {form}", hop.mass)
    for line in figures.pitch.yeasts if figures.pitch else ():
        in_packs = apply(yeast.dried_packs, "packets", mass_g=line.amount, pack_g=DRIED_PACK) if line.dose else None
        yield _Need("Yeast", f"{line.yeast.name}, {'dried' if line.yeast.dried else 'liquid'}", line.amount, in_packs)
    for extra in plan.recipe.extras:
        if extra.amount is not None and extra.amount.unit in ADDED:
            yield _Need("Finings and spices", extra.name, extra.amount)
    if figures.packaging and figures.packaging.sugar is not None and plan.recipe.carbonation:
        yield _Need("Sugar", f"{plan.recipe.carbonation.sugar}, for priming", figures.packaging.sugar)


def _sum(name: str, amounts: list[Value]) -> Value:
    equation, argument = ADDED[amounts[0].unit]
    return apply(equation, f"{name} to buy", **{argument: tuple(amounts)})


def _packs(alike: list[_Need]) -> Value | None:
    packs = [need.packs for need in alike if need.packs is not None]
    return _sum("packets", packs) if packs else None
