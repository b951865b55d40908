"""Water and heat of the mash, and all the brewing water."""

from __future__ import annotations

from dataclasses import replace

from gristbook.equations import gravity, runnings
from gristbook.equations import mash as equations
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import less, sum_of
from gristbook.sheet.value import Value, apply, constant, settled
from gristbook.targets.conventions import GRAIN_HEAT, MALT_WATER, STEEP_WATER, carried_out
from gristbook.targets.results import Grist, Mash, Volumes, Water
from gristbook.targets.wort.grist import Efficiency, could_give
from gristbook.targets.wort.infusions import in_the_mash, room_of, stirred
from gristbook.targets.wort.small_mash import is_small
from gristbook.targets.wort.volumes import early_room

NO_TUN = constant(0.0, "L")


def mash(recipe: Recipe, brewhouse: Brewhouse, grist: Grist, volumes: Volumes, efficiency: Efficiency) -> Mash | None:
    """The mash, or `None` where nothing is mashed.

    A sparged tun takes its mash water by thickness and the rest as sparge; a bag takes all the water at once; a small
    mash beside malt extract only what it needs, and the rest goes straight into the kettle.
    """
    absorbed = efficiency.absorbed
    if grist.mashed is None or efficiency.lauter is None or absorbed is None or not recipe.mash:
        return None
    total = _for_the_kettle(recipe, grist, volumes, absorbed)
    first, small = recipe.mash[0], is_small(recipe, brewhouse)
    brewhouse = tun_of(recipe, brewhouse)
    water = efficiency.water or total
    all_in, rests = in_the_mash(recipe, brewhouse, grist.mashed, water)
    sparge = (total - all_in).called("sparge water") if efficiency.water and not small else None
    mashed = (could_give(line) for line in grist.malts if line.malt.steep is None)
    potential_kg = sum_of(mashed, "all that the mashed grain could give")
    poured = carried_out(all_in, {"mash water, as it is poured": "poured"})
    plato = apply(
        runnings.first_runnings_extract,
        "extract of the first runnings",
        potential_kg=potential_kg,
        conversion=efficiency.conversion,
        mash_l=(poured + grist.mashed * MALT_WATER).called("water in the mash, the malt's own with it"),
    )
    return Mash(
        grist.mashed,
        (water / grist.mashed).called("thickness of the mash"),
        water,
        sparge,
        apply(
            equations.strike_temperature_with_tun,
            "strike temperature",
            **stirred(brewhouse, grist.mashed, water),
            grain_c=brewhouse.grain_temperature,
            mash_c=first.temperature,
            grain_heat=GRAIN_HEAT,
        ),
        room_of(grist.mashed, all_in),
        absorbed,
        rests,
        plato,
        apply(gravity.gravity_from_plato, "gravity of the first runnings", extract=plato),
        efficiency.conversion,
        efficiency.lauter,
    )


def tun_of(recipe: Recipe, brewhouse: Brewhouse) -> Brewhouse:
    """The brewhouse as a mash finds it: a small one is in a pot that takes no heat."""
    return replace(brewhouse, tun_heat=NO_TUN) if is_small(recipe, brewhouse) else brewhouse


def water(recipe: Recipe, brewhouse: Brewhouse, grist: Grist, volumes: Volumes) -> Water:
    """All the brewing water: to the kettle, into the grain, and the top-up."""
    kept = (
        (mass * brewhouse.absorption).called(f"water that the {what} grain keeps")
        for what, mass in (("mashed", grist.mashed), ("steeped", grist.steeped))
        if mass is not None
    )
    total = _for_the_kettle(recipe, grist, volumes, sum_of(kept, "water that the grain keeps", "L"))
    if volumes.top_up is not None:
        total = sum_of((total, volumes.top_up), "all the brewing water")
    steep = None
    if grist.steeped is not None:
        steep = settled((grist.steeped * STEEP_WATER).called("steeping water"))
    return Water(total, steep)


def _for_the_kettle(recipe: Recipe, grist: Grist, volumes: Volumes, absorbed: Value) -> Value:
    """Water that makes the wort at the start of the boil: malt extract brings some of the volume itself."""
    room = early_room(recipe, (line.mass for line in grist.sugars))
    wort = settled(volumes.boil)
    water = wort + absorbed if absorbed.number else wort
    if room is None:
        return water.called("brewing water")
    return less(water, room, left="brewing water", label="brewing water")
