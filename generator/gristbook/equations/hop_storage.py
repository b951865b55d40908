"""What hops lose on the shelf.

Two figures go by the name of hop storage index. Here it is the ratio of two absorbances, at 275 and 325 nm, 0.25 or so
when fresh. Tables of varieties often print under that name the share of alpha acids lost in six months at 20 °C: that
is `lost_in_six_months`.
"""

import math
from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import fraction, not_negative, positive
from gristbook.equations.registry import Valid, equation, published

_HSI = Valid(0.25, 2.0, "0.25 is fresh; near 2.0 the logarithm reaches a whole loss")
_STORAGE = Valid(0.5, 1.0, "open 1.0, airtight 0.75, oxygen barrier with vacuum or inert gas 0.5 (from memory)")


@equation(source=sources.GARETZ_STORAGE_1994, formula="lost = 110 log₁₀(HSI / 0.25) / 100")
def alpha_lost(
    *, hsi: Annotated[float, "ratio", "HSI", "absorbance at 275 nm over that at 325 nm", _HSI]
) -> Annotated[float, "fraction"]:
    """Share of the alpha acids lost since harvest, by the absorbances of an extract [fraction].

    After Likens, Nickerson and Zimmermann 1970. For alpha and beta acids together Nickerson and Likens 1979 have slopes
    of 101.8, 111.3, 114.5 and 114.6, by the crop's year (1969, 1975 to 1977), so 110 may be out by a twelfth. Hops
    fresher than 0.25 come out below none, and are held to none.
    Refuses a ratio that is not positive.

    >>> alpha_lost(hsi=0.40)
    0.2245
    """
    positive(hsi, "a ratio of absorbances")
    return 110 * math.log10(hsi / 0.25) / 100


@equation(
    source=sources.GARETZ_STORAGE_1994,
    where="alpha acids now, from those at harvest; its printed formula lacks a subtraction",
    formula="A = A₀ (1 − lost)",
)
def alpha_after_loss(
    *,
    alpha: Annotated[float, "fraction", "A₀", "alpha acids when the hops were first analysed"],
    lost: Annotated[float, "fraction", "lost", "share of them that is gone"],
) -> Annotated[float, "fraction"]:
    """Alpha acids that hops still have when a share of them is gone [fraction].

    Refuses a share outside 0 to 1.

    >>> alpha_after_loss(alpha=0.10, lost=0.2245)
    0.07755
    """
    fraction(alpha, "a share of alpha acids")
    fraction(lost, "a loss")
    return alpha * (1 - lost)


@published(
    source=sources.GARETZ_STORAGE_1994,
    where="the rate halves for every 15 °C below 20 °C",
    formula="TF = 2^((T − 20) / 15)",
)
def storage_temperature_factor(
    *, temperature: Annotated[float, "°C", "T", "of the store", Valid(-25, 20, "the printed table")]
) -> Annotated[float, "ratio"]:
    """How many times as fast hops age at this temperature as at 20 °C [ratio].

    >>> storage_temperature_factor(temperature=5)
    0.5
    """
    return math.pow(2, (temperature - 20) / 15)


@equation(source=sources.GARETZ_STORAGE_1994, formula="A = A₀ e^(−k TF SF t), k = −ln(1 − lost) / 180")
def alpha_left(
    *,
    alpha: Annotated[float, "fraction", "A₀", "alpha acids when the hops were analysed"],
    lost_in_six_months: Annotated[
        float, "fraction", "lost", "share of them that the variety loses in 180 days at 20 °C, open"
    ],
    temperature_factor: Annotated[float, "ratio", "TF", "how many times as fast they go as at 20 °C"],
    storage_factor: Annotated[
        float,
        "ratio",
        "SF",
        "1.0 open or in thin plastic, 0.75 airtight, 0.5 under vacuum or inert gas in a barrier bag",
        _STORAGE,
    ],
    days: Annotated[float, "d", "t", "in store"],
) -> Annotated[float, "fraction"]:
    """Alpha acids that hops still have after a time in store [fraction].

    Refuses a share outside 0 to 1, a variety that loses all, a negative factor, or negative days.

    >>> alpha_left(alpha=0.10, lost_in_six_months=0.35, temperature_factor=0.5, storage_factor=0.75, days=180)
    0.0851
    """
    fraction(alpha, "a share of alpha acids")
    fraction(lost_in_six_months, "a loss")
    positive(1 - lost_in_six_months, "what a variety keeps in six months")
    not_negative(temperature_factor, "a factor of temperature")
    not_negative(storage_factor, "a storage factor")
    not_negative(days, "a time in store")
    a_day = -math.log(1 - lost_in_six_months) / 180
    return alpha * math.exp(-a_day * temperature_factor * storage_factor * days)
