"""Readings put right: a hydrometer by its sample's warmth, a refractometer by its factor, hot wort by its density.

Everything goes through `apply`, so that each number leads back to its line in the batch's file.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import TypeVar

from gristbook.equations import brew_day, gravity, instruments
from gristbook.model.batch import Batch, Level, Reading
from gristbook.model.figures import known
from gristbook.pantry.doubts import usual
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less
from gristbook.sheet.origin import Given
from gristbook.sheet.value import Operand, Value, apply, as_it_comes
from gristbook.targets.batches import frozen
from gristbook.targets.batches.results import Corrected
from gristbook.targets.conventions import (
    HYDROMETER_OWN,
    PRACTICE,
    READ_WITHIN,
    REFRACTOMETER_FITS_WITHIN,
    VOLUME_READ_WITHIN,
    within,
)
from gristbook.targets.wort.volumes import marks_of

FITS: tuple[tuple[str, Callable[..., float]], ...] = (
    ("terrill 2011, cubic", instruments.final_gravity_terrill_2011_cubic),
    ("terrill 2011, linear", instruments.final_gravity_terrill_2011_linear),
    ("novotný 2017, linear", instruments.final_gravity_novotny_2017_linear),
    ("novotný 2017, quadratic", instruments.final_gravity_novotny_2017_quadratic),
    ("bonham", instruments.final_gravity_bonham),
)
"""Published fits of a refractometer in beer: they differ by three points and more."""

FITTED_TO_SG, FITTED_TO_ATTENUATION = 1.014, 0.61
"""Terrill fitted beers down to their end: his fits are for none above this gravity, or attenuated by less than this."""

MaybeRead = TypeVar("MaybeRead", Value, Value | None)

MADE_FOR_15 = (14.0, 16.0)
"""Calibrations (°C) of the hydrometers that the often reprinted polynomial is for."""


USUALLY: Mapping[str, str] = {
    frozen.MASH_TEMPERATURE: "mash temperature",
    frozen.PITCHED: "ferment temperature",
    frozen.BOIL_OFF: "boil-off",
    frozen.LEFT_IN_KETTLE: "left in kettle",
    frozen.LEFT_IN_FERMENTER: "left in fermenter",
}
"""How sure a figure of a plan is that was frozen without its range, by the kind of number that it is."""


@dataclass(slots=True, kw_only=True)
class Instruments:
    """A hydrometer made for a temperature, a refractometer with its factor, and what was refused of their readings."""

    calibration: Value
    wort_correction: Value
    brewhouse: str = ""
    refused: list[str] = field(default_factory=list)

    def put(self, equation: Callable[..., float], label: str, /, **values: Operand | None) -> Value | None:
        """`apply` where nothing is missing; `None` where something is, or where the numbers are refused."""
        return self.made(
            label, lambda *put: apply(equation, label, **dict(zip(values, put, strict=True))), *values.values()
        )

    def made(self, label: str, how: Callable[..., Value], *values: Operand | None) -> Value | None:
        """What is made of values, where nothing is missing; `None` where something is, or where it is refused."""
        if any(value is None for value in values):
            return None
        try:
            return how(*values).called(label)
        except Refusal as refusal:
            self.refused.append(f"{label}: {refusal}")
            return None

    def volume(self, level: Level | None) -> Value | None:
        """Wort in a vessel as it is at 20 °C."""
        if level is None or level.volume is None:
            return None
        read = doubted(level.volume, marks_of(self.brewhouse))
        if level.warmth is None:
            return read
        label = f"{level.volume.label}, cool"
        return self.put(brew_day.cool_volume, label, hot_l=read, temperature=doubted(level.warmth))

    def wort(self, reading: Reading | None) -> Corrected | None:
        """Gravity of unfermented wort."""
        if reading is None:
            return None
        shown, label = doubted(reading.shown), name_of(reading)
        if shown.unit != "°Bx":
            return self._by_hydrometer(reading, shown, label)
        sugar = self._over_the_factor(shown, label)
        return _corrected(shown, self.put(brew_day.gravity_from_brix, label, extract=sugar))

    def beer(self, reading: Reading | None, original: Corrected | None) -> Corrected | None:
        """Gravity of beer, fermenting or done; a refractometer needs to know the wort that it came from."""
        if reading is None:
            return None
        shown, label = doubted(reading.shown), name_of(reading)
        if shown.unit != "°Bx":
            return self._by_hydrometer(reading, shown, label)
        final, initial = self._over_the_factor(shown, label), self._initial(original)
        if initial is None:
            self.refused.append(f"{label}: a refractometer in beer says nothing without the original gravity")
        by_fit = {name: self.put(fit, f"{label} after {name}", initial=initial, final=final) for name, fit in FITS}
        cubic = by_fit["terrill 2011, cubic"]
        used = "terrill 2011, cubic" if _fits(cubic, initial) else "novotný 2017, linear"
        chosen = by_fit.pop(used)
        if chosen is None:
            return None
        if used.startswith("novotný"):
            by_fit = {name: it for name, it in by_fit.items() if not name.startswith("terrill")}
            label += ", by the fit that is for beer still fermenting"
        fit = {"the fit of a refractometer in beer": (-REFRACTOMETER_FITS_WITHIN, REFRACTOMETER_FITS_WITHIN)}
        return _corrected(shown, as_it_comes(chosen.called(label), fit), by_fit.items())

    def _by_hydrometer(self, reading: Reading, shown: Value, label: str) -> Corrected | None:
        read = self.put(gravity.gravity_from_plato, label, extract=shown) if shown.unit == "°P" else shown
        if reading.sample is None:
            return _corrected(shown, read)
        warm, made_for = {"reading": read, "sample_c": doubted(reading.sample)}, self.calibration
        corrected = self.put(instruments.hydrometer_corrected, label, **warm, calibration_c=made_for)
        if corrected is None or not MADE_FOR_15[0] <= made_for.number <= MADE_FOR_15[1]:
            return _corrected(shown, corrected)
        reprinted = self.put(instruments.hydrometer_lyons_1992, f"{label} after lyons 1992", **warm)
        return _corrected(shown, corrected, (("lyons 1992", reprinted),))

    def _over_the_factor(self, shown: Value, label: str) -> Value | None:
        factor = self.wort_correction
        return self.put(instruments.brix_corrected, f"{label}, over the factor", reading=shown, factor=factor)

    def _initial(self, original: Corrected | None) -> Value | None:
        if original is None:
            return None
        if original.shown.unit == "°Bx":
            return self._over_the_factor(original.shown, "original gravity")
        return self.put(brew_day.brix_of_wort, "original gravity, as sugar", gravity=original.gravity)


@dataclass(slots=True, kw_only=True)
class Bench(Instruments):
    """A batch on the bench: its instruments, what its plan said, and when it was brewed."""

    batch: Batch

    def with_fruit(self, wort: Value | None) -> Value | None:
        """So much wort with the juice of the plan's fruit, which joins it in the fermenter."""
        juice = self.planned("juice-of-the-fruit", "L")
        return wort if juice is None else self.made("beer with the fruit", operator.add, wort, juice)

    def planned(self, figure: str, unit: str) -> Value | None:
        """A figure of the plan as it was frozen, by its id, where it is there and in its unit.

        One that was written down without its range has the doubt that its kind usually has.
        """
        value = self.batch.frozen.plan.get(known(figure))
        if value is None or value.unit != unit:
            return None
        kind, origin = USUALLY.get(known(figure)), value.origin
        if kind is None or not isinstance(origin, Given) or not value.certain:
            return value
        why = f"{origin.words}; as sure as {usual(kind).words} usually is: {PRACTICE}"
        return within(replace(value, origin=replace(origin, words=why)), {value.label: kind})

    @property
    def last_day(self) -> str:
        """The day of packaging; one after all others where it is in no bottle yet."""
        packaged = self.batch.measured.packaged
        return packaged.day if packaged is not None else "9999"

    def days(self, when: datetime) -> float:
        """Days since the start of the day that it was brewed on."""
        return (when - datetime.fromisoformat(self.batch.brewed)).total_seconds() / 86400


def bench_of(batch: Batch) -> Bench:
    """A batch with its own instruments."""
    measured = batch.measured
    return Bench(
        calibration=measured.calibration,
        wort_correction=measured.wort_correction,
        brewhouse=batch.brewhouse,
        batch=batch,
    )


HYDROMETER = "the hydrometer"
"""The doubt that all readings of one have in common."""


def doubted(value: MaybeRead, marks: str = "") -> MaybeRead:
    """A reading with the doubt that its instrument usually has, where its author states none; `None` where none is.

    ``marks`` names the doubt of a volume that all readings on the same vessel share.
    """
    if value is None or not isinstance(value.origin, Given) or value.origin.ends is not None:
        return value
    if value.unit != "L" and value.unit not in READ_WITHIN:
        return value
    half, words = READ_WITHIN.get(value.unit, (0.0, VOLUME_READ_WITHIN))
    why = f"{value.origin.words}; right within {words}, nine times in ten: {PRACTICE}"
    shown = replace(value, origin=replace(value.origin, words=why))
    if value.unit == "L":
        return within(shown, {marks or f"marks for {value.label}": "marks", value.label: "filled"})
    if value.unit not in ("SG", "°P"):
        return as_it_comes(shown, {value.label: (-half, half)})
    own = half * HYDROMETER_OWN
    return as_it_comes(shown, {HYDROMETER: (-own, own), value.label: (-own, own)})


def _fits(by_cubic: Value | None, initial: Value | None) -> bool:
    """Whether a beer is as far attenuated as those that the cubic was fitted to."""
    if by_cubic is None or initial is None or by_cubic.number > FITTED_TO_SG:
        return False
    rest = gravity.plato_from_gravity(gravity=by_cubic.number)
    return 1 - rest / initial.number >= FITTED_TO_ATTENUATION


def _corrected(shown: Value, found: Value | None, others: Iterable[tuple[str, Value | None]] = ()) -> Corrected | None:
    if found is None:
        return None
    return Corrected(shown, found, tuple((name, value) for name, value in others if value is not None))


def remaining(whole: Value, part: Value) -> Value:
    """What is left of a volume."""
    return less(whole, part, left="what is left of a volume")


def name_of(reading: Reading) -> str:
    """What a reading is of."""
    return reading.shown.label.removesuffix(", as read")
