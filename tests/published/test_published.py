"""Every equation held to what others have published: a row of a table beside this file is a test.

A row names its equation as it is filed, gives its inputs (`name=value;name=value`, a list as `a|b|c`), what the source
says comes out, how far from it the equation may lie and why so far. To add a check, add a row.
"""

import csv
import importlib
import typing
from collections import Counter
from pathlib import Path

import pytest

import gristbook.equations  # noqa: F401  (to import the room is to file its equations)
from gristbook.equations import sources
from gristbook.equations.registry import OWN, filed

COLUMNS = ["id", "equation", "inputs", "expected", "tolerance", "unit", "source", "standing", "why_tolerance"]
TABLES = sorted(Path(__file__).parent.glob("*.csv"))
UNITS = {equation.name: equation.gives for equation in filed()}


def read_rows(table: Path) -> list[dict[str, str]]:
    with table.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def row_name(row: dict[str, str]) -> str:
    return f"{row['id']}-{row['equation']}"


ROWS = [row for table in TABLES for row in read_rows(table)]


def arguments(inputs: str, hints: dict[str, object]) -> dict[str, float | tuple[float, ...]]:
    """The inputs of a row as the equation takes them; which of them are lists is told by its annotations."""
    given: dict[str, float | tuple[float, ...]] = {}
    for part in inputs.split(";"):
        name, value = part.split("=")
        many = typing.get_origin(hints[name]) is tuple
        given[name] = tuple(float(one) for one in value.split("|")) if many else float(value)
    return given


@pytest.mark.parametrize("row", ROWS, ids=row_name)
def test_an_equation_gives_what_its_source_says(row: dict[str, str]) -> None:
    module, _, function = row["equation"].partition(".")
    equation = getattr(importlib.import_module(f"gristbook.equations.{module}"), function)
    result = equation(**arguments(row["inputs"], typing.get_type_hints(equation)))
    assert abs(result - float(row["expected"])) <= float(row["tolerance"]), (
        f"{row['equation']}({row['inputs']}) gives {result:.8g}, not {row['expected']} ± {row['tolerance']} "
        f"{row['unit']} as in: {row['source']}"
    )


@pytest.mark.parametrize("name", sorted(UNITS))
def test_every_filed_equation_is_held_to_something_outside(name: str) -> None:
    assert name in {row["equation"] for row in ROWS}, f"{name} has no row in {[table.name for table in TABLES]}"


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.name)
def test_a_table_says_where_each_value_comes_from_and_why_its_tolerance(table: Path) -> None:
    for row in read_rows(table):
        assert list(row) == COLUMNS
        assert all((row[column] or "").strip() for column in COLUMNS), f"{row['id']} leaves a column empty"
        assert row["standing"] in {sources.READ, sources.MEMORY, sources.PRACTICE}, row["id"]
        assert UNITS[row["equation"]] in (row["unit"], OWN), f"{row['id']}: not the unit that {row['equation']} gives"
        assert float(row["tolerance"]) > 0, row["id"]


def test_every_row_has_an_id_of_its_own() -> None:
    assert [name for name, times in Counter(row["id"] for row in ROWS).items() if times > 1] == []
