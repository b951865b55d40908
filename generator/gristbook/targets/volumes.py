"""The volume chain: from the wort at the start of the boil to the beer that is packaged."""

from __future__ import annotations

from gristbook.equations import boiling, density, kettle, sums, volumes
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe, Sugar
from gristbook.sheet.value import Value, apply, number, settled
from gristbook.targets.conventions import DRIED_EXTRACT_VOLUME, DRY_HOPS_KEEP, LIQUID_EXTRACT_VOLUME
from gristbook.targets.grist import Weights
from gristbook.targets.results import Volumes


def planned_end_of_boil(recipe: Recipe, brewhouse: Brewhouse, late_l: Value | float) -> Value:
    """Wort wanted in the kettle at the end of the boil: what the batch needs, or what a partial boil leaves.

    ``late_l`` is what malt extract stirred in during the boil adds.
    """
    if recipe.kettle is None:
        return apply(
            volumes.cool_kettle_volume,
            "wort at the end of the boil, as planned",
            batch_l=recipe.batch,
            left_in_kettle_l=brewhouse.left_in_kettle,
            added_in_fermenter_l=0.0,
        )
    return apply(
        kettle.wort_in_kettle,
        "wort at the end of the boil, as planned",
        boil_l=recipe.kettle,
        boil_off=brewhouse.boil_off,
        boiled_min=recipe.boil,
        dissolved_l=late_l,
    )


def late_volume(recipe: Recipe, weights: Weights, before_the_end: float = 0.0) -> Value | float:
    """What the malt extract stirred in during the boil, up to some minutes before its end, adds to the wort (L)."""
    parts = tuple(
        dissolved_volume(sugar, mass)
        for sugar, mass in zip(recipe.sugars, weights.sugars, strict=True)
        if joins_late(sugar, recipe) and number(sugar.minutes or 0.0) >= before_the_end and sugar.from_malt
    )
    return apply(sums.total_volume, "volume of malt extract stirred in late", parts_l=parts) if parts else 0.0


def dissolved_volume(sugar: Sugar, mass: Value) -> Value:
    """Room that a malt extract takes in the wort (L)."""
    room = LIQUID_EXTRACT_VOLUME if "liquid" in sugar.kind else DRIED_EXTRACT_VOLUME
    return apply(volumes.dissolving_volume, f"volume of {sugar.name}", mass_kg=mass, litres_per_kg=room)


def joins_late(sugar: Sugar, recipe: Recipe) -> bool:
    """Whether a sugar or an extract joins the wort while it boils."""
    return not sugar.into_fermenter and sugar.minutes is not None and sugar.minutes.number < recipe.boil.number


def planned_start(recipe: Recipe, brewhouse: Brewhouse, planned_end: Value, late_l: Value | float) -> Value:
    """Wort at the start of the boil: a partial boil's as written, else what the plan's end and boil-off ask for."""
    if recipe.kettle is not None:
        return recipe.kettle
    before = settled(planned_end)
    if late_l:
        before = settled(
            apply(sums.remaining_volume, "wort at the end without late extract", whole_l=before, part_l=late_l)
        )
    return settled(
        apply(
            volumes.boil_volume,
            "wort at the start of the boil",
            end_of_boil_l=before,
            boil_off=brewhouse.boil_off,
            boil_min=recipe.boil,
        )
    )


def volume_chain(recipe: Recipe, brewhouse: Brewhouse, planned_end: Value, late_l: Value | float) -> Volumes:
    """Every volume of the brew.

    The brewer meets the volume at the start of the boil and pours in the top-up as planned; from there on the boil-off
    takes what it takes, and its doubt is the doubt of every later volume.

    Raises
    ------
    ValueError
        A kettle that boils dry, gives more than the batch, or gives nothing to the fermenter.
    """
    start = planned_start(recipe, brewhouse, planned_end, late_l)
    end = apply(
        kettle.wort_in_kettle,
        "wort at the end of the boil",
        boil_l=start,
        boil_off=brewhouse.boil_off,
        boiled_min=recipe.boil,
        dissolved_l=late_l,
    )
    top_up = _top_up(recipe, brewhouse, end)
    into = apply(
        kettle.fermenter_volume,
        "wort into the fermenter",
        end_of_boil_l=end,
        left_in_kettle_l=brewhouse.left_in_kettle,
        added_l=top_up if top_up is not None else 0.0,
    )
    boiling_c = apply(boiling.boiling_point, "boiling point of water", altitude=brewhouse.altitude)
    return Volumes(
        recipe.batch,
        start,
        apply(density.hot_volume, "wort at the start of the boil, hot", cool_l=start, temperature=boiling_c),
        end,
        apply(density.hot_volume, "wort at the end of the boil, hot", cool_l=end, temperature=boiling_c),
        brewhouse.left_in_kettle,
        top_up,
        into,
        _packaged(recipe, brewhouse, into),
    )


def _top_up(recipe: Recipe, brewhouse: Brewhouse, end: Value) -> Value | None:
    if recipe.kettle is None:
        return None
    return settled(
        apply(
            kettle.top_up_water,
            "top-up water",
            batch_l=recipe.batch,
            end_of_boil_l=end,
            left_in_kettle_l=brewhouse.left_in_kettle,
        )
    )


def _packaged(recipe: Recipe, brewhouse: Brewhouse, into: Value) -> Value:
    dry = tuple(hop.mass for hop in recipe.hops if hop.use == "dry" and hop.mass is not None)
    kept: Value | float = 0.0
    if dry:
        grams = apply(sums.total_hops, "dry hops", parts_g=dry)
        kept = apply(volumes.dry_hop_loss, "beer that the dry hops keep", dry_hops_g=grams, absorption=DRY_HOPS_KEEP)
    return apply(
        volumes.packaged_volume,
        "beer to package",
        batch_l=into,
        left_in_fermenter_l=brewhouse.left_in_fermenter,
        kept_by_dry_hops_l=kept,
    )
