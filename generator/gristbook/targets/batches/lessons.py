"""What one batch teaches, and what in it cannot be."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from gristbook.equations import learning
from gristbook.problems import Place, Severity
from gristbook.sheet.doubts import NINE_IN_TEN
from gristbook.sheet.origin import By, Given, Worked
from gristbook.sheet.value import Value, lineage, settled
from gristbook.targets.batches import frozen
from gristbook.targets.batches.beer import Beer
from gristbook.targets.batches.brewing import BrewDay
from gristbook.targets.batches.frozen import KETTLE_ROOM
from gristbook.targets.batches.lautered import runs_off_of
from gristbook.targets.batches.measured import Bench
from gristbook.targets.batches.results import BottleFigures, Fault, Lesson, Subject

FURTHER = 0.003
"""So far below the least of its plan, a beer has fermented more than its yeast takes (our own)."""


def lessons_of(bench: Bench, day: BrewDay, beer: Beer) -> Iterator[Lesson]:
    """One lesson for each thing that can be said; those that do not count say why."""
    batch = bench.batch
    found: dict[Subject, Value | None] = {
        "conversion": _conversion(bench, day),
        "boil-off": day.boil_off,
        "left in kettle": day.left_in_kettle,
        "left in fermenter": day.left_in_fermenter,
        "attenuation": bench.put(
            learning.attenuation_shown,
            "attenuation of the yeast as measured",
            measured=beer.apparent_attenuation,
            planned=_settled(bench.planned("apparent-attenuation", "fraction")),
            of_the_yeast=_settled(bench.planned(frozen.ATTENUATION, "fraction")),
        ),
    }
    unlikely = impossible(day, beer)
    for subject, value in found.items():
        if value is None or not batch.brewhouse or (subject == "attenuation" and not batch.yeast):
            continue
        aside = batch.no_lesson or ("this cannot be" if subject in unlikely else "")
        if subject == "conversion" and not day.agrees:
            aside = aside or "its first runnings and its mash efficiency do not agree"
        yeast = batch.yeast if subject == "attenuation" else ""
        if yeast and not aside and batch.thrown_away:  # what soured it may have gone on where the yeast had stopped
            aside = f"it was thrown away: {batch.thrown_away}"
        yield Lesson(subject, batch.brewhouse, yeast, value, aside, batch.slug, place_of(value, batch.place))


def _conversion(bench: Bench, day: BrewDay) -> Value | None:
    """What dissolved as the first runnings show it, where they were read and agree; or else lautered as planned."""
    if day.conversion is not None and day.lauter is not None:
        return day.conversion
    label, planned = "conversion, lautered as planned", _settled(day.mash_plan.lauter)
    return bench.made(label, runs_off_of, day.mash_efficiency, planned)


def _settled(value: Value | None) -> Value | None:
    """What the plan took for granted: how unsure it was of the yeast is no doubt of what was then read."""
    return settled(value) if value is not None else None


def impossible(day: BrewDay, beer: Beer) -> dict[Subject, tuple[Value, str]]:
    """What breaks a balance by more than its readings may be out, and the words for it.

    It is extract out of nothing, or water out of the air; a share has been held to what a share can be.
    """
    rows: tuple[tuple[Subject, Value | None, Literal["above", "below"], float, str], ...] = (
        ("conversion", day.mash_efficiency, "above", 1.0,
         "More extract came out of the mash than the grain holds: a volume, a gravity or a weight is wrong."),
        ("conversion", day.mash_efficiency, "below", 0.0,
         "The kettle holds less extract than the sugars alone brought: a volume or a gravity is wrong."),
        ("boil-off", day.boil_off, "below", 0.0,
         "There was more wort after the boil than before it: a volume is wrong."),
        ("attenuation", beer.real_attenuation, "above", 1.0,
         "More extract fermented than there was: a gravity is wrong."),
        ("attenuation", beer.apparent_attenuation, "below", 0.0,
         "The beer has more gravity than its wort had: a gravity is wrong."),
    )  # fmt: skip
    found: dict[Subject, tuple[Value, str]] = {}
    for subject, value, side, bound, words in rows:
        if value is not None:
            past = raw(value) - bound if side == "above" else bound - raw(value)
            if past > NINE_IN_TEN * value.spread:
                found.setdefault(subject, (value, words))
    return found


def raw(value: Value) -> float:
    """A share before it was held to what a share can be: from the numbers that it was made of."""
    put_in = dict(value.origin.inputs) if isinstance(value.origin, Worked) else {}
    numbers = {name: it.number for name, it in put_in.items() if isinstance(it, Value)}
    match numbers:
        case {"extract_kg": whole, "besides_kg": besides, "potential_kg": potential}:
            return (whole - besides) / potential
        case {"original": original, "apparent": rest} | {"original": original, "real": rest}:
            return (original - rest) / original
    return value.number


def faults_of(bench: Bench, day: BrewDay, beer: Beer, bottles: BottleFigures | None) -> Iterator[Fault]:
    """What cannot be, what could not be worked out, and what must not be left so."""
    batch = bench.batch
    for figure, words in impossible(day, beer).values():
        yield Fault(Severity.ERROR, place_of(figure, batch.place), (words,))
    if not day.agrees and day.first_runnings is not None and day.mash_efficiency is not None:
        first = day.first_runnings.gravity
        read = ("First runnings of ", first, " and a mash efficiency of ", day.mash_efficiency, " do not agree: ")
        odd = (*read, "a gravity, a volume or a weight is wrong, and nothing tells what did not dissolve from what ")
        yield Fault(Severity.WARNING, place_of(first, batch.place), (*odd, "did not run off."))
    for refusal in dict.fromkeys(bench.refused):
        yield Fault(Severity.WARNING, batch.place, (f"This cannot be worked out: {refusal}.",))
    yield from _over_the_rim(bench, day)
    if bottles is None or batch.thrown_away:
        return
    yield from _too_far(bench, beer)
    for against in bottles.against:
        yield Fault(against.severity, against.place, against.words)


def _over_the_rim(bench: Bench, day: BrewDay) -> Iterator[Fault]:
    room, level, volume = bench.planned(KETTLE_ROOM, "L"), bench.batch.measured.before_the_boil, day.boil_volume
    if room is not None and level is not None and volume is not None and volume.number > room.number:
        advice = " at most: draw some off, or it climbs out."
        yield Fault(Severity.WARNING, level.place, (volume, " of wort stand in a kettle that boils ", room, advice))


def _too_far(bench: Bench, beer: Beer) -> Iterator[Fault]:
    """A beer that went further than its yeast can take it has something else in it."""
    packed, planned = bench.batch.measured.packaged, bench.planned("final-gravity", "SG")
    if beer.final is None or planned is None or packed is None or packed.vessel == "keg":
        return
    final = beer.final.gravity
    if final.number < planned.low - FURTHER:
        warning = (
            "something else may ferment in it, and goes on for months. Keep the bottles cold, and open one now and "
            "then, wrapped in a towel, goggles on."
        )
        words = ("It went down to ", final, ", and ", planned, f" was planned: {warning}")
        yield Fault(Severity.WARNING, packed.place, words)


def place_of(value: Value, otherwise: Place) -> Place:
    """The line of the batch's own readings that a figure rests on, the plan's frozen figures left aside."""
    for it in lineage(value):
        given = it.made
        if isinstance(given, Given) and given.by is not By.PLAN and given.place and given.place.path == otherwise.path:
            return given.place
    return otherwise
