"""What a brew costs, as one line of its page."""

from __future__ import annotations

from gristbook.site.figures import Sentence, Shown
from gristbook.targets.cost import Cost


def cost_words(cost: Cost, shown: Shown) -> Sentence:
    """The cost of the brew and of a litre of it, or what there is no price for."""
    if cost.total is None or cost.a_litre is None:
        return (f"not worked out: no price yet for {', '.join(cost.missing)}",)
    return shown.say(cost.total, f" {cost.currency} for what goes in, ", cost.a_litre)
