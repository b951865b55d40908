"""Gas that a vessel cannot hold: the ceilings, and what in a beer makes more of it than was meant."""

from __future__ import annotations

import re
from dataclasses import dataclass

from gristbook.problems import Severity
from gristbook.targets.caution_rows import Caution
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.figures import Plan
from gristbook.worksheet import given


@dataclass(frozen=True, slots=True)
class Ceiling:
    """A bound on the gas in a bottle that nobody has named: above ``volumes``, or from there on (``reached``).

    The words stand around the number, ``before`` it and after.
    """

    volumes: float
    reached: bool
    severity: Severity
    before: str
    words: str

    def exceeded_by(self, volumes: float) -> bool:
        """Whether so much gas is too much."""
        return volumes >= self.volumes if self.reached else volumes > self.volumes


CEILINGS = (
    Ceiling(
        2.8,
        False,
        Severity.WARNING,
        "more than ",
        ": a swing-top or an unmarked bottle is safe only if its maker states more",
    ),
    Ceiling(
        3.0,
        True,
        Severity.WARNING,
        "",
        " is the limit of an ordinary bottle: use heavy bottles that their maker rates for the pressure",
    ),
    Ceiling(
        3.5,
        False,
        Severity.ERROR,
        "more than ",
        " bursts an ordinary bottle: less gas, or a keg rated for the pressure",
    ),
)
"""Common practice, no source; from the lowest to the highest."""


def carbonation_verdict(volumes: float, keg: bool) -> tuple[Severity | None, str]:
    """What there is to say against so much gas: how grave it is, and the words; `None` and "" where there is nothing.

    >>> carbonation_verdict(2.4, keg=False)
    (None, '')
    """
    ceiling = None if keg else highest_below(volumes)
    return (ceiling.severity, f"{ceiling.before}{ceiling.volumes} volumes{ceiling.words}") if ceiling else (None, "")


def highest_below(volumes: float) -> Ceiling | None:
    """The gravest ceiling that so much gas is beyond."""
    return next((ceiling for ceiling in reversed(CEILINGS) if ceiling.exceeded_by(volumes)), None)


def of_gas(ceiling: Ceiling) -> Caution:
    """A ceiling as a caution at the bottling."""
    return Caution(
        f"{ceiling.words}.",
        ("bottle",),
        short="Only bottles that their maker rates for this gas.",
        before=ceiling.before.capitalize(),
        figure=given(ceiling.volumes, "vol", "bound on the gas in a bottle", origin=PRACTICE),
    )


def in_keg(plan: Plan) -> bool:
    """Whether the beer gets its gas under pressure in a keg; bottles where nothing is said."""
    return plan.recipe.carbonation is not None and plan.recipe.carbonation.sugar is None


def diastatic(plan: Plan) -> bool:
    """Whether something in the beer may go on turning dextrins to sugar, so that it ferments for weeks more."""
    added = {word for extra in plan.recipe.extras for word in _words(extra.name)}
    pitched = {word for yeast in plan.recipe.yeasts for name in (yeast.name, *yeast.families) for word in _words(name)}
    return bool({"saison", "diastatic", "diastaticus"} & pitched or {"glucoamylase", "amyloglucosidase"} & added)


def _words(name: str) -> set[str]:
    return set(re.findall(r"[^\W\d_]+", name.casefold()))
