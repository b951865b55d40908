"""Gravities of the wort from its extract and its volume."""

from __future__ import annotations

from gristbook.equations import gravity
from gristbook.model.recipe import Recipe
from gristbook.sheet.arithmetic import less, share_of, sum_of
from gristbook.sheet.value import Value, apply
from gristbook.targets.grist import potential
from gristbook.targets.results import Grist, Volumes, Wort
from gristbook.targets.volumes import joins_late


def wort(recipe: Recipe, efficiency: Value, grist: Grist, volumes: Volumes) -> Wort:
    """Gravity before the boil, after it, and in the fermenter."""
    after = apply(gravity.wort_gravity, "gravity after the boil", extract_kg=grist.extract, wort_l=volumes.end_of_boil)
    in_fermenter = _extract_in_fermenter(grist, volumes)
    original = (
        after
        if volumes.top_up is None
        else apply(gravity.wort_gravity, "original gravity", extract_kg=in_fermenter, wort_l=volumes.into_fermenter)
    )
    plato = apply(gravity.plato_from_gravity, "original extract", gravity=original)
    equivalent, equivalent_plato = _equivalent(recipe, grist, in_fermenter, original, plato, volumes)
    mashed = any(not line.malt.steep for line in grist.malts)
    return Wort(
        apply(
            gravity.wort_gravity,
            "gravity before the boil",
            extract_kg=early_extract(recipe, grist),
            wort_l=volumes.boil,
        ),
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

    def is_in(line_minutes: float | None) -> bool:
        return line_minutes is None or (before_the_end is not None and line_minutes >= before_the_end)

    parts = tuple(line.extract for line in grist.malts) + tuple(
        line.extract
        for line in grist.sugars
        if not line.sugar.into_fermenter
        and is_in(line.sugar.minutes.number if line.sugar.minutes and joins_late(line.sugar, recipe) else None)
    )
    label = "extract in the kettle at the start" if before_the_end is None else "extract in the kettle so far"
    return sum_of(parts, label, "kg")


def _extract_in_fermenter(grist: Grist, volumes: Volumes) -> Value:
    share = less(
        volumes.end_of_boil,
        volumes.left_in_kettle,
        left="what is left of a volume",
        label="wort that leaves the kettle",
    )
    return (grist.extract * (share / volumes.end_of_boil)).called("extract in the fermenter")


def _equivalent(
    recipe: Recipe, grist: Grist, in_fermenter: Value, original: Value, plato: Value, volumes: Volumes
) -> tuple[Value, Value]:
    """Original gravity as if the sugar that goes into the fermenter had been there from the start."""
    later: tuple[Value, ...] = tuple(line.extract for line in grist.sugars if line.sugar.into_fermenter)
    if not later:
        return original, plato
    whole = sum_of((in_fermenter, *later), "extract that ferments in all")
    equivalent = apply(
        gravity.wort_gravity, "equivalent original gravity", extract_kg=whole, wort_l=volumes.into_fermenter
    )
    return equivalent, apply(gravity.plato_from_gravity, "equivalent original extract", gravity=equivalent)


def _brewhouse_efficiency(grist: Grist, in_fermenter: Value) -> Value:
    parts: list[Value] = [
        (line.mass * potential(line.malt)).called(f"all that {line.malt.name} could give") for line in grist.malts
    ]
    parts += [line.extract for line in grist.sugars if not line.sugar.into_fermenter]
    return share_of(in_fermenter, sum_of(tuple(parts), "all that the grist could give"), "brewhouse efficiency")
