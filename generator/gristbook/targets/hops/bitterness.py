"""Bitterness by addition and in all, by the book's model, and the total by every other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from gristbook.equations import hopping
from gristbook.model.hop import Hop, HoppedKit
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, Stage, Stand
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply, chosen, number
from gristbook.targets.conventions import carried_out, within
from gristbook.targets.hops.addition import Addition, addition, bitterness_of, utilisation_of, weight_for
from gristbook.targets.hops.boil_gravity import Boil
from gristbook.targets.hops.dried import as_dried
from gristbook.targets.hops.hopping_rate import hopping_rate
from gristbook.targets.models import BITTERNESS, BY_HOPPING_RATE
from gristbook.targets.results import Bitterness, HopFigures, KitFigures

LATE_MIN = 20.0
"""From here to the end of the boil a hop goes in for its flavour and aroma (common practice, no source)."""

USE_OF_HOPS = {"this kettle's use of hops": "use of hops"}


@dataclass(frozen=True, slots=True)
class _Weighed:
    """An addition, its weight (g), and the same as the scale gives it."""

    it: Addition
    mass: Value
    as_weighed: Value


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
    hops = _by_any(after, model)
    total = _total("bitterness", (*hops, *kits))
    return Bitterness(
        hops,
        kits,
        total,
        apply(hopping.bitterness_ratio, "bitterness to gravity", bitterness=total, gravity=boil.wort.original),
        _late_hops(hops, boil),
        _gain_in_stand(lines, hops, boil, model),
        after[model].rate,
        tuple((name, _total(f"bitterness after {name.title()}", (*it.hops, *kits))) for name, it in after.items()),
    )


def _weigh(met: list[Addition], boil: Boil, model: str) -> tuple[_Weighed, ...]:
    """Every addition with its weight; one that asks for a bitterness is weighed by the book's model."""
    rate: Value | None = None
    wanted = tuple(it.hop.bitterness for it in met if it.hop.mass is None and it.hop.bitterness is not None)
    if model in BY_HOPPING_RATE and wanted:
        known = (
            _use(_Weighed(it, it.hop.mass, it.hop.mass), boil, model, None) for it in met if it.hop.mass is not None
        )
        rate = hopping_rate(tuple(line.bitterness for line in known), wanted, boil.volumes)
    weighed = []
    for number_of_line, it in enumerate(met, 1):
        mass = it.hop.mass or weight_for(it, utilisation_of(it, boil, model, rate), boil)
        doubt = f"weighing of {it.hop.name}, line {number_of_line}"
        weighed.append(_Weighed(it, mass, carried_out(mass, {doubt: "hops"})))
    return tuple(weighed)


def _used(lines: tuple[_Weighed, ...], boil: Boil, model: str) -> _Used:
    """What a model makes of every addition of the beer."""
    found, rate = tuple(_use(line, boil, model, None) for line in lines), None
    if model in BY_HOPPING_RATE:
        rate = hopping_rate(tuple(line.bitterness for line in found), (), boil.volumes)
        found = tuple(_use(line, boil, model, rate) for line in lines)
    return _Used(tuple(replace(it, bitterness=within(it.bitterness, USE_OF_HOPS)) for it in found), rate)


def _use(line: _Weighed, boil: Boil, model: str, rate: Value | None) -> HopFigures:
    """What a model makes of one addition, at a hopping rate where it has one."""
    it = line.it
    share = utilisation_of(it, boil, model, rate)
    brings = sum_of((), "", "IBU") if share is None else bitterness_of(it, line.as_weighed, share, boil)
    brings = brings.called(f"bitterness of {it.hop.name}")
    return HopFigures(it.hop, line.mass, it.alpha, it.minutes, share, brings)


def _by_any(after: Mapping[str, _Used], model: str) -> tuple[HopFigures, ...]:
    """What the book's model makes of every addition; any other may be nearer, and all are in the range.

    What a hopped extract brings is no model's, and stands beside.
    """
    return tuple(
        line
        if line.minutes is None
        else replace(
            line,
            bitterness=chosen("bitterness model", model, {name: it.hops[i].bitterness for name, it in after.items()}),
        )
        for i, line in enumerate(after[model].hops)
    )


def _kit(kit: HoppedKit, boil: Boil) -> KitFigures:
    iso = (kit.bitterness * kit.volume).called(f"iso-alpha acids of {kit.name}")
    label = f"bitterness of {kit.name}"
    return KitFigures(kit, apply(hopping.bitterness, label, iso_alpha_mg=iso, wort_l=boil.volumes.fermenting))


def _total(label: str, lines: Iterable[HopFigures | KitFigures]) -> Value:
    return sum_of((line.bitterness for line in lines), label, "IBU")


def goes_late(hop: Hop) -> bool:
    """Whether hops are there for what they smell of: the last 20 minutes of the boil, stands and dry hops."""
    if isinstance(hop.use, BeforeTheEnd):
        return hop.use.minutes.number <= LATE_MIN
    return isinstance(hop.use, Stand | BeforePackaging) or hop.use is Stage.PACKAGING


def _late_hops(hops: tuple[HopFigures, ...], boil: Boil) -> Value | None:
    """What goes in for flavour and aroma, by weight in a litre: the last 20 minutes, stands and dry hops."""
    late = tuple(as_dried(line.hop, line.mass) for line in hops if goes_late(line.hop))
    if not late:
        return None
    return (sum_of(late, "late and dry hops by weight") / boil.volumes.fermenting).called("late and dry hops")


def _gain_in_stand(lines: tuple[_Weighed, ...], hops: tuple[HopFigures, ...], boil: Boil, model: str) -> Value | None:
    """What the hottest, longest stand would add to the hops that have boiled, by the same curve."""
    stands = [line.it.minutes for line in lines if isinstance(line.it.hop.use, Stand) and line.it.minutes is not None]
    if not stands or not any(_boiled(line.hop) for line in hops):
        return None
    longest = max(stands, key=number)

    def longer(line: _Weighed) -> _Weighed:
        it = line.it
        if not _boiled(it.hop) or it.minutes is None:
            return line
        minutes = sum_of((it.minutes, longest), f"minutes of {it.hop.name} with the stand")
        return replace(line, it=addition(it.hop, boil, minutes))

    standing = tuple(map(longer, lines))
    after = _by_any({name: _used(standing, boil, name) for name in BITTERNESS}, model)
    with_it, without = (tuple(line for line in of if _boiled(line.hop)) for of in (after, hops))
    return (
        _total("bitterness of the boil's hops with the stand", with_it)
        - _total("bitterness of the boil's hops", without)
    ).called("what the stand adds to hops already in the kettle")


def _boiled(hop: Hop) -> bool:
    return isinstance(hop.use, BeforeTheEnd | FirstWort)
