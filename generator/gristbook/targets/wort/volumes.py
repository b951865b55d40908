"""The volume chain: from the wort at the start of the boil to the beer that is packaged."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from gristbook.equations import boiling, density
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.moment import BeforePackaging
from gristbook.model.recipe import Recipe, Sugar
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less, sum_of
from gristbook.sheet.value import Value, apply, number, settled
from gristbook.targets.conventions import (
    DRIED_EXTRACT_VOLUME,
    DRY_HOPS_KEEP,
    LIQUID_EXTRACT_VOLUME,
    PULP_KEEPS,
    SOAKED_FRUIT_KEEPS,
    SUGAR_ROOM,
    WATER_ROOM,
    carried_out,
)
from gristbook.targets.hops.dried import as_dried
from gristbook.targets.results import Volumes


def planned_end_of_boil(recipe: Recipe, brewhouse: Brewhouse, late_l: Value) -> Value:
    """Wort wanted in the kettle at the end of the boil: what the batch needs, or what a partial boil leaves.

    ``late_l`` is what malt extract stirred in during the boil adds.
    """
    label = "wort at the end of the boil, as planned"
    if recipe.kettle is None:
        return (recipe.batch + brewhouse.left_in_kettle).called(label)
    return boiled_down(recipe.kettle, brewhouse.boil_off, recipe.boil, late_l, label)


def boiled_down(start: Value, boil_off: Value, boiled: Value, late_l: Value, label: str) -> Value:
    """Wort in the kettle some minutes into the boil, as cool wort (L).

    Raises
    ------
    Refusal
        A kettle that boils dry.
    """
    steam = (boil_off * boiled).called("water that steams away")
    held = start + late_l if late_l.number else start
    if held.number <= steam.number:
        raise Refusal(f"the kettle boils dry: {steam.number:.3g} L would steam away of {held.number:.3g} L of wort")
    return (held - steam).called(label)


def late_volume(recipe: Recipe, sugars: Iterable[tuple[Sugar, Value]], before_the_end: float = 0.0) -> Value:
    """What malt extract and fruit stirred in during the boil, up to some minutes before its end, add to the wort (L).

    ``sugars`` are the recipe's, each with its weight (kg).
    """
    parts = (
        dissolved_volume(sugar, mass)
        for sugar, mass in sugars
        if joins_late(sugar, recipe) and number(sugar.minutes or 0.0) >= before_the_end and takes_room(sugar)
    )
    return sum_of(parts, "volume of what is stirred in late", "L")


def dissolved_volume(sugar: Sugar, mass: Value) -> Value:
    """Room that a malt extract, or the juice of a fruit, takes in the wort (L)."""
    if sugar.flesh is not None:
        room = sugar.flesh.water * WATER_ROOM + sugar.extract_dry * SUGAR_ROOM
        return (mass * room).called(f"volume of {sugar.name}")
    room = LIQUID_EXTRACT_VOLUME if sugar.kind == "liquid" else DRIED_EXTRACT_VOLUME
    return (mass * room).called(f"volume of {sugar.name}")


def takes_room(sugar: Sugar) -> bool:
    """Whether it adds to the volume; what other sugars add is left out, as too little."""
    return sugar.from_malt or sugar.flesh is not None


def with_pulp(brewhouse: Brewhouse, recipe: Recipe) -> Brewhouse:
    """The brewhouse, whose kettle keeps also what the pulp of fruit in it does."""
    kept = _pulp_keeps(recipe, in_fermenter=False)
    if not kept:
        return brewhouse
    left = sum_of((brewhouse.left_in_kettle, *kept), "left in the kettle, with the pulp")
    return replace(brewhouse, left_in_kettle=left)


def _pulp_keeps(recipe: Recipe, *, in_fermenter: bool) -> list[Value]:
    return [
        (sugar.mass * (SOAKED_FRUIT_KEEPS if sugar.kind == "dried fruit" else PULP_KEEPS)).called(
            f"what the pulp of {sugar.name} keeps"
        )
        for sugar in recipe.sugars
        if sugar.flesh is not None and sugar.mass is not None and sugar.into_fermenter == in_fermenter
        if sugar.kind != "juice"
    ]


def early_room(recipe: Recipe, masses: Iterable[Value]) -> Value | None:
    """Room that malt extract and juice take which are in the kettle as the boil begins (L), `None` where none is.

    ``masses`` are what the recipe's sugars weigh (kg), in their order.
    """
    parts = tuple(
        dissolved_volume(sugar, mass)
        for sugar, mass in zip(recipe.sugars, masses, strict=True)
        if takes_room(sugar) and not sugar.into_fermenter and not joins_late(sugar, recipe)
    )
    return sum_of(parts, "volume of what is stirred in at the start") if parts else None


def boils_at(altitude: Value | float) -> Value:
    """Where water boils, so many metres above the sea (°C)."""
    return apply(boiling.boiling_point, "boiling point of water", altitude=altitude)


def reaches_fermenter(part: Value, volumes: Volumes, label: str) -> Value:
    """What of a thing in the kettle leaves it with the wort."""
    end, lost = volumes.end_of_boil, volumes.left_in_kettle
    leaves = less(end, lost, left="what is left of a volume", label="wort that leaves the kettle")
    return (part * (leaves / end)).called(label)


def is_thinned(volumes: Volumes) -> bool:
    """Whether water or fruit joins the wort in the fermenter."""
    return volumes.top_up is not None or volumes.fruit is not None


def thinned(strength: Value, volumes: Volumes, label: str) -> Value:
    """How strong a thing in the kettle's wort is behind top-up and fruit; as it was where there is neither."""
    if not is_thinned(volumes):
        return strength
    end, lost = volumes.end_of_boil, volumes.left_in_kettle
    from_kettle = less(end, lost, left="what is left of a volume", label="wort from the kettle")
    return (strength * (from_kettle / volumes.fermenting)).called(label)


def joins_late(sugar: Sugar, recipe: Recipe) -> bool:
    """Whether a sugar or an extract joins the wort while it boils."""
    return not sugar.into_fermenter and sugar.minutes is not None and sugar.minutes.number < recipe.boil.number


def planned_start(recipe: Recipe, brewhouse: Brewhouse, planned_end: Value, late_l: Value) -> Value:
    """Wort at the start of the boil: a partial boil's as written, else what the plan's end and boil-off ask for."""
    if recipe.kettle is not None:
        return recipe.kettle
    before = settled(planned_end)
    if late_l.number:
        before = settled(
            less(before, late_l, left="what is left of a volume", label="wort at the end without late extract")
        )
    return settled((before + brewhouse.boil_off * recipe.boil).called("wort at the start of the boil"))


def volume_chain(recipe: Recipe, brewhouse: Brewhouse, planned_end: Value, late_l: Value) -> Volumes:
    """Every volume of the brew.

    The brewer fills the kettle and pours in the top-up as planned, as well as marks and eyes allow; from there on the
    boil-off takes what it takes, and its doubt is the doubt of every later volume.

    Raises
    ------
    Refusal
        A kettle that boils dry, gives more than the batch, or gives nothing to the fermenter.
    """
    start = carried_out(
        planned_start(recipe, brewhouse, planned_end, late_l),
        {marks_of(brewhouse.name): "marks", "wort at the start of the boil, as it is read": "filled"},
    )
    end = boiled_down(start, brewhouse.boil_off, recipe.boil, late_l, "wort at the end of the boil")
    top_up = _top_up(recipe, brewhouse, end)
    into = less(
        end if top_up is None else end + carried_out(top_up, {"top-up water, as it is poured": "poured"}),
        brewhouse.left_in_kettle,
        left="the wort that reaches the fermenter",
        label="wort into the fermenter",
        some=True,
    )
    juice = [
        dissolved_volume(sugar, sugar.mass)
        for sugar in recipe.sugars
        if sugar.flesh is not None and sugar.mass is not None and sugar.into_fermenter
    ]
    fruit = sum_of(juice, "what the fruit adds in the fermenter") if juice else None
    fermenting = (into + fruit).called("beer with the fruit in the fermenter") if fruit is not None else into
    boiling_c = boils_at(brewhouse.altitude)
    return Volumes(
        recipe.batch,
        start,
        apply(density.hot_volume, "wort at the start of the boil, hot", cool_l=start, temperature=boiling_c),
        end,
        apply(density.hot_volume, "wort at the end of the boil, hot", cool_l=end, temperature=boiling_c),
        brewhouse.left_in_kettle,
        top_up,
        into,
        fruit,
        fermenting,
        _packaged(recipe, brewhouse, fermenting),
    )


def marks_of(brewhouse: str) -> str:
    """The doubt that all that is read off the marks of a brewhouse's kettle has in common."""
    return f"marks of the kettle of {brewhouse}"


def _top_up(recipe: Recipe, brewhouse: Brewhouse, end: Value) -> Value | None:
    if recipe.kettle is None:
        return None
    from_kettle = less(end, brewhouse.left_in_kettle, left="the wort that leaves the kettle", some=True)
    most, batch = from_kettle.number, recipe.batch
    if most > batch.number:
        raise Refusal(f"the kettle gives {most:.3g} L, more than the batch of {batch.number:.3g} L")
    return settled((batch - from_kettle).called("top-up water"))


def _packaged(recipe: Recipe, brewhouse: Brewhouse, into: Value) -> Value:
    gone = [brewhouse.left_in_fermenter, *_pulp_keeps(recipe, in_fermenter=True)]
    lying = (hop for hop in recipe.hops if isinstance(hop.use, BeforePackaging))
    dry = tuple(as_dried(hop, hop.mass) for hop in lying if hop.mass is not None)
    if dry:
        gone.append((sum_of(dry, "dry hops") * DRY_HOPS_KEEP).called("beer that the dry hops keep"))
    stays = sum(it.number for it in gone)
    if stays >= into.number:
        raise Refusal(
            f"{stays:.3g} L stay behind in the fermenter of {brewhouse.name}: nothing of {into.number:.3g} L would "
            "be left to package"
        )
    return less(into, *gone, left="the beer left to package", label="beer to package", some=True)
