"""Sizing keeps what makes the beer and solves again what does not scale.

Specialty malts, sugars, and late, stand and dry hops go by weight per litre of batch; base malt is solved for the
original gravity and the longest boil addition for the total bitterness; efficiency, losses, boil-off, strike and pitch
come from the brewhouse it is sized for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import floor, inf

from gristbook.equations import boiling, density, extract, hopping, kettle, runnings, scaling
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Extra, Hop, Malt, Recipe, Sugar, Yeast
from gristbook.targets.chain import work_out
from gristbook.targets.conventions import USABLE
from gristbook.targets.figures import Plan
from gristbook.targets.grist import Weights, by_shares, efficiency_of, potential
from gristbook.targets.roles import role
from gristbook.targets.volumes import late_volume, planned_end_of_boil, planned_start
from gristbook.worksheet import Value, apply, given, settled

ROUNDS = 40
"""Efficiency and weight settle each other in a few rounds; these are plenty."""


def sized(
    home: Recipe, plan: Plan, brewhouse: Brewhouse, batch: Value, *, by_extract: bool = False
) -> tuple[Recipe, tuple[str, ...]]:
    """A recipe for another batch and brewhouse, and what could not be kept, in words.

    Parameters
    ----------
    home : the recipe as it is brewed at home, or one swapped from it, in the home batch
    plan : the home plan, whose gravity and bitterness are kept
    by_extract : malt extract gives way to reach the gravity, and not the base malt

    Raises
    ------
    ValueError
        The brewhouse cannot make this beer at all.
    """
    recipe = replace(
        home,
        brewhouse=brewhouse.name,
        batch=batch,
        kettle=_partial_boil(home, brewhouse, batch),
        malts=tuple(replace(malt, mass=_scaled(malt.mass, malt.name, home, batch)) for malt in home.malts),
        sugars=tuple(replace(sugar, mass=_scaled(sugar.mass, sugar.name, home, batch)) for sugar in home.sugars),
        hops=tuple(replace(hop, mass=_grams(hop.mass, hop.name, home, batch)) for hop in home.hops),
        yeasts=tuple(_yeast(yeast, home, batch) for yeast in home.yeasts),
        mash=tuple(replace(step, water=None) for step in home.mash),
        extras=tuple(_extra(extra, home, batch) for extra in home.extras),
        expectations=(),
    )
    if not by_shares(recipe):
        recipe = _base_for_gravity(recipe, plan, brewhouse, by_extract)
    return _hops_for_bitterness(recipe, plan, brewhouse)


def _scaled(mass: Value | None, name: str, home: Recipe, batch: Value) -> Value | None:
    if mass is None:
        return None
    label = f"weight of {name}"
    return settled(apply(scaling.scaled_mass, label, mass_kg=mass, batch_l=batch, from_l=home.batch))


def _grams(mass: Value | None, name: str, home: Recipe, batch: Value) -> Value | None:
    if mass is None:
        return None
    label = f"weight of {name}"
    return settled(apply(scaling.scaled_grams, label, mass_g=mass, batch_l=batch, from_l=home.batch))


def _yeast(yeast: Yeast, home: Recipe, batch: Value) -> Yeast:
    """Dried yeast by weight per litre; packs are counted anew from the cells that this wort wants."""
    if yeast.amount is None or yeast.amount.unit != "g":
        return replace(yeast, amount=None)
    return replace(yeast, amount=_grams(yeast.amount, yeast.name, home, batch))


def _extra(extra: Extra, home: Recipe, batch: Value) -> Extra:
    amount = extra.amount
    if amount is None or amount.unit not in ("kg", "L"):
        return extra
    label = f"amount of {extra.name}"
    if amount.unit == "kg":
        scaled = apply(scaling.scaled_mass, label, mass_kg=amount, batch_l=batch, from_l=home.batch)
    else:
        scaled = apply(scaling.scaled_volume, label, volume_l=amount, batch_l=batch, from_l=home.batch)
    return replace(extra, amount=scaled, written="")


def _partial_boil(home: Recipe, brewhouse: Brewhouse, batch: Value) -> Value | None:
    """A partial boil stays one, in proportion; a whole boil that the pot cannot hold becomes one, if nothing is mashed.

    Raises
    ------
    ValueError
        A mash whose whole wort the pot cannot boil.
    """
    label = "wort at the start of the boil"
    usable = _usable_l(brewhouse)
    if home.kettle is not None:
        scaled = apply(scaling.scaled_volume, label, volume_l=home.kettle, batch_l=batch, from_l=home.batch)
        return settled(scaled) if scaled.number <= usable else _pot(usable, label, brewhouse)
    hours = home.boil.number / 60
    whole = batch.number + brewhouse.left_in_kettle.number + brewhouse.boil_off.number * hours
    if whole <= usable:
        return None
    if any(malt.steep is None for malt in home.malts):
        raise ValueError(f"its pot boils {usable:.1f} L at most, and {whole:.1f} L of wort would have to be boiled")
    return _pot(usable, label, brewhouse)


def _usable_l(brewhouse: Brewhouse) -> float:
    """Cool wort that a pot may boil: it swells in the heat, and a fifth of the pot is left to the foam."""
    if brewhouse.kettle is None:
        return inf
    boiling_c = boiling.boiling_point(altitude=brewhouse.altitude.number)
    return USABLE * brewhouse.kettle.number / density.hot_volume(cool_l=1.0, temperature=boiling_c)


def _pot(usable_l: float, label: str, brewhouse: Brewhouse) -> Value:
    whole_halves = floor(2 * usable_l) / 2
    return given(whole_halves, "L", label, origin=f"what the pot of {brewhouse.name} boils without climbing out of it")


def _base_for_gravity(recipe: Recipe, plan: Plan, brewhouse: Brewhouse, by_extract: bool) -> Recipe:
    """Base malt (or, without any, the malt extract or all that ferments) weighed so that the gravity is kept."""
    solve_for = _what_gives_way(recipe, by_extract)
    target = settled(plan.figures.wort.original)
    end = planned_end_of_boil(recipe, brewhouse, _late_l(recipe), apply)
    needed = apply(
        kettle.extract_for_gravity,
        "extract needed in the kettle",
        gravity=target,
        batch_l=recipe.batch,
        end_of_boil_l=settled(end),
        left_in_kettle_l=brewhouse.left_in_kettle,
    )
    start = planned_start(recipe, brewhouse, end, 0.0, apply)
    efficiency = _efficiency(recipe, brewhouse, needed.number, start.number, solve_for)
    fixed = [item for item in _in_kettle(recipe) if not solve_for(item)]
    giving = [item for item in _in_kettle(recipe) if solve_for(item)]
    rest = needed
    if fixed:
        parts = tuple(_brought(item, brewhouse, efficiency) for item in fixed)
        rest = apply(scaling.remaining_extract, "extract left for the base malt", extract_kg=needed, parts_kg=parts)
    whole = sum(item.mass.number for item in giving if item.mass is not None)
    shares = tuple(item.mass.number / whole for item in giving if item.mass is not None)
    grist = apply(
        extract.grist_mass,
        "base malt in all",
        extract_kg=rest,
        shares=shares,
        yields=tuple(_yield(item, brewhouse, efficiency) for item in giving),
    )
    solved = {
        id(item): settled(apply(extract.share_of_grist, f"weight of {item.name}", grist_kg=grist, share=share))
        for item, share in zip(giving, shares, strict=True)
    }
    return replace(
        recipe,
        malts=tuple(replace(malt, mass=solved.get(id(malt), malt.mass)) for malt in recipe.malts),
        sugars=tuple(replace(sugar, mass=solved.get(id(sugar), sugar.mass)) for sugar in recipe.sugars),
    )


def _late_l(recipe: Recipe) -> Value | float:
    """What malt extract stirred in late adds to a partial boil, by the weights scaled so far."""
    weights: Weights[Value] = Weights(
        tuple(malt.mass for malt in recipe.malts if malt.mass is not None),
        tuple(sugar.mass for sugar in recipe.sugars if sugar.mass is not None),
    )
    late = late_volume(recipe, weights, apply)
    return late if recipe.kettle is not None else 0.0


def _in_kettle(recipe: Recipe) -> list[Malt | Sugar]:
    return [*recipe.malts, *(sugar for sugar in recipe.sugars if not sugar.into_fermenter)]


def _what_gives_way(recipe: Recipe, by_extract: bool) -> Callable[[Malt | Sugar], bool]:
    """Base malt gives way to reach the gravity; without any, malt extract; without that, everything."""

    def base(item: Malt | Sugar) -> bool:
        return isinstance(item, Malt) and item.steep is None and role(item) == "base"

    def malt_extract(item: Malt | Sugar) -> bool:
        return isinstance(item, Sugar) and item.from_malt

    for chosen in (malt_extract, base) if by_extract else (base, malt_extract):
        if any(chosen(item) for item in _in_kettle(recipe)):
            return chosen
    return lambda item: True


def _efficiency(
    recipe: Recipe,
    brewhouse: Brewhouse,
    needed_kg: float,
    run_off_l: float,
    solve_for: Callable[[Malt | Sugar], bool],
) -> Value:
    """The efficiency that a bag settles at when its base malt has been weighed for it; else the brewhouse's own."""
    if brewhouse.efficiency is not None:
        return brewhouse.efficiency
    items = [(item, item.mass.number) for item in _in_kettle(recipe) if item.mass is not None]
    factor, efficiency = 1.0, brewhouse.conversion.number
    for _ in range(ROUNDS):
        grain = sum(
            mass * (factor if solve_for(item) else 1.0)
            for item, mass in items
            if isinstance(item, Malt) and item.steep is None
        )
        efficiency = brewhouse.conversion.number * runnings.lauter_efficiency_without_sparge(
            grain_kg=grain, absorption=brewhouse.absorption.number, run_off_l=run_off_l
        )
        at = Value(efficiency, "fraction", "mash efficiency at this load")
        fixed = sum(_brought(item, brewhouse, at).number for item, _ in items if not solve_for(item))
        giving = sum(_brought(item, brewhouse, at).number for item, _ in items if solve_for(item))
        factor = max((needed_kg - fixed) / giving, 0.0) if giving > 0 else 1.0
    return Value(efficiency, "fraction", "mash efficiency at this load")


def _yield(item: Malt | Sugar, brewhouse: Brewhouse, efficiency: Value) -> Value:
    held = potential(item, apply)
    if isinstance(item, Sugar):
        return held
    label = f"yield of {item.name}"
    own = efficiency_of(item, brewhouse, efficiency)
    return apply(extract.effective_yield, label, potential=held, efficiency=own)


def _brought(item: Malt | Sugar, brewhouse: Brewhouse, efficiency: Value) -> Value:
    """Extract that an ingredient of a known weight brings to the kettle (kg)."""
    if item.mass is None:
        raise ValueError(f"{item.name} has no weight")
    label = f"extract of {item.name}"
    return apply(extract.dissolved_extract, label, mass_kg=item.mass, potential=_yield(item, brewhouse, efficiency))


def _hops_for_bitterness(recipe: Recipe, plan: Plan, brewhouse: Brewhouse) -> tuple[Recipe, tuple[str, ...]]:
    """The longest boil addition weighed so that the total bitterness is kept; else the drift in words."""
    boiled = [hop for hop in recipe.hops if hop.use in ("boil", "first wort")]
    longest = max(boiled, key=lambda hop: _time(hop, recipe), default=None)
    trial = work_out(recipe, brewhouse, plan.bitterness_model, plan.colour_model, apply)
    if longest is None:
        return recipe, ()
    total = settled(plan.figures.bitterness.total)
    others = [line.bitterness for line in trial.bitterness.hops if line.hop is not longest]
    others += [line.bitterness for line in trial.bitterness.kits]
    if total.number - sum(other.number for other in others) <= 0:
        return recipe, ("The late hops bring all the bitterness here, and more: it is bitterer than the recipe.",)
    besides = apply(hopping.total_bitterness, "bitterness of the other hops", parts=tuple(others))
    wanted = settled(
        apply(kettle.gained_bitterness, f"bitterness wanted of {longest.name}", after=total, before=besides)
    )
    hops = tuple(replace(hop, mass=None, bitterness=wanted) if hop is longest else hop for hop in recipe.hops)
    return replace(recipe, hops=hops), ()


def _time(hop: Hop, recipe: Recipe) -> float:
    return recipe.boil.number if hop.minutes is None else hop.minutes.number
