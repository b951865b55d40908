"""Doses of salts, acids and sulfites: what is usual passes, what is not is said, and a slip of the scales is caught."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.problems import Place, Severity
from gristbook.targets.advice.against import told
from gristbook.targets.advice.doses import DOSES, row_for
from gristbook.targets.conventions import PRACTICE


def dose_verdict(name: str, mass_g: float, water_l: float) -> tuple[Severity | None, str]:
    row = row_for(name)
    found = [*row.against(name, mass_g / water_l, Place(""))] if row else []
    return (found[0].severity, told(found[0].words)) if found else (None, "")


OUNCE_G, FLUID_OUNCE_ML = 28.349523125, 29.5735295625

USUAL = [
    # Grams in 30 L that brewers weigh out, common practice.
    ("Potassium metabisulfite", 0.25),
    ("Gypsum", 6),
    ("Calcium chloride, dihydrate", 6),
    ("Epsom salt", 3),
    ("Table salt", 3),
    ("Baking soda", 3),
    ("Chalk", 6),
    ("Slaked lime", 3),
]


@pytest.mark.parametrize(("name", "mass_g"), USUAL)
def test_ounces_taken_for_grams_are_an_error(name: str, mass_g: float) -> None:
    assert dose_verdict(name, mass_g, 30) == (None, "")
    severity, words = dose_verdict(name, mass_g * OUNCE_G, 30)
    assert severity is Severity.ERROR
    assert name in words


@pytest.mark.parametrize(("name", "mass_g"), USUAL)
def test_even_a_small_dose_in_ounces_is_said(name: str, mass_g: float) -> None:
    assert dose_verdict(name, mass_g / 4 * OUNCE_G, 30)[0] is not None, "a quarter of the usual dose, 28-fold"


def test_a_row_warns_before_it_refuses_and_says_why() -> None:
    for row in DOSES:
        assert row.usual < row.most < 28 * row.usual
        assert row.why
        assert row.standing == PRACTICE or row.standing.startswith("from memory")


def test_a_fruit_is_not_the_lime_that_burns() -> None:
    assert dose_verdict("Lime peel", 60, 30) == (None, "")


@pytest.mark.parametrize(
    ("line", "severity"),
    [
        ("6 g gypsum", None),
        ("10 g gypsum\n  - 12 g gypsum, in the mash", Severity.WARNING),
        ("170 g gypsum", Severity.ERROR),
        ("7 g potassium metabisulfite", Severity.ERROR),
        ("4 mL lactic acid 88 %", None),
        ("20 mL lactic acid 88 %", Severity.WARNING),
        ("118 mL lactic acid 88 %", Severity.ERROR),
        ("40 mL phosphoric acid 10 %", None),
        ("40 mL phosphoric acid 85 %", Severity.ERROR),
    ],
)
def test_a_recipe_with_a_slip_is_not_published(
    line: str, severity: Severity | None, plan_of: Callable[..., Any]
) -> None:
    outcome = plan_of(
        "---\ntitle: A trial\nbatch: 20 L\nmalts:\n  - 4 kg pale ale malt\nhops:\n  - 28 g Fuggle, 4.5 %, 60 min\n"
        "yeast:\n  - 11 g american ale yeast, clean, dried\nmash:\n  - 67 °C, 60 min\nferment:\n  - 19 °C, 10 days\n"
        f"carbonation: 2.2 volumes, keg\nwater:\n  - {line}\n---\n"
    )
    assert [problem.severity for problem in outcome.problems] == ([severity] if severity else [])
    assert (outcome.plan is None) == (severity is Severity.ERROR)
