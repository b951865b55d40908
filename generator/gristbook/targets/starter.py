"""Starters for liquid yeast: how many cells a pack has after growing in some wort first, standing or stirred."""

from __future__ import annotations

from gristbook.equations import starter as equations
from gristbook.targets.conventions import (
    FRESH_PACK,
    STARTER_FALL,
    STARTER_GRAVITY,
    STARTER_POTENTIAL,
    STARTER_SECOND,
    STARTER_SIZES,
)
from gristbook.targets.results import Starter
from gristbook.worksheet import Calculator, N, Value


def starters(calc: Calculator[N]) -> tuple[Starter[N], ...]:
    """One fresh pack grown in one step of each size, and the largest of them once more in a second step."""
    one_step = tuple(_grown(size, FRESH_PACK, FRESH_PACK, 1, calc) for size in STARTER_SIZES)
    last = one_step[-1]
    return (*one_step, _grown(STARTER_SECOND, last.standing, last.stirred, 2, calc))


def _grown(size: Value, standing: N | Value, stirred: N | Value, steps: int, calc: Calculator[N]) -> Starter[N]:
    def extract(potential: Value | float, label: str) -> N:
        return calc(equations.starter_extract, label, starter_l=size, gravity=STARTER_GRAVITY, potential=potential)

    return Starter(
        steps,
        size,
        extract(STARTER_POTENTIAL, f"dried malt extract for {size.label}"),
        calc(
            equations.starter_cells_white_zainasheff_2010,
            f"cells after {size.label}, standing",
            cells=standing,
            starter_l=size,
            fall=STARTER_FALL,
        ),
        calc(
            equations.starter_cells_troester_2012,
            f"cells after {size.label}, stirred",
            cells=stirred,
            extract_g=extract(1.0, f"extract in {size.label}"),
        ),
    )
