"""Carbon dioxide in beer: what fermentation leaves, what sugar adds, and the pressure that it comes to.

A volume is a litre of the gas at 0 °C and one atmosphere in a litre of beer.
"""

from itertools import pairwise
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.atoms import molar_mass
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Valid, checked_by_library, equation, published
from gristbook.refusal import Refusal

GRAMS_PER_LITRE_IN_A_VOLUME: Final = 1.9768  # Span and Wagner 1996: the gas at 0 °C and 101.325 kPa
VOLUMES_PER_POINT: Final = (
    0.49  # Balling's yield of gas from the 2.1 g/L of real extract in a point of apparent gravity
)

ATMOSPHERE: Final = 1.01325  # bar, by definition
CARBON_DIOXIDE: Final = molar_mass("CO2")
ETHANOL: Final = molar_mass("C2H5OH")

# Volumes of the gas that water holds under one atmosphere of it, by °C: Hibberd's table to 22 °C, and on from there the
# handbooks' absorption coefficients. Rows at 2, 6, 8, 14 and from 25 °C up are from memory.
_RESIDUAL: Final = {
    0: 1.7, 2: 1.6, 4: 1.5, 6: 1.4, 8: 1.3, 10: 1.2, 12: 1.12, 14: 1.05, 16: 0.99, 18: 0.93, 20: 0.88, 22: 0.83,
    25: 0.759, 30: 0.665, 35: 0.592, 40: 0.530, 50: 0.436, 60: 0.359,
}  # fmt: skip
_TABLE: Final = "1.95 at −5, " + ", ".join(f"{volumes:g} at {celsius}" for celsius, volumes in _RESIDUAL.items())

SugarMolarMass = Annotated[float, "g/mol", "M", "of the sugar as it is weighed, its water in"]
Solids = Annotated[float, "fraction", "solids", "share of the extract that is not water, about 0.96 when dried"]
RealAttenuation = Annotated[float, "fraction", "RA", "share of those solids that ferments"]
GasYield = Annotated[float, "g/g", "y", "gas that a gram of the sugar gives"]


@published(
    source=sources.HIBBERD,
    where="table 2, between its rows along a straight line, carried on below 0 and above 22 °C",
    formula=f"vol = table(T), table(x) = {_TABLE}",
)
def residual_carbon_dioxide(
    *,
    temperature: Annotated[
        float,
        "°C",
        "T",
        "warmest since fermentation ended",
        Valid(0, 22, "the printed table; further up the values of handbooks stand in"),
    ],
) -> Annotated[float, "vol"]:
    """Gas that fermented beer still holds, by the warmest it has been since fermentation ended [vol].

    A table for water under one atmosphere of the gas: beer holds 5 to 7 % less, so bottles come out on the safe side.
    Refuses a temperature at which beer is ice (below −5 °C) or that nobody ferments at (above 60 °C).

    >>> residual_carbon_dioxide(temperature=20)
    0.88
    """
    if not -5 <= temperature <= 60:
        raise Refusal(f"fermented beer is kept between −5 and 60 °C, not at {temperature:g} °C")
    rows = list(_RESIDUAL.items())
    (low_c, low), (high_c, high) = next(pair for pair in pairwise(rows) if temperature <= pair[1][0])
    return low + (high - low) * (temperature - low_c) / (high_c - low_c)


@published(
    source=sources.HENRY_1803,
    where="as much more gas as the pressure over the beer is more than an atmosphere",
    formula="vol = vol_0 × (p + 1.01325) / 1.01325",
)
def gas_under_pressure(
    *,
    residual: Annotated[float, "vol", "vol_0", "gas that the beer would hold under one atmosphere of it"],
    pressure: Annotated[float, "bar", "p", "over the beer, above the air's", Valid(0, 4, "home brewers' vessels")],
) -> Annotated[float, "vol"]:
    """Gas that beer holds which fermented under pressure, none let out since [vol].

    Refuses negative gas, or a pressure below the air's.

    >>> gas_under_pressure(residual=0.88, pressure=1.0)
    1.75
    """
    not_negative(residual, "residual gas")
    not_negative(pressure, "a pressure above the air's")
    return residual * (pressure + ATMOSPHERE) / ATMOSPHERE


@checked_by_library(source=sources.GAY_LUSSAC_1815, formula="y = n × M_CO₂ / M, M_CO₂ = 44.009")
def carbon_dioxide_yield(
    *,
    molecules: Annotated[float, "ratio", "n", "of carbon dioxide from one of sugar, 2 for glucose, 4 for sucrose"],
    molar_mass: SugarMolarMass,
) -> Annotated[float, "g/g"]:
    """Gas from sugar that ferments wholly, before the yeast keeps any [g/g].

    Refuses negative molecules, or a molar mass that is not positive.

    >>> carbon_dioxide_yield(molecules=4, molar_mass=342.297)
    0.5143
    """
    not_negative(molecules, "a number of molecules")
    positive(molar_mass, "a molar mass")
    return molecules * CARBON_DIOXIDE / molar_mass


@checked_by_library(source=sources.GAY_LUSSAC_1815, formula="y = n × M_C₂H₅OH / M, M_C₂H₅OH = 46.069")
def ethanol_yield(
    *,
    molecules: Annotated[float, "ratio", "n", "of ethanol from one of sugar, 2 for glucose, 4 for sucrose"],
    molar_mass: SugarMolarMass,
) -> Annotated[float, "g/g"]:
    """Ethanol from sugar that ferments wholly, before the yeast keeps any [g/g].

    Refuses negative molecules, or a molar mass that is not positive.

    >>> ethanol_yield(molecules=4, molar_mass=342.297)
    0.5383
    """
    not_negative(molecules, "a number of molecules")
    positive(molar_mass, "a molar mass")
    return molecules * ETHANOL / molar_mass


@equation(
    source=sources.BALLING,
    where="0.9565 g of gas from 2.0665 g of extract",
    formula="y = solids × RA × 0.9565 / 2.0665",
)
def carbon_dioxide_yield_of_malt_extract(
    *, solids: Solids, real_attenuation: RealAttenuation
) -> Annotated[float, "g/g"]:
    """Gas from malt extract used for priming [g/g]; a guide, as no two extracts ferment alike.

    Refuses a negative share.

    >>> carbon_dioxide_yield_of_malt_extract(solids=0.96, real_attenuation=0.62)
    0.2755
    """
    not_negative(solids, "a share of solids")
    not_negative(real_attenuation, "an attenuation")
    return solids * real_attenuation * 0.9565 / 2.0665


@equation(
    source=sources.BALLING, where="a gram of alcohol from 2.0665 g of extract", formula="y = solids × RA / 2.0665"
)
def ethanol_yield_of_malt_extract(*, solids: Solids, real_attenuation: RealAttenuation) -> Annotated[float, "g/g"]:
    """Ethanol from malt extract used for priming [g/g]; a guide, as no two extracts ferment alike.

    Refuses a negative share.

    >>> ethanol_yield_of_malt_extract(solids=0.96, real_attenuation=0.62)
    0.2880
    """
    not_negative(solids, "a share of solids")
    not_negative(real_attenuation, "an attenuation")
    return solids * real_attenuation / 2.0665


@published(
    source=sources.SPAN_WAGNER_1996,
    where="density of the gas",
    formula="g = (vol_target − vol_residual) × V × 1.9768 / y",
)
def priming_sugar(
    *,
    target: Annotated[float, "vol", "vol_target", "wanted carbonation"],
    residual: Annotated[float, "vol", "vol_residual", "gas that the beer still holds"],
    beer_l: Annotated[float, "L", "V", "beer to be primed"],
    carbon_dioxide_yield: GasYield,
) -> Annotated[float, "g"]:
    """Sugar that brings beer to a wanted carbonation [g]; below nothing where the beer already holds more.

    Refuses a negative amount, or a sugar that gives no gas.

    >>> priming_sugar(target=2.0, residual=0.88, beer_l=18.5, carbon_dioxide_yield=0.5143)
    79.6
    """
    not_negative(target, "carbonation")
    not_negative(residual, "residual gas")
    not_negative(beer_l, "a volume of beer")
    positive(carbon_dioxide_yield, "a yield of gas")
    return (target - residual) * beer_l * GRAMS_PER_LITRE_IN_A_VOLUME / carbon_dioxide_yield


@equation(source=sources.SPAN_WAGNER_1996, where="density of the gas", formula="vol = g × y / (V × 1.9768)")
def gas_from_priming(
    *,
    sugar_g: Annotated[float, "g", "g", "sugar added"],
    beer_l: Annotated[float, "L", "V", "beer that it is added to"],
    carbon_dioxide_yield: GasYield,
) -> Annotated[float, "vol"]:
    """Gas that priming sugar adds to beer [vol].

    Refuses a negative amount, or no beer.

    >>> gas_from_priming(sugar_g=79.6, beer_l=18.5, carbon_dioxide_yield=0.5143)
    1.12
    """
    not_negative(sugar_g, "a mass of sugar")
    not_negative(carbon_dioxide_yield, "a yield of gas")
    positive(beer_l, "a volume of beer")
    return sugar_g * carbon_dioxide_yield / (beer_l * GRAMS_PER_LITRE_IN_A_VOLUME)


@equation(
    source=sources.BALLING,
    where="gas from the real extract in a point of apparent gravity",
    formula="vol = 0.49 × points",
)
def gas_from_gravity_points(
    *, points: Annotated[float, "points", "points", "gravity above its expected end, in thousandths"]
) -> Annotated[float, "vol"]:
    """Gas from gravity that still has to ferment in the bottle [vol]; below nothing for a beer that went further.

    >>> gas_from_gravity_points(points=4)
    1.96
    """
    return VOLUMES_PER_POINT * points


@equation(source=sources.DEFINITION, formula="vol = vol_residual + vol_priming + vol_unfinished")
def gas_at_the_end(
    *,
    residual: Annotated[float, "vol", "vol_residual", "gas that the beer held at packaging"],
    priming: Annotated[float, "vol", "vol_priming", "gas that priming adds"],
    unfinished: Annotated[float, "vol", "vol_unfinished", "gas from gravity above its expected end"],
) -> Annotated[float, "vol"]:
    """Gas in the bottle once all is fermented, which its glass must bear [vol].

    >>> gas_at_the_end(residual=0.88, priming=1.12, unfinished=1.96)
    3.96
    """
    return residual + priming + unfinished
