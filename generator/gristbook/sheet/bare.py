"""A number without its lineage: it says how sure it is, and no more what it was worked out from."""

from __future__ import annotations

from gristbook.sheet.origin import Given, Reckoned
from gristbook.sheet.ranges import Sure
from gristbook.sheet.value import Value

FORGOTTEN = Reckoned("+", ())
"""How a number was made of which nobody can say any more what went into it."""


def bare(value: Value) -> Value:
    """A value that says how sure it is, and not what it was worked out from."""
    made = value.made if isinstance(value.made, Given) else FORGOTTEN
    sure = Sure(dict(value.doubts), {picks: bare(it) for picks, it in value.sure.branches.items()})
    return restored(value.number, value.unit, value.label, made, value.metric, sure)


def restored(number: float, unit: str, label: str, made: Given | Reckoned, metric: bool, sure: Sure) -> Value:
    """A value of which all is known but what it was worked out from."""
    value = Value(number, unit, label, made, metric=metric)
    object.__setattr__(value, "_sure", sure)
    return value
