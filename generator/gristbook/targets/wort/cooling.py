"""When it is cool enough to pitch: what topping up does to hot wort, how cool it must be before, and what ice does."""

from __future__ import annotations

from gristbook.equations import cooling
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.moment import Stand
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import in_steps, less
from gristbook.sheet.value import Value, apply, constant, settled
from gristbook.targets.conventions import COLD_WATER
from gristbook.targets.results import Cooling, Volumes
from gristbook.targets.wort.volumes import boils_at

ICE_STEP = constant(0.1, "kg", "ice as a kitchen weighs it")


def topping_up(recipe: Recipe, brewhouse: Brewhouse, volumes: Volumes) -> Cooling | None:
    """What cold top-up water does; `None` without a top-up or a temperature to pitch at."""
    pitch_c = recipe.pitched_at
    if volumes.top_up is None or pitch_c is None:
        return None
    end, lost = volumes.end_of_boil, volumes.left_in_kettle
    from_kettle = less(end, lost, left="what is left of a volume", label="wort from the kettle")
    cold = {"cold_l": volumes.top_up, "cold_c": COLD_WATER}
    hot_c, label = boils_at(brewhouse.altitude), "temperature if it is topped up boiling"
    if_boiling = apply(cooling.mixed_temperature, label, hot_l=from_kettle, hot_c=hot_c, **cold)
    label = "cool the wort to, before topping up"
    cool_to = apply(cooling.wort_temperature_before_top_up, label, pitch_c=pitch_c, wort_l=from_kettle, **cold)
    stands = any(isinstance(hop.use, Stand) for hop in recipe.hops)
    return Cooling(COLD_WATER, if_boiling, cool_to, None if stands else _ice(pitch_c, if_boiling, volumes))


def _ice(pitch_c: Value, if_boiling: Value, volumes: Volumes) -> Value | None:
    """Ice in place of some of the water; none where the water alone is enough, or where all of it would not be."""
    if volumes.top_up is None or if_boiling.number <= pitch_c.number:
        return None
    ice = apply(
        cooling.ice_for_water,
        "ice that cools so much",
        whole_l=volumes.into_fermenter,
        mixed_c=if_boiling,
        target_c=pitch_c,
        cold_c=COLD_WATER,
    )
    ice = settled(in_steps(ice, ICE_STEP, "ice in place of as much of the top-up water"))
    return ice if ice.number <= volumes.top_up.number else None
