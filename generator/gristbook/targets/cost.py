"""What a brew costs, by ingredient and in all, where the author has a price for everything in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from gristbook.model.price import Prices
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value
from gristbook.targets.results import Figures
from gristbook.targets.water_chemistry import mix

SOLD: Mapping[str, str] = {"kg": "kg", "g": "kg", "L": "L", "mL": "L", "packs": "packs", "pieces": "pieces"}
"""By the unit of an amount: what its price is for."""


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
    for name, amount in _bought(recipe, figures):
        part = cost_of_amount(name, amount, prices) if amount is not None else None
        if part is None:
            missing.append(name)
        else:
            parts.append(part)
    if missing or not parts:
        return Cost(prices.currency, None, None, tuple(dict.fromkeys(missing)))
    total = sum_of(tuple(parts), f"cost of the brew, in {prices.currency}")
    label = f"cost of a litre of the beer, in {prices.currency}"
    a_litre = (total / figures.volumes.packaged).called(label)
    return Cost(prices.currency, total, a_litre, ())


def cost_of_amount(name: str, amount: Value, prices: Prices) -> Value | None:
    """The cost of one ingredient; `None` where it has no price by that measure."""
    price = prices.of(name, SOLD[amount.unit])
    return (amount * price).called(f"cost of {name}, in {prices.currency}") if price is not None else None


def _bought(recipe: Recipe, figures: Figures) -> Iterator[tuple[str, Value | None]]:
    """Everything that goes in, by its name in the pantry."""
    yield from ((line.malt.name, line.mass) for line in figures.grist.malts)
    yield from ((line.sugar.pantry_name, line.mass) for line in figures.grist.sugars)
    yield from ((line.hop.name, line.mass) for line in figures.bitterness.hops)
    yield from ((line.yeast.name, line.amount) for line in (figures.pitch.yeasts if figures.pitch else ()))
    others = mix(recipe.water, figures.water.total).others
    yield from ((water.name, volume) for water, volume in others)
    yield from ((salt.name, salt.mass) for salt in recipe.water.salts)
    yield from ((acid.name, acid.volume) for acid in recipe.water.acids)
    yield from ((extra.name, extra.amount) for extra in recipe.extras)
    if figures.packaging and figures.packaging.sugar is not None and recipe.carbonation and recipe.carbonation.sugar:
        yield recipe.carbonation.sugar.name, figures.packaging.sugar
