"""From hot wort to a pitched beer: sanitise, cool, top up, read, give it air and yeast."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.model.moment import Stage
from gristbook.sheet.value import Value, given, number
from gristbook.targets.beer.pitching import first
from gristbook.targets.conventions import CALIBRATION, practice
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import (
    Draft,
    at_stage,
    draft,
    listed,
    measured,
    names,
    of_yeast,
    weighed,
)

COOL_ENOUGH = practice(30.0, "°C", "wort that goes into a fermenter")


def cellar_steps(plan: Plan) -> Iterator[Draft]:
    """The steps from the end of the boil to the yeast."""
    yield draft(
        "sanitise",
        "Sanitise",
        "Sanitise whatever the wort will touch: fermenter, lid, airlock, tubing, spoon, thermometer and sample jar.",
        "Give it the contact time on the label, now and each time that you sanitise.",
    )
    yield from _cool(plan)
    yield draft(
        "read",
        "Take the original gravity",
        "Fill the sample jar, bring it to {heat}, and read the hydrometer. The plan is {gravity}, in {wort} of wort.",
        "Write the reading down, and do not pour the sample back.",
        "With the {sugar} to come later, the beer counts as {later}.",
        heat=CALIBRATION,
        gravity=plan.figures.wort.original,
        wort=plan.figures.volumes.into_fermenter,
        sugar=names(it.sugar.name for it in plan.figures.grist.sugars if it.sugar.into_fermenter) or None,
        later=plan.figures.wort.equivalent_original,
    )
    yield from _pitch(plan)


def sanitised(what: str) -> Draft:
    """The step before cooled wort or beer is touched."""
    return draft("sanitise", "Sanitise", "Sanitise {what}.", what=what)


def pitching_heat(plan: Plan) -> Value:
    """The temperature at which the yeast goes in."""
    if (pitched := plan.recipe.pitched_at) is not None:
        return pitched
    yeast = plan.recipe.pitched[0]
    return given(yeast.coolest_c, "°C", f"the coolest that suits {yeast.name}", words="the pantry", place=yeast.place)


def _cool(plan: Plan) -> Iterator[Draft]:
    volumes, cooling, heat = plan.figures.volumes, plan.figures.cooling, pitching_heat(plan)
    warm = min((cooling.cool_to, COOL_ENOUGH), key=number) if cooling is not None else heat
    yield draft(
        "cool",
        "Cool the wort",
        "Cool the wort in its pot to {warm}{less}, as fast as you can.",
        "Then run it into the fermenter, and leave the last {dregs} behind, dregs and all.",
        # Floating ice stands as high as the water that it melts to.
        "Without a cooler, put {ice} of clean ice into the fermenter, fill it with cold water to {water}, and run the "
        "hot wort on to that: it comes to about {heat}, with nothing left to top up.",
        warm=warm,
        less="" if volumes.top_up is None else " or less",
        dregs=volumes.left_in_kettle,
        ice=cooling.ice if cooling is not None else None,
        water=volumes.top_up,
        heat=heat,
    )
    if volumes.top_up is not None:
        yield draft(
            "top-up",
            "Top up",
            "Pour in {water} of the treated cold water, boiled and cooled if you doubt it, to make {batch}.",
            "Stir hard, for strong wort lies under water. Bring it to {heat}.",
            water=volumes.top_up,
            batch=volumes.batch,
            heat=heat,
        )


def _pitch(plan: Plan) -> Iterator[Draft]:
    pitch = plan.figures.pitch
    if pitch is None:
        return
    dried = any(line.yeast.dried for line in first(pitch))
    yield draft(
        "pitch",
        "Give it air and yeast",
        "With the wort at {heat}, splash it or stir it hard for five minutes. Only now does it want air.",
        "Add {yeast}.",
        "Sprinkle it on, or wet it first, as its packet says." if dried else "Shake each pack before you open it.",
        "This wort wants about {cells}.",
        "Stir in {them} too.",
        heat=pitching_heat(plan),
        yeast=listed([of_yeast(line) for line in first(pitch)]),
        cells=pitch.cells,
        them=listed(
            [
                *(
                    weighed(it.mass, it.sugar.name)
                    for it in plan.figures.grist.sugars
                    if it.sugar.moment is Stage.YEAST
                ),
                *(measured(extra) for extra in at_stage(plan.recipe, Stage.YEAST)),
            ]
        ),
    )
