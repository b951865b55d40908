"""Bottles primed with sugar or with malt extract, and the rate that a recipe's yeast comes to."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.targets.figures import Plan
from gristbook.targets.results import Packaging
from gristbook.worksheet import Value, number

BREW = """---
title: A trial
batch: 20 L
malts:
  - 4 kg pale ale malt
hops:
  - 30 g Fuggle, 4.5 %, 60 min
yeast:
  - {yeast}
mash:
  - 67 °C, 60 min
ferment:
  - 20 °C, 10 days
carbonation: 2.0 volumes, primed with {sugar}
---
"""


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    def build(sugar: str = "table sugar", yeast: str = "11 g irish ale yeast, dried") -> Plan:
        outcome = plan_of(BREW.format(sugar=sugar, yeast=yeast))
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


def packed(plan: Plan) -> Packaging[Value]:
    assert plan.figures.packaging is not None
    return plan.figures.packaging


@pytest.mark.parametrize("extract", ["dried malt extract", "light dried malt extract", "dried malt extract: wheat"])
def test_malt_extract_primes_by_what_of_it_ferments(plan: Callable[..., Plan], extract: str) -> None:
    # From 0.88 to 2.0 volumes of 1.9768 g/L: 2.214 g/L of gas. Of dried extract 96 % is solids, of which 0.8192 × 0.74
    # ferments, and Balling has 0.9565 g of gas from 2.0665 g of extract: 0.26936 g/g, so 8.220 g/L.
    found = packed(plan(extract.replace("dried malt extract: wheat", "wheat dried malt extract")))
    assert number(found.sugar_per_litre or 0.0) == pytest.approx(8.220, rel=1e-3)
    # Ethanol: 0.96 × 0.60621 / 2.0665 = 0.28162 g/g, 2.315 g/L, of 789.24 g/L: 0.293 % by volume.
    assert number(found.added_alcohol or 0.0) == pytest.approx(0.293, abs=0.002)


def test_nobody_knows_malt_extract_as_well_as_sugar(plan: Callable[..., Plan]) -> None:
    extract, sugar = packed(plan("dried malt extract")).sugar_per_litre, packed(plan()).sugar_per_litre
    assert extract is not None
    assert sugar is not None
    assert "apparent attenuation of malt extract" in dict(extract.doubts)
    assert extract.spread / extract.number > sugar.spread / sugar.number


def test_liquid_extract_does_not_prime(plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(BREW.format(sugar="light liquid malt extract", yeast="11 g irish ale yeast, dried"))
    assert any("nobody can say how much gas" in str(problem) for problem in outcome.problems)


def test_the_yeasts_rate_stands_against_the_one_that_is_wanted(plan: Callable[..., Plan]) -> None:
    # A pack of 100 thousand million cells in so many litres of so many degrees Plato.
    brew = plan(yeast="2 packs irish ale yeast, liquid")
    pitch = brew.figures.pitch
    assert pitch is not None
    litres, plato = brew.figures.volumes.into_fermenter.number, brew.figures.wort.original_plato.number
    assert number(pitch.yeasts[0].rate or 0.0) == pytest.approx(200 / litres / plato)
    assert number(pitch.rate) == 0.75
