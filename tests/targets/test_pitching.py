"""How many cells a wort is pitched with, by its gravity and its yeast, and how much dried yeast by how cold it is.

Degrees Plato are those of the brewing chemists' table: 1.050 is 12.39, 1.060 is 14.74, 1.061 is 14.98, 1.096 is 22.9.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.sheet.value import number
from gristbook.targets.advice.advice import advise
from gristbook.targets.advice.advice_rows import ROWS
from gristbook.targets.beer.pitching import usual_dose
from gristbook.targets.figures import Plan

BREW = """---
title: A trial
batch: {litres} L
original gravity: {gravity}
malts:
  - 75 % pale ale malt
sugars:
  - 25 % table sugar
hops:
  - 30 g Fuggle, 4.5 %, 60 min
yeast:
  - {yeast}
mash:
  - 67 °C, 60 min
ferment:
  - {heat} °C, 10 days
---
"""

ALE, LAGER = "english ale yeast, attenuative, dried", "german lager yeast, dried"


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    def build(yeast: str, gravity: float = 1.048, litres: float = 20, heat: float = 12) -> Plan:
        outcome = plan_of(BREW.format(yeast=yeast, gravity=gravity, litres=litres, heat=heat))
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


@pytest.mark.parametrize(
    ("yeast", "gravity", "rate"),
    [
        # G. J. Fix and L. A. Fix, An Analysis of Brewing Techniques, 1997, as quoted: 0.75 for ale, 1.5 for lager.
        (ALE, 1.050, 0.75),
        (LAGER, 1.050, 1.5),
        # From memory: C. White and J. Zainasheff, Yeast, 2010: 1.0 and 2.0 above 1.060, and 1.0 for hybrid yeasts.
        (ALE, 1.060, 0.75),
        (ALE, 1.061, 1.0),
        (LAGER, 1.060, 1.5),
        (LAGER, 1.061, 2.0),
        ("kölsch yeast", 1.048, 1.0),
        ("altbier yeast", 1.048, 1.0),
        ("california common yeast", 1.048, 1.0),
        ("california common yeast", 1.070, 2.0),
        # Wheat yeast and kveik are often pitched at less, but nobody is known to have published a rate.
        ("german wheat yeast", 1.048, 0.75),
        ("kveik yeast", 1.070, 1.0),
        # What the author says holds at any gravity.
        ("belgian abbey ale yeast, pitch rate 0.6", 1.080, 0.6),
        (f"{LAGER}, pitch rate 1.2", 1.050, 1.2),
    ],
)
def test_a_wort_asks_for_cells_by_its_gravity_and_its_yeast(
    yeast: str, gravity: float, rate: float, plan: Callable[..., Plan]
) -> None:
    pitch = plan(yeast, gravity).figures.pitch
    assert pitch is not None
    assert pitch.rate.number == rate


@pytest.mark.parametrize(
    ("yeast", "gravity", "litres", "cells"),
    [
        # A beer column of 30 April 2012: 0.75 × 5.5 US gal × 15 °P is 234 thousand million; 15 °P is 1.0610, and the
        # column's rule has no step, so the author writes its rate.
        (f"{ALE}, pitch rate 0.75", 1.0611, 20.82, 234),
        # By hand: 1.5 × 20 L × 11.91 °P.
        (LAGER, 1.048, 20, 357.4),
        # By hand: 1.0 × 15 L × 22.9 °P, where a bitter's rate would give 258.
        ("english ale yeast, attenuative", 1.096, 15, 344),
    ],
)
def test_printed_and_hand_worked_pitches_come_out(
    yeast: str, gravity: float, litres: float, cells: float, plan: Callable[..., Plan]
) -> None:
    assert plan(yeast, gravity, litres).sheet["cells-to-pitch"].number == pytest.approx(cells, abs=1)


@pytest.mark.parametrize(
    ("heat", "low", "typical", "high"),
    [
        # A dried-yeast maker's brochure, p. 23: 80 to 120 g/hL at 12 to 15 °C.
        (15, 0.8, 1.0, 1.2),
        (12, 0.8, 1.0, 1.2),
        # By hand: two thirds of the way to the next.
        (10, 1.6, 2.0, 2.4),
        # A technical sheet of a lager yeast, as quoted: 200 to 300 g/hL at 9 °C.
        (9, 2.0, 2.5, 3.0),
        (8, 2.0, 2.5, 3.0),
    ],
)
def test_dried_lager_yeast_is_dosed_by_how_cold_it_is(
    heat: float, low: float, typical: float, high: float, plan: Callable[..., Plan]
) -> None:
    worked = plan(LAGER, heat=heat)
    dose = usual_dose(worked.recipe, worked.figures.wort)
    assert (dose.low, dose.number, dose.high) == pytest.approx((low, typical, high))
    given = worked.figures.pitch.yeasts[0].amount  # type: ignore[union-attr]
    assert given.number == pytest.approx(20 * typical, abs=0.01)


def test_dried_ale_yeast_is_weighed_by_the_litre(plan: Callable[..., Plan]) -> None:
    """A worked line of 2013: 65 g/hL for 20 L are 13 g."""
    given = plan("english ale yeast, attenuative, dried").figures.pitch.yeasts[0].amount  # type: ignore[union-attr]
    assert given.number == pytest.approx(13)


def test_a_strong_lager_is_dosed_for_its_cells(plan: Callable[..., Plan]) -> None:
    """By hand: 1.080 is 19.32 °P, so 2.0 × 19.32 million a millilitre, against 1.5 × 12: 2.147 times 1.0 g/L."""
    worked = plan(LAGER, 1.080)
    assert usual_dose(worked.recipe, worked.figures.wort).number == pytest.approx(2.147, abs=0.005)


@pytest.mark.parametrize(
    ("grams", "heat", "warned"), [(20, 10.9, True), (20, 11, False), (40, 9, False), (38, 9, True)]
)
def test_dried_lager_yeast_is_not_pitched_cold_at_the_small_dose(
    grams: float, heat: float, warned: bool, plan: Callable[..., Plan]
) -> None:
    """A dried-yeast maker's directions: 80 to 120 g/hL, not under 11 °C; a technical sheet: 200 g/hL and more at 9."""
    advice = advise(plan(f"{grams} g {LAGER}", heat=heat), ROWS)
    assert any(it.key == "cold dried lager yeast" for it in advice) is warned
    assert all(number(it.figure) == heat for it in advice if it.key == "cold dried lager yeast")
