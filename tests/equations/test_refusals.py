"""What lies outside physics is refused in words, and what only lies outside a table is worked out."""

from collections.abc import Callable

import pytest

from gristbook.equations import alcohol, attenuation, boiling, density, extract, gravity, mash
from gristbook.equations.registry import about

STRIKE = {"grain_c": 20.0, "mash_c": 67.0, "grain_heat": 0.41}
STEP = {"grain_kg": 5.0, "water_l": 15.0, "tun_heat_l": 0.0, "grain_heat": 0.41}

IMPOSSIBLE: list[tuple[Callable[..., float], dict[str, float | tuple[float, ...]], str]] = [
    (gravity.plato_from_gravity, {"gravity": 0.0}, "above zero"),
    (gravity.gravity_from_plato, {"extract": 101.0}, "no wort has 101 °P"),
    (gravity.gravity_from_plato, {"extract": -700.0}, "no wort has -700 °P"),
    (gravity.wort_gravity, {"extract_kg": -0.1, "wort_l": 20.0}, "negative"),
    (gravity.wort_gravity, {"extract_kg": 2.0, "wort_l": 0.0}, "above zero"),
    (gravity.wort_gravity, {"extract_kg": 40.0, "wort_l": 20.0}, "20 L of wort cannot hold 40 kg"),
    (gravity.wort_extract, {"gravity": 1.050, "wort_l": -1.0}, "negative"),
    (extract.as_is_potential, {"fine_grind_dry_basis": 0.8, "moisture": 1.2}, "between 0 and 1"),
    (extract.grist_mass, {"extract_kg": 1.0, "shares": (0.5, 0.5), "yields": (0.6,)}, "2 and 1"),
    (extract.grist_mass, {"extract_kg": 1.0, "shares": (), "yields": ()}, "at least one"),
    (extract.grist_mass, {"extract_kg": 1.0, "shares": (1.0,), "yields": (0.0,)}, "above zero"),
    (alcohol.abw_balling, {"original": 120.0, "real": 4.0}, "no wort has 120 °P"),
    (alcohol.abw_hall_1995, {"original_gravity": 1.8, "final_gravity": 1.0}, "no wort has a gravity of 1.8"),
    (alcohol.abv, {"abw": 4.0, "gravity": 0.0}, "above zero"),
    (attenuation.apparent_attenuation, {"original": 0.0, "apparent": 0.0}, "above zero"),
    (attenuation.real_attenuation, {"original": -1.0, "real": 0.0}, "above zero"),
    (attenuation.blended_attenuation, {"extracts_kg": (0.0,), "attenuations": (0.7,)}, "above zero"),
    (attenuation.blended_attenuation, {"extracts_kg": (1.0,), "attenuations": (0.7, 1.0)}, "1 and 2"),
    (alcohol.priming_alcohol, {"sugar_g": 100.0, "beer_l": 0.0, "ethanol_yield": 0.5}, "above zero"),
    (density.water_density, {"temperature": 500.0}, "no liquid at 500 °C"),
    (mash.strike_temperature_with_tun, {"grain_kg": 5.0, "water_l": 0.0, "tun_heat_l": 0.0, **STRIKE}, "above zero"),
    (mash.infusion_volume, {"mash_c": 60.0, "step_c": 50.0, "added_c": 99.0, **STEP}, "cannot be lifted to 50 °C"),
    (mash.infusion_volume, {"mash_c": 60.0, "step_c": 70.0, "added_c": 70.0, **STEP}, "cannot be lifted to 70 °C"),
    (mash.decoction_volume, {"mash_l": 20.0, "mash_c": 60.0, "step_c": 101.0, "boil_c": 100.0}, "cannot be lifted"),
    (boiling.standard_pressure, {"altitude": 50000.0}, "nobody brews at 50000 m"),
    (mash.windisch_kolbach_from_lintner, {"lintner": -1.0}, "negative"),
    (mash.lintner_from_windisch_kolbach, {"windisch_kolbach": -20.0}, "less than no diastatic power"),
]


@pytest.mark.parametrize(("equation", "values", "words"), IMPOSSIBLE, ids=lambda value: getattr(value, "__name__", ""))
def test_what_lies_outside_physics_is_refused_in_words(
    equation: Callable[..., float], values: dict[str, float], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        equation(**values)


def test_a_wort_beyond_the_table_is_worked_out_and_the_record_tells() -> None:
    assert gravity.plato_from_gravity(gravity=1.120) == pytest.approx(28.062, abs=0.001)
    valid = about(gravity.plato_from_gravity).arguments["gravity"].valid
    assert valid is not None
    assert valid.high == 1.083


def test_a_beer_that_reads_above_its_wort_shows_less_than_no_alcohol() -> None:
    assert alcohol.abw_balling(original=10, real=10.5) < 0
