"""A plan against its own brew, drawn anew: what of it is taken as decided, and which of its ranges do not hold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
from drawn_beer import figures
from drawn_brew import Brew
from drawn_doubts import Array, Doubts, OneByOne
from drawn_weighed import MARKS, Decided

from gristbook.pantry.pantry import Pantry
from gristbook.problems import Problems

SEED, DRAWS = 20260913, 5_000
INSIDE = {"halves": (87.0, 93.0), "lognormals": (86.0, 94.0)}
"""Per cent of the draws inside a range, by the shape of the doubts."""
TAIL = (2.0, 8.0)
"""Per cent beyond each end, of halves."""
MASHED = {"mash-water", "strike-temperature"}
ALWAYS = {
    *("boil-volume", "volume-at-the-end-of-the-boil", "into-the-fermenter", "beer-to-package"),
    *("original-gravity", "final-gravity", "alcohol-by-volume", "bitterness", "colour", "cells-to-pitch"),
    "priming-sugar",
}


@cache
def pantry() -> Pantry:
    """As it comes with the tool."""
    return Pantry.load(None, Problems())


def decided(plan: Any) -> Decided:
    """What the plan decided, as plain numbers."""
    it = plan.figures
    return Decided(
        tuple(line.mass.number for line in it.grist.malts),
        tuple(line.mass.number for line in it.grist.sugars),
        tuple(line.mass.number for line in it.bitterness.hops),
        it.volumes.boil.number,
        None if it.volumes.top_up is None else it.volumes.top_up.number,
        None if it.mash is None else it.mash.water.number,
        _first(plan.bitterness_model, it.bitterness.models),
        _first(plan.colour_model, it.colour.models),
        it.pitch.rate.number,
        _taught(plan.brewhouse),
    )


def _taught(brewhouse: Any) -> dict[str, dict[str, tuple[float, float]]]:
    """How far each doubt moves what batches taught, by setting and by doubt."""
    marks, found = f"marks of the kettle of {brewhouse.name}", {}
    for setting in ("efficiency", "conversion", "boil_off", "left_in_kettle", "left_in_fermenter"):
        value = getattr(brewhouse, setting)
        if value is not None and type(value.origin).__name__ == "Taught":
            found[setting] = {MARKS if it == marks else it: ends for it, ends in value.doubts.items()}
    return found


def _first(chosen: str, models: Any) -> tuple[str, ...]:
    """The models that are printed, the chosen one first."""
    return (chosen, *(name for name, _ in models if name != chosen))


def drawn(plan: Any, shape: str, draws: int = DRAWS) -> dict[str, Array]:
    """Every figure that is tried, in each draw."""
    doubts = Doubts(plan.recipe.slug, draws, shape, SEED)
    found = dict(figures(Brew(plan.recipe, plan.brewhouse, pantry(), decided(plan), doubts)))
    assert set(found) == ALWAYS | (MASHED if plan.figures.mash is not None else set())
    return found


def ends(plan: Any, bitterness_model: str, colour_model: str) -> dict[str, dict[str, tuple[float, float]]]:
    """How far each doubt moves each figure by these models, at its low and at its high, all else as it is typical."""
    taken = replace(decided(plan), bitterness_models=(bitterness_model,), colour_models=(colour_model,))

    def brewed(doubts: Doubts) -> Mapping[str, Array]:
        return figures(Brew(plan.recipe, plan.brewhouse, pantry(), taken, doubts))

    first = OneByOne.of(())
    brewed(first)
    names, found = tuple(first.met), {}
    for figure, at in brewed(OneByOne.of(names)).items():
        moved = {name: (float(at[1 + 2 * n] - at[0]), float(at[2 + 2 * n] - at[0])) for n, name in enumerate(names)}
        found[figure] = {name: it for name, it in moved.items() if max(map(abs, it)) > 1e-12 * abs(at[0])}
    return found


def amiss(plan: Any, shape: str) -> Iterator[str]:
    """Every figure whose range does not hold, and by how much."""
    least, most = INSIDE[shape]
    for figure, found in drawn(plan, shape).items():
        value = plan.named[figure]
        if np.ptp(found) <= 1e-12 * abs(value.number):
            if value.high - value.low > 1e-9 * abs(value.number):
                yield f"{figure}: {value.low:.5g} to {value.high:.5g} of what nothing moves"
            continue
        below, above = (100 * float(share.mean()) for share in (found < value.low, found > value.high))
        tails = shape != "halves" or TAIL[0] <= min(below, above) <= max(below, above) <= TAIL[1]
        if not (least <= 100 - below - above <= most and tails):
            low, half, high = np.quantile(found, (0.05, 0.5, 0.95))
            yield (
                f"{figure}: {value.low:.5g} to {value.high:.5g} ({value.number:.5g}) has {below:.1f} below, "
                f"{above:.1f} above; drawn {low:.5g} to {high:.5g} ({half:.5g})"
            )
