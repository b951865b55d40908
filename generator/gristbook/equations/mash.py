"""Heat and enzymes in the mash: how hot the water must be, what the mash's temperature leaves unfermentable."""

from gristbook.equations import sources
from gristbook.equations.boiling import boiling_point as boiling_point
from gristbook.equations.boiling import standard_pressure as standard_pressure
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import (
    Celsius,
    Kilograms,
    Lintner,
    Litres,
    Ratio,
    Valid,
    WindischKolbach,
    equation,
)
from gristbook.refusal import Refusal

_HEAT = Valid(0.32, 0.42, "published heats of dry grain run from 0.32 to 0.42 of water's")

# Apparent attenuation that a mash of one temperature gave, °C and fraction.
_FERMENTABILITY = ((65.0, 0.82), (70.0, 0.70), (75.0, 0.50), (80.0, 0.30))
_MEASURED = Valid(65, 80, "measured at 65, 70, 75 and 80 °C; beyond them the nearest is kept: a guide")


@equation(
    source=sources.HANGHOFER,
    where="with the heat of the grain left open, where the source has 0.32",
    formula="E = F + (c A + B) (F − C) / D",
    symbols={
        "grain_kg": "A",
        "water_l": "D",
        "tun_heat_l": "B",
        "grain_c": "C",
        "mash_c": "F",
        "grain_heat": "c",
    },
    valid={"grain_heat": _HEAT},
)
def strike_temperature_with_tun(
    *,
    grain_kg: Kilograms,
    water_l: Litres,
    tun_heat_l: Litres,
    grain_c: Celsius,
    mash_c: Celsius,
    grain_heat: Ratio,
) -> Celsius:
    """How hot the strike water must be when it warms the tun too [°C]; the tun starts as cold as the grain.

    Parameters
    ----------
    grain_kg : mass of the dry grist [kg]
    water_l : water in the mash [L]
    tun_heat_l : water that takes as much heat as the tun; 0 for one that is warm already [L]
    grain_c : temperature of grist and tun [°C]
    mash_c : temperature wanted in the mash [°C]
    grain_heat : heat that dry grain takes, by weight, against water's [ratio]

    Raises
    ------
    ValueError
        A negative amount, or no water.

    >>> strike_temperature_with_tun(grain_kg=5, water_l=15, tun_heat_l=0, grain_c=20, mash_c=67, grain_heat=0.32)
    72.01
    """
    not_negative(grain_kg, "a mass of grain")
    not_negative(tun_heat_l, "a heat of the tun")
    not_negative(grain_heat, "a heat of the grain")
    positive(water_l, "mash water")
    return mash_c + (grain_heat * grain_kg + tun_heat_l) * (mash_c - grain_c) / water_l


@equation(
    source=sources.HANGHOFER,
    where="with the heat of the grain left open, where the source has 0.32",
    formula="L = (c A + B + D) (N − K) / (M − N)",
    symbols={
        "grain_kg": "A",
        "water_l": "D",
        "tun_heat_l": "B",
        "mash_c": "K",
        "step_c": "N",
        "added_c": "M",
        "grain_heat": "c",
    },
    valid={"grain_heat": _HEAT},
)
def infusion_volume(
    *,
    grain_kg: Kilograms,
    water_l: Litres,
    tun_heat_l: Litres,
    mash_c: Celsius,
    step_c: Celsius,
    added_c: Celsius,
    grain_heat: Ratio,
) -> Litres:
    """Hot water that lifts a mash to its next step [L].

    Parameters
    ----------
    grain_kg : mass of the dry grist [kg]
    water_l : water in the mash already [L]
    tun_heat_l : water that takes as much heat as the tun [L]
    mash_c : temperature of the mash now [°C]
    step_c : temperature wanted [°C]
    added_c : temperature of the water that is added [°C]
    grain_heat : heat that dry grain takes, by weight, against water's [ratio]

    Raises
    ------
    ValueError
        A negative amount, a step that is not upwards, or water that is no hotter than the step.

    >>> infusion_volume(grain_kg=5, water_l=15, tun_heat_l=0, mash_c=50, step_c=65, added_c=100, grain_heat=0.32)
    7.114
    """
    not_negative(grain_kg, "a mass of grain")
    not_negative(water_l, "mash water")
    not_negative(tun_heat_l, "a heat of the tun")
    not_negative(grain_heat, "a heat of the grain")
    _between(mash_c, step_c, added_c)
    return (grain_heat * grain_kg + tun_heat_l + water_l) * (step_c - mash_c) / (added_c - step_c)


@equation(
    source=sources.HANGHOFER,
    where="with no heat for the tun (B = 0)",
    formula="Q = O (S − P) / (R − P)",
    symbols={"mash_l": "O", "mash_c": "P", "step_c": "S", "boil_c": "R"},
)
def decoction_volume(*, mash_l: Litres, mash_c: Celsius, step_c: Celsius, boil_c: Celsius) -> Litres:
    """Mash to draw, boil and give back to lift the whole to its next step [L].

    As thick as the mash itself, with nothing boiled away; brewers draw 10 to 20 % more (common practice, no source).

    Parameters
    ----------
    mash_l : room that the mash takes, water and grain together [L]
    mash_c : temperature of the mash now [°C]
    step_c : temperature wanted [°C]
    boil_c : temperature of the boiled part when it goes back [°C]

    Raises
    ------
    ValueError
        A negative volume, a step that is not upwards, or a boil that is no hotter than the step.

    >>> decoction_volume(mash_l=20, mash_c=50, step_c=65, boil_c=100)
    6.0
    """
    not_negative(mash_l, "a mash")
    _between(mash_c, step_c, boil_c)
    return mash_l * (step_c - mash_c) / (boil_c - mash_c)


@equation(
    source=sources.CHANDRASEKHAR,
    where="against a mash at 67 °C, which this book takes as the middle",
    formula="F(T) / F(67), F(65) = 0.82, F(70) = 0.70, F(75) = 0.50, F(80) = 0.30",
    symbols={"mash_c": "T"},
    valid={"mash_c": _MEASURED},
)
def mash_temperature_effect(*, mash_c: Celsius) -> Ratio:
    """How many times the attenuation of a mash at 67 °C a mash at this temperature gives: a guide [ratio].

    Parameters
    ----------
    mash_c : temperature of the saccharification rest [°C]

    >>> mash_temperature_effect(mash_c=67)
    1.0
    """
    return _fermentability(mash_c) / _fermentability(67)


@equation(
    source=sources.WINDISCH_KOLBACH,
    formula="WK = 3.5 L − 16",
    symbols={"lintner": "L"},
)
def windisch_kolbach_from_lintner(*, lintner: Lintner) -> WindischKolbach:
    """Diastatic power on the Windisch-Kolbach scale [°WK].

    Parameters
    ----------
    lintner : the same on the Lintner scale [°Lintner]

    >>> windisch_kolbach_from_lintner(lintner=100)
    334.0
    """
    not_negative(lintner, "a diastatic power")
    return 3.5 * lintner - 16


@equation(
    source=sources.WINDISCH_KOLBACH,
    formula="L = (WK + 16) / 3.5",
    symbols={"windisch_kolbach": "WK"},
)
def lintner_from_windisch_kolbach(*, windisch_kolbach: WindischKolbach) -> Lintner:
    """Diastatic power on the Lintner scale [°Lintner].

    Parameters
    ----------
    windisch_kolbach : the same on the Windisch-Kolbach scale, where no power at all is −16 [°WK]

    >>> lintner_from_windisch_kolbach(windisch_kolbach=334)
    100.0
    """
    if windisch_kolbach < -16:
        raise Refusal(f"{windisch_kolbach:g} °WK is less than no diastatic power, which is -16")
    return (windisch_kolbach + 16) / 3.5


def _fermentability(mash_c: float) -> float:
    (low_c, low), *rest = _FERMENTABILITY
    if mash_c <= low_c:
        return low
    for high_c, high in rest:
        if mash_c <= high_c:
            return low + (high - low) * (mash_c - low_c) / (high_c - low_c)
        low_c, low = high_c, high
    return low


def _between(mash_c: float, step_c: float, hot_c: float) -> None:
    if not mash_c <= step_c < hot_c:
        raise Refusal(f"a mash at {mash_c:g} °C cannot be lifted to {step_c:g} °C with what is at {hot_c:g} °C")
