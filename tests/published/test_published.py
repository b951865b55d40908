"""Every equation held to results from outside: a row of a table beside this file is a test.

A row names its equation as it is filed, gives its inputs (`name=value;name=value`, a list as `a|b|c`), what the source
says comes out, how far from it the equation may lie and why so far. Its standing says whose result it is: `read` or
`from memory` where somebody printed it, `by a library` or `by hand` where it was worked out apart from the project, by
what was read or by what the words mean. A `regression` was worked by the very formula, as it is remembered: it guards
the code, and witnesses nothing.
To add a check, add a row.

`ranges/` has the spans that equations are said to cover: a row for each, with where its two ends come from.
"""

import csv
import importlib
import re
import typing
from collections import Counter
from pathlib import Path

import pytest
import sums

import gristbook.equations  # noqa: F401  (to import the room is to file its equations)
from gristbook.equations import sources
from gristbook.equations.registry import (
    BY_HAND,
    BY_LIBRARY,
    OWN,
    PRINTED,
    REGRESSION,
    UNITS,
    Equation,
    Valid,
    filed,
)

COLUMNS = ["id", "equation", "inputs", "expected", "tolerance", "unit", "source", "standing", "why_tolerance"]
TABLES = sorted(Path(__file__).parent.glob("*.csv"))
GIVES = {equation.name: equation.gives for equation in filed()}
HELD = {
    **dict.fromkeys((sources.READ, sources.MEMORY), PRINTED),
    **{how: how for how in (BY_LIBRARY, BY_HAND, REGRESSION)},
}
"""What a row of each standing holds its equation to, the best first."""


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


@pytest.mark.parametrize("equation", filed(), ids=lambda equation: equation.name)
def test_every_printed_formula_gives_what_its_equation_gives(equation: Equation) -> None:
    """Worked out letter by letter, as a reader would, on the numbers that others print."""
    for row in (row for row in ROWS if row["equation"] == equation.name):
        given = arguments(row["inputs"], typing.get_type_hints(equation.function))
        gives = equation.function(**given)
        letters = {equation.arguments[name].symbol: number for name, number in given.items()}
        assert sums.worked_out(equation.formula, letters, gives) == pytest.approx(gives, rel=1e-6, abs=1e-12), row["id"]


WITHOUT_WITNESS = {
    "alcohol.abw_hall_1995",
    "attenuation.real_degree_of_fermentation",
    "colour.srm_daniels_1995",
    "colour.srm_mosher_1995",
    "instruments.final_gravity_novotny_2017_linear",
    "instruments.final_gravity_novotny_2017_quadratic",
    "mash_ph.acidity_of_caramel_malt",
    "mash_ph.mash_ph_shift_troester_2009",
    "readings.refractometer_reading_of_beer",
    "starter.starter_cells_troester_2012",
    "starter.viability",
}
"""Equations whose numbers are remembered and were found nowhere: none may be added without its name here."""


def test_no_other_equation_stands_on_its_own_formula_alone() -> None:
    assert {equation.name for equation in filed() if equation.held == REGRESSION} == WITHOUT_WITNESS


@pytest.mark.parametrize("name", sorted(GIVES))
def test_every_filed_equation_is_held_to_something(name: str) -> None:
    assert name in {row["equation"] for row in ROWS}, f"{name} has no row in {[table.name for table in TABLES]}"


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.name)
def test_a_table_says_where_each_value_comes_from_and_why_its_tolerance(table: Path) -> None:
    for row in read_rows(table):
        assert list(row) == COLUMNS
        assert all((row[column] or "").strip() for column in COLUMNS), f"{row['id']} leaves a column empty"
        assert row["standing"] in HELD, row["id"]
        assert GIVES[row["equation"]] in (row["unit"], OWN), f"{row['id']}: not the unit that {row['equation']} gives"
        assert float(row["tolerance"]) > 0, row["id"]


def test_every_row_has_an_id_of_its_own() -> None:
    assert [name for name, times in Counter(row["id"] for row in ROWS).items() if times > 1] == []


def test_what_is_called_published_has_a_result_that_somebody_printed() -> None:
    held = {name: {HELD[row["standing"]] for row in ROWS if row["equation"] == name} for name in GIVES}
    best = {name: next(how for how in HELD.values() if how in found) for name, found in held.items()}
    assert {equation.name: equation.held for equation in filed()} == best


def test_a_result_that_was_worked_out_for_the_project_is_not_called_read() -> None:
    for row in ROWS:
        if re.search(r"by hand|worked apart|solved apart|on paper", row["source"], re.IGNORECASE):
            assert row["standing"] == BY_HAND, row["id"]
        elif re.search(r"library|scipy", row["source"]):
            assert row["standing"] == BY_LIBRARY, row["id"]


def test_every_unit_in_the_list_is_some_equations() -> None:
    used = {argument.unit for equation in filed() for argument in equation.arguments.values()}
    assert used | set(GIVES.values()) == UNITS


RANGES = read_rows(Path(__file__).parent / "ranges" / "ranges.csv")
VALID = {
    f"{equation.name}({name})": argument.valid
    for equation in filed()
    for name, argument in equation.arguments.items()
    if argument.valid
}


@pytest.mark.parametrize("row", RANGES, ids=lambda row: row["argument"])
def test_a_range_ends_where_its_source_ends(row: dict[str, str]) -> None:
    valid = VALID[row["argument"]]
    assert (valid.low, valid.high) == pytest.approx((float(row["low"]), float(row["high"])), rel=1e-4, abs=1e-9)


def test_every_range_has_a_row_that_says_where_it_comes_from() -> None:
    assert [row["argument"] for row in RANGES] == sorted(VALID)
    for row in RANGES:
        assert list(row) == ["argument", "low", "high", "source", "standing"], row["argument"]
        assert row["source"].strip(), row["argument"]
        assert row["standing"] in {sources.READ, sources.MEMORY, sources.PRACTICE}, row["argument"]


def test_a_range_holds_its_ends_and_nothing_beyond_them() -> None:
    valid = Valid(0.65, 0.8, "a made-up span")
    assert valid.holds(0.65)
    assert valid.holds(0.8)
    assert valid.holds(0.8 * (1 + 1e-12))  # what another unit's conversion leaves behind
    assert not valid.holds(0.649)
    assert not valid.holds(0.801)
