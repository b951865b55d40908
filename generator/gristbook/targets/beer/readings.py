"""What the brewer's instruments should show when all goes to plan."""

from __future__ import annotations

from gristbook.equations import readings as equations
from gristbook.sheet.value import Value, apply
from gristbook.targets.conventions import CALIBRATION, SAMPLE_TEMPERATURES, WORT_FACTOR
from gristbook.targets.results import Fermentation, Readings, Wort


def readings(wort: Wort, fermentation: Fermentation) -> Readings:
    """A hydrometer in a warm or cold sample of the wort, and a refractometer before and after fermentation."""
    before = apply(
        equations.refractometer_reading, "refractometer in the wort", extract=wort.original_plato, factor=WORT_FACTOR
    )
    return Readings(
        tuple((sample, _hydrometer(wort.original, sample)) for sample in SAMPLE_TEMPERATURES),
        before,
        apply(
            equations.refractometer_reading_of_beer,
            "refractometer in the beer",
            initial=before,
            final_gravity=fermentation.final,
            factor=WORT_FACTOR,
        ),
    )


def _hydrometer(gravity: Value, sample: Value) -> Value:
    read = {"gravity": gravity, "sample_c": sample, "calibration_c": CALIBRATION}
    return apply(equations.hydrometer_reading, f"hydrometer in {sample.label}", **read)
