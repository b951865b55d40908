"""Bottles primed with sugar or with malt extract, and the rate that a recipe's yeast comes to."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from molmass import Formula

from gristbook.pantry import records
from gristbook.pantry.pantry import Pantry, ours
from gristbook.problems import Place, Problems
from gristbook.reading.tree import Text
from gristbook.sheet.value import number
from gristbook.targets.beer.packaging import yields
from gristbook.targets.figures import Plan
from gristbook.targets.results import Packaging
from gristbook.text.batch_lines import read_packaged
from gristbook.text.priming import read_priming_sugar
from gristbook.text.values import Desk

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


def packed(plan: Plan) -> Packaging:
    assert plan.figures.packaging is not None
    return plan.figures.packaging


WORKED = {
    # Molar masses by the standard atomic weights: carbon dioxide 44.009, ethanol 46.069, so that a gram of sugar gives
    # sucrose, C12H22O11, 342.297: 4 × 44.009 / 342.297 = 0.5143 of gas, 4 × 46.069 / 342.297 = 0.5383 of ethanol
    # glucose, C6H12O6, 180.156: 2 × 44.009 / 180.156 = 0.4886 and 0.5114
    # its hydrate, C6H12O6·H2O, 198.171: 0.4442 and 0.4649.
    # From Hibberd's 0.88 volumes at 20 °C to 2.0 are 1.12 × 1.9768 = 2.2140 g/L of gas, by Span and Wagner's density:
    # 2.2140 / 0.5143 g/L, which bring 100 × 4.305 × 0.5383 / 789.24 % of ethanol (789.24 g/L by OIML R 22).
    "table sugar": (4.305, 0.2936),
    "corn sugar": (4.984, 0.2936),
    "glucose anhydrous": (4.531, 0.2936),
}
"""By sugar, grams a litre of beer and the strength that they add, worked by hand."""

FORMULAS = {"Sucrose": "C12H22O11", "Glucose monohydrate": "C6H12O6.H2O", "Glucose anhydrous": "C6H12O6"}
"""The sugars, and how a library of chemistry writes them."""


@pytest.mark.parametrize("sugar", WORKED)
def test_a_brew_is_primed_with_what_a_handbook_works_out(plan: Callable[..., Plan], sugar: str) -> None:
    found, (dose, strength) = packed(plan(sugar)), WORKED[sugar]
    assert number(found.sugar_per_litre or 0.0) == pytest.approx(dose, abs=0.002)
    assert number(found.added_alcohol or 0.0) == pytest.approx(strength, abs=0.0003)


@pytest.mark.parametrize(
    "sugar", [record for record in ours("sugars").records if record.formula], ids=lambda it: it.name
)
def test_every_sugar_of_the_table_gives_what_its_molecules_hold(
    plan: Callable[..., Plan], sugar: records.Sugar
) -> None:
    formula, primer = Formula(FORMULAS[sugar.name]), plan(sugar.name).recipe.carbonation
    assert primer is not None
    assert primer.sugar is not None
    # Fermentation splits every six carbon atoms into two molecules of gas and two of ethanol (Gay-Lussac).
    molecules = formula.composition()["C"].count / 3
    gas, ethanol = (share.number for share in yields(primer.sugar))
    assert gas == pytest.approx(molecules * Formula("CO2").mass / formula.mass, rel=5e-5)
    assert ethanol == pytest.approx(molecules * Formula("C2H5OH").mass / formula.mass, rel=5e-5)


def test_a_batch_is_primed_by_the_same_table(plan: Callable[..., Plan]) -> None:
    desk = Desk(Pantry.load(None, Problems()), Problems())
    for sugar in (*WORKED, "dried malt extract", "amber dried malt extract"):
        packed_with = read_packaged(Text(f"2026-03-28, 19 L, 95 g {sugar}", Place("a.md")), desk)
        wanted = plan(sugar).recipe.carbonation
        assert packed_with is not None
        assert wanted is not None
        assert packed_with.primer == wanted.sugar


def test_a_sugar_of_ones_own_primes_by_its_formula(tmp_path: Path) -> None:
    figures = "  formula: C6H12O6\n  moisture: 0 %\n  fermentable: 100 %\n"
    mine = f"- name: Fruit sugar\n  kind: sugar\n{figures}  source: mine\n"
    (tmp_path / "sugars.yaml").write_text(mine, "utf-8")
    problems = Problems()
    sugar = read_priming_sugar(Text("fruit sugar", Place("a.md")), "", Desk(Pantry.load(tmp_path, problems), problems))
    assert sugar is not None
    assert [len(problems), sugar.name] == [0, "Fruit sugar"]
    assert yields(sugar)[0].number == pytest.approx(0.4886, abs=5e-5)


@pytest.mark.parametrize(
    ("extract", "dose", "strength"),
    [
        # 2.2140 g/L of gas, as above. Of dried extract 96 % is solids, of which 0.8192 × 0.74 ferments, and Balling has
        # 0.9565 g of gas and a gram of ethanol from 2.0665 g of extract: 0.26936 and 0.28162 g/g.
        ("dried malt extract", 8.220, 0.293),
        ("light dried malt extract", 8.220, 0.293),
        # 0.8192 × 0.73 of wheat, 0.26572 g/g; 0.8192 × 0.65 of dark, 0.23660: less ferments, so that more is weighed.
        ("wheat dried malt extract", 8.332, 0.293),
        ("dark dried malt extract", 9.358, 0.293),
    ],
)
def test_malt_extract_primes_by_what_of_it_ferments(
    plan: Callable[..., Plan], extract: str, dose: float, strength: float
) -> None:
    found = packed(plan(extract))
    assert number(found.sugar_per_litre or 0.0) == pytest.approx(dose, rel=1e-3)
    assert number(found.added_alcohol or 0.0) == pytest.approx(strength, abs=0.002)


def test_nobody_knows_malt_extract_as_well_as_sugar(plan: Callable[..., Plan]) -> None:
    extract, sugar = packed(plan("dried malt extract")).sugar_per_litre, packed(plan()).sugar_per_litre
    assert extract is not None
    assert sugar is not None
    assert "attenuation of Dried malt extract, light" in extract.doubts
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
