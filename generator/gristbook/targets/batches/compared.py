"""What was measured beside what was planned, step by step."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import hypot

from gristbook.sheet.value import Value
from gristbook.targets.batches.measured import Bench
from gristbook.targets.batches.results import Compared, Verdict

ROUNDING = 1e-9
PLANNED_AS: Mapping[str, str] = {"beer-packaged": "beer-to-package"}
"""What the plan has in the place of a figure that is only measured."""


def verdict_on(planned: Value | None, measured: Value) -> Verdict:
    """Where a measured figure lies against the planned range, widened by what the reading itself may be out.

    Both are taken for independent: a brew that goes as planned is "within" nine times in ten.
    """
    if planned is None:
        return ""
    apart = measured.number - planned.number
    if apart > 0:
        slack = hypot(planned.high - planned.number, measured.number - measured.low)
    else:
        slack = hypot(planned.number - planned.low, measured.high - measured.number)
    return "within" if abs(apart) <= slack + ROUNDING else "above" if apart > 0 else "below"


def compared(
    bench: Bench, steps: Mapping[str, Mapping[str, Value | None]], worked_out: Mapping[str, Value | None]
) -> Iterator[Compared]:
    """What was measured at each step, by id; a figure that the plan has in another unit was not planned.

    Parameters
    ----------
    worked_out : what stands for a figure of the plan that is not taken as it was frozen
    """
    for step, figures in steps.items():
        for figure, measured in figures.items():
            if measured is not None:
                frozen = PLANNED_AS.get(figure, figure)
                planned = worked_out[figure] if figure in worked_out else bench.planned(frozen, measured.unit)
                yield Compared(step, figure, planned, measured, verdict_on(planned, measured))
