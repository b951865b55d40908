"""From the yeast to a beer that may be packaged: the days, what goes in meanwhile, the proof that it has finished."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import inf

from gristbook.model.moment import BeforePackaging, Stage
from gristbook.model.recipe import Sugar
from gristbook.model.steps import FermentStep, FermentWay
from gristbook.sheet.value import Value, given, number
from gristbook.targets.beer.finished import apart, warm_steps
from gristbook.targets.conventions import CALIBRATION
from gristbook.targets.figures import Plan
from gristbook.targets.method.cellar import pitching_heat, sanitised
from gristbook.targets.method.step import (
    Draft,
    at_stage,
    draft,
    kept_in,
    listed,
    measured,
    names,
    of_yeast,
    weighed,
)
from gristbook.targets.results import YeastFigures


def ferment_steps(plan: Plan) -> Iterator[Draft]:
    """The steps from the closed fermenter to two readings that agree, once before it is cooled and once after."""
    first, *later = plan.recipe.ferment or (None,)
    yield _first(plan, first)
    yield from _fed(plan, Stage.FERMENTER)
    yield from _fed(plan, Stage.FERMENTED)
    kept_warm = len(warm_steps(plan.recipe))
    to_go = sum(step.days.number for step in later if step is not None)
    times = sorted(_times(plan), reverse=True)
    before, added, lie, cooled = first, _untimed(plan), inf, False
    for at, step in enumerate(later, start=1):
        if step is None or before is None:
            continue
        for days in [it for it in times if it > to_go]:
            yield from _added(plan, days)
            added, lie = [*added, *_names_at(plan, days)], days
        times = [it for it in times if it <= to_go]
        if at >= kept_warm and not cooled:
            yield from _finished(plan, added, lie - to_go, cooling=True)
            added, lie, cooled = [], inf, True
        yield _further(step, before, cold=at >= kept_warm)
        before, to_go = step, to_go - step.days.number
    for days in times:
        yield from _added(plan, days)
        added, lie = [*added, *_names_at(plan, days)], days
    if cooled and not added:
        yield from _looked_again(plan)
    else:
        yield from _finished(plan, added, lie, warmed=cooled)
    yield from _at_the_end(plan)


def _apart(plan: Plan) -> Value:
    return apart(plan.recipe, plan.figures.fermentation.abv.number)


def _first(plan: Plan, step: FermentStep | None) -> Draft:
    yeast = plan.recipe.pitched[0]
    course = COURSES[step.way] if step is not None else "keep the beer between {cool} and {warm}"
    under = step is not None and step.pressure is not None
    return draft(
        "ferment",
        _titled(step, "Ferment"),
        f"Close the lid, {'set the valve to {pressure}' if under else 'fit the airlock'}, and {course}.",
        "Measure the beer and not the room: it warms itself.",
        **_of(step),
        cool=pitching_heat(plan),
        warm=given(yeast.warmest_c, "°C", f"the warmest that suits {yeast.name}", words="the pantry"),
    )


def _further(step: FermentStep, before: FermentStep, *, cold: bool) -> Draft:
    change = step.temperature.number - before.last.number
    title, way = _CHANGES[(change > 0) - (change < 0)]
    cooled = cold and min(change, step.last.number - before.last.number) < 0
    if cooled:
        title, way = "Keep it cold", "Cool the beer a few degrees a day to"
    held = f"{way} {{heat}}, and keep it there for {{time}}."
    return draft(
        "ferment",
        _titled(step, title),
        held if step.way == "held" else f"{COURSES[step.way].capitalize()}.",
        "Hold it under {pressure}.",
        "Cold beer draws air in: keep boiled water in the airlock, and look at it often."
        if cooled and step.pressure is None
        else "",
        **_of(step),
    )


def _titled(step: FermentStep | None, title: str) -> str:
    """What is done, by the words that the recipe has for it."""
    return step.called.capitalize() if step is not None and step.called else title


def _of(step: FermentStep | None) -> dict[str, Value | None]:
    """What a sentence about a step may be about."""
    if step is None:
        return {}
    return {"heat": step.temperature, "end": step.end, "time": step.days, "pressure": step.pressure}


COURSES: Mapping[FermentWay, str] = {
    "held": "keep the beer at {heat} for {time}",
    "between": "keep the beer between {heat} and {end} for {time}",
    "ramp": "bring the beer evenly from {heat} to {end} over {time}",
    "free rise": "let the beer warm by itself from {heat} to {end} and no further, in {time}",
}
_CHANGES = {
    1: ("Let it warm", "Let the beer warm to"),
    0: ("Leave it", "Leave the beer at"),
    -1: ("Let it cool", "Let the beer cool to"),
}


def _times(plan: Plan) -> set[float]:
    """Days before packaging at which something goes into the beer."""
    recipe = plan.recipe
    moments = (*(hop.use for hop in recipe.hops), *(extra.moment for extra in recipe.extras))
    days = (
        *map(kept_in, (*moments, *(yeast.moment for yeast in recipe.yeasts))),
        *(sugar.days for sugar in recipe.sugars),
    )
    return {it.number for it in days if it is not None}


def _days(sugar: Sugar) -> float | None:
    return sugar.days.number if sugar.days else None


def _untimed(plan: Plan) -> list[str]:
    return [sugar.name for sugar in plan.recipe.sugars if sugar.moment in (Stage.FERMENTER, Stage.FERMENTED)]


def _names_at(plan: Plan, days: float) -> list[str]:
    """What goes in then, as one speaks of it afterwards."""
    fed = [sugar.name for sugar in plan.recipe.sugars if sugar.days is not None and sugar.days.number == days]
    hops = [hop for hop in plan.recipe.hops if isinstance(hop.use, BeforePackaging) and hop.use.days.number == days]
    return [*fed, *(["dry hops"] if hops else [])]


def _added(plan: Plan, days: float) -> Iterator[Draft]:
    """What goes in so many days before packaging."""
    yield from _fed(plan, days)
    yield from _dry_hops(plan, days)


def _fed(plan: Plan, when: Stage | float) -> Iterator[Draft]:
    """What goes into the fermenting beer at a stage, or so many days before packaging."""
    lines = [line for line in plan.figures.grist.sugars if when in (line.sugar.moment, _days(line.sugar))]
    sugars, fruit = ([it for it in lines if (it.sugar.flesh is None) == plain] for plain in (True, False))
    extras = at_stage(plan.recipe, Stage.FERMENTER) if when is Stage.FERMENTER else []
    yeasts = [line for line in _yeasts(plan) if line.yeast.moment is when]
    if not lines and not extras and not yeasts:
        return
    begins = {
        Stage.FERMENTER: "Wait until the first rush is over and the foam begins to fall.",
        Stage.FERMENTED: "Wait until the beer has gone quiet and its gravity stands still.",
    }
    yield sanitised("a jug, a spoon and the rim of the fermenter")
    called = (*(it.sugar.name for it in lines), *(it.name for it in extras), *(it.yeast.name for it in yeasts))
    yield draft(
        "feed",
        f"Add the {names(called)}",
        begins[when] if isinstance(when, Stage) else "Do it {days} before you mean to package it, and no later.",
        "Loosen {sugar} in a little boiled water, let it cool to the beer's own heat, and pour it in.",
        "Put in {fruit}, thawed, clean and at the beer's own heat, and close the lid at once.",
        "Add {extras}.",
        days=next((line.sugar.days for line in lines), None),
        sugar=listed([weighed(line.mass, line.sugar.name) for line in sugars]),
        fruit=listed([weighed(line.mass, line.sugar.name) for line in fruit]),
        extras=listed([*map(of_yeast, yeasts), *map(measured, extras)]),
    )


def _yeasts(plan: Plan) -> tuple[YeastFigures, ...]:
    return plan.figures.pitch.yeasts if plan.figures.pitch else ()


QUIET_DAYS = 5.0
"""So long after the yeast a beer has gone quiet (common practice, no source)."""


def _dry_hops(plan: Plan, last: float) -> Iterator[Draft]:
    """What lies in the beer for so many days before packaging."""
    hops = plan.figures.bitterness.hops
    lines = [(kept_in(line.hop.use), line.hop.name, weighed(line.mass, line.hop.name)) for line in hops]
    lines += [(kept_in(it.yeast.moment), it.yeast.name, of_yeast(it)) for it in _yeasts(plan)]
    lines += [(kept_in(extra.moment), extra.name, measured(extra)) for extra in plan.recipe.extras]
    together = [(days, name, amount) for days, name, amount in lines if days is not None and days.number == last]
    if not together:
        return
    days = together[0][0]
    yield sanitised("your hands, the scissors, and the bag and its weight if you use one")
    yield draft(
        "dry-hop" if any(kept_in(line.hop.use) == days for line in hops) else "feed",
        f"Add {names(name for _, name, _ in together)} to the beer",
        "When the beer has gone quiet, and {days} before you mean to package it, put in {them}."
        if sum(step.days.number for step in plan.recipe.ferment) - last >= QUIET_DAYS
        else "{days} before you mean to package it, while it still ferments, put in {them}.",
        "Open the lid as little as you can, and do not splash: air is the beer's enemy now.",
        "If it has to wait longer than that, lift them out.",
        days=days,
        them=listed([amount for _, _, amount in together]),
    )


def _finished(
    plan: Plan, added: list[str], lie: float, *, cooling: bool = False, warmed: bool = False
) -> Iterator[Draft]:
    """Two readings, which fall into the days that what was ``added`` last is to ``lie`` in the beer, if they can.

    ``cooling`` where the beer is cooled next; ``warmed`` where something went into cold beer, in which nothing shows.
    """
    warmest = max((step.warmest for step in plan.recipe.ferment), key=number, default=None)
    within = bool(added) and _apart(plan).number <= lie < inf
    end = "in the cold any two agree" if cooling else ""
    yield sanitised("the sample jar and whatever draws the sample")
    yield draft(
        "finished",
        "Be sure that it has finished",
        "Let the beer come back to {warmest}: in the cold any two readings agree.",
        f"Take a reading in a sample at {{heat}}, with the {names(added)} in the beer, {{apart}} before you "
        f"{'cool it' if cooling else 'mean to package it'}, and another on the day"
        f"{', still warm' if warmed else ''}{f': {end}' if end else ''}."
        if within
        else f"{f'After the {names(added)}, t' if added else 'T'}ake a reading in a sample at {{heat}}, and another "
        f"{{apart}} later{', still warm' if warmed else ''}{f', before you cool the beer: {end}' if end else ''}.",
        "When the two agree, near {gravity}, it has finished.",
        "If they differ, wait and read again. If they agree but stand well above that, warm it, rouse it, and wait.",
        warmest=warmest if warmed else None,
        heat=CALIBRATION,
        apart=_apart(plan),
        gravity=plan.figures.fermentation.final,
    )


def _looked_again(plan: Plan) -> Iterator[Draft]:
    """A beer that had finished before it was cooled."""
    yield sanitised("the sample jar and whatever draws the sample")
    yield draft(
        "finished",
        "Look once more before you package it",
        "Take a reading in a sample at {heat}. It is to be what it was before the cold, near {gravity}.",
        "If it has fallen, or nobody read it then, let the beer come back to {warmest}, and take two readings, {apart} "
        "apart.",
        heat=CALIBRATION,
        gravity=plan.figures.fermentation.final,
        warmest=max((step.warmest for step in plan.recipe.ferment), key=number),
        apart=_apart(plan),
    )


def _at_the_end(plan: Plan) -> Iterator[Draft]:
    added = at_stage(plan.recipe, Stage.FERMENTED)
    if added:
        yield draft(
            "feed",
            f"Add {names(extra.name for extra in added)}",
            "Add {them} as the label says.",
            them=listed([measured(extra) for extra in added]),
        )
