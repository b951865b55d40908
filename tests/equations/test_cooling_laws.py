"""Heat that is shared, hops in wort that cools by itself, and hops on a shelf."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS95
from iapws._iapws import _Ice
from scipy.integrate import quad

from gristbook.equations import cooling, hop_storage
from gristbook.equations.isomerisation import (
    equivalent_boil_minutes,
    equivalent_boil_minutes_cooling,
    isomerisation_rate,
)

LITRES = st.floats(0.5, 60)
COLD = st.floats(1, 25)
WARM = st.floats(30, 100)


def heat(temperature: float) -> float:
    return float(IAPWS95(T=temperature + 273.15, P=0.101325).h)


@given(LITRES, WARM, LITRES, COLD)
def test_a_mix_lies_between_its_parts_and_keeps_their_heat(
    hot_l: float, hot_c: float, cold_l: float, cold_c: float
) -> None:
    mix = cooling.mixed_temperature(hot_l=hot_l, hot_c=hot_c, cold_l=cold_l, cold_c=cold_c)
    assert cold_c < mix < hot_c
    assert hot_l * (hot_c - mix) == pytest.approx(cold_l * (mix - cold_c))


@given(st.floats(5, 40), LITRES, LITRES, COLD)
def test_wort_cooled_so_far_meets_the_temperature_for_the_yeast(
    pitch_c: float, wort_l: float, cold_l: float, cold_c: float
) -> None:
    hot_c = cooling.wort_temperature_before_top_up(pitch_c=pitch_c, wort_l=wort_l, cold_l=cold_l, cold_c=cold_c)
    mix = cooling.mixed_temperature(hot_l=wort_l, hot_c=hot_c, cold_l=cold_l, cold_c=cold_c)
    assert mix == pytest.approx(pitch_c)


def test_ice_melts_and_water_warms_with_the_heat_of_iapws() -> None:
    assert heat(0.0001) - _Ice(273.15, 0.101325)["h"] == pytest.approx(cooling.MELTING_KJ_PER_KG, rel=0.003)
    assert (heat(99.9) - heat(20)) / 79.9 == pytest.approx(cooling.WATER_KJ_PER_KG_K, rel=0.003)


@given(LITRES, WARM, LITRES, COLD, st.floats(0, 1))
def test_heat_that_wort_loses_is_what_ice_and_cold_water_take(
    hot_l: float, hot_c: float, cold_l: float, cold_c: float, part: float
) -> None:
    mixed_c = cooling.mixed_temperature(hot_l=hot_l, hot_c=hot_c, cold_l=cold_l, cold_c=cold_c)
    target_c = mixed_c * part
    ice_kg = cooling.ice_for_water(whole_l=hot_l + cold_l, mixed_c=mixed_c, target_c=target_c, cold_c=cold_c)
    taken = ice_kg * (334 + 4.19 * target_c) + (cold_l - ice_kg) * 4.19 * (target_c - cold_c)
    assert taken == pytest.approx(4.19 * hot_l * (hot_c - target_c), rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(("mixed_c", "target_c"), [(20, 30), (20, -1)])
def test_ice_warms_nothing_and_freezes_nothing(mixed_c: float, target_c: float) -> None:
    with pytest.raises(ValueError, match="ice cannot bring"):
        cooling.ice_for_water(whole_l=20, mixed_c=mixed_c, target_c=target_c, cold_c=10)


def test_nothing_mixed_has_no_temperature() -> None:
    with pytest.raises(ValueError, match="above zero"):
        cooling.mixed_temperature(hot_l=0, hot_c=100, cold_l=0, cold_c=10)


@given(st.floats(0.1, 240), st.floats(60, 105), st.floats(0, 40), st.floats(0.0001, 0.5))
def test_wort_that_cools_by_itself_has_the_integral_that_scipy_finds(
    minutes: float, start_c: float, ambient_c: float, rate: float
) -> None:
    boiling = isomerisation_rate(temperature=100)

    def at(t: float) -> float:
        return isomerisation_rate(temperature=ambient_c + (start_c - ambient_c) * math.exp(-rate * t)) / boiling

    fast = min(minutes, 8 / rate)
    expected = quad(at, 0, fast, epsrel=1e-10)[0] + quad(at, fast, minutes, epsrel=1e-10)[0]
    found = equivalent_boil_minutes_cooling(minutes=minutes, start_c=start_c, ambient_c=ambient_c, rate=rate)
    assert found == pytest.approx(expected, rel=1e-6)


@given(st.floats(0, 240), st.floats(60, 105), st.floats(0, 40))
def test_wort_that_does_not_cool_stands_as_if_held(minutes: float, start_c: float, ambient_c: float) -> None:
    held = equivalent_boil_minutes(minutes=minutes, start_c=start_c, end_c=start_c)
    still = equivalent_boil_minutes_cooling(minutes=minutes, start_c=start_c, ambient_c=ambient_c, rate=0)
    assert still == pytest.approx(held, rel=1e-12)


def test_wort_cooled_at_once_goes_on_at_the_coolants_temperature() -> None:
    at_once = equivalent_boil_minutes_cooling(minutes=60, start_c=95, ambient_c=60, rate=1e6)
    assert at_once == pytest.approx(equivalent_boil_minutes(minutes=60, start_c=60, end_c=60), rel=1e-4)


@given(st.floats(1, 120), st.floats(70, 100), st.floats(0.001, 0.2), st.floats(1.1, 3))
def test_faster_cooling_isomerises_less(minutes: float, start_c: float, rate: float, faster: float) -> None:
    def boil_minutes(rate: float) -> float:
        return equivalent_boil_minutes_cooling(minutes=minutes, start_c=start_c, ambient_c=20, rate=rate)

    assert boil_minutes(rate * faster) < boil_minutes(rate) < minutes


def test_a_cooling_curve_outside_physics_is_refused_in_words() -> None:
    with pytest.raises(ValueError, match="a rate of cooling"):
        equivalent_boil_minutes_cooling(minutes=20, start_c=95, ambient_c=20, rate=-0.1)
    with pytest.raises(ValueError, match="a time"):
        equivalent_boil_minutes_cooling(minutes=-1, start_c=95, ambient_c=20, rate=0.1)


@given(st.floats(0.01, 0.9), st.floats(0.1, 1.5), st.floats(0.1, 1), st.floats(1, 700), st.floats(1, 700))
def test_two_stretches_on_the_shelf_are_one_long_one(
    lost: float, cold: float, factor: float, first: float, second: float
) -> None:
    def left(alpha: float, days: float) -> float:
        return hop_storage.alpha_left(
            alpha=alpha, lost_in_six_months=lost, temperature_factor=cold, storage_factor=factor, days=days
        )

    assert left(left(0.12, first), second) == pytest.approx(left(0.12, first + second))
    assert 0 < left(0.12, first) < 0.12


@given(st.floats(0.01, 0.9))
def test_six_months_warm_and_open_lose_what_the_variety_is_said_to(lost: float) -> None:
    left = hop_storage.alpha_left(alpha=0.1, lost_in_six_months=lost, temperature_factor=1, storage_factor=1, days=180)
    assert left == pytest.approx(0.1 * (1 - lost))


@given(st.floats(0.2, 2), st.floats(0.01, 0.5))
def test_a_higher_ratio_of_absorbances_is_a_greater_loss(hsi: float, more: float) -> None:
    assert hop_storage.alpha_lost(hsi=hsi + more) > hop_storage.alpha_lost(hsi=hsi)


def test_hops_outside_physics_are_refused_in_words() -> None:
    with pytest.raises(ValueError, match="above zero"):
        hop_storage.alpha_lost(hsi=0)
    with pytest.raises(ValueError, match="keeps in six months"):
        hop_storage.alpha_left(alpha=0.1, lost_in_six_months=1, temperature_factor=1, storage_factor=1, days=10)
