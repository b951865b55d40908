"""Laws of starters, of old yeast, of energy and of a grist's enzymes."""

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gristbook.equations import alcohol, attenuation, energy, gravity, mash_enzymes, starter
from gristbook.equations.mash_enzymes import ENZYMES, enzymes_at

with Path(__file__).with_name("enzyme_ranges.csv").open(encoding="utf-8", newline="") as table:
    RANGES = list(csv.DictReader(table))

CELLS = st.floats(0, 2000)


@given(CELLS, st.floats(0.1, 20), st.floats(0, 20))
def test_a_starter_never_ends_with_fewer_cells(cells: float, litres: float, plato: float) -> None:
    assert starter.starter_cells_white_zainasheff_2010(cells=cells, starter_l=litres, fall=plato) >= cells
    assert starter.starter_cells_troester_2012(cells=cells, extract_g=litres * 100) >= cells


@given(CELLS, st.floats(0.1, 20), st.floats(1.1, 4))
def test_a_bigger_stirred_starter_grows_more(cells: float, litres: float, times: float) -> None:
    small = starter.starter_cells_troester_2012(cells=cells, extract_g=100 * litres)
    assert starter.starter_cells_troester_2012(cells=cells, extract_g=100 * litres * times) >= small - 1e-9


@given(st.floats(0.3, 25), st.floats(1.05, 3))
def test_a_bigger_standing_starter_grows_more(litres: float, times: float) -> None:
    small = starter.starter_cells_white_zainasheff_2010(cells=100, starter_l=litres, fall=7)
    assert starter.starter_cells_white_zainasheff_2010(cells=100, starter_l=litres * times, fall=7) > small


def test_growth_falls_by_no_more_than_the_published_step_where_its_two_lines_meet() -> None:
    # 1.4 and 2.33 - 0.67 × 1.4 differ by 0.008.
    below, above = (starter.starter_cells_troester_2012(cells=100 * r, extract_g=100) for r in (1.4, 1.4 + 1e-9))
    assert (below - above) / 100 == pytest.approx(0.008, abs=1e-6)


def test_extract_for_a_starter_makes_its_gravity() -> None:
    grams = starter.starter_extract(starter_l=2, gravity=1.037, potential=0.96)
    assert gravity.wort_gravity(extract_kg=grams * 0.96 / 1000, wort_l=2) == pytest.approx(1.037)


@given(st.floats(0, 400), st.floats(0.1, 100), st.floats(0.5, 0.99))
def test_yeast_only_dies_on_the_shelf(days: float, longer: float, at_thirty_days: float) -> None:
    young = starter.viability(days=days, at_thirty_days=at_thirty_days)
    assert 0 <= starter.viability(days=days + longer, at_thirty_days=at_thirty_days) < young <= 1


@pytest.mark.parametrize("row", RANGES, ids=lambda row: f"{row['enzyme']}-{row['work']}")
def test_an_enzyme_has_its_published_range(row: dict[str, str]) -> None:
    (found,) = [e for e in ENZYMES if e.enzyme == row["enzyme"] and e.source.key == row["work"]]
    tolerance = float(row["tolerance"])  # whole degrees Fahrenheit are half a degree Celsius
    assert found.low_c == pytest.approx(float(row["low_c"]), abs=tolerance), row["source"]
    assert found.high_c == pytest.approx(float(row["high_c"]), abs=tolerance), row["source"]


def test_every_range_stands_in_the_table_of_sources() -> None:
    assert {(e.enzyme, e.source.key) for e in ENZYMES} == {(row["enzyme"], row["work"]) for row in RANGES}


@pytest.mark.parametrize(
    ("temperature", "enzymes"),
    [
        (20, ()),
        (40, ("beta-glucanase",)),
        (52, ("protease",)),
        (62.5, ("beta-amylase",)),
        (72, ("alpha-amylase",)),
        (80, ()),
    ],
)
def test_a_rest_has_the_enzymes_that_books_name_for_it(temperature: float, enzymes: tuple[str, ...]) -> None:
    # Hamilton and Lewis 1974 found most fermentable wort at 62.5 °C.
    assert enzymes_at(temperature) == enzymes


def test_a_grist_is_called_weak_where_the_companion_says_so() -> None:
    assert mash_enzymes.LEAST_DIASTATIC_POWER == 35  # The Oxford Companion to Beer, under Lintner


@given(st.lists(st.tuples(st.floats(0.01, 10), st.floats(0, 200)), min_size=1, max_size=6))
def test_the_power_of_a_grist_lies_between_that_of_its_malts(malts: list[tuple[float, float]]) -> None:
    masses_kg, powers = zip(*malts, strict=True)
    mean = mash_enzymes.mean_diastatic_power(masses_kg=masses_kg, powers=powers)
    assert min(powers) - 1e-9 <= mean <= max(powers) + 1e-9


@given(st.floats(1.030, 1.100), st.floats(0.6, 0.85))
def test_the_short_cut_to_calories_lies_near_the_standard(original_gravity: float, gone: float) -> None:
    original = gravity.plato_from_gravity(gravity=original_gravity)
    apparent = original * (1 - gone)
    real = attenuation.real_extract(original=original, apparent=apparent)
    final_gravity = gravity.gravity_from_plato(extract=apparent)
    abw = alcohol.abw_hall_1995(original_gravity=original_gravity, final_gravity=final_gravity)
    standard = energy.calories(abw=abw, real=real, gravity=final_gravity, serving_ml=500)
    short_cut = energy.calories_hall_1995(
        original_gravity=original_gravity, final_gravity=final_gravity, serving_ml=500
    )
    assert short_cut == pytest.approx(standard, rel=0.04)


@given(st.floats(5, 20), st.floats(0.3, 0.7))
def test_the_american_degree_of_fermentation_is_the_share_of_matter_gone(original: float, gone: float) -> None:
    # Balling: for each gram of alcohol 1.0665 g leave as gas and yeast, so 100 g of wort make less than 100 g of beer.
    real = original * (1 - gone)
    abw = alcohol.abw_balling(original=original, real=real)
    beer_g = 100 / (1 + 1.0665 * abw / 100)
    by_mass = (original - real * beer_g / 100) / original
    rdf = attenuation.real_degree_of_fermentation(original=original, real=real)
    assert rdf == pytest.approx(by_mass, abs=0.012)
    assert rdf > attenuation.real_attenuation(original=original, real=real)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: starter.starter_cells_troester_2012(cells=100, extract_g=0),
        lambda: starter.starter_cells_white_zainasheff_2010(cells=100, starter_l=0, fall=7),
        lambda: starter.starter_extract(starter_l=1, gravity=1.04, potential=0),
        lambda: energy.calories(abw=4, real=4, gravity=0, serving_ml=355),
        lambda: mash_enzymes.mean_diastatic_power(masses_kg=(0.0,), powers=(60.0,)),
    ],
)
def test_nothing_is_made_of_nothing(refused: object) -> None:
    with pytest.raises(ValueError, match="above zero"):
        refused()  # type: ignore[operator]


def test_energy_of_a_wort_beyond_the_formula_is_refused() -> None:
    with pytest.raises(ValueError, match=r"no wort has a gravity of 1\.775"):
        energy.calories_hall_1995(original_gravity=1.775, final_gravity=1.3, serving_ml=355)


@pytest.mark.parametrize(("days", "share"), [(-1, 0.8), (30, 1.2)])
def test_impossible_yeast_is_refused_in_words(days: float, share: float) -> None:
    with pytest.raises(ValueError, match=r"negative|between 0 and 1"):
        starter.viability(days=days, at_thirty_days=share)
