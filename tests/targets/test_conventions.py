"""What is taken for granted, held to a table that says of each number how far it is known, apart from the code."""

import csv
from pathlib import Path

import pytest

from gristbook.sheet.value import Value
from gristbook.targets import conventions

ROWS = list(csv.DictReader(Path(__file__).with_name("conventions.csv").open(encoding="utf-8", newline="")))
STANDINGS = ("read: ", "from memory: ", "by hand: ", "an example: ", "common practice, no source")
DUMMIES = {"AS_PUBLISHED", "FRESH", "OFF_ITS_MODEL", "STARTER_POTENTIAL"}
"""One by definition, nothing by definition, and a value of the pantry's."""


@pytest.mark.parametrize("row", ROWS, ids=[row["name"] for row in ROWS])
def test_a_convention_is_what_the_table_says(row: dict[str, str]) -> None:
    taken = getattr(conventions, row["name"])
    assert (taken.number, taken.unit) == (pytest.approx(float(row["value"]), rel=1e-12), row["unit"])
    low, high = float(row["low"] or row["value"]), float(row["high"] or row["value"])
    assert taken.high - taken.low == pytest.approx(high - low, abs=1e-9)
    assert row["standing"].startswith(STANDINGS)


def test_no_convention_is_without_a_row() -> None:
    values = {name for name, value in vars(conventions).items() if isinstance(value, Value)}
    assert values - DUMMIES == {row["name"] for row in ROWS}


def test_sizes_and_limits_are_those_that_brewers_have() -> None:
    """Starters of one and two litres; bottles of a third, a half and three quarters; a fifth of a vessel for foam."""
    assert [size.number for size in conventions.STARTER_SIZES] == [1.0, 2.0]
    assert [size.number for size in conventions.BOTTLE_SIZES] == [0.33, 0.5, 0.75]
    assert [heat.number for heat in conventions.SERVING_TEMPERATURES] == [4.0, 8.0, 12.0]
    assert [heat.number for heat in conventions.SAMPLE_TEMPERATURES] == [10.0, 30.0, 40.0, 50.0]
    assert (conventions.USABLE, conventions.FERMENTER_USABLE) == (1 - 1 / 5, 1 - 1 / 5)
    assert (conventions.STRONG, conventions.STRONG_ABV) == (1.075, 7.5)
    assert (conventions.STEADY_FOR_DAYS, conventions.STEADY_FOR_WEEKS, conventions.STEADY_WITHIN) == (3.0, 7.0, 0.001)
