"""The fermentation as it went: looks at the beer, the log, and whether it was over."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from math import isnan

from gristbook.model.batch import Log
from gristbook.targets.batches.measured import Bench
from gristbook.targets.batches.results import Corrected, Course, Curve, MomentFigures, Stability
from gristbook.targets.conventions import STEADY_FOR_DAYS, STEADY_WITHIN
from gristbook.worksheet import Value, given

CURVE_POINTS = 240
"""As many points of a log as a chart can show."""
SMOOTHED_OVER = timedelta(hours=12)
"""A logging instrument's gravity is taken as its mean over so long: bubbles make it jump."""
READ_TO = 4
"""Decimals of a gravity that mean something, so that two readings a point apart are a point apart."""


@dataclass(frozen=True, slots=True)
class Look:
    """A gravity at a time, to be held against another."""

    when: datetime
    gravity: Value


def course_of(bench: Bench, original: Corrected | None) -> Course:
    """The looks at the beer in their order, the final gravity last: it is read on the day of packaging."""
    measured = bench.batch.measured
    moments = [
        MomentFigures(moment.when, bench.days(moment.when), bench.beer(moment.gravity, original), moment.temperature)
        for moment in measured.moments
    ]
    final, packaged = bench.beer(measured.final, original), measured.packaged
    if final is not None and packaged is not None:
        when = datetime.combine(datetime.fromisoformat(packaged.day), time(12))
        moments.append(MomentFigures(when, bench.days(when), final, None))
    moments.sort(key=lambda moment: moment.when)
    curve = _curve(bench, measured.log) if measured.log else None
    return Course(tuple(moments), curve, _stability(bench, tuple(moments)))


def _curve(bench: Bench, log: Log) -> Curve | None:
    """Every so manieth point of the log, its last one among them."""
    count = len(log.times)
    if not count:
        return None
    stride = -(-count // CURVE_POINTS)
    kept = sorted({*range(0, count, stride), count - 1})
    return Curve(
        tuple(bench.days(log.times[i]) for i in kept),
        tuple(log.gravities[i] for i in kept),
        tuple(log.temperatures[i] for i in kept),
    )


def _stability(bench: Bench, moments: tuple[MomentFigures, ...]) -> Stability:
    """Two readings far enough apart, after the dry hops went in, that agree: by hand, or else by the log."""
    hopped = bench.batch.measured.dry_hopped
    if not hopped and _dry_hops_planned(bench):
        return Stability(
            None, ("Nobody wrote down when the dry hops went in, so nothing shows that it was over.",), None
        )
    packaged = bench.batch.measured.packaged
    last_day = packaged.day if packaged else "9999"
    by_hand = [Look(moment.when, moment.reading.gravity) for moment in moments if moment.reading is not None]
    for looks in (by_hand, list(_logged(bench))):
        pair = _pair([look for look in looks if hopped < look.when.date().isoformat() <= last_day])
        if pair is not None:
            return _judged(*pair)
    words = "No two gravities, days apart, show that it was over"
    return Stability(None, (f"{words} after the dry hops went in." if hopped else f"{words}.",), None)


def _judged(earlier: Look, later: Look) -> Stability:
    stable = round(abs(later.gravity.number - earlier.gravity.number), READ_TO) <= STEADY_WITHIN
    start = "The gravity stood still" if stable else "The gravity was still moving"
    words = (f"{start}: ", earlier.gravity, " and, days later, ", later.gravity, ".")
    return Stability(stable, words, (earlier.when, later.when))


def _pair(looks: list[Look]) -> tuple[Look, Look] | None:
    """The last look, and the last one that lies long enough before it."""
    if not looks:
        return None
    last = looks[-1]
    before = [look for look in looks if (last.when.date() - look.when.date()).days >= STEADY_FOR_DAYS]
    return (before[-1], last) if before else None


def _dry_hops_planned(bench: Bench) -> bool:
    hops = dict(bench.batch.frozen.sections).get("hops", ())
    return any("dry" in line.casefold().replace(",", " ").split() for line in hops)


def _logged(bench: Bench) -> Iterator[Look]:
    """The log's gravity at its end and long enough before, each a mean over some hours, up to packaging."""
    log, packaged = bench.batch.measured.log, bench.batch.measured.packaged
    if log is None:
        return
    read = [(when, sg) for when, sg in zip(log.times, log.gravities, strict=True) if not isnan(sg)]
    read = [one for one in read if packaged is None or one[0].date().isoformat() <= packaged.day]
    if not read:
        return
    end = read[-1][0]
    for moment in (end - timedelta(days=STEADY_FOR_DAYS), end):
        window = [sg for when, sg in read if moment - SMOOTHED_OVER <= when <= moment]
        if window:
            mean = sum(window) / len(window)
            origin = f"{log.file}: the mean over some hours"
            yield Look(moment, given(mean, "SG", "gravity by the log", origin=origin, place=log.place))
