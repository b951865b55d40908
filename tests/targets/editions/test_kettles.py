"""What another kettle does to a beer, against arithmetic by hand: a bag's load, a height, hops that grew old."""

from dataclasses import replace
from math import exp

import pytest
from made_up import BASES, as_shares, book, brewhouse, giving, hop, malt, recipe, sugar, value

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.hop import Store
from gristbook.model.recipe import Recipe
from gristbook.problems import Problems
from gristbook.sheet.value import number
from gristbook.targets.chain import work_out
from gristbook.targets.editions.pot import climb_l
from gristbook.targets.editions.sizing import sized
from gristbook.targets.figures import Plan
from gristbook.targets.plan import plan_recipe
from gristbook.targets.results import Figures

# 19.5 L into the fermenter, 1.5 L left, 3 L up in an hour: 24 L run off the grain, which keeps 0.7 L/kg.
BAG = brewhouse("bag", 19.5, "bag", efficiency=None, absorption=0.7, boil_off=3.0, left_l=1.5)


def figures(written: Recipe, house: Brewhouse) -> Figures:
    return work_out(written, house, "tinseth 1997", "morey 1995")


def pale(kg: float) -> Recipe:
    return recipe(19.5, 60, (malt("Pale malt", BASES["Pale malt"], kg),))


# A kilogram takes in 0.7 L more than comes out, and adds 0.516 L to the wort (0.62 × 0.768 for its extract, 0.04).
KEPT = 0.7 + 0.516


@pytest.mark.parametrize(("kg", "share"), [(3, 0.868), (5, 0.798), (7, 0.738)])
def test_a_bag_gives_less_of_a_heavier_grist(kg: float, share: float) -> None:
    """24/(24 + k m): by balance of masses 86.8, 79.8 and 73.8 % at 3, 5 and 7 kg."""
    found = figures(pale(kg), BAG)
    assert number(found.volumes.boil) == pytest.approx(24)
    assert number(found.wort.mash_efficiency or 0.0) / 0.95 == pytest.approx(share, abs=0.001)
    assert found.grist.extract.number == pytest.approx(kg * 0.81 * 0.96 * 0.95 * 24 / (24 + KEPT * kg), rel=1e-9)


@pytest.mark.parametrize("kg", [3, 5, 7])
def test_a_grist_of_percentages_finds_the_weight_whose_own_efficiency_it_needs(kg: float) -> None:
    """Turned round: the gravity that so many kilograms reach is reached by so many kilograms."""
    gravity = figures(pale(kg), BAG).wort.original.number
    found = figures(as_shares(pale(1), gravity), BAG)
    assert number(found.grist.malts[0].mass) == pytest.approx(kg, rel=1e-9)
    assert number(found.wort.mash_efficiency or 0.0) == pytest.approx(0.95 * 24 / (24 + KEPT * kg), rel=1e-9)


@pytest.mark.parametrize("kg", [3, 5, 7])
def test_an_edition_in_a_bag_weighs_for_the_efficiency_of_its_load(kg: float) -> None:
    """From a tun of 72 %: m' of 0.95 × 24/(24 + k m') brings what m of 0.72 does, so m' = 24 r/(24 − k r)."""
    home = giving(brewhouse("home", 19.5, boil_off=3.0, left_l=1.5), 0.72, pale(kg))
    plan = planned(pale(kg), home)
    away, _ = sized(plan.recipe, plan, BAG, plan.recipe.batch)
    assert away.malts[0].mass is not None
    at_full = kg * 0.72 / 0.95
    assert away.malts[0].mass.number == pytest.approx(24 * at_full / (24 - KEPT * at_full), rel=1e-9)


def planned(written: Recipe, home: Brewhouse) -> Plan:
    plan = plan_recipe(written, book(home), Problems())
    assert plan is not None
    return plan


def test_a_boil_in_the_mountains_is_less_bitter_and_asks_for_more_hops() -> None:
    """At 1500 m water boils at 94.9 °C (steam tables, 84.5 kPa), and isomerises more slowly, by Malowicki's rate.

    Her k₁ = 7.9 × 10¹¹ exp(−11858/T): at 368.05 K it is exp(−11858 × (1/368.05 − 1/373.15)) = 0.644 of that at 100 °C,
    so that an hour is worth 38.6 min; by Tinseth's curve, (1 − e^(−0.04 t))/4.15, that is 0.865 of the bitterness.
    """
    slower = exp(-11858 * (1 / 368.05 - 1 / 373.15))
    less = (1 - exp(-0.04 * 60 * slower)) / (1 - exp(-0.04 * 60))
    home, high = brewhouse("home", 20), brewhouse("away", 20, altitude_m=1500)
    low_down, high_up = (figures(recipe(20, 60, pale(4).malts), house).bitterness.total for house in (home, high))
    assert (high_up / low_down).number == pytest.approx(less, abs=0.005)
    assert less == pytest.approx(0.865, abs=0.001)
    plan = planned(recipe(20, 60, pale(4).malts), home)
    away, _ = sized(plan.recipe, plan, high, plan.recipe.batch)
    grams = figures(away, high).bitterness.hops[0].mass
    assert number(grams) == pytest.approx(20 / less, rel=0.005)


@pytest.mark.parametrize(("heat_c", "factor"), [(20, 1.0), (5, 0.5), (-10, 0.25)])
def test_old_hops_are_weighed_by_what_is_left_in_them(heat_c: float, factor: float) -> None:
    """Garetz 1994: a hop that loses 35 % in six months at 20 °C has k = −ln 0.65/180 a day, half that 15 °C cooler.

    In an airtight packet 0.75 of it: after 300 days at 20 °C, 0.65^(0.75 × 300/180) = 58.4 % of the alpha acids.
    """
    left = 0.65 ** (0.75 * factor * 300 / 180)
    fresh = hop("Bitter hop", 20, "boil", minutes=60)
    kept = Store(value(300, "d", "days"), value(heat_c, "°C", "store"), value(0.35, "fraction", "lost"), None)
    young, old = (replace(recipe(20, 60, pale(4).malts), hops=(h,)) for h in (fresh, replace(fresh, store=kept)))
    home = brewhouse("home", 20)
    bitter = figures(young, home).bitterness.total
    assert (figures(old, home).bitterness.total / bitter).number == pytest.approx(left, rel=0.005)
    plan = planned(young, home)
    away, _ = sized(old, plan, home, plan.recipe.batch)
    assert number(figures(away, home).bitterness.hops[0].mass) == pytest.approx(20 / left, rel=0.005)


def test_a_smaller_batch_in_a_thin_boil_uses_its_hops_better() -> None:
    """10 L with 4 L of steam begin thinner than 20 L with 3 L: the mean gravity is lower, and so are the grams.

    By hand with Tinseth's factor 1.65 × 0.000125^(SG − 1): the mean is 1.0467 at home and 1.0429 away.
    """
    written = recipe(20, 60, pale(4.65).malts)
    home, away = giving(brewhouse("home", 20, left_l=0), 0.72, written), brewhouse("away", 10, boil_off=4, left_l=0)
    plan = planned(written, home)
    gravity = plan.figures.wort.original.number
    assert gravity == pytest.approx(1.0500, abs=0.0003)
    mean_home, mean_away = ((gravity + 1 + (gravity - 1) * part) / 2 for part in (20 / 23, 10 / 14))
    better = 0.000125 ** (mean_home - mean_away)
    sized_to, _ = sized(plan.recipe, plan, away, value(10, "L", "batch"))
    assert number(figures(sized_to, away).bitterness.hops[0].mass) == pytest.approx(10 * better, rel=0.002)
    assert better == pytest.approx(0.965, abs=0.003)


@pytest.mark.parametrize("boil_off", [1.0, 2.0, 6.0])
def test_wort_climbs_by_what_is_stirred_in_less_what_has_steamed_away(boil_off: float) -> None:
    """2.6 kg of dried extract, 0.63 L for each as it is sold (typical), stirred in half an hour after the start."""
    late = sugar("Dried extract", 2.6, minutes=30, from_malt=True)
    there = brewhouse("pot", 20, efficiency=0.75, boil_off=boil_off)
    by_hand = 2.6 * 0.63 - boil_off / 2
    assert climb_l(replace(pale(2), sugars=(late,)), there) == pytest.approx(max(by_hand, 0.0), abs=0.002)
