"""What a plan's vessels, water and boil cannot do: a mash that wants more than there is, a boil that climbs out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from gristbook.equations import boiling
from gristbook.model.brewhouse import Brewhouse
from gristbook.sheet.value import number
from gristbook.targets.conventions import GRAIN_DISPLACEMENT, USABLE
from gristbook.targets.editions.pot import climb_l, usable_l
from gristbook.targets.figures import Plan
from gristbook.targets.results import Figures, Mash
from gristbook.targets.wort.small_mash import in_a_bag

SLACK_L = 1e-6


@dataclass(frozen=True, slots=True)
class Misfit:
    """Something that does not fit, in words; ``expected`` is the bound that it met where the words do not say it."""

    what: str
    expected: str = ""


def misfits(plan: Plan) -> Iterator[Misfit]:
    """Everything that does not fit."""
    for row in ROOMS:
        in_tun = row.mashed and not in_a_bag(plan.recipe, plan.brewhouse)
        volume, vessel = row.volume(plan), plan.brewhouse.tun if in_tun else plan.brewhouse.kettle
        if volume is not None and vessel is not None and volume > row.usable * vessel.number + SLACK_L:
            share = f", of which {row.usable:.0%} may be filled" if row.usable < 1 else ""
            most = f"no more than the {'mash tun' if in_tun else 'kettle'} of {vessel.number:.3g} L holds{share}"
            yield Misfit(f"{row.what} takes {volume:.1f} L", most)
    for words in (*_mash(plan), *_steep(plan), *_boil(plan)):
        yield Misfit(words)


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

    It is the kettle, which a bag is ``mashed`` in as well; a tun has to hold its mash to the brim.
    """

    what: str
    volume: Callable[[Plan], float | None]
    usable: float = 1.0
    mashed: bool = False


ROOMS: tuple[_Room, ...] = (
    _Room("the hot wort", lambda plan: plan.figures.volumes.boil_hot.number, USABLE),
    _Room("the mash", lambda plan: plan.figures.mash.volume.number if plan.figures.mash else None, mashed=True),
    _Room("the strike water", _strike_l),
    _Room("the mash drawn to be boiled", _drawn_l, USABLE),
    _Room("the steep", _steep_l),
)


def _mash(plan: Plan) -> Iterator[str]:
    mash, brewhouse = plan.figures.mash, plan.brewhouse
    if mash is None:
        return
    boiling_c = boiling.boiling_point(altitude=brewhouse.altitude.number)
    if mash.strike.number >= boiling_c:
        yield f"the strike water would be at {mash.strike.number:.0f} °C, and water boils at {boiling_c:.0f} °C here"
    all_in, there = mash.water.number + sum(infusions_l(mash)), mash_water_l(plan.figures, brewhouse)
    if all_in > there + SLACK_L:
        yield f"the mash takes {all_in:.1f} L of water, and the wort leaves only {there:.1f} L for it"


def _steep(plan: Plan) -> Iterator[str]:
    water = plan.figures.water
    there = water.total.number - number(plan.figures.volumes.top_up or 0.0)
    if water.steep is not None and water.steep.number > there + SLACK_L:
        yield f"the steep takes {water.steep.number:.1f} L of water, and only {there:.1f} L go into the pot"


def _boil(plan: Plan) -> Iterator[str]:
    most = usable_l(plan.brewhouse)
    sugars = tuple(line.sugar.weighing(line.mass) for line in plan.figures.grist.sugars)
    peak = plan.figures.volumes.boil.number + climb_l(replace(plan.recipe, sugars=sugars), plan.brewhouse)
    if peak > most + SLACK_L and plan.figures.volumes.boil.number <= most + SLACK_L:
        yield f"the wort climbs to {peak:.1f} L in the boil, and the pot boils {most:.1f} L at most"


def infusions_l(mash: Mash) -> list[float]:
    """Boiling water poured in for each rest (L)."""
    return [rest.infusion.number for rest in mash.rests if rest.infusion is not None]


def mash_water_l(figures: Figures, brewhouse: Brewhouse) -> float:
    """All the water that goes through the mashed grain, mash and sparge together (L)."""
    steeped = brewhouse.absorption.number * figures.grist.steeped.number if figures.grist.steeped else 0.0
    return figures.water.total.number - number(figures.volumes.top_up or 0.0) - steeped
