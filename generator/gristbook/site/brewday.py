"""What helps on the day besides the method: the mash, a starter, topping up, instruments, where the extract goes."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.site.figures import Sentence, Shown
from gristbook.site.growing import Starters, starters_view
from gristbook.site.instruments import Instruments, instruments, topping_up
from gristbook.site.ledger import Ledger, ledger
from gristbook.site.mashing import MashView, mash_view
from gristbook.targets.figures import Plan


@dataclass(frozen=True, slots=True)
class BrewDay:
    """What a brewer looks up on the day; what a beer does not call for is absent."""

    mash: MashView | None
    starters: Starters | None
    topping_up: Sentence
    instruments: Instruments
    ledger: Ledger


def brew_day(plan: Plan, shown: Shown) -> BrewDay:
    """All that a plan says of the day."""
    return BrewDay(
        mash_view(plan, shown),
        starters_view(plan, shown),
        topping_up(plan, shown),
        instruments(plan, shown),
        ledger(plan, shown),
    )
