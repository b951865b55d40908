"""Calculators of plain numbers, with the same signature as `apply`: for solving, and for Monte Carlo runs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import inf

from gristbook.equations.registry import about
from gristbook.worksheet import BOUNDS, Calculator, Drawn, Operand, Value, bounded, worked


def bare(equation: Callable[..., float], label: str, /, **values: Operand) -> float:
    """The same as `apply` with floats through and nothing kept: for solving."""
    return _plain(equation, label, {}, values)


def drawn(draws: Mapping[str, float]) -> Calculator[float]:
    """A calculator in which every named doubt lies ``draws[name]`` standard deviations off: for Monte Carlo runs."""

    def calculate(equation: Callable[..., float], label: str, /, **values: Operand) -> float:
        return Drawn(_plain(equation, label, draws, values), _plain(equation, label, {}, values))

    return calculate


def _plain(
    equation: Callable[..., float],
    label: str,
    draws: Mapping[str, float],
    values: Mapping[str, Operand],
) -> float:
    def bare_number(value: Value | float) -> float:
        if isinstance(value, Drawn):
            return value if draws else value.planned
        if not isinstance(value, Value):
            return value
        moved = value.number + sum(slope * draws.get(doubt, 0.0) for doubt, slope in value.doubts)
        low, high = BOUNDS.get(value.unit, (-inf, inf))
        return min(max(moved, low), high)

    numbers = {
        name: tuple(bare_number(member) for member in value) if isinstance(value, tuple) else bare_number(value)
        for name, value in values.items()
    }
    return bounded(worked(equation, numbers, label), about(equation).gives)[0]
