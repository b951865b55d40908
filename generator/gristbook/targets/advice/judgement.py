"""The one judgement of a whole recipe, its water included: what weighs most comes first, what is meant last."""

from __future__ import annotations

from gristbook.targets.advice.advice import Advice, advise
from gristbook.targets.advice.advice_rows import ROWS
from gristbook.targets.figures import Plan

AT_ONCE = 5
"""A teacher says no more than so many things at once."""


def judgement(plan: Plan) -> tuple[Advice, ...]:
    """Everything that is to be said of a recipe; nothing is said for its good health."""
    return tuple(sorted(advise(plan, ROWS), key=lambda advice: (bool(advice.meant), advice.weight)))
