"""The brew as numbered steps that a beginner can follow, made from the plan's values and the recipe's lines."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from gristbook.targets.advice.cautions import cautions
from gristbook.targets.figures import Plan
from gristbook.targets.method.boil import boil_steps
from gristbook.targets.method.cellar import cellar_steps
from gristbook.targets.method.ferment import ferment_steps
from gristbook.targets.method.mash import grain_steps
from gristbook.targets.method.package import package_steps
from gristbook.targets.method.ready import ready_steps
from gristbook.targets.method.step import Draft
from gristbook.targets.method.step import Step as Step

PARTS = (ready_steps, grain_steps, boil_steps, cellar_steps, ferment_steps, package_steps)


def steps(plan: Plan) -> tuple[Step, ...]:
    """The whole brew in order, with the cautions at each step; what a recipe does not call for is absent.

    A value in a sentence is the plan's own, or one that an equation made of the plan's (boiling water for a second
    rest, the pressure on a keg), or a figure of common practice that says so.
    """
    return tuple(_cautioned(chain.from_iterable(part(plan) for part in PARTS), plan))


def _cautioned(drafts: Iterator[Draft], plan: Plan) -> Iterator[Step]:
    """A caution is said where it first applies; one that is for every such step, at each. So is what to do after it."""
    rows, said, helped = cautions(plan), set[str](), set[str]()
    for kind, title, sentences, clock in drafts:
        here = [row for row in rows if kind in row.kinds and (row.every or row.words not in said)]
        said |= {row.words for row in here}
        aids = tuple(aid for aid in dict.fromkeys(row.aid for row in here) if aid and aid not in helped)
        helped.update(aids)
        ranks = tuple(row.rank for row in here)
        yield Step(kind, title, sentences, tuple(row.sentence for row in here), aids, ranks, clock)
