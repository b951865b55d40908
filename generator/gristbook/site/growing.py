"""Starters for liquid yeast: what to boil up, and how many cells come of one fresh pack in it."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.sheet.value import Value
from gristbook.site.figures import Figure, Sentence, Shown
from gristbook.targets.figures import Plan
from gristbook.targets.results import Starter


@dataclass(frozen=True, slots=True)
class StarterRow:
    """A starter: its wort, what it is made of, its cells left standing and stirred, and whether they are enough."""

    name: str
    volume: Figure
    extract: Figure
    standing: Figure
    stirred: Figure
    verdict: str


@dataclass(frozen=True, slots=True)
class Starters:
    """What the wort wants, and the starters that one pack could be grown in."""

    wanted: Sentence
    rows: tuple[StarterRow, ...]


def starters_view(plan: Plan, shown: Shown) -> Starters | None:
    """The starters of a plan; nothing where all its yeast is dried."""
    pitch = plan.figures.pitch
    if pitch is None or not pitch.starters:
        return None
    wanted = shown.say(
        *("This wort wants ", pitch.cells, ", which is ", pitch.packs, " as they come. A pack that has grown in a "),
        "little wort first goes further:",
    )
    return Starters(wanted, tuple(_row(starter, pitch.cells, shown) for starter in pitch.starters))


def _row(starter: Starter, wanted: Value, shown: Shown) -> StarterRow:
    names = {1: "In one step", 2: "The larger one once more, in a second step"}
    return StarterRow(
        names[starter.steps],
        shown(starter.volume),
        shown(starter.extract),
        shown(starter.standing),
        shown(starter.stirred),
        _verdict(starter, wanted),
    )


def _verdict(starter: Starter, wanted: Value) -> str:
    if starter.standing.number >= wanted.number:
        return "enough"
    return "enough if it is stirred" if starter.stirred.number >= wanted.number else "not enough"
