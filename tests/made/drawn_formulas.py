"""The published formulas, written out for many draws at once, from their sources and not from the tool's equations."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np
from drawn_doubts import Array

KELVIN = 273.15
CARBON, HYDROGEN, OXYGEN = 12.011, 1.008, 15.999
CARBON_DIOXIDE = CARBON + 2 * OXYGEN


def solved(wanted: Array, start: Array, curve: Callable[[Array], Array]) -> Array:
    """Where a rising curve takes the values that are wanted: by secants, to the last digit."""
    before, here = start - 1e-3, start
    for _ in range(60):
        rise = curve(here) - curve(before)
        step = np.where(rise == 0, 0.0, (curve(here) - wanted) * (here - before) / np.where(rise == 0, 1.0, rise))
        before, here = here, here - step
        if np.all(np.abs(step) < 1e-13):
            break
    return here


def plato(gravity: Array) -> Array:
    """°P of a gravity: the cubic of the American tables."""
    return -616.868 + 1111.14 * gravity - 630.272 * gravity**2 + 135.997 * gravity**3


def gravity_of_plato(extract: Array) -> Array:
    return solved(extract, 1 + extract / 260, plato)


def gravity_of_extract(kg: Array, litres: Array) -> Array:
    """A kilogram of extract in so many litres: 10 °P times the density, with water of 998.203 g/L."""
    grams = 1000 * kg / litres
    return solved(grams, 1 + grams / 2600, lambda gravity: 10 * plato(gravity) * gravity * 0.998203)


def isomerising(celsius: Array) -> Array:
    """Malowicki 2005: 1/min."""
    return 7.9e11 * np.exp(-11858 / (celsius + KELVIN))


def worth_in_the_boil(minutes: Array, start: Array, end: Array) -> Array:
    """Minutes at 100 °C that a stand is worth which falls evenly: the mean of its rate, after Gauss and Legendre."""
    at, weights = np.polynomial.legendre.leggauss(12)
    rates = isomerising(start[:, None] + (end - start)[:, None] * (1 + at) / 2)
    return minutes * (rates @ weights) / 2 / isomerising(np.array(100.0))


def boils_at(metres: float) -> float:
    """°C: where the pressure of steam (IAPWS-IF97, equation 30) is that of the standard atmosphere (ISO 2533)."""
    wanted = 0.101325 * (1 - 2.25577e-5 * metres) ** 5.25588

    def pressure(kelvin: Array) -> Array:
        t = kelvin - 0.23855557567849 / (kelvin - 0.65017534844798e3)
        a = t**2 + 0.11670521452767e4 * t - 0.72421316703206e6
        b = -0.17073846940092e2 * t**2 + 0.12020824702470e5 * t - 0.32325550322333e7
        c = 0.14915108613530e2 * t**2 - 0.48232657361591e4 * t + 0.40511340542057e6
        return (2 * c / (-b + np.sqrt(b**2 - 4 * a * c))) ** 4

    return float(solved(np.array([wanted]), np.array([373.0]), pressure)[0]) - KELVIN


RAGER = {5: 5.0, 10: 6.0, 15: 8.0, 20: 10.1, 25: 12.1, 30: 15.3, 35: 18.8, 40: 22.8, 45: 26.9, 50: 28.1, 60: 30.0}
GARETZ = {10: 0, 15: 2, 20: 5, 25: 8, 30: 11, 35: 14, 40: 16, 45: 18, 50: 19, 60: 20, 70: 21, 80: 22, 90: 23}
DANIELS_WHOLE = {0: 5, 10: 12, 20: 15, 30: 19, 45: 22, 60: 24, 75: 27}
DANIELS_PELLETS = {0: 6, 10: 15, 20: 19, 30: 24, 45: 27, 60: 30, 75: 34}


def _by_last(bands: Mapping[int, float], minutes: Array) -> Array:
    """Bands named by their last minute; past the last it stays."""
    place = np.searchsorted(np.array(list(bands)), minutes, side="left")
    return np.array(list(bands.values()))[np.minimum(place, len(bands) - 1)] / 100


def _by_first(bands: Mapping[int, float], minutes: Array) -> Array:
    """Bands named by their first minute."""
    return np.array(list(bands.values()))[np.searchsorted(np.array(list(bands)), minutes, side="right") - 1] / 100


def utilisation(model: str, minutes: Array, worth: Array, gravity: Array, altitude: float, whole: bool) -> Array:
    """Share of the alpha acids that a model finds used in so many minutes, which are worth so many at sea level.

    A table of bands is read by the minutes of the clock; only a curve knows how much slower it goes higher up.
    """
    thick = 1 + np.maximum(gravity - 1.050, 0) / 0.2
    match model:
        case "tinseth 1997":
            return 1.65 * 0.000125 ** (gravity - 1) * (1 - np.exp(-0.04 * worth)) / 4.15
        case "rager 1990":
            return _by_last(RAGER, minutes) / thick
        case "daniels 1996":
            return _by_first(DANIELS_WHOLE if whole else DANIELS_PELLETS, minutes) / thick
        case "garetz 1994":
            feet = altitude / 0.3048
            return _by_last(GARETZ, minutes) / (1 + (gravity - 1.050) / 0.2) / (1 + 0.02 * feet / 550)
    raise KeyError(model)


def hopping_rate(bitter: Array, concentration: Array) -> Array:
    """Garetz's HF = 1 + CF × IBU / HF / 260, the positive root."""
    return (1 + np.sqrt(1 + 4 * concentration * bitter / 260)) / 2


def shown(model: str, units: Array) -> Array:
    """SRM of a beer from its malt colour units."""
    match model:
        case "morey 1995":
            return 1.4922 * units**0.6859
        case "daniels 1995":
            return 0.2 * units + 8.4
        case "mosher 1995":
            return 0.3 * units + 4.7
    raise KeyError(model)


def fermentable(celsius: Array) -> Array:
    """Apparent attenuation by the temperature of the mash, as it was measured; the nearest beyond."""
    return np.interp(celsius, (65.0, 70.0, 75.0, 80.0), (0.82, 0.70, 0.50, 0.30))


_GAS = {
    -5: 1.95, 0: 1.7, 2: 1.6, 4: 1.5, 6: 1.4, 8: 1.3, 10: 1.2, 12: 1.12, 14: 1.05, 16: 0.99, 18: 0.93, 20: 0.88,
    22: 0.83, 25: 0.759, 30: 0.665, 35: 0.592, 40: 0.530, 50: 0.436, 60: 0.359,
}  # fmt: skip


def gas_left(celsius: Array) -> Array:
    """Volumes of gas that water holds under one atmosphere of it."""
    return np.interp(celsius, list(_GAS), list(_GAS.values()))


SUGARS = {"C12H22O11": (12, 22, 11, 4), "C6H12O6": (6, 12, 6, 2), "C6H12O6·H2O": (6, 14, 7, 2)}
"""Atoms of carbon, hydrogen and oxygen in a sugar as it is weighed, and molecules of gas from one of it."""


def gas_from_a_gram(formula: str) -> float:
    carbon, hydrogen, oxygen, molecules = SUGARS[formula]
    return molecules * CARBON_DIOXIDE / (carbon * CARBON + hydrogen * HYDROGEN + oxygen * OXYGEN)


def lautered(grain: Array | float, kept: Array, run_offs: Sequence[Array | float]) -> Array:
    """Share of what is dissolved that leaves a well-mixed mash, run-off by run-off."""
    left = np.ones_like(kept)
    for litres in run_offs:
        left = left * kept * grain / (kept * grain + litres)
    return 1 - left
