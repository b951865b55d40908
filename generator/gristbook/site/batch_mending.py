"""What could have been done on the day about wort that was not as planned."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from gristbook.site.figures import Sentence, joined
from gristbook.targets.batches.results import Adjustment, Remedy
from gristbook.targets.method_step import say

WHERE = {
    "before the boil": "Before the boil",
    "end of the boil": "At the end of the boil",
    "in the fermenter": "In the fermenter",
}
HOLDS = {"kettle": "What the kettle holds when the boil is over", "fermenter": "What the fermenter holds"}


@dataclass(frozen=True, slots=True)
class Mending:
    """One measurement: what it found, what was wanted, and the ways to get there; ``mind`` is what to take care of.

    ``holds`` is what the ways end in, each in words with what the vessel then holds; there are none where nothing
    needed doing.
    """

    title: str
    holds: str
    anchor: str
    found: Sentence
    ways: tuple[tuple[Sentence, Remedy], ...]
    mind: tuple[str, ...]


def mendings(adjustments: Iterable[Adjustment]) -> Iterator[Mending]:
    """Each measurement of the kettle with what could be done about it."""
    for it in adjustments:
        found = say(
            "The {measured} held {volume} at {gravity}; the plan wants {wanted_volume} at {wanted} {there}.",
            measured="fermenter" if it.step == "in the fermenter" else "kettle",
            volume=it.volume,
            gravity=it.gravity,
            wanted_volume=it.wanted_volume,
            wanted=it.wanted,
            there="when the boil is over" if it.vessel == "kettle" else "in the fermenter",
        )
        ways = () if it.fits else tuple((_do(remedy), remedy) for remedy in (it.unmended, *it.remedies))
        yield Mending(WHERE[it.step], HOLDS[it.vessel], "table-" + it.step.replace(" ", "-"), found, ways, it.words)


def _do(remedy: Remedy) -> Sentence:
    parts: list[Sentence] = [
        (words, value, after)
        for words, value, after in (
            ("go on with ", remedy.keep, ""),
            ("leave out ", remedy.leave_out, " of the top-up"),
            ("stir in ", remedy.extract, " of dried malt extract"),
            ("pour in ", remedy.water, " of water"),
            ("boil on for ", remedy.boil_on, ""),
        )
        if value is not None
    ]
    return joined(parts, ", ") or ("do nothing",)
