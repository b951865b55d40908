"""Bitterness by addition: alpha acids weighed in, isomerised by time, gravity and heat, spread over the wort."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic

from gristbook.equations import boiling, hop_storage, hopping, isomerisation, kettle, sums
from gristbook.equations.bitterness import hopping_rate_garetz_1994
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Hop, HoppedKit, Recipe
from gristbook.targets.boil_gravity import boil_gravity
from gristbook.targets.conventions import AIRTIGHT, AS_PUBLISHED, FIRST_WORT, MODEL_SPREAD
from gristbook.targets.grist import Weights
from gristbook.targets.models import BITTERNESS, NEEDS_ALTITUDE, WHOLE_HOPS
from gristbook.targets.results import Bitterness, Grist, HopFigures, KitFigures, Volumes, Wort
from gristbook.worksheet import Calculator, N, Value, number, settled

LATE_MIN = 20.0
"""From here to the end of the boil a hop goes in for its flavour and aroma (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Boil(Generic[N]):
    """What every hop of a brew meets."""

    recipe: Recipe
    brewhouse: Brewhouse
    weights: Weights[N]
    grist: Grist[N]
    volumes: Volumes[N]
    wort: Wort[N]


def bitterness(boil: Boil[N], model: str, calc: Calculator[N]) -> Bitterness[N]:
    """Bitterness by addition and in all, by the book's model, and the total by every other."""
    hops = tuple(_addition(hop, boil, model, calc) for hop in boil.recipe.hops)
    kits = tuple(_kit(kit, boil, calc) for kit in boil.recipe.kits)
    total = _sum(hops, kits, "bitterness", calc)
    return Bitterness(
        hops,
        kits,
        total,
        calc(hopping.bitterness_ratio, "bitterness to gravity", bitterness=total, gravity=boil.wort.original),
        _late_hops(hops, boil, calc),
        _gain_in_stand(hops, boil, model, calc),
        tuple((name, _by_model(name, hops, kits, boil, calc)) for name in BITTERNESS),
    )


def _late_hops(hops: tuple[HopFigures[N], ...], boil: Boil[N], calc: Calculator[N]) -> N | None:
    """What goes in for flavour and aroma, by weight in a litre: the last 20 minutes, stands and dry hops."""
    late = tuple(
        line.mass
        for line in hops
        if line.hop.use in ("stand", "dry")
        or (line.hop.use == "boil" and line.hop.minutes is not None and line.hop.minutes.number <= LATE_MIN)
    )
    if not late:
        return None
    return calc(hopping.hops_per_litre, "late and dry hops", parts_g=late, wort_l=boil.volumes.into_fermenter)


def _addition(hop: Hop, boil: Boil[N], model: str, calc: Calculator[N]) -> HopFigures[N]:
    if hop.use == "dry":
        if hop.mass is None:
            raise ValueError(f"{hop.name}: dry hops bring no bitterness, so they cannot be solved for it")
        return HopFigures(
            hop, hop.mass, None, None, calc(hopping.total_bitterness, f"bitterness of {hop.name}", parts=(0.0,))
        )
    minutes = _minutes(hop, boil, calc)
    utilisation = _utilisation(hop, minutes, boil, model, calc)
    mass: N | Value = hop.mass if hop.mass is not None else _solved(hop, utilisation, boil, calc)
    raw = _bitterness(hop, mass, utilisation, boil, calc)
    return HopFigures(hop, mass, minutes, utilisation, _doubted(raw, f"bitterness of {hop.name}", calc))


def _minutes(hop: Hop, boil: Boil[N], calc: Calculator[N]) -> N | Value:
    """Minutes on the boil curve: the whole boil for first wort, equivalent minutes for a stand."""
    if hop.use == "first wort":
        return boil.recipe.boil
    if hop.minutes is None:
        raise ValueError(f"{hop.name} has no time")
    if hop.use == "boil":
        return hop.minutes
    if hop.stand_from is None or hop.stand_to is None:
        raise ValueError(f"the stand of {hop.name} has no temperature")
    return calc(
        isomerisation.equivalent_boil_minutes,
        "minutes of boiling that the stand is worth",
        minutes=hop.minutes,
        start_c=hop.stand_from,
        end_c=hop.stand_to,
    )


def _gravity(hop: Hop, minutes: N | Value, boil: Boil[N], calc: Calculator[N]) -> N:
    if hop.use == "stand":
        return boil.wort.after_the_boil
    return boil_gravity(boil.recipe, boil.brewhouse, minutes, boil.weights, boil.grist, boil.volumes, boil.wort, calc)


def _utilisation(hop: Hop, minutes: N | Value, boil: Boil[N], model: str, calc: Calculator[N]) -> N:
    equation = WHOLE_HOPS.get(model, BITTERNESS[model]) if hop.whole else BITTERNESS[model]
    gravity = _gravity(hop, minutes, boil, calc)
    extra: dict[str, Value] = {}
    if model in NEEDS_ALTITUDE:
        extra["altitude"] = boil.brewhouse.altitude
    elif hop.use != "stand" and boil.brewhouse.altitude.number > 0:
        minutes = _minutes_at_altitude(minutes, boil, calc)
    return calc(equation, f"utilisation of {hop.name}", boil_min=minutes, gravity=gravity, **extra)


def _minutes_at_altitude(minutes: N | Value, boil: Boil[N], calc: Calculator[N]) -> N:
    """Minutes at sea level that the boil is worth: higher up it is cooler, and slower."""

    def boils_at(altitude: Value | float) -> N:
        return calc(boiling.boiling_point, "boiling point of water", altitude=altitude)

    return calc(
        kettle.minutes_at_altitude,
        "minutes at sea level that the boil is worth",
        minutes=minutes,
        boiling_c=boils_at(boil.brewhouse.altitude),
        sea_level_c=boils_at(0.0),
    )


def _bitterness(hop: Hop, mass: N | Value, utilisation: N, boil: Boil[N], calc: Calculator[N]) -> N:
    """Bitterness in the beer: over the kettle at the end of the boil, thinned by what is added in the fermenter."""
    alpha = calc(hopping.alpha_acids, f"alpha acids of {hop.name}", hops_g=mass, alpha=_alpha(hop, calc))
    iso = calc(
        hopping.iso_alpha,
        f"iso-alpha acids of {hop.name}",
        alpha_mg=alpha,
        utilisation=utilisation,
        form_factor=AS_PUBLISHED,
    )
    in_kettle = calc(
        hopping.bitterness,
        f"bitterness of {hop.name} in the kettle",
        iso_alpha_mg=iso,
        wort_l=boil.volumes.end_of_boil,
    )
    thinned = _thinned(in_kettle, f"bitterness of {hop.name} in the fermenter", boil, calc)
    if hop.use != "first wort":
        return thinned
    return calc(
        hopping.scaled_bitterness, f"bitterness of {hop.name} as first wort", bitterness=thinned, factor=FIRST_WORT
    )


def _alpha(hop: Hop, calc: Calculator[N]) -> N | Value:
    """The packet's alpha acids, less what was lost in store."""
    if hop.store is None:
        return hop.alpha
    return calc(
        hop_storage.alpha_left,
        f"alpha acids left in {hop.name}",
        alpha=hop.alpha,
        lost_in_six_months=hop.store.lost_in_six_months,
        temperature=hop.store.temperature,
        storage_factor=AIRTIGHT,
        days=hop.store.days,
    )


def _thinned(in_kettle: N, label: str, boil: Boil[N], calc: Calculator[N]) -> N:
    if boil.volumes.top_up is None:
        return in_kettle
    share = calc(
        sums.remaining_volume,
        "wort from the kettle",
        whole_l=boil.volumes.into_fermenter,
        part_l=boil.volumes.top_up,
    )
    return calc(
        hopping.thinned_bitterness,
        label,
        bitterness=in_kettle,
        kettle_share_l=share,
        batch_l=boil.volumes.into_fermenter,
    )


def _solved(hop: Hop, utilisation: N, boil: Boil[N], calc: Calculator[N]) -> N:
    """Grams that bring the bitterness which the line asks for; a decision, so it carries no doubt of its own."""
    if hop.bitterness is None:
        raise ValueError(f"{hop.name} has neither a weight nor a bitterness to reach")
    spread_over = boil.volumes.end_of_boil
    if boil.volumes.top_up is not None:
        spread_over = calc(
            kettle.spread_volume,
            "kettle wort that the whole bitterness would fill",
            end_of_boil_l=boil.volumes.end_of_boil,
            left_in_kettle_l=boil.volumes.left_in_kettle,
            batch_l=boil.volumes.into_fermenter,
        )
    return settled(
        calc(
            hopping.hops_for_bitterness,
            f"weight of {hop.name}",
            bitterness=hop.bitterness,
            wort_l=settled(spread_over),
            alpha=settled(_alpha(hop, calc)),
            utilisation=settled(utilisation),
            form_factor=AS_PUBLISHED,
        )
    )


def _doubted(raw: N, label: str, calc: Calculator[N]) -> N:
    """The model's own doubt, the same for every addition."""
    return calc(hopping.scaled_bitterness, label, bitterness=raw, factor=MODEL_SPREAD)


def _kit(kit: HoppedKit, boil: Boil[N], calc: Calculator[N]) -> KitFigures[N]:
    iso = calc(kettle.kit_iso_alpha, f"iso-alpha acids of {kit.name}", bitterness=kit.bitterness, volume_l=kit.volume)
    return KitFigures(
        kit,
        calc(
            hopping.bitterness,
            f"bitterness of {kit.name}",
            iso_alpha_mg=iso,
            wort_l=boil.volumes.into_fermenter,
        ),
    )


def _sum(hops: tuple[HopFigures[N], ...], kits: tuple[KitFigures[N], ...], label: str, calc: Calculator[N]) -> N:
    parts = (*(line.bitterness for line in hops), *(line.bitterness for line in kits))
    return calc(hopping.total_bitterness, label, parts=parts)


def _by_model(
    model: str, hops: tuple[HopFigures[N], ...], kits: tuple[KitFigures[N], ...], boil: Boil[N], calc: Calculator[N]
) -> N:
    """The total by another model, for the same weights."""
    parts: list[N] = [line.bitterness for line in kits]
    for line in hops:
        if line.minutes is not None:
            utilisation = _utilisation(line.hop, line.minutes, boil, model, calc)
            parts.append(_bitterness(line.hop, line.mass, utilisation, boil, calc))
    total = calc(hopping.total_bitterness, f"bitterness after {model.title()}", parts=tuple(parts))
    return _after_garetz(total, boil, calc) if model in NEEDS_ALTITUDE else total


def _after_garetz(total: N, boil: Boil[N], calc: Calculator[N]) -> N:
    concentration: N | float = 1.0
    if boil.volumes.top_up is not None:
        concentration = calc(
            kettle.concentration_factor,
            "final volume against the boil's",
            final_l=boil.volumes.into_fermenter,
            boil_l=boil.volumes.end_of_boil,
        )
    return calc(hopping_rate_garetz_1994, "bitterness after Garetz 1994", bitterness=total, concentration=concentration)


def _gain_in_stand(hops: tuple[HopFigures[N], ...], boil: Boil[N], model: str, calc: Calculator[N]) -> N | None:
    """What the hottest, longest stand would add to the hops that have boiled, by the same curve."""
    stands = [line.minutes for line in hops if line.hop.use == "stand" and line.minutes is not None]
    boiled = [line for line in hops if line.hop.use in ("boil", "first wort") and line.minutes is not None]
    if not stands or not boiled:
        return None
    longest = max(stands, key=number)
    before, after = [], []
    for line in boiled:
        minutes = calc(
            kettle.total_minutes,
            f"minutes of {line.hop.name} with the stand",
            parts=(line.minutes if line.minutes is not None else 0.0, longest),
        )
        utilisation = _utilisation(line.hop, minutes, boil, model, calc)
        raw = _bitterness(line.hop, line.mass, utilisation, boil, calc)
        after.append(_doubted(raw, f"bitterness of {line.hop.name} with the stand", calc))
        before.append(line.bitterness)
    return calc(
        kettle.gained_bitterness,
        "what the stand adds to hops already in the kettle",
        after=calc(hopping.total_bitterness, "bitterness of the boil's hops with the stand", parts=tuple(after)),
        before=calc(hopping.total_bitterness, "bitterness of the boil's hops", parts=tuple(before)),
    )
