"""Out of the mash: what dissolved in it, by its first wort, told apart from what of that ran off the grain."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.equations import gravity, runnings
from gristbook.sheet.arithmetic import less, share_of
from gristbook.sheet.value import Value, settled
from gristbook.targets.batches import frozen
from gristbook.targets.batches.compared import verdict_on
from gristbook.targets.batches.measured import Bench
from gristbook.targets.batches.results import Corrected
from gristbook.targets.conventions import MALT_WATER, within
from gristbook.targets.wort.efficiency import runs_off

FAR = 0.75
"""A lauter efficiency below this share of the planned one is rather a slip of a reading (our own)."""
WORDS = {
    (True, True): "The mash dissolved less than planned, and less of that ran off: look at the crush, and at the "
    "mash's temperature, pH and time; then sparge more slowly, and stir the sparge in.",
    (True, False): "The first runnings were thin, and the rest ran off as planned: the mash dissolved less. Look "
    "at the crush, and at the mash's temperature, pH and time.",
    (False, True): "The mash dissolved what was planned, and less of it ran off: sparge more slowly, stir the "
    "sparge in, and break up channels in the grain.",
}
"""What to look at, by whether conversion and lautering fell short of their plan; common practice, no source."""


@dataclass(frozen=True, slots=True)
class MashPlan:
    """What a plan wants of its mash: the gravity of the first runnings (SG), conversion and lauter efficiency.

    A plan that names no conversion of its own is held to what its mash efficiency says, and not to first runnings that
    went by another.
    """

    first_runnings: Value | None
    conversion: Value | None
    lauter: Value | None

    def agrees(self, efficiency: Value, conversion: Value, lauter: Value) -> bool:
        """Whether what dissolved and what came into the kettle can be true of one mash.

        Grain keeps wort, so that never all of it runs off, nor much more than a well-mixed mash lets go.
        """
        if conversion.number >= 1 or efficiency.number >= conversion.number:
            return False
        planned = self.lauter
        return verdict_on(planned, lauter) != "above" and (planned is None or lauter.number >= FAR * planned.number)


def mash_plan(bench: Bench) -> MashPlan:
    """A plan's mash; for an old plan by its efficiency, its volumes and its water."""
    own, lauter = bench.planned("conversion", "fraction"), _planned_lauter(bench)
    first_runnings = bench.planned("gravity-of-the-first-runnings", "SG")
    efficiency = bench.planned("mash-efficiency", "fraction")
    if own is not None:
        return MashPlan(first_runnings, own, lauter)
    if efficiency is None or lauter is None or efficiency.number > lauter.number:
        return MashPlan(None, None, lauter)
    conversion = bench.made("conversion as planned", runs_off_of, efficiency, lauter)
    grain, water = bench.planned("grain-mashed", "kg"), _in_the_mash(bench)
    plato = bench.put(
        runnings.first_runnings_extract,
        "extract of the first runnings as planned",
        potential_kg=bench.planned(frozen.POTENTIAL, "kg"),
        conversion=conversion,
        mash_l=bench.made(
            "water in the mash, the malt's own with it", lambda kg, poured: poured + kg * MALT_WATER, grain, water
        ),
    )
    label = "first runnings as planned, by its efficiency"
    return MashPlan(bench.put(gravity.gravity_from_plato, label, extract=plato), conversion, lauter)


def conversion_of(bench: Bench, first_runnings: Corrected | None, plan: MashPlan) -> Value | None:
    """The share of the extract that dissolved, by the gravity of the first runnings."""

    def extract(value: Value | None) -> Value | None:
        return bench.put(gravity.plato_from_gravity, "extract of the first runnings", gravity=value)

    own = bench.planned("conversion", "fraction")
    return bench.put(
        runnings.conversion_shown,
        "conversion as measured",
        extract=extract(first_runnings.gravity if first_runnings else None),
        planned_extract=extract(plan.first_runnings),
        planned_conversion=settled(own) if own is not None else plan.conversion,
    )


def runs_off_of(efficiency: Value, of_it: Value) -> Value:
    """One of the two factors of a mash efficiency from the other."""
    return share_of(efficiency, of_it, "")


def told_apart(plan: MashPlan, conversion: Value | None, lauter: Value | None) -> str:
    """Which of the two fell short of its plan, in words; "" where neither did, or nobody measured both."""
    if conversion is None or lauter is None:
        return ""
    pairs = ((plan.conversion, conversion), (plan.lauter, lauter))
    thin, held_back = (verdict_on(*it) == "below" for it in pairs)
    return WORDS.get((thin, held_back), "")


def _poured(bench: Bench) -> Value | None:
    """Water that goes through the grain."""
    total, top_up = bench.planned("total-water", "L"), bench.planned("top-up-water", "L")
    if total is None or top_up is None:
        return total
    return bench.made("water through the grain", lambda *it: less(*it, left="the brewing water"), total, top_up)


def _in_the_mash(bench: Bench) -> Value | None:
    """Water in the mash before any sparge."""
    poured, sparge = _poured(bench), bench.planned("sparge-water", "L")
    if sparge is not None:
        poured = bench.made("mash water", lambda *it: less(*it, left="mash water"), poured, sparge)
    elif bench.planned("mash-water", "L") is not None:
        poured = bench.planned("mash-water", "L")
    return within(poured, {"mash water, as it is poured": "poured"}) if poured is not None else None


def _planned_lauter(bench: Bench) -> Value | None:
    """The share of the dissolved extract that was to run off, for an old plan by its volumes."""
    found = bench.planned("lauter-efficiency", "fraction")
    if found is not None:
        return found
    sparge = bench.planned("sparge-water", "L")

    def balanced(grain: Value, poured: Value, run_off: Value) -> Value:
        kept = less(poured, run_off, left="water that the grain keeps")
        first = less(run_off, sparge, left="the first run-off") if sparge is not None else None
        absorption = within((kept / grain).called("absorption"), {"absorption": "absorption"})
        return runs_off(absorption, grain, run_off, first)

    return bench.made(
        "share that was to run off",
        balanced,
        bench.planned("grain-mashed", "kg"),
        _poured(bench),
        bench.planned("boil-volume", "L"),
    )
