"""The mash: what runs off a sparged tun, and what the malt's enzymes come to on either scale."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.sheet.value import number
from gristbook.targets.figures import Plan
from gristbook.targets.results import Mash

BREW = """---
title: A trial
batch: 20 L
malts:
  - {malts}
hops:
  - 30 g Fuggle, 4.5 %, 60 min
yeast:
  - 11 g irish ale yeast, dried
mash:
  - {mash}
---
"""


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    def build(malts: str = "4 kg pale ale malt, 80 % extract, 4 % moisture", mash: str = "67 °C, 60 min") -> Plan:
        outcome = plan_of(BREW.format(malts=malts, mash=mash))
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


def mash(plan: Plan) -> Mash:
    assert plan.figures.mash is not None
    return plan.figures.mash


# By hand: 4 kg of malt of 0.80 × 0.96 = 0.768 hold 3.072 kg of extract, of which 0.95 dissolves: 2.9184 kg. The mash
# has 2.7 × 4 = 10.8 L of water, so the first wort is 100 × 2.9184 / (2.9184 + 0.998203 × 10.8) = 21.304 °P.
# Of 24.5 L at the start of the boil (20 + 1.5 + 3) and 4 L kept by the grain, 28.5 L of water, 17.7 L are sparge, and
# 6.8 L run off first. A kilogram really keeps 1 + 0.7296 × 0.62 = 1.45235 L, so 5.8094 L stay: of the extract
# 5.8094 / 12.6094 stays behind the first run-off, and 5.8094 / 23.5094 of that behind the second: 0.88615 runs off, and
# 0.95 of that is 0.8418.
FIRST_PLATO, SPARGED = 21.304, 0.8418


def test_the_first_wort_is_the_extract_that_dissolves_in_the_mashs_water(plan: Callable[..., Plan]) -> None:
    assert mash(plan()).first_plato.number == pytest.approx(FIRST_PLATO, abs=0.002)


def test_a_sparge_in_one_batch_leaves_what_the_balance_says(plan: Callable[..., Plan]) -> None:
    assert number(mash(plan()).sparged or 0.0) == pytest.approx(SPARGED, abs=2e-4)


def test_what_a_batch_sparge_would_bring_moves_nothing_else(plan: Callable[..., Plan]) -> None:
    assert number(plan().figures.wort.mash_efficiency or 0.0) == pytest.approx(0.72)


def test_without_a_sparge_nobody_speaks_of_one(plan: Callable[..., Plan]) -> None:
    assert mash(plan(mash="67 °C, 60 min, 28.5 L")).sparged is None


def test_enzymes_may_be_written_on_either_scale(plan: Callable[..., Plan]) -> None:
    # Windisch-Kolbach is 3.5 times Lintner, less 16 (The Oxford Companion to Beer): 334 °WK are 100 °Lintner.
    for written in ("334 °WK", "100 °Lintner", "334 °WK ± 20"):
        roles = plan(f"4 kg pale ale malt, {written}").figures.grist.roles
        assert number(roles.diastatic_power or 0.0) == pytest.approx(100.0), written
        assert number(roles.windisch_kolbach or 0.0) == pytest.approx(334.0), written


def test_a_kilned_malt_is_base_malt_by_its_power_on_either_scale(plan: Callable[..., Plan]) -> None:
    for weak, written in ((True, "60 °WK"), (False, "120 °WK")):  # 21.7 and 38.9 °Lintner
        roles = plan(f"4 kg vienna malt, {written}").figures.grist.roles
        assert (roles.base is None) == weak, written
