"""The colour of a glass against the colour-science library, which integrates the same spectrum by its own road.

The library vouches for the eye, the daylight and the screen. The four constants of the beer's spectrum are from memory:
nothing here confirms them but that they sum to 1.
"""

import csv
import math
from pathlib import Path

import colour
import numpy as np
import pytest

from gristbook.equations.cie import OBSERVER_AND_DAYLIGHT, STEP_NM
from gristbook.equations.spectrum import _TO_LINEAR_SRGB, _encoded, absorbance, glass_srgb, glass_xyz

with (Path(__file__).parent / "glass.csv").open(encoding="utf-8", newline="") as lines:
    GLASSES = list(csv.DictReader(lines))

WAVELENGTHS = np.arange(380, 785, 5)
SHAPE = colour.SpectralShape(380, 780, 5)
OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(SHAPE)
DAYLIGHT = colour.SDS_ILLUMINANTS["D65"].copy().align(SHAPE)


def library_xyz(srm: float, path_cm: float, observer: np.ndarray) -> np.ndarray:
    """What colour-science, or here numpy, makes of the spectrum, with any observer's three curves as columns."""
    light = DAYLIGHT.values * 10 ** (-path_cm * np.array([absorbance(colour=srm, wavelength=w) for w in WAVELENGTHS]))
    return 100 * light @ observer / (DAYLIGHT.values @ observer[:, 1])


def lab(xyz: np.ndarray | tuple[float, float, float]) -> np.ndarray:
    """CIELAB against daylight summed on the same grid."""
    white = colour.XYZ_to_xy(library_xyz(0, 0, OBSERVER.values))
    return colour.XYZ_to_Lab(np.asarray(xyz) / 100, white)


def test_the_tables_are_those_of_the_library() -> None:
    carried = np.array(OBSERVER_AND_DAYLIGHT)
    assert np.array_equal(carried[:, 0], WAVELENGTHS)
    assert np.all(np.diff(carried[:, 0]) == STEP_NM)
    assert np.allclose(carried[:, 1:4], OBSERVER.values, rtol=0, atol=1e-6)  # printed to six places
    assert np.allclose(carried[:, 4], DAYLIGHT.values, rtol=0, atol=1e-4)


@pytest.mark.parametrize("row", GLASSES, ids=[row["id"] for row in GLASSES])
def test_a_glass_has_its_published_colour(row: dict[str, str]) -> None:
    srm, path_cm = float(row["srm"]), float(row["path_cm"])
    quantities = ("X", "Y", "Z", "L*", "a*", "b*", "red", "green", "blue")
    xyz = glass_xyz(srm, path_cm)
    found = dict(zip(quantities, (*xyz, *lab(xyz), *glass_srgb(srm, path_cm)), strict=True))
    assert found[row["quantity"]] == pytest.approx(float(row["expected"]), abs=float(row["tolerance"])), row["source"]


@pytest.mark.parametrize("path_cm", [0.5, 1, 5, 7])
@pytest.mark.parametrize("srm", [0, 1, 2.5, 4, 7, 11, 18, 28, 45, 80])
def test_a_glass_looks_as_the_library_shows_it(srm: float, path_cm: float) -> None:
    absorbances = [absorbance(colour=srm, wavelength=w) for w in WAVELENGTHS]
    transmitted = colour.SpectralDistribution(10 ** (-path_cm * np.array(absorbances)), WAVELENGTHS)
    xyz = colour.sd_to_XYZ(transmitted, cmfs=OBSERVER, illuminant=DAYLIGHT, method="Integration")
    assert glass_xyz(srm, path_cm) == pytest.approx(xyz, abs=0.001)
    assert colour.delta_E(lab(glass_xyz(srm, path_cm)), lab(xyz), method="CIE 2000") < 0.01
    screen = 255 * colour.XYZ_to_sRGB(whitened(xyz) / 100)
    assert glass_srgb(srm, path_cm) == pytest.approx(screen, abs=1)


def whitened(xyz: np.ndarray) -> np.ndarray:
    """The purest mixture with as bright a white that the library's screen can show."""
    white = xyz[1] * colour.xy_to_XYZ(colour.RGB_COLOURSPACES["sRGB"].whitepoint)
    purities = np.linspace(1, 0, 5001)[:, None]
    mixed = white + purities * (xyz - white)
    shown = colour.XYZ_to_sRGB(mixed / 100, apply_cctf_encoding=False).min(axis=1) > -1e-6
    return mixed[shown][0]


@pytest.mark.parametrize("srm", [7, 10, 14, 20, 25, 30])
def test_a_colour_beyond_the_screen_keeps_its_hue(srm: float) -> None:
    """The dominant wavelength (CIE 15) of what the screen shows, by the library, is that of the beer."""
    white = colour.RGB_COLOURSPACES["sRGB"].whitepoint
    shown = colour.sRGB_to_XYZ(np.array(glass_srgb(srm, 5)) / 255)
    of_beer, of_screen = (
        colour.dominant_wavelength(colour.XYZ_to_xy(np.array(xyz)), white)[0] for xyz in (glass_xyz(srm, 5), shown)
    )
    assert of_screen == pytest.approx(of_beer, abs=1.5)  # the library looks it up by whole nanometres
    # A level of 255 in the darkest channels is worth so much of what is left of the light.
    assert 100 * shown[1] == pytest.approx(glass_xyz(srm, 5)[1], rel=0.03)


def test_the_screen_is_that_of_the_library() -> None:
    # IEC 61966-2-1, its matrix to the four places that it prints and its curve, bend and all.
    library = colour.RGB_COLOURSPACES["sRGB"]
    assert np.allclose(_TO_LINEAR_SRGB, library.matrix_XYZ_to_RGB, rtol=0, atol=1e-4)
    linear = np.concatenate((np.linspace(0, 0.004, 2001), np.linspace(0, 1, 5001)))
    assert [_encoded(one) for one in linear] == np.round(255 * library.cctf_encoding(linear)).tolist()
    assert (_encoded(-0.2), _encoded(1.2)) == (0, 255)


@pytest.mark.parametrize(("srm", "difference"), [(2, 0.21), (10, 0.46), (40, 0.95)])
def test_the_tables_are_as_far_from_the_smooth_observer_as_published(srm: float, difference: float) -> None:
    # Wyman, Sloan and Shirley, JCGT 2(2):1-11, 2013, multi-lobe fit (constants from memory); the distances to the exact
    # tables, in CIEDE2000, were computed apart from this project with colour-science.
    smooth = np.array([wyman_2013(w) for w in WAVELENGTHS])
    apart = colour.delta_E(lab(glass_xyz(srm, 5)), lab(library_xyz(srm, 5, smooth)), method="CIE 2000")
    assert apart == pytest.approx(difference, abs=0.05)


@pytest.mark.parametrize(
    ("wavelength", "expected"),
    [(450, (0.3437, 0.0332, 1.7816)), (550, (0.4341, 0.9945, 0.0088)), (600, (1.0559, 0.6344, 0.0000))],
)
def test_the_smooth_observer_is_the_published_one(wavelength: float, expected: tuple[float, float, float]) -> None:
    assert wyman_2013(wavelength) == pytest.approx(expected, abs=0.0002)


def wyman_2013(wavelength: float) -> tuple[float, float, float]:
    def lobe(middle: float, below: float, above: float) -> float:
        return math.exp(-0.5 * ((wavelength - middle) / (below if wavelength < middle else above)) ** 2)

    return (
        1.056 * lobe(599.8, 37.9, 31.0) + 0.362 * lobe(442.0, 16.0, 26.7) - 0.065 * lobe(501.1, 20.4, 26.2),
        0.821 * lobe(568.8, 46.9, 40.5) + 0.286 * lobe(530.9, 16.3, 31.1),
        1.217 * lobe(437.0, 11.8, 36.0) + 0.681 * lobe(459.0, 26.0, 13.8),
    )


@pytest.mark.parametrize(("srm", "path_cm"), [(2, 5), (10, 1), (40, 3)])
def test_only_colour_times_path_counts(srm: float, path_cm: float) -> None:
    assert glass_xyz(srm, path_cm) == pytest.approx(glass_xyz(srm * path_cm, 1))


def test_a_darker_beer_lets_less_light_through() -> None:
    light = [glass_xyz(srm, 5)[1] for srm in range(0, 81, 2)]
    assert light[0] == pytest.approx(100)
    assert light == sorted(light, reverse=True)


def test_the_weights_of_the_spectrum_sum_to_one() -> None:
    # ASBC Beer-10: 12.7 SRM absorb 1 at 430 nm in a cell of 1 cm.
    assert absorbance(colour=12.7, wavelength=430) == pytest.approx(1, abs=1e-9)


def test_a_colour_below_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="negative"):
        glass_srgb(-1, 5)
    with pytest.raises(ValueError, match="negative"):
        glass_xyz(4, -1)
