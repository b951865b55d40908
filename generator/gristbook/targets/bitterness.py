"""Bitterness by addition and in all, by the book's model, and the total by every other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from gristbook.equations import hopping, models_apart
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, Stand
from gristbook.model.recipe import Hop, HoppedKit
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply, number
from gristbook.targets.conventions import OFF_ITS_MODEL
from gristbook.targets.hop_addition import Boil as Boil
from gristbook.targets.hop_addition import alpha_now, bitterness_of, minutes_of, utilisation_of, weight_for
from gristbook.targets.hopping_rate import at_hopping_rate, hopping_rate
from gristbook.targets.models import BITTERNESS, BY_HOPPING_RATE
from gristbook.targets.results import Bitterness, HopFigures, KitFigures

LATE_MIN = 20.0
"""From here to the end of the boil a hop goes in for its flavour and aroma (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class _Weighed:
    """An addition with its weight and its minutes on the boil curve; a dry hop has none."""

    hop: Hop
    mass: Value
    minutes: Value | None


@dataclass(frozen=True, slots=True)
class _Used:
    """What a model makes of the additions, and the hopping rate that they share where it has one."""

    hops: tuple[HopFigures, ...]
    rate: Value | None


def bitterness(boil: Boil, model: str) -> Bitterness:
    """Bitterness by addition and in all, by the book's model, and the total by every other for the same weights."""
    lines = _weigh(boil, model)
    kits = tuple(_kit(kit, boil) for kit in boil.recipe.kits)
    after = {name: _used(lines, boil, name) for name in BITTERNESS}
    factor = _model_factor(after, model)
    hops = _doubted(after[model].hops, factor)
    total = _total("bitterness", hops, kits)
    return Bitterness(
        hops,
        kits,
        total,
        apply(hopping.bitterness_ratio, "bitterness to gravity", bitterness=total, gravity=boil.wort.original),
        _late_hops(hops, boil),
        _gain_in_stand(hops, factor, boil, model),
        after[model].rate,
        tuple((name, _total(f"bitterness after {name.title()}", used.hops, kits)) for name, used in after.items()),
    )


def _weigh(boil: Boil, model: str) -> tuple[_Weighed, ...]:
    """Every addition with its weight; one that asks for a bitterness is weighed by the book's model."""
    timed = [(hop, minutes_of(hop, boil)) for hop in boil.recipe.hops]
    rate: Value | None = None
    if model in BY_HOPPING_RATE:
        lines = [_Weighed(hop, hop.mass, minutes) for hop, minutes in timed if hop.mass is not None]
        before = tuple(_use(line, boil, model, None).bitterness for line in lines)
        wanted = tuple(hop.bitterness for hop, _ in timed if hop.mass is None and hop.bitterness is not None)
        rate = hopping_rate(before, wanted, boil.volumes) if wanted else None

    def grams(hop: Hop, minutes: Value | None) -> Value:
        if hop.mass is not None:
            return hop.mass
        if minutes is None:
            raise Refusal(f"{hop.name}: dry hops bring no bitterness, so they cannot be solved for it")
        return weight_for(hop, _share(hop, minutes, boil, model, rate), boil)

    return tuple(_Weighed(hop, grams(hop, minutes), minutes) for hop, minutes in timed)


def _used(lines: tuple[_Weighed, ...], boil: Boil, model: str) -> _Used:
    """What a model makes of every addition of the beer."""
    alone = tuple(_use(line, boil, model, None) for line in lines)
    if model not in BY_HOPPING_RATE:
        return _Used(alone, None)
    rate = hopping_rate(tuple(line.bitterness for line in alone), (), boil.volumes)
    return _Used(tuple(_use(line, boil, model, rate) for line in lines), rate)


def _use(line: _Weighed, boil: Boil, model: str, rate: Value | None) -> HopFigures:
    """What a model makes of one addition, at a hopping rate where it has one."""
    hop, mass, minutes = line.hop, line.mass, line.minutes
    if minutes is None:
        nothing = sum_of((), f"bitterness of {hop.name}", "IBU")
        return HopFigures(hop, mass, alpha_now(hop), None, None, nothing)
    share = _share(hop, minutes, boil, model, rate)
    return HopFigures(hop, mass, alpha_now(hop), minutes, share, bitterness_of(hop, mass, share, boil))


def _share(hop: Hop, minutes: Value, boil: Boil, model: str, rate: Value | None) -> Value:
    share = utilisation_of(hop, minutes, boil, model)
    return share if rate is None else at_hopping_rate(share, rate, hop.name)


def _model_factor(after: Mapping[str, _Used], model: str) -> Value | None:
    """The doubt of the book's model: how far the published models lie apart in this beer.

    There is none where the book's model finds no bitterness. What a hopped extract brings is no model's, and stands
    beside.
    """
    totals = {
        name: _total(f"bitterness of the hops after {name.title()}", used.hops, ()) for name, used in after.items()
    }
    chosen = totals[model]
    if number(chosen) == 0:
        return None
    apart = apply(models_apart.bitterness_apart, "how far the models lie apart", models=tuple(totals.values()))
    return apply(
        models_apart.bitterness_factor, "the beer against its model", chosen=chosen, apart=apart, off=OFF_ITS_MODEL
    )


def _doubted(lines: tuple[HopFigures, ...], factor: Value | None) -> tuple[HopFigures, ...]:
    """The model's own doubt, the same for every addition; dry hops have none."""

    def doubted(line: HopFigures) -> Value:
        if line.minutes is None or factor is None:
            return line.bitterness
        label = f"bitterness of {line.hop.name}"
        return (line.bitterness * factor).called(label)

    return tuple(replace(line, bitterness=doubted(line)) for line in lines)


def _kit(kit: HoppedKit, boil: Boil) -> KitFigures:
    iso = (kit.bitterness * kit.volume).called(f"iso-alpha acids of {kit.name}")
    return KitFigures(
        kit,
        apply(
            hopping.bitterness,
            f"bitterness of {kit.name}",
            iso_alpha_mg=iso,
            wort_l=boil.volumes.into_fermenter,
        ),
    )


def _total(label: str, hops: tuple[HopFigures, ...], kits: tuple[KitFigures, ...]) -> Value:
    parts = (*(line.bitterness for line in hops), *(line.bitterness for line in kits))
    return sum_of(parts, label, "IBU")


def _late_hops(hops: tuple[HopFigures, ...], boil: Boil) -> Value | None:
    """What goes in for flavour and aroma, by weight in a litre: the last 20 minutes, stands and dry hops."""
    late = tuple(
        line.mass
        for line in hops
        if isinstance(line.hop.use, Stand | BeforePackaging)
        or (isinstance(line.hop.use, BeforeTheEnd) and line.hop.use.minutes.number <= LATE_MIN)
    )
    if not late:
        return None
    return (sum_of(late, "late and dry hops by weight") / boil.volumes.into_fermenter).called("late and dry hops")


def _gain_in_stand(hops: tuple[HopFigures, ...], factor: Value | None, boil: Boil, model: str) -> Value | None:
    """What the hottest, longest stand would add to the hops that have boiled, by the same curve."""
    stands = [line.minutes for line in hops if isinstance(line.hop.use, Stand) and line.minutes is not None]
    if not stands or not any(_boiled(line) for line in hops):
        return None
    longest = max(stands, key=number)

    def longer(line: HopFigures) -> _Weighed:
        if not _boiled(line) or line.minutes is None:
            return _Weighed(line.hop, line.mass, line.minutes)
        label = f"minutes of {line.hop.name} with the stand"
        return _Weighed(line.hop, line.mass, sum_of((line.minutes, longest), label))

    after = _doubted(_used(tuple(longer(line) for line in hops), boil, model).hops, factor)
    return (
        _of_the_boil("bitterness of the boil's hops with the stand", after)
        - _of_the_boil("bitterness of the boil's hops", hops)
    ).called("what the stand adds to hops already in the kettle")


def _boiled(line: HopFigures) -> bool:
    return isinstance(line.hop.use, BeforeTheEnd | FirstWort) and line.minutes is not None


def _of_the_boil(label: str, lines: tuple[HopFigures, ...]) -> Value:
    return sum_of(tuple(line.bitterness for line in lines if _boiled(line)), label)
