"""What the pantry says of waters, salts and acids, held to chemistry and to an outside library of molecules."""

from pathlib import Path

import pytest
from molmass import Formula

from gristbook.equations.salts import SALTS as CHEMISTRY
from gristbook.pantry.fields import ACID_FORMULAS, SALT_FORMULAS
from gristbook.pantry.pantry import Pantry
from gristbook.pantry.records import Spread
from gristbook.problems import Problems

PANTRY = Pantry.load(None, Problems())

CHARGES = {"calcium": ("Ca", 2), "magnesium": ("Mg", 2), "sodium": ("Na", 1)}
AGAINST = {"bicarbonate": ("HCO3", 1), "sulfate": ("SO4", 2), "chloride": ("Cl", 1)}


def equivalents(water: object, ions: dict[str, tuple[str, int]]) -> float:
    total = 0.0
    for name, (formula, charge) in ions.items():
        concentration: Spread = getattr(water, name)
        total += 1000 * concentration.typical * charge / Formula(formula).mass
    return total


@pytest.mark.parametrize("water", PANTRY.waters.records, ids=lambda water: water.name)
def test_a_water_carries_no_charge(water: object) -> None:
    # No water is charged: cations and anions balance. Potassium and nitrate, which no brewer asks for, and rounding are
    # given a tenth; the molar masses are the molmass library's.
    cations, anions = equivalents(water, CHARGES), equivalents(water, AGAINST)
    assert cations == pytest.approx(anions, rel=0.1, abs=1e-9)


def test_waters_grow_harder_in_the_order_of_their_names() -> None:
    names = ("distilled", "reverse-osmosis", "soft tap", "moderately hard tap", "hard tap", "very hard chalk")
    found = [PANTRY.waters.look_up(f"{name} water").only for name in names]
    calcium = [water.calcium.typical for water in found if water is not None]
    assert len(calcium) == len(names)
    assert calcium == sorted(calcium)


def test_the_formulas_that_may_be_written_are_those_that_chemistry_knows() -> None:
    metabisulfites = {"K2S2O5", "Na2S2O5"}
    assert set(SALT_FORMULAS) - metabisulfites == {salt.formula for salt in CHEMISTRY.values()}
    assert metabisulfites <= set(SALT_FORMULAS)
    for formula in (*SALT_FORMULAS, *ACID_FORMULAS):
        assert Formula(formula.replace("·2H2O", "(H2O)2").replace("·7H2O", "(H2O)7").replace("·6H2O", "(H2O)6")).mass


def test_every_formula_has_a_salt_and_every_salt_says_what_it_is_for() -> None:
    assert {salt.formula for salt in PANTRY.salts.records} == set(SALT_FORMULAS)
    assert {acid.formula for acid in PANTRY.acids.records} == set(ACID_FORMULAS)
    assert all(record.purpose for record in (*PANTRY.salts.records, *PANTRY.acids.records))


def test_metabisulfite_is_a_sulfite() -> None:
    for salt in PANTRY.salts.records:
        assert (salt.allergen == "sulfite") == ("S2O5" in salt.formula), salt.name


@pytest.mark.parametrize(
    ("name", "density"),
    # Handbook densities at 20 °C, from memory: lactic acid of 88 % 1.206, phosphoric of 10, 75 and 85 %.
    [
        ("lactic acid 88 %", 1206),
        ("phosphoric acid 10 %", 1053),
        ("phosphoric acid 75 %", 1579),
        ("phosphoric acid 85 %", 1685),
    ],
)
def test_an_acid_is_as_heavy_as_handbooks_say(name: str, density: float) -> None:
    acid = PANTRY.acids.look_up(name).only
    assert acid is not None
    assert acid.density.typical == pytest.approx(density, rel=0.005)
    assert f"{acid.strength.typical:.0%}".replace("%", " %") in acid.name


TOWN = "- name: Town tap\n  calcium: 60 mg/L\n  magnesium: 8 mg/L\n"


def laid_over(folder: Path, text: str) -> tuple[Pantry, list[str]]:
    (folder / "waters.yaml").write_text(text, "utf-8")
    problems = Problems()
    return Pantry.load(folder, problems, "pantry"), [str(problem) for problem in problems]


def test_an_authors_report_may_give_alkalinity_instead_and_leave_ions_out(tmp_path: Path) -> None:
    pantry, problems = laid_over(tmp_path, f"{TOWN}  alkalinity: 150 ppm (140 to 160)\n  chloramine: 2 mg/L\n")
    water = pantry.waters.look_up("town").only
    assert not problems
    assert water is not None
    assert water.alkalinity is not None
    assert (water.alkalinity.typical, water.alkalinity.low) == pytest.approx((0.150, 0.140))
    assert (water.bicarbonate, water.sodium, water.sulfate, water.chlorine) == (None, None, None, None)


@pytest.mark.parametrize(
    ("more", "problem"),
    [
        (
            "",
            "pantry/waters.yaml:1:3: error: a water with neither bicarbonate nor alkalinity nor acid capacity; "
            "expected one of",
        ),
        (
            "  alkalinity: 150 mg/L\n  bicarbonate: 180 mg/L\n",
            "1:3: error: a water with both bicarbonate and alkalinity",
        ),
        ("  alkalinity: 150 mg\n", '4:15: error: "150 mg" is not a concentration'),
        ("  bicarbonate: 60 g\n  nitrate: 5 mg/L\n", '5:3: error: a water has no "nitrate"'),
    ],
)
def test_a_report_that_cannot_be_used_is_a_problem(tmp_path: Path, more: str, problem: str) -> None:
    pantry, problems = laid_over(tmp_path, TOWN + more)
    assert any(problem in one for one in problems), problems
    assert not pantry.waters.look_up("town").found


def test_a_report_may_give_its_acid_capacity_and_chloramine_as_itself(tmp_path: Path) -> None:
    more = "  acid capacity: 3.2 mmol/L (3.0 to 3.4)\n  chloramine: 2 mg/L\n  chloramine told as: NH2Cl\n"
    pantry, problems = laid_over(tmp_path, TOWN + more)
    water = pantry.waters.look_up("town").only
    assert not problems
    assert water is not None
    assert water.acid_capacity is not None
    assert (water.acid_capacity.typical, water.acid_capacity.high) == (3.2, 3.4)
    assert (water.bicarbonate, water.alkalinity, water.chloramine_told_as) == (None, None, "NH2Cl")


def test_chloramine_told_as_nobody_knows_what_is_a_problem(tmp_path: Path) -> None:
    pantry, problems = laid_over(tmp_path, f"{TOWN}  alkalinity: 150 mg/L\n  chloramine told as: chlorine\n")
    assert any("5:23: error: " in one and "Cl2 or NH2Cl" in one for one in problems), problems
    assert not pantry.waters.look_up("town").found


def test_alkalinity_laid_over_our_bicarbonate_takes_its_place(tmp_path: Path) -> None:
    pantry, problems = laid_over(tmp_path, "- name: Hard tap water\n  alkalinity: 240 mg/L\n")
    water = pantry.waters.look_up("hard tap water").only
    assert not problems
    assert water is not None
    assert water.bicarbonate is None
    assert water.alkalinity is not None
    assert water.alkalinity.typical == pytest.approx(0.24)
