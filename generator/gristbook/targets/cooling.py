"""When it is cool enough to pitch: what topping up does to hot wort, how cool it must be before, and what ice does."""

from __future__ import annotations

from gristbook.equations import cooling
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import less
from gristbook.sheet.value import Value, apply
from gristbook.targets.conventions import COLD_WATER
from gristbook.targets.results import Cooling, Volumes
from gristbook.targets.volumes import boils_at


def topping_up(recipe: Recipe, brewhouse: Brewhouse, volumes: Volumes) -> Cooling | None:
    """What cold top-up water does; `None` without a top-up or a temperature to pitch at."""
    if volumes.top_up is None or not recipe.ferment:
        return None
    pitch_c = recipe.ferment[0].temperature
    from_kettle = less(
        volumes.end_of_boil, volumes.left_in_kettle, left="what is left of a volume", label="wort from the kettle"
    )
    if_boiling = apply(
        cooling.mixed_temperature,
        "temperature if it is topped up boiling",
        hot_l=from_kettle,
        hot_c=boils_at(brewhouse.altitude),
        cold_l=volumes.top_up,
        cold_c=COLD_WATER,
    )
    cool_to = apply(
        cooling.wort_temperature_before_top_up,
        "cool the wort to, before topping up",
        pitch_c=pitch_c,
        wort_l=from_kettle,
        cold_l=volumes.top_up,
        cold_c=COLD_WATER,
    )
    stands = any(hop.use == "stand" for hop in recipe.hops)
    return Cooling(COLD_WATER, if_boiling, cool_to, None if stands else _ice(pitch_c, if_boiling, volumes))


def _ice(pitch_c: Value, if_boiling: Value, volumes: Volumes) -> Value | None:
    """Ice in place of some of the water; none where the water alone is enough, or where all of it would not be."""
    if volumes.top_up is None or if_boiling.number <= pitch_c.number:
        return None
    ice = apply(
        cooling.ice_for_water,
        "ice in place of as much of the top-up water",
        whole_l=volumes.into_fermenter,
        mixed_c=if_boiling,
        target_c=pitch_c,
        cold_c=COLD_WATER,
    )
    return ice if ice.number <= volumes.top_up.number else None
