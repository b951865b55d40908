"""What a recipe tells by its water: a mash by how hot that is, salts and acids by the litre."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from gristbook.equations import mash as equations
from gristbook.model.book import Book
from gristbook.model.recipe import Recipe
from gristbook.model.water import Into
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply, constant, settled
from gristbook.targets.chain import work_out
from gristbook.targets.conventions import GRAIN_HEAT
from gristbook.targets.results import Mash
from gristbook.targets.wort.infusions import stirred
from gristbook.targets.wort.mash import tun_of


def by_their_water(recipe: Recipe, book: Book) -> Recipe:
    """The recipe in its own brewhouse with the temperature of each rest that is said by its water alone.

    Raises
    ------
    Refusal
        The recipe cannot be brewed, or nothing can be poured in.
    """
    for at, step in enumerate(recipe.mash):
        if step.by_water:
            figures = work_out(recipe, book.brewhouses[recipe.brewhouse], book.bitterness_model, book.colour_model)
            recipe = _told(recipe, at, book, figures.mash) if figures.mash is not None else recipe
    return recipe


def dosed_by_the_litre(recipe: Recipe, book: Book) -> Recipe:
    """The recipe in its own brewhouse with the weight of each salt, and the measure of each acid, told by the litre.

    Raises
    ------
    Refusal
        The recipe cannot be brewed, or it has no such water.
    """
    salts, acids = recipe.water.salts, recipe.water.acids
    if not any("/" in it.unit for it in (*(salt.mass for salt in salts), *(acid.volume for acid in acids))):
        return recipe
    bare = replace(recipe, water=replace(recipe.water, salts=(), acids=()))
    figures = work_out(bare, book.brewhouses[recipe.brewhouse], book.bitterness_model, book.colour_model)
    mash = figures.mash
    waters: Mapping[Into, Value | None] = {
        "water": figures.water.total,
        "mash": mash.water if mash is not None else None,
        "sparge": mash.sparge if mash is not None else None,
        "kettle": figures.volumes.boil,
    }

    def measured(amount: Value, into: Into, name: str) -> Value:
        litres = waters[into]
        if "/" not in amount.unit:
            return amount
        if litres is None:
            raise Refusal(f"{name} is told by the litre of the {into}, and there is no such water")
        return settled((amount * litres).called(f"amount of {name}", metric=True))

    return replace(
        recipe,
        water=replace(
            recipe.water,
            salts=tuple(replace(it, mass=measured(it.mass, it.into, it.name)) for it in salts),
            acids=tuple(replace(it, volume=measured(it.volume, it.into, it.name)) for it in acids),
        ),
    )


def _told(recipe: Recipe, at: int, book: Book, mash: Mash) -> Recipe:
    """The recipe with the temperature of one rest, in a ``mash`` that is right up to there."""
    step, brewhouse = recipe.mash[at], tun_of(recipe, book.brewhouses[recipe.brewhouse])
    added = step.water if at else mash.water
    if added is None or step.hot is None or (at and brewhouse.mash == "bag"):
        raise Refusal("all of a bag's water is in the mash from the start: say how warm the rest is, and it is heated")
    if at and step.hot.number <= recipe.mash[at - 1].temperature.number:
        raise Refusal(f"water at {step.hot.number:g} °C does not warm the mash")
    poured = [mash.water, *(it.infusion for it in mash.rests[1:at] if it.infusion is not None)]
    there = sum_of(poured, "water in the mash") if at else constant(0.0, "L", "water in the mash already")
    temperature = apply(
        equations.mash_temperature_with_water,
        "mash temperature",
        **stirred(brewhouse, mash.grist, there),
        mash_c=recipe.mash[at - 1].temperature if at else brewhouse.grain_temperature,
        added_l=added,
        added_c=step.hot,
        grain_heat=GRAIN_HEAT,
    )
    rest = replace(step, temperature=settled(temperature))
    return replace(recipe, mash=(*recipe.mash[:at], rest, *recipe.mash[at + 1 :]))
