"""One addition of hops by one model: its minutes on the boil curve, the share used, its bitterness in the beer."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.equations import boiling, cooling, hop_storage, hopping, isomerisation, kettle
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.moment import BeforeTheEnd, FirstWort, Stand
from gristbook.model.recipe import Hop, Recipe
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less
from gristbook.sheet.value import Value, apply, settled
from gristbook.targets.boil_gravity import boil_gravity
from gristbook.targets.conventions import AIRTIGHT, AS_PUBLISHED, FIRST_WORT
from gristbook.targets.grist import Weights
from gristbook.targets.models import BITTERNESS, NEEDS_ALTITUDE, WHOLE_HOPS
from gristbook.targets.results import Grist, Volumes, Wort


@dataclass(frozen=True, slots=True)
class Boil:
    """What every hop of a brew meets."""

    recipe: Recipe
    brewhouse: Brewhouse
    weights: Weights
    grist: Grist
    volumes: Volumes
    wort: Wort


def minutes_of(hop: Hop, boil: Boil) -> Value | None:
    """Minutes on the boil curve: the whole boil for first wort, equivalent minutes for a stand; `None` for dry hops."""
    match hop.use:
        case FirstWort():
            return boil.recipe.boil
        case BeforeTheEnd(minutes):
            return minutes
        case Stand():
            return _worth(hop.use)
    return None


def _worth(stand: Stand) -> Value:
    """Minutes of boiling that isomerise as much as a stand."""
    worth = "minutes of boiling that the stand is worth"
    if stand.air is None:
        return apply(
            isomerisation.equivalent_boil_minutes,
            worth,
            minutes=stand.minutes,
            start_c=stand.start,
            end_c=stand.end,
        )
    rate = apply(
        cooling.rate_of_cooling,
        "how fast the wort cools by itself",
        minutes=stand.minutes,
        start_c=stand.start,
        end_c=stand.end,
        air_c=stand.air,
    )
    return apply(
        isomerisation.equivalent_boil_minutes_cooling,
        worth,
        minutes=stand.minutes,
        start_c=stand.start,
        ambient_c=stand.air,
        rate=rate,
    )


def utilisation_of(hop: Hop, minutes: Value, boil: Boil, model: str) -> Value:
    """Share of the alpha acids that is used by a model, before what rests on the beer's whole bitterness."""
    equation = WHOLE_HOPS.get(model, BITTERNESS[model]) if hop.whole else BITTERNESS[model]
    gravity = _gravity(hop, minutes, boil)
    extra: dict[str, Value] = {}
    if model in NEEDS_ALTITUDE:
        extra["altitude"] = boil.brewhouse.altitude
    elif not isinstance(hop.use, Stand) and boil.brewhouse.altitude.number > 0:
        minutes = _minutes_at_altitude(minutes, boil)
    return apply(equation, f"utilisation of {hop.name}", boil_min=minutes, gravity=gravity, **extra)


def _gravity(hop: Hop, minutes: Value, boil: Boil) -> Value:
    if isinstance(hop.use, Stand):
        return boil.wort.after_the_boil
    return boil_gravity(boil.recipe, boil.brewhouse, minutes, boil.weights, boil.grist, boil.volumes, boil.wort)


def _minutes_at_altitude(minutes: Value, boil: Boil) -> Value:
    """Minutes at sea level that the boil is worth: higher up it is cooler, and slower."""

    def boils_at(altitude: Value | float) -> Value:
        return apply(boiling.boiling_point, "boiling point of water", altitude=altitude)

    return apply(
        kettle.minutes_at_altitude,
        "minutes at sea level that the boil is worth",
        minutes=minutes,
        boiling_c=boils_at(boil.brewhouse.altitude),
        sea_level_c=boils_at(0.0),
    )


def bitterness_of(hop: Hop, mass: Value, utilisation: Value, boil: Boil) -> Value:
    """Bitterness in the beer: over the kettle at the end of the boil, thinned by what is added in the fermenter."""
    alpha = apply(hopping.alpha_acids, f"alpha acids of {hop.name}", hops_g=mass, alpha=alpha_now(hop))
    iso = apply(
        hopping.iso_alpha,
        f"iso-alpha acids of {hop.name}",
        alpha_mg=alpha,
        utilisation=utilisation,
        form_factor=AS_PUBLISHED,
    )
    in_kettle = apply(
        hopping.bitterness,
        f"bitterness of {hop.name} in the kettle",
        iso_alpha_mg=iso,
        wort_l=boil.volumes.end_of_boil,
    )
    thinned = _thinned(in_kettle, f"bitterness of {hop.name} in the fermenter", boil)
    if not isinstance(hop.use, FirstWort):
        return thinned
    return (thinned * FIRST_WORT).called(f"bitterness of {hop.name} as first wort")


def alpha_now(hop: Hop) -> Value:
    """The packet's alpha acids, less what was lost since: by a later storage index, or by how the hops were kept."""
    left = f"alpha acids left in {hop.name}"
    if hop.storage_index is not None:
        lost = apply(hop_storage.alpha_lost, f"alpha acids lost from {hop.name}", hsi=hop.storage_index)
        return apply(hop_storage.alpha_after_loss, left, alpha=hop.alpha, lost=lost)
    if hop.store is None:
        return hop.alpha
    faster = f"how fast {hop.name} ages in its store"
    return apply(
        hop_storage.alpha_left,
        left,
        alpha=hop.alpha,
        lost_in_six_months=hop.store.lost_in_six_months,
        temperature_factor=apply(hop_storage.storage_temperature_factor, faster, temperature=hop.store.temperature),
        storage_factor=hop.store.package if hop.store.package is not None else AIRTIGHT,
        days=hop.store.days,
    )


def _thinned(in_kettle: Value, label: str, boil: Boil) -> Value:
    if boil.volumes.top_up is None:
        return in_kettle
    share = less(
        boil.volumes.into_fermenter, boil.volumes.top_up, left="what is left of a volume", label="wort from the kettle"
    )
    return (in_kettle * (share / boil.volumes.into_fermenter)).called(label)


def weight_for(hop: Hop, utilisation: Value, boil: Boil) -> Value:
    """Grams that bring the bitterness which the line asks for; a decision, so it carries no doubt of its own."""
    if hop.bitterness is None:
        raise Refusal(f"{hop.name} has neither a weight nor a bitterness to reach")
    spread_over = boil.volumes.end_of_boil
    if boil.volumes.top_up is not None:
        spread_over = (
            boil.volumes.into_fermenter
            * (
                boil.volumes.end_of_boil
                / less(
                    boil.volumes.end_of_boil,
                    boil.volumes.left_in_kettle,
                    left="the wort that leaves the kettle",
                    some=True,
                )
            )
        ).called("kettle wort that the whole bitterness would fill")
    return settled(
        apply(
            hopping.hops_for_bitterness,
            f"weight of {hop.name}",
            bitterness=hop.bitterness,
            wort_l=settled(spread_over),
            alpha=settled(alpha_now(hop)),
            utilisation=settled(utilisation),
            form_factor=AS_PUBLISHED,
        )
    )
