"""Sizing keeps what makes the beer and solves again what does not scale.

Specialty malts, sugars, and late, stand and dry hops go by weight per litre of batch; base malt is solved for the
original gravity and the longest boil addition for the total bitterness; efficiency, losses, boil-off, strike and pitch
come from the brewhouse it is sized for.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

from gristbook.model.amount import Weighable
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Extra, HoppedKit, Recipe, Yeast
from gristbook.model.water import Treatment
from gristbook.refusal import Refusal
from gristbook.sheet.value import Value, given, settled
from gristbook.targets.chain import work_out
from gristbook.targets.editions.bitterness import hopped
from gristbook.targets.editions.gravity import Aim, base_first, everything, extract_first, weighed
from gristbook.targets.editions.pot import from_kettle
from gristbook.targets.editions.water import scaled_water, tap_note
from gristbook.targets.figures import Plan
from gristbook.targets.grist import by_shares

W = TypeVar("W", bound=Weighable)


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
        The brewhouse cannot make this beer at all; the words say which bound it met.
    """
    _check_size(home, brewhouse, batch)
    gives_way = everything if by_shares(home) else extract_first(home) if by_extract else base_first(home)
    part = from_kettle(plan.figures.volumes) if home.kettle is not None else None
    by_batch = _by_batch(_in_weights(home, plan), brewhouse, batch)
    aim = Aim(settled(plan.figures.wort.original), part, home.batch, gives_way)
    recipe = weighed(by_batch, brewhouse, aim)
    recipe = replace(recipe, kits=tuple(_kit(kit, recipe, home) for kit in recipe.kits))
    if by_shares(home) and recipe.kettle is None:
        recipe = replace(recipe, original_gravity=home.original_gravity, malts=home.malts, sugars=home.sugars)
    recipe, notes = hopped(recipe, plan, brewhouse)
    if home.water == Treatment():
        return recipe, notes
    total = work_out(recipe, brewhouse, plan.bitterness_model, plan.colour_model).water.total
    water = scaled_water(home.water, settled(plan.figures.water.total), settled(total))
    return replace(recipe, water=water), (*notes, *tap_note(home.water, plan.brewhouse, brewhouse))


def _check_size(home: Recipe, brewhouse: Brewhouse, batch: Value) -> None:
    if brewhouse.mash == "none" and any(malt.steep is None for malt in home.malts):
        raise Refusal(f"nothing can be mashed in {brewhouse.name}, and this beer is mashed")
    left = brewhouse.left_in_fermenter.number
    if left >= batch.number:
        raise Refusal(
            f"{left:.1f} L stay behind in the fermenter of {brewhouse.name}: nothing of {batch.number:.1f} L would be "
            "left to package"
        )


def _in_weights(home: Recipe, plan: Plan) -> Recipe:
    """A grist of percentages by the weights that it has at home."""
    if not by_shares(home):
        return home
    lines = plan.figures.grist
    return replace(
        home,
        original_gravity=None,
        malts=tuple(line.malt.weighing(line.mass) for line in lines.malts),
        sugars=tuple(line.sugar.weighing(line.mass) for line in lines.sugars),
    )


def _by_batch(home: Recipe, brewhouse: Brewhouse, batch: Value) -> Recipe:
    """Everything by weight per litre, and the brewhouse's own way of mashing; the water comes last."""
    return replace(
        home,
        brewhouse=brewhouse.name,
        batch=batch,
        malts=tuple(_scaled(malt, home, batch) for malt in home.malts),
        sugars=tuple(_scaled(sugar, home, batch) for sugar in home.sugars),
        hops=tuple(_scaled(hop, home, batch) for hop in home.hops),
        yeasts=tuple(_yeast(yeast, home, batch) for yeast in home.yeasts),
        mash=tuple(replace(step, water=None) for step in home.mash),
        water=Treatment(),
        extras=tuple(_extra(extra, home, batch) for extra in home.extras),
        expectations=(),
    )


def _scaled(item: W, home: Recipe, batch: Value) -> W:
    """What has a weight, with as much of it in a litre."""
    return item if item.mass is None else item.weighing(_grams(item.mass, item.name, home, batch))


def _grams(mass: Value, name: str, home: Recipe, batch: Value) -> Value:
    label = f"weight of {name}"
    return settled((mass * (batch / home.batch)).called(label))


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
        scaled = (amount * (batch / home.batch)).called(label)
    else:
        scaled = (amount * (batch / home.batch)).called(label)
    return replace(extra, amount=scaled, written="")


def _kit(kit: HoppedKit, sized_to: Recipe, home: Recipe) -> HoppedKit:
    """Its label speaks for the weight at home; a larger kit is as bitter in as many more litres."""
    now, before = (
        next((sugar.mass.number for sugar in recipe.sugars if sugar.mass and sugar.place == kit.place), None)
        for recipe in (sized_to, home)
    )
    if now is None or before is None:
        return kit
    words = f"{kit.volume.label}, for this much of it"
    return replace(kit, volume=given(kit.volume.number * now / before, "L", words, words="in proportion to its weight"))
