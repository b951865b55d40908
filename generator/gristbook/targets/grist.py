"""Weights and extract: what each malt, sugar and extract brings to the kettle, by a balance of mass."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.equations import colour, extract, gravity, kettle, yield_units
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import share_of, sum_of
from gristbook.sheet.value import Value, apply, settled
from gristbook.targets.results import Grist, MaltFigures, SugarFigures
from gristbook.targets.roles import roles


@dataclass(frozen=True, slots=True)
class Weights:
    """The weight of each malt and each sugar (kg), in the recipe's order."""

    malts: tuple[Value, ...]
    sugars: tuple[Value, ...]


def by_shares(recipe: Recipe) -> bool:
    """Whether the grist is written in percentages, so that its weights have to be worked out."""
    return any(item.share is not None for item in _items(recipe))


def weigh(recipe: Recipe, brewhouse: Brewhouse, efficiency: Value | None, end_of_boil: Value) -> Weights:
    """The weights as written, or those that bring a grist of percentages to its target gravity at an efficiency.

    Raises
    ------
    ValueError
        Percentages without a target gravity, or a grist that brings no extract.
    """
    items = _items(recipe)
    if not by_shares(recipe):
        masses = tuple(item.mass for item in items if item.mass is not None)
        return Weights(masses[: len(recipe.malts)], masses[len(recipe.malts) :])
    if efficiency is None:
        raise Refusal("a grist of percentages needs an efficiency")
    needed = apply(
        kettle.extract_for_gravity,
        "extract needed in the kettle",
        gravity=wanted_gravity(recipe),
        batch_l=recipe.batch,
        end_of_boil_l=settled(end_of_boil),
        left_in_kettle_l=settled(brewhouse.left_in_kettle),
    )
    shares = tuple(item.share for item in items if item.share is not None)
    yields: list[Value | float] = [yield_of(item, brewhouse, efficiency) for item in items]
    whole = apply(
        extract.grist_mass,
        "whole grist",
        extract_kg=needed,
        shares=shares,
        yields=(*yields,),
    )
    solved: list[Value] = []
    for item, share in zip(items, shares, strict=True):
        mass = (whole * share).called(f"weight of {item.name}")
        solved.append(settled(mass))
    return Weights((*solved[: len(recipe.malts)],), (*solved[len(recipe.malts) :],))


def _malt_line(malt: Malt, mass: Value, part: Value, mass_in_all: Value, extract_in_all: Value) -> MaltFigures:
    return MaltFigures(
        malt,
        mass,
        part,
        malt_colour(malt.colour),
        _share(mass, mass_in_all, f"{malt.name}, share by weight"),
        _share(part, extract_in_all, f"{malt.name}, share by extract"),
    )


def _sugar_line(sugar: Sugar, mass: Value, part: Value, mass_in_all: Value, extract_in_all: Value) -> SugarFigures:
    return SugarFigures(
        sugar,
        mass,
        part,
        _share(mass, mass_in_all, f"{sugar.name}, share by weight"),
        _share(part, extract_in_all, f"{sugar.name}, share by extract"),
    )


def _share(part: Value, whole: Value, label: str) -> Value:
    return share_of(part, whole, label)


def wanted_gravity(recipe: Recipe) -> Value:
    """The gravity that a grist of percentages is to reach, also where the author wrote it in °P.

    Raises
    ------
    ValueError
        The recipe names none.
    """
    wanted = recipe.original_gravity
    if wanted is None:
        raise Refusal("a grist of percentages needs an original gravity to reach")
    if wanted.unit == "°P":
        return apply(gravity.gravity_from_plato, "original gravity wanted", extract=wanted)
    return wanted


def grist(recipe: Recipe, brewhouse: Brewhouse, efficiency: Value, weights: Weights) -> Grist:
    """Extract of each line, shares of the whole, and the extract in the kettle at the end of the boil.

    Raises
    ------
    ValueError
        Nothing in the recipe brings extract.
    """
    malts: list[tuple[Malt, Value, Value]] = [
        (malt, mass, _grain_extract(malt, mass, efficiency_of(malt, brewhouse, efficiency)))
        for malt, mass in zip(recipe.malts, weights.malts, strict=True)
    ]
    sugars: list[tuple[Sugar, Value, Value]] = [
        (sugar, mass, _dissolved(sugar, mass)) for sugar, mass in zip(recipe.sugars, weights.sugars, strict=True)
    ]
    masses = (*weights.malts, *weights.sugars)
    if not masses:
        raise Refusal("nothing in this recipe brings extract: no malts, no sugars, no extracts")
    mass_in_all = sum_of(masses, "whole grist")
    extract_in_all = sum_of((*(part for _, _, part in malts), *(part for _, _, part in sugars)), "all extract")
    in_kettle = tuple(part for _, _, part in malts) + tuple(part for s, _, part in sugars if not s.into_fermenter)
    if not in_kettle:
        raise Refusal("nothing in this recipe goes into the kettle")

    malt_lines = tuple(_malt_line(*line, mass_in_all, extract_in_all) for line in malts)
    sugar_lines = tuple(_sugar_line(*line, mass_in_all, extract_in_all) for line in sugars)
    return Grist(
        malt_lines,
        sugar_lines,
        _total(recipe.malts, weights.malts, False, "grain mashed"),
        _total(recipe.malts, weights.malts, True, "grain steeped"),
        sum_of(in_kettle, "extract in the kettle"),
        roles(malt_lines, sugar_lines),
    )


def _items(recipe: Recipe) -> tuple[Malt | Sugar, ...]:
    return (*recipe.malts, *recipe.sugars)


def malt_colour(written: Value) -> Value:
    """A malt's colour in °L, also where the author wrote it in EBC."""
    if written.unit == "°L":
        return written
    return apply(colour.lovibond_from_malt_ebc, written.label, colour=written)


def potential(item: Malt | Sugar) -> Value:
    """Extract as-is: fine grind, dry basis, less the moisture, or as the author told it in points or litre-degrees."""
    told, label = item.extract_dry, f"potential of {item.name}"
    if told.unit == "points·gal/lb":
        return apply(yield_units.potential_from_points_per_pound_gallon, label, points_per_pound_gallon=told)
    if told.unit == "L°/kg":
        return apply(yield_units.potential_from_litre_degrees_per_kg, label, litre_degrees_per_kg=told)
    return apply(
        extract.as_is_potential,
        label,
        fine_grind_dry_basis=item.extract_dry,
        moisture=item.moisture,
    )


def efficiency_of(malt: Malt, brewhouse: Brewhouse, mash_efficiency: Value) -> Value:
    """What the brewhouse gets out of a malt: by the mash, or by steeping."""
    return brewhouse.steep_yield if malt.steep else mash_efficiency


def yield_of(item: Malt | Sugar, brewhouse: Brewhouse, efficiency: Value) -> Value | float:
    """Extract that a kilogram of a line brings to the kettle (kg)."""
    if isinstance(item, Sugar):
        return 0.0 if item.into_fermenter else potential(item)
    return (potential(item) * efficiency_of(item, brewhouse, efficiency)).called(f"yield of {item.name}")


def _grain_extract(malt: Malt, mass: Value, efficiency: Value) -> Value:
    return (mass * potential(malt) * efficiency).called(f"extract of {malt.name}")


def _dissolved(sugar: Sugar, mass: Value) -> Value:
    return (mass * potential(sugar)).called(f"extract of {sugar.name}")


def _total(malts: tuple[Malt, ...], masses: tuple[Value, ...], steeped: bool, label: str) -> Value | None:
    parts = tuple(mass for malt, mass in zip(malts, masses, strict=True) if (malt.steep is not None) == steeped)
    return sum_of(parts, label) if parts else None
