"""Where extract was lost: in the mash, in the kettle, in the fermenter."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from operator import sub

from gristbook.equations import brew_day
from gristbook.sheet.value import Value
from gristbook.targets.batches import frozen
from gristbook.targets.batches.brewing import BrewDay
from gristbook.targets.batches.compared import verdict_on
from gristbook.targets.batches.measured import Bench, doubted, remaining
from gristbook.targets.batches.results import Loss, Verdict

WORDS: Mapping[tuple[str, Verdict], str] = {
    ("mash", "within"): "The grain gave what was planned.",
    ("mash", "below"): "The grain gave less than planned: look at the crush, at the mash's temperature and pH, at its "
    "time, and at how slowly the wort ran off.",
    ("mash", "above"): "The grain gave more than planned: if it does so again, the brewhouse is better than its book.",
    ("mash", ""): "So much of what the grain could give came into the kettle.",
    ("kettle", "within"): "The kettle kept what was planned.",
    ("kettle", "below"): "The kettle kept more than planned: let hops and trub settle longer, or strain them off.",
    ("kettle", "above"): "The kettle kept less than planned.",
    ("kettle", ""): "So much of what was in the kettle came into the fermenter.",
    ("fermenter", "within"): "The fermenter kept what was planned.",
    ("fermenter", "below"): "The fermenter kept more than planned: chill it so that the yeast settles firmly, and rack "
    "it slowly.",
    ("fermenter", "above"): "The fermenter kept less than planned: mind that yeast and hops stayed behind.",
    ("fermenter", ""): "So much of what was in the fermenter was packaged.",
}
"""Common practice, no source."""


def losses_of(bench: Bench, day: BrewDay) -> Iterator[Loss]:
    """Each vessel of which it can be said."""
    yield from _loss(
        "mash", bench.planned("mash-efficiency", "fraction"), day.mash_efficiency, _in_the_mash(bench, day)
    )
    yield from _loss("kettle", _planned_kettle(bench), *_kettle(bench, day))
    yield from _loss("fermenter", _planned_fermenter(bench), *_fermenter(bench, day))


def _loss(vessel: str, planned: Value | None, measured: Value | None, lost: Value | None) -> Iterator[Loss]:
    if measured is not None and lost is not None:
        words = WORDS[vessel, verdict_on(planned, measured)]
        yield Loss(vessel, planned, measured, lost, words)  # type: ignore[arg-type]  # one of the three above


def _in_the_mash(bench: Bench, day: BrewDay) -> Value | None:
    potential = bench.planned(frozen.POTENTIAL, "kg")
    return _lost(bench, "mash", potential, day.from_the_mash)


def _lost(bench: Bench, vessel: str, came: Value | None, got_through: Value | None) -> Value | None:
    return bench.made(f"extract lost in the {vessel}", sub, came, got_through)


def _share(bench: Bench, label: str, part: Value | None, whole: Value | None) -> Value | None:
    return bench.put(brew_day.share_that_goes_on, label, part_l=part, whole_l=whole)


def _planned_kettle(bench: Bench) -> Value | None:
    end = bench.planned("volume-at-the-end-of-the-boil", "L")
    left = bench.planned(frozen.LEFT_IN_KETTLE, "L")
    goes_on = bench.made("wort that was to leave the kettle", remaining, end, left)
    return _share(bench, "share that was to leave the kettle", goes_on, end)


def _kettle(bench: Bench, day: BrewDay) -> tuple[Value | None, Value | None]:
    end = day.end_volume
    goes_on = bench.made("wort that left the kettle", remaining, end, day.left_in_kettle)
    return _of(bench, "kettle", day.in_the_kettle, goes_on, end)


def _planned_fermenter(bench: Bench) -> Value | None:
    packaged, into = bench.planned("beer-to-package", "L"), bench.planned("into-the-fermenter", "L")
    return _share(bench, "share that was to be packaged", packaged, into)


def _fermenter(bench: Bench, day: BrewDay) -> tuple[Value | None, Value | None]:
    return _of(bench, "fermenter", day.in_the_fermenter, packaged_volume(bench, day), day.into_fermenter)


def packaged_volume(bench: Bench, day: BrewDay) -> Value | None:
    """The beer that was packaged: as measured, or else what came in less what stayed behind."""
    measured = bench.batch.measured
    if measured.packaged is not None and measured.packaged.volume is not None:
        return doubted(measured.packaged.volume)
    left = doubted(measured.left_in_fermenter) if measured.left_in_fermenter else None
    return bench.made("beer packaged", remaining, day.into_fermenter, left)


def _of(
    bench: Bench, vessel: str, came: Value | None, goes_on: Value | None, whole: Value | None
) -> tuple[Value | None, Value | None]:
    """The share that goes on, and the extract that stays behind with the rest."""
    share = _share(bench, f"share that left the {vessel}", goes_on, whole)
    label = f"extract that left the {vessel}"
    left_with = (
        bench.made(label, lambda came, part, all_l: came * (part / all_l), came, goes_on, whole) if share else None
    )
    return share, _lost(bench, vessel, came, left_with)
