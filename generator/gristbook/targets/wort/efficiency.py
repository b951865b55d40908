"""Mash efficiency: as the author knows it or, for a bag without a sparge, from the wort that runs off the grain."""

from __future__ import annotations

from gristbook.equations import extract, kettle, runnings
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply
from gristbook.targets.wort.grist import Weights, by_shares, potential, wanted_gravity
from gristbook.targets.wort.small_mash import efficiency_of, is_small
from gristbook.targets.wort.volumes import joins_late

LAUTER = "share of the dissolved extract that runs off"

ROUNDS = 60
"""More than enough: each round of the settling below brings the weight ten times nearer."""


def by_load(recipe: Recipe, brewhouse: Brewhouse, weights: Weights, run_off: Value) -> Value:
    """The efficiency of a grist whose weights are known; the heavier it is, the more extract stays in it."""
    if is_small(recipe, brewhouse):
        return efficiency_of(brewhouse)
    if brewhouse.efficiency is not None:
        return brewhouse.efficiency
    mashed = tuple(mass for malt, mass in zip(recipe.malts, weights.malts, strict=True) if malt.steep is None)
    if not mashed:
        return brewhouse.conversion
    return _from(sum_of(mashed, "grain mashed"), brewhouse, run_off)


def for_shares(recipe: Recipe, brewhouse: Brewhouse, end_of_boil: Value, run_off: Value) -> Value:
    """The efficiency of a grist of percentages, which rests on its weight, which rests on its efficiency."""
    if is_small(recipe, brewhouse):
        return efficiency_of(brewhouse)
    if brewhouse.efficiency is not None:
        return brewhouse.efficiency
    return _from(_settled_grain_kg(recipe, brewhouse, end_of_boil, run_off), brewhouse, run_off)


def late_shares(recipe: Recipe, brewhouse: Brewhouse) -> bool:
    """Whether malt extract of unknown weight joins the boil late, and the efficiency goes by the load."""
    late = any(sugar.from_malt and joins_late(sugar, recipe) for sugar in recipe.sugars)
    return brewhouse.efficiency is None and by_shares(recipe) and late


def _from(grain: Value | float, brewhouse: Brewhouse, run_off: Value) -> Value:
    return (
        brewhouse.conversion
        * apply(
            runnings.lauter_efficiency_without_sparge,
            LAUTER,
            grain_kg=grain,
            absorption=brewhouse.absorption,
            run_off_l=run_off,
        )
    ).called("mash efficiency")


def _settled_grain_kg(recipe: Recipe, brewhouse: Brewhouse, end_of_boil: Value, run_off: Value) -> float:
    """The weight of mashed grain that, at the efficiency which it brings about, reaches the gravity wanted."""
    needed = kettle.extract_for_gravity(
        gravity=wanted_gravity(recipe).number,
        batch_l=recipe.batch.number,
        end_of_boil_l=end_of_boil.number,
        left_in_kettle_l=brewhouse.left_in_kettle.number,
    )
    items: tuple[Malt | Sugar, ...] = (*recipe.malts, *recipe.sugars)
    shares = tuple(item.share.number for item in items if item.share is not None)
    mashed_share = sum(malt.share.number for malt in recipe.malts if malt.share is not None and malt.steep is None)
    yields = tuple(potential(item).number for item in items)
    grain_kg = before_kg = 0.0
    for _ in range(ROUNDS):
        before_kg = grain_kg
        lauter = runnings.lauter_efficiency_without_sparge(
            grain_kg=grain_kg, absorption=brewhouse.absorption.number, run_off_l=run_off.number
        )
        efficiency = brewhouse.conversion.number * lauter
        whole = extract.grist_mass(
            extract_kg=needed,
            shares=shares,
            yields=tuple(y * (efficiency if i < len(recipe.malts) else 1.0) for i, y in enumerate(yields)),
        )
        grain_kg = whole * mashed_share
    if grain_kg > (1 + 1e-6) * before_kg:
        wanted = wanted_gravity(recipe).number
        raise Refusal(f"no weight of malt reaches {wanted:.3f}: the more of it there is, the more of its wort it keeps")
    return grain_kg
