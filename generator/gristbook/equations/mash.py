"""Heat and enzymes in the mash: how hot the water must be, what the mash's temperature leaves unfermentable."""

from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Valid, equation, published
from gristbook.refusal import Refusal

_HEAT = Valid(0.32, 0.42, "published heats of dry grain run from 0.32 to 0.42 of water's")

# Apparent attenuation that a mash of one temperature gave, °C and fraction.
_FERMENTABILITY = ((65.0, 0.82), (70.0, 0.70), (75.0, 0.50), (80.0, 0.30))
_MEASURED = Valid(65, 80, "measured at 65, 70, 75 and 80 °C; beyond them the nearest is kept: a guide")

MIDDLE_C = 67.0
"""The mash (°C) that an attenuation which names none is taken to be of."""

GrainHeat = Annotated[float, "ratio", "c", "heat that dry grain takes, by weight, against water's", _HEAT]


@published(
    source=sources.HANGHOFER,
    where="with the heat of the grain left open, where the source has 0.32; the heat of wetting dry malt is left out",
    formula="E = F + (c A + B) (F − C) / D",
)
def strike_temperature_with_tun(
    *,
    grain_kg: Annotated[float, "kg", "A", "mass of the dry grist"],
    water_l: Annotated[float, "L", "D", "water in the mash"],
    tun_heat_l: Annotated[float, "L", "B", "water that takes as much heat as the tun; 0 for one that is warm already"],
    grain_c: Annotated[float, "°C", "C", "temperature of grist and tun"],
    mash_c: Annotated[float, "°C", "F", "temperature wanted in the mash"],
    grain_heat: GrainHeat,
) -> Annotated[float, "°C"]:
    """How hot the strike water must be when it warms the tun too [°C]; the tun starts as cold as the grain.

    The heat that dry malt gives off as it is wetted is left out, as in most brewers' equations: a maltster's book of
    1984 tells it as 1.5 °C of the mash for malt of 4 % moisture, 1 at 8 % and 3 with none.
    Refuses a negative amount, or no water.

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
    where="the balance of heat, solved for what the mash comes to",
    formula="N = (K (c A + B + D) + M L) / (c A + B + D + L)",
)
def mash_temperature_with_water(
    *,
    grain_kg: Annotated[float, "kg", "A", "mass of the dry grist"],
    water_l: Annotated[float, "L", "D", "water in the mash already"],
    tun_heat_l: Annotated[float, "L", "B", "water that takes as much heat as the tun"],
    mash_c: Annotated[float, "°C", "K", "temperature of grist, tun and water now"],
    added_l: Annotated[float, "L", "L", "water that is added"],
    added_c: Annotated[float, "°C", "M", "temperature of the water that is added"],
    grain_heat: GrainHeat,
) -> Annotated[float, "°C"]:
    """What a mash comes to with so much water of such a temperature [°C]; on to dry grain it is the strike water's.

    Refuses a negative amount, or no water.

    >>> mash_temperature_with_water(
    ...     grain_kg=5, water_l=0, tun_heat_l=0, mash_c=20, added_l=15, added_c=72.01, grain_heat=0.32
    ... )
    67.0
    """
    not_negative(grain_kg, "a mass of grain")
    not_negative(water_l, "mash water")
    not_negative(tun_heat_l, "a heat of the tun")
    not_negative(grain_heat, "a heat of the grain")
    positive(added_l, "the water that is added")
    there = grain_heat * grain_kg + tun_heat_l + water_l
    return (mash_c * there + added_c * added_l) / (there + added_l)


@published(
    source=sources.HANGHOFER,
    where="with the heat of the grain left open, where the source has 0.32",
    formula="L = (c A + B + D) (N − K) / (M − N)",
)
def infusion_volume(
    *,
    grain_kg: Annotated[float, "kg", "A", "mass of the dry grist"],
    water_l: Annotated[float, "L", "D", "water in the mash already"],
    tun_heat_l: Annotated[float, "L", "B", "water that takes as much heat as the tun"],
    mash_c: Annotated[float, "°C", "K", "temperature of the mash now"],
    step_c: Annotated[float, "°C", "N", "temperature wanted"],
    added_c: Annotated[float, "°C", "M", "temperature of the water that is added"],
    grain_heat: GrainHeat,
) -> Annotated[float, "L"]:
    """Hot water that lifts a mash to its next step [L].

    Refuses a negative amount, a step that is not upwards, or water that is no hotter than the step.

    >>> infusion_volume(grain_kg=5, water_l=15, tun_heat_l=0, mash_c=50, step_c=65, added_c=100, grain_heat=0.32)
    7.114
    """
    not_negative(grain_kg, "a mass of grain")
    not_negative(water_l, "mash water")
    not_negative(tun_heat_l, "a heat of the tun")
    not_negative(grain_heat, "a heat of the grain")
    _between(mash_c, step_c, added_c)
    return (grain_heat * grain_kg + tun_heat_l + water_l) * (step_c - mash_c) / (added_c - step_c)


@equation(source=sources.HANGHOFER, where="with no heat for the tun (B = 0)", formula="Q = O (S − P) / (R − P)")
def decoction_volume(
    *,
    mash_l: Annotated[float, "L", "O", "room that the mash takes, water and grain together"],
    mash_c: Annotated[float, "°C", "P", "temperature of the mash now"],
    step_c: Annotated[float, "°C", "S", "temperature wanted"],
    boil_c: Annotated[float, "°C", "R", "temperature of the boiled part when it goes back"],
) -> Annotated[float, "L"]:
    """Mash to draw, boil and give back to lift the whole to its next step [L].

    As thick as the mash itself, with nothing boiled away; brewers draw 10 to 20 % more (common practice, no source).
    Refuses a negative volume, a step that is not upwards, or a boil that is no hotter than the step.

    >>> decoction_volume(mash_l=20, mash_c=50, step_c=65, boil_c=100)
    6.0
    """
    not_negative(mash_l, "a mash")
    _between(mash_c, step_c, boil_c)
    return mash_l * (step_c - mash_c) / (boil_c - mash_c)


@equation(
    source=sources.CHANDRASEKHAR,
    where="against a mash at 67 °C, which this book takes as the middle; straight lines between what was measured",
    formula="f = F(T) / F(67), F(x) = 0.82 at 65, 0.70 at 70, 0.50 at 75, 0.30 at 80",
)
def mash_temperature_effect(
    *, mash_c: Annotated[float, "°C", "T", "temperature of the saccharification rest", _MEASURED]
) -> Annotated[float, "ratio"]:
    """How many times the attenuation of a mash at 67 °C a mash at this temperature gives: a guide [ratio].

    >>> mash_temperature_effect(mash_c=67)
    1.0
    """
    return _fermentability(mash_c) / _fermentability(MIDDLE_C)


@published(source=sources.WINDISCH_KOLBACH, formula="WK = 3.5 L − 16")
def windisch_kolbach_from_lintner(
    *, lintner: Annotated[float, "°Lintner", "L", "the same on the Lintner scale"]
) -> Annotated[float, "°WK"]:
    """Diastatic power on the Windisch-Kolbach scale [°WK].

    Refuses a negative power.

    >>> windisch_kolbach_from_lintner(lintner=100)
    334.0
    """
    not_negative(lintner, "a diastatic power")
    return 3.5 * lintner - 16


@published(source=sources.WINDISCH_KOLBACH, formula="L = (WK + 16) / 3.5")
def lintner_from_windisch_kolbach(
    *,
    windisch_kolbach: Annotated[
        float, "°WK", "WK", "the same on the Windisch-Kolbach scale, where no power at all is −16"
    ],
) -> Annotated[float, "°Lintner"]:
    """Diastatic power on the Lintner scale [°Lintner].

    Refuses less than −16 °WK, which is no power at all.

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
