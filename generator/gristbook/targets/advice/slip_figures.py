"""The figures of a plan that a slip of the pen shows in, each absent where a recipe has nothing of the kind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from itertools import pairwise

from gristbook.model.moment import BeforePackaging
from gristbook.model.recipe import Steep
from gristbook.problems import Place
from gristbook.sheet.value import Value, given, number
from gristbook.targets.beer.pitching import first
from gristbook.targets.figures import Plan
from gristbook.targets.wort.efficiency import stated_conversion

CONVERTS = (58.0, 76.0)
"""Temperatures (°C) at which a mash turns starch to sugar in minutes (common practice, no source)."""
SOURED_MIN = 360.0
"""A mash that stands so long at a lower temperature is left to sour, and is meant to be cooler."""
HOT_STEEP = 40.0
"""Below this (°C) roast is steeped for a night, and no time is too long (common practice, no source)."""


@cache
def reckoned(figure: float, unit: str, label: str, origin: str, place: Place | None = None) -> Value:
    """A figure that is only compared: the same value each time, so that a page can lead to it."""
    return given(figure, unit, label, words=origin, place=place)


def steeps(plan: Plan) -> Iterator[Steep]:
    """The steeps of the recipe's grain."""
    return (malt.steep for malt in plan.recipe.malts if malt.steep is not None)


def hottest_steep(plan: Plan) -> Value | None:
    """The temperature of the hottest steep."""
    return max((steep.temperature for steep in steeps(plan)), key=number, default=None)


def odd_steep(plan: Plan) -> Value | None:
    """The longest of the hot steeps where it is too long, else the shortest."""
    times = sorted((steep.minutes for steep in steeps(plan) if steep.temperature.number > HOT_STEEP), key=number)
    return times[-1] if times and times[-1].number > STEEP_MIN[1] else next(iter(times), None)


def converting(plan: Plan) -> Value | None:
    """Minutes of the mash at which starch is turned to sugar; `None` where there are none."""
    steps = [step for step in plan.recipe.mash if step.may_convert]
    rests = [step for step in steps if CONVERTS[0] <= step.temperature.number <= CONVERTS[1]]
    if plan.figures.mash is None or not rests:
        return None
    if len(rests) == 1:
        return rests[0].minutes
    low, high = CONVERTS
    origin = f"all rests from {low:g} to {high:g} °C together"
    minutes = sum(step.minutes.number for step in rests)
    return reckoned(minutes, "min", "time of the mash", origin, rests[-1].place)


def fall(plan: Plan) -> Value | None:
    """How far the mash falls from one rest to a later one, which it does by standing for hours, or if it is cooled."""
    falls = [
        (before.temperature.number - after.temperature.number, after.place)
        for before, after in pairwise(plan.recipe.mash)
        if after.minutes.number < SOURED_MIN and after.way != "cool"
    ]
    if not falls:
        return None
    most, place = max(falls)
    return given(most, "°C", "fall of the mash", words="from one rest to the next", place=place)


def thickness(plan: Plan) -> Value | None:
    """Water to a kilogram, where the first rest has all of it: a thick mash may be thinned by later rests."""
    mash = plan.figures.mash
    return mash.thickness if mash is not None and all(rest.infusion is None for rest in mash.rests) else None


def steams_away(plan: Plan) -> Value | None:
    """The share of the wort that an hour of boiling takes, or all of a shorter boil."""
    start, hours = plan.figures.volumes.boil.number, min(plan.recipe.boil.number / 60, 1.0)
    share = plan.brewhouse.boil_off.number * hours / start if start > 0 else 0.0
    return reckoned(share, "fraction", "share that an hour's boil takes", "boil-off and boil volume")


def fermenter(plan: Plan) -> Value | None:
    """How full the fermenter is; more than all of it is told as it is."""
    vessel = plan.brewhouse.fermenter
    if vessel is None or vessel.number <= 0:
        return None
    filled = plan.figures.volumes.into_fermenter.number / vessel.number
    place = plan.recipe.batch.place
    return reckoned(filled, "fraction", "share of the fermenter that is filled", "the wort in it, and its brim", place)


def hops(plan: Plan) -> Value | None:
    """All the hops for a litre of the batch."""
    grams = sum(line.mass.number for line in plan.figures.bitterness.hops)
    litres = plan.figures.volumes.batch.number
    return reckoned(grams / litres, "g/L", "all hops for a litre", "all hops and the batch") if grams else None


def most_bitter(plan: Plan) -> Place | None:
    """The line of the hops that bring the most bitterness."""
    return _most((line.bitterness.number, line.hop.place) for line in plan.figures.bitterness.hops)


def most_hops(plan: Plan) -> Place | None:
    """The line of the heaviest of the hops."""
    return _most((line.mass.number, line.hop.place) for line in plan.figures.bitterness.hops)


def most_grain(plan: Plan) -> Place | None:
    """The line of most of the grain."""
    return _most((line.mass.number, line.malt.place) for line in plan.figures.grist.malts)


def most_sugar(plan: Plan) -> Place | None:
    """The line of most of the sugar or malt extract."""
    return _most((line.mass.number, line.sugar.place) for line in plan.figures.grist.sugars)


def most_colouring(plan: Plan) -> Place | None:
    """The line of most of the caramel and roast."""
    lines = (line for line in plan.figures.grist.malts if line.malt.kind in ("caramel", "roast"))
    return _most((line.mass.number, line.malt.place) for line in lines) or most_grain(plan)


def first_yeast(plan: Plan) -> Place | None:
    """The line of the first yeast."""
    return plan.recipe.yeasts[0].place if plan.recipe.yeasts else None


def first_rest(plan: Plan) -> Place | None:
    """The line of the first rest."""
    return plan.recipe.mash[0].place if plan.recipe.mash else None


def the_style(plan: Plan) -> Place | None:
    """The line of the style."""
    return plan.recipe.style.place if plan.recipe.style else None


def _most(lines: Iterable[tuple[float, Place]]) -> Place | None:
    return max(lines, default=(0.0, None), key=lambda line: line[0])[1]


def dried_yeast(plan: Plan) -> Value | None:
    """All the dried yeast for a litre."""
    doses = [line.dose.number for line in first(plan.figures.pitch) if line.dose]
    return reckoned(sum(doses), "g/L", "dried yeast for a litre", "all the dried yeast") if doses else None


def mash_efficiency(plan: Plan) -> Value | None:
    """What comes out of the mash, or out of an ordinary grist's, whichever is less."""
    here, stated = plan.figures.wort.mash_efficiency, plan.brewhouse.efficiency
    return stated if here and stated and stated.number < here.number else here


def conversion(plan: Plan) -> Value | None:
    """What the mash would have to dissolve for the efficiency that its brewhouse states."""
    stated = plan.brewhouse.efficiency
    if stated is None or plan.figures.mash is None:
        return None
    share = stated_conversion(plan.brewhouse, stated).number
    return reckoned(share, "fraction", "conversion that is asked for", "the efficiency that its brewhouse states")


def against_its_brewhouse(plan: Plan) -> Value | None:
    """How many times the brewhouse's own batch it is."""
    ratio = plan.recipe.batch.number / plan.brewhouse.batch.number
    return reckoned(ratio, "ratio", "batch against its brewhouse's", "the two batches", plan.recipe.batch.place)


def longest_dry_hop(plan: Plan) -> Value | None:
    """The days that the longest of the dry hops lie in the beer."""
    days = [hop.use.days for hop in plan.recipe.hops if isinstance(hop.use, BeforePackaging)]
    return max(days, key=number, default=None)


def salts_in_the_tap(plan: Plan) -> Value | None:
    """All ions of the brewhouse's own water together."""
    it = plan.brewhouse.water
    if it is None:
        return None
    ions = (it.calcium, it.magnesium, it.sodium, it.bicarbonate or it.alkalinity, it.sulfate, it.chloride)
    return reckoned(sum(ion.number for ion in ions if ion), "mg/L", "salts in the water", "its report")


STEEP_MIN = (5.0, 120.0)
