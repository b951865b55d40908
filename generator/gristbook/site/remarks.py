"""What a teacher would say of a recipe: each remark with its figure, what is usual, why, and who says so."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.site.figures import Figure, Sentence, Shown
from gristbook.targets.advice import Advice, advise
from gristbook.targets.advice_rows import ROWS
from gristbook.targets.figures import Plan


@dataclass(frozen=True, slots=True)
class Remark:
    """A piece of advice; ``meant`` is the author's own reason, empty where the author gives none."""

    words: str
    figure: Figure
    usual: Sentence
    reason: str
    standing: str
    meant: str


def remarks(plan: Plan, shown: Shown) -> tuple[Remark, ...]:
    """What there is to say of a plan, in the order in which a teacher would go through it."""
    return tuple(
        Remark(
            advice.words.removesuffix("."),
            shown(advice.figure),
            _usual(advice, shown),
            advice.reason,
            advice.standing,
            advice.meant.removesuffix("."),
        )
        for advice in advise(plan, ROWS)
    )


def _usual(advice: Advice, shown: Shown) -> Sentence:
    """The usual span in words; a bound that is no bound is left out."""
    if advice.low is not None and advice.high is not None:
        return shown.say("usually between ", advice.low, " and ", advice.high)
    if advice.low is not None:
        return shown.say("usually at least ", advice.low)
    if advice.high is not None:
        return shown.say("usually at most ", advice.high)
    return ("usually none",)
