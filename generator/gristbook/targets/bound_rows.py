"""The rows of advice against slips: a factor of ten or of twenty-eight, and what no beer, mash or vessel can be.

Each row has the span that is usual and, wider, the one past which nobody means it. Read with `advice.Row`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from itertools import pairwise
from math import inf

from gristbook.model.recipe import Steep
from gristbook.targets.advice import Row, Span
from gristbook.targets.conventions import FERMENTER_USABLE, PRACTICE
from gristbook.targets.figures import Plan
from gristbook.worksheet import Value, given, number

CONVERTS = (58.0, 76.0)
"""Temperatures (°C) at which a mash turns starch to sugar in minutes (common practice, no source)."""
SOURED_MIN = 360.0
"""A mash that stands so long at a lower temperature is left to sour, and is meant to be cooler."""
HOT_STEEP = 40.0
"""Below this (°C) roast is steeped for a night, and no time is too long (common practice, no source)."""


@cache
def _reckoned(figure: float, unit: str, label: str, origin: str) -> Value:
    """A figure that is only compared: the same value each time, so that a page can lead to it."""
    return given(figure, unit, label, origin=origin)


def _usual(low: float, high: float = inf) -> Callable[[Plan], Span | None]:
    return lambda plan: (low, high)


def _steeps(plan: Plan) -> Iterator[Steep]:
    return (malt.steep for malt in plan.recipe.malts if malt.steep is not None)


def _hottest_steep(plan: Plan) -> Value | None:
    return max((steep.temperature for steep in _steeps(plan)), key=number, default=None)


def _odd_steep(plan: Plan) -> Value | None:
    """The longest of the hot steeps where it is too long, else the shortest."""
    times = sorted((steep.minutes for steep in _steeps(plan) if steep.temperature.number > HOT_STEEP), key=number)
    return times[-1] if times and times[-1].number > STEEP_MIN[1] else next(iter(times), None)


def _converting(plan: Plan) -> Value | None:
    """Minutes of the mash at which starch is turned to sugar."""
    if plan.figures.mash is None:
        return None
    rests = [step for step in plan.recipe.mash if CONVERTS[0] <= step.temperature.number <= CONVERTS[1]]
    if len(rests) == 1:
        return rests[0].minutes
    low, high = CONVERTS
    origin = f"all rests from {low:g} to {high:g} °C together"
    return _reckoned(sum(step.minutes.number for step in rests), "min", "time of the mash", origin)


def _fall(plan: Plan) -> Value | None:
    """How far the mash falls from one rest to a later one, which it does by standing for hours only."""
    falls = [
        (before.temperature.number - after.temperature.number, after.place)
        for before, after in pairwise(plan.recipe.mash)
        if after.minutes.number < SOURED_MIN
    ]
    if not falls:
        return None
    most, place = max(falls)
    return given(most, "°C", "fall of the mash", origin="from one rest to the next", place=place)


def _thickness(plan: Plan) -> Value | None:
    """Water to a kilogram, where the first rest has all of it: a thick mash may be thinned by later rests."""
    mash = plan.figures.mash
    return mash.thickness if mash is not None and all(rest.infusion is None for rest in mash.rests) else None


def _steams_away(plan: Plan) -> Value | None:
    """The share of the wort that an hour of boiling takes, or all of a shorter boil."""
    start, hours = number(plan.figures.volumes.boil), min(plan.recipe.boil.number / 60, 1.0)
    share = plan.brewhouse.boil_off.number * hours / start if start > 0 else 0.0
    return _reckoned(share, "fraction", "share that an hour's boil takes", "boil-off and boil volume")


def _undescribed(plan: Plan) -> Value | None:
    return plan.recipe.batch if plan.brewhouse.kettle is None else None


def _fermenter(plan: Plan) -> Value | None:
    """How full the fermenter is; more than all of it is told as it is."""
    vessel = plan.brewhouse.fermenter
    if vessel is None or vessel.number <= 0:
        return None
    filled = plan.figures.volumes.into_fermenter.number / vessel.number
    return _reckoned(filled, "fraction", "share of the fermenter that is filled", "the wort in it, and its brim")


def _hops(plan: Plan) -> Value | None:
    grams = sum(line.mass.number for line in plan.figures.bitterness.hops)
    litres = plan.figures.volumes.batch.number
    return _reckoned(grams / litres, "g/L", "all hops for a litre", "all hops and the batch") if grams else None


def _dried_yeast(plan: Plan) -> Value | None:
    """All the dried yeast for a litre."""
    doses = [line.dose.number for line in (plan.figures.pitch.yeasts if plan.figures.pitch else ()) if line.dose]
    return _reckoned(sum(doses), "g/L", "dried yeast for a litre", "all the dried yeast") if doses else None


def _in_a_bag(plan: Plan) -> Value | None:
    return plan.figures.grist.mashed if plan.brewhouse.mash == "bag" else None


def _against_its_brewhouse(plan: Plan) -> Value | None:
    ratio = plan.recipe.batch.number / plan.brewhouse.batch.number
    return _reckoned(ratio, "ratio", "batch against its brewhouse's", "the two batches")


def _raw_wort(plan: Plan) -> Value | None:
    return plan.recipe.boil if plan.figures.grist.mashed is not None else None


def _longest_dry_hop(plan: Plan) -> Value | None:
    days = [hop.days for hop in plan.recipe.hops if hop.use == "dry" and hop.days is not None]
    return max(days, key=number, default=None)


def _salts_in_the_tap(plan: Plan) -> Value | None:
    """All ions of the brewhouse's own water together."""
    it = plan.brewhouse.water
    if it is None:
        return None
    ions = (it.calcium, it.magnesium, it.sodium, it.bicarbonate or it.alkalinity, it.sulfate, it.chloride)
    return _reckoned(sum(ion.number for ion in ions if ion), "mg/L", "salts in the water", "its report")


STEEP_MIN = (5.0, 120.0)

BOUNDS: tuple[Row, ...] = (
    Row(
        "strength of the wort",
        lambda plan: plan.figures.wort.equivalent_original,
        _usual(1.015, 1.150),
        "The wort is hardly more than water.",
        "The wort is stronger than beers are brewed.",
        "Below this there is next to nothing to ferment, and above it hardly a yeast that finishes.",
        PRACTICE,
        possible=(1.005, 1.2),
    ),
    Row(
        "mash efficiency",
        lambda plan: plan.figures.wort.mash_efficiency,
        _usual(0.40, 0.98),
        "The mash gives little of what is in the grain.",
        "The mash gives more than mashes do.",
        "A mash and its run-off bring between a half and nine tenths of what the grain holds.",
        PRACTICE,
        possible=(0.15, 1.0),
    ),
    Row(
        "bitterness in beer",
        lambda plan: plan.figures.bitterness.total,
        _usual(0.0, 120.0),
        "",
        "It is more bitter than beer can be.",
        "About 100 mg of iso-alpha acids stay dissolved in a litre; the rest is hops that nobody tastes.",
        "from memory: the solubility of iso-alpha acids in beer",
        possible=(0.0, 300.0),
    ),
    Row(
        "hops for a litre",
        _hops,
        _usual(0.0, 40.0),
        "",
        "There are more hops than a kettle and a fermenter take.",
        "They keep more beer than they flavour.",
        PRACTICE,
        possible=(0.0, 80.0),
    ),
    Row(
        "dried yeast for a litre",
        _dried_yeast,
        _usual(0.0, 10.0),
        "",
        "There is more dried yeast than any beer wants.",
        "Ten times a full pitch is a slip of the scales, and tastes of yeast.",
        PRACTICE,
        possible=(0.0, 15.0),
    ),
    Row(
        "thick mash",
        _thickness,
        _usual(1.8),
        "The mash can hardly be stirred.",
        "",
        "Below this there are dry lumps in it, and its starch stays starch.",
        PRACTICE,
        possible=(1.0, inf),
    ),
    Row(
        "time of the mash",
        _converting,
        _usual(20.0),
        "The mash is short for its starch.",
        "",
        "At 58 to 76 °C malt turns its starch to sugar in half an hour or so, and in a few minutes not at all.",
        PRACTICE,
        possible=(5.0, inf),
    ),
    Row(
        "falling mash",
        _fall,
        _usual(-inf, 3.0),
        "",
        "A rest is colder than the one before it, and nothing cools a mash.",
        "The rests go upwards: what a hot rest has stopped, a cooler one does not begin again.",
        PRACTICE,
        possible=(-inf, 10.0),
    ),
    Row(
        "hot steep",
        _hottest_steep,
        _usual(-inf, 78.0),
        "",
        "Grain is steeped hotter than is good for it.",
        "Above 77 °C or so husks give up tannins, and the beer grows harsh like stewed tea.",
        PRACTICE,
        possible=(-inf, 93.0),
    ),
    Row(
        "time of the steep",
        _odd_steep,
        _usual(*STEEP_MIN),
        "Grain is steeped too briefly to give what is reckoned.",
        "Grain is steeped for hours.",
        "Half an hour is usual: after some minutes half is still in the grain, and after hours it sours.",
        PRACTICE,
    ),
    Row(
        "length of the boil",
        lambda plan: plan.recipe.boil,
        _usual(0.0, 300.0),
        "",
        "It boils for very long.",
        "Past a few hours a boil only darkens the wort and burns fuel.",
        PRACTICE,
        possible=(0.0, 720.0),
    ),
    Row(
        "steam",
        _steams_away,
        _usual(0.0, 0.40),
        "",
        "An hour of boiling takes much of the wort.",
        "A lively boil takes a tenth to a sixth of a kettle in an hour, and a third of a very small one.",
        PRACTICE,
        possible=(0.0, 0.65),
    ),
    Row(
        "size of the batch",
        _undescribed,
        _usual(0.0, 100.0),
        "",
        "Nothing says what vessels hold so much.",
        "A batch as large as this wants a brewhouse that says how much its kettle and its mash tun hold.",
        PRACTICE,
        possible=(0.0, 2000.0),
    ),
    Row(
        "batch of its brewhouse",
        _against_its_brewhouse,
        _usual(0.0, 3.5),
        "",
        "It is several times the batch that its brewhouse is set for.",
        "A US gallon is 3.785 L: one for the other fills the beer with water, and its bottles with sugar.",
        PRACTICE,
    ),
    Row(
        "weight of the bag",
        _in_a_bag,
        _usual(0.0, 10.0),
        "",
        "The wet bag is more than one person lifts out of hot wort.",
        "It weighs about twice its grain, and drips: two bags, or a hoist and a second pair of hands.",
        PRACTICE,
    ),
    Row(
        "raw wort",
        _raw_wort,
        _usual(5.0),
        "The wort of a mash is not boiled.",
        "",
        "Grain carries bacteria and what they make: hold such a wort at 75 °C or more for half an hour, and drink it "
        "young.",
        PRACTICE,
    ),
    Row(
        "time on dry hops",
        _longest_dry_hop,
        _usual(0.0, 21.0),
        "",
        "Hops lie in the beer for weeks.",
        "What they have to give is in the beer after some days; after weeks it tastes of leaves.",
        "Wolfe, Qian and Shellhammer, as reported: most of it within a day",
    ),
    Row(
        "salts in the water",
        _salts_in_the_tap,
        _usual(0.0, 1600.0),
        "",
        "There is more in this water than people drink.",
        "A report in other units, or a slip of the point? Past 1000 mg/L or so water tastes of its salts.",
        "from memory: the World Health Organization's guidelines for drinking water, of all dissolved solids",
    ),
    Row(
        "fermenter",
        _fermenter,
        _usual(0.0, FERMENTER_USABLE),
        "",
        "The fermenter has little room left for the foam.",
        "Foam climbs by a quarter of the beer: a fuller vessel wants a blow-off tube, and an airlock clogs and bursts.",
        PRACTICE,
        possible=(0.0, 1.0),
    ),
)
"""Common practice, no source, unless a row says otherwise: what is usual is wide enough for a barley wine of 1.120, a
double India pale ale of 110 IBU, a test batch of 5 L and a Berlin wheat of 1.030."""
