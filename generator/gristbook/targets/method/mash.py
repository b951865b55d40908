"""From cold water to sweet wort: the mash, or a steep, or water for malt extract."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from gristbook.model.moment import Stage
from gristbook.model.steps import MashStep
from gristbook.sheet.arithmetic import less, sum_of
from gristbook.sheet.value import Value
from gristbook.targets.conventions import USABLE
from gristbook.targets.figures import Plan
from gristbook.targets.method.lauter import check, drain, run_off
from gristbook.targets.method.step import Draft, at_stage, draft, hops_at, listed, measured, weighed
from gristbook.targets.method.water import stirred_in
from gristbook.targets.results import Mash, Rest
from gristbook.targets.wort.small_mash import in_a_bag, is_small

A_DROP = 0.05
"""Litres that nobody would heat water for."""


def grain_steps(plan: Plan) -> Iterator[Draft]:
    """The steps that fill the kettle, but for what is stirred in."""
    spare, mash = _spare_water(plan), plan.figures.mash
    small = mash is not None and is_small(plan.recipe, plan.brewhouse)
    if mash is not None:
        yield from _mash(plan, mash, None if small else spare, small=small)
        if not small:
            return
    else:
        yield from _steeps(plan)
    if spare is not None:
        yield draft(
            "heat",
            "Fill the kettle",
            "Pour {other}{water} of the water into the kettle, and bring it nearly to the boil.",
            other="another " if small or plan.figures.water.steep is not None else "",
            water=spare,
        )


def _spare_water(plan: Plan) -> Value | None:
    """Water that is neither in the mash nor in a steep nor kept for topping up; `None` if there is none."""
    figures, steep = plan.figures, plan.figures.water.steep
    if figures.mash is not None and steep is None and not is_small(plan.recipe, plan.brewhouse):
        spare = figures.mash.sparge
    else:
        used = [part for part in (figures.volumes.top_up, steep) if part is not None]
        if figures.mash is not None:
            used += [figures.mash.water, *(rest.infusion for rest in figures.mash.rests if rest.infusion is not None)]
        spare = _left(figures.water.total, tuple(used))
    return spare if spare is not None and spare.number > A_DROP else None


def _left(whole: Value, used: tuple[Value, ...]) -> Value | None:
    if not used:
        return whole
    taken = sum_of(used, "water used so far")
    if taken.number > whole.number:
        return None
    return less(whole, taken, left="what is left of a volume", label="water that is left")


def _steeps(plan: Plan) -> Iterator[Draft]:
    """A step for every temperature and time at which grain is steeped, in the recipe's order."""
    mash, small = plan.figures.mash, is_small(plan.recipe, plan.brewhouse)
    steeped = [(line, line.malt.steep) for line in plan.figures.grist.malts if line.malt.steep]
    extras = [measured(extra) for extra in at_stage(plan.recipe, Stage.STEEP)]
    for index, steep in enumerate(dict.fromkeys(steep for _, steep in steeped)):
        water = "Bring the same water to {heat}." if index else "Heat {water} of the water to {heat}."
        if plan.brewhouse.mash == "bag" and mash is not None and not small and not index:
            water = "Ladle {water} of the hot wort into a small pan, and bring it to {heat}."  # no water is left
        yield draft(
            "steep",
            "Steep the grain",
            water,
            "Tie {grain} loosely into a bag, and steep it for {time}, at that heat and no hotter.",
            "Put in {them} with it.",
            "Lift the bag out and let it drip, without wringing it. All the liquor belongs in the kettle.",
            water=plan.figures.water.steep,
            heat=steep.temperature,
            grain=listed([weighed(line.mass, line.malt.name) for line, of in steeped if of == steep]),
            time=steep.minutes,
            them=listed(extras) if not index else None,
        )


def _mash(plan: Plan, figures: Mash, spare: Value | None, *, small: bool) -> Iterator[Draft]:
    bag = in_a_bag(plan.recipe, plan.brewhouse)
    first = plan.recipe.mash[0]
    yield draft(
        "heat",
        "Heat the water of the small mash" if small else "Heat the mash water",
        "Heat {water} of the water to {strike}.",
        "Any pot does that holds {room}, and the kettle itself." if small else "",
        water=figures.water,
        strike=figures.strike,
        room=(figures.volume / USABLE).called("pot for the small mash") if small else None,
    )
    yield draft(
        "mash",
        "Mash in",
        "{into}, and stir in the crushed grain slowly, {grain} in all, until no dry lump is left.",
        "Wait five minutes. It should stand at {heat}; a little cold or boiling water mends it.",
        "Stir in {them} as well.",
        into="Turn the heat off, line the pot with the bag" if bag else "Run the water into the tun",
        grain=figures.grist,
        heat=first.temperature,
        them=stirred_in(plan, "mash", more=map(measured, at_stage(plan.recipe, Stage.MASH))),
    )
    if hops := hops_at(plan.figures.bitterness.hops, Stage.MASH):
        yield draft("hops", "Add the mash hops", "Stir {hops} into the mash as well.", hops=listed(hops))
    held = "Cover it, wrap it up, and leave it at {heat} for {time}."
    yield draft("rest", _titled(first, "Rest"), held, heat=first.temperature, time=first.minutes)
    for before, rest in pairwise(figures.rests):
        yield _further(rest, before.step, figures)
    if bag:
        yield from drain(plan, spare, small=small)
    yield from _steeps(plan)
    if not bag:
        yield from run_off(plan, spare)
    if not small:
        yield check(plan)


def _further(rest: Rest, before: MashStep, figures: Mash) -> Draft:
    """A rest after the first, reached as the plan has it."""
    heat, time = rest.step.temperature, rest.step.minutes
    hold = "Hold it there for {time}."
    if rest.infusion is not None:
        last = [other for other in figures.rests if other.infusion is not None][-1] is rest
        return draft(
            "infuse",
            _titled(rest.step, f"Raise the mash with {'hot' if rest.step.hot else 'boiling'} water"),
            "Boil {water} of the water and stir it in, a ladleful at a time. Stop when the mash stands at {heat}, "
            "whatever is left over."
            if rest.step.hot is None
            else "Heat {water} of the water to {hot} and stir it in, a ladleful at a time. The mash should come to "
            "{heat}.",
            "With all of it the mash takes up {room}.",
            hold,
            water=rest.infusion,
            hot=rest.step.hot,
            heat=heat,
            room=figures.volume if last else None,
            time=time,
        )
    if rest.decoction is not None:
        return draft(
            "decoct",
            _titled(rest.step, "Raise the mash with a decoction"),
            "Draw off {part} of mash, or a little more, and bring it to the boil, stirring all the while.",
            "Stir it back, a ladleful at a time, until the whole mash stands at {heat}.",
            hold,
            part=rest.decoction,
            heat=heat,
            time=time,
        )
    if heat.number <= before.temperature.number:
        way = "Cool it, stirring, to {heat}." if rest.step.way == "cool" else "Let it come to {heat}."
        return draft("rest", _titled(rest.step, "Rest again"), way, hold, heat=heat, time=time)
    warmer = "Heat the mash gently, stirring down to the base, until it stands at {heat}; then turn the heat off."
    return draft("warm", _titled(rest.step, "Warm the mash"), warmer, hold, heat=heat, time=time)


def _titled(step: MashStep, title: str) -> str:
    """What is done, by the role that the recipe gives it."""
    return step.role.capitalize() if step.role else title
