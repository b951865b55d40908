"""What must hold of hops whatever the numbers: bounds, order, conservation, and the kinetics' own consequences."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from gristbook.equations import bitterness as hops
from gristbook.equations import hopping
from gristbook.equations.isomerisation import (
    equivalent_boil_minutes,
    isomerisation_rate,
)

MODELS = {
    "tinseth 1997": hops.utilisation_tinseth_1997,
    "rager 1990": hops.utilisation_rager_1990,
    "garetz 1994": lambda *, boil_min, gravity: hops.utilisation_garetz_1994(
        boil_min=boil_min, gravity=gravity, altitude=0
    ),
    "daniels 1996, whole": hops.utilisation_daniels_1996_whole,
    "daniels 1996, pellets": hops.utilisation_daniels_1996_pellets,
}
minutes = st.floats(0, 180)
gravities = st.floats(1.020, 1.130)
temperatures = st.floats(60, 105)
volumes = st.floats(1, 100)
fractions = st.floats(0.01, 0.4)

every_model = pytest.mark.parametrize("model", MODELS.values(), ids=MODELS.keys())


@every_model
@given(boil_min=minutes, gravity=gravities)
def test_no_model_uses_more_alpha_acids_than_there_are(model, boil_min: float, gravity: float) -> None:
    assert 0 <= model(boil_min=boil_min, gravity=gravity) <= 0.4


@every_model
@given(shorter=minutes, more=minutes, gravity=gravities)
def test_a_longer_boil_never_gives_less(model, shorter: float, more: float, gravity: float) -> None:
    assert model(boil_min=shorter + more, gravity=gravity) >= model(boil_min=shorter, gravity=gravity)


@every_model
@given(boil_min=minutes, thinner=gravities, more=st.floats(0, 0.05))
def test_a_heavier_wort_never_gives_more(model, boil_min: float, thinner: float, more: float) -> None:
    assert model(boil_min=boil_min, gravity=thinner + more) <= model(boil_min=boil_min, gravity=thinner)


@every_model
def test_a_boil_of_negative_length_is_refused(model) -> None:
    with pytest.raises(ValueError, match="boil"):
        model(boil_min=-1, gravity=1.050)


@given(bitterness=st.floats(0.1, 200), wort_l=volumes, alpha=fractions, utilisation=fractions, form=st.floats(1, 1.33))
def test_the_hops_worked_out_bring_the_bitterness_asked_for(
    bitterness: float, wort_l: float, alpha: float, utilisation: float, form: float
) -> None:
    hops_g = hopping.hops_for_bitterness(
        bitterness=bitterness, wort_l=wort_l, alpha=alpha, utilisation=utilisation, form_factor=form
    )
    alpha_mg = hopping.alpha_acids(hops_g=hops_g, alpha=alpha)
    iso_mg = hopping.iso_alpha(alpha_mg=alpha_mg, utilisation=utilisation, form_factor=form)
    assert hopping.bitterness(iso_alpha_mg=iso_mg, wort_l=wort_l) == pytest.approx(bitterness)


def test_hops_that_give_nothing_cannot_bring_bitterness() -> None:
    with pytest.raises(ValueError, match="no bitterness"):
        hopping.hops_for_bitterness(bitterness=20, wort_l=20, alpha=0.05, utilisation=0, form_factor=1)


def test_alpha_acids_typed_as_a_percentage_are_refused() -> None:
    with pytest.raises(ValueError, match="more than the whole"):
        hopping.alpha_acids(hops_g=30, alpha=5)


def test_a_wort_no_heavier_than_water_has_no_balance() -> None:
    with pytest.raises(ValueError, match="water"):
        hopping.bitterness_ratio(bitterness=20, gravity=1.0)


def test_a_strong_wort_corrects_rager_as_a_letter_of_1992_works_it() -> None:
    # Home brewers' digest, 1992: 46 IBU uncorrected at 1.090 are "actually 38".
    strong = hops.utilisation_rager_1990(boil_min=60, gravity=1.090)
    assert 46 * strong / hops.utilisation_rager_1990(boil_min=60, gravity=1.050) == pytest.approx(38.3, abs=0.1)


def test_pellets_and_whole_hops_of_daniels_stand_a_quarter_apart() -> None:
    # R. Daniels, Designing Great Beers, 1996 (from memory); the printed percentages are whole numbers.
    for boil_min in (0, 10, 20, 30, 45, 60, 75):
        whole = hops.utilisation_daniels_1996_whole(boil_min=boil_min, gravity=1.050)
        pellets = hops.utilisation_daniels_1996_pellets(boil_min=boil_min, gravity=1.050)
        assert pellets == pytest.approx(1.25 * whole, abs=0.0051)


@given(before=st.floats(0, 300), wanted=st.floats(0, 300), concentration=st.floats(0.3, 1.5))
def test_the_hopping_rate_of_garetz_is_the_one_that_its_own_bitterness_asks_for(
    before: float, wanted: float, concentration: float
) -> None:
    factor = hops.hopping_rate_factor_garetz_1994(before=before, wanted=wanted, concentration=concentration)
    assert factor == pytest.approx(1 + concentration * (before / factor + wanted) / 260)


def test_the_rate_carries_the_published_activation_energy() -> None:
    # Malowicki and Shellhammer 2005, abstract: 98.6 kJ/mol.
    slope = math.log(isomerisation_rate(temperature=130) / isomerisation_rate(temperature=90))
    assert 8.314462618e-3 * slope / (1 / 363.15 - 1 / 403.15) == pytest.approx(98.6, abs=0.1)


@pytest.mark.parametrize(("temperature", "share"), [(70, 0.0154), (90, 0.0989), (100, 0.2210)])
def test_a_stand_of_twenty_minutes_isomerises_what_the_rate_says(temperature: float, share: float) -> None:
    # Malowicki and Shellhammer 2005, isomerisation alone, worked by hand.
    assert 1 - math.exp(-20 * isomerisation_rate(temperature=temperature)) == pytest.approx(share, abs=0.0005)


@given(start=temperatures, end=temperatures, time=st.floats(0.1, 240))
def test_the_falling_stand_is_the_integral_that_scipy_finds(start: float, end: float, time: float) -> None:
    boiling = isomerisation_rate(temperature=100)
    expected, _ = quad(lambda t: isomerisation_rate(temperature=start + (end - start) * t / time) / boiling, 0, time)
    found = equivalent_boil_minutes(minutes=time, start_c=start, end_c=end)
    assert found == pytest.approx(expected, rel=1e-6)


@given(temperature=temperatures, time=st.floats(0, 240))
def test_a_held_stand_is_the_ratio_of_rates_times_its_minutes(temperature: float, time: float) -> None:
    ratio = isomerisation_rate(temperature=temperature) / isomerisation_rate(temperature=100)
    found = equivalent_boil_minutes(minutes=time, start_c=temperature, end_c=temperature)
    assert found == pytest.approx(time * ratio, rel=1e-12)


@given(start=temperatures, end=temperatures, time=st.floats(0, 240))
def test_a_stand_that_falls_lies_between_its_two_ends(start: float, end: float, time: float) -> None:
    cold, hot = (equivalent_boil_minutes(minutes=time, start_c=c, end_c=c) for c in (min(start, end), max(start, end)))
    falling = equivalent_boil_minutes(minutes=time, start_c=start, end_c=end)
    assert cold * (1 - 1e-9) <= falling <= hot * (1 + 1e-9)
    assert falling == pytest.approx(equivalent_boil_minutes(minutes=time, start_c=end, end_c=start))


def test_a_stand_below_absolute_zero_is_refused() -> None:
    with pytest.raises(ValueError, match="absolute"):
        equivalent_boil_minutes(minutes=20, start_c=80, end_c=-300)
