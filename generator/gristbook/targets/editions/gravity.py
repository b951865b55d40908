"""Weights that reach the original gravity of the recipe in another brewhouse: what gives way, and by how much."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from gristbook.equations import extract, kettle
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less
from gristbook.sheet.value import Value, apply, given, number, settled
from gristbook.targets.editions.pot import SYRUP, boiled, late_l
from gristbook.targets.results import Grist
from gristbook.targets.wort.efficiency import by_conversion, by_load
from gristbook.targets.wort.grist import Weights, weight_of, yield_of
from gristbook.targets.wort.roles import role
from gristbook.targets.wort.volumes import planned_end_of_boil, planned_start, with_pulp

ROUNDS = 400
"""Weight, efficiency and pot settle each other: as a rule in ten rounds, in a crammed bag in some hundred."""
SETTLED = 1e-12
RUNAWAY = 1e4
"""Times its first weight, at which a grist will not settle any more."""
IN_ROUNDS = "weight, efficiency and pot depend on each other, and are settled round by round"

Chooser = Callable[[Malt | Sugar], bool]


@dataclass(frozen=True, slots=True)
class Aim:
    """What is to be kept: the gravity, and the partial boil that an author asks of this very pot.

    ``gives_way`` picks the lines whose weight is free.
    """

    gravity: Value
    kettle: Value | None
    gives_way: Chooser


def base_first(recipe: Recipe) -> Chooser:
    """Base malt gives way; without any, malt extract; without that, all that goes into the kettle."""
    return _first_of(recipe, _base, _extract)


def extract_first(recipe: Recipe) -> Chooser:
    """Malt extract gives way, and without any, base malt."""
    return _first_of(recipe, _extract, _base)


def everything(item: Malt | Sugar) -> bool:
    """A grist of percentages gives way as a whole, so that its shares stay; fruit is no part of it."""
    return isinstance(item, Malt) or item.flesh is None


def items(recipe: Recipe) -> tuple[Malt | Sugar, ...]:
    """All that brings extract: the malts, then the sugars."""
    return (*recipe.malts, *recipe.sugars)


def masses(grist: Grist) -> tuple[Value, ...]:
    """What each of them weighs (kg), in the same order."""
    return (*(line.mass for line in grist.malts), *(line.mass for line in grist.sugars))


def reweighed(recipe: Recipe, masses: Iterable[Value | None]) -> Recipe:
    """The recipe with other weights (kg) for its malts and its sugars, in their order; `None` leaves one as it is."""
    left = iter(masses)
    return replace(
        recipe,
        malts=tuple(malt.weighing(next(left)) for malt in recipe.malts),
        sugars=tuple(sugar.weighing(next(left)) for sugar in recipe.sugars),
    )


def in_weights(recipe: Recipe, grist: Grist) -> Recipe:
    """The recipe by the weights that its plan gives it, also where it is written in percentages."""
    return replace(reweighed(recipe, masses(grist)), original_gravity=None)


def weighed(recipe: Recipe, brewhouse: Brewhouse, aim: Aim) -> Recipe:
    """The recipe with weights, and with a boil that fits the pot, which reach the gravity.

    Raises
    ------
    Refusal
        No weights do; the words say which bound they met.
    """
    brewhouse = with_pulp(by_conversion(brewhouse), recipe)
    found = _settled_in(recipe, brewhouse, aim)
    trial, rest = found.trial, found.needed
    giving = [item for item in items(trial) if aim.gives_way(item)]
    if rest.number > SYRUP * found.end.number:
        raise Refusal(
            f"a gravity of {aim.gravity.number:.3f} wants {rest.number:.2f} kg of extract, and the "
            f"{found.end.number:.1f} L that the pot of {brewhouse.name} boils down to would be a syrup"
        )
    if not giving:
        return trial
    if found.fixed:
        label, left = "extract left for what gives way", "what is left for the base malt"
        rest = less(rest, *found.fixed, left=left, some=True, label=label)
    whole = sum(weight_of(item).number for item in giving)
    shares = tuple(weight_of(item).number / whole for item in giving)
    label = "weight of what gives way"
    grist = apply(extract.grist_mass, label, extract_kg=rest, shares=shares, yields=found.yields)
    solved = {
        id(item): settled((grist * share).called(f"weight of {item.name}"))
        for item, share in zip(giving, shares, strict=True)
    }
    return reweighed(trial, (solved.get(id(item), item.mass) for item in items(trial)))


def _first_of(recipe: Recipe, *choosers: Chooser) -> Chooser:
    """The first that picks anything but a hopped tin, which is bought whole; beside one, steeped grain stays."""
    tins = {kit.place for kit in recipe.kits}
    free = [item for item in items(recipe) if item.place not in tins]
    last = _dissolves if tins else _boiled
    chosen = next((chooser for chooser in choosers if any(map(chooser, free))), last)
    return lambda item: item.place not in tins and chosen(item)


def _base(item: Malt | Sugar) -> bool:
    return isinstance(item, Malt) and item.steep is None and role(item) == "base"


def _extract(item: Malt | Sugar) -> bool:
    return isinstance(item, Sugar) and item.from_malt and not item.into_fermenter


def _dissolves(item: Malt | Sugar) -> bool:
    return isinstance(item, Sugar) and not item.into_fermenter and item.flesh is None


def _boiled(item: Malt | Sugar) -> bool:
    return isinstance(item, Malt) or _dissolves(item)


@dataclass(frozen=True, slots=True)
class _Balance:
    """Extract that a trial wants at the ``end`` of its boil (L), and what its lines bring.

    ``needed`` is wanted for the gravity, and each of ``fixed`` brought by a line whose weight is not free (kg);
    ``yields`` are what a kilogram of each of the others brings.
    """

    trial: Recipe
    end: Value
    needed: Value
    fixed: tuple[Value, ...]
    yields: tuple[Value | float, ...]


def _balance(trial: Recipe, brewhouse: Brewhouse, aim: Aim) -> _Balance:
    """By the efficiency that the chain works out for these weights, from the wort that runs off them."""
    late = late_l(trial)
    end = planned_end_of_boil(trial, brewhouse, late)
    start = planned_start(trial, brewhouse, end, late)
    weights = Weights(tuple(weight_of(malt) for malt in trial.malts), tuple(weight_of(sugar) for sugar in trial.sugars))
    efficiency = by_load(trial, brewhouse, weights, start).mash
    yields = [(item, yield_of(item, brewhouse, efficiency)) for item in items(trial)]
    return _Balance(
        trial,
        end,
        apply(
            kettle.extract_for_gravity,
            "extract needed in the kettle",
            gravity=aim.gravity,
            batch_l=trial.batch,
            end_of_boil_l=settled(end),
            left_in_kettle_l=brewhouse.left_in_kettle,
        ),
        tuple(
            (weight_of(item) * share).called(f"extract of {item.name}")
            for item, share in yields
            if not aim.gives_way(item)
        ),
        tuple(share for item, share in yields if aim.gives_way(item)),
    )


def _settled_in(recipe: Recipe, brewhouse: Brewhouse, aim: Aim) -> _Balance:
    """Round by round: the boil that fits the weights, the efficiency that they bring about, the weights that reach."""
    trial, grown = replace(recipe, kettle=None), 1.0
    for _ in range(ROUNDS):
        found = _balance(replace(trial, kettle=boiled(trial, brewhouse, aim.kettle)), brewhouse, aim)
        factor = _factor(found, aim)
        if abs(factor - 1) < SETTLED:
            return found
        grown *= factor
        if grown > RUNAWAY:
            break
        trial = _nearer(found.trial, factor, aim)
    raise Refusal(
        f"no weight of malt reaches {aim.gravity.number:.3f} in {brewhouse.name}: the more of it there is, the more of "
        "its own wort it keeps"
    )


def _nearer(trial: Recipe, factor: float, aim: Aim) -> Recipe:
    """The trial with its weights moved by a factor or, where none is free to, its volume."""
    if any(map(aim.gives_way, items(trial))):
        return reweighed(trial, (_times(factor, item, aim) for item in items(trial)))
    words = "as much as the whole tins make of this gravity, found in rounds"
    return replace(trial, batch=given(factor * trial.batch.number, "L", trial.batch.label, words=words))


def _factor(found: _Balance, aim: Aim) -> float:
    """What the weights that give way have to be multiplied by, at this efficiency and in this boil.

    Where nothing gives way, it is what the volume has to be multiplied by.
    """
    giving = [item for item in items(found.trial) if aim.gives_way(item)]
    needed, fixed = found.needed.number, sum(part.number for part in found.fixed)
    if not giving and fixed > 0:
        return fixed / needed
    brought = sum(weight_of(item).number * number(share) for item, share in zip(giving, found.yields, strict=True))
    if needed <= fixed:
        names = " and ".join(item.name for item in giving)
        raise Refusal(
            f"what is not {names} brings {fixed:.2f} kg of extract by itself, and a gravity of "
            f"{aim.gravity.number:.3f} wants {needed:.2f} kg"
        )
    if brought <= 0:
        raise Refusal(f"nothing is left that could bring the gravity to {aim.gravity.number:.3f}")
    return (needed - fixed) / brought


def _times(factor: float, item: Malt | Sugar, aim: Aim) -> Value | None:
    if not aim.gives_way(item):
        return item.mass
    return given(factor * weight_of(item).number, "kg", f"weight of {item.name}, found in rounds", words=IN_ROUNDS)
