"""The figures of a mash, a boil and a fermentation that advice is about, each with its line, absent where none is."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from gristbook.equations.mash import MIDDLE_C
from gristbook.model.hop import Hop
from gristbook.model.moment import BeforePackaging
from gristbook.model.steps import FermentStep, MashStep
from gristbook.sheet.value import Value, number
from gristbook.targets.advice.advice import Span
from gristbook.targets.advice.gas_routes import QUICKEST
from gristbook.targets.advice.slip_figures import CONVERTS, SOURED_MIN, reckoned
from gristbook.targets.beer.finished import warm_steps
from gristbook.targets.conventions import STRONG
from gristbook.targets.figures import Plan
from gristbook.targets.hops.dried import as_dried
from gristbook.targets.results import Rest

COLD_C = 7.0
"""At this and below a beer is laid cold (common practice, no source)."""
LAGER_C = 14.0
"""A yeast that likes nothing warmer than this makes lagers that want cold weeks."""
RISE_C = 4.0
HOPPED_HARD = ("hazy", "ipa", "juicy")
HOT_C = 28.0


def mashed_at(plan: Plan) -> Value | None:
    """The temperature of the rest that comes nearest to the middle of what is usual."""
    rest = _converts(plan)
    return rest.temperature if rest is not None else None


def _converts(plan: Plan) -> MashStep | None:
    rests = [it for it in plan.recipe.mash if plan.figures.mash is not None]
    rests = [it for it in rests if it.may_convert] or rests
    return min(rests, key=lambda rest: abs(rest.temperature.number - MIDDLE_C), default=None)


def strike(plan: Plan) -> Value | None:
    """How hot the recipe wants the strike water, where it says what the mash is to stand at as well."""
    first = plan.recipe.mash[0] if plan.figures.mash is not None else None
    return first.hot if first is not None and not first.by_water else None


def usual_strike(plan: Plan) -> Span:
    """What the balance of heat asks for."""
    mash = plan.figures.mash
    wanted = round(mash.strike.number, 1) if mash is not None else 0.0
    return wanted - 2.0, wanted + 2.0


def infusion(plan: Plan) -> Value | None:
    """The water of the infusion that is furthest from what the balance of heat asks for."""
    rests = [it for it in _infused(plan) if it.infusion is not None and it.step.water is not None]
    rests = [it for it in rests if not it.step.by_water]
    furthest = max(rests, key=_off, default=None)
    return furthest.step.water if furthest is not None else None


def usual_infusion(plan: Plan) -> Span:
    """What the balance of heat asks for; none where a bag has all the water from the start."""
    needed = next((it.needed.number for it in _infused(plan) if it.step.water is infusion(plan) and it.needed), 0.0)
    return _about(needed)


def drawn(plan: Plan) -> Value | None:
    """The mash that the recipe draws for a decoction, of the last rest that says it."""
    return next((it.step.water for it in reversed(_infused(plan)) if it.decoction is not None), None)


def usual_drawn(plan: Plan) -> Span:
    """From what the balance of heat asks for to a fifth more, which boils away or cools, and a tenth to either side."""
    litres = next((it.decoction.number for it in reversed(_infused(plan)) if it.decoction is not None), 0.0)
    return round(0.9 * litres, 1), round(1.3 * litres, 1)


def _infused(plan: Plan) -> Sequence[Rest]:
    return plan.figures.mash.rests[1:] if plan.figures.mash is not None else ()


def _off(rest: Rest) -> float:
    poured, needed = (it.number if it is not None else 0.0 for it in (rest.step.water, rest.needed))
    return abs(poured - needed)


def sparge(plan: Plan) -> Value | None:
    """The sparge water that the recipe speaks of."""
    return plan.recipe.sparge.water if plan.recipe.sparge is not None else None


def usual_sparge(plan: Plan) -> Span:
    """What the volumes ask for; none where nothing is sparged."""
    mash = plan.figures.mash
    litres = mash.sparge.number if mash is not None and mash.sparge is not None else 0.0
    return _about(litres)


def _about(litres: float) -> Span:
    """A tenth less to a tenth more, as a page shows it."""
    return round(0.9 * litres, 1), round(1.1 * litres, 1)


def sparge_heat(plan: Plan) -> Value | None:
    """How hot the recipe wants the sparge water."""
    return plan.recipe.sparge.temperature if plan.recipe.sparge is not None else None


def hot_rest(plan: Plan) -> Value | None:
    """The temperature of the hottest rest besides the one that converts."""
    return max((it.temperature for it in plan.recipe.mash if it is not _converts(plan)), key=number, default=None)


def cool_rest(plan: Plan) -> Value | None:
    """The minutes of the longest rest below those that convert; one that is to sour is none."""
    cool = [it.minutes for it in plan.recipe.mash if it.temperature.number < CONVERTS[0] and it.role != "acid rest"]
    return max((it for it in cool if it.number < SOURED_MIN), key=number, default=None)


def boil_of_a_mash(plan: Plan) -> Value | None:
    """The minutes of the boil, where there was a mash; a raw wort is told elsewhere."""
    boil = plan.recipe.boil
    return boil if plan.figures.grist.mashed is not None and boil.number >= 5 else None


def least_boil(plan: Plan) -> Span:
    """An hour where most of the grist is pilsner malt, which holds what turns to dimethyl sulfide."""
    shares = (it.share_by_weight.number for it in plan.figures.grist.malts if "pilsner" in it.malt.name.casefold())
    return (60.0 if sum(shares) >= 0.5 else 45.0), float("inf")


def most_boil(plan: Plan) -> Span:
    """Three hours for a strong wort, two for any other."""
    return 0.0, 180.0 if plan.figures.wort.original.number >= STRONG else 120.0


def warmest_later(plan: Plan) -> Value | None:
    """The warmest that it becomes after the yeast went in."""
    first = [step.last for step in plan.recipe.ferment[:1] if step.end is not None]
    return max((*first, *(step.warmest for step in plan.recipe.ferment[1:])), key=number, default=None)


def coldest(plan: Plan) -> Value | None:
    """The temperature of the coldest step."""
    return min((step.coolest for step in plan.recipe.ferment), key=number, default=None)


def warmest_yeast(plan: Plan) -> float:
    """The warmest that any of the yeasts likes (°C)."""
    return max(yeast.warmest_c for yeast in plan.recipe.yeasts)


def _lager(plan: Plan) -> bool:
    yeasts = plan.recipe.yeasts
    return bool(yeasts) and all(it.kind == "lager" and it.warmest_c <= LAGER_C for it in yeasts)


def before_warming(plan: Plan) -> Value | None:
    """Days of a lager before its first rise of some degrees."""
    steps = plan.recipe.ferment if _lager(plan) else ()
    for step, before in zip(steps[1:], accumulate(it.days.number for it in steps), strict=False):
        if step.warmest.number - steps[0].temperature.number >= RISE_C:
            return reckoned(before, "d", "days before it is warmed", "the steps before it", step.place)
    return None


def days_in_the_cold(plan: Plan) -> Value | None:
    """Days that a lager is laid cold."""
    steps = plan.recipe.ferment
    if not _lager(plan) or not steps:
        return None
    cold = sum(it.days.number for it in steps if it.warmest.number <= COLD_C)
    return reckoned(cold, "d", "days in the cold", "the steps in the cold", steps[-1].place)


def days_of_fermenting(plan: Plan) -> Value | None:
    """Days before it is laid cold; so few that they are a danger are told as one."""
    steps = warm_steps(plan.recipe)
    heat, days = max(map(_heat, steps), default=0.0), sum(it.days.number for it in steps)
    if not steps or days < next(fewest for least, fewest in QUICKEST if heat >= least):
        return None
    return steps[0].days if len(steps) == 1 else reckoned(days, "d", "days of fermenting", "the steps", steps[-1].place)


def usual_days(plan: Plan) -> Span:
    """Of a lager, of a very warm ferment, of any other; what eats on for weeks may have a year and a half more."""
    least = 10.0 if _lager(plan) else 2.0 if max(map(_heat, plan.recipe.ferment), default=0.0) >= HOT_C else 5.0
    return least, 720.0 if any(it.diastatic or it.kind == "other" for it in plan.recipe.yeasts) else 42.0


def _heat(step: FermentStep) -> float:
    return step.warmest.number


def _dry(plan: Plan) -> list[Hop]:
    return [line.hop for line in plan.figures.bitterness.hops if isinstance(line.hop.use, BeforePackaging)]


def dry_hops(plan: Plan) -> Value | None:
    """All the dry hops for a litre, at the line of most of them."""
    lines = [it for it in plan.figures.bitterness.hops if isinstance(it.hop.use, BeforePackaging)]
    if not lines:
        return None
    grams = sum(as_dried(line.hop, line.mass).number for line in lines)
    most = max(lines, key=lambda line: line.mass.number).hop.place
    litres = plan.figures.volumes.batch.number
    return reckoned(grams / litres, "g/L", "dry hops for a litre", "all dry hops and the batch", most)


def usual_dry_hops(plan: Plan) -> Span:
    """Hazy and India pale ales take more than others gain by, and a beer of no style may be one."""
    style = plan.recipe.style
    names = " ".join((style.name if style else "ipa", *(it.name for it in plan.recipe.yeasts))).casefold()
    return 0.0, 20.0 if any(word in names for word in HOPPED_HARD) else 8.0


def dry_hopped_at(plan: Plan) -> Value | None:
    """The temperature, as dry hops go in, that lies furthest from what is usual."""
    steps, found = plan.recipe.ferment, []
    for hop in _dry(plan):
        if not isinstance(hop.use, BeforePackaging):
            continue
        step = _step_before_packaging(steps, hop.use.days.number)
        said = hop.use.temperature or (step.last if step else None)
        if said is not None:
            heat = said.number
            found.append(reckoned(heat, "°C", "temperature at dry hopping", "the step that they go in at", hop.place))
    return max(found, key=lambda it: abs(it.number - 15.0), default=None)


def _step_before_packaging(steps: Sequence[FermentStep], days: float) -> FermentStep | None:
    """The step that it is in so many days before the end."""
    for step in reversed(steps):
        days -= step.days.number
        if days <= 0:
            return step
    return None


def usual_dry_hopping(plan: Plan) -> Span:
    """As warm as most ales ferment, or as cool as this yeast does."""
    yeasts = plan.recipe.yeasts
    coolest = min((it.coolest_c for it in yeasts), default=10.0)
    return min(10.0, coolest), min(max(20.0, *(it.warmest_c for it in yeasts)), 24.0) if yeasts else 20.0
