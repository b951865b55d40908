"""What could have been done on the day about wort that was not as planned."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from gristbook.site.figures import Figure, Sentence, Shown, joined
from gristbook.targets.batches.results import Adjustment, Remedy

WHERE = {
    "before the boil": "Before the boil",
    "end of the boil": "At the end of the boil",
    "in the fermenter": "In the fermenter",
}
HOLDS = {"kettle": "What the kettle holds when the boil is over", "fermenter": "What the fermenter holds"}


@dataclass(frozen=True, slots=True)
class Way:
    """Something to do, and what the vessel then holds."""

    do: Sentence
    gravity: Figure
    volume: Figure
    bitterness: Figure | None


@dataclass(frozen=True, slots=True)
class Mending:
    """One measurement: what it found, what was wanted, and the ways to get there; ``mind`` is what to take care of.

    ``holds`` is what the ways end in; there are none where nothing needed doing.
    """

    title: str
    holds: str
    anchor: str
    found: Sentence
    ways: tuple[Way, ...]
    mind: tuple[str, ...]


def mendings(adjustments: Iterable[Adjustment], shown: Shown) -> Iterator[Mending]:
    """Each measurement of the kettle with what could be done about it."""
    for it in adjustments:
        found = shown.say(
            "The fermenter held " if it.step == "in the fermenter" else "The kettle held ",
            it.volume,
            " at ",
            it.gravity,
            "; the plan wants ",
            it.wanted_volume,
            " at ",
            it.wanted,
            " when the boil is over." if it.vessel == "kettle" else " in the fermenter.",
        )
        ways = () if it.fits else (_way(it.unmended, shown), *(_way(remedy, shown) for remedy in it.remedies))
        anchor = "table-" + it.step.replace(" ", "-")
        yield Mending(WHERE[it.step], HOLDS[it.vessel], anchor, found, ways, it.words)


def _way(remedy: Remedy, shown: Shown) -> Way:
    parts = [
        shown.say(words, value, after)
        for words, value, after in (
            ("go on with ", remedy.keep, ""),
            ("leave out ", remedy.leave_out, " of the top-up"),
            ("stir in ", remedy.extract, " of dried malt extract"),
            ("pour in ", remedy.water, " of water"),
            ("boil on for ", remedy.boil_on, ""),
        )
        if value is not None
    ]
    return Way(
        joined(parts, ", ") or ("do nothing",),
        shown(remedy.gravity),
        shown(remedy.volume),
        shown(remedy.bitterness) if remedy.bitterness is not None else None,
    )
