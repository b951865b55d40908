"""What was measured beside what was planned, step by step."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import hypot

from gristbook.sheet.value import NINE_IN_TEN, Value
from gristbook.targets.batches.measured import Bench
from gristbook.targets.batches.results import Compared, Verdict

ROUNDING = 1e-9


def verdict_on(planned: Value | None, measured: Value) -> Verdict:
    """Where a measured figure lies against the planned range, widened by what the reading itself may be out.

    Both are taken for independent: a brew that goes as planned is "within" nine times in ten.
    """
    if planned is None:
        return ""
    apart = measured.number - planned.number
    slack = NINE_IN_TEN * hypot(planned.spread, measured.spread) + ROUNDING
    return "within" if abs(apart) <= slack else "above" if apart > 0 else "below"


Row = tuple[str, str, Value | None]
"""The part of the brew, the figure, and what was measured of it."""

PLANNED_AS = {"beer-packaged": "beer-to-package"}
"""What the plan has in the place of a figure that is only measured."""


def compared(bench: Bench, rows: Iterable[Row]) -> Iterator[Compared]:
    """The rows of what was measured; a figure that the plan has in another unit was not planned."""
    for step, figure, measured in rows:
        if measured is not None:
            planned = bench.planned(PLANNED_AS.get(figure, figure), measured.unit)
            yield Compared(step, figure, planned, measured, verdict_on(planned, measured))
