"""Salts as data: each formula against the molmass library, and each ion against what others publish of it."""

import csv
from pathlib import Path

import pytest
from molmass import Formula

from gristbook.equations.atoms import ATOMIC_MASSES, molar_mass
from gristbook.equations.salts import IONS, SALTS, alkalinity_from_salt

with Path(__file__).with_name("salts.csv").open(encoding="utf-8", newline="") as table:
    ROWS = list(csv.DictReader(table))

CHEMISTS = {
    "gypsum": "CaSO4(H2O)2",
    "calcium chloride, anhydrous": "CaCl2",
    "calcium chloride dihydrate": "CaCl2(H2O)2",
    "epsom salt": "MgSO4(H2O)7",
    "magnesium chloride hexahydrate": "MgCl2(H2O)6",
    "table salt": "NaCl",
    "baking soda": "NaHCO3",
    "chalk": "CaCO3",
    "slaked lime": "Ca(OH)2",
}


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_a_gram_of_salt_adds_what_its_atoms_weigh(row: dict[str, str]) -> None:
    found = 1000 * SALTS[row["salt"]].share(row["ion"]) / float(row["water_l"])
    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"])), row["source"]


@pytest.mark.parametrize("symbol", ATOMIC_MASSES)
def test_atoms_weigh_what_molmass_has_for_them(symbol: str) -> None:
    # Conventional weights for trade differ in the fourth figure from the exact ones: sulfur 32.06, chlorine 35.45.
    assert ATOMIC_MASSES[symbol] == pytest.approx(Formula(symbol).mass, rel=2e-4)


def test_every_salt_is_known_to_a_chemist() -> None:
    assert set(CHEMISTS) == set(SALTS)


@pytest.mark.parametrize("salt", SALTS)
def test_a_salt_weighs_what_molmass_says(salt: str) -> None:
    assert SALTS[salt].molar_mass == pytest.approx(Formula(CHEMISTS[salt]).mass, rel=1e-4)


@pytest.mark.parametrize("ion", IONS)
def test_an_ion_weighs_what_molmass_says(ion: str) -> None:
    assert IONS[ion].molar_mass == pytest.approx(Formula(IONS[ion].formula).mass, rel=1e-4)


@pytest.mark.parametrize("salt", SALTS)
def test_a_salt_is_its_ions_and_its_water(salt: str) -> None:
    found = SALTS[salt]
    hydrate = found.formula.partition("·")[2]
    water = molar_mass(hydrate) / found.molar_mass if hydrate else 0
    assert sum(found.share(ion) for ion in IONS) + water == pytest.approx(1)


@pytest.mark.parametrize("salt", SALTS)
def test_a_salt_carries_no_charge(salt: str) -> None:
    metals = {"calcium", "magnesium", "sodium"}
    charges = [n * IONS[ion].charge * (1 if ion in metals else -1) for ion, n in SALTS[salt].ions.items()]
    assert sum(charges) == 0


@pytest.mark.parametrize(("salt", "alkalinity"), [("baking soda", 11.904), ("chalk", 19.983), ("slaked lime", 26.993)])
def test_an_alkaline_salt_takes_up_the_acid_worked_apart(salt: str, alkalinity: float) -> None:
    # A gram in a litre, by the molmass library.
    found = SALTS[salt]
    meq = alkalinity_from_salt(mass_g=1, equivalents=found.equivalents, molar_mass=found.molar_mass, water_l=1)
    assert meq == pytest.approx(alkalinity, abs=0.002)


def test_a_neutral_salt_takes_up_no_acid() -> None:
    assert [salt for salt, found in SALTS.items() if found.equivalents] == ["baking soda", "chalk", "slaked lime"]
