"""Gas, priming and bottles; the same beer in a keg; what haste would do; and what a small bottle holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.model.recipe import Carbonation
from gristbook.sheet.origin import put_in
from gristbook.sheet.value import Value, lineage
from gristbook.site.figures import Figure, Sentence, Shown, joined
from gristbook.targets.figures import Packaging, Plan
from gristbook.targets.method_step import spoken


@dataclass(frozen=True, slots=True)
class Packing:
    """From the fermenter to the glass; ``too_soon`` is a caution, empty where nothing is bottled.

    ``keg`` has beer temperatures and pressures; ``kegged`` says whether that is the recipe's own way.
    """

    gas: tuple[Sentence, ...]
    too_soon: Sentence
    keg: tuple[tuple[Figure, Figure], ...]
    kegged: bool
    glass: Sentence


def packing(plan: Plan, shown: Shown) -> Packing:
    """Gas, priming and pressure as sentences; only what is in the glass where the recipe does not speak of gas."""
    packaging, wanted = plan.figures.packaging, plan.recipe.carbonation
    if packaging is None or wanted is None:
        return Packing((), (), (), False, _glass(plan, shown))
    return Packing(
        tuple(_gas(plan, packaging, wanted, shown)),
        _too_soon(packaging.gas_if_unfinished, packaging.pressure_if_unfinished, shown),
        tuple((shown(heat), shown(pressure)) for heat, pressure in packaging.keg_pressures),
        packaging.sugar is None,
        _glass(plan, shown),
    )


def _gas(plan: Plan, packaging: Packaging, wanted: Carbonation, shown: Shown) -> Iterator[Sentence]:
    yield shown.say(
        *("The glass should hold ", packaging.volumes, " of gas to one of beer. Fermentation leaves "),
        *(packaging.residual, " in it."),
    )
    if packaging.sugar is None or wanted.sugar is None:
        yield ("The rest comes from the cylinder, in the keg: no sugar goes in.",)
        return
    yield shown.say(
        *("Prime ", plan.figures.volumes.packaged, " of beer with ", packaging.sugar),
        *(f" of {spoken(wanted.sugar.name)}, ", packaging.sugar_per_litre),
        *(". That adds ", packaging.added_alcohol, " of alcohol by volume."),
    )
    counts = [shown.say(count, " of ", size) for size, count in packaging.bottles]
    yield (*("It fills about ",), *joined(counts, ", or "), ".")
    if packaging.pressure_warm is not None:
        warmest = _warmest(packaging.pressure_warm)
        yield shown.say("At ", warmest, " that much gas presses with ", packaging.pressure_warm, ".")


def _too_soon(gas: Value | None, pressure: Value | None, shown: Shown) -> Sentence:
    """What would come of bottling before the gravity has stood still; nothing in a keg."""
    if gas is None or pressure is None:
        return ()
    points = next(value for value in lineage(gas) if value.unit == "points")
    return shown.say(
        *("Bottled with ", points, " of gravity still to fall, this beer would end at "),
        *(gas, " of gas and press with ", pressure, " at "),
        *(_warmest(pressure), ", and bottles burst. Wait until two readings agree."),
    )


def _warmest(pressure: Value) -> Value:
    return next(value for value in put_in(pressure.origin) if value.unit == "°C")


def _glass(plan: Plan, shown: Shown) -> Sentence:
    serving = plan.figures.serving
    bottle = next(value for value in put_in(serving.kilocalories.origin) if value.unit == "mL")
    return shown.say(
        *("A small bottle of ", bottle, " brings ", serving.kilocalories, " (", serving.kilojoules, ") and about "),
        *(serving.carbohydrate, " of carbohydrate."),
    )
