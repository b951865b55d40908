"""The beer as it was packaged: its gas now and at the end, the pressure of that, and what speaks against it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from math import isnan

from gristbook.equations import brew_day, carbonation, pressure
from gristbook.model.batch import Packaged
from gristbook.model.figures import words_of
from gristbook.problems import Severity
from gristbook.sheet.value import Value, given, number
from gristbook.targets.advice.against import Against
from gristbook.targets.advice.gas import beyond, lowest
from gristbook.targets.batches import frozen
from gristbook.targets.batches.beer import Beer
from gristbook.targets.batches.brewing import BrewDay
from gristbook.targets.batches.measured import Bench, doubted
from gristbook.targets.batches.results import BottleFigures, Course
from gristbook.targets.beer.packaging import yields
from gristbook.targets.conventions import STEADY_WITHIN, WARMEST_STORAGE
from gristbook.targets.method.step import Sentence


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
    warmest = doubted(measured.warmest_storage) or bench.planned(frozen.WARMEST, "°C") or WARMEST_STORAGE
    bar = bench.put(pressure.gauge_pressure, "pressure in warm storage", volumes=at_the_end, temperature=warmest)
    against = tuple(_against(packed, at_the_end, warmest, bar, course))
    return BottleFigures(
        residual,
        priming,
        gas("carbonation as packaged", None) if priming is not None else None,
        unfinished,
        at_the_end,
        warmest,
        bar,
        against,
        _comfort(packed, against, at_the_end),
    )


def _against(
    packed: Packaged, at_the_end: Value | None, warmest: Value, bar: Value | None, course: Course
) -> Iterator[Against]:
    """What speaks against a beer in its vessel: its gas, and that nothing shows that it had finished."""
    too_much = beyond(at_the_end.number, warmest.number, packed.vessel, packed.place) if at_the_end else None
    if too_much is not None and at_the_end is not None and bar is not None:
        comes_to = ("It comes to ", at_the_end, " in the end, and presses with ", bar, " at ", warmest, ". ")
        yield replace(too_much, words=(*comes_to, *too_much.words))
    if packed.vessel != "keg" and course.stability.stable is not True:
        start = "Bottled before it stood still. " if course.stability.stable is False else "Bottled on trust. "
        yield Against(Severity.WARNING, packed.place, (start, *course.stability.words))


def _comfort(packed: Packaged, against: tuple[Against, ...], at_the_end: Value | None) -> Sentence:
    """A word of comfort, where two readings agreed, the gas is known, and nothing speaks against the bottles."""
    if against or at_the_end is None or packed.vessel == "keg":
        return ()
    return (
        "Two readings agreed, and there is less gas than the ",
        lowest(packed.vessel),
        " above which such a bottle is warned of: its maker has the last word.",
    )


def _residual(bench: Bench, beer: Beer, course: Course) -> Value | None:
    """By the warmest that it was since fermentation ended, or else as the plan had it."""
    warmest = max(_temperatures(bench, beer, course), key=lambda value: value.number, default=None)
    figure = "gas-left-from-fermentation"
    worked = bench.put(carbonation.residual_carbon_dioxide, words_of(figure), temperature=warmest)
    return worked or bench.planned(figure, "vol")


def _temperatures(bench: Bench, beer: Beer, course: Course) -> Iterator[Value]:
    """How warm it was from the first look that found it as far down as it ever came; where none did, at the last."""
    over = _over_since(beer, course)
    in_time = [moment for moment in course.moments if moment.when.date().isoformat() <= bench.last_day]
    known = [moment for moment in in_time if moment.temperature is not None]
    for moment in known:
        if moment.temperature is not None and (moment.when >= over if over else moment is known[-1]):
            yield doubted(moment.temperature)
    log = bench.batch.measured.log
    if log is None or over is None:
        return
    for when, degrees in zip(log.times, log.temperatures, strict=True):
        if not isnan(degrees) and when >= over and when.date().isoformat() <= bench.last_day:
            yield given(degrees, "°C", "temperature by the log", words=log.file, place=log.place)


def _over_since(beer: Beer, course: Course) -> datetime | None:
    if beer.final is None:
        return None
    end = beer.final.gravity.number + STEADY_WITHIN
    return next((m.when for m in course.moments if m.reading and m.reading.gravity.number <= end), None)


def _priming(bench: Bench, packed: Packaged, day: BrewDay) -> Value | None:
    if packed.sugar is None or packed.primer is None:
        return None
    gas, _ = yields(packed.primer)
    there = [
        it for it in (bench.planned("beer-to-package", "L"), bench.with_fruit(day.into_fermenter)) if it is not None
    ]
    return bench.put(
        carbonation.gas_from_priming,
        "gas from priming",
        sugar_g=doubted(packed.sugar),
        beer_l=day.packaged or min(there, key=number, default=None),  # the plan's, but no more than there was
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
