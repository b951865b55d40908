"""Every unit that a brewer writes, against what it is by definition or by a published table."""

import csv
from pathlib import Path

import pytest
import scipy.constants as witness

from gristbook.reading.units import BASES, UNITS, unit_named

ROWS = list(csv.DictReader(Path(__file__).with_name("units.csv").open(encoding="utf-8", newline="")))
SCALES = {"celsius", "fahrenheit"}
"""Their zero is not nothing, so that no factor stands for them."""


@pytest.mark.parametrize("row", ROWS, ids=[f"{row['written']} {row['factor']}" for row in ROWS])
def test_a_unit_is_what_its_source_says(row: dict[str, str]) -> None:
    unit = unit_named(row["written"])
    assert unit is not None
    assert unit.base == row["base"]
    tolerance = 1e-14 if row["exact"] == "yes" else 5e-7  # seven digits, half of the last
    assert unit.in_base(1.0) == pytest.approx(float(row["factor"]), rel=tolerance)


def test_no_unit_goes_without_a_source() -> None:
    covered = {unit_named(row["written"]) for row in ROWS}
    assert {unit for name, unit in UNITS.items() if name not in SCALES} <= covered
    assert set(BASES) - {"°C"} == {row["base"] for row in ROWS}


@pytest.mark.parametrize(
    ("written", "number", "celsius"),
    [
        ("°C", 67.0, 67.0),
        ("°F", 32.0, 0.0),  # water freezes
        ("°F", 212.0, 100.0),  # water boils
        ("°F", -40.0, -40.0),  # where the two scales meet
        ("F", 153.0, (153 - 32) / 1.8),
    ],
)
def test_a_temperature_is_read_on_its_scale(written: str, number: float, celsius: float) -> None:
    unit = unit_named(written)
    assert unit is not None
    assert unit.base == "°C"
    assert unit.in_base(number) == pytest.approx(celsius, abs=1e-9)


@pytest.mark.parametrize(
    ("written", "base", "factor"),
    [
        ("oz", "kg", witness.ounce),
        ("lb", "kg", witness.pound),
        ("gal", "L", witness.gallon / witness.liter),
        ("imp gal", "L", witness.gallon_imp / witness.liter),
        ("fl oz", "L", witness.fluid_ounce / witness.liter),
        ("s", "min", 1 / witness.minute),
        ("h", "min", witness.hour / witness.minute),
        ("d", "min", witness.day / witness.minute),
        ("week", "min", witness.week / witness.minute),
        ("ft", "m", witness.foot),
    ],
)
def test_a_library_of_constants_agrees(written: str, base: str, factor: float) -> None:
    unit = unit_named(written)
    assert unit is not None
    assert unit.in_base(1.0) == pytest.approx(factor, rel=1e-12)


def test_the_library_of_constants_agrees_on_temperatures() -> None:
    for number in (-40.0, 0.0, 67.5, 153.0, 212.0):
        assert UNITS["fahrenheit"].in_base(number) == pytest.approx(
            float(witness.convert_temperature(number, "F", "C")), abs=1e-9
        )


def test_every_spelling_of_a_unit_means_that_unit() -> None:
    for unit in UNITS.values():
        for word in unit.words:
            assert unit_named(word) == unit


@pytest.mark.parametrize("word", ["t", "T", "kgg", "oz t", "", "/", "L/", "/kg", "kg/kg", "lb/kg", "min/h", "L/L"])
def test_a_word_that_no_brewer_uses_for_a_unit_is_none(word: str) -> None:
    assert unit_named(word) is None


@pytest.mark.parametrize(
    ("word", "unit"), [("KG", "kilogram"), ("Lbs", "pound"), ("ML", "millilitre"), ("Min", "minute")]
)
def test_capitals_are_forgiven(word: str, unit: str) -> None:
    assert unit_named(word) == UNITS[unit]
