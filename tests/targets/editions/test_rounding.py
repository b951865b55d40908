"""Amounts that a scale shows, and drifts that go unsaid: both are common practice, no source, but for the units."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from made_up import BASES, SPECIALS, book, brewhouse, hop, malt, recipe, value, yeast

from gristbook.model.edition import Edition
from gristbook.model.extra import Extra
from gristbook.model.recipe import Recipe
from gristbook.model.water import AcidUse, SaltUse, Treatment
from gristbook.problems import Place
from gristbook.targets.chain import work_out
from gristbook.targets.editions.make import KEPT, MadeEdition, make
from gristbook.targets.editions.rounding import rounded

OUNCE = 28.349523125
"""Grams, exactly (international yard and pound agreement, 1959)."""
TEASPOON_ML = 3785.411784 / 768
"""A US gallon of 231 cubic inches is 768 teaspoons."""
HERE = Place("a.md")
BEER = """---
title: A beer
batch: 20 L
malts: 4 kg pale ale malt
hops: 28 g Fuggle, 4.5 % alpha, 60 min
yeast: 11 g american ale yeast, clean, dried
mash: 67 °C, 60 min
ferment: 19 °C, 10 days
"""
PALE = malt("Pale malt", BASES["Pale malt"], 4.0)


def shown(written: Recipe, us: bool = False) -> Recipe:
    figures = work_out(written, brewhouse("home", 20), "tinseth 1997", "morey 1995")
    return rounded(written, figures, us)


@pytest.mark.parametrize(
    ("grams", "us", "on_the_scale"),
    [
        (246.0, False, 245),  # fives to 250 g
        (256.0, False, 260),  # tens from there on
        (4.3 * OUNCE, True, 4.25 * OUNCE),  # quarters of an ounce to half a pound
        (8.6 * OUNCE, True, 9 * OUNCE),
    ],
)
def test_grain_is_weighed_in_what_a_kitchen_scale_shows(grams: float, us: bool, on_the_scale: float) -> None:
    caramel = malt("Caramel malt", SPECIALS["Caramel malt"], grams / 1000)
    mass = shown(recipe(20, 60, (PALE, caramel)), us).malts[1].mass
    assert mass is not None
    assert 1000 * mass.number == pytest.approx(on_the_scale)


@pytest.mark.parametrize(
    ("grams", "us", "on_the_scale"),
    [
        (99.4, False, 99),
        (103.4, False, 105),  # fives from 100 g on
        (1.2 * OUNCE, True, 1.2 * OUNCE),  # twentieths to two ounces
        (1.88 * OUNCE, True, 1.9 * OUNCE),
        (2.15 * OUNCE, True, 2.25 * OUNCE),
    ],
)
def test_hops_are_weighed_in_grams_or_twentieths_of_an_ounce(grams: float, us: bool, on_the_scale: float) -> None:
    written = replace(recipe(20, 60, (PALE,)), hops=(hop("First", grams, "boil", minutes=60),))
    mass = shown(written, us).hops[0].mass
    assert mass is not None
    assert mass.number == pytest.approx(on_the_scale)


@pytest.mark.parametrize("us", [False, True])
@pytest.mark.parametrize(("grams", "on_the_scale"), [(4.7, 4.5), (5.3, 5.0), (11.4, 11.0)])
def test_dried_yeast_is_weighed_in_half_and_whole_grams_by_everybody(
    grams: float, on_the_scale: float, us: bool
) -> None:
    dried = yeast(value(grams, "g", "yeast"), dried=True, attenuation=0.75)
    amount = shown(replace(recipe(20, 60, (PALE,)), yeasts=(dried,)), us).yeasts[0].amount
    assert amount is not None
    assert amount.number == pytest.approx(on_the_scale)


@pytest.mark.parametrize("us", [False, True])
@pytest.mark.parametrize(("grams", "on_the_scale"), [(1.93, 1.9), (4.7, 4.5), (5.3, 5.5), (11.4, 11.0)])
def test_spice_is_weighed_in_tenths_halves_and_grams_by_everybody(grams: float, on_the_scale: float, us: bool) -> None:
    spice = Extra("Coriander", value(grams / 1000, "kg", "amount"), "", None, "", "", None, HERE)
    (extra,) = shown(replace(recipe(20, 60, (PALE,)), extras=(spice,)), us).extras
    assert extra.amount is not None
    assert 1000 * extra.amount.number == pytest.approx(on_the_scale)


@pytest.mark.parametrize(("spoons", "measured"), [(0.6, 0.5), (0.7, 0.75), (0.01, 0.25)])
def test_what_is_measured_by_the_spoon_comes_in_quarters_of_one(spoons: float, measured: float) -> None:
    spice = Extra("Syrup", value(spoons * TEASPOON_ML / 1000, "L", "amount"), "", None, "", "", None, HERE)
    (extra,) = shown(replace(recipe(20, 60, (PALE,)), extras=(spice,))).extras
    assert extra.amount is not None
    assert 1000 * extra.amount.number == pytest.approx(measured * TEASPOON_ML)


@pytest.mark.parametrize("us", [False, True])
@pytest.mark.parametrize(("grams", "on_the_scale"), [(0.97, 0.95), (1.04, 1.0), (1.27, 1.3)])
def test_salts_are_weighed_in_twentieths_and_tenths_of_a_gram_by_everybody(
    grams: float, on_the_scale: float, us: bool
) -> None:
    salt = SaltUse("Gypsum", "CaSO4·2H2O", value(grams, "g", "gypsum"), "mash", "mash", "", HERE)
    written = replace(recipe(20, 60, (PALE,)), water=Treatment(salts=(salt,)))
    assert shown(written, us).water.salts[0].mass.number == pytest.approx(on_the_scale)


@pytest.mark.parametrize("us", [False, True])
@pytest.mark.parametrize(("drawn", "on_the_syringe"), [(4.93, 4.9), (5.3, 5.5), (6.7, 6.5)])
def test_an_acid_is_drawn_in_tenths_and_halves_of_a_millilitre_by_everybody(
    drawn: float, on_the_syringe: float, us: bool
) -> None:
    bottle = value(0.88, "fraction", "strength"), value(1.2, "g/mL", "density")
    acid = AcidUse("Lactic acid", "C3H6O3", *bottle, value(drawn, "mL", "acid"), "mash", "mash", "", HERE)
    written = replace(recipe(20, 60, (PALE,)), water=Treatment(acids=(acid,)))
    assert shown(written, us).water.acids[0].volume.number == pytest.approx(on_the_syringe)


KEPT_UNSAID = (
    ("original-gravity", 1.0500, 0.0005, 0.0015),
    ("bitterness", 30.0, 0.30, 1.5),  # 1 % and 5 %
    ("colour", 10.0, 0.3, 0.3),  # 3 %
    ("final-gravity", 1.0100, 0.0015, 0.0015),
)


@pytest.mark.parametrize(("name", "home", "exactly", "weighed"), KEPT_UNSAID)
@pytest.mark.parametrize("way", [1, -1])
def test_a_drift_is_said_past_its_bound_and_not_before(
    name: str, home: float, exactly: float, weighed: float, way: int
) -> None:
    (kept,) = (kept for kept in KEPT if kept.figure == name)

    def said(exact: float, after: float) -> bool:
        return kept.drifted(*(value(home + way * off, "SG", name) for off in (0.0, exact, after)))

    assert not said(0.98 * exactly, 0.98 * weighed)
    assert said(1.02 * exactly, 0.0)
    assert said(0.0, 1.02 * weighed)


@pytest.mark.parametrize(
    ("written", "batch", "counted"),
    [
        ("10 elderflower heads", 0.5, "5 elderflower heads"),
        ("3 sticks cinnamon", 0.5, "1.5 sticks Cinnamon stick"),  # halves below four
        ("1 pod vanilla", 0.25, "0.25 pod Vanilla pod"),  # quarters below one
        ("10 juniper berries", 0.33, "3.5 Juniper berries"),
    ],
)
def test_what_is_counted_goes_with_the_batch(
    written: str, batch: float, counted: str, plan_of: Callable[..., Any]
) -> None:
    """By hand: so many times the batch, to what can be counted or cut."""
    plan = plan_of(f"{BEER}finings and spices: {written}, flameout\n---\n").plan
    assert plan is not None
    away = Edition("away", "away", value(20 * batch, "L", "batch"), None, "as written", False, HERE)
    made = make(plan, away, book(plan.brewhouse))
    assert isinstance(made, MadeEdition)
    extra = made.plan.recipe.extras[0]
    assert f"{extra.written} {extra.name}" == counted
