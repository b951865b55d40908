"""How much yeast the wort wants, and how much the recipe gives it."""

from __future__ import annotations

from gristbook.equations import starter
from gristbook.equations import yeast as equations
from gristbook.model.recipe import Recipe
from gristbook.model.yeast import Yeast
from gristbook.sheet.arithmetic import rounded_up
from gristbook.sheet.value import Value, apply, settled
from gristbook.targets.beer.pitching import usual_dose, usual_rate
from gristbook.targets.beer.starter import own_starter, starters
from gristbook.targets.conventions import (
    ALIVE_AT_THIRTY_DAYS,
    CELLS_IN_A_GRAM,
    CELLS_IN_A_PACK,
    CELLS_IN_SLURRY,
    FRESH,
    ONE_PACK,
)
from gristbook.targets.results import Pitch, Volumes, Wort, YeastFigures


def pitch(recipe: Recipe, volumes: Volumes, wort: Wort) -> Pitch | None:
    """Cells to pitch by the wort's rate, packs of liquid yeast, the recipe's own amounts; `None` without yeast."""
    if not recipe.pitched:
        return None
    rate = usual_rate(recipe, wort)
    cells = apply(
        equations.cells_needed,
        "cells to pitch",
        rate=rate,
        wort_l=volumes.into_fermenter,
        extract=wort.original_plato,
    )
    first = recipe.pitched
    alive = next((_alive(yeast) for yeast in first if not yeast.dried and not yeast.called and yeast.age), FRESH)
    packs = (cells / (CELLS_IN_A_PACK * alive)).called("packs of liquid yeast")
    dose = usual_dose(recipe, wort)
    given = tuple(_given(line, dose, packs, volumes, wort) for line in recipe.yeasts)
    own = tuple(
        own_starter(line.yeast.starter, _living(line.yeast, line.amount)) for line in given if line.yeast.starter
    )
    grown = own or (() if all(yeast.dried or yeast.called for yeast in first) else starters())
    return Pitch(rate, cells, packs, grown, given)


def _alive(yeast: Yeast) -> Value:
    """The share of its cells that live, by its age; it is fresh where nobody says it."""
    if yeast.age is None:
        return FRESH
    return apply(starter.viability, "share of the cells alive", days=yeast.age, at_thirty_days=ALIVE_AT_THIRTY_DAYS)


def _living(yeast: Yeast, amount: Value) -> Value:
    """The living cells of so many packs, or so much slurry."""
    in_each = CELLS_IN_SLURRY if amount.unit == "mL" else CELLS_IN_A_PACK
    cells = (amount * in_each).called(f"cells of {yeast.name}")
    return (cells * _alive(yeast)).called(f"living cells of {yeast.name}") if yeast.age is not None else cells


def _given(yeast: Yeast, dose: Value, packs: Value, volumes: Volumes, wort: Wort) -> YeastFigures:
    name, wort_l = yeast.name, volumes.into_fermenter
    if yeast.amount is not None:
        amount = yeast.amount
    elif yeast.moment is not None or yeast.starter is not None:
        amount = ONE_PACK
    elif yeast.dried:
        amount = settled((dose * wort_l).called(f"weight of {name}"))
    elif yeast.called:
        slurry = packs * CELLS_IN_A_PACK / (CELLS_IN_SLURRY * _alive(yeast))
        amount = settled(slurry.called(f"slurry of {name}", metric=True))
    else:
        amount = settled(rounded_up(packs, f"packs of {name}"))
    if yeast.dried and amount.unit == "g":
        cells = apply(equations.dried_cells, f"cells of {name}", mass_g=amount, cells_per_gram=CELLS_IN_A_GRAM)
        return YeastFigures(yeast, amount, cells, None, (amount / wort_l).called(f"dose of {name}"))
    cells = _living(yeast, amount)
    if yeast.starter is not None:
        cells = own_starter(yeast.starter, cells).standing
    pitched = {"cells": cells, "wort_l": wort_l, "extract": wort.original_plato}
    return YeastFigures(yeast, amount, cells, apply(equations.pitch_rate, f"pitch rate of {name}", **pitched), None)
