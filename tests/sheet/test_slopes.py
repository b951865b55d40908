"""The carrying of doubts, held to the `uncertainties` package: an independent witness, equation by equation.

Every equation of the registry is put at the points that its published checks use, each argument with a doubt of its
own. `uncertainties.wrap` differentiates the bare function and gives each doubt's part of the result.
"""

from __future__ import annotations

import csv
import importlib
import typing
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from even import even
from uncertainties import ufloat, wrap

import gristbook.equations  # noqa: F401  (to import the room is to file its equations)
from gristbook.equations import mash
from gristbook.equations.bitterness import utilisation_daniels_1996_pellets
from gristbook.equations.registry import Equation, filed
from gristbook.sheet.doubts import NINE_IN_TEN
from gristbook.sheet.value import Value, apply, as_it_comes, given

RELATIVE = 1e-4
"""Ours is the mean of the slopes to both sides at one standard deviation, a ten thousandth of each number here, and
theirs a central difference with a step of another length: what they differ by is its third-order rest."""

Point = dict[str, float | tuple[float, ...]]


def equation_called(name: str) -> Callable[..., float]:
    module, _, function = name.partition(".")
    found: Callable[..., float] = getattr(importlib.import_module(f"gristbook.equations.{module}"), function)
    return found


def points(record: Equation) -> Iterator[Point]:
    """Where the published checks put an equation."""
    hints = typing.get_type_hints(equation_called(record.name))
    for path in sorted((Path(__file__).parents[1] / "published").glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as table:
            for row in csv.DictReader(table):
                if row["equation"] == record.name:
                    parts = dict(part.split("=") for part in row["inputs"].split(";"))
                    yield {
                        name: tuple(float(one) for one in value.split("|"))
                        if typing.get_origin(hints[name]) is tuple
                        else float(value)
                        for name, value in parts.items()
                    }


def doubted(point: Point, record: Equation) -> dict[str, Value | tuple[Value, ...]]:
    """Every number of a point with a small doubt, under a name of its own."""

    def one(name: str, index: int, number: float) -> Value:
        sd = 1e-4 * abs(number) or 1e-4
        value = given(number, record.arguments[name].unit, name, words="a test")
        return as_it_comes(value, {f"{name} {index}": even(sd)})

    return {
        name: tuple(one(name, index, member) for index, member in enumerate(value))
        if isinstance(value, tuple)
        else one(name, 0, value)
        for name, value in point.items()
    }


def witnessed(function: Callable[..., float], values: dict[str, Value | tuple[Value, ...]]) -> dict[str, float]:
    """Each doubt's part of the result by `uncertainties`, which knows of neither keywords nor tuples."""
    flat = [value for put_in in values.values() for value in (put_in if isinstance(put_in, tuple) else (put_in,))]

    def positional(*numbers: float) -> float:
        rest = iter(numbers)
        return function(
            **{
                name: tuple(next(rest) for _ in put_in) if isinstance(put_in, tuple) else next(rest)
                for name, put_in in values.items()
            }
        )

    result = wrap(positional)(*(ufloat(value.number, value.spread, tag=value.mover) for value in flat))
    return {variable.tag: size for variable, size in result.error_components().items()}


def near(point: Point, by: float) -> Point:
    """The same point, or one a little beside it: off a step of a table, or away from an edge of physics.

    Each argument moves by its own amount, or a step in the ratio of two would come along.
    """

    def moved(number: float, share: float) -> float:
        return number * (1 + share) if number else abs(share)

    shares = {name: by * (1 + place / 3) for place, name in enumerate(sorted(point))}
    return {
        name: tuple(moved(member, shares[name]) for member in value)
        if isinstance(value, tuple)
        else moved(value, shares[name])
        for name, value in point.items()
    }


def has_a_corner(function: Callable[..., float], values: dict[str, Value | tuple[Value, ...]]) -> bool:
    """Whether an argument has one slope to the left and another to the right, so that none is the slope."""
    numbers = {
        name: tuple(member.number for member in value) if isinstance(value, tuple) else value.number
        for name, value in values.items()
    }
    centre = function(**numbers)
    for name, value in numbers.items():
        for index, number in enumerate(value if isinstance(value, tuple) else (value,)):

            def at(shift: float, name: str = name, index: int = index) -> float:
                whole = numbers[name]
                if not isinstance(whole, tuple):
                    return function(**{**numbers, name: whole + shift})
                return function(**{**numbers, name: tuple(n + shift * (i == index) for i, n in enumerate(whole))})

            step = 1e-6 * (abs(number) or 1.0)
            right, left = at(step) - centre, centre - at(-step)
            if abs(right - left) > 0.01 * max(abs(right), abs(left)) + 1e-10 * abs(centre):
                return True
    return False


def compare(function: Callable[..., float], point: Point, record: Equation) -> bool:
    """Hold one point to the witness; false where there is no slope to agree on, or only one from one side."""
    values = doubted(point, record)
    try:
        if has_a_corner(function, values):
            return False
        expected = witnessed(function, values)
    except ValueError:
        return False
    result = apply(function, "a figure", **values)
    sizes = {doubt: abs(high - low) / 2 / NINE_IN_TEN for doubt, (low, high) in result.doubts.items()}
    for doubt, size in expected.items():
        allowed = RELATIVE * size + 1e-9 * abs(result.number)
        assert abs(sizes.get(doubt, 0.0) - size) <= allowed, f"{point}: {doubt}"
    return True


@pytest.mark.parametrize("record", filed(), ids=lambda record: record.name)
def test_apply_carries_each_doubt_as_an_independent_package_does(record: Equation) -> None:
    function = equation_called(record.name)
    compared = [
        any(compare(function, near(point, by), record) for by in (0.0, 0.01, -0.01)) for point in points(record)
    ]
    assert any(compared) or not compared  # another test asks for at least one published check


def at_an_edge(name: str, result_per_unit: float, **numbers: float) -> None:
    """One argument has a doubt of 0.1 and stands where the equation refuses the other side."""
    function = equation_called(name)
    record = next(equation for equation in filed() if equation.name == name)
    values = {
        argument: given(
            number, record.arguments[argument].unit, argument, words="a test", ends=even(0.1 if number == 0 else 0.0)
        )
        for argument, number in numbers.items()
    }
    ((_, size),) = apply(function, "a figure", **values).doubts.values()
    assert size / NINE_IN_TEN == pytest.approx(0.1 * result_per_unit, rel=1e-6)


def test_at_an_edge_of_physics_the_slope_is_taken_from_the_side_that_exists() -> None:
    # By heat balance: to lift what is worth a litre of water from 50 to 67 °C takes (67 − 50)/(100 − 67) L at 100 °C.
    lift = {"mash_c": 50.0, "step_c": 67.0, "added_c": 100.0}
    at_an_edge("mash.infusion_volume", 17 / 33, grain_kg=4.5, water_l=12.0, tun_heat_l=0.0, grain_heat=0.4, **lift)


@pytest.mark.parametrize("boil_min", [9.5, 10.0, 19.5, 29.5, 45.0, 59.5, 60.0])
def test_at_the_edge_of_a_band_a_jump_is_not_taken_for_a_slope(boil_min: float) -> None:
    # Daniels's table has one figure for a span of minutes. Whatever side of an edge a time of ± 5 min lies on, it
    # changes no more than the table does from end to end of about twice that.
    minutes = given(boil_min, "min", "time", words="a test", ends=(-5.0, 5.0))
    found = apply(utilisation_daniels_1996_pellets, "used", boil_min=minutes, gravity=1.05)
    low, high = (utilisation_daniels_1996_pellets(boil_min=boil_min + shift, gravity=1.05) for shift in (-9.0, 10.0))
    assert found.spread <= high - low + 1e-12


def test_at_a_kink_each_side_has_its_own_slope() -> None:
    # What a mash gives falls from 0.82 at 65 °C to 0.70 at 70 (Chandrasekhar), and stays as it is below: by hand,
    # against 0.772 at 67 °C, a degree more is worth 0.024 / 0.772 less, and a degree less nothing.
    mash_c = given(65.0, "°C", "mash", words="a test", ends=(-1.0, 1.0))
    found = apply(mash.mash_temperature_effect, "effect", mash_c=mash_c)
    ((cooler, warmer),) = found.doubts.values()
    assert (cooler, warmer) == (pytest.approx(0.0, abs=1e-9), pytest.approx(-0.024 / 0.772))
