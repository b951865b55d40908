"""What ties a printed card to its page: when, for which vessels, and a mark that changes when the brew does."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from hashlib import sha256

from gristbook.sheet.value import Value
from gristbook.site.amounts import bare
from gristbook.site.working.walk import values_in
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Step

LETTERS = 8
"""Letters of a mark: enough that no two brews of a class ever share one."""


def mark(plan: Plan, steps: Sequence[Step]) -> str:
    """A short mark of everything that a brewer is told to weigh, heat, wait for and expect.

    The same brew has the same mark on every machine; another weight, another kettle or another sentence gives another.
    """
    digest = sha256("\n".join(_told(plan, steps)).encode()).hexdigest()
    return "-".join(digest[start : start + LETTERS // 2] for start in (0, LETTERS // 2))


def _told(plan: Plan, steps: Sequence[Step]) -> Iterator[str]:
    yield from (plan.recipe.title, plan.brewhouse.name, plan.bitterness_model, plan.colour_model)
    for value in (*values_in(plan.recipe), *values_in(plan.brewhouse), *plan.named.values()):
        yield _said(value)
    for step in steps:
        yield step.title
        for words in step.sentences:
            yield "".join(_said(part) if isinstance(part, Value) else part for part in words)


def _said(value: Value) -> str:
    return f"{value.label} {bare(value.number)} {value.unit}"
