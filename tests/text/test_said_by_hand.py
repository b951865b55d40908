"""What the wordings of steps and packaging come to, by sums done by hand beside each."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.text.writing import sections_of

RECIPE = """---
title: By hand
batch: 20 L
malts: 4 kg pale ale malt
hops: 28 g Fuggle, 4.5 % alpha, 60 min
yeast: 11 g american ale yeast, clean, dried
mash: {mash}
ferment: {ferment}
carbonation: {gas}
---
"""


def recipe_of(plan_of: Callable[..., Any], **said: str) -> Any:
    usual = {"mash": "67 °C, 60 min", "ferment": "19 °C, 10 days", "gas": "2.2 volumes, primed with table sugar"}
    return plan_of(RECIPE.format(**(usual | said)))


def test_a_mash_as_thick_as_told_takes_its_water_by_the_grain(plan_of: Callable[..., Any]) -> None:
    """1.25 US quarts are 1.18294 L and a pound is 0.453592 kg: 2.60794 L/kg, and 4 kg take 10.432 L."""
    outcome = recipe_of(plan_of, mash="150 °F, 75 min, 1.25 qt/lb")
    assert outcome.plan.figures.mash.water.number == pytest.approx(10.432, abs=5e-4)
    again = dict(sections_of(outcome.recipe, us=False))["mash"][0]
    assert recipe_of(plan_of, mash=again).plan.figures.mash.water.number == pytest.approx(10.432, rel=2e-3)


@pytest.mark.parametrize(
    ("gas", "dose"),
    [
        # 2/3 of a US cup of 236.588 mL, of corn sugar of 0.65 g/mL
        ("2/3 cup corn sugar", 102.52),
        # a US teaspoon of 4.92892 mL, of table sugar of 0.85 g/mL, in each half litre: g/L
        ("1 tsp sugar per 500 mL bottle", 8.3792),
    ],
)
def test_sugar_by_the_cup_and_by_the_bottle_is_weighed(gas: str, dose: float, plan_of: Callable[..., Any]) -> None:
    assert recipe_of(plan_of, gas=gas).recipe.carbonation.dose.number == pytest.approx(dose, rel=1e-4)


def test_a_rise_begins_where_the_line_before_it_says(plan_of: Callable[..., Any]) -> None:
    (step,) = recipe_of(plan_of, ferment="start at 18 °C, let it free rise to 22 °C over 5 days").recipe.ferment
    assert (step.temperature.number, step.end.number, step.days.number, step.way) == (18, 22, 5, "free rise")
