"""What the chain takes for granted: figures of common practice, each with its range, for the working to show."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import sqrt

from gristbook.pantry.doubts import usual
from gristbook.sheet.doubts import NINE_IN_TEN
from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value, as_it_comes, given

PRACTICE = "common practice, no source"


def practice(
    number: float,
    unit: str,
    label: str,
    low: float | None = None,
    high: float | None = None,
    origin: str = PRACTICE,
    *,
    metric: bool = False,
) -> Value:
    """A number that no recipe states; nine in ten lie between ``low`` and ``high``, where it is not taken as sure."""
    ends = None if low is None or high is None else (low - number, high - number)
    return given(number, unit, label, words=origin, ends=ends, metric=metric)


def carried_out(value: Value, doubts: Mapping[str, str]) -> Value:
    """A decision as it comes out when somebody weighs, pours, heats or fills: as sure as it usually is.

    ``doubts`` names each of its doubts and the kind of it. What an author wrote with a ± comes out as he says.
    """
    if isinstance(value.origin, Given) and value.origin.ends is not None:
        own = value.origin.doubt if len(doubts) > 1 else next(iter(doubts))
        return replace(value, origin=replace(value.origin, doubt=own))
    return within(value, doubts)


def within(value: Value, doubts: Mapping[str, str]) -> Value:
    """The same number, with further doubts by name, each as large as its kind usually is."""
    return as_it_comes(value, {doubt: usual(kind).about(value.number) for doubt, kind in doubts.items()})


GRAIN_HEAT = practice(
    0.41,
    "ratio",
    "heat of the grain against water's",
    0.32,
    0.42,
    "Palmer's metric strike equation; other sources give 0.32 to 0.42",
)
GRAIN_DISPLACEMENT = practice(0.67, "L/kg", "room that wet grain takes")
GRAIN_GIVES = practice(0.60, "fraction", "extract of a kilogram of grain")
DRIED_EXTRACT_VOLUME = practice(0.63, "L/kg", "volume of dried malt extract, dissolved", 0.5985, 0.6615)
LIQUID_EXTRACT_VOLUME = practice(0.69, "L/kg", "volume of liquid malt extract, dissolved", 0.6555, 0.7245)
WATER_ROOM = practice(
    1.0018, "L/kg", "room that water takes", origin="its density at 20 °C, 0.9982 kg/L", low=1.0018, high=1.0018
)
SUGAR_ROOM = practice(
    0.62, "L/kg", "room that dissolved sugar takes", 0.61, 0.63, "sucrose in water at 20 °C: 0.61 to 0.63"
)
PULP_KEEPS = practice(0.3, "L/kg", "what pulp keeps", 0.15, 0.5)
SOAKED_FRUIT_KEEPS = practice(1.0, "L/kg", "what soaked dried fruit keeps", 0.6, 1.5)
DRY_HOPS_KEEP = practice(6.0, "mL/g", "beer that dry hops keep", 4.0, 9.0)
STEEP_WATER = practice(3.0, "L/kg", "steeping water for each kilogram of grain")

AS_PUBLISHED = practice(
    1.0, "ratio", "form of the hops", origin="as published, without a factor for whole hops, pellets or extract"
)
WET_HOPS = practice(4.5, "ratio", "weight of wet hops for one of dried", 4.0, 5.0)
FIRST_WORT = practice(1.0, "ratio", "first-wort hops against the whole boil", 0.85, 1.15)
AIRTIGHT = practice(
    0.75,
    "ratio",
    "how the hops are kept",
    0.5,
    1.0,
    "Garetz 1994: 1.0 open, 0.75 airtight, 0.5 vacuum or inert gas",
)
_RATE, _FIX = "10⁶ cells/(mL·°P)", "Fix and Fix 1997, as quoted"
ALE_RATE = practice(0.75, _RATE, "pitch rate for ale", origin=_FIX)
LAGER_RATE = practice(1.5, _RATE, "pitch rate for lager", origin=_FIX)
STRONG_ALE_RATE = practice(
    1.0, _RATE, "pitch rate for strong ale", origin="from memory: White and Zainasheff 2010: 0.75 to 1.25 from 1.061 on"
)
STRONG_LAGER_RATE = practice(
    2.0, _RATE, "pitch rate for strong lager", origin="from memory: textbooks: 1.5 to 2.5 from 1.061 on"
)
CELLS_IN_A_PACK = practice(100.0, "10⁹ cells/pack", "cells in a pack of liquid yeast")
CELLS_IN_SLURRY = practice(
    1.2,
    "10⁹ cells/mL",
    "cells in a millilitre of slurry",
    0.6,
    2.5,
    "from memory: 0.6 to 2.5 billion a millilitre, by how far it has settled and how clean it is",
)
FRESH = practice(1.0, "fraction", "share of the cells alive", origin="a fresh pack")
ALIVE_AT_THIRTY_DAYS = practice(
    0.80,
    "fraction",
    "share alive after thirty days",
    0.75,
    0.85,
    "makers state 75 to 85 %, refrigerated, as quoted; seven slurries that a brewer counted had 94 %",
)
CELLS_IN_A_GRAM = practice(
    10.0,
    "10⁹ cells/g",
    "cells in a gram of dried yeast",
    6.0,
    18.0,
    "van den Berg and van Landschoot 2003, as quoted: 8 to 18 by strain; makers promise 5 to 6",
)
ALE_DOSE = practice(0.65, "g/L", "dose of dried yeast for ale", 0.5, 0.8)
STRONG_ALE_DOSE = practice(1.25, "g/L", "dose of dried yeast for strong ale", 1.0, 1.5)
LAGER_DOSE = practice(
    1.0,
    "g/L",
    "dose of dried yeast for lager, 12 to 15 °C",
    0.8,
    1.2,
    "a maker's brochure: 0.8 to 1.2 g/L at 12 to 15 °C",
)
COLD_LAGER_DOSE = practice(
    2.5,
    "g/L",
    "dose of dried yeast for lager at 9 °C",
    2.0,
    3.0,
    "a maker's technical sheet, as quoted: 2 to 3 g/L at 9 °C",
)
STRONG = 1.061
"""From this original gravity on, a beer is pitched as a strong one (from memory: White and Zainasheff 2010)."""

WARMEST_STORAGE = given(30.0, "°C", "warmest storage", words="taken for a warm cupboard, where nothing is known")

SERVING = practice(330.0, "mL", "a small bottle")
PROTEIN = practice(0.4, "%", "protein of beer", 0.3, 0.5, "from memory: 0.3 to 0.5 % of beer")
ASH = practice(0.1, "%", "ash of beer", origin="as the American method for energy takes it")

COLD_WATER = practice(10.0, "°C", "cold tap water")

ONE_PACK = practice(1.0, "packs", "one pack, where nothing is said", origin="by default: one pack")
FRESH_PACK = practice(100.0, "10⁹ cells", "cells of one fresh pack")
STARTER_SIZES = (practice(1.0, "L", "a small starter"), practice(2.0, "L", "a large starter"))
STARTER_SECOND = practice(4.0, "L", "the second step of a starter")
STARTER_GRAVITY = practice(1.036, "SG", "gravity of a starter")
STARTER_POTENTIAL = practice(0.96, "fraction", "extract of dried malt extract, as sold", origin="typical, from memory")
STARTER_FALL = practice(7.0, "°P", "fall of a starter's gravity", origin="White and Zainasheff 2010: from 9 to 2 °P")

GRAIN_ROOM = practice(
    0.516,
    "L/kg",
    "what a kilogram of grain adds to the wort",
    origin="0.768 kg of extract at 0.62 L, and 0.04 L of its own water",
)
"""The extract takes so much at 12 °P by the balance of masses, as if all of it dissolved: that is half a point of
efficiency at most in a mash that converts far less."""
MALT_WATER = practice(0.04, "L/kg", "water in the malt", origin="4 % of its weight: common practice")
BASE_MALT = practice(0.768, "fraction", "potential of base malt", origin="80 % on the dry basis, at 4 % of moisture")
USUAL_BOIL = practice(60.0, "min", "a usual boil")
MOST_CONVERTED = 0.99
"""No mash dissolves more of its starch (from memory: 90 to 99 % in one that is given its time)."""

UNFINISHED = practice(
    4.0, "points", "gravity left to ferment", origin="an example: a beer bottled four points too soon"
)
SERVING_TEMPERATURES = tuple(
    practice(c, "°C", f"a {how} keg") for c, how in ((4.0, "cold"), (8.0, "cool"), (12.0, "cellar-cool"))
)
BOTTLE_SIZES = tuple(
    practice(size, "L", f"{how} bottles") for size, how in ((0.33, "small"), (0.5, "half-litre"), (0.75, "large"))
)
STRONG_ABV = 7.5
"""From this strength on, a beer is left longer in the bottle (common practice, no source)."""
IN_THE_BOTTLE = practice(14.0, "d", "time in the bottle before it is ready", 10.0, 28.0)
STRONG_IN_THE_BOTTLE = practice(56.0, "d", "time in the bottle for a strong beer", 28.0, 120.0)
LAGERED_IN_THE_BOTTLE = practice(21.0, "d", "time in the bottle after long cold", 14.0, 42.0)
IN_THE_KEG = practice(7.0, "d", "time for a keg to take up its gas", 7.0, 14.0)
LONG_COLD = 21.0, 8.0
"""So many days in all below so many °C leave little yeast afloat for the bottle (common practice, no source)."""
FRESH_YEAST = practice(0.1, "g/L", "fresh dried yeast for the bottle", 0.05, 0.2)

SAMPLE_TEMPERATURES = tuple(
    practice(c, "°C", f"{how} wort") for c, how in ((10.0, "cold"), (30.0, "warm"), (40.0, "hot"), (50.0, "very hot"))
)
CALIBRATION = practice(20.0, "°C", "calibration of the hydrometer", origin="20 °C, unless it says otherwise")
WORT_FACTOR = practice(
    1.04, "ratio", "wort correction factor", 1.02, 1.06, "Terrill 2010: 1.04 is typical, 1.02 to 1.06"
)

USABLE = 0.8
"""The share of a pot's brim that a boil may fill (common practice, no source)."""

FERMENTER_USABLE = 0.8
"""The share of a fermenter's brim that leaves room for the foam: a fifth to a quarter of it (common practice, no
source)."""

DRIED_PACK = practice(11.0, "g", "a packet of dried yeast")

READ_WITHIN = {
    "SG": (0.001, "0.001"),
    "°P": (0.25, "0.25 °P"),
    "°Bx": (0.2, "0.2 °Bx"),
    "°C": (0.5, "0.5 °C"),
    "g": (1.0, "1 g"),
}
"""What an instrument is right within, nine times in ten, by the unit that it shows (common practice, no source)."""
VOLUME_READ_WITHIN = "2 %"
"""The same for a volume read off a scale, half of its variance the marks' own (common practice, no source)."""
HYDROMETER_OWN = sqrt(0.5)
"""The share of what a hydrometer may be out that is the same each time (common practice, no source)."""
REFRACTOMETER_FITS_WITHIN = 0.003
"""By how much the published fits for beer differ from each other."""

STEADY_FOR_DAYS = 3.0
STEADY_FOR_WEEKS = 7.0
STEADY_WITHIN = 0.001
"""Fermentation is over when two readings so many days apart differ by no more than this; a week apart where what
ferments it may go on for weeks (common practice)."""

BREW_TO_BREW = {
    "conversion": 0.03 / NINE_IN_TEN,
    "attenuation": 0.02 / NINE_IN_TEN,
}
"""One standard deviation of brews about their brewhouse's mean: nine in ten within three or two points of it (common
practice, no source)."""
BREW_TO_BREW_SHARE = {
    "boil-off": 0.05 / NINE_IN_TEN,
    "left in kettle": 0.2 / NINE_IN_TEN,
    "left in fermenter": 0.2 / NINE_IN_TEN,
}
"""The same as a share of the setting (common practice, no source)."""
