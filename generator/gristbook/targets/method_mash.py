"""From cold water to sweet wort: the mash, or a steep, or water for malt extract."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from gristbook.equations import boiling, mash, volumes
from gristbook.model.recipe import MashStep
from gristbook.targets.conventions import GRAIN_DISPLACEMENT, GRAIN_HEAT
from gristbook.targets.figures import Mash, Plan
from gristbook.targets.method_lauter import check, drain, run_off
from gristbook.targets.method_step import Draft, Sentence, draft, listed, measured, say, weighed
from gristbook.worksheet import Value, apply

A_DROP = 0.05
"""Litres that nobody would heat water for."""


def grain_steps(plan: Plan) -> Iterator[Draft]:
    """The steps that fill the kettle, but for what is stirred in."""
    spare = _spare_water(plan)
    if plan.figures.mash is not None:
        yield from _mash(plan, plan.figures.mash, spare)
        return
    yield from _steeps(plan)
    if spare is not None:
        yield draft(
            "heat",
            "Fill the kettle",
            say(
                "Pour {other}{water} of the water into the kettle, and bring it nearly to the boil.",
                other="another " if plan.figures.water.steep is not None else "",
                water=spare,
            ),
        )


def _spare_water(plan: Plan) -> Value | None:
    """Water that is neither in the first rest nor in a steep nor kept for topping up; `None` if there is none."""
    figures, sparge = plan.figures, plan.figures.mash.sparge if plan.figures.mash else None
    taken = [part for part in (figures.volumes.top_up, figures.water.steep) if part is not None]
    if figures.mash is not None and not taken:
        return sparge if sparge is not None and sparge.number > A_DROP else None
    return _left(figures.water.total, (*taken, figures.mash.water) if figures.mash else tuple(taken))


def _left(whole: Value, parts: tuple[Value, ...]) -> Value | None:
    if whole.number - sum(part.number for part in parts) <= A_DROP:
        return None
    if not parts:
        return whole
    used = apply(volumes.total_volume, "water used so far", parts_l=parts)
    return apply(volumes.remaining_volume, "water that is left", whole_l=whole, part_l=used)


def _steeps(plan: Plan) -> Iterator[Draft]:
    """A step for every temperature and time at which grain is steeped, in the recipe's order."""
    steeped = [(line, line.malt.steep) for line in plan.figures.grist.malts if line.malt.steep]
    for index, steep in enumerate(dict.fromkeys(steep for _, steep in steeped)):
        water = "Bring the same water to {heat}." if index else "Heat {water} of the water to {heat}."
        if plan.brewhouse.mash == "bag" and plan.figures.mash is not None and not index:
            water = "Ladle {water} of the hot wort into a small pan, and bring it to {heat}."  # no water is left
        yield draft(
            "steep",
            "Steep the grain",
            say(water, water=plan.figures.water.steep or "", heat=steep.temperature),
            say(
                "Tie {grain} loosely into a bag, and steep it for {time}, at that heat and no hotter.",
                grain=listed([weighed(line.mass, line.malt.name) for line, of in steeped if of == steep]),
                time=steep.minutes,
            ),
            "Lift the bag out and let it drip, without wringing it. All the liquor belongs in the kettle.",
        )


@dataclass(frozen=True, slots=True)
class _Tun:
    """What stands in the tun between two rests: the water in it, its temperature, and the water still to come."""

    water: Value
    temperature: Value
    spare: Value | None


def _mash(plan: Plan, figures: Mash[Value], spare: Value | None) -> Iterator[Draft]:
    bag = plan.brewhouse.mash == "bag"
    first, *later = plan.recipe.mash
    yield draft(
        "heat",
        "Heat the mash water",
        say("Heat {water} of the water to {strike}.", water=figures.water, strike=figures.strike),
    )
    yield draft(
        "mash",
        "Mash in",
        say(
            "{into}, and stir in the crushed grain slowly, {grain} in all, until no dry lump is left.",
            into="Turn the heat off, line the pot with the bag" if bag else "Run the water into the tun",
            grain=figures.grist,
        ),
        say(
            "Wait five minutes. It should stand at {heat}; a little cold or boiling water mends it.",
            heat=first.temperature,
        ),
        _into_the_mash(plan),
    )
    held = say("Cover it, wrap it up, and leave it at {heat} for {time}.", heat=first.temperature, time=first.minutes)
    yield draft("rest", "Rest", held)
    tun = _Tun(figures.water, first.temperature, spare)
    for step in later:
        rest, tun = _next_rest(plan, figures, step, tun)
        yield rest
    if bag:
        yield from drain(tun.spare)
        yield from _steeps(plan)
    else:
        yield from _steeps(plan)
        yield from run_off(plan, tun.spare)
    yield check(plan)


def _into_the_mash(plan: Plan) -> Sentence | str:
    added = [measured(extra) for extra in (*plan.recipe.water, *plan.recipe.extras) if "mash" in extra.moment]
    return say("Stir in {them} as well.", them=listed(added)) if added else ""


def _next_rest(plan: Plan, figures: Mash[Value], step: MashStep, tun: _Tun) -> tuple[Draft, _Tun]:
    """A further rest, reached as its line says.

    Where an infusion finds no water left for it, or no room, a bag is warmed in its pot and a tun gets a decoction.
    """
    hold = say("Hold it there for {time}.", time=step.minutes)
    arrived = replace(tun, temperature=step.temperature)
    if step.temperature.number <= tun.temperature.number:
        return draft("rest", "Rest again", say("Let it come to {heat}.", heat=step.temperature), hold), arrived
    boiling_c = apply(boiling.boiling_point, "boiling point of water", altitude=plan.brewhouse.altitude)
    if step.way == "infusion":
        added = step.water or _infusion(plan, figures, step, tun, boiling_c)
        water = apply(volumes.total_volume, "water in the mash", parts_l=(tun.water, added))
        there = tun.spare is not None and added.number <= tun.spare.number
        vessel = plan.brewhouse.kettle if plan.brewhouse.mash == "bag" else plan.brewhouse.tun
        if step.water is not None or (there and (vessel is None or _room(figures, water).number <= vessel.number)):
            spare = _left(tun.spare, (added,)) if tun.spare is not None and there else None
            return _infused(figures, step, added, water, hold), _Tun(water, step.temperature, spare)
    if step.way == "heat" or (step.way == "infusion" and plan.brewhouse.mash == "bag"):
        return _warmed(step, hold), arrived
    return _decocted(figures, step, tun, boiling_c, hold), arrived


def _infusion(plan: Plan, figures: Mash[Value], step: MashStep, tun: _Tun, boiling_c: Value) -> Value:
    return apply(
        mash.infusion_volume,
        "boiling water for the next rest",
        grain_kg=figures.grist,
        water_l=tun.water,
        tun_heat_l=plan.brewhouse.tun_heat,
        mash_c=tun.temperature,
        step_c=step.temperature,
        added_c=boiling_c,
        grain_heat=GRAIN_HEAT,
    )


def _infused(figures: Mash[Value], step: MashStep, added: Value, water: Value, hold: Sentence) -> Draft:
    return draft(
        "infuse",
        "Raise the mash with boiling water",
        say(
            "Boil {water} of the water and stir it in, a ladleful at a time. Stop when the mash stands at {heat}, "
            "whatever is left over.",
            water=added,
            heat=step.temperature,
        ),
        say("With all of it the mash takes up {room}.", room=_room(figures, water)),
        hold,
    )


def _decocted(figures: Mash[Value], step: MashStep, tun: _Tun, boiling_c: Value, hold: Sentence) -> Draft:
    drawn = apply(
        mash.decoction_volume,
        "mash to draw and boil",
        mash_l=_room(figures, tun.water),
        mash_c=tun.temperature,
        step_c=step.temperature,
        boil_c=boiling_c,
    )
    return draft(
        "decoct",
        "Raise the mash with a decoction",
        say("Draw off {part} of mash, or a little more, and bring it to the boil, stirring all the while.", part=drawn),
        say("Stir it back, a ladleful at a time, until the whole mash stands at {heat}.", heat=step.temperature),
        hold,
    )


def _warmed(step: MashStep, hold: Sentence) -> Draft:
    return draft(
        "warm",
        "Warm the mash",
        say(
            "Heat the mash gently, stirring down to the base, until it stands at {heat}; then turn the heat off.",
            heat=step.temperature,
        ),
        hold,
    )


def _room(figures: Mash[Value], water: Value) -> Value:
    return apply(
        volumes.mash_volume,
        "room that the mash takes",
        mash_water_l=water,
        grain_kg=figures.grist,
        displacement=GRAIN_DISPLACEMENT,
    )
