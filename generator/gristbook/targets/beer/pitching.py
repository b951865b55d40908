"""How many cells a wort of this strength asks of this yeast, and how many grams where it is dried."""

from __future__ import annotations

from gristbook.model.recipe import Recipe
from gristbook.model.yeast import Yeast
from gristbook.sheet.origin import By, Given
from gristbook.sheet.value import Value, number
from gristbook.targets.conventions import (
    ALE_DOSE,
    ALE_RATE,
    COLD_LAGER_DOSE,
    LAGER_DOSE,
    LAGER_RATE,
    STRONG,
    STRONG_ALE_DOSE,
    STRONG_ALE_RATE,
    STRONG_LAGER_RATE,
    practice,
)
from gristbook.targets.results import Pitch, Wort, YeastFigures

COLD_C, COOL_C = 9.0, 12.0
"""Where the two published doses of dried lager yeast hold: the large one, and from here to 15 °C the small one."""
ORDINARY_PLATO = 12.0
"""The wort that a dose of dried lager yeast is printed for."""


def first(pitch: Pitch | None) -> tuple[YeastFigures, ...]:
    """What is pitched into the wort; the other yeasts go in later, or before the boil."""
    return tuple(line for line in pitch.yeasts if line.yeast.moment is None) if pitch else ()


def usual_rate(recipe: Recipe, wort: Wort) -> Value:
    """Million cells for a millilitre and °P: what the author says, else the most that one of the yeasts asks for."""
    said = [yeast.pitch_rate for yeast in recipe.pitched if yeast.pitch_rate and _by_the_author(yeast.pitch_rate)]
    return max(said or (_rate(yeast, is_strong(wort)) for yeast in recipe.pitched), key=number)


def is_strong(wort: Wort) -> bool:
    """Whether it is pitched as a strong one, by its gravity as a page shows it."""
    return round(wort.original.number, 3) >= STRONG


def usual_dose(recipe: Recipe, wort: Wort) -> Value:
    """Grams of dried yeast for a litre, with the range of what is usual: for a lager, the colder the more."""
    if all(yeast.kind != "lager" for yeast in recipe.pitched):
        return STRONG_ALE_DOSE if is_strong(wort) else ALE_DOSE
    at_c = recipe.pitched_at.number if recipe.pitched_at else COOL_C
    cold = min(max((COOL_C - at_c) / (COOL_C - COLD_C), 0.0), 1.0)
    more, why = 1.0, ""
    if is_strong(wort):  # as many more grams as cells
        more = STRONG_LAGER_RATE.number * wort.original_plato.number / (LAGER_RATE.number * ORDINARY_PLATO)
        why = f"; {more:.2f} times as much, as this wort asks for more cells than one of {ORDINARY_PLATO:g} °P"
    if more == 1.0 and cold in (0.0, 1.0):
        return COLD_LAGER_DOSE if cold else LAGER_DOSE
    low, typical, high = (
        more * (cool + cold * (colder - cool))
        for cool, colder in (
            (LAGER_DOSE.low, COLD_LAGER_DOSE.low),
            (LAGER_DOSE.number, COLD_LAGER_DOSE.number),
            (LAGER_DOSE.high, COLD_LAGER_DOSE.high),
        )
    )
    origin = f"makers' sheets: 0.8 to 1.2 g/L from 12 °C on, 2 to 3 at 9 °C, a straight line between{why}"
    return practice(typical, "g/L", f"dose of dried lager yeast at {at_c:g} °C", low, high, origin)


def _rate(yeast: Yeast, strong: bool) -> Value:
    if yeast.pitch_rate is not None and not strong:
        return yeast.pitch_rate
    if yeast.kind == "lager":
        return STRONG_LAGER_RATE if strong else LAGER_RATE
    return STRONG_ALE_RATE if strong else ALE_RATE


def _by_the_author(rate: Value) -> bool:
    return isinstance(rate.made, Given) and rate.made.by is By.AUTHOR
