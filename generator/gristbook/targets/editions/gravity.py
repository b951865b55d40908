"""Weights that reach the original gravity of the recipe in another brewhouse: what gives way, and by how much."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeVar

from gristbook.equations import extract, kettle
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less
from gristbook.sheet.value import Value, apply, given, settled
from gristbook.targets.editions.pot import SYRUP, boiled, late_l
from gristbook.targets.efficiency import by_load
from gristbook.targets.grist import Weights, efficiency_of, potential
from gristbook.targets.roles import role
from gristbook.targets.volumes import planned_end_of_boil, planned_start

W = TypeVar("W", Malt, Sugar)

ROUNDS = 400
"""Weight, efficiency and pot settle each other: as a rule in ten rounds, in a crammed bag in some hundred."""
SETTLED = 1e-12
RUNAWAY = 1e4
"""Times its first weight, at which a grist will not settle any more."""
IN_ROUNDS = "weight, efficiency and pot depend on each other, and are settled round by round"

Chooser = Callable[[Malt | Sugar], bool]


@dataclass(frozen=True, slots=True)
class Aim:
    """What is to be kept: the gravity, and the part of the batch that a partial boil at home brings from the kettle.

    ``gives_way`` picks the lines whose weight is free.
    """

    gravity: Value
    part: Value | None
    home_l: Value
    gives_way: Chooser


def base_first(recipe: Recipe) -> Chooser:
    """Base malt gives way; without any, malt extract; without that, all that goes into the kettle."""
    return _first_of(recipe, _base, _unhopped(recipe), _extract)


def extract_first(recipe: Recipe) -> Chooser:
    """Malt extract gives way, and without any, base malt."""
    return _first_of(recipe, _unhopped(recipe), _extract, _base)


def everything(item: Malt | Sugar) -> bool:
    """A grist of percentages gives way as a whole, so that its shares stay."""
    return True


def weighed(recipe: Recipe, brewhouse: Brewhouse, aim: Aim) -> Recipe:
    """The recipe with weights, and with a boil that fits the pot, which reach the gravity.

    Raises
    ------
    ValueError
        No weights do; the words say which bound they met.
    """
    trial = _settled_in(recipe, brewhouse, aim)
    _check_strength(trial, brewhouse, aim)
    efficiency = _efficiency(trial, brewhouse)
    needed = _needed(trial, brewhouse, aim.gravity)
    giving = [item for item in _items(trial) if aim.gives_way(item)]
    fixed = tuple(_brought(item, brewhouse, efficiency) for item in _items(trial) if not aim.gives_way(item))
    rest = needed
    if fixed:
        rest = less(
            needed, *fixed, left="what is left for the base malt", some=True, label="extract left for what gives way"
        )
    whole = sum(item.mass.number for item in giving if item.mass is not None)
    shares = tuple(item.mass.number / whole for item in giving if item.mass is not None)
    grist = apply(
        extract.grist_mass,
        "weight of what gives way",
        extract_kg=rest,
        shares=shares,
        yields=tuple(_yield(item, brewhouse, efficiency) for item in giving),
    )
    solved = {
        id(item): settled((grist * share).called(f"weight of {item.name}"))
        for item, share in zip(giving, shares, strict=True)
    }
    return replace(
        trial,
        malts=tuple(malt.weighing(solved[id(malt)]) if id(malt) in solved else malt for malt in trial.malts),
        sugars=tuple(sugar.weighing(solved[id(sugar)]) if id(sugar) in solved else sugar for sugar in trial.sugars),
    )


def _first_of(recipe: Recipe, *choosers: Chooser) -> Chooser:
    return next((chosen for chosen in choosers if any(chosen(item) for item in _items(recipe))), _boiled)


def _base(item: Malt | Sugar) -> bool:
    return isinstance(item, Malt) and item.steep is None and role(item) == "base"


def _extract(item: Malt | Sugar) -> bool:
    return isinstance(item, Sugar) and item.from_malt and not item.into_fermenter


def _unhopped(recipe: Recipe) -> Chooser:
    """Malt extract that is no hopped kit, whose bitterness would give way with it."""
    kits = {kit.place for kit in recipe.kits}
    return lambda item: _extract(item) and item.place not in kits


def _boiled(item: Malt | Sugar) -> bool:
    return isinstance(item, Malt) or not item.into_fermenter


def _items(recipe: Recipe) -> tuple[Malt | Sugar, ...]:
    return (*recipe.malts, *recipe.sugars)


def _settled_in(recipe: Recipe, brewhouse: Brewhouse, aim: Aim) -> Recipe:
    """Round by round: the boil that fits the weights, the efficiency that they bring about, the weights that reach."""
    trial, grown = replace(recipe, kettle=None), 1.0
    for _ in range(ROUNDS):
        trial = replace(trial, kettle=boiled(trial, brewhouse, aim.part, aim.home_l))
        factor = _factor(trial, brewhouse, aim)
        if abs(factor - 1) < SETTLED:
            return trial
        grown *= factor
        if grown > RUNAWAY:
            break
        trial = _times(factor, trial, aim.gives_way)
    raise Refusal(
        f"no weight of malt reaches {aim.gravity.number:.3f} in {brewhouse.name}: the more of it there is, the more of "
        "its own wort it keeps"
    )


def _check_strength(trial: Recipe, brewhouse: Brewhouse, aim: Aim) -> None:
    needed = _needed(trial, brewhouse, aim.gravity).number
    end = planned_end_of_boil(trial, brewhouse, late_l(trial)).number
    if needed > SYRUP * end:
        raise Refusal(
            f"a gravity of {aim.gravity.number:.3f} wants {needed:.2f} kg of extract, and the {end:.1f} L that the pot "
            f"of {brewhouse.name} boils down to would be a syrup"
        )


def _factor(trial: Recipe, brewhouse: Brewhouse, aim: Aim) -> float:
    """What the weights that give way have to be multiplied by, at this efficiency and in this boil."""
    efficiency = _efficiency(trial, brewhouse)
    needed = _needed(trial, brewhouse, aim.gravity).number
    fixed = sum(_brought(item, brewhouse, efficiency).number for item in _items(trial) if not aim.gives_way(item))
    giving = sum(_brought(item, brewhouse, efficiency).number for item in _items(trial) if aim.gives_way(item))
    if needed <= fixed:
        names = " and ".join(item.name for item in _items(trial) if aim.gives_way(item))
        raise Refusal(
            f"what is not {names} brings {fixed:.2f} kg of extract by itself, and a gravity of "
            f"{aim.gravity.number:.3f} wants {needed:.2f} kg"
        )
    if giving <= 0:
        raise Refusal(f"nothing is left that could bring the gravity to {aim.gravity.number:.3f}")
    return (needed - fixed) / giving


def _times(factor: float, trial: Recipe, gives_way: Chooser) -> Recipe:
    def more(item: W) -> W:
        if item.mass is None or not gives_way(item):
            return item
        label = f"weight of {item.name}, found in rounds"
        return item.weighing(given(factor * item.mass.number, "kg", label, words=IN_ROUNDS))

    return replace(
        trial,
        malts=tuple(more(malt) for malt in trial.malts),
        sugars=tuple(more(sugar) for sugar in trial.sugars),
    )


def _needed(trial: Recipe, brewhouse: Brewhouse, gravity: Value) -> Value:
    end = planned_end_of_boil(trial, brewhouse, late_l(trial))
    return apply(
        kettle.extract_for_gravity,
        "extract needed in the kettle",
        gravity=gravity,
        batch_l=trial.batch,
        end_of_boil_l=settled(end),
        left_in_kettle_l=brewhouse.left_in_kettle,
    )


def _efficiency(trial: Recipe, brewhouse: Brewhouse) -> Value:
    """As the chain works it out for these weights, from the wort that runs off them."""
    late = late_l(trial)
    end = planned_end_of_boil(trial, brewhouse, late)
    start = planned_start(trial, brewhouse, end, late)
    weights: Weights = Weights(tuple(malt.mass for malt in trial.malts if malt.mass is not None), ())
    return by_load(trial, brewhouse, weights, start)


def _yield(item: Malt | Sugar, brewhouse: Brewhouse, efficiency: Value) -> Value | float:
    if isinstance(item, Sugar):
        return 0.0 if item.into_fermenter else potential(item)
    return (potential(item) * efficiency_of(item, brewhouse, efficiency)).called(f"yield of {item.name}")


def _brought(item: Malt | Sugar, brewhouse: Brewhouse, efficiency: Value) -> Value:
    """Extract that an ingredient of a known weight brings to the kettle (kg)."""
    if item.mass is None:
        raise Refusal(f"{item.name} has no weight")
    label, brings = f"extract of {item.name}", _yield(item, brewhouse, efficiency)
    return (item.mass * brings).called(label)
