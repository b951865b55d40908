"""The gas of a beer and how it comes there: the priming, and what the beer is packaged in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gristbook.problems import Place
from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class Solids:
    """Malt extract as it is weighed: extract of the dry matter, water, apparent attenuation of its wort (fractions)."""

    extract_dry: Value
    moisture: Value
    attenuation: Value


@dataclass(frozen=True, slots=True)
class PrimingSugar:
    """What bottles are primed with: its name in the pantry, what a recipe calls it, and what is in it.

    That is the formula of a sugar that ferments wholly, with its water of crystallisation, or the solids of an extract.
    ``share`` is how much of it is such a sugar, where it is not all.
    """

    name: str
    called: str
    contents: str | Solids
    share: Value | None = None


@dataclass(frozen=True, slots=True)
class Drops:
    """Lumps of sugar for bottles: how many to a bottle of which size (L)."""

    each: Value
    bottle: Value


Holds = Literal["bottles", "heavy bottles", "swing-top bottles", "keg", "cask"]
"""What beer is packaged in."""


@dataclass(frozen=True, slots=True)
class Carbonation:
    """Gas wanted, in volumes, and the sugar that makes it (`None` in a keg under pressure).

    ``dose`` is the sugar that the author says (g in all, or g/L), also where it is told in ``drops``; the volumes are
    not written and follow ``by_dose``, or are compared with it. It is ``unsaid`` where nobody says how the gas is made;
    ``served`` is how warm the keg is; by the ``pressure`` on it the volumes follow, too, where it is told; ``note`` is
    what nobody reckons with.
    """

    volumes: Value
    sugar: PrimingSugar | None
    place: Place
    vessel: Holds = "bottles"
    dose: Value | None = None
    drops: Drops | None = None
    by_dose: bool = False
    unsaid: bool = False
    served: Value | None = None
    pressure: Value | None = None
    note: str = ""
