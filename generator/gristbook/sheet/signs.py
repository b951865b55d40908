"""What the signs of plain arithmetic give, and how far it moves with each of their numbers."""

from __future__ import annotations

from math import ceil, floor, fsum, prod
from typing import Literal, TypeAlias

Sign: TypeAlias = Literal["+", "−", "×", "÷", "in steps of", "rounded up"]

TAKEN: frozenset[Sign] = frozenset({"in steps of", "rounded up"})
"""What somebody decides on: it is met as it is, whatever it was made from."""

HALF = 1e-9
"""A half that a computer's numbers miss by so little is one."""


def result(sign: Sign, numbers: tuple[float, ...], factor: float) -> float:
    """What a sign makes of its numbers, times the factor between their units."""
    match sign:
        case "+":
            return fsum(numbers)
        case "−":
            return numbers[0] - numbers[1]
        case "×":
            return prod(numbers) * factor
        case "in steps of":
            steps = max(1, floor(numbers[0] / numbers[1] + 0.5 + HALF)) if numbers[0] > 0 else 0
            return steps * numbers[1]
        case "rounded up":  # the last digits of a sum do not count
            return float(ceil(numbers[0] - 1e-6))
    return numbers[0] / numbers[1] * factor


def slopes(sign: Sign, numbers: tuple[float, ...], factor: float) -> tuple[float, ...]:
    """By number, what the result changes by for each unit of it."""
    match sign:
        case "+":
            return (1.0,) * len(numbers)
        case "−":
            return (1.0, -1.0)
        case "×":
            return (factor * numbers[1], factor * numbers[0])
    return (factor / numbers[1], -numbers[0] * factor / numbers[1] ** 2)
