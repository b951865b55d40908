"""The ways of the wort out of the grain, and a look at it: a tap and a sparge, or a bag that is lifted."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.model.moment import FirstWort
from gristbook.model.recipe import Recipe, Sugar
from gristbook.sheet.value import Value
from gristbook.targets.conventions import CALIBRATION, practice
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Draft, Sentence, draft, listed, weighed
from gristbook.targets.method.water import stirred_in
from gristbook.targets.wort.volumes import joins_late

SPARGE_C = practice(76.0, "°C", "sparge water")
DRAINING = practice(15.0, "min", "time for a bag to drain")


def sparge_heat(plan: Plan) -> Value:
    """How hot the sparge water is: as the recipe says, else as usual."""
    return (plan.recipe.sparge and plan.recipe.sparge.temperature) or SPARGE_C


def run_off(plan: Plan, spare: Value | None) -> Iterator[Draft]:
    """Out of a tun; ``spare`` is the water to sparge with."""
    if spare is not None:
        yield draft(
            "heat",
            "Heat the sparge water",
            "While the mash still rests, heat {water} of the water to {heat}.",
            "Stir {them} into it.",
            water=spare,
            heat=sparge_heat(plan),
            them=stirred_in(plan, "sparge"),
        )
    yield draft(
        "sparge",
        "Run off the wort",
        "Put {hops} into the empty kettle, for the first wort to run on to.",
        "Open the tap a crack, and pour the first cloudy jugfuls gently back on top.",
        "Then let the wort run slowly into the kettle.",
        "Stir {them} into it.",
        hops=first_wort_hops(plan),
        them=stirred_in(plan, "sparge") if spare is None else None,
    )
    if spare is not None:
        yield draft(
            "sparge",
            f"{plan.recipe.sparge.way.capitalize()} sparge"
            if plan.recipe.sparge and plan.recipe.sparge.way
            else "Sparge",
            "When the wort has sunk to the top of the grain, pour the hot water over, little by little, until all of "
            "it has run through.",
        )


def drain(plan: Plan, spare: Value | None, *, small: bool) -> Iterator[Draft]:
    """Out of a bag; ``spare`` is water to rinse it with. A ``small`` mash is in a pot of its own."""
    yield draft(
        "drain",
        "Lift and drain the bag",
        "Raise the bag, hang it over the pot, and let it drain for {time}. Do not wring it.",
        "Rinse it with {water} of the water, at {heat}.",
        "Stir {them} into the wort.",
        "Pour all of this wort into the kettle, unless it was mashed there." if small else "",
        time=DRAINING,
        water=spare,
        heat=sparge_heat(plan),
        them=stirred_in(plan, "sparge"),
    )


def check(plan: Plan) -> Draft:
    """What the kettle holds, before anything is stirred in; its gravity only where nothing is."""
    volumes, wort = plan.figures.volumes, plan.figures.wort
    sweetened = any(joins_early(sugar, plan.recipe) for sugar in plan.recipe.sugars)
    return draft(
        "check",
        "Check the wort",
        "Stir the kettle. It should hold {cool} measured cool, or {hot} as it boils.",
        "A sample, cooled to {heat}, should read {gravity}.",
        cool=volumes.boil,
        hot=volumes.boil_hot,
        heat=CALIBRATION,
        gravity=wort.before_the_boil if not sweetened else None,
    )


def first_wort_hops(plan: Plan) -> Sentence:
    """The hops that are in the kettle before the boil, with their weights."""
    hops = plan.figures.bitterness.hops
    return listed([weighed(line.mass, line.hop.name) for line in hops if isinstance(line.hop.use, FirstWort)])


def joins_early(sugar: Sugar, recipe: Recipe) -> bool:
    """Whether a sugar or an extract is in the kettle when the boil begins."""
    return not sugar.into_fermenter and not joins_late(sugar, recipe)
