"""What hops lose on the shelf.

Two figures go by the name of hop storage index. Here it is the ratio of two absorbances, at 275 and 325 nm, 0.25 or so
when fresh. Tables of varieties often print under that name the share of alpha acids lost in six months at 20 °C: that
is `lost_in_six_months`.
"""

import math

from gristbook.equations import sources
from gristbook.equations.bounds import fraction, not_negative, positive
from gristbook.equations.registry import Celsius, Days, Fraction, Ratio, Valid, equation

_HSI = Valid(0.25, 2.0, "0.25 is fresh; near 2.0 the logarithm reaches a whole loss")
_STORAGE = Valid(0.5, 1.0, "open 1.0, airtight 0.75, oxygen barrier with vacuum or inert gas 0.5 (from memory)")


@equation(
    source=sources.GARETZ_STORAGE_1994,
    formula="lost = 110 log₁₀(HSI / 0.25) / 100",
    symbols={"hsi": "HSI"},
    valid={"hsi": _HSI},
)
def alpha_lost_garetz(*, hsi: Ratio) -> Fraction:
    """Share of the alpha acids lost since harvest, by the absorbances of an extract [fraction].

    Parameters
    ----------
    hsi : absorbance at 275 nm over that at 325 nm [ratio]

    Raises
    ------
    ValueError
        A ratio that is not positive.

    >>> alpha_lost_garetz(hsi=0.40)
    0.2245
    """
    positive(hsi, "a ratio of absorbances")
    return 110 * math.log10(hsi / 0.25) / 100


@equation(
    source=sources.NICKERSON_LIKENS_1979,
    formula="lost = 102 log₁₀(HSI / 0.25) / 100",
    symbols={"hsi": "HSI"},
    valid={"hsi": _HSI},
)
def alpha_lost_nickerson_likens(*, hsi: Ratio) -> Fraction:
    """Share of the alpha and beta acids lost since harvest, with the later constant [fraction].

    Parameters
    ----------
    hsi : absorbance at 275 nm over that at 325 nm [ratio]

    Raises
    ------
    ValueError
        A ratio that is not positive.

    >>> alpha_lost_nickerson_likens(hsi=0.50)
    0.3071
    """
    positive(hsi, "a ratio of absorbances")
    return 102 * math.log10(hsi / 0.25) / 100


@equation(
    source=sources.GARETZ_STORAGE_1994,
    where="the rate halves for every 15 °C below 20 °C",
    formula="TF = 2^((T − 20) / 15)",
    symbols={"temperature": "T"},
    valid={"temperature": Valid(-25, 20, "the printed table")},
)
def storage_temperature_factor(*, temperature: Celsius) -> Ratio:
    """How many times as fast hops age at this temperature as at 20 °C [ratio].

    Parameters
    ----------
    temperature : of the store [°C]

    >>> storage_temperature_factor(temperature=5)
    0.5
    """
    return _temperature_factor(temperature)


@equation(
    source=sources.GARETZ_STORAGE_1994,
    formula="A = A₀ e^(−k TF SF t), k = −ln(1 − lost) / 180, TF = 2^((T − 20) / 15)",
    symbols={
        "alpha": "A₀",
        "lost_in_six_months": "lost",
        "temperature": "T",
        "storage_factor": "SF",
        "days": "t",
    },
    valid={"temperature": Valid(-25, 20, "the printed table"), "storage_factor": _STORAGE},
)
def alpha_left(
    *, alpha: Fraction, lost_in_six_months: Fraction, temperature: Celsius, storage_factor: Ratio, days: Days
) -> Fraction:
    """Alpha acids that hops still have after a time in store [fraction].

    Parameters
    ----------
    alpha : alpha acids when the hops were analysed [fraction]
    lost_in_six_months : share of them that the variety loses in 180 days at 20 °C, open [fraction]
    temperature : of the store [°C]
    storage_factor : 1.0 open or in thin plastic, 0.75 airtight, 0.5 under vacuum or inert gas in a barrier bag [ratio]
    days : in store [d]

    Raises
    ------
    ValueError
        A share outside 0 to 1, a variety that loses all, a negative factor, or negative days.

    >>> alpha_left(alpha=0.10, lost_in_six_months=0.35, temperature=5, storage_factor=0.75, days=180)
    0.0851
    """
    fraction(alpha, "a share of alpha acids")
    fraction(lost_in_six_months, "a loss")
    positive(1 - lost_in_six_months, "what a variety keeps in six months")
    not_negative(storage_factor, "a storage factor")
    not_negative(days, "a time in store")
    a_day = -math.log(1 - lost_in_six_months) / 180
    return alpha * math.exp(-a_day * _temperature_factor(temperature) * storage_factor * days)


def _temperature_factor(temperature: float) -> float:
    return math.pow(2, (temperature - 20) / 15)
