"""The gravity that counts for a hop: the wort's mean over its own minutes, where the wort changes in the boil."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from gristbook.equations import gravity, kettle
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.sheet.value import Value, apply, constant
from gristbook.targets.results import Grist, Volumes, Wort
from gristbook.targets.wort.gravities import early_extract
from gristbook.targets.wort.volumes import boiled_down, joins_late, late_volume


@dataclass(frozen=True, slots=True)
class Boil:
    """What every hop of a brew meets."""

    recipe: Recipe
    brewhouse: Brewhouse
    grist: Grist
    volumes: Volumes
    wort: Wort


def boil_gravity(boil: Boil, minutes: Value) -> Value:
    """Mean gravity for a hop that boils for the last ``minutes``.

    With nothing added in the boil it is the mean of start and end, the same for every hop.
    """
    recipe, wort = boil.recipe, boil.wort
    joins = {sugar.minutes.number for sugar in recipe.sugars if joins_late(sugar, recipe) and sugar.minutes}
    if not joins:
        return ((wort.before_the_boil + wort.after_the_boil) / 2).called("mean gravity of the boil")
    hop_min = min(minutes.number, recipe.boil.number)
    marks = sorted({hop_min, 0.0, *(mark for mark in joins if mark < hop_min)}, reverse=True)
    stretches = list(pairwise(marks))
    if not stretches:
        return wort.after_the_boil
    return apply(
        kettle.time_mean_gravity,
        "mean gravity while the hop boils",
        starts=tuple(_part_way(boil, start, start) for start, _ in stretches),
        ends=tuple(_part_way(boil, end, start) for start, end in stretches),
        minutes=tuple(start - end for start, end in stretches),
    )


def _part_way(boil: Boil, before_the_end: float, extract_since: float) -> Value:
    """The gravity some minutes before the end of the boil, with what was stirred in up to some minutes before it."""
    recipe = boil.recipe
    late_l = late_volume(recipe, ((line.sugar, line.mass) for line in boil.grist.sugars), extract_since)
    boiled = constant(recipe.boil.number - before_the_end, "min", "boiled so far")
    label = "wort part-way through the boil"
    volume = boiled_down(boil.volumes.boil, boil.brewhouse.boil_off, boiled, late_l, label)
    held = early_extract(recipe, boil.grist, before_the_end=extract_since)
    return apply(gravity.wort_gravity, "gravity part-way through the boil", extract_kg=held, wort_l=volume)
