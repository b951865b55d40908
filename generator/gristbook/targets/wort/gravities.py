"""Gravities of the wort from its extract and its volume."""

from __future__ import annotations

from math import inf

from gristbook.equations import gravity
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import share_of, sum_of
from gristbook.sheet.value import Value, apply, number
from gristbook.targets.results import Grist, Volumes, Wort
from gristbook.targets.wort.grist import could_give
from gristbook.targets.wort.volumes import joins_late, reaches_fermenter


def wort(recipe: Recipe, efficiency: Value, grist: Grist, volumes: Volumes) -> Wort:
    """Gravity before the boil, after it, and in the fermenter."""
    early = early_extract(recipe, grist)
    before = apply(gravity.wort_gravity, "gravity before the boil", extract_kg=early, wort_l=volumes.boil)
    after = apply(gravity.wort_gravity, "gravity after the boil", extract_kg=grist.extract, wort_l=volumes.end_of_boil)
    in_fermenter = reaches_fermenter(grist.extract, volumes, "extract in the fermenter")
    original = after
    if volumes.top_up is not None:
        wort_l = volumes.into_fermenter
        original = apply(gravity.wort_gravity, "original gravity", extract_kg=in_fermenter, wort_l=wort_l)
    plato = apply(gravity.plato_from_gravity, "original extract", gravity=original)
    equivalent, equivalent_plato = original, plato  # as if later sugar had been there from the start
    later = [line.extract for line in grist.sugars if line.sugar.into_fermenter]
    if later:
        whole = sum_of((in_fermenter, *later), "extract that ferments in all")
        label, wort_l = "equivalent original gravity", volumes.fermenting
        equivalent = apply(gravity.wort_gravity, label, extract_kg=whole, wort_l=wort_l)
        equivalent_plato = apply(gravity.plato_from_gravity, "equivalent original extract", gravity=equivalent)
    mashed = any(not line.malt.steep for line in grist.malts)
    return Wort(
        before,
        after,
        original,
        plato,
        equivalent,
        equivalent_plato,
        in_fermenter,
        efficiency if mashed else None,
        _brewhouse_efficiency(grist, in_fermenter) if mashed else None,
    )


def early_extract(recipe: Recipe, grist: Grist, before_the_end: float | None = None) -> Value:
    """Extract that is in the kettle when the boil begins, or some minutes before its end (kg)."""
    since = inf if before_the_end is None else before_the_end
    dissolved = (
        line.extract
        for line in grist.sugars
        if not line.sugar.into_fermenter
        and not (joins_late(line.sugar, recipe) and number(line.sugar.minutes or 0.0) < since)
    )
    label = "extract in the kettle at the start" if before_the_end is None else "extract in the kettle so far"
    return sum_of((*(line.extract for line in grist.malts), *dissolved), label, "kg")


def _brewhouse_efficiency(grist: Grist, in_fermenter: Value) -> Value:
    parts = [could_give(line) for line in grist.malts]
    parts += [line.extract for line in grist.sugars if not line.sugar.into_fermenter]
    return share_of(in_fermenter, sum_of(parts, "all that the grist could give"), "brewhouse efficiency")
