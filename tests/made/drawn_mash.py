"""The mash of a drawn brew: how much of the malt's extract reaches the kettle, its water, and how hot that must be."""

from __future__ import annotations

import drawn_formulas as of
import numpy as np
from drawn_doubts import Array, typed
from drawn_weighed import Weighed

GRAIN_HEAT = (0.32, 0.41, 0.42)
"""Of water's, by weight."""
BASE_MALT, MOST_CONVERTED = 0.768, 0.99
"""The potential of base malt; no mash converts more."""
GRAIN_ROOM = 0.516
"""L/kg that a malt adds to its wort: 0.04 of its own water, and its extract at 0.62 L/kg."""


def planned_grain(brew: Weighed) -> float:
    """Grain that is mashed, as it was decided (kg)."""
    lines = zip(brew.recipe.malts, brew.decided.malts, strict=True)
    return sum(mass for malt, mass in lines if malt.steep is None)


def mash_water(brew: Weighed) -> Array:
    """Water of the first rest (L): as decided, but in a bag all of it, by what the grain will keep."""
    planned = brew.decided.mash_water
    assert planned is not None, "nothing is mashed"
    if brew.brewhouse.mash != "bag" or brew.recipe.mash[0].water is not None:
        return np.full(brew.doubts.draws, planned)
    assert not any(it.from_malt for it in brew.recipe.sugars), "malt extract in a bag's mash is not drawn"
    return brew.decided.start + brew.setting("absorption") * planned_grain(brew)


def strike(brew: Weighed) -> Array:
    """°C of the water that brings grain and tun to the mash that is wanted: the balance of their heats."""
    wanted = brew.recipe.mash[0].temperature.number
    grain_heat = brew.doubts.drawn("heat of the grain", GRAIN_HEAT)
    cold = grain_heat * planned_grain(brew) + brew.setting("tun heat")
    grain = brew.doubts.drawn("grain temperature", typed(brew.brewhouse.grain_temperature, "grain temperature"))
    return wanted + cold * (wanted - grain) / mash_water(brew)


def efficiency(brew: Weighed) -> Array:
    """Share of the mashed malt's potential that reaches the kettle."""
    if brew.decided.mash_water is None:
        return np.full(brew.doubts.draws, np.nan)
    lines = list(zip(brew.recipe.malts, brew.malts, strict=True))
    grain = sum((mass for malt, mass in lines if malt.steep is None), np.zeros(1))
    run_off = brew.start
    for sugar, mass in zip(brew.recipe.sugars, brew.sugars, strict=True):
        if sugar.from_malt and not sugar.into_fermenter and not brew.late(sugar):
            run_off = run_off - brew.room(sugar, mass)
    water = None if brew.brewhouse.mash == "bag" else _all_the_water(brew)
    return conversion(brew) * _lautered(brew, grain, run_off, water)


def conversion(brew: Weighed) -> Array:
    """Share of the potential that dissolves: stated, or by what comes out of the brewhouse's ordinary grist."""
    house = brew.brewhouse
    if house.efficiency is None:
        return brew.setting("conversion")
    batch, left = house.batch.number, house.left_in_kettle.number
    gravity = np.array([house.ordinary_gravity.number])
    if house.ordinary_gravity.unit == "°P":
        gravity = of.gravity_of_plato(gravity)
    needed = float((10 * of.plato(gravity) * gravity * 0.998203)[0]) * (batch + left) / 1000
    grain = needed / (house.efficiency.number * BASE_MALT)
    run_off = np.full(brew.doubts.draws, batch + left + house.boil_off.number)
    water = None if house.mash == "bag" else grain * house.thickness.number
    lauter = _lautered(brew, np.array([grain]), run_off, water)
    typical = house.efficiency.number / _typical(brew, grain, run_off, water)
    return brew.setting("efficiency") / lauter * min(1.0, MOST_CONVERTED / typical)


def _typical(brew: Weighed, grain: float, run_off: Array, water: float | None) -> float:
    """What an ordinary grist lets go, when its grain keeps what it usually keeps."""
    kept = brew.brewhouse.absorption.number + GRAIN_ROOM
    first = None if water is None else water - grain * brew.brewhouse.absorption.number
    runs = [run_off[0]] if first is None or not 0 < first < run_off[0] else [first, run_off[0] - first]
    return float(of.lautered(grain, np.array([kept]), runs)[0])


def _lautered(brew: Weighed, grain: Array, run_off: Array, water: float | None) -> Array:
    """Share of what is dissolved that runs off: what the mash gives by itself, then one well-mixed sparge."""
    absorbed = brew.setting("absorption")
    kept = absorbed + GRAIN_ROOM
    if water is None:
        return of.lautered(grain, kept, [run_off])
    first = water - grain * absorbed
    sparged = bool(0 < np.median(first) < np.median(run_off))
    return of.lautered(grain, kept, [first, run_off - first] if sparged else [run_off])


def _all_the_water(brew: Weighed) -> float:
    """The water that the mash comes to have (L), with the boiling water that lifts it from rest to rest, as planned."""
    assert brew.decided.mash_water is not None
    house, grain, water = brew.brewhouse, planned_grain(brew), brew.decided.mash_water
    for before, step in zip(brew.recipe.mash, brew.recipe.mash[1:], strict=False):
        low, high = before.temperature.number, step.temperature.number
        if high > low and step.way == "infusion":
            holds = GRAIN_HEAT[1] * grain + house.tun_heat.number + water
            poured = holds * (high - low) / (of.boils_at(house.altitude.number) - high)
            water += step.water.number if step.water is not None else poured
    return water
