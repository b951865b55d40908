"""Water and heat of the mash, and all the brewing water."""

from __future__ import annotations

from gristbook.equations import gravity, mash_enzymes, runnings
from gristbook.equations import mash as equations
from gristbook.equations import volumes as volume_equations
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import less, share_of, sum_of
from gristbook.sheet.value import Value, apply, settled
from gristbook.targets.conventions import (
    CONVERSION,
    EXTRACT_ROOM,
    GRAIN_DISPLACEMENT,
    GRAIN_HEAT,
    STEEP_WATER,
    carried_out,
)
from gristbook.targets.results import Grist, Mash, Rest, Volumes, Water
from gristbook.targets.wort.grist import could_give
from gristbook.targets.wort.volumes import boils_at, dissolved_volume, joins_late


def mash(recipe: Recipe, brewhouse: Brewhouse, grist: Grist, volumes: Volumes) -> Mash | None:
    """The mash, or `None` where nothing is mashed.

    A sparged tun takes its mash water by thickness and the rest as sparge; a bag takes all the water at once.
    """
    if grist.mashed is None or not recipe.mash:
        return None
    absorbed = (grist.mashed * brewhouse.absorption).called("water that the grain keeps")
    total = _for_the_kettle(recipe, grist, volumes, absorbed)
    first = recipe.mash[0]
    water = first.water or total
    if first.water is None and brewhouse.mash != "bag":
        water = (grist.mashed * brewhouse.thickness).called("mash water")
    rests = _rests(recipe, brewhouse, grist.mashed, water)
    added = (water, *(rest.infusion for rest in rests if rest.infusion is not None))
    all_in = sum_of(added, "water in the mash") if len(added) > 1 else water
    sparge = None
    if brewhouse.mash != "bag" or first.water is not None:
        sparge = (total - all_in).called("sparge water")
    mashed = (could_give(line) for line in grist.malts if line.malt.steep is None)
    potential_kg = sum_of(mashed, "all that the mashed grain could give")
    plato = apply(
        runnings.first_runnings_extract,
        "extract of the first runnings",
        potential_kg=potential_kg,
        conversion=CONVERSION,
        mash_l=carried_out(all_in, {"mash water, as it is poured": "poured"}),
    )
    return Mash(
        grist.mashed,
        (water / grist.mashed).called("thickness of the mash"),
        water,
        sparge,
        apply(
            equations.strike_temperature_with_tun,
            "strike temperature",
            **_stirred(brewhouse, grist.mashed, water),
            grain_c=brewhouse.grain_temperature,
            mash_c=first.temperature,
            grain_heat=GRAIN_HEAT,
        ),
        _room(grist.mashed, all_in),
        absorbed,
        rests,
        plato,
        apply(gravity.gravity_from_plato, "gravity of the first runnings", extract=plato),
        None if sparge is None else _sparged(brewhouse, grist.mashed, potential_kg, settled(volumes.boil), sparge),
    )


def _stirred(brewhouse: Brewhouse, grain: Value, water: Value) -> dict[str, Value]:
    """What takes up heat in a mash: its grain, its water and the tun."""
    return {"grain_kg": grain, "water_l": water, "tun_heat_l": brewhouse.tun_heat}


def _room(grain: Value, water: Value) -> Value:
    room = {"mash_water_l": water, "grain_kg": grain, "displacement": GRAIN_DISPLACEMENT}
    return apply(volume_equations.mash_volume, "room that the mash takes", **room)


def _rests(recipe: Recipe, brewhouse: Brewhouse, grain: Value, water: Value) -> tuple[Rest, ...]:
    """Every rest in order, and what lifts the mash to it: in a bag the pot is heated, unless the line says how."""
    boiling_c = boils_at(brewhouse.altitude)
    rests: list[Rest] = []
    in_mash = water
    for before, step in zip((None, *recipe.mash), recipe.mash, strict=False):
        infusion: Value | None = None
        decoction: Value | None = None
        if before is not None and step.temperature.number > before.temperature.number:
            rise = {"mash_c": before.temperature, "step_c": step.temperature}
            if step.way == "infusion" and brewhouse.mash != "bag":
                infusion = step.water or apply(
                    equations.infusion_volume,
                    "boiling water to reach the next rest",
                    **_stirred(brewhouse, grain, in_mash),
                    **rise,
                    added_c=boiling_c,
                    grain_heat=GRAIN_HEAT,
                )
                in_mash = sum_of((in_mash, infusion), "water in the mash")
            elif step.way == "decoction":
                label, mash_l = "mash to boil to reach the next rest", _room(grain, in_mash)
                decoction = apply(equations.decoction_volume, label, mash_l=mash_l, **rise, boil_c=boiling_c)
        rests.append(Rest(step, infusion, decoction, mash_enzymes.enzymes_at(step.temperature.number)))
    return tuple(rests)


def _sparged(brewhouse: Brewhouse, grain: Value, potential_kg: Value, boil: Value, sparge: Value) -> Value | None:
    """What a sparge in one batch would bring; `None` where the sparge is all of the wort, or nothing."""
    if not 0 < sparge.number < boil.number:
        return None
    dissolved = (potential_kg * CONVERSION).called("extract that dissolves")
    kept = (
        brewhouse.absorption + share_of(dissolved, grain, "share of the grain that dissolves") * EXTRACT_ROOM
    ).called("wort that a kilogram of grain keeps")
    first = less(boil, sparge, left="what is left of a volume", label="wort of the first run-off")
    lauter = apply(
        runnings.lauter_efficiency_batch_sparged,
        "share of the dissolved extract that runs off in two batches",
        grain_kg=grain,
        absorption=kept,
        run_offs_l=(first, sparge),
    )
    return (CONVERSION * lauter).called("mash efficiency of a sparge in one batch")


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
    parts = tuple(
        dissolved_volume(line.sugar, line.mass)
        for line in grist.sugars
        if line.sugar.from_malt and not line.sugar.into_fermenter and not joins_late(line.sugar, recipe)
    )
    wort = settled(volumes.boil)
    water = wort + absorbed if absorbed.number else wort
    if not parts:
        return water.called("brewing water")
    return less(water, sum_of(parts, "volume of the malt extract"), left="brewing water", label="brewing water")
