"""What the page of cautions is given: every caution there is, by the part of the brew that it belongs to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gristbook.site.addresses import slug
from gristbook.site.beer.stages import STAGES
from gristbook.site.pages import Group
from gristbook.targets.advice.caution import Caution
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.method.step import Sentence

WHEN: Mapping[str, str] = {
    "starter": "growing a starter",
    "weigh": "weighing",
    "crush": "crushing the grain",
    "clean": "cleaning",
    "water": "treating the water",
    "heat": "heating water",
    "steep": "steeping",
    "mash": "mashing",
    "infuse": "adding boiling water to the mash",
    "warm": "warming the mash",
    "decoct": "boiling part of the mash",
    "sparge": "sparging",
    "drain": "lifting the bag",
    "first-wort": "hopping the first wort",
    "dissolve": "stirring in sugar or extract",
    "boil": "boiling",
    "hops": "adding hops",
    "stand": "letting hops stand",
    "sanitise": "sanitising",
    "cool": "cooling",
    "pitch": "pitching the yeast",
    "ferment": "fermenting",
    "feed": "adding to the fermenter",
    "dry-hop": "dry hopping",
    "finished": "judging whether it has finished",
    "prime": "priming",
    "bottle": "bottling",
    "keg": "kegging",
    "keep": "keeping bottles",
    "serve": "pouring",
}
"""A kind of step at which there is something to take care of, as one says it."""

_STAGE = {kind: title for title, kinds in STAGES for kind in kinds} | {"sanitise": "Cool and pitch"}


@dataclass(frozen=True, slots=True)
class CautionRow:
    """A caution, when it is to be minded, and who says so where that is not common practice."""

    words: Sentence
    when: str
    standing: str


@dataclass(frozen=True, slots=True)
class CautionsPage:
    """All cautions; those that are ``usual`` in standing do not say it again."""

    usual: str
    parts: tuple[Group[CautionRow], ...]


def cautions_page(cautions: Sequence[Caution]) -> CautionsPage:
    """The cautions, each in the first part of the brew where it stands."""
    by_stage: dict[str, list[CautionRow]] = {title: [] for title, _ in STAGES}
    for caution in cautions:
        row = CautionRow(caution.sentence, _when(caution), "" if caution.source == PRACTICE else caution.source)
        by_stage[_STAGE[caution.kinds[0]]].append(row)
    parts = (Group(slug(title), title, tuple(rows)) for title, rows in by_stage.items() if rows)
    return CautionsPage(PRACTICE, tuple(parts))


def _when(caution: Caution) -> str:
    *others, last = (WHEN[kind] for kind in caution.kinds)
    when = f"When {', '.join(others)}{' or ' if others else ''}{last}"
    if caution.when != "always":
        when += f", where there {'are' if caution.when.endswith('s') else 'is'} {caution.when}"
    return when
