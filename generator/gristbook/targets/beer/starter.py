"""Starters for liquid yeast: how many cells a pack has after growing in some wort first, standing or stirred."""

from __future__ import annotations

from gristbook.equations import starter as equations
from gristbook.sheet.value import Value, apply
from gristbook.targets.conventions import (
    FRESH_PACK,
    STARTER_FALL,
    STARTER_GRAVITY,
    STARTER_POTENTIAL,
    STARTER_SECOND,
    STARTER_SIZES,
)
from gristbook.targets.results import Starter


def starters() -> tuple[Starter, ...]:
    """One fresh pack grown in one step of each size, and the largest of them once more in a second step."""
    one_step = tuple(_grown(size, FRESH_PACK, FRESH_PACK, 1) for size in STARTER_SIZES)
    last = one_step[-1]
    return (*one_step, _grown(STARTER_SECOND, last.standing, last.stirred, 2))


def own_starter(size: Value, cells: Value) -> Starter:
    """A recipe's own starter, of so many cells."""
    return _grown(size, cells, cells, 1)


def _grown(size: Value, standing: Value, stirred: Value, steps: int) -> Starter:
    def extract(potential: Value | float, label: str) -> Value:
        return apply(equations.starter_extract, label, starter_l=size, gravity=STARTER_GRAVITY, potential=potential)

    return Starter(
        steps,
        size,
        extract(STARTER_POTENTIAL, f"dried malt extract for {size.label}"),
        apply(
            equations.starter_cells_white_zainasheff_2010,
            f"cells after {size.label}, standing",
            cells=standing,
            starter_l=size,
            fall=STARTER_FALL,
        ),
        apply(
            equations.starter_cells_troester_2012,
            f"cells after {size.label}, stirred",
            cells=stirred,
            extract_g=extract(1.0, f"extract in {size.label}"),
        ),
    )
