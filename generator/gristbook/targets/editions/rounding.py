"""Practical amounts: what people can weigh and buy, in the units of the edition."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TypeAlias

from gristbook.model.extra import Extra
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import in_steps
from gristbook.sheet.value import Value, constant, given, settled
from gristbook.targets.editions.gravity import items, masses, reweighed
from gristbook.targets.results import Figures

OUNCE_G = 28.349523125


Steps: TypeAlias = tuple[tuple[float, float], ...]
"""From how many grams or millilitres on, which step; the last that is reached holds."""

METRIC: Mapping[str, Steps] = {
    "grain": ((0.0, 5.0), (250.0, 10.0)),
    "hops": ((0.0, 1.0), (100.0, 5.0)),
    "yeast": ((0.0, 0.5), (5.0, 1.0)),
    "pinch": ((0.0, 0.1), (2.0, 0.5), (10.0, 1.0)),
    "salt": ((0.0, 0.05), (1.0, 0.1), (10.0, 0.5)),
}
US: Mapping[str, Steps] = {
    **METRIC,
    "grain": ((0.0, OUNCE_G / 4), (8 * OUNCE_G, OUNCE_G)),
    "hops": ((0.0, OUNCE_G / 20), (2 * OUNCE_G, OUNCE_G / 4)),
}
"""Grams for metric editions; ounces down to twentieths for the others, and grams for yeast, as on its packet.

Pinches of spice and salt are grams in both: an eighth of an ounce is far too much of some.
"""

ACID_STEPS: Steps = ((0.0, 0.1), (5.0, 0.5), (10.0, 1.0))
"""Millilitres of an acid, in both: a syringe has no other scale."""

SPOON_L = 0.00492892159375
"""A US teaspoon, a 768th of a gallon; spoons of cooking come in quarters of it."""


def rounded(recipe: Recipe, figures: Figures, us: bool) -> Recipe:
    """A recipe whose weights, solved or scaled, are what a scale can show; a hopped tin goes in as it is."""
    steps = US if us else METRIC
    pitched = figures.pitch.yeasts if figures.pitch else ()
    tins = {kit.place for kit in recipe.kits}
    lines = zip(items(recipe), masses(figures.grist), strict=True)
    return replace(
        reweighed(
            recipe, (None if it.place in tins else _weighed(mass, it.name, steps["grain"]) for it, mass in lines)
        ),
        original_gravity=None,
        hops=tuple(
            line.hop.weighing(_weighed(line.mass, line.hop.name, steps["hops"])) for line in figures.bitterness.hops
        ),
        yeasts=tuple(
            replace(
                line.yeast,
                amount=_weighed(line.amount, line.yeast.name, steps["yeast"])
                if line.amount.unit == "g"
                else line.amount,
            )
            for line in pitched
        ),
        water=replace(
            recipe.water,
            salts=tuple(
                replace(salt, mass=_weighed(salt.mass, salt.name, steps["salt"])) for salt in recipe.water.salts
            ),
            acids=tuple(replace(acid, volume=_measured(acid.volume, acid.name)) for acid in recipe.water.acids),
        ),
        extras=tuple(_extra(extra, steps["pinch"]) for extra in recipe.extras),
    )


def _extra(extra: Extra, steps: Steps) -> Extra:
    """A fining or a spice as a kitchen weighs it, by the quarter of a spoon, or counted; packs stay as they are."""
    amount = extra.amount
    if amount is None or amount.unit not in ("kg", "L", "pieces"):
        return extra
    if amount.unit == "pieces":
        step = constant(_step(PIECES, amount.number), "pieces", "what can be counted or cut")
        counted = settled(in_steps(amount, step, f"{extra.name}, counted"))
        return replace(extra, amount=counted, written=f"{counted.number:g} {extra.counted}".rstrip())
    if amount.unit == "kg":
        return replace(extra, amount=_weighed(amount, extra.name, steps))
    quarters = max(round(4 * amount.number / SPOON_L), 1)
    origin = "rounded to quarters of a teaspoon"
    return replace(extra, amount=given(quarters * SPOON_L / 4, "L", amount.label, words=origin, place=extra.place))


PIECES: Steps = ((0.0, 0.25), (1.0, 0.5), (4.0, 1.0))
"""Quarters of a piece below one, halves below four, then whole ones."""


def _step(steps: Steps, number: float) -> float:
    return next(step for least, step in reversed(steps) if number >= least)


def _weighed(mass: Value, name: str, steps: Steps) -> Value:
    """A weight (kg or g) as a scale shows it."""
    grams = 1000 if mass.unit == "kg" else 1
    step = constant(_step(steps, grams * mass.number) / grams, mass.unit, "the scale")
    return settled(in_steps(mass, step, f"weight of {name}, rounded"))


def _measured(volume: Value, name: str) -> Value:
    step = constant(_step(ACID_STEPS, volume.number), "mL", "a small syringe")
    return settled(in_steps(volume, step, f"measure of {name}, rounded"))
