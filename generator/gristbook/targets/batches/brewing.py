"""The brew day as it went: extract and volumes from vessel to vessel, and what of them was lost."""

from __future__ import annotations

from dataclasses import dataclass
from operator import add, mul

from gristbook.equations import brew_day, gravity
from gristbook.sheet.value import Value
from gristbook.targets.batches import frozen
from gristbook.targets.batches.lautered import MashPlan, conversion_of, mash_plan, runs_off_of
from gristbook.targets.batches.measured import Bench, doubted, remaining
from gristbook.targets.batches.results import Corrected


@dataclass(frozen=True, slots=True)
class BrewDay:
    """What was measured of wort and vessels, or follows from it; volumes in litres at 20 °C, extract in kg.

    The beer ``packaged`` is as measured, or else what came into the fermenter less what stayed behind. ``agrees`` is
    false where first runnings and mash efficiency cannot both be true: then neither conversion nor lauter is told.
    """

    mash_temperature: Value | None
    first_runnings: Corrected | None
    boil_volume: Value | None
    before_the_boil: Corrected | None
    boiled: Value | None
    end_volume: Value | None
    after_the_boil: Corrected | None
    left_in_kettle: Value | None
    into_fermenter: Value | None
    original: Corrected | None
    pitched_at: Value | None
    left_in_fermenter: Value | None
    packaged: Value | None
    boil_off: Value | None
    from_the_mash: Value | None
    conversion: Value | None
    lauter: Value | None
    mash_plan: MashPlan
    agrees: bool
    mash_efficiency: Value | None
    in_the_kettle: Value | None
    in_the_fermenter: Value | None


def brew_day_of(bench: Bench) -> BrewDay:
    """What the readings of a brew day come to."""
    measured = bench.batch.measured
    boil_volume, end_volume = bench.volume(measured.before_the_boil), bench.volume(measured.end_of_the_boil)
    before = bench.wort(measured.before_the_boil.gravity if measured.before_the_boil else None)
    after = bench.wort(measured.end_of_the_boil.gravity if measured.end_of_the_boil else None)
    original = bench.wort(measured.original)
    into = doubted(measured.into_the_fermenter)
    topped_up = bench.planned("top-up-water", "L") is not None
    left, left_in_fermenter = doubted(measured.left_in_kettle), doubted(measured.left_in_fermenter)
    if end_volume is None and into is not None and left is not None and not topped_up:
        end_volume = bench.made("volume at the end of the boil", add, into, left)
    if left is None and end_volume is not None and into is not None and not topped_up:
        left = bench.made("left in the kettle", remaining, end_volume, into)
    packaged = doubted(measured.packaged.volume) if measured.packaged is not None else None
    boiled = measured.boiled or bench.planned(frozen.BOILED, "min")
    at_the_start = _extract(bench, "extract in the kettle before the boil", before, boil_volume)
    at_the_end = _extract(bench, "extract in the kettle", after or (None if topped_up else original), end_volume)
    potential = bench.planned(frozen.POTENTIAL, "kg")
    efficiency = _mash_efficiency(bench, at_the_start, at_the_end)
    first_runnings = bench.wort(measured.first_runnings)
    plan = mash_plan(bench)
    conversion = conversion_of(bench, first_runnings, plan)
    lauter = bench.made("lauter efficiency as measured", runs_off_of, efficiency, conversion)
    agrees = not (efficiency and conversion and lauter) or plan.agrees(efficiency, conversion, lauter)
    return BrewDay(
        mash_temperature=doubted(measured.mash_temperature),
        first_runnings=first_runnings,
        boil_volume=boil_volume,
        before_the_boil=before,
        boiled=measured.boiled,
        end_volume=end_volume,
        after_the_boil=after,
        left_in_kettle=left,
        into_fermenter=into,
        original=original,
        pitched_at=doubted(measured.pitched_at),
        left_in_fermenter=left_in_fermenter,
        packaged=packaged or bench.made("beer packaged", remaining, into, left_in_fermenter),
        boil_off=_boil_off(bench, boil_volume, end_volume, boiled),
        from_the_mash=bench.made("extract of the mash", mul, potential, efficiency),
        conversion=conversion if agrees else None,
        lauter=lauter if agrees else None,
        mash_plan=plan,
        agrees=agrees,
        mash_efficiency=efficiency,
        in_the_kettle=at_the_end,
        in_the_fermenter=_extract(bench, "extract in the fermenter", original, into),
    )


def _extract(bench: Bench, label: str, read: Corrected | None, volume: Value | None) -> Value | None:
    return bench.put(gravity.wort_extract, label, gravity=read.gravity if read else None, wort_l=volume)


def _mash_efficiency(bench: Bench, at_the_start: Value | None, at_the_end: Value | None) -> Value | None:
    """By the wort before the boil, or else by the wort at its end."""
    potential = bench.planned(frozen.POTENTIAL, "kg")
    if potential is None or potential.number <= 0:
        return None
    whole, besides = at_the_start, bench.planned(frozen.BESIDES_BEFORE, "kg")
    if whole is None:
        whole, besides = at_the_end, bench.planned(frozen.BESIDES_AT_END, "kg")
    label = "mash efficiency as measured"
    return bench.put(
        brew_day.mash_efficiency_shown, label, extract_kg=whole, besides_kg=besides, potential_kg=potential
    )


def _boil_off(bench: Bench, start: Value | None, end: Value | None, boiled: Value | None) -> Value | None:
    def shown(start: Value, end: Value, boiled: Value) -> Value:
        late_l = frozen.late_volume(bench.batch.frozen.plan)
        return ((start + late_l if late_l.number else start) - end) / boiled

    return bench.made("boil-off as measured", shown, start, end, boiled)
