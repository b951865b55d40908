"""The beer as it was packaged: its gas now and at the end, the pressure of that, and what speaks against it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from math import isnan

from gristbook.equations import brew_day, carbonation, pressure
from gristbook.model.batch import Packaged
from gristbook.problems import Severity
from gristbook.targets.batches import frozen
from gristbook.targets.batches.beer import Beer
from gristbook.targets.batches.brewing import BrewDay
from gristbook.targets.batches.losses import packaged_volume
from gristbook.targets.batches.measured import Bench, doubted
from gristbook.targets.batches.results import BottleFigures, Course
from gristbook.targets.cautions import CEILINGS
from gristbook.targets.conventions import HEAVY_BOTTLES, PRACTICE, STEADY_WITHIN, WARMEST_STORAGE
from gristbook.targets.method_step import Sentence
from gristbook.targets.packaging import yields
from gristbook.worksheet import Value, apply, given


def bottles_of(bench: Bench, day: BrewDay, beer: Beer, course: Course) -> BottleFigures | None:
    """Gas and pressure of a beer that was packaged; each part is there where what it rests on was written down."""
    measured = bench.batch.measured
    packed = measured.packaged
    if packed is None:
        return None
    residual = _residual(bench, beer, course)
    priming = _priming(bench, packed, day)
    unfinished = _unfinished(bench, beer, course)

    def gas(label: str, more: Value | None) -> Value | None:
        parts = {"residual": residual, "priming": priming or 0.0, "unfinished": more or 0.0}
        return bench.put(carbonation.gas_at_the_end, label, **parts)

    at_the_end = gas("gas at the end", unfinished)
    warmest = doubted(measured.warmest_storage) if measured.warmest_storage else None
    warmest = warmest or bench.planned(frozen.WARMEST, "°C") or WARMEST_STORAGE
    severity, words = gas_verdict(at_the_end.number, packed.vessel) if at_the_end else (None, ())
    return BottleFigures(
        residual,
        priming,
        gas("carbonation as packaged", None) if priming is not None else None,
        unfinished,
        at_the_end,
        warmest,
        bench.put(pressure.bottle_pressure, "pressure in warm storage", volumes=at_the_end, temperature=warmest),
        severity,
        words,
    )


def gas_verdict(volumes: float, vessel: str) -> tuple[Severity | None, Sentence]:
    """What there is to say against so much gas in a vessel: how grave it is, and the words."""
    if vessel == "keg":
        return None, ()
    if vessel == "heavy bottles":
        for bound, grave in reversed(HEAVY_BOTTLES):
            if volumes > bound:
                limit = given(bound, "vol", "usual bound on the gas in a heavy bottle", origin="from memory")
                words = "is more than heavy bottles are usually filled for: ask their maker, and keep them cold."
                return Severity(grave), ("More than ", limit, f" {words}")
        return None, ()
    ceiling = next((ceiling for ceiling in reversed(CEILINGS) if ceiling.exceeded_by(volumes)), None)
    if ceiling is None:
        return None, ()
    bound_value = given(ceiling.volumes, "vol", "bound on the gas in a bottle", origin=PRACTICE)
    return ceiling.severity, (ceiling.before.capitalize(), bound_value, f"{ceiling.words}.")


def _residual(bench: Bench, beer: Beer, course: Course) -> Value | None:
    """By the warmest that it was since fermentation ended, or else as the plan had it."""
    warmest = max(_temperatures(bench, beer, course), key=lambda value: value.number, default=None)
    label = "gas left from fermentation"
    worked = bench.put(carbonation.residual_carbon_dioxide, label, temperature=warmest)
    return worked or bench.planned(label, "vol")


def _temperatures(bench: Bench, beer: Beer, course: Course) -> Iterator[Value]:
    """How warm it was from the first look that found it as far down as it ever came; where none did, at the last."""
    over, packed = _over_since(beer, course), bench.batch.measured.packaged
    last_day = packed.day if packed else "9999"
    in_time = [moment for moment in course.moments if moment.when.date().isoformat() <= last_day]
    known = [moment for moment in in_time if moment.temperature is not None]
    for moment in known:
        if moment.temperature is not None and (moment.when >= over if over else moment is known[-1]):
            yield doubted(moment.temperature)
    log = bench.batch.measured.log
    if log is None or over is None:
        return
    for when, degrees in zip(log.times, log.temperatures, strict=True):
        if not isnan(degrees) and when >= over and when.date().isoformat() <= last_day:
            yield given(degrees, "°C", "temperature by the log", origin=log.file, place=log.place)


def _over_since(beer: Beer, course: Course) -> datetime | None:
    if beer.final is None:
        return None
    end = beer.final.gravity.number + STEADY_WITHIN
    return next((m.when for m in course.moments if m.reading and m.reading.gravity.number <= end), None)


def _priming(bench: Bench, packed: Packaged, day: BrewDay) -> Value | None:
    if packed.sugar is None or packed.primer is None:
        return None
    gas, _ = yields(packed.primer, apply)
    beer_l = packaged_volume(bench, day) or bench.planned("beer to package", "L")
    return bench.put(
        carbonation.gas_from_priming,
        "gas from priming",
        sugar_g=doubted(packed.sugar),
        beer_l=beer_l,
        carbon_dioxide_yield=gas,
    )


def _unfinished(bench: Bench, beer: Beer, course: Course) -> Value | None:
    """Gas from what stands above the expected end; nothing where the beer stood still within the plan's own range."""
    expected = beer.expected_end
    if expected is None or beer.final is None or beer.final.gravity.number <= expected.number:
        return None
    if course.stability.stable and beer.final.gravity.number <= expected.high:
        return None
    above = bench.put(
        brew_day.points_above, "gravity above its expected end", gravity=beer.final.gravity, expected=expected
    )
    return bench.put(carbonation.gas_from_gravity_points, "gas from what had still to ferment", points=above)
