"""What brings a wort to its plan, and what no cook would do: boil on, water, malt extract, less of it, less top-up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from gristbook.equations import gravity, mending
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less, sum_of
from gristbook.sheet.value import Value, apply, constant
from gristbook.targets.batches.results import Remedy
from gristbook.targets.conventions import DRIED_EXTRACT_VOLUME, STARTER_POTENTIAL
from gristbook.targets.wort.volumes import boiled_down

LONGEST_BOIL_MIN = 60.0
"""Nobody boils a finished wort for longer than this (common practice, no source)."""
MOST_EXTRACT = 0.05
"""Kilograms of dried malt extract in a litre, about 0.019 of gravity: more than this is another beer (common practice,
no source)."""
MOST_WATER = 0.5
"""Water for a litre of wort; more of it leaves no bitterness to speak of (common practice, no source)."""
LEAST = 0.005
"""A share of the wort that nobody can pour or see."""


@dataclass(frozen=True, slots=True)
class Goal:
    """What a plan wants of a vessel: gravity (SG) and volume (L), without their doubts.

    A gravity within ``slack`` of it is within the plan's own range. ``boil_off`` (L/h) only where it can be boiled on;
    ``room`` is what the vessel takes (L), and ``spare`` the top-up water that may be left out (L).
    """

    vessel: Literal["kettle", "fermenter"]
    gravity: Value
    volume: Value
    slack: float
    boil_off: Value | None
    room: float
    spare: Value | None


@dataclass(frozen=True, slots=True)
class Held:
    """What the vessel comes to: its extract (kg) and its volume (L).

    ``bitterness`` (IBU) is in ``spread`` litres of it; ``now`` is the wort as it was measured (L), ``shown`` its
    gravity, and ``late`` the extract that joins it before the boil ends (kg).
    """

    extract: Value
    volume: Value
    bitterness: Value | None
    spread: Value
    now: Value
    shown: Value
    late: Value | None
    boiled: bool
    kept: Value | None = None


def remedies(goal: Goal, held: Held, gravity_off: float, volume_off: float) -> Iterator[Remedy]:
    """What a cook would do, the simplest first; ``…_off`` is nothing where the plan is met."""
    alone, filled = _by_gravity(goal, held, gravity_off), _filled(goal, held, gravity_off, volume_off)
    # Nobody boils away what there is too little of already, where extract and water bring both to the plan.
    by_gravity = (*filled, *alone) if volume_off < 0 else (*alone, *filled)
    for candidate in (*_by_volume(goal, held, volume_off), *by_gravity):
        if _sensible(candidate, goal, held):
            yield candidate


def _by_gravity(goal: Goal, held: Held, off: float) -> Iterator[Remedy]:
    """Too strong: water, if need be no more than to the volume wanted; too thin: boiling, less top-up, malt extract."""
    if off > 0:
        thinned = done(held, water=apply(mending.water_to_thin, "water to add", **_towards(goal, held)))
        yield thinned
        if goal.volume.number * (1 - LEAST) > held.volume.number and not _sensible(thinned, goal, held):
            yield done(held, water=_less(goal.volume, held.volume, "water to add"))
    if off >= 0:
        return
    if goal.boil_off is not None:
        steam = {"boil_off": goal.boil_off}
        minutes = apply(mending.minutes_to_boil_down, "minutes to boil on", **_towards(goal, held), **steam)
        yield done(held, boil_on=minutes, **steam)
    if goal.spare is not None:
        label = "wort of the gravity wanted"
        strong = apply(mending.wort_of_gravity, label, extract_kg=held.extract, gravity=goal.gravity)
        yield done(held, leave_out=_less(held.volume, strong, "top-up water to leave out"))
    yield done(held, malt_extract=_to_strengthen(goal, held))


def _by_volume(goal: Goal, held: Held, off: float) -> Iterator[Remedy]:
    """Too much wort: some of it is kept apart, and the rest brought to its gravity where it is off."""
    if off <= 0 or goal.spare is not None:
        return
    surplus = _less(held.volume, goal.volume, "wort too much")
    if surplus.number >= held.now.number:
        return
    all_of_it = _less(held.now, surplus, "wort to go on with")
    part = _part(held, all_of_it, goal.volume)
    then = done(part)
    apart = then.gravity.number - goal.gravity.number
    if apart > goal.slack:
        needed = apply(gravity.wort_extract, "extract wanted", gravity=goal.gravity, wort_l=goal.volume)
        if held.late is not None:
            if held.late.number >= needed.number:
                return
            needed = (needed - held.late).called("extract wanted of what is kept")
        keep = apply(mending.wort_of_gravity, "wort to go on with", extract_kg=needed, gravity=held.shown)
        if keep.number >= all_of_it.number:
            yield then
            return
        water = _less(all_of_it, keep, "water to add")
        yield done(_part(held, keep, _less(goal.volume, water, "wort without the water")), water=water)
    elif apart < -goal.slack:
        yield done(part, malt_extract=_to_strengthen(goal, part))
    else:
        yield then


def _part(held: Held, keep: Value, volume: Value) -> Held:
    """A part of the wort as measured, and what it comes to: what is bitter already goes with its wort."""
    whole = apply(gravity.wort_extract, "extract of what is kept", gravity=held.shown, wort_l=keep)
    if held.late is not None:
        whole = sum_of((whole, held.late), "extract of it at the end of the boil")
    spread = volume if held.boiled else held.spread
    bitterness = done(held).bitterness if held.boiled else held.bitterness
    return replace(held, extract=whole, volume=volume, spread=spread, bitterness=bitterness, now=keep, kept=keep)


def _filled(goal: Goal, held: Held, gravity_off: float, volume_off: float) -> Iterator[Remedy]:
    """Gravity and volume together, where extract is missing."""
    if (gravity_off >= 0 and volume_off >= 0) or goal.spare is not None:
        return
    try:
        more = apply(
            mending.malt_extract_to_fill,
            "dried malt extract to add",
            extract_kg=held.extract,
            wanted_l=goal.volume,
            gravity=goal.gravity,
            potential=STARTER_POTENTIAL,
        )
    except Refusal:  # there is extract enough
        return
    grown = done(held, malt_extract=more).volume
    apart = abs(grown.number - goal.volume.number)
    if apart < LEAST * goal.volume.number:
        return
    if grown.number < goal.volume.number:
        yield done(held, water=_less(goal.volume, grown, "water to add"), malt_extract=more)
    elif goal.boil_off is not None:
        away = _less(grown, goal.volume, "water to boil away")
        minutes = (away / goal.boil_off).called("minutes to boil on")
        yield done(held, boil_on=minutes, malt_extract=more, boil_off=goal.boil_off)


def _sensible(remedy: Remedy, goal: Goal, held: Held) -> bool:
    """Whether a cook would do it, and the vessel holds it all the while."""

    def of(value: Value | None) -> float:
        return value.number if value is not None else 0.0

    peak = max(remedy.volume.number, (of(remedy.keep) or held.now.number) + of(remedy.water))
    return peak <= goal.room and all(
        of(value) <= most
        for value, most in (
            (remedy.boil_on, LONGEST_BOIL_MIN),
            (remedy.extract, MOST_EXTRACT * remedy.volume.number),
            (remedy.water, MOST_WATER * held.volume.number),
            (remedy.leave_out, of(goal.spare)),
        )
    )


def _towards(goal: Goal, held: Held) -> dict[str, Value]:
    """What the equations ask that bring a wort to a gravity."""
    return {"extract_kg": held.extract, "wort_l": held.volume, "gravity": goal.gravity}


def _to_strengthen(goal: Goal, held: Held) -> Value:
    brings = {"potential": STARTER_POTENTIAL, "litres_per_kg": DRIED_EXTRACT_VOLUME}
    return apply(mending.malt_extract_to_strengthen, "dried malt extract to add", **_towards(goal, held), **brings)


def _less(whole: Value, part: Value, label: str) -> Value:
    return less(whole, part, left="what is left of a volume", label=label)


def done(
    held: Held,
    *,
    boil_on: Value | None = None,
    water: Value | None = None,
    malt_extract: Value | None = None,
    leave_out: Value | None = None,
    boil_off: Value | None = None,
) -> Remedy:
    """What comes of doing this, or nothing: the balance is drawn anew from what goes in, not from what was aimed at."""
    parts, whole = [held.volume], held.extract
    if water is not None:
        parts.append(water)
    if malt_extract is not None:
        parts.append((malt_extract * DRIED_EXTRACT_VOLUME).called("room of the malt extract"))
        brought = (malt_extract * STARTER_POTENTIAL).called("extract of the malt extract")
        whole = sum_of((held.extract, brought), "extract then")
    volume = parts[0] if len(parts) == 1 else sum_of(parts, "wort then")
    if leave_out is not None:
        volume = _less(volume, leave_out, "wort then")
    if boil_on is not None and boil_off is not None:
        volume = boiled_down(volume, boil_off, boil_on, constant(0.0, "L"), "wort then")
    then = apply(gravity.wort_gravity, "gravity then", extract_kg=whole, wort_l=volume)
    bitter = held.bitterness
    if bitter is not None:
        bitter = (bitter * (held.spread / volume)).called("bitterness then")
    return Remedy(boil_on, water, malt_extract, held.kept, leave_out, then, volume, bitter)
