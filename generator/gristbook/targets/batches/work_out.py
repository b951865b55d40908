"""A batch worked out from its own file alone: whatever changes in the book, its figures stay to the last digit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta

from gristbook.model.batch import Batch, WortStep
from gristbook.refusal import Refusal
from gristbook.sheet.value import Value
from gristbook.targets.batches import frozen
from gristbook.targets.batches.beer import Beer, beer_of
from gristbook.targets.batches.bottles import bottles_of
from gristbook.targets.batches.brewing import BrewDay, brew_day_of
from gristbook.targets.batches.compared import compared
from gristbook.targets.batches.course import course_of
from gristbook.targets.batches.lessons import faults_of, lessons_of
from gristbook.targets.batches.losses import losses_of
from gristbook.targets.batches.measured import Bench, bench_of, doubted
from gristbook.targets.batches.mending import adjustment
from gristbook.targets.batches.results import Adjustment, BatchFigures, BottleFigures, Corrected, Occasion
from gristbook.targets.conventions import IN_THE_BOTTLE, IN_THE_KEG, STRONG_ABV, STRONG_IN_THE_BOTTLE


def work_out_batch(batch: Batch) -> BatchFigures:
    """Everything that follows from a batch; what nobody measured is absent, and nothing is asked of the book."""
    bench = bench_of(batch)
    day = brew_day_of(bench)
    final = bench.beer(batch.measured.final, day.original)
    course = course_of(bench, day.original, final)
    beer = beer_of(bench, day, course, final)
    bottles = bottles_of(bench, day, beer, course)
    adjustments = tuple(_adjustments(bench, day))
    return BatchFigures(
        batch=batch,
        compared=tuple(compared(bench, _measured(bench, day, beer, bottles), _planned(day))),
        losses=tuple(losses_of(bench, day)),
        mash_efficiency=day.mash_efficiency,
        boil_off=day.boil_off,
        original=day.original,
        final=beer.final,
        apparent_attenuation=beer.apparent_attenuation,
        real_attenuation=beer.real_attenuation,
        abv=beer.abv,
        course=course,
        bottles=bottles,
        lessons=tuple(lessons_of(bench, day, beer)),
        adjustments=adjustments,
        occasions=tuple(_occasions(batch, beer)),
        faults=tuple(faults_of(bench, day, beer, bottles)),
    )


def _measured(
    bench: Bench, day: BrewDay, beer: Beer, bottles: BottleFigures | None
) -> Mapping[str, Mapping[str, Value | None]]:
    """What was measured, in the order of the brew, by the figure of the plan that it is."""
    packed = bench.batch.measured.packaged
    return {
        "The mash": {
            frozen.MASH_TEMPERATURE: day.mash_temperature,
            "gravity-of-the-first-runnings": _gravity(day.first_runnings),
            "conversion": day.conversion,
            "lauter-efficiency": day.lauter,
            "mash-efficiency": day.mash_efficiency,
        },
        "The boil": {
            "boil-volume": day.boil_volume,
            "gravity-before-the-boil": _gravity(day.before_the_boil),
            frozen.BOILED: day.boiled,
            frozen.BOIL_OFF: day.boil_off,
            "volume-at-the-end-of-the-boil": day.end_volume,
            "gravity-after-the-boil": _gravity(day.after_the_boil),
        },
        "Into the fermenter": {
            frozen.LEFT_IN_KETTLE: day.left_in_kettle,
            "into-the-fermenter": day.into_fermenter,
            "original-gravity": _gravity(day.original),
            frozen.PITCHED: day.pitched_at,
        },
        "The beer": {
            "final-gravity": _gravity(beer.final),
            "apparent-attenuation": beer.apparent_attenuation,
            "real-attenuation": beer.real_attenuation,
            "alcohol-by-volume": beer.abv,
        },
        "Packaging": {
            frozen.LEFT_IN_FERMENTER: day.left_in_fermenter,
            "beer-packaged": day.packaged,
            "priming-sugar": doubted(packed.sugar if packed is not None else None),
            "carbonation": bottles.carbonation if bottles is not None else None,
        },
    }


def _planned(day: BrewDay) -> Mapping[str, Value | None]:
    """What an old plan wants of its mash follows from its efficiency."""
    plan = day.mash_plan
    return {
        "gravity-of-the-first-runnings": plan.first_runnings,
        "conversion": plan.conversion,
        "lauter-efficiency": plan.lauter,
    }


def _gravity(read: Corrected | None) -> Value | None:
    return read.gravity if read is not None else None


def _adjustments(bench: Bench, day: BrewDay) -> Iterator[Adjustment]:
    levels: tuple[tuple[WortStep, Corrected | None, Value | None], ...] = (
        ("before the boil", day.before_the_boil, day.boil_volume),
        ("end of the boil", day.after_the_boil, bench.volume(bench.batch.measured.end_of_the_boil)),
        ("in the fermenter", day.original, day.into_fermenter),
    )
    for step, read, volume in levels:
        if read is not None and volume is not None:
            try:
                yield adjustment(bench.batch.frozen.plan, step, read.gravity, volume)
            except Refusal as refusal:
                bench.refused.append(f"what to do about the wort, {step}: {refusal}")


def _occasions(batch: Batch, beer: Beer) -> Iterator[Occasion]:
    """The days that were written down, and the one on which it should be ready."""
    yield Occasion("brewing", batch.brewed, reckoned=False)
    measured = batch.measured
    if measured.dry_hopped:
        yield Occasion("dry hopping", measured.dry_hopped, reckoned=False)
    if measured.packaged is not None:
        yield Occasion("packaging", measured.packaged.day, reckoned=False)
    if batch.thrown_away:
        return
    ready = batch.ready or _ready(batch, beer)
    if ready:
        yield Occasion("ready", ready, reckoned=not batch.ready)


def _ready(batch: Batch, beer: Beer) -> str:
    """As long after packaging as a beer of its strength needs; before that, as the plan has it from brewing."""
    packaged, planned = batch.measured.packaged, batch.frozen.plan.get("days-until-it-is-ready")
    if packaged is not None:
        strength = beer.abv or batch.frozen.plan.get("alcohol-by-volume")
        strong = strength is not None and strength.number >= STRONG_ABV
        bottled = STRONG_IN_THE_BOTTLE if strong else IN_THE_BOTTLE
        return _later(packaged.day, (IN_THE_KEG if packaged.vessel == "keg" else bottled).number)
    return _later(batch.brewed, planned.number) if planned is not None and planned.unit == "d" else ""


def _later(day: str, days: float) -> str:
    """A day so many days on; "" past the end of the calendar."""
    try:
        return (date.fromisoformat(day) + timedelta(days=round(days))).isoformat()
    except (OverflowError, ValueError):
        return ""
