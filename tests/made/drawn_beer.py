"""What a drawn brew comes to: its colour, how far the yeast takes it, and its gas; and all its figures by their ids."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import drawn_formulas as of
import numpy as np
from drawn_brew import Brew
from drawn_doubts import Array, typed
from drawn_hops import bitterness
from drawn_mash import mash_water, strike

from gristbook.model.steps import FermentStep

POUNDS_IN_A_GALLON = 3.785411784 / 0.45359237
"""In a kilogram in a litre."""


def figures(brew: Brew) -> Mapping[str, Array]:
    """The figures by their ids, in each draw."""
    final, strength = _fermented(brew)
    found = {
        "boil-volume": brew.start,
        "volume-at-the-end-of-the-boil": brew.end,
        "into-the-fermenter": brew.into,
        "beer-to-package": brew.packaged,
        "original-gravity": brew.original,
        "final-gravity": final,
        "alcohol-by-volume": strength,
        "bitterness": bitterness(brew),
        "colour": colour(brew),
        "cells-to-pitch": brew.decided.rate * brew.into * of.plato(brew.original),
    }
    if brew.decided.mash_water is not None:
        found |= {"mash-water": mash_water(brew), "strike-temperature": strike(brew)}
    if brew.recipe.carbonation is not None and brew.recipe.carbonation.sugar is not None:
        found["priming-sugar"] = priming(brew)
    return found


def colour(brew: Brew) -> Array:
    """SRM, by every model that is printed, each as likely as the others."""
    in_kettle, later = np.zeros(brew.doubts.draws), np.zeros(brew.doubts.draws)
    for malt, mass in zip(brew.recipe.malts, brew.malts, strict=True):
        in_kettle = in_kettle + mass * brew.tint(malt)
    for sugar, mass in zip(brew.recipe.sugars, brew.sugars, strict=True):
        if sugar.into_fermenter:
            later = later + mass * brew.tint(sugar)
        else:
            in_kettle = in_kettle + mass * brew.tint(sugar)
    units = POUNDS_IN_A_GALLON * (in_kettle / brew.end * brew.from_kettle / brew.into + later / brew.into)
    models = brew.decided.colour_models
    found = np.stack([of.shown(model, units) for model in models])
    lot = brew.doubts.lot("colour model", len(models))
    return found[lot, np.arange(brew.doubts.draws)] * brew.about_one("about a colour model", "about a colour model")


def _fermented(brew: Brew) -> tuple[Array, Array]:
    """Final gravity and alcohol by volume, by Balling's balance."""
    parts = _parts(brew)
    whole = sum((extract for extract, _ in parts), np.zeros(1))
    real = sum((extract * gone for extract, gone in parts), np.zeros(1)) / whole
    gravity = of.gravity_of_extract(whole, brew.into)
    original = of.plato(gravity)
    rest = original * (1 - real)
    final = of.gravity_of_plato((rest - 0.1808 * original) / 0.8192)
    by_weight = (original - rest) / (2.0665 - 0.010665 * original)
    return final, by_weight * final / 0.79066


def _parts(brew: Brew) -> list[tuple[Array, Array]]:
    """The extract that reaches the fermenter from each line, and the share of it that really ferments."""
    yeast = max(brew.recipe.yeasts, key=lambda it: it.attenuation.number)
    value: Any = yeast.attenuation
    low, high = yeast.usual_attenuation
    alone = value.origin.by.name == "AUTHOR" or low == high
    triple = typed(value, "attenuation") if alone else (low, value.number, high)
    apparent = brew.doubts.drawn("attenuation of the yeast", triple)
    parts = []
    for malt, extract in zip(brew.recipe.malts, brew.of_malts, strict=True):
        reached = apparent if malt.steep else apparent * _by_mash(brew)
        parts.append((extract * brew.leaves, 0.8192 * reached))
    for sugar, extract in zip(brew.recipe.sugars, brew.of_sugars, strict=True):
        known = brew.known(sugar)
        name, spread = f"what ferments of {sugar.name}", known.attenuation if sugar.from_malt else known.fermentable
        gone = brew.stated(name, sugar.attenuation, "attenuation", spread, grown=False)
        reaches = extract if sugar.into_fermenter else extract * brew.leaves
        parts.append((reaches, 0.8192 * gone if sugar.from_malt else gone))
    return parts


def _by_mash(brew: Brew) -> Array:
    """How many times the yeast's usual attenuation the mash brings about, as warm as it stands."""
    steps = [it for it in brew.recipe.mash if it.temperature.number >= 60] or list(brew.recipe.mash)
    wanted = max(steps, key=lambda it: it.minutes.number).temperature
    stands = brew.doubts.drawn("mash as it stands", typed(wanted, "mash temperature"))
    follows = brew.about_one("curve of the mash", "mash curve")
    return 1 + follows * (of.fermentable(stands) / of.fermentable(np.array(67.0)) - 1)


def priming(brew: Brew) -> Array:
    """Grams of sugar for the gas that is wanted."""
    wanted = brew.recipe.carbonation
    assert wanted is not None
    assert wanted.sugar is not None
    assert isinstance(wanted.sugar.contents, str)
    warmest = _warmest(brew.recipe.ferment)
    celsius = brew.doubts.drawn("temperature of fermentation", typed(warmest.temperature, "ferment temperature"))
    more = (wanted.volumes.number - of.gas_left(celsius)) * brew.packaged * 1.9768
    ferments = brew.about_one("priming that ferments", "priming ferments")
    return more / of.gas_from_a_gram(wanted.sugar.contents) / ferments


def _warmest(steps: tuple[FermentStep, ...]) -> FermentStep:
    """The warmest step since fermentation ended: from the last one back, as long as it was cooled down."""
    found = steps[-1]
    for step in reversed(steps):
        if step.temperature.number < found.temperature.number:
            break
        found = step
    return found
