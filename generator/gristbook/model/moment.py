"""When a fining, a spice or whatever else goes in."""

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
    """So many days in the beer, the last before it is packaged."""

    days: Value


class Stage(Enum):
    """A part of the brew, in the words that a page has for it."""

    MASH = "in the mash"
    STEEP = "in the steep"
    KETTLE = "in the kettle, for the whole boil"
    YEAST = "with the yeast"
    FERMENTER = "into the fermenter"
    FERMENTED = "after fermentation"
    PACKAGING = "at packaging"


Moment: TypeAlias = BeforeTheEnd | BeforePackaging | Stage
