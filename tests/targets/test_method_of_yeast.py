"""What the method says of a starter, of fresh yeast for bottles and of their days, and where it says nothing."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.targets.figures import Plan
from gristbook.targets.method.whole import Step, steps

from .test_method_of_brews import values, words

TEXT = """---
title: A trial
batch: 20 L
boil: 60 min
malts:
  - {malt} kg pale ale malt
yeast:
  - {yeast}
mash:
  - 67 °C, 60 min
ferment:
  - {ferment}
carbonation: {gas}
---
Prose.
"""


@pytest.fixture
def method(plan_of: Callable[..., Any]) -> Callable[..., dict[str, Step]]:
    """A brew's steps by their kind, the last of each."""

    def build(
        malt: float = 4, yeast: str = "11 g irish ale yeast, dried", ferment: str = "19 °C, 10 days", gas: str = "2.2"
    ) -> dict[str, Step]:
        gas = gas if "keg" in gas else f"{gas} volumes, primed with table sugar"
        outcome = plan_of(TEXT.format(malt=malt, yeast=yeast, ferment=ferment, gas=gas))
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return {step.kind: step for step in steps(outcome.plan)}

    return build


COLD = "11 °C, 12 days\n  - 16 °C, 3 days\n  - 2 °C, {} days"


def test_too_little_liquid_yeast_is_grown_first_in_a_jar_that_is_never_sealed(
    method: Callable[..., dict[str, Step]],
) -> None:
    """20 L of about 11 °P want some 165 thousand million cells: the published 2 L make 205 of one pack, 1 L 152."""
    step = method(yeast="1 pack irish ale yeast")["starter"]
    assert values(step, "L") == [2.0]
    assert values(step, "g")[0] == pytest.approx(194, abs=1)  # 2 L of 9 °P, from powder of 96 %
    assert "never a lid" in words(step)
    assert any("never sealed" in str(caution) for caution in step.cautions)
    assert step.aids == ("scald",)
    assert "buy another pack besides" in words(method(8, yeast="1 pack irish ale yeast")["starter"])


def test_enough_yeast_and_dried_yeast_are_not_grown(method: Callable[..., dict[str, Step]]) -> None:
    assert "starter" not in method(yeast="2 packs irish ale yeast")
    assert "starter" not in method()
    assert next(iter(method())) == "weigh"


def test_an_ordinary_beer_gets_no_fresh_yeast_and_two_weeks(method: Callable[..., dict[str, Step]]) -> None:
    found = method()
    assert "fresh dried yeast" not in words(found["prime"])
    assert values(found["keep"], "d")[0] == 14


@pytest.mark.parametrize(("days", "rest", "fresh"), [(14, 14, False), (20, 14, False), (21, 21, True), (35, 21, True)])
def test_a_beer_that_stood_cold_for_three_weeks_gets_fresh_yeast_and_a_third_week(
    method: Callable[..., dict[str, Step]], days: int, rest: int, fresh: bool
) -> None:
    found = method(yeast="22 g german lager yeast, dried", ferment=COLD.format(days))
    assert ("fresh dried yeast" in words(found["prime"])) == fresh
    assert values(found["keep"], "d")[0] == rest
    assert values(found["keep"], "d")[1] == 15 + 3 + days + rest, (
        "and the days until it is ready count them, and the readings'"
    )


def test_a_strong_beer_gets_fresh_yeast_and_eight_weeks(method: Callable[..., dict[str, Step]]) -> None:
    found = method(10)
    assert "the same again or one that goes no further" in words(found["prime"])
    beer = values(found["prime"], "L")[0]
    assert values(found["prime"], "g")[-1] == pytest.approx(0.1 * beer), "a tenth of a gram a litre"
    assert values(found["keep"], "d")[0] == 56


def test_a_keg_gets_none(method: Callable[..., dict[str, Step]]) -> None:
    found = method(10, ferment=COLD.format(30), gas="2.4 volumes, keg")
    assert not any("fresh dried yeast" in words(step) for step in found.values())
