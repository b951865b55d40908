"""Water and heat of the mash, and all the brewing water."""

from __future__ import annotations

from gristbook.equations import boiling, extract, gravity, mash_enzymes, runnings, sums
from gristbook.equations import mash as equations
from gristbook.equations import volumes as volume_equations
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import MashStep, Recipe
from gristbook.sheet.value import Value, apply, number, settled
from gristbook.targets.conventions import CONVERSION, EXTRACT_ROOM, GRAIN_DISPLACEMENT, GRAIN_HEAT, STEEP_WATER
from gristbook.targets.grist import Weights, potential
from gristbook.targets.results import Grist, Mash, Rest, Volumes, Water
from gristbook.targets.volumes import dissolved_volume, joins_late


def mash(recipe: Recipe, brewhouse: Brewhouse, grist: Grist, volumes: Volumes, weights: Weights) -> Mash | None:
    """The mash, or `None` where nothing is mashed.

    A sparged tun takes its mash water by thickness and the rest as sparge; a bag takes all the water at once.
    """
    if grist.mashed is None or not recipe.mash:
        return None
    absorbed = apply(
        volume_equations.absorbed_by_grain,
        "water that the grain keeps",
        grain_kg=grist.mashed,
        absorption=brewhouse.absorption,
    )
    total = _for_the_kettle(recipe, volumes, weights, absorbed)
    first = recipe.mash[0]
    water: Value
    if first.water is not None:
        water = first.water
    elif brewhouse.mash == "bag":
        water = total
    else:
        water = apply(volume_equations.mash_water, "mash water", grain_kg=grist.mashed, thickness=brewhouse.thickness)
    rests = _rests(recipe, brewhouse, grist.mashed, water)
    added = (water, *(rest.infusion for rest in rests if rest.infusion is not None))
    all_in = apply(sums.total_volume, "water in the mash", parts_l=added) if len(added) > 1 else water
    sparge = None
    if brewhouse.mash != "bag" or first.water is not None:
        sparge = apply(volume_equations.sparge_water, "sparge water", total_l=total, mash_l=all_in)
    potential_kg = _potential(grist)
    plato = apply(
        runnings.first_runnings_extract,
        "extract of the first runnings",
        potential_kg=potential_kg,
        conversion=CONVERSION,
        mash_l=all_in,
    )
    return Mash(
        grist.mashed,
        apply(volume_equations.mash_thickness, "thickness of the mash", mash_l=water, grain_kg=grist.mashed),
        water,
        sparge,
        _strike(brewhouse, grist.mashed, water, first),
        _room(grist.mashed, all_in),
        absorbed,
        rests,
        plato,
        apply(gravity.gravity_from_plato, "gravity of the first runnings", extract=plato),
        None if sparge is None else _sparged(brewhouse, grist.mashed, potential_kg, volumes.boil, sparge),
    )


def _strike(brewhouse: Brewhouse, grain: Value, water: Value, first: MashStep) -> Value:
    return apply(
        equations.strike_temperature_with_tun,
        "strike temperature",
        grain_kg=grain,
        water_l=water,
        tun_heat_l=brewhouse.tun_heat,
        grain_c=brewhouse.grain_temperature,
        mash_c=first.temperature,
        grain_heat=GRAIN_HEAT,
    )


def _room(grain: Value, water: Value) -> Value:
    return apply(
        volume_equations.mash_volume,
        "room that the mash takes",
        mash_water_l=water,
        grain_kg=grain,
        displacement=GRAIN_DISPLACEMENT,
    )


def _rests(recipe: Recipe, brewhouse: Brewhouse, grain: Value, water: Value) -> tuple[Rest, ...]:
    """Every rest in order, and what lifts the mash to it: in a bag the pot is heated, unless the line says how."""
    boiling_c = apply(boiling.boiling_point, "boiling point of water", altitude=brewhouse.altitude)
    rests: list[Rest] = []
    in_mash: Value = water
    for before, step in zip((None, *recipe.mash), recipe.mash, strict=False):
        infusion: Value | None = None
        decoction: Value | None = None
        if before is not None and step.temperature.number > before.temperature.number:
            heated = step.way == "heat" or (step.way == "infusion" and brewhouse.mash == "bag")
            if step.way == "infusion" and not heated:
                infusion = step.water or _infusion(brewhouse, grain, in_mash, before, step, boiling_c)
                in_mash = apply(sums.total_volume, "water in the mash", parts_l=(in_mash, infusion))
            elif step.way == "decoction":
                decoction = _decoction(grain, in_mash, before, step, boiling_c)
        rests.append(Rest(step, infusion, decoction, mash_enzymes.enzymes_at(step.temperature.number)))
    return tuple(rests)


def _infusion(
    brewhouse: Brewhouse, grain: Value, in_mash: Value, before: MashStep, step: MashStep, boiling_c: Value
) -> Value:
    return apply(
        equations.infusion_volume,
        "boiling water to reach the next rest",
        grain_kg=grain,
        water_l=in_mash,
        tun_heat_l=brewhouse.tun_heat,
        mash_c=before.temperature,
        step_c=step.temperature,
        added_c=boiling_c,
        grain_heat=GRAIN_HEAT,
    )


def _decoction(grain: Value, in_mash: Value, before: MashStep, step: MashStep, boiling_c: Value) -> Value:
    return apply(
        equations.decoction_volume,
        "mash to boil to reach the next rest",
        mash_l=_room(grain, in_mash),
        mash_c=before.temperature,
        step_c=step.temperature,
        boil_c=boiling_c,
    )


def _potential(grist: Grist) -> Value:
    parts = tuple(
        apply(
            extract.dissolved_extract,
            f"all that {line.malt.name} could give",
            mass_kg=line.mass,
            potential=potential(line.malt),
        )
        for line in grist.malts
        if line.malt.steep is None
    )
    return apply(extract.total_extract, "all that the mashed grain could give", parts_kg=parts)


def _sparged(brewhouse: Brewhouse, grain: Value, potential_kg: Value, boil: Value, sparge: Value) -> Value | None:
    """What a sparge in one batch would bring; `None` where the sparge is all of the wort, or nothing."""
    if not 0 < number(settled(sparge)) < number(settled(boil)):
        return None
    dissolved = apply(extract.dissolved_extract, "extract that dissolves", mass_kg=potential_kg, potential=CONVERSION)
    kept = apply(
        runnings.wort_kept,
        "wort that a kilogram of grain keeps",
        absorption=brewhouse.absorption,
        extract_share=apply(extract.share, "share of the grain that dissolves", part_kg=dissolved, whole_kg=grain),
        litres_per_kg=EXTRACT_ROOM,
    )
    first = apply(sums.remaining_volume, "wort of the first run-off", whole_l=boil, part_l=sparge)
    lauter = apply(
        runnings.lauter_efficiency_batch_sparged,
        "share of the dissolved extract that runs off in two batches",
        grain_kg=grain,
        absorption=kept,
        run_offs_l=(first, sparge),
    )
    label = "mash efficiency of a sparge in one batch"
    return apply(runnings.mash_efficiency_from, label, conversion=CONVERSION, lauter=lauter)


def water(recipe: Recipe, brewhouse: Brewhouse, grist: Grist, volumes: Volumes, weights: Weights) -> Water:
    """All the brewing water: to the kettle, into the grain, and the top-up."""
    kept = tuple(
        apply(volume_equations.absorbed_by_grain, f"water that the {what} grain keeps", grain_kg=mass, absorption=a)
        for what, mass, a in (
            ("mashed", grist.mashed, brewhouse.absorption),
            ("steeped", grist.steeped, brewhouse.absorption),
        )
        if mass is not None
    )
    absorbed: Value | float = apply(sums.total_volume, "water that the grain keeps", parts_l=kept) if kept else 0.0
    to_kettle = _for_the_kettle(recipe, volumes, weights, absorbed)
    total = to_kettle
    if volumes.top_up is not None:
        total = apply(sums.total_volume, "all the brewing water", parts_l=(to_kettle, volumes.top_up))
    steep = None
    if grist.steeped is not None:
        steep = settled(
            apply(volume_equations.mash_water, "steeping water", grain_kg=grist.steeped, thickness=STEEP_WATER)
        )
    return Water(total, steep)


def _for_the_kettle(recipe: Recipe, volumes: Volumes, weights: Weights, absorbed: Value | float) -> Value:
    """Water that makes the wort at the start of the boil: malt extract brings some of the volume itself."""
    parts = tuple(
        dissolved_volume(sugar, mass)
        for sugar, mass in zip(recipe.sugars, weights.sugars, strict=True)
        if sugar.from_malt and not sugar.into_fermenter and not joins_late(sugar, recipe)
    )
    dissolved: Value | float = 0.0
    if parts:
        dissolved = apply(sums.total_volume, "volume of the malt extract", parts_l=parts)
    return apply(
        volume_equations.total_brewing_water,
        "brewing water",
        boil_l=volumes.boil,
        absorbed_l=absorbed,
        dissolved_l=dissolved,
    )
