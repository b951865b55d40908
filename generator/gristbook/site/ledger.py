"""Where the extract comes from and where it goes: every kilogram from the grain to the fermenter."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.sheet.value import Value
from gristbook.site.figures import Figure, Shown
from gristbook.targets.figures import Plan


@dataclass(frozen=True, slots=True)
class Entry:
    """Extract from one line of the grist."""

    name: str
    extract: Figure


@dataclass(frozen=True, slots=True)
class Ledger:
    """What each line brings to the kettle, all of it, what comes into the fermenter with the wort, what joins later."""

    kettle: tuple[Entry, ...]
    in_all: Figure
    in_fermenter: Figure
    later: tuple[Entry, ...]


def ledger(plan: Plan, shown: Shown) -> Ledger:
    """The extract of a plan."""
    grist = plan.figures.grist
    lines: list[tuple[str, Value]] = [(line.malt.name, line.extract) for line in grist.malts]
    lines += [(line.sugar.name, line.extract) for line in grist.sugars if not line.sugar.into_fermenter]
    later = [(line.sugar.name, line.extract) for line in grist.sugars if line.sugar.into_fermenter]
    return Ledger(
        tuple(Entry(name, shown(extract)) for name, extract in lines),
        shown(grist.extract),
        shown(plan.figures.wort.extract_in_fermenter),
        tuple(Entry(name, shown(extract)) for name, extract in later),
    )
