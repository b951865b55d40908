"""Brewing water as it comes, and what a recipe does to it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gristbook.model.amount import Share, Volume
from gristbook.model.brings import UNKNOWN, Brings
from gristbook.problems import Place
from gristbook.sheet.value import Value

Into = Literal["water", "mash", "sparge", "kettle"]
"""Where a salt or an acid goes: all the water, or the mash, the sparge water or the kettle alone."""


@dataclass(frozen=True, slots=True)
class WaterSource:
    """A water by its report: ions in mg/L, `None` where the report is silent, which is not nothing.

    Exactly one of ``bicarbonate`` (mg/L), ``alkalinity`` (mg/L as CaCO₃) and ``acid_capacity`` (mEq/L) is there, and at
    most one of ``chloramine``, which is told as Cl₂, and ``monochloramine``, which is the same told as NH₂Cl.
    """

    name: str
    calcium: Value
    magnesium: Value
    sodium: Value | None
    bicarbonate: Value | None
    alkalinity: Value | None
    acid_capacity: Value | None
    sulfate: Value | None
    chloride: Value | None
    chlorine: Value | None
    chloramine: Value | None
    monochloramine: Value | None
    place: Place


@dataclass(frozen=True, slots=True)
class Dilution:
    """Another water that takes the place of some of it."""

    water: WaterSource
    amount: Volume | Share
    place: Place
    note: str = ""


@dataclass(frozen=True, slots=True)
class SaltUse:
    """A salt (g; g/L until the water is known), by its ``formula`` with the water of crystallisation in it.

    ``moment_written`` is the author's own words for ``into``.
    """

    name: str
    formula: str
    mass: Value
    into: Into
    moment_written: str
    purpose: str
    place: Place
    brings: Brings = UNKNOWN
    note: str = ""

    @property
    def sulfite(self) -> bool:
        """Whether it takes chlorine out of the water instead of bringing ions to it."""
        return "S2O5" in self.formula


@dataclass(frozen=True, slots=True)
class AcidUse:
    """An acid (mL from the bottle; mL/L until the water is known).

    ``strength`` is by weight (fraction), ``density`` of what the bottle holds (g/mL).
    """

    name: str
    formula: str
    strength: Value
    density: Value
    volume: Value
    into: Into
    moment_written: str
    purpose: str
    place: Place
    note: str = ""


@dataclass(frozen=True, slots=True)
class Treatment:
    """What a recipe says of its water; without a ``source`` the brewhouse's own runs.

    ``note`` is what the lines of the source, or of the tap, say besides, of which nothing is reckoned.
    """

    source: WaterSource | None = None
    dilutions: tuple[Dilution, ...] = ()
    salts: tuple[SaltUse, ...] = ()
    acids: tuple[AcidUse, ...] = ()
    note: str = ""
