"""The method in its stages: what the recipe's page tells in short, and the page of the day in full."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from gristbook.site.learn.terms import Uses
from gristbook.targets.method.step import Step

STAGES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Getting ready", ("starter", "weigh", "crush", "clean", "water")),
    ("Mash", ("heat", "steep", "mash", "rest", "infuse", "decoct", "warm", "sparge", "drain", "check")),
    ("Boil", ("first-wort", "dissolve", "boil", "hops", "addition", "coil", "flameout", "stand")),
    ("Cool and pitch", ("cool", "top-up", "read", "pitch")),
    ("Ferment", ("ferment", "feed", "dry-hop", "finished")),
    ("Package and pour", ("prime", "bottle", "keg", "keep", "serve")),
)
"""The parts of a brew and the kinds of step in each; any other kind (sanitise) belongs to the step that follows."""


@dataclass(frozen=True, slots=True)
class Stage:
    """A part of the brew; ``first`` is the number of its first step."""

    title: str
    first: int
    steps: tuple[Step, ...]


def stages(steps: Sequence[Step], terms: Uses) -> Iterator[Stage]:
    """The steps in their stages, with their words linked; a stage that is come back to is told again.

    Where nothing is mashed, no stage is called a mash.
    """
    kinds_here = {step.kind for step in steps}
    first_heat = "Mash" if "mash" in kinds_here else "Steep" if "steep" in kinds_here else "Water"
    titles = {kind: first_heat if title == "Mash" else title for title, kinds in STAGES for kind in kinds}
    title, staged = "", []
    for step in reversed(steps):
        title = titles.get(step.kind, title)
        staged.append((title, step))
    first = 1
    for title, group in groupby(reversed(staged), key=lambda pair: pair[0]):
        told = tuple(_linked(step, terms) for _, step in group)
        yield Stage(title or STAGES[-1][0], first, told)
        first += len(told)


def _linked(step: Step, terms: Uses) -> Step:
    said = (tuple(terms.linked(it) if isinstance(it, str) else it for it in words) for words in step.sentences)
    return replace(step, sentences=tuple(said))
