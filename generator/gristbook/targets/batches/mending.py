"""What to do on the day about wort that is not as planned: boil on, pour in water, stir in malt extract."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from gristbook.equations import brew_day, extract, gravity, kettle, mending, sums, volumes
from gristbook.refusal import Refusal
from gristbook.targets.batches import frozen
from gristbook.targets.batches.results import Adjustment, Remedy
from gristbook.targets.conventions import DRIED_EXTRACT_VOLUME, STARTER_POTENTIAL
from gristbook.worksheet import Operand, Value, apply, settled

Step = Literal["before the boil", "end of the boil"]

WORTH_MENDING = 0.001
"""A gravity as near as this to what is wanted is as good as a hydrometer can tell (common practice, no source)."""
WORTH_FILLING = 0.02
"""A volume as near as this share of it is as good as a scale can tell (common practice, no source)."""
SCALD = "Boiling wort scalds: add nothing in a rush, and mind the steam."
HEAT_OFF = (
    "Take the heat off while malt extract goes in: it sinks and burns, and a boil that meets it climbs out of the pot."
)
BOIL_EXTRACT = "Bring it back to the boil for ten minutes once all has dissolved."
BOIL_WATER = "Water that goes in when the boil is over must have boiled, and cooled under a lid."
LONGER = "A longer boil makes somewhat more of the hops than is reckoned here, and darkens the wort a little."
"""Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Kettle:
    """Wort at the end of the boil: its extract (kg) and its volume (L, cool)."""

    extract: Value
    volume: Value


@dataclass(frozen=True, slots=True)
class Aim:
    """What a plan wants of the kettle at the end of the boil, and what it knows of the way there."""

    gravity: Value
    volume: Value
    boil_off: Value
    bitterness: Value | None
    left_in_kettle: Value | None
    batch: Value | None


def adjustment(plan: Mapping[str, Value], step: Step, shown: Value, volume: Value) -> Adjustment:
    """What can be done.

    Parameters
    ----------
    plan : a plan's figures by name, as `frozen.frozen_plan` gives them
    step : where the wort was measured
    shown : its gravity, corrected (SG)
    volume : its volume at 20 °C (L)

    Raises
    ------
    ValueError
        A plan that does not say what is wanted, or numbers that no kettle can hold.
    """
    aim = _aim(plan)
    held = _at_the_end(plan, aim, step, shown, volume)
    done_nothing = _remedy(aim, held)
    remedies = tuple(_remedies(aim, held, done_nothing))
    return Adjustment(
        step, shown, volume, aim.gravity, aim.volume, aim.bitterness, done_nothing, remedies, tuple(_words(remedies))
    )


def _aim(plan: Mapping[str, Value]) -> Aim:
    def fixed(name: str, unit: str) -> Value | None:
        """A target is what it is: the plan's doubts are no doubts of it."""
        value = plan.get(name)
        return settled(value) if value is not None and value.unit == unit else None

    wanted, volume = fixed("gravity after the boil", "SG"), fixed("volume at the end of the boil", "L")
    boil_off = plan.get(frozen.BOIL_OFF)
    if wanted is None or volume is None or boil_off is None or boil_off.unit != "L/h":
        raise Refusal("the plan does not say what the kettle should hold")
    topped_up = "top-up water" in plan
    return Aim(
        wanted,
        volume,
        boil_off,
        fixed("bitterness", "IBU"),
        fixed(frozen.LEFT_IN_KETTLE, "L") if topped_up else None,
        fixed("into the fermenter", "L") if topped_up else None,
    )


def _at_the_end(plan: Mapping[str, Value], aim: Aim, step: Step, shown: Value, volume: Value) -> Kettle:
    """What the kettle holds at the end of the boil when nothing is done.

    Raises
    ------
    ValueError
        Numbers outside physics, or a kettle that boils dry.
    """
    held = apply(gravity.wort_extract, "extract in the kettle", gravity=shown, wort_l=volume)
    if step == "end of the boil":
        return Kettle(held, volume)
    boiled = plan.get(frozen.BOILED)
    if boiled is None or boiled.unit != "min":
        raise Refusal("the plan does not say how long it boils")
    end = apply(
        kettle.wort_in_kettle,
        "wort at the end of the boil, as it goes",
        boil_l=volume,
        boil_off=aim.boil_off,
        boiled_min=boiled,
        dissolved_l=frozen.late_volume(plan),
    )
    return Kettle(_with_late(plan, held), end)


def _with_late(plan: Mapping[str, Value], held: Value) -> Value:
    """The extract of the wort, and what sugar or malt extract brings before the boil ends."""
    early, all_of_it = plan.get(frozen.BESIDES_BEFORE), plan.get(frozen.BESIDES_AT_END)
    if early is None or all_of_it is None or {early.unit, all_of_it.unit} != {"kg"} or all_of_it.number <= early.number:
        return held
    late = apply(brew_day.extract_lost, "extract that joins late", came_kg=all_of_it, got_through_kg=early)
    return apply(extract.total_extract, "extract at the end of the boil", parts_kg=(held, late))


def _remedies(aim: Aim, held: Kettle, done_nothing: Remedy) -> Iterator[Remedy]:
    off = done_nothing.gravity.number - aim.gravity.number
    amiss = abs(done_nothing.volume.number - aim.volume.number) > WORTH_FILLING * aim.volume.number
    if off < -WORTH_MENDING:
        yield _boil_on(aim, held)
        yield _with_extract(aim, held, _needed(mending.malt_extract_to_strengthen, aim, held))
    elif off > WORTH_MENDING:
        yield _with_water(aim, held)
    if abs(off) > WORTH_MENDING or amiss:
        yield from _both(aim, held)


def _needed(equation: Callable[..., float], aim: Aim, held: Kettle) -> Value:
    return apply(
        equation,
        "dried malt extract to add",
        extract_kg=held.extract,
        wort_l=held.volume,
        gravity=aim.gravity,
        potential=STARTER_POTENTIAL,
        litres_per_kg=DRIED_EXTRACT_VOLUME,
    )


def _boil_on(aim: Aim, held: Kettle) -> Remedy:
    minutes = apply(
        mending.minutes_to_boil_down,
        "minutes to boil on",
        extract_kg=held.extract,
        wort_l=held.volume,
        gravity=aim.gravity,
        boil_off=aim.boil_off,
    )
    return _remedy(aim, held, boil_on=minutes)


def _with_extract(aim: Aim, held: Kettle, more: Value) -> Remedy:
    return _remedy(aim, held, malt_extract=more)


def _with_water(aim: Aim, held: Kettle) -> Remedy:
    water = apply(
        mending.water_to_thin, "water to add", extract_kg=held.extract, wort_l=held.volume, gravity=aim.gravity
    )
    return _remedy(aim, held, water=water)


def _both(aim: Aim, held: Kettle) -> Iterator[Remedy]:
    """Gravity and volume together, where extract is missing; extract that is too much stays and makes more beer."""
    try:
        more = apply(
            mending.malt_extract_to_fill,
            "dried malt extract to add",
            extract_kg=held.extract,
            wanted_l=aim.volume,
            gravity=aim.gravity,
            potential=STARTER_POTENTIAL,
        )
    except Refusal:
        return
    grown = _volume(held, None, None, more, aim)
    if grown.number <= aim.volume.number:
        water = apply(sums.remaining_volume, "water to add", whole_l=aim.volume, part_l=grown)
        yield _remedy(aim, held, water=water, malt_extract=more)
    else:
        away = apply(sums.remaining_volume, "water to boil away", whole_l=grown, part_l=aim.volume)
        minutes = apply(mending.minutes_to_boil_away, "minutes to boil on", away_l=away, boil_off=aim.boil_off)
        yield _remedy(aim, held, boil_on=minutes, malt_extract=more)


def _remedy(
    aim: Aim,
    held: Kettle,
    *,
    boil_on: Value | None = None,
    water: Value | None = None,
    malt_extract: Value | None = None,
) -> Remedy:
    """What comes of doing this: the balance is drawn again from what goes in, and not from what was aimed at."""
    volume = _volume(held, boil_on, water, malt_extract, aim)
    whole = held.extract
    if malt_extract is not None:
        brought = apply(
            extract.dissolved_extract,
            "extract of the malt extract",
            mass_kg=malt_extract,
            potential=STARTER_POTENTIAL,
        )
        whole = apply(extract.total_extract, "extract in the kettle then", parts_kg=(held.extract, brought))
    then = apply(gravity.wort_gravity, "gravity then", extract_kg=whole, wort_l=volume)
    return Remedy(boil_on, water, malt_extract, then, volume, _bitterness(aim, volume))


def _volume(held: Kettle, boil_on: Value | None, water: Value | None, malt_extract: Value | None, aim: Aim) -> Value:
    parts: list[Value] = [held.volume]
    if water is not None:
        parts.append(water)
    if malt_extract is not None:
        room: Operand = DRIED_EXTRACT_VOLUME
        parts.append(
            apply(volumes.dissolving_volume, "room of the malt extract", mass_kg=malt_extract, litres_per_kg=room)
        )
    whole = parts[0] if len(parts) == 1 else apply(sums.total_volume, "wort in the kettle then", parts_l=tuple(parts))
    if boil_on is None:
        return whole
    return apply(
        kettle.wort_in_kettle,
        "wort in the kettle then",
        boil_l=whole,
        boil_off=aim.boil_off,
        boiled_min=boil_on,
        dissolved_l=0.0,
    )


def _bitterness(aim: Aim, volume: Value) -> Value | None:
    """What was bittered stays in the kettle and is spread over more wort, or less; a top-up makes up for the rest."""
    if aim.bitterness is None:
        return None
    return apply(
        mending.bitterness_spread_anew,
        "bitterness then",
        planned=aim.bitterness,
        planned_l=_spread(aim, aim.volume),
        spread_l=_spread(aim, volume),
    )


def _spread(aim: Aim, end: Value) -> Value:
    if aim.left_in_kettle is None or aim.batch is None:
        return end
    return apply(
        kettle.spread_volume,
        "wort that bitterness is spread over",
        end_of_boil_l=end,
        left_in_kettle_l=aim.left_in_kettle,
        batch_l=aim.batch,
    )


def _words(remedies: tuple[Remedy, ...]) -> Iterator[str]:
    if not remedies:
        return
    yield SCALD
    if any(remedy.extract is not None for remedy in remedies):
        yield HEAT_OFF
        yield BOIL_EXTRACT
    if any(remedy.water is not None for remedy in remedies):
        yield BOIL_WATER
    if any(remedy.boil_on is not None for remedy in remedies):
        yield LONGER
