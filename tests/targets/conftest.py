"""What several tests of plans share: a plain beer, of which each tries the lines of one section."""

from collections.abc import Callable
from typing import Any

import pytest

TRIAL = {
    "malts": ("4 kg pale ale malt",),
    "hops": ("28 g Fuggle, 4.5 % alpha, 60 min",),
    "yeast": ("11 g american ale yeast, clean, dried",),
    "mash": ("67 °C, 60 min",),
    "ferment": ("19 °C, 10 days",),
}


@pytest.fixture
def trial(plan_of: Callable[..., Any]) -> Callable[..., Any]:
    """`trial(hops=("20 g Saaz, 20 min",))`: the plan of that beer with these lines in the place of its own."""

    def plan(**lines: tuple[str, ...]) -> Any:
        sections = "\n".join(f"{key}:\n  - " + "\n  - ".join(its) for key, its in {**TRIAL, **lines}.items())
        outcome = plan_of(f"---\ntitle: A trial\nbatch: 20 L\n{sections}\ncarbonation: 2.2 volumes, keg\n---\n")
        assert outcome.plan is not None, outcome.problems
        return outcome.plan

    return plan
