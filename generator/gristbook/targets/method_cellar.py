"""From hot wort to a pitched beer: sanitise, cool, top up, read, give it air and yeast."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.model.moment import Stage
from gristbook.sheet.value import Value, given, number
from gristbook.targets.conventions import CALIBRATION
from gristbook.targets.figures import Plan
from gristbook.targets.method_step import (
    Draft,
    Sentence,
    at_stage,
    draft,
    listed,
    measured,
    names,
    practice,
    say,
    spoken,
)

COOL_ENOUGH = practice(30.0, "°C", "wort that goes into a fermenter")


def cellar_steps(plan: Plan) -> Iterator[Draft]:
    """The steps from the end of the boil to the yeast."""
    yield sanitised("whatever the wort will touch: fermenter, lid, airlock, tubing, spoon, thermometer and sample jar")
    yield from _cool(plan)
    yield draft(
        "read",
        "Take the original gravity",
        say(
            "Fill the sample jar, bring it to {heat}, and read the hydrometer. The plan is {gravity}, in {wort} of "
            "wort.",
            heat=CALIBRATION,
            gravity=plan.figures.wort.original,
            wort=plan.figures.volumes.into_fermenter,
        ),
        "Write the reading down, and do not pour the sample back.",
        _counted_later(plan),
    )
    yield from _pitch(plan)


def sanitised(what: str) -> Draft:
    """The step before cooled wort or beer is touched."""
    return draft("sanitise", "Sanitise", f"Sanitise {what}. Give it the contact time on the label.")


def pitching_heat(plan: Plan) -> Value:
    """The temperature at which the yeast goes in."""
    if plan.recipe.ferment:
        return plan.recipe.ferment[0].temperature
    yeast = plan.recipe.yeasts[0]
    return given(yeast.coolest_c, "°C", f"the coolest that suits {yeast.name}", words="the pantry", place=yeast.place)


def _cool(plan: Plan) -> Iterator[Draft]:
    volumes, cooling, heat = plan.figures.volumes, plan.figures.cooling, pitching_heat(plan)
    warm = min((cooling.cool_to, COOL_ENOUGH), key=number) if cooling is not None else heat
    yield draft(
        "cool",
        "Cool the wort",
        say("Cool the wort in its pot to {heat}, as fast as you can.", heat=heat)
        if volumes.top_up is None
        else say("Cool the wort in its pot to {heat} or less, as fast as you can.", heat=warm),
        say(
            "Then run it into the fermenter, and leave the last {dregs} behind, dregs and all.",
            dregs=volumes.left_in_kettle,
        ),
        _by_ice(plan),
    )
    if volumes.top_up is not None:
        yield draft(
            "top-up",
            "Top up",
            say(
                "Pour in {water} of the treated cold water, boiled and cooled if you doubt it, to make {batch}.",
                water=volumes.top_up,
                batch=volumes.batch,
            ),
            say("Stir hard, for strong wort lies under water. Cool it on to {heat}.", heat=heat),
        )


def _by_ice(plan: Plan) -> Sentence | str:
    """How to do without a cooler; floating ice stands as high as the water that it melts to."""
    cooling, volumes = plan.figures.cooling, plan.figures.volumes
    if cooling is None or cooling.ice is None or volumes.top_up is None:
        return ""
    return say(
        "Without a cooler, put {ice} of clean ice into the fermenter, fill it with cold water to {water}, and run the "
        "hot wort on to that: it comes to about {heat}, with nothing left to top up.",
        ice=cooling.ice,
        water=volumes.top_up,
        heat=pitching_heat(plan),
    )


def _counted_later(plan: Plan) -> Sentence | str:
    later = [line.sugar.name for line in plan.figures.grist.sugars if line.sugar.into_fermenter]
    if not later:
        return ""
    return say(
        "With the {sugar} that goes in later, the beer counts as {gravity}.",
        sugar=names(later),
        gravity=plan.figures.wort.equivalent_original,
    )


def _pitch(plan: Plan) -> Iterator[Draft]:
    pitch = plan.figures.pitch
    if pitch is None:
        return
    with_it = at_stage(plan.recipe, Stage.YEAST)
    dried = any(line.yeast.dried for line in pitch.yeasts)
    yield draft(
        "pitch",
        "Give it air and yeast",
        say(
            "With the wort at {heat}, splash it or stir it hard for five minutes. Only now does it want air.",
            heat=pitching_heat(plan),
        ),
        say("Add {yeast}.", yeast=listed([_yeast(line.amount, line.yeast.name) for line in pitch.yeasts])),
        "Sprinkle it on, or wet it first, as its packet says." if dried else "Shake each pack before you open it.",
        say("This wort wants about {cells}.", cells=pitch.cells),
        say("Stir in {them} too.", them=listed([measured(extra) for extra in with_it])) if with_it else "",
    )


def _yeast(amount: Value, name: str) -> Sentence:
    called = spoken(name)
    return (amount, f" of {called}" if "yeast" in called.casefold() else f" of {called} yeast")
