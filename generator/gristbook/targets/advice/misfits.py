"""What a plan's vessels, water and boil cannot do: a mash that wants more than there is, a boil that climbs out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import floor

from gristbook.equations import boiling, density
from gristbook.model.brewhouse import Brewhouse
from gristbook.problems import spoken
from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value, number
from gristbook.targets.conventions import GRAIN_DISPLACEMENT, USABLE, WATER_ROOM
from gristbook.targets.editions.pot import climb_l, usable_l
from gristbook.targets.figures import Plan
from gristbook.targets.results import Figures, Mash
from gristbook.targets.wort.small_mash import in_a_bag

SLACK_L = 1e-6

STIRRED = 0.97
"""How much of its brim a mash may fill, so that it can be stirred (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Misfit:
    """Something that does not fit, in words; ``expected`` is the bound that it met where the words do not say it.

    ``vessel`` is what was too small for it.
    """

    what: str
    expected: str = ""
    vessel: Value | None = None


def misfits(plan: Plan) -> Iterator[Misfit]:
    """Everything that does not fit."""
    for row, volume, in_tun in _rooms(plan):
        vessel = plan.brewhouse.tun if in_tun else plan.brewhouse.kettle
        if vessel is not None and volume > row.usable * vessel.number + SLACK_L:
            name = "mash tun" if in_tun else "kettle"
            share = f", of which {spoken(row.usable, 'fraction')} may be filled" if row.usable < 1 else ""
            most = f"no more than the {name} of {_size(vessel, plan)} holds{share}"
            would = would_fit(plan.recipe.batch.number, volume, row.usable * vessel.number)
            smaller = f", or a batch of {spoken(would, 'L', us=plan.us)}" if would else ""
            would_do = f": one of {_litres(volume / row.usable + 0.05, plan)} would do{smaller}"
            yield Misfit(f"{row.what} takes {_litres(volume, plan)}", most + would_do, vessel)
    yield from _mash(plan)
    for words in (*_steep(plan), *_boil(plan)):
        yield Misfit(words)


def _rooms(plan: Plan) -> Iterator[tuple[_Room, float, bool]]:
    """What takes room in this brew, how much of it (L), and whether that is in a tun and not in the kettle."""
    in_tun = not in_a_bag(plan.recipe, plan.brewhouse)
    for row in ROOMS:
        volume = row.volume(plan)
        if volume is not None:
            yield row, volume, row.mashed and in_tun


@dataclass(frozen=True, slots=True)
class Fill:
    """How full a brew's kettle becomes: of what, and how much of that (L, hot or cool as it then is).

    ``least`` is what the kettle must hold to the brim (L), with the room that foam and stirring need; ``weight`` is the
    heaviest that is in it (kg), the kettle itself not counted.
    """

    what: str
    fullest: float
    least: float
    weight: float


def fill(plan: Plan) -> Fill:
    """How full the kettle of a brew becomes, whatever kettle that is."""
    volumes, mash = plan.figures.volumes, plan.figures.mash
    climbs = _peak_l(plan) / volumes.boil.number  # where extract is stirred in faster than the wort steams away
    taken = [(row, it * (climbs if row is ROOMS[0] else 1.0)) for row, it, in_tun in _rooms(plan) if not in_tun]
    row, fullest = max(taken, key=lambda it: it[1])
    weights = [volumes.boil.number * plan.figures.wort.before_the_boil.number / WATER_ROOM.number]
    if mash is not None and in_a_bag(plan.recipe, plan.brewhouse):
        weights.append(mash.water.number / WATER_ROOM.number + mash.grist.number)
    return Fill(row.what.removeprefix("the "), fullest, max(it / row.usable for row, it in taken), max(weights))


def _peak_l(plan: Plan) -> float:
    """The most cool wort that there is in the boil (L)."""
    sugars = tuple(line.sugar.weighing(line.mass) for line in plan.figures.grist.sugars)
    return plan.figures.volumes.boil.number + climb_l(replace(plan.recipe, sugars=sugars), plan.brewhouse)


def _size(vessel: Value, plan: Plan) -> str:
    """What a vessel holds, as its author says it, and where."""
    us = plan.us or (isinstance(vessel.origin, Given) and vessel.origin.us)
    where = f" (line {vessel.place.line} of {vessel.place.path})" if vessel.place else ""
    return f"{spoken(vessel.number, 'L', us=us)}{where}"


def _litres(number: float, plan: Plan) -> str:
    return spoken(number, "L", us=True) if plan.us else f"{number:.1f} L"


def hot_mash_l(mash: Mash) -> float:
    """The room that a mash takes at the hottest of its rests (L)."""
    return mash.volume.number * swelling(mash)


def swelling(mash: Mash) -> float:
    """How much more room a mash takes at its hottest rest than at 20 °C, as a ratio."""
    return density.hot_volume(cool_l=1.0, temperature=max(it.step.temperature.number for it in mash.rests))


def would_fit(batch_l: float, takes_l: float, holds_l: float) -> float:
    """A batch that leaves room where one takes more than there is (L), a little too small sooner than too large.

    What a vessel holds goes with the batch, or with the batch and something that stays the same; 0.0 where none fits.
    """
    step = 0.5 if batch_l >= 5 else 0.1
    return max(step * floor(min(batch_l * holds_l / takes_l, batch_l - (takes_l - holds_l)) / step), 0.0)


def _strike_l(plan: Plan) -> float | None:
    """What the kettle heats for a tun; in a bag it is a part of the mash."""
    mash = plan.figures.mash
    return mash.water.number if mash is not None and not in_a_bag(plan.recipe, plan.brewhouse) else None


def _drawn_l(plan: Plan) -> float | None:
    """The most of the mash that is boiled by itself for a decoction."""
    mash = plan.figures.mash
    rests = mash.rests if mash is not None else ()
    return max((rest.decoction.number for rest in rests if rest.decoction is not None), default=None)


def _steep_l(plan: Plan) -> float | None:
    water, grain = plan.figures.water.steep, plan.figures.grist.steeped
    return water.number + GRAIN_DISPLACEMENT.number * grain.number if water is not None and grain is not None else None


@dataclass(frozen=True, slots=True)
class _Room:
    """Something that a vessel must hold, hot or cool as it then is (L), and how much of its brim may be filled.

    It is the kettle, which a bag is ``mashed`` in as well.
    """

    what: str
    volume: Callable[[Plan], float | None]
    usable: float = 1.0
    mashed: bool = False


ROOMS: tuple[_Room, ...] = (
    _Room("the hot wort", lambda plan: plan.figures.volumes.boil_hot.number, USABLE),
    _Room("the hot mash", lambda plan: hot_mash_l(plan.figures.mash) if plan.figures.mash else None, STIRRED, True),
    _Room("the strike water", _strike_l),
    _Room("the mash drawn to be boiled", _drawn_l, USABLE),
    _Room("the steep", _steep_l),
)


def _mash(plan: Plan) -> Iterator[Misfit]:
    mash, brewhouse = plan.figures.mash, plan.brewhouse
    if mash is None:
        return
    boiling_c = boiling.boiling_point(altitude=brewhouse.altitude.number)
    if mash.strike.number >= boiling_c:
        strike, boils = (spoken(round(it), "°C", us=plan.us) for it in (mash.strike.number, boiling_c))
        yield Misfit(f"the strike water would be at {strike}, and water boils at {boils} here")
    all_in, there = mash.water.number + sum(infusions_l(mash)), mash_water_l(plan.figures, brewhouse)
    if all_in > there + SLACK_L:
        takes = (
            f"the mash takes {_litres(all_in, plan)} of water, and the wort leaves only {_litres(there, plan)} for it"
        )
        yield Misfit(takes, "a rest that is reached by heat, as 72 °C, 30 min, heat" if infusions_l(mash) else "")


def _steep(plan: Plan) -> Iterator[str]:
    water = plan.figures.water
    there = water.total.number - number(plan.figures.volumes.top_up or 0.0)
    if water.steep is not None and water.steep.number > there + SLACK_L:
        takes, only = _litres(water.steep.number, plan), _litres(there, plan)
        yield f"the steep takes {takes} of water, and only {only} go into the pot"


def _boil(plan: Plan) -> Iterator[str]:
    most = usable_l(plan.brewhouse)
    peak = _peak_l(plan)
    if peak > most + SLACK_L and plan.figures.volumes.boil.number <= most + SLACK_L:
        yield f"the wort climbs to {_litres(peak, plan)} in the boil, and the pot boils {_litres(most, plan)} at most"


def infusions_l(mash: Mash) -> list[float]:
    """Boiling water poured in for each rest (L)."""
    return [rest.infusion.number for rest in mash.rests if rest.infusion is not None]


def mash_water_l(figures: Figures, brewhouse: Brewhouse) -> float:
    """All the water that goes through the mashed grain, mash and sparge together (L)."""
    steeped = brewhouse.absorption.number * figures.grist.steeped.number if figures.grist.steeped else 0.0
    return figures.water.total.number - number(figures.volumes.top_up or 0.0) - steeped
