"""What a good teacher would say of a recipe: rows of data, and the one function that reads them.

Advice never changes a recipe. An author who means it so says why, under `meant:`, and the page shows the reason.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from math import inf

from gristbook.problems import Place, Severity
from gristbook.sheet.value import Value, given
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.figures import Plan

Span = tuple[float, float]

ANY: Span = (-inf, inf)


@dataclass(frozen=True, slots=True)
class Row:
    """One thing to watch. ``key`` is its name under `meant:`; ``figure`` and ``usual`` may find nothing to judge.

    ``standing`` says whether the span is common practice or has a source. Beyond ``possible`` nobody means it: no
    reason under `meant:` makes up for a slip of the unit or the point.
    """

    key: str
    figure: Callable[[Plan], Value | None]
    usual: Span | Callable[[Plan], Span | None]
    too_low: str
    too_high: str
    reason: str
    standing: str = PRACTICE
    possible: Span = ANY


@dataclass(frozen=True, slots=True)
class Advice:
    """A figure outside its usual span: what to say, why, and, where the author means it so, the author's reason.

    It is an error where the figure lies outside what is ``possible`` as well, and stands at ``place`` if at any line.
    """

    key: str
    words: str
    figure: Value
    low: Value | None
    high: Value | None
    reason: str
    standing: str
    meant: str
    possible: Span
    severity: Severity
    place: Place | None


def advise(plan: Plan, rows: tuple[Row, ...]) -> tuple[Advice, ...]:
    """The advice that a plan calls for, in the order of the rows."""
    return tuple(_called_for(plan, rows))


def _called_for(plan: Plan, rows: tuple[Row, ...]) -> Iterator[Advice]:
    meant = {intention.advice: intention.reason for intention in plan.recipe.meant}
    for row in rows:
        figure, usual = row.figure(plan), row.usual(plan) if callable(row.usual) else row.usual
        if figure is None or usual is None or usual[0] <= _rounded(figure) <= usual[1]:
            continue
        words = row.too_low if _rounded(figure) < usual[0] else row.too_high
        low, high = (_bound(bound, figure.unit, row.key, row.standing) for bound in usual)
        slip = not row.possible[0] <= figure.number <= row.possible[1]
        yield Advice(
            row.key,
            words,
            figure,
            low,
            high,
            row.reason,
            row.standing,
            "" if slip else meant.get(row.key, ""),
            row.possible,
            Severity.ERROR if slip else Severity.WARNING,
            figure.place,
        )


def _rounded(figure: Value) -> float:
    """A figure as a page shows it, so that advice never quarrels with a third decimal."""
    return round(figure.number, 3 if figure.unit in ("SG", "fraction") else 1)


@cache
def _bound(bound: float, unit: str, key: str, standing: str) -> Value | None:
    """An end of what is usual: the same value each time, so that a page can lead to it."""
    return given(bound, unit, f"usual {key}", words=standing) if 0 < abs(bound) < inf else None
