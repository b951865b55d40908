"""What the brewer's instruments should show, and how cool the wort must be before cold water goes on to it."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.sheet.origin import put_in
from gristbook.sheet.value import Value, lineage
from gristbook.site.figures import Figure, Sentence, Shown
from gristbook.targets.figures import Plan


@dataclass(frozen=True, slots=True)
class Instruments:
    """A hydrometer by the sample's temperature, and a refractometer before and after fermentation."""

    hydrometer: Sentence
    readings: tuple[tuple[Figure, Figure], ...]
    refractometer: Sentence


def instruments(plan: Plan, shown: Shown) -> Instruments:
    """What they show when all goes to plan."""
    readings, wort = plan.figures.readings, plan.figures.wort
    _, reading = readings.hydrometer[0]
    calibration = next(value for value in put_in(reading.origin) if value.unit == "°C" and "calibration" in value.label)
    factor = next(value for value in lineage(readings.refractometer_before) if "correction" in value.label)
    hydrometer = shown.say(
        *("A hydrometer made for ", calibration, " tells the truth at that heat and no other. In wort of "),
        *(wort.original, ":"),
    )
    refractometer = shown.say(
        *(
            "A refractometer should show ",
            readings.refractometer_before,
            " in the wort. In the finished beer it shows ",
        ),
        *(readings.refractometer_after, ", for alcohol bends light too: that is ", plan.figures.fermentation.final),
        *(" of final gravity, and not a beer that has stuck. Both go by a wort correction factor of ", factor),
        "; find your own instrument’s by reading one wort both ways.",
    )
    pairs = tuple((shown(sample), shown(reading)) for sample, reading in readings.hydrometer)
    return Instruments(hydrometer, pairs, refractometer)


def topping_up(plan: Plan, shown: Shown) -> Sentence:
    """What cold water does to hot wort; nothing where none goes on."""
    cooling, top_up = plan.figures.cooling, plan.figures.volumes.top_up
    if cooling is None or top_up is None:
        return ()
    pitch: Value = plan.recipe.ferment[0].temperature
    return shown.say(
        *("If the wort were topped up boiling with ", top_up, " at ", cooling.cold, ", all of it would stand at "),
        *(cooling.if_boiling, _too_hot(cooling.if_boiling, pitch), " Cool it in its pot to "),
        *(cooling.cool_to, " first: then the water brings it to ", pitch, "."),
        *(
            (" From the boil, ", cooling.ice, " of clean ice in place of as much of the water does it too.")
            if cooling.ice
            else ()
        ),
    )


def _too_hot(reached: Value, wanted: Value) -> str:
    return ", far too hot for yeast." if reached.number > wanted.number + 5 else "."
