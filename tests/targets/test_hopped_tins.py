"""A hopped tin is named as one wherever it is named: with the plain extract in its place the beer is hardly bitter."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.targets.buying.shopping import shopping
from gristbook.targets.figures import Plan
from gristbook.targets.method.whole import steps
from gristbook.text.writing import sections_of

TIN = """---
title: A tin
batch: 20 L
kettle: 7 L
boil: 15 min
extracts:
  - 1.7 kg {tin}
  - 1 kg light liquid malt extract, 10 min
hops:
  - 20 g Challenger, 8 %, 10 min
yeast:
  - 11 g irish ale yeast, dried
ferment:
  - 19 °C, 10 days
---
Prose.
"""
LABELLED = "light liquid malt extract, 0 min, 26 IBU in 20 L"
NAME = "Liquid malt extract, light, hopped"


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    def build(tin: str = LABELLED) -> Plan:
        outcome = plan_of(TIN.format(tin=tin))
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


def bought(*plans: Plan) -> dict[str, float]:
    lists = shopping(plans)
    return {it.name: it.amount.number for it in lists if it.section == "Malt extract" and it.amount is not None}


@pytest.mark.parametrize("tin", [LABELLED, f"hopped {LABELLED}", LABELLED.replace("light", "Hopped light")])
def test_a_hopped_tin_is_named_so_in_the_model_and_the_method(plan: Callable[..., Plan], tin: str) -> None:
    brew = plan(tin)
    assert [sugar.name for sugar in brew.recipe.sugars] == [NAME, "Liquid malt extract, light"]
    said = " ".join("".join(map(str, sentence)) for step in steps(brew) for sentence in step.sentences)
    assert said.count("hopped light liquid malt extract") == 2  # weighed out, and stirred in
    assert "Stir in the hopped malt extract" in {step.title for step in steps(brew)}


def test_a_list_does_not_take_a_hopped_tin_for_a_plain_one_or_for_one_of_another_label(
    plan: Callable[..., Plan],
) -> None:
    assert bought(plan(), plan(), plan(LABELLED.replace("26", "40"))) == {
        f"{NAME} (26 IBU in 20 L)": 3.4,
        f"{NAME} (40 IBU in 20 L)": 1.7,
        "Liquid malt extract, light": 3.0,
    }


@pytest.mark.parametrize("us", [False, True])
def test_a_hopped_tin_comes_back_from_what_is_written_of_it(plan: Callable[..., Plan], us: bool) -> None:
    lines = dict(sections_of(plan().recipe, us=us))["extracts"]
    assert "light hopped, flameout" in lines[0]
    again = plan(lines[0].partition(" kg " if not us else " oz ")[2])
    assert again.recipe.sugars[0].name == NAME
    assert again.figures.bitterness.total.number == pytest.approx(plan().figures.bitterness.total.number, rel=1e-4)
