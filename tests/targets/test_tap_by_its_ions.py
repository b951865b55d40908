"""A tap that a recipe tells in one line: its ions are reckoned as those of a report in the pantry are."""

from collections.abc import Callable
from typing import Any

import pytest


@pytest.fixture
def treated(trial: Callable[..., Any]) -> Callable[..., Any]:
    return lambda *lines: trial(water=lines).figures.chemistry.treated


def test_ions_are_those_of_the_line(treated: Callable[..., Any]) -> None:
    ions = treated("tap, Ca 60, Mg 8, Na 20, SO4 45, Cl 30, HCO3 140")
    found = [it.number for it in (ions.calcium, ions.magnesium, ions.sodium, ions.sulfate, ions.chloride)]
    assert found == pytest.approx([60, 8, 20, 45, 30])
    # 61.0169 mg of bicarbonate and 50.0435 mg of calcium carbonate are a milliequivalent (molmass).
    assert ions.alkalinity.number == pytest.approx(140 * 50.0435 / 61.0169, rel=1e-3)


def test_half_of_distilled_water_halves_them(treated: Callable[..., Any]) -> None:
    ions = treated("tap, Ca 60, Mg 8, Na 20, SO4 45, Cl 30, HCO3 140", "50 % distilled water")
    assert ions.calcium.number == pytest.approx(30)


def test_alkalinity_is_told_as_calcium_carbonate(treated: Callable[..., Any]) -> None:
    assert treated("Ca 60 mg/L, Mg 8 ppm, alkalinity 115 as CaCO3").alkalinity.number == pytest.approx(115)
