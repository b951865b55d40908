"""Whose fault it is that a recipe cannot be brewed: a setting of its brewhouse, that stands in another file."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import inf, log
from typing import Any

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.problems import Problem, spoken
from gristbook.sheet.origin import By, Given
from gristbook.sheet.value import Value

SETTINGS = (
    *("thickness", "absorption", "boil_off", "left_in_kettle", "left_in_fermenter"),
    *("efficiency", "conversion", "steep_yield", "tun_heat", "grain_temperature", "altitude"),
)
"""What a brewhouse does to a brew, apart from the size of its vessels, which somebody has as they are."""

ODD = 2.0
"""A setting that is no further than so many times from the usual one is not what is wrong."""

HALVINGS = 16
ROUNDED = 0.005
"""By how much of a number three digits may be out."""


def blamed(
    amiss: tuple[Problem, ...], recipe: Recipe, brewhouse: Brewhouse, stands: Callable[[Brewhouse], bool]
) -> tuple[Problem, ...]:
    """What is amiss with a recipe, told at the setting without which nothing of it would be.

    ``stands`` says whether nothing is amiss in other vessels.
    """
    if not amiss or brewhouse.usual is None:
        return amiss
    for name, own, usual in sorted(_odd(brewhouse, brewhouse.usual), key=lambda it: -_far(it[1], it[2])):

        def works(number: float, name: str = name, own: Value = own) -> bool:
            changed: dict[str, Any] = {name: replace(own, number=number)}
            return stands(replace(brewhouse, **changed))

        origin = own.origin
        if isinstance(origin, Given) and origin.place is not None and works(usual.number):
            return (
                Problem(
                    origin.place,
                    f'with {origin.written} as {own.label}, "{recipe.title}" cannot be brewed: '
                    + "; ".join(_small(it.what.removeprefix(CANNOT)) for it in amiss),
                    expected=_would_do(own, usual.number, works, us=origin.us),
                    safety=any(it.safety for it in amiss),
                    stops=recipe.place.path,
                ),
            )
    return amiss


CANNOT = "this cannot be brewed as written: "
"""Stands before what physics refuse."""


def _small(words: str) -> str:
    return words[:1].lower() + words[1:]


def _odd(brewhouse: Brewhouse, usual: Brewhouse) -> Iterator[tuple[str, Value, Value]]:
    """The settings that the author says, far from the usual."""
    for name in SETTINGS:
        own, other = getattr(brewhouse, name), getattr(usual, name)
        if own is None or other is None or not isinstance(own.origin, Given):
            continue
        if own.origin.by is By.AUTHOR and _far(own, other) > log(ODD):
            yield name, own, other


def _far(own: Value, usual: Value) -> float:
    if own.number == usual.number:
        return 0.0
    return abs(log(own.number / usual.number)) if own.number > 0 and usual.number > 0 else inf


def _would_do(own: Value, usual: float, works: Callable[[float], bool], *, us: bool) -> str:
    """The setting nearest to the author's that would do, in the author's units, rounded so that it does."""
    fits, fails = usual, own.number
    for _ in range(HALVINGS):
        half = (fits + fails) / 2
        fits, fails = (half, fails) if works(half) else (fits, half)
    down = fails > fits
    safe = fits * (1 - ROUNDED) if down else fits * (1 + ROUNDED)
    near = max(safe, usual) if down else min(safe, usual)
    return f"{spoken(near, own.unit, us=us)} or {'less' if down else 'more'}"
