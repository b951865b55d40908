"""Numbers with their low and high, as an author may write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gristbook.pantry.fields import BEER_COLOUR, DIASTATIC_POWER, MALT_COLOUR, OIL, SHARE, TEMPERATURE
from gristbook.pantry.records import Spread
from gristbook.pantry.spread import read_spread
from gristbook.problems import Place, Problems
from gristbook.reading.fields import Kind
from gristbook.reading.tree import Text

HERE = Place("pantry/malts.yaml", 3, 12)


def read(written: str, kind: Kind = SHARE) -> tuple[Spread | None, list[str]]:
    problems = Problems()
    return read_spread(Text(written, HERE), kind, problems, "a sheet"), [str(problem) for problem in problems]


@pytest.mark.parametrize(
    ("written", "kind", "typical", "low", "high", "unit"),
    [
        ("81.5 % (80 to 83)", SHARE, 0.815, 0.80, 0.83, "fraction"),
        ("81.5% (80 % to 83 %)", SHARE, 0.815, 0.80, 0.83, "fraction"),
        ("81.5 (80 to 83 %)", SHARE, 0.815, 0.80, 0.83, "fraction"),
        ("65 to 74 %", SHARE, 0.695, 0.65, 0.74, "fraction"),
        ("65–74 %", SHARE, 0.695, 0.65, 0.74, "fraction"),
        ("65-74%", SHARE, 0.695, 0.65, 0.74, "fraction"),
        ("4.5 % ± 0.5", SHARE, 0.045, 0.040, 0.050, "fraction"),
        ("9.1 %", SHARE, 0.091, 0.091, 0.091, "fraction"),
        ("3 °L (2.2 to 3.8)", MALT_COLOUR, 3.0, 2.2, 3.8, "°L"),
        ("158 EBC (140 to 170)", MALT_COLOUR, 158, 140, 170, "EBC malt"),
        ("55 °Lintner (40 to 80)", DIASTATIC_POWER, 55, 40, 80, "°Lintner"),
        ("180 °WK (150 to 220)", DIASTATIC_POWER, 180, 150, 220, "°WK"),
        ("55 (40 to 80)", DIASTATIC_POWER, 55, 40, 80, "°Lintner"),
        ("1.2 mL/100 g (0.8 to 1.6)", OIL, 1.2, 0.8, 1.6, "mL/100 g"),
        ("0.8 to 1.6 mL/100 g", OIL, 1.2, 0.8, 1.6, "mL/100 g"),
        ("8 to 16 SRM", BEER_COLOUR, 12, 8, 16, "SRM"),
        ("-1 to 3 °C", TEMPERATURE, 1, -1, 3, "°C"),
        ("50 to 68 °F", TEMPERATURE, 15, 10, 20, "°C"),
    ],
)
def test_a_spread_is_read_as_it_is_meant(
    written: str, kind: Kind, typical: float, low: float, high: float, unit: str
) -> None:
    spread, problems = read(written, kind)
    assert not problems
    assert spread is not None
    assert (spread.typical, spread.low, spread.high) == pytest.approx((typical, low, high))
    assert (spread.unit, spread.source, spread.place) == (unit, "a sheet", HERE)


@pytest.mark.parametrize(
    ("written", "kind", "problem"),
    [
        ("83 to 80 %", SHARE, '3:12: error: "83 to 80 %" does not run from low to high'),
        ("90 % (80 to 83)", SHARE, '3:12: error: "90 % (80 to 83)" does not run from low to high'),
        ("120 %", SHARE, '3:12: error: "120 %" cannot be'),
        ("81.5 %% (80 to 83)", SHARE, '3:18: error: "%" after 81.5 %'),
        ("4.5 % (3.5 to 5.5 kg)", SHARE, '3:26: error: "5.5 kg" is not a share'),
        ("81.5 % (83)", SHARE, '3:19: error: "(83)" after 81.5 %'),
        ("4 mL/100 g of oil", OIL, '3:16: error: "/100 g of oil" after 4 mL'),
        ("plenty", SHARE, '3:12: error: "plenty" is not a share'),
        ("8 to 16 EBC", BEER_COLOUR, '3:17: error: "16 EBC" is not a beer colour in SRM'),
        ("3 °LL", MALT_COLOUR, '3:14: error: unknown unit "°LL" in "3 °LL"; did you mean "°L"?'),
        ("4,5 %", SHARE, '3:12: error: "4,5" has a comma in it'),
    ],
)
def test_a_spread_that_cannot_be_is_a_problem_in_its_place(written: str, kind: Kind, problem: str) -> None:
    spread, problems = read(written, kind)
    assert spread is None
    assert any(problem in one for one in problems), problems


@given(st.text(alphabet="0123456789.,/ ()±–-+to%°LEBCSRMg½", max_size=24), st.sampled_from([SHARE, MALT_COLOUR, OIL]))
def test_no_text_breaks_it_and_what_is_not_read_is_said(written: str, kind: Kind) -> None:
    spread, problems = read(written, kind)
    assert (spread is None) == any(": error: " in problem for problem in problems)
    if spread:
        assert kind.least <= spread.low <= spread.typical <= spread.high <= kind.most
