"""What to do on the day about wort that is not as planned: how it stands, what would mend it, and what to mind."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import inf
from typing import Literal

from gristbook.equations import gravity
from gristbook.model.batch import WortStep, is_a_slip
from gristbook.model.figures import known
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less, sum_of
from gristbook.sheet.doubts import NINE_IN_TEN
from gristbook.sheet.value import Value, apply, settled
from gristbook.targets.batches import frozen
from gristbook.targets.batches.compared import verdict_on
from gristbook.targets.batches.remedies import Goal, Held, done, remedies
from gristbook.targets.batches.results import Adjustment, Remedy
from gristbook.targets.wort.volumes import boiled_down

WORTH_MENDING = 0.001
"""A gravity as near as this to what is wanted is as good as a hydrometer can tell (common practice, no source)."""
WORTH_FILLING, WORTH_POURING = 0.02, 0.05
"""A volume that falls short by this share of it is as good as a scale can tell; one that is over by no more than this
is poured away by nobody (common practice, no source)."""
SCALD = "Boiling wort scalds: add nothing in a rush, and mind the steam."
HEAT_OFF = (
    "Take the heat off while malt extract goes in: it sinks and burns, and a boil that meets it climbs out of the pot."
)
BOIL_EXTRACT = "Bring it back to the boil for ten minutes once all has dissolved."
EXTRACT_COLD = (
    "Malt extract for the fermenter is dissolved in a little of the wort, boiled for ten minutes and cooled under a "
    "lid: nothing hot goes into glass, and everything that touches it is sanitised."
)
BOIL_WATER = (
    "Water that goes in when the boil is over is drinking water, treated as the rest is; boil it and cool it under a "
    "lid if you doubt it."
)
LONGER = "A longer boil makes somewhat more of the hops than is reckoned here, and darkens the wort a little."
BIGGER = (
    "Left as it is, it makes a bigger batch, in which the same hops are thinner. What is kept apart is a brew of its "
    "own, or is poured away."
)
STILL_STRONG = (
    "With so much water it has the volume that was planned, and is still too strong; with more it would taste of "
    "water, or has no room. Write it down: the beer will be stronger, too."
)
READ_AGAIN = "So far from the plan is rather a slip of the reading: read the volume again, and where it was taken."
NO_REMEDY = (
    "Nothing that fits the vessel, with an hour's boiling or a little malt extract, brings it to the plan: brew on "
    "with what there is, and write it down."
)
"""Common practice, no source."""


def adjustment(plan: Mapping[str, Value], step: WortStep, shown: Value, volume: Value) -> Adjustment:
    """What can be done.

    Parameters
    ----------
    plan : a plan's figures by name, as `frozen.frozen_plan` gives them
    step : where the wort was measured
    shown : its gravity, corrected (SG)
    volume : its volume at 20 °C (L)

    Raises
    ------
    Refusal
        A plan that does not say what is wanted, or numbers that no vessel can hold.
    """
    bitterness = _fixed(plan, "bitterness", "IBU")
    in_kettle = step != "in the fermenter"
    goal = _goal(plan, "kettle" if in_kettle else "fermenter")
    whole = apply(gravity.wort_extract, "extract in the wort", gravity=shown, wort_l=volume)
    held = Held(whole, volume, bitterness, goal.volume, volume, shown, None, boiled=True)
    if step == "before the boil":
        held = _at_the_end(plan, held)
    if in_kettle and topped_up(plan):
        goal, held = _topped_up(plan, goal, held)
    unmended = done(held)
    short, over = (share * goal.volume.number for share in (WORTH_FILLING, WORTH_POURING))
    off = _off(plan[GRAVITY[goal.vessel]], unmended.gravity, WORTH_MENDING, WORTH_MENDING)
    amiss = _off(plan[VOLUME[goal.vessel]], unmended.volume, short, over)
    found = tuple(remedies(goal, held, off, amiss)) if off or amiss else ()
    return Adjustment(
        step=step,
        vessel=goal.vessel,
        gravity=shown,
        volume=volume,
        wanted=goal.gravity,
        wanted_volume=goal.volume,
        bitterness=bitterness,
        fits=not (off or amiss),
        unmended=unmended,
        remedies=found,
        words=_words(goal, held, found, amiss) if off or amiss else (),
    )


GRAVITY = {"kettle": "gravity-after-the-boil", "fermenter": "original-gravity"}
VOLUME = {"kettle": "volume-at-the-end-of-the-boil", "fermenter": "into-the-fermenter"}
ROOM = {"kettle": frozen.KETTLE_ROOM, "fermenter": frozen.FERMENTER_ROOM}


def topped_up(plan: Mapping[str, Value]) -> bool:
    """Whether a part of the batch is water that goes into the fermenter."""
    return "top-up-water" in plan


def likely_step(plan: Mapping[str, Value], volume: Value) -> WortStep:
    """Where wort was measured that nobody says more of: the end of the boil, but in a topped-up brew the nearer."""
    end, batch = (_fixed(plan, VOLUME[vessel], "L") for vessel in ("kettle", "fermenter"))
    if not topped_up(plan) or end is None or batch is None:
        return "end of the boil"
    nearer = abs(volume.number - batch.number) < abs(volume.number - end.number)
    return "in the fermenter" if nearer else "end of the boil"


def _fixed(plan: Mapping[str, Value], name: str, unit: str) -> Value | None:
    """A target is what it is: the plan's doubts are no doubts of it."""
    value = plan.get(known(name))
    return settled(value) if value is not None and value.unit == unit else None


def _goal(plan: Mapping[str, Value], vessel: Literal["kettle", "fermenter"]) -> Goal:
    """What the plan wants of a vessel; only in the kettle can it be boiled on.

    Raises
    ------
    Refusal
        The plan does not say what it wants.
    """
    wanted, volume = _fixed(plan, GRAVITY[vessel], "SG"), _fixed(plan, VOLUME[vessel], "L")
    boil_off = plan.get(frozen.BOIL_OFF) if vessel == "kettle" else None
    boils = boil_off is not None and boil_off.unit == "L/h"
    if wanted is None or volume is None or not (boils or vessel == "fermenter"):
        raise Refusal(f"the plan does not say what the {vessel} should hold")
    holds, slack = _fixed(plan, ROOM[vessel], "L"), max(WORTH_MENDING, NINE_IN_TEN * plan[GRAVITY[vessel]].spread)
    steams = boil_off if boil_off is not None and boil_off.number > 0 else None
    return Goal(vessel, wanted, volume, slack, steams, holds.number if holds is not None else inf, None)


def _at_the_end(plan: Mapping[str, Value], held: Held) -> Held:
    """What wort measured before the boil comes to at its end when nothing is done.

    Raises
    ------
    Refusal
        Numbers outside physics, or a kettle that boils dry.
    """
    boiled = plan.get(frozen.BOILED)
    if boiled is None or boiled.unit != "min":
        raise Refusal("the plan does not say how long it boils")
    label, late = "wort at the end of the boil, as it goes", _late(plan)
    end = boiled_down(held.now, plan[frozen.BOIL_OFF], boiled, frozen.late_volume(plan), label)
    whole = held.extract if late is None else sum_of((held.extract, late), "extract at the end of the boil")
    return replace(held, extract=whole, volume=end, late=late, boiled=False)


def _late(plan: Mapping[str, Value]) -> Value | None:
    """What sugar or malt extract brings before the boil ends."""
    early, all_of_it = plan.get(frozen.BESIDES_BEFORE), plan.get(frozen.BESIDES_AT_END)
    if early is None or all_of_it is None or {early.unit, all_of_it.unit} != {"kg"} or all_of_it.number <= early.number:
        return None
    return (all_of_it - early).called("extract that joins late")


def _topped_up(plan: Mapping[str, Value], kettle_goal: Goal, held: Held) -> tuple[Goal, Held]:
    """The fermenter, filled from this kettle to the batch: a boil that went deeper is made up for by water."""
    goal = replace(_goal(plan, "fermenter"), spare=_fixed(plan, "top-up-water", "L"))
    left = _fixed(plan, frozen.LEFT_IN_KETTLE, "L")
    if left is None:
        raise Refusal("the plan does not say what stays in the kettle")
    label = "wort from the kettle"
    into = less(held.volume, left, left="what is left of a volume", label=label)
    shown = done(held).gravity
    whole = apply(gravity.wort_extract, "extract in the fermenter", gravity=shown, wort_l=into)
    bitter = held.bitterness

    def spread(end: Value) -> Value:
        return (goal.volume * (end / less(end, left, left="the wort that leaves the kettle", some=True))).called(
            "wort that bitterness is spread over"
        )

    if bitter is not None:
        bitter = (bitter * (spread(kettle_goal.volume) / spread(held.volume))).called("bitterness, topped up")
    volume = goal.volume if into.number < goal.volume.number else into
    return goal, Held(whole, volume, bitter, goal.volume, volume, shown, None, boiled=True)


def _off(planned: Value, then: Value, below: float, above: float) -> float:
    """How far a figure is from its plan; nothing where it lies within the plan's own range, or is as good as there."""
    apart = then.number - planned.number
    return 0.0 if -below <= apart <= above or verdict_on(planned, then) == "within" else apart


def _words(goal: Goal, held: Held, found: tuple[Remedy, ...], amiss: float) -> tuple[str, ...]:
    hot = goal.vessel == "kettle"
    stirred = any(it.extract is not None for it in found)
    rows = (
        (READ_AGAIN, is_a_slip(held.volume, goal.volume)),
        (NO_REMEDY, not found),
        (SCALD, found and hot),
        (HEAT_OFF, stirred and hot),
        (BOIL_EXTRACT, stirred and hot),
        (EXTRACT_COLD, stirred and not hot),
        (BOIL_WATER, any(it.water is not None for it in found)),
        (LONGER, any(it.boil_on is not None for it in found)),
        (STILL_STRONG, any(it.gravity.number - goal.gravity.number > goal.slack for it in found)),
        (BIGGER, found and amiss > 0),
    )
    return tuple(words for words, said in rows if said)
