"""How much yeast the wort wants, and how much the recipe gives it."""

from __future__ import annotations

from gristbook.equations import starter
from gristbook.equations import yeast as equations
from gristbook.model.recipe import Recipe, Yeast
from gristbook.sheet.arithmetic import rounded_up
from gristbook.sheet.value import Value, apply, settled
from gristbook.targets.beer.pitching import usual_dose, usual_rate
from gristbook.targets.beer.starter import starters
from gristbook.targets.conventions import ALIVE_AT_THIRTY_DAYS, CELLS_IN_A_GRAM, CELLS_IN_A_PACK, FRESH
from gristbook.targets.results import Pitch, Volumes, Wort, YeastFigures


def pitch(recipe: Recipe, volumes: Volumes, wort: Wort) -> Pitch | None:
    """Cells to pitch by the wort's rate, packs of liquid yeast, the recipe's own amounts; `None` without yeast."""
    if not recipe.yeasts:
        return None
    rate = usual_rate(recipe, wort)
    cells = apply(
        equations.cells_needed,
        "cells to pitch",
        rate=rate,
        wort_l=volumes.into_fermenter,
        extract=wort.original_plato,
    )
    alive = FRESH
    aged = next((yeast.age for yeast in recipe.yeasts if yeast.age is not None and not yeast.dried), None)
    if aged is not None:
        alive = apply(starter.viability, "share of the cells alive", days=aged, at_thirty_days=ALIVE_AT_THIRTY_DAYS)
    packs = (cells / (CELLS_IN_A_PACK * alive)).called("packs of liquid yeast")
    grown = () if all(yeast.dried for yeast in recipe.yeasts) else starters()
    dose = usual_dose(recipe, wort)
    given = tuple(_given(line, dose, packs, alive, volumes, wort) for line in recipe.yeasts)
    return Pitch(rate, cells, packs, grown, given)


def _given(yeast: Yeast, dose: Value, packs: Value, alive: Value, volumes: Volumes, wort: Wort) -> YeastFigures:
    name, wort_l = yeast.name, volumes.into_fermenter
    if yeast.amount is not None:
        amount = yeast.amount
    elif yeast.dried:
        amount = settled((dose * wort_l).called(f"weight of {name}"))
    else:
        amount = settled(rounded_up(packs, f"packs of {name}"))
    if yeast.dried and amount.unit == "g":
        cells = apply(equations.dried_cells, f"cells of {name}", mass_g=amount, cells_per_gram=CELLS_IN_A_GRAM)
        return YeastFigures(yeast, amount, cells, None, (amount / wort_l).called(f"dose of {name}"))
    cells = (amount * CELLS_IN_A_PACK).called(f"cells of {name}")
    if yeast.age is not None:
        cells = (cells * alive).called(f"living cells of {name}")
    pitched = {"cells": cells, "wort_l": wort_l, "extract": wort.original_plato}
    return YeastFigures(yeast, amount, cells, apply(equations.pitch_rate, f"pitch rate of {name}", **pitched), None)
