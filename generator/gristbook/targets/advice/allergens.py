"""What is in a beer that some must not drink, and the sentence that says so on page, card, method and in JSON."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from gristbook.model.brings import Brings
from gristbook.model.extra import Extra
from gristbook.model.hop import Hop
from gristbook.model.recipe import Malt, Sugar
from gristbook.model.water import SaltUse
from gristbook.model.yeast import Yeast
from gristbook.pantry.pantry import ours
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import names

GLUTEN = frozenset(it.name for it in ours("allergens").records if it.group.startswith("1,"))
"""The cereals that hold gluten."""

ANY_ALLERGEN = names(it.group.partition(", ")[2] for it in ours("allergens").records)
"""The fourteen groups of the law, for a page that speaks of no beer."""


@dataclass(frozen=True, slots=True)
class Allergens:
    """What is in a beer, each once, by name; and the things of which nobody knows all that they bring."""

    names: tuple[str, ...]
    unknown: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """The list as one reads it, open where something is unknown; "" where there is nothing to say.

        >>> Allergens(("barley",), ("cashew cream",)).words
        'barley, and whatever is in cashew cream: read its label'
        """
        known = ", ".join(self.names)
        if not self.unknown:
            return known
        labels = "its label" if len(self.unknown) == 1 else "their labels"
        rest = f"whatever is in {names(self.unknown)}: read {labels}"
        return f"{known}, and {rest}" if known else rest


def allergens(plan: Plan) -> Allergens:
    """What is in the beer that some must not drink."""
    recipe = plan.recipe
    lines: tuple[Malt | Sugar | Hop | Yeast | Extra | SaltUse, ...]
    lines = (*recipe.malts, *recipe.sugars, *recipe.hops, *recipe.yeasts, *recipe.extras, *recipe.water.salts)
    return gathered((it.name, it.brings) for it in lines)


def gathered(things: Iterable[tuple[str, Brings]]) -> Allergens:
    """What things bring together, by their names."""
    all_of_it = tuple(things)
    named = {name for _, brings in all_of_it for name in brings.names}
    return Allergens(tuple(sorted(named)), tuple(dict.fromkeys(name for name, brings in all_of_it if brings.open)))
