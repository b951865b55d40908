"""Sizing keeps what makes the beer and solves again what does not scale.

Specialty malts, sugars, and late, stand and dry hops go by weight per litre of batch; base malt is solved for the
original gravity and the longest boil addition for the total bitterness; efficiency, losses, boil-off, strike and pitch
come from the brewhouse it is sized for.
"""

from __future__ import annotations

from dataclasses import replace

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.extra import Extra
from gristbook.model.moment import BeforePackaging
from gristbook.model.packing import Carbonation
from gristbook.model.recipe import Recipe
from gristbook.model.water import Treatment
from gristbook.refusal import Refusal
from gristbook.sheet.value import Value, settled
from gristbook.targets.chain import work_out
from gristbook.targets.conventions import DRY_HOPS_KEEP
from gristbook.targets.editions.bitterness import hopped
from gristbook.targets.editions.gravity import (
    Aim,
    base_first,
    everything,
    extract_first,
    in_weights,
    items,
    reweighed,
    weighed,
)
from gristbook.targets.editions.kits import in_tins, said_of, whole_tins, would_do
from gristbook.targets.editions.small_mash import with_its_water
from gristbook.targets.editions.water import scaled_water, tap_note
from gristbook.targets.figures import Plan
from gristbook.targets.hops.dried import as_dried
from gristbook.targets.wort.grist import by_shares


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
    Refusal
        The brewhouse cannot make this beer at all; the words say which bound it met.
    """
    _check_size(home, brewhouse, batch)
    tins, shares = whole_tins(home, batch), by_shares(home) and not home.kits
    gives_way = everything if shares else extract_first(home) if by_extract else base_first(home)
    kettle = home.kettle if brewhouse.name == plan.brewhouse.name else None
    aim = Aim(settled(plan.figures.wort.original), kettle, gives_way)
    there = _by_batch(home, plan, brewhouse, batch, tins)
    if home.beside_extract and (by_extract or brewhouse.mash == "none"):
        there = with_its_water(there)
    try:
        recipe = weighed(there, brewhouse, aim)
    except Refusal as refusal:
        raise Refusal(f"{refusal}{would_do(home, batch, tins)}") from refusal
    said = said_of(home, batch, recipe, tins)
    if shares and recipe.kettle is None:
        sugars = tuple(new if new.flesh else old for new, old in zip(recipe.sugars, home.sugars, strict=True))
        recipe = replace(recipe, original_gravity=home.original_gravity, malts=home.malts, sugars=sugars)
    figures = work_out(recipe, brewhouse, plan.bitterness_model, plan.colour_model)
    recipe, drifted = hopped(recipe, figures, plan, brewhouse)
    notes = (*said, *drifted)
    if home.water == Treatment():
        return recipe, notes
    water = scaled_water(home.water, settled(plan.figures.water.total), settled(figures.water.total))
    return replace(recipe, water=water), (*notes, *tap_note(home.water, plan.brewhouse, brewhouse))


def _check_size(home: Recipe, brewhouse: Brewhouse, batch: Value) -> None:
    if brewhouse.mash == "none" and not home.beside_extract and any(malt.steep is None for malt in home.malts):
        raise Refusal(f"nothing can be mashed in {brewhouse.name}, and this beer is mashed")
    lying = (hop for hop in home.hops if isinstance(hop.use, BeforePackaging))
    dry = sum(as_dried(hop, hop.mass).number for hop in lying if hop.mass is not None)
    in_hops = (DRY_HOPS_KEEP.number * dry / 1000) * batch.number / home.batch.number
    left = brewhouse.left_in_fermenter.number + in_hops
    if left >= batch.number:
        raise Refusal(
            f"{left:.1f} L stay behind in the fermenter of {brewhouse.name}: nothing of {batch.number:.1f} L would be "
            "left to package"
        )


def _primed(gas: Carbonation | None, by: Value) -> Carbonation | None:
    """A carbonation by so much sugar in all, for a batch so many times as large."""
    if gas is None or gas.dose is None or gas.dose.unit != "g":
        return gas
    return replace(gas, dose=settled((gas.dose * by).called(gas.dose.label)))


def _by_batch(home: Recipe, plan: Plan, brewhouse: Brewhouse, batch: Value, tins: int) -> Recipe:
    """Everything by weight per litre but hopped tins, and the brewhouse's own way of mashing; the water comes last.

    A grist of percentages goes by the weights that it has at home; dried yeast by weight, and packs are counted anew
    from the cells that this wort wants.
    """
    by = batch / home.batch

    def weight(mass: Value | None, name: str) -> Value | None:
        return settled((mass * by).called(f"weight of {name}", metric=mass.metric)) if mass is not None else None

    def amount(extra: Extra) -> Extra:
        if extra.amount is None or extra.amount.unit not in ("kg", "L", "pieces"):
            return extra
        return replace(extra, amount=(extra.amount * by).called(f"amount of {extra.name}"), written="")

    if by_shares(home):
        home = in_weights(home, plan.figures.grist)
    whole = in_tins(home, tins)
    labels = {kit.place for kit in whole.kits}
    return replace(
        reweighed(whole, (it.mass if it.place in labels else weight(it.mass, it.name) for it in items(whole))),
        brewhouse=brewhouse.name,
        batch=batch,
        hops=tuple(hop.weighing(weight(hop.mass, hop.name)) for hop in home.hops),
        yeasts=tuple(
            replace(
                it,
                amount=weight(it.amount, it.name) if it.amount and it.amount.unit in ("g", "mL") else None,
                starter=weight(it.starter, it.name),
            )
            for it in home.yeasts
        ),
        mash=tuple(replace(step, water=None, hot=None, by_water=False) for step in home.mash),
        sparge=home.sparge and replace(home.sparge, water=None),
        carbonation=_primed(home.carbonation, by),
        water=Treatment(),
        extras=tuple(amount(extra) for extra in home.extras),
        expectations=(),
    )
