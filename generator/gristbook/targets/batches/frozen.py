"""The figures of a plan that a batch keeps for good, so that it never has to ask the recipe again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from gristbook.equations import boiling
from gristbook.model.figures import words_of
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply, constant, given, settled
from gristbook.targets.beer.fermentation import hungriest, main_rest
from gristbook.targets.conventions import FERMENTER_USABLE, WARMEST_STORAGE
from gristbook.targets.editions.pot import usable_l
from gristbook.targets.figures import Plan
from gristbook.targets.wort.grist import potential
from gristbook.targets.wort.volumes import joins_late

MASH_TEMPERATURE = "mash-temperature"
PITCHED = "temperature-at-pitching"
POTENTIAL = "potential-of-the-mashed-grain"
BESIDES_BEFORE = "extract-besides-the-mash-before-the-boil"
BESIDES_AT_END = "extract-besides-the-mash-end-of-the-boil"
IN_THE_FERMENTER = "extract-added-in-the-fermenter"
BOILING_POINT = "boiling-point"
BOIL_OFF = "boil-off"
BOILED = "length-of-the-boil"
LEFT_IN_KETTLE = "left-in-the-kettle"
LEFT_IN_FERMENTER = "left-in-the-fermenter"
ATTENUATION = "attenuation-of-the-yeast"
WARMEST = "warmest-storage"
KETTLE_ROOM = "wort-that-the-kettle-boils"
FERMENTER_ROOM = "wort-that-the-fermenter-holds"

NO_LATE_EXTRACT_L = 0.01
"""What a plan's volumes leave over by the rounding of its figures; less than this is no malt extract."""


def frozen_plan(plan: Plan) -> dict[str, Value]:
    """Every named figure of a plan by its id, and those that a batch needs to know what its readings mean.

    They are the extract that the grain could give and what other extract there is (kg), the boiling point (°C), the
    boil-off (L/h) and its length (min), what stays in kettle and fermenter (L), how far the yeast goes by itself, how
    warm the main rest, the wort at pitching and the storage are (°C); and how much the vessels take (L), where their
    sizes are known.
    """
    recipe, brewhouse = plan.recipe, plan.brewhouse
    rest = main_rest(recipe.mash)
    return {
        **({MASH_TEMPERATURE: rest.temperature} if rest else {}),
        **({PITCHED: recipe.pitched_at} if recipe.pitched_at else {}),
        **plan.named,
        POTENTIAL: sum_of(_potentials(plan), words_of(POTENTIAL), "kg"),
        BESIDES_BEFORE: sum_of(_besides(plan, late=False), words_of(BESIDES_BEFORE), "kg"),
        BESIDES_AT_END: sum_of(_besides(plan, late=True), words_of(BESIDES_AT_END), "kg"),
        IN_THE_FERMENTER: sum_of(
            (line.extract for line in plan.figures.grist.sugars if line.sugar.into_fermenter),
            words_of(IN_THE_FERMENTER),
            "kg",
        ),
        BOILING_POINT: apply(boiling.boiling_point, words_of(BOILING_POINT), altitude=brewhouse.altitude),
        BOIL_OFF: brewhouse.boil_off,
        BOILED: recipe.boil,
        LEFT_IN_KETTLE: plan.figures.volumes.left_in_kettle,
        LEFT_IN_FERMENTER: brewhouse.left_in_fermenter,
        ATTENUATION: hungriest(recipe.fermenting).attenuation,
        WARMEST: WARMEST_STORAGE,
        **_rooms(plan),
    }


def _rooms(plan: Plan) -> dict[str, Value]:
    """Cool wort that the kettle boils and the fermenter takes under its foam."""
    brewhouse = plan.brewhouse
    rooms: dict[str, Value] = {}
    if brewhouse.kettle is not None:
        why = "four fifths of the kettle, hot"
        rooms[KETTLE_ROOM] = given(usable_l(brewhouse), "L", words_of(KETTLE_ROOM), words=why)
    if brewhouse.fermenter is not None:
        room = FERMENTER_USABLE * brewhouse.fermenter.number
        rooms[FERMENTER_ROOM] = given(room, "L", words_of(FERMENTER_ROOM), words="four fifths of the fermenter")
    return rooms


def _potentials(plan: Plan) -> Iterator[Value]:
    for line in plan.figures.grist.malts:
        if line.malt.steep is None:
            yield (line.mass * potential(line.malt)).called(f"all that {line.malt.name} could give")


def _besides(plan: Plan, *, late: bool) -> Iterator[Value]:
    grist = plan.figures.grist
    yield from (line.extract for line in grist.malts if line.malt.steep is not None)
    for line in grist.sugars:
        if not line.sugar.into_fermenter and (late or not joins_late(line.sugar, plan.recipe)):
            yield line.extract


def late_volume(plan: Mapping[str, Value]) -> Value:
    """What malt extract stirred in during the boil adds to it (L), as a plan's own volumes have it.

    The doubts of those volumes are left out: they are the boil-off's, and cancel.
    """
    units = {"volume-at-the-end-of-the-boil": "L", "boil-volume": "L", BOIL_OFF: "L/h", BOILED: "min"}
    known = [plan[name] for name, unit in units.items() if name in plan and plan[name].unit == unit]
    if len(known) < len(units):
        return constant(0.0, "L")
    end, start, boil_off, boiled = (settled(value) for value in known)
    late = (end + boil_off * boiled - start).called("volume of malt extract stirred in late")
    return late if late.number > NO_LATE_EXTRACT_L else constant(0.0, "L")
