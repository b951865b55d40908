"""The rests of a mash, and the boiling water or the mash boiled apart that lifts it from one to the next."""

from __future__ import annotations

from gristbook.equations import mash as equations
from gristbook.equations import mash_enzymes
from gristbook.equations import volumes as volume_equations
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply
from gristbook.targets.conventions import GRAIN_DISPLACEMENT, GRAIN_HEAT
from gristbook.targets.results import Rest
from gristbook.targets.wort.volumes import boils_at


def stirred(brewhouse: Brewhouse, grain: Value, water: Value) -> dict[str, Value]:
    """What takes up heat in a mash: its grain, its water and the tun."""
    return {"grain_kg": grain, "water_l": water, "tun_heat_l": brewhouse.tun_heat}


def room_of(grain: Value, water: Value) -> Value:
    """Room that grain takes with the water that it lies in (L)."""
    room = {"mash_water_l": water, "grain_kg": grain, "displacement": GRAIN_DISPLACEMENT}
    return apply(volume_equations.mash_volume, "room that the mash takes", **room)


def in_the_mash(recipe: Recipe, brewhouse: Brewhouse, grain: Value, water: Value) -> tuple[Value, tuple[Rest, ...]]:
    """All the water that the mash comes to have, from the ``water`` of its first rest on, and every rest in order.

    A rest says what lifts the mash to it: in a bag the pot is heated, unless the line says how.
    """
    boiling_c = boils_at(brewhouse.altitude)
    rests: list[Rest] = []
    in_mash = water
    for before, step in zip((None, *recipe.mash), recipe.mash, strict=False):
        infusion = decoction = needed = None
        if before is not None and step.temperature.number > before.temperature.number:
            rise = {"mash_c": before.temperature, "step_c": step.temperature}
            if step.way == "infusion" and brewhouse.mash != "bag":
                needed = apply(
                    equations.infusion_volume,
                    f"{'hot' if step.hot else 'boiling'} water to reach the next rest",
                    **stirred(brewhouse, grain, in_mash),
                    **rise,
                    added_c=step.hot or boiling_c,
                    grain_heat=GRAIN_HEAT,
                )
                infusion = step.water or needed
                in_mash = sum_of((in_mash, infusion), "water in the mash")
            elif step.way == "decoction":
                label, mash_l = "mash to boil to reach the next rest", room_of(grain, in_mash)
                decoction = apply(equations.decoction_volume, label, mash_l=mash_l, **rise, boil_c=boiling_c)
        rests.append(Rest(step, infusion, needed, decoction, mash_enzymes.enzymes_at(step.temperature.number)))
    return in_mash, tuple(rests)
