"""Garetz's hopping rate: the more a beer is hopped, the less each hop gives, so all of its hops must be known at once.

A hopped extract is no part of it: its bitter acids were boiled out of their hops before, and none are lost again.
"""

from __future__ import annotations

from gristbook.equations.bitterness import (
    bitterness_at_hopping_rate_garetz_1994,
    hopping_rate_factor_garetz_1994,
)
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply
from gristbook.targets.results import Volumes


def hopping_rate(before: tuple[Value, ...], wanted: tuple[Value, ...], volumes: Volumes) -> Value:
    """The factor that every addition is divided by.

    Parameters
    ----------
    before : bitterness of each addition with a weight of its own, before the factor
    wanted : bitterness that each other addition is weighed to bring, after it
    """
    concentration: Value | float = 1.0
    if volumes.top_up is not None:
        concentration = (volumes.into_fermenter / volumes.end_of_boil).called("final volume against the boil's")
    return apply(
        hopping_rate_factor_garetz_1994,
        "hopping-rate factor",
        before=sum_of(before, "bitterness before the hopping rate", "IBU"),
        wanted=sum_of(wanted, "bitterness wanted of hops") if wanted else 0.0,
        concentration=concentration,
    )


def at_another_rate(bitterness: Value, factor: Value, then: Value, name: str) -> Value:
    """What the same addition brings once the beer's hopping rate is another."""
    label = f"bitterness of {name} at the hopping rate that is wanted"
    return apply(bitterness_at_hopping_rate_garetz_1994, label, bitterness=bitterness, factor=factor, then=then)
