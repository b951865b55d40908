"""From hops to bitterness: the published models of utilisation, named by author and year.

None of them is right, and they differ by half. The milligrams that a share is taken of, and what happens to the
bitterness afterwards, are in `hopping`.
"""

import math
from collections.abc import Mapping
from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Valid, equation, published

# Percent used: the last minute of each band and its figure, as the printed tables give them.
_RAGER = {5: 5.0, 10: 6.0, 15: 8.0, 20: 10.1, 25: 12.1, 30: 15.3, 35: 18.8, 40: 22.8, 45: 26.9, 50: 28.1, 60: 30.0}
_GARETZ = {10: 0, 15: 2, 20: 5, 25: 8, 30: 11, 35: 14, 40: 16, 45: 18, 50: 19, 60: 20, 70: 21, 80: 22, 90: 23}
# Percent used: the first minute of each band and its figure.
_DANIELS_WHOLE = {0: 5, 10: 12, 20: 15, 30: 19, 45: 22, 60: 24, 75: 27}
_DANIELS_PELLETS = {0: 6, 10: 15, 20: 19, 30: 24, 45: 27, 60: 30, 75: 34}


def _to(table: Mapping[int, float]) -> str:
    """The table as it stands behind a formula, its bands named by their last minute."""
    *bands, last = table
    return "table(x) = " + "".join(f"{table[to]:g} up to {to}, " for to in bands) + f"{table[last]:g} otherwise"


def _from(table: Mapping[int, float]) -> str:
    """The same of bands that are named by their first minute."""
    bands = "".join(f"{percent:g} below {end}, " for percent, end in zip(table.values(), [*table][1:], strict=False))
    return f"table(x) = {bands}{table[max(table)]:g} otherwise"


@published(
    source=sources.TINSETH_1997,
    where="equation for utilisation",
    formula="U = 1.65 × 0.000125^(SG − 1) × (1 − e^(−0.04 t)) / 4.15",
)
def utilisation_tinseth_1997(
    *,
    boil_min: Annotated[
        float, "min", "t", "minutes in the boiling wort", Valid(0, 120, "the printed table ends at two hours")
    ],
    gravity: Annotated[
        float,
        "SG",
        "SG",
        "mean gravity of the wort during the boil",
        Valid(1.030, 1.120, "the printed table's gravities"),
    ],
) -> Annotated[float, "fraction"]:
    """Share of the alpha acids that ends as iso-alpha acids in the beer, after Tinseth [fraction].

    An empirical curve for whole hops in the author's brewhouse: its 0.04 a minute is not the rate of isomerisation.
    Refuses negative minutes, or a gravity that is not positive.

    >>> utilisation_tinseth_1997(boil_min=30, gravity=1.050)  # the printed table: .177
    0.177
    """
    not_negative(boil_min, "a time in the boil")
    positive(gravity, "a gravity")
    return 1.65 * math.pow(0.000125, gravity - 1) * (1 - math.exp(-0.04 * boil_min)) / 4.15


@published(
    source=sources.RAGER_1990,
    where="table of utilisation and gravity adjustment",
    formula=f"U = table(t) / 100 / (1 + 5 max(0, SG − 1.050)), {_to(_RAGER)}",
)
def utilisation_rager_1990(
    *,
    boil_min: Annotated[
        float, "min", "t", "minutes in the boiling wort", Valid(0, 60, "the printed table ends at an hour")
    ],
    gravity: Annotated[
        float, "SG", "SG", "gravity of the wort in the boil", Valid(1.000, 1.096, "the worked example goes to 1.096")
    ],
) -> Annotated[float, "fraction"]:
    """Share of the alpha acids that is used, by Rager's table of bands [fraction]; 5 % even with no time in the boil.

    A time between two bands takes the later one. The source counts 7462 mg/L for an ounce in a gallon, the house 7489.
    Refuses negative minutes, or a gravity that is not positive.

    >>> utilisation_rager_1990(boil_min=45, gravity=1.040)  # the printed table: 26.9 %
    0.269
    """
    return _band_to(_RAGER, boil_min) / 100 / _gravity_divisor(gravity)


@published(
    source=sources.GARETZ_1994,
    where="table for average yeast, gravity factor and temperature factor",
    formula=(
        f"U = table(t) / 100 / (GF × TF), GF = 1 + (SG − 1.050) / 0.2, TF = 1 + 0.02 × h / 0.3048 / 550, {_to(_GARETZ)}"
    ),
)
def utilisation_garetz_1994(
    *,
    boil_min: Annotated[
        float,
        "min",
        "t",
        "minutes in the boiling wort, the later band for a time between two",
        Valid(0, 90, "the printed table ends at 90 minutes"),
    ],
    gravity: Annotated[
        float,
        "SG",
        "SG",
        "gravity of the wort in the boil",
        Valid(1.050, 1.100, "the gravity factor is 1 at 1.050; below that it would credit thin worts"),
    ],
    altitude: Annotated[float, "m", "h", "of the brewhouse"],
) -> Annotated[float, "fraction"]:
    """Share of the alpha acids that is used, after Garetz, before his hopping-rate factor [fraction].

    The hopping-rate factor depends on the beer's whole bitterness: `hopping_rate_factor_garetz_1994` finds it.
    Refuses negative minutes, or a gravity or an altitude so low that the factors vanish.

    >>> utilisation_garetz_1994(boil_min=30, gravity=1.050, altitude=0)  # the printed table: 11 %
    0.11
    """
    gravity_factor, temperature_factor = 1 + (gravity - 1.050) / 0.2, 1 + altitude / 0.3048 / 550 * 0.02
    positive(gravity_factor, "a gravity factor")
    positive(temperature_factor, "a temperature factor")
    return _band_to(_GARETZ, boil_min) / 100 / (gravity_factor * temperature_factor)


@published(
    source=sources.GARETZ_1994,
    where="hopping-rate factor, solved for itself",
    formula="HF such that HF = 1 + CF × (IBU₀ / HF + IBU_w) / 260",
)
def hopping_rate_factor_garetz_1994(
    *,
    before: Annotated[float, "IBU", "IBU₀", "bitterness before the factor of all hops that are weighed already"],
    wanted: Annotated[
        float, "IBU", "IBU_w", "bitterness of the beer that the other hops are to bring, after the factor"
    ],
    concentration: Annotated[float, "ratio", "CF", "final volume over boil volume, 1 for a full boil"],
) -> Annotated[float, "ratio"]:
    """Garetz's hopping-rate factor: the more a beer is hopped, the less each of its hops gives [ratio].

    The factor rests on the bitterness that it yields; the positive root of a quadratic settles both at once.
    Refuses a negative bitterness or a concentration that is not positive.

    >>> hopping_rate_factor_garetz_1994(before=0, wanted=35.3, concentration=1)  # 35.3 IBU are 13.6 % fewer by it
    1.1358
    """
    not_negative(before, "a bitterness")
    not_negative(wanted, "a bitterness")
    positive(concentration, "a concentration factor")
    for_wanted = 1 + concentration * wanted / 260
    return (for_wanted + math.sqrt(for_wanted**2 + 4 * concentration * before / 260)) / 2


@equation(source=sources.GARETZ_1994, where="utilisation over the hopping-rate factor", formula="U = U₀ / HF")
def utilisation_at_hopping_rate_garetz_1994(
    *,
    utilisation: Annotated[float, "fraction", "U₀", "share before the factor"],
    factor: Annotated[float, "ratio", "HF", "the hopping-rate factor, the same for every addition of a beer"],
) -> Annotated[float, "fraction"]:
    """Share of the alpha acids that is used, after Garetz's hopping-rate factor [fraction].

    Refuses a negative utilisation or a factor that is not positive.

    >>> utilisation_at_hopping_rate_garetz_1994(utilisation=0.20, factor=1.1358)
    0.1761
    """
    not_negative(utilisation, "a utilisation")
    positive(factor, "a hopping-rate factor")
    return utilisation / factor


@published(source=sources.GARETZ_1994, where="bitterness over the hopping-rate factor", formula="IBU = IBU₁ × HF₁ / HF")
def bitterness_at_hopping_rate_garetz_1994(
    *,
    bitterness: Annotated[float, "IBU", "IBU₁", "what they bring now"],
    factor: Annotated[float, "ratio", "HF₁", "the hopping-rate factor of the beer as it is"],
    then: Annotated[float, "ratio", "HF", "that of the other beer"],
) -> Annotated[float, "IBU"]:
    """What the same hops bring in a beer with another hopping-rate factor [IBU].

    Refuses a negative bitterness or a factor that is not positive.

    >>> bitterness_at_hopping_rate_garetz_1994(bitterness=10, factor=1.1, then=1.2)
    9.167
    """
    not_negative(bitterness, "a bitterness")
    positive(factor, "a hopping-rate factor")
    positive(then, "a hopping-rate factor")
    return bitterness * factor / then


@published(
    source=sources.DANIELS_1996,
    where="table of utilisation for whole hops",
    formula=f"U = table(t) / 100 / (1 + max(0, SG − 1.050) / 0.2), {_from(_DANIELS_WHOLE)}",
)
def utilisation_daniels_1996_whole(
    *,
    boil_min: Annotated[float, "min", "t", "minutes in the boiling wort"],
    gravity: Annotated[float, "SG", "SG", "gravity of the wort in the boil"],
) -> Annotated[float, "fraction"]:
    """Share of the alpha acids that is used from whole hops, by Daniels' table of bands [fraction].

    The gravity divisor is the one he takes over from Rager, so a wort up to 1.050 is not corrected.
    Refuses negative minutes, or a gravity that is not positive.

    >>> utilisation_daniels_1996_whole(boil_min=60, gravity=1.048)  # the printed table: 24 %
    0.24
    """
    return _band_from(_DANIELS_WHOLE, boil_min) / 100 / _gravity_divisor(gravity)


@published(
    source=sources.DANIELS_1996,
    where="table of utilisation for pellets",
    formula=f"U = table(t) / 100 / (1 + max(0, SG − 1.050) / 0.2), {_from(_DANIELS_PELLETS)}",
)
def utilisation_daniels_1996_pellets(
    *,
    boil_min: Annotated[float, "min", "t", "minutes in the boiling wort"],
    gravity: Annotated[float, "SG", "SG", "gravity of the wort in the boil"],
) -> Annotated[float, "fraction"]:
    """Share of the alpha acids that is used from pellets, by Daniels' table of bands [fraction].

    A quarter above whole hops; take no form factor on top. The gravity divisor is as for whole hops.
    Refuses negative minutes, or a gravity that is not positive.

    >>> utilisation_daniels_1996_pellets(boil_min=60, gravity=1.048)  # the printed table: 30 %
    0.3
    """
    return _band_from(_DANIELS_PELLETS, boil_min) / 100 / _gravity_divisor(gravity)


def _band_to(table: Mapping[int, float], boil_min: float) -> float:
    """The figure of the band that a time falls in, bands named by their last minute; past the table its last stays."""
    not_negative(boil_min, "a time in the boil")
    return next((percent for last, percent in table.items() if boil_min <= last), table[max(table)])


def _band_from(table: Mapping[int, float], boil_min: float) -> float:
    """The figure of the band that a time falls in, bands named by their first minute."""
    not_negative(boil_min, "a time in the boil")
    return table[max(first for first in table if first <= boil_min)]


def _gravity_divisor(gravity: float) -> float:
    """By how much a wort above 1.050 lowers utilisation, in Rager's words and in Daniels'."""
    positive(gravity, "a gravity")
    return 1 + max(gravity - 1.050, 0) / 0.2
