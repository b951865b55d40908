"""Doses of salts, acids and sulfites: what is usual passes, what is not is said, and a slip of the scales is caught."""

import csv
from collections.abc import Callable
from pathlib import Path
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


def test_lactic_acid_that_is_tasted_is_warned_of_once_and_stopped_as_any_acid(plan_of: Callable[..., Any]) -> None:
    """20 mEq/L in 28.5 L are 49.8 mL of 11.45 mEq each."""
    said = {ml: plan_of(SALTED.format(f"{ml} mL lactic acid 88 %")).problems for ml in (49, 50.5)}
    assert [problem.severity for problem in said[49]] == [Severity.WARNING]
    assert sorted(problem.severity.value for problem in said[50.5]) == ["error", "warning"]


TABLE = list(csv.DictReader(Path(__file__).with_name("doses.csv").open(encoding="utf-8", newline="")))
SALTED = (
    "---\ntitle: A trial\nbatch: 20 L\nmalts:\n  - 4 kg pale ale malt\nhops:\n  - 28 g Fuggle, 4.5 %, 60 min\n"
    "yeast:\n  - 11 g american ale yeast, clean, dried\nmash:\n  - 67 °C, 60 min\nferment:\n  - 19 °C, 10 days\n"
    "carbonation: 2.2 volumes, keg\nwater:\n  - {}\n---\n"
)


@pytest.mark.parametrize("row", TABLE, ids=[row["line"].partition(" g ")[2] or row["line"] for row in TABLE])
def test_a_dose_passes_to_its_bound_is_warned_of_beyond_and_stopped_beyond_the_last(
    row: dict[str, str], plan_of: Callable[..., Any]
) -> None:
    """4 kg keep 4 L, and 20 L are left of 24.5 L: 28.5 L of water in all, over which a dose is spread."""
    water_l, strength = 28.5, float(row["of"] or 1)
    usual, most = float(row["usual"]), float(row["most"])

    def said(dose: float) -> list[Severity]:
        line = row["line"].format(x=f"{dose * water_l / strength:.7g}")
        return [problem.severity for problem in plan_of(SALTED.format(line)).problems]

    assert said(0.9995 * usual) == []
    assert said(1.0005 * usual) == said(0.9995 * most) == [Severity.WARNING]
    assert said(1.0005 * most) == [Severity.ERROR]


def test_every_row_of_doses_is_in_the_table() -> None:
    in_water = {row_for(row["line"].partition(" g ")[2]) for row in TABLE}
    assert in_water - {None} == set(DOSES)


SPICED = SALTED.replace("water:", "finings and spices:")


@pytest.mark.parametrize(
    ("line", "usual", "most", "litres"),
    [
        ("{x} g bread soda, 10 min", 0.4, 1.5, 28.5),
        ("{x} g irish moss, 10 min", 0.6, 5.0, 20),
        ("{x} mL irish moss, 10 min", 0.6, 5.0, 20 / 0.5),
        ("{x} pieces carrageenan tablet, 10 min", 0.3, 3.0, 20 / 2.5),
    ],
)
def test_a_spice_that_only_its_name_tells_is_held_to_the_water_and_a_fining_to_the_batch(
    line: str, usual: float, most: float, litres: float, plan_of: Callable[..., Any]
) -> None:
    """Half a gram fills a millilitre of it and a tablet weighs 2.5 g; all from memory or common practice, no source."""

    def said(dose: float) -> list[Severity]:
        problems = plan_of(SPICED.format(line.format(x=f"{dose * litres:.7g}"))).problems
        return [problem.severity for problem in problems if problem.what.startswith("more than ")]

    assert said(0.9995 * usual) == []
    assert said(1.0005 * usual) == said(0.9995 * most) == [Severity.WARNING]
    assert said(1.0005 * most) == [Severity.ERROR]


def test_doses_of_one_thing_are_taken_together(plan_of: Callable[..., Any]) -> None:
    """Twice 0.35 g/L of gypsum are more than 0.6, and neither is by itself."""
    half = "10 g gypsum"
    assert plan_of(SALTED.format(half)).problems == ()
    assert [it.severity for it in plan_of(SALTED.format(f"{half}\n  - {half}, in the mash")).problems] == [
        Severity.WARNING
    ]
