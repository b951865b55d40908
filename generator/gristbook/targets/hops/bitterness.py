"""Bitterness by addition and in all, by the book's model, and the total by every other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TypeAlias

from gristbook.equations import hopping, models_apart
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, Stand
from gristbook.model.recipe import Hop, HoppedKit
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply, number
from gristbook.targets.conventions import OFF_ITS_MODEL
from gristbook.targets.hops.addition import Addition, addition, bitterness_of, utilisation_of, weight_for
from gristbook.targets.hops.boil_gravity import Boil
from gristbook.targets.hops.hopping_rate import hopping_rate
from gristbook.targets.models import BITTERNESS, BY_HOPPING_RATE
from gristbook.targets.results import Bitterness, HopFigures, KitFigures

LATE_MIN = 20.0
"""From here to the end of the boil a hop goes in for its flavour and aroma (common practice, no source)."""

Weighed: TypeAlias = tuple[Addition, Value]
"""An addition and its weight (g)."""


@dataclass(frozen=True, slots=True)
class _Used:
    """What a model makes of the additions, and the hopping rate that they share where it has one."""

    hops: tuple[HopFigures, ...]
    rate: Value | None


def bitterness(boil: Boil, model: str) -> Bitterness:
    """Bitterness by addition and in all, by the book's model, and the total by every other for the same weights."""
    lines = _weigh([addition(hop, boil) for hop in boil.recipe.hops], boil, model)
    kits = tuple(_kit(kit, boil) for kit in boil.recipe.kits)
    after = {name: _used(lines, boil, name) for name in BITTERNESS}
    factor = _model_factor(after, model)
    hops = _doubted(after[model].hops, factor)
    total = _total("bitterness", (*hops, *kits))
    return Bitterness(
        hops,
        kits,
        total,
        apply(hopping.bitterness_ratio, "bitterness to gravity", bitterness=total, gravity=boil.wort.original),
        _late_hops(hops, boil),
        _gain_in_stand(lines, hops, factor, boil, model),
        after[model].rate,
        tuple((name, _total(f"bitterness after {name.title()}", (*it.hops, *kits))) for name, it in after.items()),
    )


def _weigh(met: list[Addition], boil: Boil, model: str) -> tuple[Weighed, ...]:
    """Every addition with its weight; one that asks for a bitterness is weighed by the book's model."""
    rate: Value | None = None
    wanted = tuple(it.hop.bitterness for it in met if it.hop.mass is None and it.hop.bitterness is not None)
    if model in BY_HOPPING_RATE and wanted:
        known = (_use(it, it.hop.mass, boil, model, None) for it in met if it.hop.mass is not None)
        rate = hopping_rate(tuple(line.bitterness for line in known), wanted, boil.volumes)
    return tuple((it, it.hop.mass or weight_for(it, utilisation_of(it, boil, model, rate), boil)) for it in met)


def _used(lines: tuple[Weighed, ...], boil: Boil, model: str) -> _Used:
    """What a model makes of every addition of the beer."""
    alone = tuple(_use(it, mass, boil, model, None) for it, mass in lines)
    if model not in BY_HOPPING_RATE:
        return _Used(alone, None)
    rate = hopping_rate(tuple(line.bitterness for line in alone), (), boil.volumes)
    return _Used(tuple(_use(it, mass, boil, model, rate) for it, mass in lines), rate)


def _use(it: Addition, mass: Value, boil: Boil, model: str, rate: Value | None) -> HopFigures:
    """What a model makes of one addition, at a hopping rate where it has one."""
    share = utilisation_of(it, boil, model, rate)
    nothing = sum_of((), f"bitterness of {it.hop.name}", "IBU")
    brings = nothing if share is None else bitterness_of(it, mass, share, boil)
    return HopFigures(it.hop, mass, it.alpha, it.minutes, share, brings)


def _model_factor(after: Mapping[str, _Used], model: str) -> Value | None:
    """The doubt of the book's model: how far the published models lie apart in this beer.

    There is none where the book's model finds no bitterness. What a hopped extract brings is no model's, and stands
    beside.
    """
    totals = {name: _total(f"bitterness of the hops after {name.title()}", it.hops) for name, it in after.items()}
    chosen = totals[model]
    if chosen.number == 0:
        return None
    apart = apply(models_apart.bitterness_apart, "how far the models lie apart", models=tuple(totals.values()))
    label = "the beer against its model"
    return apply(models_apart.bitterness_factor, label, chosen=chosen, apart=apart, off=OFF_ITS_MODEL)


def _doubted(lines: tuple[HopFigures, ...], factor: Value | None) -> tuple[HopFigures, ...]:
    """The model's own doubt, the same for every addition; dry hops have none."""
    if factor is None:
        return lines
    return tuple(
        replace(line, bitterness=(line.bitterness * factor).called(f"bitterness of {line.hop.name}"))
        if line.minutes is not None
        else line
        for line in lines
    )


def _kit(kit: HoppedKit, boil: Boil) -> KitFigures:
    iso = (kit.bitterness * kit.volume).called(f"iso-alpha acids of {kit.name}")
    label = f"bitterness of {kit.name}"
    return KitFigures(kit, apply(hopping.bitterness, label, iso_alpha_mg=iso, wort_l=boil.volumes.into_fermenter))


def _total(label: str, lines: Iterable[HopFigures | KitFigures]) -> Value:
    return sum_of((line.bitterness for line in lines), label, "IBU")


def goes_late(hop: Hop) -> bool:
    """Whether hops are there for what they smell of: the last 20 minutes of the boil, stands and dry hops."""
    if isinstance(hop.use, BeforeTheEnd):
        return hop.use.minutes.number <= LATE_MIN
    return isinstance(hop.use, Stand | BeforePackaging)


def _late_hops(hops: tuple[HopFigures, ...], boil: Boil) -> Value | None:
    """What goes in for flavour and aroma, by weight in a litre: the last 20 minutes, stands and dry hops."""
    late = tuple(line.mass for line in hops if goes_late(line.hop))
    if not late:
        return None
    return (sum_of(late, "late and dry hops by weight") / boil.volumes.into_fermenter).called("late and dry hops")


def _gain_in_stand(
    lines: tuple[Weighed, ...], hops: tuple[HopFigures, ...], factor: Value | None, boil: Boil, model: str
) -> Value | None:
    """What the hottest, longest stand would add to the hops that have boiled, by the same curve."""
    stands = [it.minutes for it, _ in lines if isinstance(it.hop.use, Stand) and it.minutes is not None]
    if not stands or not any(_boiled(line.hop) for line in hops):
        return None
    longest = max(stands, key=number)

    def longer(it: Addition) -> Addition:
        if not _boiled(it.hop) or it.minutes is None:
            return it
        return addition(it.hop, boil, sum_of((it.minutes, longest), f"minutes of {it.hop.name} with the stand"))

    after = _doubted(_used(tuple((longer(it), mass) for it, mass in lines), boil, model).hops, factor)
    with_it, without = (tuple(line for line in of if _boiled(line.hop)) for of in (after, hops))
    return (
        _total("bitterness of the boil's hops with the stand", with_it)
        - _total("bitterness of the boil's hops", without)
    ).called("what the stand adds to hops already in the kettle")


def _boiled(hop: Hop) -> bool:
    return isinstance(hop.use, BeforeTheEnd | FirstWort)
