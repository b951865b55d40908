"""What a learner measures and types on the day: the fields of a batch, each as what it is typed in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from gristbook.site.beer.blanks import afterwards, blanks
from gristbook.targets.figures import Plan

Slot: TypeAlias = Literal["volume", "gravity", "heat", "minutes", "day", "words", "lines"]
"""A number with its unit, a gravity, a day, or words as they are; several lines are a list."""

FORMS: Mapping[str, tuple[Slot, ...]] = {
    "hydrometer": ("heat",),
    "mash temperature": ("heat",),
    "first runnings": ("gravity", "heat"),
    "before the boil": ("volume", "gravity"),
    "boiled": ("minutes",),
    "end of the boil": ("volume", "gravity"),
    "left in kettle": ("volume",),
    "into the fermenter": ("volume",),
    "original gravity": ("gravity", "heat"),
    "pitched": ("heat",),
    "readings": ("lines",),
    "dry hopped": ("day",),
    "final gravity": ("gravity", "heat"),
    "left in fermenter": ("volume",),
    "packaged": ("words",),
    "warmest storage": ("heat",),
    "ready": ("day",),
    "tasted": ("lines",),
}
"""What each field of a batch is typed in; what has two is the first "at" the second, as a batch's file has it."""

HOT: frozenset[str] = frozenset({"before the boil", "end of the boil"})
"""Volumes that may be read as hot as wort boils."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A field of a batch, what it is typed in, what is planned, and whether its volume may be hot."""

    field: str
    slots: tuple[Slot, ...]
    hint: str
    hot: bool


def asked(plan: Plan, *, us: bool) -> Iterator[Asked]:
    """The fields that a brew of this plan has, in its order."""
    for blank in (*blanks(plan, us=us), *afterwards(plan, us=us)):
        hint = blank.words.removeprefix("a line each, as - ") if blank.words else ""
        yield Asked(blank.field, FORMS[blank.field], hint, blank.field in HOT)
