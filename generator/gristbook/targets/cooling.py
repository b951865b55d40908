"""When it is cool enough to pitch: what topping up with cold water does to hot wort, and how cool the wort must be."""

from __future__ import annotations

from gristbook.equations import boiling, cooling, sums
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.targets.conventions import COLD_WATER
from gristbook.targets.results import Cooling, Volumes
from gristbook.worksheet import Calculator, N


def topping_up(recipe: Recipe, brewhouse: Brewhouse, volumes: Volumes[N], calc: Calculator[N]) -> Cooling[N] | None:
    """What cold top-up water does; `None` without a top-up or a temperature to pitch at."""
    if volumes.top_up is None or not recipe.ferment:
        return None
    from_kettle = calc(
        sums.remaining_volume,
        "wort from the kettle",
        whole_l=volumes.end_of_boil,
        part_l=volumes.left_in_kettle,
    )
    boiling_c = calc(boiling.boiling_point, "boiling point of water", altitude=brewhouse.altitude)
    return Cooling(
        COLD_WATER,
        calc(
            cooling.mixed_temperature,
            "temperature if it is topped up boiling",
            hot_l=from_kettle,
            hot_c=boiling_c,
            cold_l=volumes.top_up,
            cold_c=COLD_WATER,
        ),
        calc(
            cooling.wort_temperature_before_top_up,
            "cool the wort to, before topping up",
            pitch_c=recipe.ferment[0].temperature,
            wort_l=from_kettle,
            cold_l=volumes.top_up,
            cold_c=COLD_WATER,
        ),
    )
