"""Equations held to witnesses that know nothing of brewing: IAPWS-95, the OIML tables, atomic masses, numpy."""

import numpy as np
import pytest
from iapws import IAPWS95
from molmass import Formula

from gristbook.equations import alcohol, boiling, density, gravity, mash

# OIML R 22 (1973), the same in Council Directive 76/766/EEC: ethanol in water at 20 °C by mass fraction, kg/m³.
# The first five were read in the directive, the others are from memory.
OIML_A = (
    *(998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388),
    *(306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426),
)


def oiml_density(mass_fraction: float) -> float:
    return sum(a * mass_fraction**power for power, a in enumerate(OIML_A))


@pytest.mark.parametrize("temperature", [0.5, 4, 10, 20, 40, 60, 80, 90, 99.9])
def test_density_of_water_is_that_of_iapws_95(temperature: float) -> None:
    witness = IAPWS95(T=temperature + 273.15, P=0.101325).rho
    # 0.015 kg/m³ at the boil is the step from the temperature scale of 1968, for which Kell wrote, to that of 1990.
    assert density.water_density(temperature=temperature) == pytest.approx(witness, abs=0.016)


@pytest.mark.parametrize("temperature", [40, 65, 78, 95, 99.9])
def test_hot_wort_swells_as_water_does_in_iapws_95(temperature: float) -> None:
    swells = IAPWS95(T=293.15, P=0.101325).rho / IAPWS95(T=temperature + 273.15, P=0.101325).rho
    assert density.hot_volume(cool_l=25, temperature=temperature) == pytest.approx(25 * swells, abs=0.001)


@pytest.mark.parametrize("altitude", [-400, 0, 40, 500, 1609, 3000, 5000])
def test_water_boils_where_iapws_95_has_steam_of_that_pressure(altitude: float) -> None:
    witness = IAPWS95(P=boiling.standard_pressure(altitude=altitude) / 1000, x=0).T - 273.15
    assert boiling.boiling_point(altitude=altitude) == pytest.approx(witness, abs=0.001)


@pytest.mark.parametrize("extract", [0, 2.5, 10, 12, 20, 30])
def test_gravity_is_the_root_that_numpy_finds_of_the_printed_cubic(extract: float) -> None:
    roots = np.roots([135.997, -630.272, 1111.14, -616.868 - extract])
    (witness,) = roots[np.isreal(roots)].real
    assert gravity.gravity_from_plato(extract=extract) == pytest.approx(witness, abs=1e-11)


@pytest.mark.parametrize("grams_per_litre", [0, 50, 100, 144, 250])
def test_wort_gravity_is_the_root_that_numpy_finds_of_the_balance(grams_per_litre: float) -> None:
    roots = np.roots([135.997, -630.272, 1111.14, -616.868, -grams_per_litre / (10 * 0.998203)])
    witness = max(roots[np.isreal(roots)].real)
    assert gravity.wort_gravity(extract_kg=grams_per_litre / 1000 * 20, wort_l=20) == pytest.approx(witness, abs=1e-11)


@pytest.mark.parametrize("mash_c", [60, 65, 66.5, 67, 70, 72, 77.5, 80, 84])
def test_fermentability_lies_on_the_lines_that_numpy_draws(mash_c: float) -> None:
    witness, middle = (np.interp(c, [65, 70, 75, 80], [0.82, 0.70, 0.50, 0.30]) for c in (mash_c, 67))
    assert mash.mash_temperature_effect(mash_c=mash_c) == pytest.approx(witness / middle)


@pytest.mark.parametrize(
    ("mass_fraction", "density"), [(0.04, 991.025), (0.10, 981.848), (0.20, 968.607), (1.0, 789.239)]
)
def test_the_oiml_formula_is_written_down_rightly(mass_fraction: float, density: float) -> None:
    assert oiml_density(mass_fraction) == pytest.approx(density, abs=0.001)


@pytest.mark.parametrize("abw", [0, 1, 2, 3, 5, 8, 10, 12, 20])
def test_alcohol_by_volume_is_that_of_the_oiml_tables(abw: float) -> None:
    density = oiml_density(abw / 100)
    witness = abw * density / oiml_density(1)
    # 0.79066 has five decimals: 1 part in 150,000.
    assert alcohol.abv(abw=abw, gravity=density / oiml_density(0)) == pytest.approx(witness, rel=1e-5)


@pytest.mark.parametrize(("abw", "by_volume"), [(2, 2.5201), (5, 6.2679), (3.1811, 4), (6.3960, 8), (8.0149, 10)])
def test_alcohol_by_volume_meets_figures_worked_from_the_directive(abw: float, by_volume: float) -> None:
    gravity_of_mix = oiml_density(abw / 100) / oiml_density(0)
    assert alcohol.abv(abw=abw, gravity=gravity_of_mix) == pytest.approx(by_volume, abs=0.0002)


def test_priming_with_sucrose_gives_the_ethanol_of_its_atoms() -> None:
    ethanol_g = 4 * Formula("C2H6O").mass / Formula("C12H22O11").mass
    assert ethanol_g == pytest.approx(0.5383, abs=0.00005)
    witness_ml = 79.6 * ethanol_g / (oiml_density(1) / 1000)
    added = alcohol.priming_alcohol(sugar_g=79.6, beer_l=18.5, ethanol_yield=0.5383)
    assert added == pytest.approx(100 * witness_ml / 18500, rel=2e-4)


def test_balling_has_less_alcohol_than_the_atoms_allow_because_yeast_grows() -> None:
    most = 4 * Formula("C2H6O").mass / Formula("C12H22O11").mass
    abw = alcohol.abw_balling(original=10, real=0)
    beer_g = 100 - 10 * (0.9565 + 0.1100) / 2.0665  # of 100 g of wort, when all its 10 g of extract are fermented
    ethanol_g = abw / 100 * beer_g
    assert ethanol_g == pytest.approx(10 / 2.0665)
    assert 0.85 * most < ethanol_g / 10 < most
