"""What the clocks of a brew day are set to, by hand from the recipe's own lines."""

from __future__ import annotations

import the_demo

from gristbook.targets.method.whole import steps


def test_a_step_says_how_long_it_takes_or_when_before_the_end_of_the_boil_it_is_due() -> None:
    """The recipe: a rest of 60 min, a boil of 60, hops at 60 and 20, a coil at 15, sugar at 10, a stand of 20."""
    told = [step for step in steps(the_demo.plans()["quillmere-best"]) if step.clock]
    assert [(step.kind, *step.clock) for step in told if step.clock] == [
        ("rest", 60, False),
        ("boil", 60, False),
        ("hops", 60, True),
        ("hops", 20, True),
        ("coil", 15, True),
        ("dissolve", 10, True),
        ("flameout", 0, True),
        ("stand", 20, False),
    ]
