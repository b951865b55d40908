"""Hops as a recipe writes them, and the bitterness of a hopped malt extract."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gristbook.model.amount import Wanted, Weighable, Weight
from gristbook.model.brings import UNKNOWN, Brings
from gristbook.model.moment import HopUse
from gristbook.problems import Place
from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class Store:
    """How long hops have been kept since their packet's figure was measured, how warm, and what their variety loses.

    ``lost_in_six_months`` is the share of the alpha acids gone after 180 days at 20 °C in the open; ``package`` how
    many times as fast they go in what the hops are kept in, `None` where nobody says what that is.
    """

    days: Value
    temperature: Value
    lost_in_six_months: Value
    package: Value | None


HopForm = Literal["pellets", "whole", "extract", "wet"]


@dataclass(frozen=True, slots=True)
class Hop(Weighable):
    """One addition of hops; of its ``use`` as a stage, it is the mash or packaging.

    ``alpha`` is the packet's figure, before any ``store`` or a later ``storage_index``, and ``crops`` the least and the
    most that packets of the variety say (fractions). ``called`` is the trade's word for the addition that its line
    has, as "whirlpool" or "late addition"; "" where it has none.
    """

    amount: Weight | Wanted
    alpha: Value
    alpha_assumed: bool
    crops: tuple[float, float]
    store: Store | None
    storage_index: Value | None
    form: HopForm
    use: HopUse
    aroma: str
    place: Place
    brings: Brings = UNKNOWN
    called: str = ""

    @property
    def whole(self) -> bool:
        """Whether they are dried cones."""
        return self.form == "whole"


@dataclass(frozen=True, slots=True)
class HoppedKit:
    """Bitterness that a hopped malt extract brings, as its label says it: so many IBU in so many litres.

    A line is one tin, as it is bought; of more ``tins`` in an edition, ``volume`` is that of all of them.
    """

    name: str
    bitterness: Value
    volume: Value
    place: Place
    tins: int = 1
