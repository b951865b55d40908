"""When hops, a fining, a spice or whatever else go in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class BeforeTheEnd:
    """So many minutes before the end of the boil; at none, as the heat goes off."""

    minutes: Value


@dataclass(frozen=True, slots=True)
class BeforePackaging:
    """So many days in the beer, the last before it is packaged; ``temperature`` is the beer's, where a line says it."""

    days: Value
    temperature: Value | None = None


@dataclass(frozen=True, slots=True)
class FirstWort:
    """In the kettle while the wort runs in, and for the whole boil."""


@dataclass(frozen=True, slots=True)
class Stand:
    """Steeped in the hot wort after the boil: held, falling evenly, or left to cool by itself in a room of ``air``."""

    minutes: Value
    start: Value
    end: Value
    air: Value | None = None


@dataclass(frozen=True, slots=True)
class BeforeTheBoil:
    """In wort that is kept warm before it is boiled, as bacteria are that sour it, to a ``ph`` if one is said."""

    days: Value
    temperature: Value | None
    ph: Value | None = None


class Stage(Enum):
    """A part of the brew, in the words that a page has for it."""

    MASH = "in the mash"
    STEEP = "in the steep"
    KETTLE = "in the kettle, for the whole boil"
    YEAST = "with the yeast"
    FERMENTER = "into the fermenter"
    FERMENTED = "after fermentation"
    PACKAGING = "at packaging"


IN_THE_BEER = (Stage.YEAST, Stage.FERMENTER, Stage.FERMENTED, Stage.PACKAGING)
"""Stages after the boil, which stops whatever is alive and every enzyme."""

Moment: TypeAlias = BeforeTheEnd | BeforePackaging | Stage
HopUse: TypeAlias = BeforeTheEnd | FirstWort | Stand | BeforePackaging | Stage
