"""Out of the mash: what dissolved in it, by its first wort, told apart from what of that ran off the grain."""

from __future__ import annotations

from gristbook.equations import gravity, runnings
from gristbook.sheet.arithmetic import less, share_of
from gristbook.sheet.value import Value, given
from gristbook.targets.batches.compared import verdict_on
from gristbook.targets.batches.measured import Bench
from gristbook.targets.batches.results import Corrected
from gristbook.targets.wort.efficiency import runs_off

PLANNED_ONCE = given(
    0.95, "fraction", "conversion", words="what the first runnings of a plan that names no conversion went by"
)
WORDS = {
    (True, True): "The mash dissolved less than planned, and less of that ran off: look at the crush, and at the "
    "mash's temperature, pH and time; then sparge more slowly, and stir the sparge in.",
    (True, False): "The first runnings were thin, and the rest ran off as planned: the mash dissolved less. Look "
    "at the crush, and at the mash's temperature, pH and time.",
    (False, True): "The mash dissolved what was planned, and less of it ran off: sparge more slowly, stir the "
    "sparge in, and break up channels in the grain.",
}
"""What to look at, by whether conversion and lautering fell short of their plan; common practice, no source."""


def conversion_of(bench: Bench, first_runnings: Corrected | None) -> Value | None:
    """The share of the extract that dissolved, by the gravity of the first runnings."""

    def extract(value: Value | None) -> Value | None:
        return bench.put(gravity.plato_from_gravity, "extract of the first runnings", gravity=value)

    return bench.put(
        runnings.conversion_shown,
        "conversion as measured",
        extract=extract(first_runnings.gravity if first_runnings else None),
        planned_extract=extract(bench.planned("gravity-of-the-first-runnings", "SG")),
        planned_conversion=bench.planned("conversion", "fraction") or PLANNED_ONCE,
    )


def runs_off_of(efficiency: Value, of_it: Value) -> Value:
    """One of the two factors of a mash efficiency from the other."""
    return share_of(efficiency, of_it, "")


def told_apart(bench: Bench, conversion: Value | None, lauter: Value | None) -> str:
    """Which of the two fell short of its plan, in words; "" where neither did, or nobody measured both."""
    planned = planned_lauter(bench)
    dissolves = bench.planned("conversion", "fraction") or bench.made(
        "conversion as planned", runs_off_of, bench.planned("mash-efficiency", "fraction"), planned
    )
    if conversion is None or lauter is None:
        return ""
    thin, held_back = (verdict_on(*it) == "below" for it in ((dissolves, conversion), (planned, lauter)))
    return WORDS.get((thin, held_back), "")


def planned_lauter(bench: Bench) -> Value | None:
    """The share of the dissolved extract that was to run off, for an old plan by its volumes."""
    found = bench.planned("lauter-efficiency", "fraction")
    if found is not None:
        return found
    sparge, top_up = bench.planned("sparge-water", "L"), bench.planned("top-up-water", "L")

    def balanced(grain: Value, total: Value, run_off: Value) -> Value:
        poured = less(total, top_up, left="the brewing water") if top_up is not None else total
        kept = less(poured, run_off, left="water that the grain keeps")
        first = less(run_off, sparge, left="the first run-off") if sparge is not None else None
        return runs_off(kept / grain, grain, run_off, first)

    return bench.made(
        "share that was to run off",
        balanced,
        bench.planned("grain-mashed", "kg"),
        bench.planned("total-water", "L"),
        bench.planned("boil-volume", "L"),
    )
