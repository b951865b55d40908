"""The fermentation as it went: looks at the beer, the log, and whether it was over."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from math import inf, isnan

from gristbook.equations.gravity import gravity_from_plato
from gristbook.model.batch import Log
from gristbook.sheet.value import Value, given
from gristbook.targets.advice.gas_words import eats_on
from gristbook.targets.batches import frozen
from gristbook.targets.batches.measured import Bench
from gristbook.targets.batches.results import Corrected, Course, Curve, MomentFigures, Stability
from gristbook.targets.beer.finished import COLD_C
from gristbook.targets.conventions import STEADY_FOR_DAYS, STEADY_FOR_WEEKS, STEADY_WITHIN
from gristbook.targets.method.step import Sentence

CURVE_POINTS = 240
"""As many points of a log as a chart can show."""
SMOOTHED_OVER = timedelta(hours=12)
"""A logging instrument's gravity is taken as its mean over so long: bubbles make it jump."""
ASLEEP_C = 15.0
"""A beer that was to ferment `COLD_C` warmer or more, and is cooler than this, may have stopped by the cold alone
(common practice, no source)."""
FALLEN_IN_THE_COLD = 0.002
"""By so much a reading of cold beer may lie lower, since its sample may have been warmed without a word."""
READ_TO = 4
"""Decimals of a gravity that mean something, so that two readings a point apart are a point apart."""


@dataclass(frozen=True, slots=True)
class Look:
    """A gravity at a time, to be held against another, and whether the beer was too ``cold`` for that to prove it.

    One that was ``logged`` is as the instrument wrote it, put right for nothing.
    """

    when: datetime
    gravity: Value
    cold: bool
    logged: bool


def course_of(bench: Bench, original: Corrected | None, final: Corrected | None) -> Course:
    """The looks at the beer in their order, the final gravity last: it is read on the day of packaging."""
    measured = bench.batch.measured
    moments = [
        MomentFigures(moment.when, bench.days(moment.when), bench.beer(moment.gravity, original), moment.temperature)
        for moment in measured.moments
    ]
    if final is not None and measured.packaged is not None:
        when = datetime.combine(datetime.fromisoformat(measured.packaged.day), time(12))
        moments.append(MomentFigures(when, bench.days(when), final, None))
    moments.sort(key=lambda moment: moment.when)
    curve = _curve(bench, measured.log) if measured.log else None
    return Course(tuple(moments), curve, _stability(bench, tuple(moments)))


def _curve(bench: Bench, log: Log) -> Curve | None:
    """Every so manieth point of the log, its last one among them."""
    count = len(log.times)
    if not count:
        return None
    stride, gravities = -(-count // CURVE_POINTS), _in_sg(log)
    kept = sorted({*range(0, count, stride), count - 1})
    return Curve(
        tuple(bench.days(log.times[i]) for i in kept),
        tuple(gravities[i] for i in kept),
        tuple(log.temperatures[i] for i in kept),
    )


def _in_sg(log: Log) -> tuple[float, ...]:
    """The log's gravities (SG), also where its instrument wrote °P."""
    if log.scale == "SG":
        return log.gravities
    return tuple(read if isnan(read) else gravity_from_plato(extract=read) for read in log.gravities)


def _stability(bench: Bench, moments: tuple[MomentFigures, ...]) -> Stability:
    """Two readings far enough apart, after the dry hops went in, that agree: by hand, or else by the log."""
    hopped = bench.batch.measured.dry_hopped
    if not hopped and bench.batch.frozen.dry_hopped:
        return Stability(
            None, ("Nobody wrote down when the dry hops went in, so nothing shows that it was over.",), None
        )
    apart = STEADY_FOR_WEEKS if _eats_on(bench) else STEADY_FOR_DAYS
    found = None
    by_hand = list(_by_hand(bench, moments))
    for looks in (by_hand, list(_logged(bench, apart))):
        timely = [look for look in looks if hopped < look.when.date().isoformat() <= bench.last_day]
        pair = _pair([look for look in timely if not look.cold], apart)
        found = found if pair is None or (found and found.stable) else _judged(*pair, timely[-1], by_hand[-1:])
    if found is not None:
        return found
    words = "No two gravities, days apart and in warm beer, show that it was over"
    return Stability(None, (f"{words} after the dry hops went in." if hopped else f"{words}.",), None)


def _judged(earlier: Look, later: Look, last: Look, by_hand: list[Look]) -> Stability:
    """Two looks at warm beer, and the last of all, which may be at cold beer and must not lie below them.

    Beside what a log wrote stands the last reading ``by_hand``, which is put right.
    """
    moved = round(abs(later.gravity.number - earlier.gravity.number), READ_TO)
    fell = round(later.gravity.number - last.gravity.number, READ_TO) > FALLEN_IN_THE_COLD
    stable, shown = moved <= STEADY_WITHIN and not fell, last if fell else later
    start = "The gravity stood still" if stable else "The gravity was still moving"
    start += ", by what the log wrote" if later.logged else ""
    words: Sentence = (f"{start}: ", earlier.gravity, " and, days later, ", shown.gravity, ".")
    if later.logged and by_hand:
        words = (*words, " By hand, put right for its warmth, it was ", by_hand[-1].gravity, " at last.")
    return Stability(stable, words, (earlier.when, shown.when))


def _pair(looks: list[Look], apart: float) -> tuple[Look, Look] | None:
    """The last look, and the last one that lies long enough before it."""
    if not looks:
        return None
    last = looks[-1]
    before = [look for look in looks if (last.when.date() - look.when.date()).days >= apart]
    return (before[-1], last) if before else None


def _by_hand(bench: Bench, moments: tuple[MomentFigures, ...]) -> Iterator[Look]:
    """The gravities that somebody read; the beer is as warm as it was at the look before where nobody says."""
    usual = _usual_heat(bench, [moment.temperature.number for moment in moments if moment.temperature])
    heat = usual
    for moment in moments:
        heat = moment.temperature.number if moment.temperature is not None else heat
        if moment.reading is not None:
            yield Look(moment.when, moment.reading.gravity, _too_cold(heat, usual), logged=False)


def _usual_heat(bench: Bench, measured: Iterable[float]) -> float:
    """How warm it was to ferment, by the plan or else as it did at most (°C)."""
    planned = bench.planned(frozen.PITCHED, "°C")
    return planned.number if planned is not None else max(measured, default=inf)


def _too_cold(heat: float, usual: float) -> bool:
    """Whether beer is so cold that its yeast sleeps, and any two readings agree."""
    return heat < ASLEEP_C and usual - heat >= COLD_C


def _eats_on(bench: Bench) -> bool:
    sections = dict(bench.batch.frozen.sections)
    return eats_on(bench.batch.yeast, *sections.get("yeast", ()), *sections.get("finings and spices", ()))


def _logged(bench: Bench, apart: float) -> Iterator[Look]:
    """The log's gravity at the end of its warm part and long enough before, each a mean over some hours."""
    log = bench.batch.measured.log
    if log is None:
        return
    rows = [
        (when, sg, degrees)
        for when, sg, degrees in zip(log.times, _in_sg(log), log.temperatures, strict=True)
        if not isnan(sg) and when.date().isoformat() <= bench.last_day
    ]
    usual = _usual_heat(bench, [degrees for _, _, degrees in rows if not isnan(degrees)])
    read = [(when, sg) for when, sg, degrees in rows if isnan(degrees) or not _too_cold(degrees, usual)]
    if not read:
        return
    end = read[-1][0]
    for moment in (end - timedelta(days=apart), end):
        window = [sg for when, sg in read if moment - SMOOTHED_OVER <= when <= moment]
        if window:
            mean = sum(window) / len(window)
            origin = f"{log.file}: the mean over some hours"
            value = given(mean, "SG", "gravity by the log", words=origin, place=log.place)
            yield Look(moment, value, cold=False, logged=True)
