"""Gas, priming and bottles; the same beer in a keg; what haste would do; and what a small bottle holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.model.packing import Carbonation
from gristbook.sheet.origin import put_in
from gristbook.sheet.value import Value, lineage
from gristbook.site.figures import Sentence, joined
from gristbook.targets.figures import Plan
from gristbook.targets.method.package import SILENT, STILL
from gristbook.targets.method.step import say, spoken
from gristbook.targets.results import Packaging


@dataclass(frozen=True, slots=True)
class Packing:
    """From the fermenter to the glass; ``too_soon`` is a caution, empty where nothing is bottled.

    ``keg`` has beer temperatures and pressures; ``kegged`` says whether that is the recipe's own way.
    """

    gas: tuple[Sentence, ...]
    too_soon: Sentence
    keg: tuple[tuple[Value, Value], ...]
    kegged: bool
    glass: Sentence


def packing(plan: Plan) -> Packing:
    """Gas, priming and pressure as sentences; where none is given that, and what is in the glass."""
    packaging, wanted = plan.figures.packaging, plan.recipe.carbonation
    if packaging is None or wanted is None:
        return Packing(((STILL if plan.recipe.still else SILENT,),), (), (), False, _glass(plan))
    return Packing(
        tuple(_gas(plan, packaging, wanted)),
        _too_soon(packaging.gas_if_unfinished, packaging.pressure_if_unfinished),
        packaging.keg_pressures,
        packaging.sugar is None,
        _glass(plan),
    )


def _gas(plan: Plan, packaging: Packaging, wanted: Carbonation) -> Iterator[Sentence]:
    yield say(
        "The glass should hold {volumes} of gas to one of beer. Fermentation leaves {residual} in it.",
        volumes=packaging.volumes,
        residual=packaging.residual,
    )
    sugar, each, alcohol = packaging.sugar, packaging.sugar_per_litre, packaging.added_alcohol
    if sugar is None or each is None or alcohol is None or wanted.sugar is None:
        yield ("The rest comes from the cylinder, in the keg: no sugar goes in.",)
        return
    yield say(
        "Prime {beer} of beer with {sugar} of {name}, {each}. That adds {alcohol} of alcohol by volume.",
        beer=plan.figures.volumes.packaged,
        sugar=sugar,
        name=spoken(wanted.sugar.name),
        each=each,
        alcohol=alcohol,
    )
    yield "It fills about ", *joined([(count, " of ", size) for size, count in packaging.bottles], ", or "), "."
    if (pressure := packaging.pressure_warm) is not None:
        yield "At ", _warmest(pressure), " that much gas presses with ", pressure, "."


def _too_soon(gas: Value | None, pressure: Value | None) -> Sentence:
    """What would come of bottling before the gravity has stood still; nothing in a keg."""
    if gas is None or pressure is None:
        return ()
    return say(
        "Bottled with {points} of gravity still to fall, this beer would end at {gas} of gas and press with {pressure} "
        "at {warmest}, and bottles burst. Wait until two readings agree.",
        points=next(value for value in lineage(gas) if value.unit == "points"),
        gas=gas,
        pressure=pressure,
        warmest=_warmest(pressure),
    )


def _warmest(pressure: Value) -> Value:
    return next(value for value in put_in(pressure.origin) if value.unit == "°C")


def _glass(plan: Plan) -> Sentence:
    serving = plan.figures.serving
    return say(
        "A small bottle of {bottle} brings {kcal} ({kj}) and about {carbohydrate} of carbohydrate.",
        bottle=next(value for value in put_in(serving.kilocalories.origin) if value.unit == "mL"),
        kcal=serving.kilocalories,
        kj=serving.kilojoules,
        carbohydrate=serving.carbohydrate,
    )
