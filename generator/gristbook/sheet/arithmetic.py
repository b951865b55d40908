"""Plain arithmetic that is more than a sign: sums of lists, what is left of a whole, shares, and steps of a scale."""

from __future__ import annotations

from collections.abc import Iterable
from math import fsum

from gristbook.equations.bounds import not_negative, positive
from gristbook.sheet.value import Value, added, constant, reckoned

HALF = 1e-9
"""A half that a computer's numbers miss by so little is one."""


def sum_of(parts: Iterable[Value], label: str, unit: str = "") -> Value:
    """Values of one unit added up; where there may be none of them, nothing in that ``unit``."""
    return added(tuple(parts) or (constant(0.0, unit),)).called(label)


def less(whole: Value, *parts: Value, left: str, label: str = "", some: bool = False) -> Value:
    """What is left of a whole without its parts; ``left`` names it in the refusal.

    Raises
    ------
    Refusal
        Less than nothing is left, or nothing where there must be ``some``.
    """
    remains = whole
    for part in parts:
        remains = remains - part
    raw = fsum((whole.number, *(-part.number for part in parts)))
    if some:
        positive(raw, left)
    else:
        not_negative(raw, left)
    return remains.called(label)


def share_of(part: Value, whole: Value, label: str) -> Value:
    """The part as a fraction of its whole, of one unit.

    Raises
    ------
    Refusal
        There is no whole.
    """
    positive(whole.number, "the whole")
    return reckoned("÷", (part, whole), "fraction").called(label)


def in_steps(value: Value, step: Value, label: str) -> Value:
    """A value to the nearest step of a scale, at least one step, a half upwards; nothing stays nothing."""
    return reckoned("in steps of", (value, step), value.unit).called(label)


def rounded_up(value: Value, label: str) -> Value:
    """The next whole number above, where the last digits of a sum do not count."""
    return reckoned("rounded up", (value,), value.unit).called(label)
