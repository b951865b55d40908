"""What a good teacher would say of a recipe: rows of data, and the one function that reads them.

Advice never changes a recipe. An author who means it so says why, under `meant:`, and the page shows the reason.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import IntEnum
from functools import cache
from math import inf

from gristbook.problems import Place, Severity
from gristbook.sheet.value import Value, given
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Sentence

Span = tuple[float, float]

ANY: Span = (-inf, inf)


class Weight(IntEnum):
    """What comes of it: the beer does not become what it should, a taste that nobody wanted, another style."""

    SPOILS = 0
    TASTED = 1
    STYLE = 2


@dataclass(frozen=True, slots=True)
class Row:
    """One thing to watch. ``key`` is its name under `meant:`; ``figure`` and ``usual`` may find nothing to judge.

    ``standing`` says whether the span is common practice or has a source. Beyond ``possible`` nobody means it: no
    reason under `meant:` makes up for a slip of the unit or the point. Words may name the figure's label as {what}.
    ``weight`` tells what a teacher says first. A ``doubted`` figure is out only with the whole of its range; one that
    is out by no more than ``leeway`` is told in words of its own, low and high, on pages alone. ``where`` is the line
    of a figure that stands in none, and ``mend`` what to do about one that is further out.
    """

    key: str
    figure: Callable[[Plan], Value | None]
    usual: Span | Callable[[Plan], Span | None]
    too_low: str
    too_high: str
    reason: str
    standing: str = PRACTICE
    possible: Span = ANY
    weight: Weight = Weight.TASTED
    doubted: bool = False
    leeway: float = 0.0
    a_little: tuple[str, str] = ("", "")
    where: Callable[[Plan], Place | None] = lambda plan: None
    mend: Callable[[Plan], Sentence] = lambda plan: ()


@dataclass(frozen=True, slots=True)
class Advice:
    """A figure outside its usual span: what to say, why, and, where the author means it so, the author's reason.

    It is an error where the figure lies outside what is ``possible`` as well, and stands at ``place`` if at any line;
    what is ``quiet`` is said on pages alone.
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
    weight: Weight
    quiet: bool
    mend: Sentence


def advise(plan: Plan, rows: tuple[Row, ...]) -> tuple[Advice, ...]:
    """The advice that a plan calls for, in the order of the rows."""
    return tuple(_called_for(plan, rows))


def _called_for(plan: Plan, rows: tuple[Row, ...]) -> Iterator[Advice]:
    meant = {intention.advice: intention.reason for intention in plan.recipe.meant}
    for row in rows:
        figure, usual = row.figure(plan), row.usual(plan) if callable(row.usual) else row.usual
        if figure is None or usual is None:
            continue
        doubted = row.doubted and not usual[0] <= figure.number <= usual[1]
        near = (figure.high, figure.low) if doubted else (figure.number, figure.number)
        below, above = _rounded(near[0], figure.unit) < usual[0], _rounded(near[1], figure.unit) > usual[1]
        words = (row.too_low if below else row.too_high).format(what=figure.label)
        if not words or not (below or above):
            continue
        off = usual[0] - figure.number if below else figure.number - usual[1]
        little = 0 < _rounded(off, figure.unit) <= row.leeway
        if little:
            words = row.a_little[above]
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
            row.where(plan) or figure.place,
            Weight.STYLE if little else row.weight,
            little,
            () if little else row.mend(plan),
        )


def _rounded(number: float, unit: str) -> float:
    """A figure as a page shows it, so that advice never quarrels with a third decimal."""
    return round(number, {"SG": 3, "fraction": 3, "pH": 2, "mL/L": 2}.get(unit, 1))


@cache
def _bound(bound: float, unit: str, key: str, standing: str) -> Value | None:
    """An end of what is usual: the same value each time, so that a page can lead to it."""
    return given(bound, unit, f"usual {key}", words=standing) if 0 < abs(bound) < inf else None
