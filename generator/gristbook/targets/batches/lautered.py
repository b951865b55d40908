"""What the plan of a batch let run off the grain, and what the brew did: conversion told apart from lautering."""

from __future__ import annotations

from gristbook.sheet.arithmetic import less, share_of
from gristbook.sheet.value import Value
from gristbook.targets.batches import frozen
from gristbook.targets.batches.measured import Bench
from gristbook.targets.wort.efficiency import runs_off


def planned_lauter(bench: Bench) -> Value | None:
    """The share of the dissolved extract that was to run off, for an old plan by its volumes."""
    found = bench.planned("lauter-efficiency", "fraction")
    if found is not None:
        return found
    sparge, top_up = bench.planned("sparge-water", "L"), bench.planned("top-up-water", "L")

    def balanced(grain: Value, potential: Value, total: Value, run_off: Value) -> Value:
        poured = less(total, top_up, left="the brewing water") if top_up is not None else total
        kept = less(poured, run_off, left="water that the grain keeps") / grain
        in_the_mash = less(poured, sparge, left="the mash water") if sparge is not None else None
        share = share_of(potential, grain, "potential of the mashed grain")
        return runs_off(kept, grain, share, run_off, in_the_mash)

    return bench.made(
        "share that was to run off",
        balanced,
        bench.planned("grain-mashed", "kg"),
        bench.planned(frozen.POTENTIAL, "kg"),
        bench.planned("total-water", "L"),
        bench.planned("boil-volume", "L"),
    )
