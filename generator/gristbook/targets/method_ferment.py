"""From the yeast to a beer that may be packaged: the days, what goes in meanwhile, the proof that it has finished."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.model.recipe import FermentStep
from gristbook.targets.conventions import CALIBRATION
from gristbook.targets.figures import Plan
from gristbook.targets.gas import diastatic
from gristbook.targets.method_cellar import pitching_heat, sanitised
from gristbook.targets.method_step import (
    Draft,
    draft,
    kept_in,
    listed,
    measured,
    names,
    practice,
    say,
    weighed,
)
from gristbook.worksheet import Value, given

APART = practice(3.0, "d", "time between two readings")
LONG_APART = practice(7.0, "d", "time between two readings, where the yeast may go on for weeks")
COLD_C = 5.0
"""A step cooler by this much than the one before stops the yeast (common practice, no source)."""


def ferment_steps(plan: Plan) -> Iterator[Draft]:
    """The steps from the closed fermenter to two readings that agree."""
    first, *later = plan.recipe.ferment or (None,)
    yield _first(plan, first)
    yield from _fed(plan)
    before = first
    for step in later:
        if step is not None and before is not None:
            yield _further(step, before, _apart(plan))
        before = step
    yield from _dry_hops(plan)
    yield from _finished(plan)


def _apart(plan: Plan) -> Value:
    return LONG_APART if diastatic(plan) else APART


def _first(plan: Plan, step: FermentStep | None) -> Draft:
    words = "Close the lid, fit the airlock, and keep the beer at {heat} for {time}."
    if step is not None:
        kept = say(words, heat=step.temperature, time=step.days)
    else:
        yeast = plan.recipe.yeasts[0]
        warmest = given(yeast.warmest_c, "°C", f"the warmest that suits {yeast.name}", origin="the pantry")
        words = "Close the lid, fit the airlock, and keep the beer between {cool} and {warm}."
        kept = say(words, cool=pitching_heat(plan), warm=warmest)
    return draft("ferment", "Ferment", kept, "Measure the beer and not the room: it warms itself.")


def _further(step: FermentStep, before: FermentStep, apart: Value) -> Draft:
    change = step.temperature.number - before.temperature.number
    held = say("{heat}, and keep it there for {time}.", heat=step.temperature, time=step.days)
    if change > 0:
        return draft("ferment", "Let it warm", say("Let the beer warm to {held}", held=held))
    if change == 0:
        return draft("ferment", "Leave it", say("Leave the beer at {held}", held=held))
    if change > -COLD_C:
        return draft("ferment", "Let it cool", say("Let the beer cool to {held}", held=held))
    return draft(
        "ferment",
        "Keep it cold",
        say(
            "Once two readings, {apart} apart, agree, cool the beer a few degrees a day to {held}",
            apart=apart,
            held=held,
        ),
        "Cold beer draws air in: keep boiled water in the airlock, and look at it often.",
    )


def _fed(plan: Plan) -> Iterator[Draft]:
    """What goes into the fermenting beer."""
    sugars = [line for line in plan.figures.grist.sugars if line.sugar.into_fermenter]
    extras = [extra for extra in plan.recipe.extras if "fermenter" in extra.moment]
    if not sugars and not extras:
        return
    yield sanitised("a jug, a spoon and the rim of the fermenter")
    yield draft(
        "feed",
        f"Add the {names([*(line.sugar.name for line in sugars), *(extra.name for extra in extras)])}",
        "Wait until the first rush is over and the foam begins to fall.",
        say(
            "Loosen {sugar} in a little boiled water, let it cool to the beer's own heat, and pour it in.",
            sugar=listed([weighed(line.mass, line.sugar.name) for line in sugars]),
        )
        if sugars
        else "",
        say("Add {extras}.", extras=listed([measured(extra) for extra in extras])) if extras else "",
    )


def _dry_hops(plan: Plan) -> Iterator[Draft]:
    """A step for each number of days before packaging, from the longest to the shortest."""
    hops = [line for line in plan.figures.bitterness.hops if line.hop.use == "dry" and line.hop.days is not None]
    lines = [(line.hop.days, line.hop.name, weighed(line.mass, line.hop.name)) for line in hops]
    lines += [(kept_in(extra), extra.name, measured(extra)) for extra in plan.recipe.extras]
    times = {days.number: days for days, _, _ in lines if days is not None}
    for number, days in sorted(times.items(), reverse=True):
        together = [(name, amount) for time, name, amount in lines if time is not None and time.number == number]
        yield sanitised("your hands, the scissors, and the bag and its weight if you use one")
        yield draft(
            "dry-hop" if any(line.hop.days == days for line in hops) else "feed",
            f"Add {names(name for name, _ in together)} to the beer",
            say(
                "When the beer has gone quiet, and {days} before you mean to package it, put in {them}.",
                days=days,
                them=listed([amount for _, amount in together]),
            ),
            "Open the lid as little as you can, and do not splash: air is the beer's enemy now.",
            "If it has to wait longer than that, lift them out.",
        )


def _finished(plan: Plan) -> Iterator[Draft]:
    fed = [line.sugar.name for line in plan.figures.grist.sugars if line.sugar.into_fermenter]
    hopped = ["dry hops"] if any(hop.use == "dry" for hop in plan.recipe.hops) else []
    yield sanitised("the sample jar and whatever draws the sample")
    yield draft(
        "finished",
        "Be sure that it has finished",
        say(
            "{after}ake a reading in a sample at {heat}, and another {apart} later.",
            after=f"After the {names([*fed, *hopped])}, t" if fed or hopped else "T",
            heat=CALIBRATION,
            apart=_apart(plan),
        ),
        say("When the two agree, near {gravity}, it has finished.", gravity=plan.figures.fermentation.final),
        "If they differ, wait and read again. If they agree but stand well above that, warm it, rouse it, and wait.",
    )
    added = [extra for extra in plan.recipe.extras if extra.moment == "after fermentation"]
    if added:
        yield draft(
            "feed",
            f"Add {names(extra.name for extra in added)}",
            say("Add {them} as the label says.", them=listed([measured(extra) for extra in added])),
        )
