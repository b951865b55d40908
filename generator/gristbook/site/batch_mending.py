"""What could have been done on the day about wort that was not as planned."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from gristbook.site.figures import Figure, Sentence, Shown, joined
from gristbook.targets.batches.results import Adjustment, Remedy

WHERE = {"before the boil": "Before the boil", "end of the boil": "At the end of the boil"}


@dataclass(frozen=True, slots=True)
class Way:
    """Something to do, and what the kettle then holds at the end of the boil."""

    do: Sentence
    gravity: Figure
    volume: Figure
    bitterness: Figure | None


@dataclass(frozen=True, slots=True)
class Mending:
    """One measurement: what it found, what was wanted, and the ways to get there; ``mind`` is what to take care of."""

    title: str
    anchor: str
    found: Sentence
    ways: tuple[Way, ...]
    mind: tuple[str, ...]


def mendings(adjustments: Iterable[Adjustment], shown: Shown) -> Iterator[Mending]:
    """Each measurement of the kettle with what could be done about it."""
    for it in adjustments:
        found = shown.say(
            "The kettle held ",
            it.volume,
            " at ",
            it.gravity,
            "; the plan wants ",
            it.wanted_volume,
            " at ",
            it.wanted,
            " when the boil is over.",
        )
        ways = (_way(it.unmended, shown), *(_way(remedy, shown) for remedy in it.remedies)) if it.remedies else ()
        anchor = "table-" + it.step.replace(" ", "-")
        yield Mending(WHERE[it.step], anchor, found, ways, it.words if it.remedies else ())


def _way(remedy: Remedy, shown: Shown) -> Way:
    parts = [
        shown.say(words, value, after)
        for words, value, after in (
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
