"""A mash of which the author says how hot the water is, and leaves open what it comes to."""

from __future__ import annotations

from dataclasses import replace

from gristbook.equations import mash as equations
from gristbook.model.book import Book
from gristbook.model.recipe import Recipe
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import apply, constant, settled
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
