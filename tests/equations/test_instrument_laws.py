"""Laws of the instruments: what must hold of a hydrometer and a refractometer whatever they show."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS95

from gristbook.equations import attenuation, gravity, instruments

READINGS = st.floats(0.99, 1.15)
FITS: list[Callable[..., float]] = [
    instruments.final_gravity_terrill_2011_cubic,
    instruments.final_gravity_terrill_2011_linear,
    instruments.final_gravity_novotny_2017_linear,
    instruments.final_gravity_novotny_2017_quadratic,
    instruments.final_gravity_bonham,
]


@given(READINGS, st.floats(5, 60))
def test_a_hydrometer_at_its_own_temperature_is_right(reading: float, temperature: float) -> None:
    found = instruments.hydrometer_corrected(reading=reading, sample_c=temperature, calibration_c=temperature)
    assert found == pytest.approx(reading, rel=1e-12)


@given(READINGS, st.floats(6, 60), st.floats(0.5, 20))
def test_warmer_wort_reads_too_low(reading: float, temperature: float, warmer: float) -> None:
    # From 6 °C up the water thins faster than the glass swells.
    cool = instruments.hydrometer_corrected(reading=reading, sample_c=temperature, calibration_c=20)
    assert instruments.hydrometer_corrected(reading=reading, sample_c=temperature + warmer, calibration_c=20) > cool


@pytest.mark.parametrize("sample_c", [4, 10, 15, 25, 35, 50, 70])
@pytest.mark.parametrize("calibration_c", [15, 15.56, 20])
def test_a_correction_is_the_density_of_iapws_95_over_the_swelling_of_glass(
    sample_c: float, calibration_c: float
) -> None:
    made_for, sample = (IAPWS95(T=t + 273.15, P=0.101325).rho for t in (calibration_c, sample_c))
    witness = 1.060 * made_for / sample / (1 + 25e-6 * (sample_c - calibration_c))
    found = instruments.hydrometer_corrected(reading=1.060, sample_c=sample_c, calibration_c=calibration_c)
    assert found == pytest.approx(witness, abs=2e-5)


@given(st.floats(1.000, 1.080), st.floats(15, 45))
def test_the_polynomial_follows_the_densities_to_a_point(reading: float, sample_c: float) -> None:
    # It leaves the glass out (up to 0.75 points at 45 °C) and adds where density multiplies (0.5 points there).
    glass = instruments.hydrometer_corrected(reading=reading, sample_c=sample_c, calibration_c=15)
    assert instruments.hydrometer_lyons_1992(reading=reading, sample_c=sample_c) == pytest.approx(glass, abs=0.001)


def test_published_fits_differ_by_three_points_on_one_beer() -> None:
    # Handbooks: 12 and 6 °Bx give 1.0117, 1.0107, 1.0095, 1.0089 and 1.0085.
    gravities = [fit(initial=12, final=6) for fit in FITS]
    assert gravities == pytest.approx([1.0117, 1.0107, 1.0095, 1.0089, 1.0085], abs=0.00006)
    assert max(gravities) - min(gravities) == pytest.approx(0.003, abs=0.0003)


@pytest.mark.parametrize("fit", FITS, ids=lambda fit: fit.__name__)
def test_a_sweeter_beer_has_the_higher_gravity(fit: Callable[..., float]) -> None:
    gravities = [fit(initial=12, final=final) for final in (5.5, 6, 6.5, 7, 8)]
    assert gravities == sorted(gravities)


@given(st.floats(8, 18))
def test_wort_before_fermentation_reads_as_wort_by_the_fits_that_cover_it(initial: float) -> None:
    # Novotný's fits hold from wort to beer; Terrill's, made for finished beer only, are far off there.
    sg = gravity.gravity_from_plato(extract=initial)
    assert instruments.final_gravity_novotny_2017_linear(initial=initial, final=initial) == pytest.approx(
        sg, abs=0.0035
    )
    assert instruments.final_gravity_bonham(initial=initial, final=initial) == pytest.approx(sg, abs=0.0035)
    assert sg - instruments.final_gravity_terrill_2011_linear(initial=initial, final=initial) > 0.006


@given(st.floats(8, 16), st.floats(5, 12))
def test_terrills_bounds_leave_out_beer_that_is_half_fermented(initial: float, final: float) -> None:
    half = initial * 0.5
    sg = gravity.gravity_from_plato(extract=half)
    gone = attenuation.apparent_attenuation(original=initial, apparent=half)
    assert sg > instruments.TERRILL_HIGHEST_GRAVITY or gone < instruments.TERRILL_LOWEST_ATTENUATION


@pytest.mark.parametrize(
    ("equation", "values"),
    [
        (instruments.hydrometer_corrected, {"reading": 0, "sample_c": 20, "calibration_c": 20}),
        (instruments.hydrometer_corrected, {"reading": 1.05, "sample_c": 300, "calibration_c": 20}),
        (instruments.hydrometer_lyons_1992, {"reading": -1, "sample_c": 20}),
        (instruments.brix_corrected, {"reading": 12, "factor": 0}),
    ],
)
def test_a_reading_outside_physics_is_refused(equation: Callable[..., float], values: dict[str, float]) -> None:
    with pytest.raises(ValueError, match=r"above zero|no liquid"):
        equation(**values)
