"""Hopped tins are bought whole: how many of them an edition takes, or which size would do."""

from __future__ import annotations

from dataclasses import replace

from gristbook.model.hop import HoppedKit
from gristbook.model.recipe import Recipe
from gristbook.refusal import Refusal
from gristbook.sheet.value import Value, given

STRAYS = 0.15
"""The share by which the tins may be too many or too few, and the rest makes up for it (common practice, no source)."""
EXACT = 0.01
"""The share that nobody would notice."""


def whole_tins(home: Recipe, batch: Value) -> int:
    """The tins of each hopped line that a batch takes; one where there is no such line.

    Raises
    ------
    Refusal
        Whole tins would make another beer of so much wort; the words say how much would do.
    """
    wanted = _wanted(home, batch)
    tins = max(round(wanted), 1)
    if home.kits and abs(tins / wanted - 1) > STRAYS:
        raise Refusal(
            f"a hopped tin is bought whole, and {batch.number:.3g} L would want {wanted:.2g} of it: "
            f"{_size(home, tins):.3g} L would do"
        )
    return tins


def in_tins(home: Recipe, tins: int) -> Recipe:
    """The recipe with as many whole tins of each hopped line; each label speaks for one of them."""
    before = {kit.place: kit.tins for kit in home.kits}
    sugars = tuple(
        replace(sugar.weighing(_times(sugar.mass, tins, before[sugar.place])))
        if sugar.place in before and sugar.mass is not None
        else sugar
        for sugar in home.sugars
    )
    return replace(home, sugars=sugars, kits=tuple(_labelled(kit, tins) for kit in home.kits))


def said_of(home: Recipe, batch: Value, now: Recipe, tins: int) -> tuple[str, ...]:
    """A word where whole tins are more or less than the batch asks for: another volume, or other things beside them."""
    if not home.kits or (abs(tins / _wanted(home, batch) - 1) <= EXACT and now.batch == batch):
        return ()
    if now.batch == batch:
        return ("Hopped tins are bought whole: what is weighed beside them makes up for it.",)
    return (
        f"Hopped tins are bought whole, and nothing beside them gives way: they make {now.batch.number:.1f} L, "
        f"and not {batch.number:.1f} L.",
    )


def would_do(home: Recipe, batch: Value, tins: int) -> str:
    """The size that whole tins are right for, to end the words of a refusal; nothing where there are none."""
    if not home.kits or abs(tins / _wanted(home, batch) - 1) <= EXACT:
        return ""
    return f"; as hopped tins are bought whole, {_size(home, tins):.3g} L would do"


def _wanted(home: Recipe, batch: Value) -> float:
    return max((kit.tins for kit in home.kits), default=1) * batch.number / home.batch.number


def _size(home: Recipe, tins: int) -> float:
    return home.batch.number * tins / max(kit.tins for kit in home.kits)


def _labelled(kit: HoppedKit, tins: int) -> HoppedKit:
    return replace(kit, volume=_times(kit.volume, tins, kit.tins), tins=tins)


def _times(one: Value, tins: int, before: int) -> Value:
    """What is said of so many tins, said of others; as it was written where they are as many."""
    if tins == before:
        return one
    return given(one.number * tins / before, one.unit, one.label, words=f"of {tins} whole tins")
