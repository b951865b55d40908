"""What is taken for granted, held to a table that says of each number how far it is known, apart from the code."""

import csv
import pkgutil
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest

from gristbook import targets
from gristbook.sheet.value import Value
from gristbook.targets import conventions

ROWS = list(csv.DictReader(Path(__file__).with_name("conventions.csv").open(encoding="utf-8", newline="")))
STANDINGS = ("read: ", "from memory: ", "by hand: ", "an example: ", "common practice, no source")
DUMMIES = {"AS_PUBLISHED", "FRESH", "STARTER_POTENTIAL", "NOTHING_LATE", "NO_TUN", "HUNDRED", "ICE_STEP"}
"""One or nothing by definition, an example, a step of a scale, and a value of the pantry's."""


def taken() -> Iterator[tuple[str, Value]]:
    """Every value that a module of the chain holds for all recipes, as `NAME` or, of several, `NAME[0]`."""
    for module in pkgutil.walk_packages(targets.__path__, f"{targets.__name__}."):
        for name, held in vars(import_module(module.name)).items():
            if isinstance(held, Value):
                yield name, held
            elif isinstance(held, tuple) and held and all(isinstance(one, Value) for one in held):
                yield from ((f"{name}[{at}]", one) for at, one in enumerate(held))


@pytest.mark.parametrize("row", ROWS, ids=[row["name"] for row in ROWS])
def test_a_convention_is_what_the_table_says(row: dict[str, str]) -> None:
    name, _, at = row["name"].removesuffix("]").partition("[")
    held = getattr(import_module(f"{targets.__name__}.{row['module']}"), name)
    taken = held[int(at)] if at else held
    assert (taken.number, taken.unit) == (pytest.approx(float(row["value"]), rel=1e-5), row["unit"])
    low, high = float(row["low"] or row["value"]), float(row["high"] or row["value"])
    assert taken.high - taken.low == pytest.approx(high - low, abs=1e-6)
    assert row["standing"].startswith(STANDINGS)


def test_no_convention_is_without_a_row() -> None:
    assert {name for name, _ in taken()} - DUMMIES == {row["name"] for row in ROWS}


def test_sizes_and_limits_are_those_that_brewers_have() -> None:
    """A fifth of a vessel for foam; strong from 1.061 and 7.5 % on; two readings a point, and days, apart."""
    assert (conventions.USABLE, conventions.FERMENTER_USABLE) == (1 - 1 / 5, 1 - 1 / 5)
    assert (conventions.STRONG, conventions.STRONG_ABV) == (1.061, 7.5)
    assert (conventions.STEADY_FOR_DAYS, conventions.STEADY_FOR_WEEKS, conventions.STEADY_WITHIN) == (3.0, 7.0, 0.001)
