"""The steps of a brew that a recipe says one by one: the rests of the mash, the sparge, the days of the ferment."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gristbook.problems import Place
from gristbook.sheet.value import Value, number

MashWay = Literal["infusion", "decoction", "heat", "cool"]
MashRole = Literal[
    "dough in",
    "acid rest",
    "glucan rest",
    "ferulic rest",
    "protein rest",
    "beta rest",
    "alpha rest",
    "saccharification rest",
    "mash out",
]
"""What a rest of the mash is for."""
CONVERTING: frozenset[MashRole] = frozenset({"beta rest", "alpha rest", "saccharification rest"})
"""The rests that turn starch to sugar."""


@dataclass(frozen=True, slots=True)
class MashStep:
    """One rest of the mash. ``water`` is the water poured in for it, where the author says how much.

    ``role`` is what it is for, where the author says it. ``hot`` is the water's temperature, where it is not worked
    out; with ``by_water`` the rest's own temperature is not written, and follows from it.
    """

    temperature: Value
    minutes: Value
    water: Value | None
    way: MashWay
    place: Place
    role: MashRole | None = None
    hot: Value | None = None
    by_water: bool = False
    note: str = ""

    @property
    def may_convert(self) -> bool:
        """Whether it may turn starch to sugar, by its role; any rest may that has none."""
        return self.role is None or self.role in CONVERTING


@dataclass(frozen=True, slots=True)
class Sparge:
    """What an author says of the sparge: its water, how hot it is, and the way (a word of an author's, "no", or "")."""

    water: Value | None
    temperature: Value | None
    way: str
    place: Place
    note: str = ""


FermentRole = Literal["primary", "secondary", "diacetyl rest", "cold crash", "lagering", "conditioning"]
FermentWay = Literal["held", "between", "ramp", "free rise"]


@dataclass(frozen=True, slots=True)
class FermentStep:
    """A temperature held for some days, or two: ``end`` is the other one that it is kept between, or comes to.

    ``role`` is what it is for and ``called`` the author's words for that; ``pressure`` is above the air's, and
    ``pitched`` the wort's temperature as the yeast goes in, where it is not the step's.
    """

    temperature: Value
    days: Value
    place: Place
    end: Value | None = None
    way: FermentWay = "held"
    role: FermentRole | None = None
    called: str = ""
    pressure: Value | None = None
    pitched: Value | None = None
    note: str = ""

    @property
    def last(self) -> Value:
        """The temperature that it ends at; of two that it is kept between, the warmer."""
        return self.end or self.temperature

    @property
    def warmest(self) -> Value:
        """The warmest that it is."""
        return max(self.temperature, self.last, key=number)

    @property
    def coolest(self) -> Value:
        """The coolest that it is."""
        return min(self.temperature, self.last, key=number)
