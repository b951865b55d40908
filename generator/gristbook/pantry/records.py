"""What the pantry knows of each ingredient and style: frozen records of numbers that know their source and line."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from gristbook.problems import Place


@dataclass(frozen=True, slots=True)
class Spread:
    """A number that varies from sack to sack: nine in ten lie between ``low`` and ``high``.

    All three are in ``unit``, a base of `gristbook.reading.units` ("fraction", "°L", "EBC malt", "°C", "g/L", "IBU",
    "") or a scale of the trade that is no unit ("°Lintner", "°WK", "SRM"). Where the source gives one figure,
    the three are the same: no spread is known. ``source`` and ``place`` say where this very number stands.
    """

    typical: float
    low: float
    high: float
    unit: str
    source: str = field(default="", compare=False)
    place: Place = field(default=Place(""), compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What every record has: its name, the other names it goes by, a remark, its source and its line."""

    name: str
    also: tuple[str, ...] = ()
    about: str = ""
    source: str
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Malt(Record):
    """A malt or another grain.

    ``extract`` is fine grind, dry basis, and ``moisture`` the share of water as sold (fractions); ``colour`` is in °L,
    or in "EBC malt" where an author wrote that; ``diastatic_power`` in °Lintner or °WK, and ``fine_coarse_difference``
    what a coarse grind gives less of the dry malt (fraction), both `None` where nobody states them; ``usual_share`` is
    of a grist by weight.
    """

    kind: str
    cereal: str
    extract: Spread
    fine_coarse_difference: Spread | None
    moisture: Spread
    colour: Spread
    diastatic_power: Spread | None
    needs_mash: bool
    usual_share: Spread | None
    taste: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sugar(Record):
    """A sugar or a syrup: it dissolves whole.

    ``extract`` is of the dry matter, ``moisture`` as sold, ``fermentable`` the share of the extract that yeast takes,
    in real terms (all fractions); ``density`` is of a level spoon or cup, in g/L; ``sold_as`` what a shop calls it.
    ``formula`` is of a single sugar that ferments wholly, as it is weighed, its water of crystallisation in it; ""
    where nobody can say how much gas it gives.
    """

    kind: str
    sold_as: str
    formula: str
    extract: Spread
    moisture: Spread
    colour: Spread
    fermentable: Spread
    usual_share: Spread | None
    density: Spread | None
    allergen: str
    taste: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Extract(Record):
    """A malt extract, dried or liquid. ``attenuation`` is the apparent attenuation of a wort of nothing else."""

    kind: str
    cereal: str
    extract: Spread
    moisture: Spread
    colour: Spread
    attenuation: Spread
    density: Spread | None
    taste: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Hop(Record):
    """A hop variety.

    ``alpha`` (fraction) is what is sold; ``alpha_in_trials`` what trial plots gave, where that is another range;
    ``oil`` in mL/100 g; ``keeps`` the share of the alpha acids left after six months at 20 °C.
    """

    origin: str
    alpha: Spread
    alpha_in_trials: Spread | None
    oil: Spread | None
    keeps: Spread | None
    aroma: str


YeastKind: TypeAlias = Literal["ale", "lager", "other"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Yeast(Record):
    """A family of yeasts.

    ``attenuation`` is apparent and ``alcohol_tolerance`` by volume (fractions); ``temperature`` in °C; ``diastatic``
    is "yes", "sometimes" or "no": whether it goes on to ferment dextrins.
    """

    species: str
    kind: YeastKind
    attenuation: Spread
    temperature: Spread
    flocculation: str
    alcohol_tolerance: Spread
    phenolic: bool
    diastatic: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Style(Record):
    """A style of beer: gravities as SG, strength by volume (fraction), bitterness in IBU, colour in SRM."""

    family: str
    original_gravity: Spread
    final_gravity: Spread
    strength: Spread
    bitterness: Spread
    colour: Spread


@dataclass(frozen=True, slots=True, kw_only=True)
class Fining(Record):
    """A fining, a spice, a nutrient: what it is for, what it may bring, what a litre of it weighs from a spoon.

    ``piece`` is the weight of one (kg); ``usual_dose`` and ``most`` are bounds in the batch (g/L), ``too_much`` says
    what they are for.
    """

    kind: str
    purpose: str
    allergen: str
    density: Spread | None
    piece: Spread | None
    usual_dose: Spread | None
    most: Spread | None
    too_much: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Water(Record):
    """A water to brew with, by its report: ions in g/L, `None` where the report is silent.

    Exactly one of ``bicarbonate``, ``alkalinity`` (as calcium carbonate) and ``acid_capacity`` (mmol/L) is there;
    ``chloramine`` is told as Cl₂, as most reports do, or as itself: ``chloramine_told_as`` is "Cl2" or "NH2Cl".
    """

    calcium: Spread
    magnesium: Spread
    sodium: Spread | None
    bicarbonate: Spread | None
    alkalinity: Spread | None
    acid_capacity: Spread | None
    sulfate: Spread | None
    chloride: Spread | None
    chlorine: Spread | None
    chloramine: Spread | None
    chloramine_told_as: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Salt(Record):
    """A salt for the water. ``formula`` is of the salt as it is weighed, its water of crystallisation in it."""

    formula: str
    purpose: str
    allergen: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Acid(Record):
    """An acid: ``strength`` by weight (fraction), ``density`` of what the bottle holds (g/L)."""

    formula: str
    strength: Spread
    density: Spread
    purpose: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Allergen(Record):
    """What some must not eat or drink: words that say so stand in ``also``, what only sounds like it in ``but``."""

    group: str
    but: tuple[str, ...]
