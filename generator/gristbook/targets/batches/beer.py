"""What the yeast made of it: attenuation and strength from the gravities before and after."""

from __future__ import annotations

from dataclasses import dataclass
from operator import add

from gristbook.equations import alcohol, attenuation, gravity
from gristbook.sheet.value import Value
from gristbook.targets.batches import frozen
from gristbook.targets.batches.brewing import BrewDay
from gristbook.targets.batches.measured import Bench
from gristbook.targets.batches.results import Corrected, Course


@dataclass(frozen=True, slots=True)
class Beer:
    """The beer as brewed, before priming.

    ``expected_end`` is the gravity at which this wort, sugar in the fermenter with it, should have stopped, by the
    plan's attenuation; the plan's own final gravity where nobody measured the wort.
    """

    final: Corrected | None
    expected_end: Value | None
    apparent_attenuation: Value | None
    real_attenuation: Value | None
    abv: Value | None


def beer_of(bench: Bench, day: BrewDay, course: Course, final: Corrected | None) -> Beer:
    """From the original gravity and the final one, or where nobody read that, the last look at the beer."""
    looks = [moment.reading for moment in course.moments if moment.reading is not None]
    final = final or (looks[-1] if looks else None)
    original = _original_plato(bench, day)
    final_gravity = final.gravity if final else None
    apparent = bench.put(gravity.plato_from_gravity, "apparent extract", gravity=final_gravity)
    real = bench.put(attenuation.real_extract, "real extract", original=original, apparent=apparent)
    abw = bench.put(alcohol.abw_balling, "alcohol by weight", original=original, real=real)
    return Beer(
        final,
        _expected_end(bench, original),
        bench.put(
            attenuation.apparent_attenuation, "apparent attenuation as brewed", original=original, apparent=apparent
        ),
        bench.put(attenuation.real_attenuation, "real attenuation as brewed", original=original, real=real),
        bench.put(alcohol.abv, "alcohol by volume as brewed", abw=abw, gravity=final_gravity),
    )


def _expected_end(bench: Bench, original: Value | None) -> Value | None:
    planned = bench.planned("real-attenuation", "fraction")
    rest = bench.put(
        attenuation.real_extract_after, "real extract to expect", original=original, real_attenuation=planned
    )
    apparent = bench.put(attenuation.apparent_extract, "apparent extract to expect", original=original, real=rest)
    end = bench.put(gravity.gravity_from_plato, "gravity that it should end at", extract=apparent)
    return end or bench.planned("final-gravity", "SG")


def _original_plato(bench: Bench, day: BrewDay) -> Value | None:
    if day.original is None:
        return None
    original: Value | None = day.original.gravity
    added = bench.planned(frozen.IN_THE_FERMENTER, "kg")
    if added is not None and added.number > 0:
        volume = day.into_fermenter or bench.planned("into-the-fermenter", "L")
        there = bench.put(gravity.wort_extract, "extract at pitching", gravity=original, wort_l=volume)
        whole = bench.made("extract that ferments in all", add, there, added)
        beer_l = bench.with_fruit(volume)
        original = bench.put(gravity.wort_gravity, "equivalent original gravity", extract_kg=whole, wort_l=beer_l)
    return bench.put(gravity.plato_from_gravity, "original extract", gravity=original)
