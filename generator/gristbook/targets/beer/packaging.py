"""Gas in the bottle: what fermentation left, what priming adds, and how hard it presses in a warm cupboard."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.equations import alcohol, atoms, attenuation, carbonation, pressure
from gristbook.equations import extract as potential
from gristbook.model.moment import Stage
from gristbook.model.packing import Carbonation, PrimingSugar
from gristbook.model.recipe import Recipe
from gristbook.model.steps import FermentStep
from gristbook.pantry.pantry import ours
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply, number, settled
from gristbook.targets.beer.finished import days_of_readings
from gristbook.targets.conventions import (
    BOTTLE_SIZES,
    FRESH_YEAST,
    IN_THE_BOTTLE,
    IN_THE_KEG,
    LAGERED_IN_THE_BOTTLE,
    LONG_COLD,
    SERVING_TEMPERATURES,
    STRONG_ABV,
    STRONG_IN_THE_BOTTLE,
    UNFINISHED,
    WARMEST_STORAGE,
    carried_out,
    within,
)
from gristbook.targets.results import Fermentation, Grist, Packaging, Volumes


def packaging(recipe: Recipe, grist: Grist, volumes: Volumes, fermentation: Fermentation) -> Packaging | None:
    """Gas, priming and pressure; `None` where the recipe says nothing of carbonation.

    Fruit that goes in with the priming sugar primes, too: there is so much less of the sugar.

    Raises
    ------
    Refusal
        The beer holds more gas than is wanted, so that no priming is right.
    """
    wanted = recipe.carbonation
    if wanted is None:
        return None
    warmest = warmest_since_it_ended(recipe.ferment)
    if warmest is None:
        raise Refusal("carbonation needs a ferment step: its temperature says how much gas the beer still holds")
    beer_c = carried_out(warmest.warmest, {"temperature of the beer": "ferment temperature"})
    residual = apply(carbonation.residual_carbon_dioxide, "gas left from fermentation", temperature=beer_c)
    pressures = [step.pressure for step in recipe.ferment if step.pressure is not None]
    if pressures:  # at whichever step: none is let out
        label = "gas left from fermentation under pressure"
        residual = apply(carbonation.gas_under_pressure, label, residual=residual, pressure=max(pressures, key=number))
    keg = wanted.sugar is None
    of_fruit = _gas_of_fruit(grist, volumes)
    held = residual if of_fruit is None else sum_of((residual, of_fruit), "gas that the beer holds and the fruit makes")
    sugar, added, gas = _priming(wanted, held, volumes.packaged)
    label = f"{'keg' if keg else 'bottle'} pressure in warm storage"
    warm = apply(pressure.gauge_pressure, label, volumes=gas, temperature=WARMEST_STORAGE)
    unfinished, pressure_then = (None, None) if keg else _unfinished(gas)
    strength = fermentation.abv
    if added is not None:
        strength = sum_of((fermentation.abv, added), "alcohol by volume, packaged")
    temperatures = (*((wanted.served,) if wanted.served else ()), *SERVING_TEMPERATURES)
    return Packaging(
        gas,
        residual,
        of_fruit,
        sugar,
        (sugar / volumes.packaged).called("priming sugar a litre") if sugar is not None else None,
        added,
        strength,
        None if keg else warm,
        warm if keg else None,
        unfinished,
        pressure_then,
        tuple((serving, _keg(gas, serving)) for serving in temperatures),
        tuple(
            (size, (volumes.packaged / size).told_in("bottles").called(f"{size.label} to fill"))
            for size in BOTTLE_SIZES
        ),
        _ready(recipe, fermentation),
        None if keg else _fresh_yeast(recipe, fermentation, volumes),
        _told(wanted, volumes.packaged),
    )


def _told(wanted: Carbonation, beer_l: Value) -> Value | None:
    """The sugar that the recipe speaks of beside the gas."""
    if wanted.dose is None or wanted.by_dose or wanted.dose.unit == "g/L":
        return None if wanted.by_dose else wanted.dose
    return (wanted.dose / beer_l).called("priming sugar a litre, as the recipe says")


def _fresh_yeast(recipe: Recipe, fermentation: Fermentation, volumes: Volumes) -> Value | None:
    if fermentation.abv.number < STRONG_ABV and not long_cold(recipe):
        return None
    return settled((FRESH_YEAST * volumes.packaged).called("fresh yeast for the bottles"))


def _gas_of_fruit(grist: Grist, volumes: Volumes) -> Value | None:
    """Gas from fruit that goes in as the beer is packaged (its sugar is glucose and fructose)."""
    sugars = [
        (line.extract * line.sugar.attenuation).told_in("g").called(f"sugar of {line.sugar.name} that ferments")
        for line in grist.sugars
        if line.sugar.moment is Stage.PACKAGING
    ]
    if not sugars:
        return None
    glucose = {"molecules": 2.0, "molar_mass": atoms.molar_mass("C6H12O6")}
    return apply(
        carbonation.gas_from_priming,
        "gas from the fruit",
        sugar_g=sum_of(sugars, "sugar of the fruit that ferments"),
        beer_l=volumes.packaged,
        carbon_dioxide_yield=apply(carbonation.carbon_dioxide_yield, "gas from the sugar of the fruit", **glucose),
    )


PRIMING_FERMENTS = {"share of the priming sugar that ferments": "priming ferments"}


def _priming(wanted: Carbonation, residual: Value, beer_l: Value) -> tuple[Value | None, Value | None, Value]:
    """Sugar (g) and the alcohol that it adds (%), neither in a keg; and the gas, which goes by a dose that is told."""
    if wanted.pressure is not None and wanted.served is not None:
        on_it = {"pressure": wanted.pressure, "temperature": wanted.served}
        return None, None, apply(pressure.gas_at_pressure, "carbonation", **on_it)
    if wanted.sugar is None:
        return None, None, wanted.volumes
    gas, ethanol = (within(it, PRIMING_FERMENTS) for it in yields(wanted.sugar))
    volumes, label = wanted.volumes, f"priming sugar ({wanted.sugar.called}, {_hydration(wanted.sugar)})"
    if wanted.by_dose and wanted.dose is not None:
        sugar = (wanted.dose if wanted.dose.unit == "g" else wanted.dose * beer_l).called(label)
        primed = {"sugar_g": sugar, "beer_l": beer_l, "carbon_dioxide_yield": gas}
        more = apply(carbonation.gas_from_priming, "gas from priming", **primed)
        volumes = apply(carbonation.gas_at_the_end, "carbonation", residual=residual, priming=more, unfinished=0.0)
    else:
        primed = {"beer_l": beer_l, "carbon_dioxide_yield": gas}
        sugar = apply(carbonation.priming_sugar, label, target=volumes, residual=residual, **primed)
    with_it = {"sugar_g": sugar, "beer_l": beer_l, "ethanol_yield": ethanol}
    return sugar, apply(alcohol.priming_alcohol, "alcohol that priming adds", **with_it), volumes


def yields(sugar: PrimingSugar) -> tuple[Value, Value]:
    """Gas and ethanol (g/g) from a sugar by its formula, from malt extract by what of it ferments.

    A third of a sugar's carbon becomes gas, a molecule to each atom, and as many molecules of ethanol hold the rest.
    """
    if isinstance(sugar.contents, str):
        molecules: Value | float = atoms.count("C", sugar.contents) / 3
        if sugar.share is not None:
            molecules = (sugar.share * molecules).called("molecules, of what of it ferments")
        formula = {"molecules": molecules, "molar_mass": atoms.molar_mass(sugar.contents)}
        return (
            apply(carbonation.carbon_dioxide_yield, f"gas from {sugar.called}", **formula),
            apply(carbonation.ethanol_yield, f"ethanol from {sugar.called}", **formula),
        )
    extract = sugar.contents
    of = {
        "solids": apply(
            potential.as_is_potential,
            f"solids of {sugar.called}",
            fine_grind_dry_basis=extract.extract_dry,
            moisture=extract.moisture,
        ),
        "real_attenuation": apply(
            attenuation.real_from_apparent_attenuation,
            f"real attenuation of {sugar.called}",
            apparent_attenuation=extract.attenuation,
        ),
    }
    return (
        apply(carbonation.carbon_dioxide_yield_of_malt_extract, f"gas from {sugar.called}", **of),
        apply(carbonation.ethanol_yield_of_malt_extract, f"ethanol from {sugar.called}", **of),
    )


def priming_sugars(packaging: Packaging, beer_l: Value) -> Iterator[tuple[str, float]]:
    """What a kitchen may prime with in place of nothing said: a name, and grams of it for this gas."""
    for sugar in ours("sugars").records:
        if sugar.formula:
            of = PrimingSugar(sugar.name, sugar.sold_as or sugar.name, sugar.formula)
            fruit = packaging.fruit_gas.number if packaging.fruit_gas is not None else 0.0
            more = {"target": packaging.volumes.number, "residual": packaging.residual.number + fruit}
            each = yields(of)[0].number
            yield of.called, carbonation.priming_sugar(**more, beer_l=beer_l.number, carbon_dioxide_yield=each)


def _hydration(sugar: PrimingSugar) -> str:
    """What a sugar is weighed with."""
    if isinstance(sugar.contents, str):
        return "with its water of crystallisation" if "H2O" in sugar.contents.split("·") else "dry"
    return "as sold"


def _keg(volumes: Value, serving: Value) -> Value:
    return apply(pressure.gauge_pressure, f"pressure in {serving.label}", volumes=volumes, temperature=serving)


def _unfinished(wanted: Value) -> tuple[Value, Value]:
    """What comes of bottling four points too soon: gas at the end, and its pressure in warm storage."""
    more = apply(carbonation.gas_from_gravity_points, "gas from what had still to ferment", points=UNFINISHED)
    gas = gas_with(wanted, more, "gas if it was bottled four points too soon")
    label = "bottle pressure if it was bottled four points too soon"
    return gas, apply(pressure.gauge_pressure, label, volumes=gas, temperature=WARMEST_STORAGE)


def gas_with(wanted: Value, more: Value, label: str) -> Value:
    """The gas of a beer primed for what is wanted, with what ferments on (volumes)."""
    return apply(carbonation.gas_at_the_end, label, residual=wanted, priming=0.0, unfinished=more)


def _ready(recipe: Recipe, fermentation: Fermentation) -> Value:
    """Days from pitching until it is worth drinking: fermenting, the readings that prove it, then in bottle or keg."""
    abv = fermentation.abv.number
    days = (*(step.days for step in recipe.ferment), *days_of_readings(recipe, abv), once_packaged(abv, recipe))
    return sum_of(days, "days until it is ready")


def once_packaged(abv: float, recipe: Recipe) -> Value:
    """Days in the bottle: a strong beer (% by volume) wants more, and so does one whose yeast sank in long cold.

    In a keg no yeast need work, and gas alone is waited for.
    """
    if recipe.carbonation is not None and recipe.carbonation.sugar is None:
        return IN_THE_KEG
    if abv >= STRONG_ABV:
        return STRONG_IN_THE_BOTTLE
    return LAGERED_IN_THE_BOTTLE if long_cold(recipe) else IN_THE_BOTTLE


def long_cold(recipe: Recipe) -> bool:
    """Whether a beer stands cold for so long that little yeast is left in it."""
    days, heat = LONG_COLD
    return sum(step.days.number for step in recipe.ferment if step.warmest.number < heat) >= days


def warmest_since_it_ended(steps: tuple[FermentStep, ...]) -> FermentStep | None:
    """The warmest step since fermentation ended: the last one, or the warmer ones that it was cooled down from."""
    warmest: FermentStep | None = None
    for step in reversed(steps):
        if warmest is not None and step.warmest.number < warmest.warmest.number:
            break
        warmest = step
    return warmest
