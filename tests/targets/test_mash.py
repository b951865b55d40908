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


# By hand. A brewhouse that nobody described has 72 % from its ordinary grist: 20 L at 1.045, 1.5 L left in the kettle.
# 1.045 is 11.1957 °P, 0.116785 kg/L: 21.5 L hold 2.51087 kg, which 2.51087 / (0.72 × 0.768) = 4.5408 kg of malt bring.
# A kilogram of it keeps 1 + 0.04 + 0.62 × 0.768 = 1.516 L of wort, all of it 6.8846 L. Of 2.7 × 4.5408 = 12.2601 L of
# water 7.7193 L run off first, and the other 16.7807 of 24.5 L by the sparge: 6.8846 / 14.6039 × 6.8846 / 23.6652 =
# 0.13714 stays behind, 0.86286 runs off, and 0.72 / 0.86286 = 0.83444 has dissolved.
# 4 kg of malt of 0.80 × 0.96 = 0.768 hold 3.072 kg of extract, of which 0.83444 dissolves: 2.5634 kg. The mash has
# 10.8 L of water and 0.16 L of the malt's own, so the first wort is 256.34 / (2.5634 + 0.998203 × 10.96) = 18.983 °P.
# 6.0646 L stay, 6.8 L run off first and 17.7 L after them: 6.0646 / 12.8646 × 6.0646 / 23.7646 = 0.12030 stays behind,
# 0.87970 runs off, and with what dissolved 0.83444 × 0.87970 = 0.73405 comes out.
FIRST_PLATO, CONVERSION, LAUTER, EFFICIENCY = 18.983, 0.83444, 0.87970, 0.73405


def test_the_first_wort_is_the_extract_that_dissolves_in_the_mashs_water(plan: Callable[..., Plan]) -> None:
    assert mash(plan()).first_plato.number == pytest.approx(FIRST_PLATO, abs=0.002)


def test_a_stated_efficiency_tells_what_dissolves_and_the_load_what_of_it_runs_off(plan: Callable[..., Plan]) -> None:
    found = plan()
    assert mash(found).conversion.number == pytest.approx(CONVERSION, abs=1e-4)
    assert mash(found).lauter.number == pytest.approx(LAUTER, abs=1e-4)
    assert number(found.figures.wort.mash_efficiency or 0.0) == pytest.approx(EFFICIENCY, abs=1e-4)


def test_without_a_sparge_all_of_it_runs_off_at_once(plan: Callable[..., Plan]) -> None:
    # 24.5 L of 24.5 + 6.0646.
    assert mash(plan(mash="67 °C, 60 min, 28.5 L")).lauter.number == pytest.approx(0.80158, abs=1e-4)


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
