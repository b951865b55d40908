"""Laws that extract, water, heat and alcohol keep: hypothesis looks for numbers that break them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gristbook.equations import alcohol, attenuation, boiling, density, extract, gravity, mash

GRAVITIES = st.floats(0.98, 1.16)
PLATO = st.floats(0, 35)
LITRES = st.floats(0.5, 200)
KILOGRAMS = st.floats(0, 30)
SHARES = st.lists(st.floats(0.01, 1), min_size=1, max_size=8)
MASH_C = st.floats(55, 85)


def normed(parts: list[float]) -> tuple[float, ...]:
    return tuple(part / sum(parts) for part in parts)


@given(GRAVITIES)
def test_gravity_to_plato_and_back_is_the_same_gravity(sg: float) -> None:
    extract = gravity.plato_from_gravity(gravity=sg)
    assert gravity.gravity_from_plato(extract=extract) == pytest.approx(sg, abs=1e-11)


@given(st.floats(0, 0.35), LITRES)
def test_extract_of_a_wort_is_what_its_gravity_was_made_from(kg_per_litre: float, wort_l: float) -> None:
    extract_kg = kg_per_litre * wort_l
    sg = gravity.wort_gravity(extract_kg=extract_kg, wort_l=wort_l)
    assert gravity.wort_extract(gravity=sg, wort_l=wort_l) == pytest.approx(extract_kg, abs=1e-9)


@given(GRAVITIES, st.floats(1e-6, 0.1))
def test_more_gravity_is_always_more_extract(sg: float, more: float) -> None:
    assert gravity.plato_from_gravity(gravity=sg + more) > gravity.plato_from_gravity(gravity=sg)
    assert gravity.extract_concentration(gravity=sg + more) > gravity.extract_concentration(gravity=sg)


@given(st.floats(1.000, 1.083))
def test_published_scales_agree_inside_the_table(sg: float) -> None:
    plato = gravity.plato_from_gravity(gravity=sg)
    # The Lincoln equation, and the cubic fitted to the sucrose of the United States' National Bureau of Standards.
    lincoln = (463 - 205 * sg) * (sg - 1)
    sucrose = 182.46007 * sg**3 - 775.68212 * sg**2 + 1262.7794 * sg - 669.56218
    assert (lincoln, sucrose) == (pytest.approx(plato, abs=0.01), pytest.approx(plato, abs=0.01))


def test_wort_without_extract_lies_where_the_printed_cubic_has_its_zero() -> None:
    nothing = gravity.wort_gravity(extract_kg=0, wort_l=20)
    assert nothing == pytest.approx(1 + 0.00300 / 258.6, abs=2e-7)
    assert gravity.plato_from_gravity(gravity=nothing) == pytest.approx(0, abs=1e-9)


@given(st.floats(0.01, 0.15), LITRES, st.floats(0.5, 1))
def test_boiling_down_keeps_extract_and_raises_gravity(kg_per_litre: float, start_l: float, kept: float) -> None:
    start = gravity.wort_gravity(extract_kg=kg_per_litre * start_l, wort_l=start_l)
    extract_kg = gravity.wort_extract(gravity=start, wort_l=start_l)
    end = gravity.wort_gravity(extract_kg=extract_kg, wort_l=start_l * kept)
    assert end >= start - 1e-12
    assert gravity.wort_extract(gravity=end, wort_l=start_l * kept) == pytest.approx(extract_kg)


@given(st.floats(0.1, 20), SHARES, st.floats(0.4, 1))
def test_a_grist_by_shares_brings_the_extract_wanted(extract_kg: float, parts: list[float], efficiency: float) -> None:
    shares, potentials = normed(parts), tuple(0.5 + part / 2 for part in parts)
    yields = tuple(potential * efficiency for potential in potentials)
    grist_kg = extract.grist_mass(extract_kg=extract_kg, shares=shares, yields=yields)
    brings_kg = [grist_kg * share * held for share, held in zip(shares, yields, strict=True)]
    assert sum(brings_kg) == pytest.approx(extract_kg)


@given(PLATO, st.floats(-1, 35))
def test_real_and_apparent_extract_undo_each_other(original: float, apparent: float) -> None:
    real = attenuation.real_extract(original=original, apparent=apparent)
    assert attenuation.apparent_extract(original=original, real=real) == pytest.approx(apparent, abs=1e-12)


@given(st.floats(1, 35), st.floats(0, 1))
def test_the_great_formula_gives_back_the_wort_that_the_alcohol_came_from(original: float, gone: float) -> None:
    real = attenuation.real_extract_after(original=original, real_attenuation=gone)
    abw = alcohol.abw_balling(original=original, real=real)
    # Balling: A per cent of alcohol and RE of extract come from a wort of 100 (2.0665 A + RE) / (100 + 1.0665 A).
    assert 100 * (2.0665 * abw + real) / (100 + 1.0665 * abw) == pytest.approx(original, abs=1e-9)


@given(st.floats(1, 35), st.floats(0, 1))
def test_balling_keeps_mass_from_wort_to_beer_gas_and_yeast(original: float, gone: float) -> None:
    real = original * (1 - gone)
    abw = alcohol.abw_balling(original=original, real=real)
    wort_g = 100 + (0.9565 + 0.1100) * abw  # 100 g of beer, and what left it for every gram of alcohol
    assert wort_g * original / 100 == pytest.approx(real + (1 + 0.9565 + 0.1100) * abw, abs=1e-9)


@given(st.floats(1, 35), st.floats(0, 1.15))
def test_attenuation_in_real_terms_is_one_figure_by_both_ways(original: float, gone: float) -> None:
    apparent = original * (1 - gone)
    assert attenuation.apparent_attenuation(original=original, apparent=apparent) == pytest.approx(gone)
    real = attenuation.real_extract(original=original, apparent=apparent)
    both = attenuation.real_attenuation(original=original, real=real)
    assert both == pytest.approx(attenuation.real_from_apparent_attenuation(apparent_attenuation=gone), abs=1e-9)


@given(st.lists(st.tuples(st.floats(0.01, 10), st.floats(0, 1)), min_size=1, max_size=6))
def test_a_blend_ferments_no_less_than_its_worst_and_no_more_than_its_best(parts: list[tuple[float, float]]) -> None:
    extracts_kg, attenuations = zip(*parts, strict=True)
    blend = attenuation.blended_attenuation(extracts_kg=extracts_kg, attenuations=attenuations)
    assert min(attenuations) - 1e-12 <= blend <= max(attenuations) + 1e-12


@given(st.floats(9, 16), st.floats(0.65, 0.85))
def test_balling_and_the_fit_to_532_beers_agree_as_closely_as_beers_do(original: float, gone: float) -> None:
    apparent = original * (1 - gone)
    real = attenuation.real_extract(original=original, apparent=apparent)
    balling = alcohol.abw_balling(original=original, real=real)
    # Table III of the 2009 paper: measured means lie up to 0.2 % by weight from either formula.
    assert alcohol.abw_cutaia_2009(original=original, apparent=apparent) == pytest.approx(balling, abs=0.2)


@given(LITRES, st.floats(20, 99), st.floats(0.01, 10))
def test_hotter_wort_takes_more_room(cool_l: float, temperature: float, more: float) -> None:
    warm_l = density.hot_volume(cool_l=cool_l, temperature=temperature)
    assert density.hot_volume(cool_l=cool_l, temperature=temperature + more) > warm_l
    assert density.hot_volume(cool_l=cool_l, temperature=20) == pytest.approx(cool_l)


@given(st.floats(0.5, 20), st.floats(1.5, 8), st.floats(0, 30), MASH_C, st.floats(0.32, 0.42), st.floats(0, 5))
def test_heat_of_the_strike_water_is_what_grain_and_tun_take(
    grain_kg: float, thickness: float, grain_c: float, mash_c: float, grain_heat: float, tun_heat_l: float
) -> None:
    water_l = grain_kg * thickness
    strike_c = mash.strike_temperature_with_tun(
        grain_kg=grain_kg,
        water_l=water_l,
        tun_heat_l=tun_heat_l,
        grain_c=grain_c,
        mash_c=mash_c,
        grain_heat=grain_heat,
    )
    taken = (grain_heat * grain_kg + tun_heat_l) * (mash_c - grain_c)
    assert water_l * (strike_c - mash_c) == pytest.approx(taken, abs=1e-9)


@given(st.floats(0.5, 20), st.floats(1.5, 8), st.floats(35, 55), st.floats(60, 78), st.floats(0, 5))
def test_heat_that_an_infusion_gives_is_what_the_mash_takes(
    grain_kg: float, thickness: float, mash_c: float, step_c: float, tun_heat_l: float
) -> None:
    water_l = grain_kg * thickness
    added_l = mash.infusion_volume(
        grain_kg=grain_kg,
        water_l=water_l,
        tun_heat_l=tun_heat_l,
        mash_c=mash_c,
        step_c=step_c,
        added_c=98,
        grain_heat=0.41,
    )
    assert added_l * (98 - step_c) == pytest.approx((0.41 * grain_kg + tun_heat_l + water_l) * (step_c - mash_c))


@given(st.floats(5, 50), st.floats(35, 60), st.floats(62, 78))
def test_a_decoction_given_back_mixes_to_the_step(mash_l: float, mash_c: float, step_c: float) -> None:
    drawn_l = mash.decoction_volume(mash_l=mash_l, mash_c=mash_c, step_c=step_c, boil_c=99)
    assert drawn_l < mash_l
    assert (drawn_l * 99 + (mash_l - drawn_l) * mash_c) / mash_l == pytest.approx(step_c)


@given(MASH_C, st.floats(0, 20))
def test_a_hotter_mash_never_ferments_further(mash_c: float, hotter: float) -> None:
    assert mash.mash_temperature_effect(mash_c=mash_c + hotter) <= mash.mash_temperature_effect(mash_c=mash_c)
    effect = mash.mash_temperature_effect(mash_c=mash_c)
    assert (effect > 1) == (mash_c < 67)


@given(st.floats(-400, 5000), st.floats(0.1, 1000))
def test_water_boils_cooler_higher_up(altitude: float, higher: float) -> None:
    assert boiling.boiling_point(altitude=altitude + higher) < boiling.boiling_point(altitude=altitude)
    assert boiling.standard_pressure(altitude=altitude + higher) < boiling.standard_pressure(altitude=altitude)


@given(st.floats(0, 300))
def test_scales_of_diastatic_power_undo_each_other(lintner: float) -> None:
    windisch_kolbach = mash.windisch_kolbach_from_lintner(lintner=lintner)
    back = mash.lintner_from_windisch_kolbach(windisch_kolbach=windisch_kolbach)
    assert back == pytest.approx(lintner, abs=1e-9)


@given(st.floats(0, 300), LITRES, st.floats(0.3, 0.5383))
def test_priming_alcohol_is_the_ethanol_that_the_sugar_gives(sugar_g: float, beer_l: float, grams: float) -> None:
    added = alcohol.priming_alcohol(sugar_g=sugar_g, beer_l=beer_l, ethanol_yield=grams)
    ethanol_ml = added / 100 * beer_l * 1000
    assert ethanol_ml * 0.78924 == pytest.approx(sugar_g * grams)
