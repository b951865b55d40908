"""Gravities of the wort from its extract and its volume."""

from __future__ import annotations

from gristbook.equations import extract, gravity, sums
from gristbook.model.recipe import Recipe
from gristbook.targets.grist import potential
from gristbook.targets.results import Grist, Volumes, Wort
from gristbook.targets.volumes import joins_late
from gristbook.worksheet import Calculator, N, Value


def wort(recipe: Recipe, efficiency: N | Value, grist: Grist[N], volumes: Volumes[N], calc: Calculator[N]) -> Wort[N]:
    """Gravity before the boil, after it, and in the fermenter."""
    after = calc(gravity.wort_gravity, "gravity after the boil", extract_kg=grist.extract, wort_l=volumes.end_of_boil)
    in_fermenter = _extract_in_fermenter(grist, volumes, calc)
    original = (
        after
        if volumes.top_up is None
        else calc(gravity.wort_gravity, "original gravity", extract_kg=in_fermenter, wort_l=volumes.into_fermenter)
    )
    plato = calc(gravity.plato_from_gravity, "original extract", gravity=original)
    equivalent, equivalent_plato = _equivalent(recipe, grist, in_fermenter, original, plato, volumes, calc)
    mashed = any(not line.malt.steep for line in grist.malts)
    return Wort(
        calc(
            gravity.wort_gravity,
            "gravity before the boil",
            extract_kg=early_extract(recipe, grist, calc),
            wort_l=volumes.boil,
        ),
        after,
        original,
        plato,
        equivalent,
        equivalent_plato,
        in_fermenter,
        efficiency if mashed else None,
        _brewhouse_efficiency(grist, in_fermenter, calc) if mashed else None,
    )


def early_extract(recipe: Recipe, grist: Grist[N], calc: Calculator[N], before_the_end: float | None = None) -> N:
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
    return (
        calc(extract.total_extract, label, parts_kg=parts)
        if parts
        else calc(extract.total_extract, label, parts_kg=(0.0,))
    )


def _extract_in_fermenter(grist: Grist[N], volumes: Volumes[N], calc: Calculator[N]) -> N:
    share = calc(
        sums.remaining_volume,
        "wort that leaves the kettle",
        whole_l=volumes.end_of_boil,
        part_l=volumes.left_in_kettle,
    )
    return calc(
        extract.extract_left,
        "extract in the fermenter",
        extract_kg=grist.extract,
        part_l=share,
        whole_l=volumes.end_of_boil,
    )


def _equivalent(
    recipe: Recipe,
    grist: Grist[N],
    in_fermenter: N,
    original: N,
    plato: N,
    volumes: Volumes[N],
    calc: Calculator[N],
) -> tuple[N, N]:
    """Original gravity as if the sugar that goes into the fermenter had been there from the start."""
    later: tuple[N, ...] = tuple(line.extract for line in grist.sugars if line.sugar.into_fermenter)
    if not later:
        return original, plato
    whole = calc(extract.total_extract, "extract that ferments in all", parts_kg=(in_fermenter, *later))
    equivalent = calc(
        gravity.wort_gravity, "equivalent original gravity", extract_kg=whole, wort_l=volumes.into_fermenter
    )
    return equivalent, calc(gravity.plato_from_gravity, "equivalent original extract", gravity=equivalent)


def _brewhouse_efficiency(grist: Grist[N], in_fermenter: N, calc: Calculator[N]) -> N:
    parts: list[N | Value] = [
        calc(
            extract.dissolved_extract,
            f"all that {line.malt.name} could give",
            mass_kg=line.mass,
            potential=potential(line.malt, calc),
        )
        for line in grist.malts
    ]
    parts += [line.extract for line in grist.sugars if not line.sugar.into_fermenter]
    return calc(
        extract.brewhouse_efficiency,
        "brewhouse efficiency",
        extract_in_fermenter_kg=in_fermenter,
        potential_extract_kg=calc(extract.total_extract, "all that the grist could give", parts_kg=tuple(parts)),
    )
