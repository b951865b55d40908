"""Where extract was lost: in the mash, in the kettle, in the fermenter."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from operator import sub

from gristbook.equations import brew_day
from gristbook.sheet.value import Value
from gristbook.targets.batches import frozen
from gristbook.targets.batches.brewing import BrewDay
from gristbook.targets.batches.compared import verdict_on
from gristbook.targets.batches.lautered import told_apart
from gristbook.targets.batches.measured import Bench, remaining
from gristbook.targets.batches.results import Loss, Verdict, Vessel

WORDS: Mapping[tuple[Vessel, Verdict], str] = {
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
    potential, end = bench.planned(frozen.POTENTIAL, "kg"), bench.planned("volume-at-the-end-of-the-boil", "L")
    efficiency = bench.planned("mash-efficiency", "fraction")
    for loss in _loss(bench, "mash", efficiency, day.mash_efficiency, potential, day.from_the_mash):
        yield replace(loss, words=told_apart(day.mash_plan, day.conversion, day.lauter) or loss.words)
    to_go = bench.made("wort that was to leave the kettle", remaining, end, bench.planned(frozen.LEFT_IN_KETTLE, "L"))
    planned = _share(bench, "share that was to leave the kettle", to_go, end)
    left = bench.made("wort that left the kettle", remaining, day.end_volume, day.left_in_kettle)
    yield from _by_volume(bench, "kettle", planned, day.in_the_kettle, left, day.end_volume)
    packaged, into = bench.planned("beer-to-package", "L"), bench.planned("into-the-fermenter", "L")
    planned = _share(bench, "share that was to be packaged", packaged, bench.with_fruit(into))
    beer = bench.with_fruit(day.into_fermenter)
    yield from _by_volume(bench, "fermenter", planned, day.in_the_fermenter, day.packaged, beer)


def _by_volume(
    bench: Bench, vessel: Vessel, planned: Value | None, came: Value | None, part: Value | None, whole: Value | None
) -> Iterator[Loss]:
    """A vessel by the part of its volume that goes on: extract stays behind with the rest."""
    share = _share(bench, f"share that left the {vessel}", part, whole)
    label = f"extract that left the {vessel}"
    went_on = bench.made(label, lambda came, part, whole: came * (part / whole), came, part, whole) if share else None
    return _loss(bench, vessel, planned, share, came, went_on)


def _loss(
    bench: Bench,
    vessel: Vessel,
    planned: Value | None,
    measured: Value | None,
    came: Value | None,
    went_on: Value | None,
) -> Iterator[Loss]:
    lost = bench.made(f"extract lost in the {vessel}", sub, came, went_on)
    if measured is not None and lost is not None:
        yield Loss(vessel, planned, measured, lost, WORDS[vessel, verdict_on(planned, measured)])


def _share(bench: Bench, label: str, part: Value | None, whole: Value | None) -> Value | None:
    return bench.put(brew_day.share_that_goes_on, label, part_l=part, whole_l=whole)
