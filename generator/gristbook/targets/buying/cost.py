"""What goes into a brew, and what it costs where the author has a price for all of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from gristbook.equations import yeast
from gristbook.model.price import Prices
from gristbook.model.recipe import Recipe
from gristbook.problems import spoken as said
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply
from gristbook.targets.conventions import DRIED_PACK
from gristbook.targets.method.step import spoken
from gristbook.targets.results import Figures
from gristbook.targets.water.chemistry import mix

SOLD: Mapping[str, str] = {"kg": "kg", "g": "kg", "L": "L", "mL": "L", "packs": "packs", "pieces": "pieces"}
"""By the unit of an amount: what its price is for."""
SECTIONS = (
    "Malt",
    "Malt extract",
    "Sugar",
    "Fruit and juice",
    "Hops",
    "Yeast",
    "Water, salts and acids",
    "Finings and spices",
)
"""The parts of a shopping list, in its order."""


@dataclass(frozen=True, slots=True)
class Cost:
    """The cost of a brew and of a litre of it, or else the names of what has no price."""

    currency: str
    total: Value | None
    a_litre: Value | None
    missing: tuple[str, ...]


def cost_of(recipe: Recipe, figures: Figures, prices: Prices | None) -> Cost | None:
    """What a brew costs; `None` in a book without prices. Water from the tap, fuel and gas are not counted."""
    if prices is None:
        return None
    parts: list[Value] = []
    missing: list[str] = []
    for need in needs(recipe, figures):
        part = cost_of_amount(need.sold_as, need.amount, prices) if need.amount is not None else None
        if part is None:
            missing.append(need.sold_as)
        else:
            parts.append(part)
    if missing or not parts:
        return Cost(prices.currency, None, None, tuple(dict.fromkeys(missing)))
    total = sum_of(parts, f"cost of the brew, in {prices.currency}")
    a_litre = (total / figures.volumes.packaged).called(f"cost of a litre of the beer, in {prices.currency}")
    return Cost(prices.currency, total, a_litre, ())


def cost_of_amount(name: str, amount: Value, prices: Prices) -> Value | None:
    """The cost of one ingredient; `None` where it has no price by that measure."""
    price = prices.of(name, SOLD[amount.unit])
    return (amount * price).called(f"cost of {name}, in {prices.currency}") if price is not None else None


@dataclass(frozen=True, slots=True)
class Need:
    """A thing that a brew takes, in its section of a shopping list; ``sold_as`` is what the pantry calls it.

    ``amount`` is there where a recipe says how much, ``packs`` where it is weighed and sold in packets,
    and ``note`` what its line says besides.
    """

    section: str
    name: str
    amount: Value | None
    sold_as: str
    packs: Value | None = None
    note: str = ""


def needs(recipe: Recipe, figures: Figures) -> Iterator[Need]:
    """Everything that goes into one brew."""
    for malt in figures.grist.malts:
        yield Need("Malt", malt.malt.name, malt.mass, malt.malt.name, note=malt.malt.aside)
    for item in figures.grist.sugars:
        sugar = item.sugar
        section = "Malt extract" if sugar.from_malt else "Fruit and juice" if sugar.flesh else "Sugar"
        name = f"{sugar.name} ({sugar.label})" if sugar.label else sugar.name
        yield Need(section, name, item.mass, sugar.pantry_name, note=sugar.aside)
    for hop in figures.bitterness.hops:
        yield Need("Hops", f"{hop.hop.name}, {hop.hop.form}", hop.mass, hop.hop.name, note=hop.hop.aside)
    for line in figures.pitch.yeasts if figures.pitch else ():
        in_packs = apply(yeast.dried_packs, "packets", mass_g=line.amount, pack_g=DRIED_PACK) if line.dose else None
        own = line.yeast
        old = f"{said(own.age.number, own.age.unit)} old" if own.age is not None else ""
        note = "; ".join(part for part in (old, own.aside) if part)
        yield Need("Yeast", f"{own.name}, {own.form}", line.amount, own.name, in_packs, note)
    yield from beside(recipe, figures)


def beside(recipe: Recipe, figures: Figures) -> Iterator[Need]:
    """What goes in beside malt, sugar, hops and yeast: for the water, finings and spices, and the priming."""
    notes = {it.water.name: it.note for it in recipe.water.dilutions}
    treated: list[tuple[str, Value, str]] = [
        (it.name, volume, notes.get(it.name, "")) for it, volume in mix(recipe.water, figures.water.total).others
    ]
    treated += [(salt.name, salt.mass, salt.note) for salt in recipe.water.salts]
    treated += [(acid.name, acid.volume, acid.note) for acid in recipe.water.acids]
    for name, amount, note in treated:
        yield Need("Water, salts and acids", name, amount, name, note=note)
    for extra in recipe.extras:
        yield Need("Finings and spices", extra.name, extra.amount, extra.name, note=extra.note)
    primed = recipe.carbonation.sugar if recipe.carbonation else None
    if primed and figures.packaging and figures.packaging.sugar is not None:
        name = spoken(primed.name)
        yield Need("Sugar", f"{name[:1].upper()}{name[1:]}, for priming", figures.packaging.sugar, primed.name)
