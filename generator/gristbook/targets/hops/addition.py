"""One addition of hops: what every model finds of it, the share that one model says is used, its bitterness."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.equations import cooling, hop_storage, hopping, isomerisation, kettle
from gristbook.equations.bitterness import utilisation_at_hopping_rate_garetz_1994
from gristbook.model.hop import Hop
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, Stage, Stand
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less
from gristbook.sheet.value import Value, apply, settled
from gristbook.targets.conventions import AIRTIGHT, AS_PUBLISHED, FIRST_WORT, WET_HOPS
from gristbook.targets.hops.boil_gravity import Boil, boil_gravity
from gristbook.targets.models import BITTERNESS, BY_THE_CLOCK, NEEDS_ALTITUDE, WHOLE_HOPS
from gristbook.targets.wort.volumes import boils_at, is_thinned, thinned


@dataclass(frozen=True, slots=True)
class Addition:
    """What of an addition is the same for every model.

    ``alpha`` is what is left of the alpha acids (fraction), ``minutes`` those on the boil curve, ``at_sea_level`` what
    they are worth there, and ``gravity`` that of the wort meanwhile; a dry hop has none of the three.
    """

    hop: Hop
    alpha: Value
    minutes: Value | None = None
    at_sea_level: Value | None = None
    gravity: Value | None = None


def addition(hop: Hop, boil: Boil, minutes: Value | None = None) -> Addition:
    """An addition as the boil meets it, for as long as its line says or for other ``minutes``."""
    alpha = alpha_now(hop)
    if isinstance(hop.use, BeforePackaging | Stage):
        return Addition(hop, alpha)
    minutes = minutes or _minutes_of(hop, boil)
    if isinstance(hop.use, Stand):
        return Addition(hop, alpha, minutes, minutes, boil.wort.after_the_boil)
    return Addition(hop, alpha, minutes, _at_sea_level(minutes, boil), boil_gravity(boil, minutes))


def _minutes_of(hop: Hop, boil: Boil) -> Value:
    """Minutes on the boil curve: the whole boil for first wort, equivalent minutes for a stand."""
    match hop.use:
        case BeforeTheEnd(minutes):
            return minutes
        case Stand(minutes, start, end, air):
            worth = "minutes of boiling that the stand is worth"
            stand = {"minutes": minutes, "start_c": start}
            if air is None:
                return apply(isomerisation.equivalent_boil_minutes, worth, **stand, end_c=end)
            label = "how fast the wort cools by itself"
            rate = apply(cooling.rate_of_cooling, label, **stand, end_c=end, air_c=air)
            return apply(isomerisation.equivalent_boil_minutes_cooling, worth, **stand, ambient_c=air, rate=rate)
    return boil.recipe.boil


def _at_sea_level(minutes: Value, boil: Boil) -> Value:
    """Minutes at sea level that the boil is worth: higher up it is cooler, and slower."""
    altitude = boil.brewhouse.altitude
    if altitude.number <= 0:
        return minutes
    return apply(
        kettle.minutes_at_altitude,
        "minutes at sea level that the boil is worth",
        minutes=minutes,
        boiling_c=boils_at(altitude),
        sea_level_c=boils_at(0.0),
    )


def alpha_now(hop: Hop) -> Value:
    """The packet's alpha acids, less what was lost since: by a later storage index, or by how the hops were kept.

    Those of wet hops are told of the dried ones, and are in more weight.
    """
    if hop.form == "wet":
        return (hop.alpha / WET_HOPS).called(f"alpha acids of {hop.name} as it is picked")
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


def utilisation_of(it: Addition, boil: Boil, model: str, rate: Value | None) -> Value | None:
    """Share of the alpha acids that is used by a model, at the beer's hopping ``rate`` where it has one.

    There is none of a dry hop.
    """
    if it.minutes is None or it.at_sea_level is None or it.gravity is None:
        return None
    equation = WHOLE_HOPS.get(model, BITTERNESS[model]) if it.hop.whole else BITTERNESS[model]
    minutes = it.minutes if model in BY_THE_CLOCK else it.at_sea_level
    label, met = f"utilisation of {it.hop.name}", {"boil_min": minutes, "gravity": it.gravity}
    if model in NEEDS_ALTITUDE:
        met["altitude"] = boil.brewhouse.altitude
    share = apply(equation, label, **met)
    if rate is None:
        return share
    label = f"utilisation of {it.hop.name} at this hopping rate"
    return apply(utilisation_at_hopping_rate_garetz_1994, label, utilisation=share, factor=rate)


def bitterness_of(it: Addition, mass: Value, utilisation: Value, boil: Boil) -> Value:
    """Bitterness in the beer: over the kettle at the end of the boil, thinned by what is added in the fermenter."""
    name = it.hop.name
    iso = apply(
        hopping.iso_alpha,
        f"iso-alpha acids of {name}",
        alpha_mg=apply(hopping.alpha_acids, f"alpha acids of {name}", hops_g=mass, alpha=it.alpha),
        utilisation=utilisation,
        form_factor=AS_PUBLISHED,
    )
    label = f"bitterness of {name} in the kettle"
    in_kettle = apply(hopping.bitterness, label, iso_alpha_mg=iso, wort_l=boil.volumes.end_of_boil)
    in_beer = thinned(in_kettle, boil.volumes, f"bitterness of {name} in the fermenter")
    if not isinstance(it.hop.use, FirstWort):
        return in_beer
    return (in_beer * FIRST_WORT).called(f"bitterness of {name} as first wort")


def weight_for(it: Addition, utilisation: Value | None, boil: Boil) -> Value:
    """Grams that bring the bitterness which the line asks for; a decision, so it carries no doubt of its own.

    Raises
    ------
    Refusal
        The line asks for none, or is of dry hops.
    """
    hop, volumes = it.hop, boil.volumes
    if utilisation is None:
        raise Refusal(f"{hop.name}: dry hops bring no bitterness, so they cannot be solved for it")
    if hop.bitterness is None:
        raise Refusal(f"{hop.name} has neither a weight nor a bitterness to reach")
    spread_over = volumes.end_of_boil
    if is_thinned(volumes):
        leaves = less(spread_over, volumes.left_in_kettle, left="the wort that leaves the kettle", some=True)
        whole = volumes.fermenting * (spread_over / leaves)
        spread_over = whole.called("kettle wort that the whole bitterness would fill")
    return settled(
        apply(
            hopping.hops_for_bitterness,
            f"weight of {hop.name}",
            bitterness=hop.bitterness,
            wort_l=settled(spread_over),
            alpha=settled(it.alpha),
            utilisation=settled(utilisation),
            form_factor=AS_PUBLISHED,
        )
    )
