"""Weights and extract: what each malt, sugar and extract brings to the kettle, by a balance of mass."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from gristbook.equations import colour, extract, gravity, kettle, yield_units
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less, share_of, sum_of
from gristbook.sheet.value import Value, apply, settled
from gristbook.targets.conventions import GRAIN_GIVES, carried_out
from gristbook.targets.results import Grist, MaltFigures, SugarFigures
from gristbook.targets.wort.roles import roles


@dataclass(frozen=True, slots=True)
class Weights:
    """The weight of each malt and each sugar (kg), in the recipe's order."""

    malts: tuple[Value, ...]
    sugars: tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class Efficiency:
    """What comes out of the mash: the product of the share that dissolves and, of grain, the share that runs off.

    ``grain`` is what is mashed (kg), ``water`` what its first rest has before a sparge, ``absorbed`` what it keeps (L).
    """

    mash: Value
    conversion: Value
    lauter: Value | None
    grain: Value | None = None
    water: Value | None = None
    absorbed: Value | None = None


def by_shares(recipe: Recipe) -> bool:
    """Whether the grist is written in percentages, so that its weights have to be worked out."""
    return any(item.share is not None for item in _items(recipe))


def weigh(recipe: Recipe, brewhouse: Brewhouse, efficiency: Value | None, end_of_boil: Value) -> Weights:
    """The weights as written, or those that bring a grist of percentages to its target gravity at an efficiency.

    Raises
    ------
    Refusal
        Percentages without a target gravity, or a grist that brings no extract.
    """
    items = _items(recipe)
    if not by_shares(recipe):
        return _in_order(recipe, (item.mass for item in items))
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
    if fruit := fruit_in_kettle(recipe):
        label = "extract that the grist brings"
        needed = less(needed, *fruit, left="what is left for the grist", label=label, some=True)
    shared = [item for item in items if item.share is not None]
    shares = tuple(item.share for item in shared if item.share is not None)
    yields = tuple(yield_of(item, brewhouse, efficiency) for item in shared)
    whole = apply(extract.grist_mass, "whole grist", extract_kg=needed, shares=shares, yields=yields)
    return _in_order(
        recipe,
        (
            settled((whole * item.share).called(f"weight of {item.name}")) if item.share is not None else item.mass
            for item in items
        ),
    )


def _in_order(recipe: Recipe, masses: Iterable[Value | None]) -> Weights:
    found = tuple(mass for mass in masses if mass is not None)
    return Weights(found[: len(recipe.malts)], found[len(recipe.malts) :])


def weight_of(item: Malt | Sugar) -> Value:
    """The weight that a line says (kg).

    Raises
    ------
    Refusal
        It has none.
    """
    if item.mass is None:
        raise Refusal(f"{item.name} has no weight")
    return item.mass


def fruit_in_kettle(recipe: Recipe) -> tuple[Value, ...]:
    """Extract that fruit brings to the kettle (kg): it has a weight also in a grist of percentages."""
    return tuple(
        (sugar.mass * potential(sugar)).called(f"extract of {sugar.name}")
        for sugar in recipe.sugars
        if sugar.flesh is not None and sugar.mass is not None and not sugar.into_fermenter
    )


def wanted_gravity(recipe: Recipe) -> Value:
    """The gravity that a grist of percentages is to reach, also where the author wrote it in °P.

    Raises
    ------
    Refusal
        The recipe names none.
    """
    wanted = recipe.original_gravity
    if wanted is None:
        raise Refusal("a grist of percentages needs an original gravity to reach")
    return as_gravity(wanted, "original gravity wanted")


def as_gravity(written: Value, label: str) -> Value:
    """A gravity, also where the author wrote it in °P."""
    return apply(gravity.gravity_from_plato, label, extract=written) if written.unit == "°P" else written


def grist(recipe: Recipe, brewhouse: Brewhouse, efficiency: Efficiency, weights: Weights) -> Grist:
    """Extract of each line, shares of the whole, and the extract in the kettle at the end of the boil.

    Raises
    ------
    Refusal
        Nothing in the recipe brings extract.
    """
    items, masses = _items(recipe), (*weights.malts, *weights.sugars)
    if not masses:
        raise Refusal("nothing in this recipe brings extract: no malts, no sugars, no extracts")
    extracts = tuple(_brings(it, mass, brewhouse, efficiency.mash) for it, mass in zip(items, masses, strict=True))
    in_kettle = tuple(part for item, part in zip(items, extracts, strict=True) if not _joins_later(item))
    if not in_kettle:
        raise Refusal("nothing in this recipe goes into the kettle")
    by, compared = "by weight", tuple(map(_in_the_grist, items, masses, extracts))
    if any(sugar.from_malt for sugar in recipe.sugars):
        by = "as grain"
    mass_in_all, extract_in_all = sum_of(compared, "whole grist"), sum_of(extracts, "all extract")
    malts: list[MaltFigures] = []
    sugars: list[SugarFigures] = []
    for item, mass, weight, part in zip(items, masses, compared, extracts, strict=True):
        by_weight = share_of(weight, mass_in_all, f"{item.name}, share {by}")
        by_extract = share_of(part, extract_in_all, f"{item.name}, share by extract")
        if isinstance(item, Malt):
            malts.append(MaltFigures(item, mass, part, malt_colour(item.colour), by_weight, by_extract))
        else:
            sugars.append(SugarFigures(item, mass, part, by_weight, by_extract))
    steeped = [line.mass for line in malts if line.malt.steep is not None]
    return Grist(
        tuple(malts),
        tuple(sugars),
        efficiency.grain,
        sum_of(steeped, "grain steeped") if steeped else None,
        sum_of(in_kettle, "extract in the kettle"),
        roles(tuple(malts), tuple(sugars)),
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
    if isinstance(item, Sugar) and item.flesh is not None:
        return told  # of the fruit as it is weighed
    if told.unit == "points·gal/lb":
        return apply(yield_units.potential_from_points_per_pound_gallon, label, points_per_pound_gallon=told)
    if told.unit == "L°/kg":
        return apply(yield_units.potential_from_litre_degrees_per_kg, label, litre_degrees_per_kg=told)
    return apply(extract.as_is_potential, label, fine_grind_dry_basis=told, moisture=item.moisture)


def could_give(line: MaltFigures) -> Value:
    """All the extract that is in a malt, as much of it as there is (kg)."""
    return (as_weighed(line.mass, line.malt) * potential(line.malt)).called(f"all that {line.malt.name} could give")


def as_weighed(mass: Value, item: Malt | Sugar) -> Value:
    """A weight as the scale gives it, anew for each line."""
    return carried_out(mass, {f"weighing of {item.name}, line {item.place.line}": "weight"})


def efficiency_of(malt: Malt, brewhouse: Brewhouse, mash_efficiency: Value) -> Value:
    """What the brewhouse gets out of a malt: by the mash, or by steeping."""
    return brewhouse.steep_yield if malt.steep else mash_efficiency


def yield_of(item: Malt | Sugar, brewhouse: Brewhouse, efficiency: Value) -> Value | float:
    """Extract that a kilogram of a line brings to the kettle (kg)."""
    if isinstance(item, Sugar):
        return 0.0 if item.into_fermenter else potential(item)
    return (potential(item) * efficiency_of(item, brewhouse, efficiency)).called(f"yield of {item.name}")


def _brings(item: Malt | Sugar, mass: Value, brewhouse: Brewhouse, efficiency: Value) -> Value:
    """What it brings to the wort (kg): a sugar all of its extract, a malt what the brewhouse gets out of it."""
    whole = as_weighed(mass, item) * potential(item)
    brought = whole * efficiency_of(item, brewhouse, efficiency) if isinstance(item, Malt) else whole
    return brought.called(f"extract of {item.name}")


def _in_the_grist(item: Malt | Sugar, mass: Value, extract: Value) -> Value:
    """The weight of grain that a malt extract stands for, the sugar of a fruit; the weight of anything else."""
    if isinstance(item, Sugar) and item.flesh is not None:
        return extract
    if isinstance(item, Malt) or not item.from_malt:
        return mass
    return (extract / GRAIN_GIVES).called(f"grain that {item.name} stands for")


def _joins_later(item: Malt | Sugar) -> bool:
    return isinstance(item, Sugar) and item.into_fermenter
