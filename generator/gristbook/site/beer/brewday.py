"""What helps on the day besides the method: the mash, a starter, topping up, and what the instruments show."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.sheet.origin import put_in
from gristbook.sheet.value import Value, lineage
from gristbook.site.beer.mashing import MashView, mash_view
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Sentence, say
from gristbook.targets.results import Pitch, Starter

STEPS = {1: "In one step", 2: "The larger one once more, in a second step"}


@dataclass(frozen=True, slots=True)
class BrewDay:
    """What a brewer looks up on the day; what a beer does not call for is absent.

    ``starters`` are those that one pack could be grown in, each with what it is in words, and whether it is enough.
    """

    mash: MashView | None
    starter: Sentence
    starters: tuple[tuple[Starter, str], ...]
    topping_up: Sentence
    hydrometer: Sentence
    refractometer: Sentence


def brew_day(plan: Plan) -> BrewDay:
    """All that a plan says of the day."""
    pitch = plan.figures.pitch
    grown = pitch if pitch is not None and pitch.starters else None  # dried yeast is not grown first
    return BrewDay(
        mash_view(plan),
        _wanted(grown) if grown else (),
        tuple((it, f"{STEPS[it.steps]}: {_verdict(it, grown.cells)}") for it in grown.starters) if grown else (),
        _topping_up(plan),
        _hydrometer(plan),
        _refractometer(plan),
    )


def _wanted(pitch: Pitch) -> Sentence:
    return say(
        "This wort wants {cells}, which is {packs} as they come. "
        "A pack that has grown in a little wort first goes further:",
        cells=pitch.cells,
        packs=pitch.packs,
    )


def _verdict(starter: Starter, wanted: Value) -> str:
    if starter.standing.number >= wanted.number:
        return "enough"
    return "enough if it is stirred" if starter.stirred.number >= wanted.number else "not enough"


def _hydrometer(plan: Plan) -> Sentence:
    """A hydrometer by the sample's temperature, when all goes to plan."""
    _, reading = plan.figures.readings.hydrometer[0]
    return say(
        "A hydrometer made for {heat} tells the truth at that heat and no other. In wort of {gravity}:",
        heat=next(value for value in put_in(reading.origin) if value.unit == "°C" and "calibration" in value.label),
        gravity=plan.figures.wort.original,
    )


def _refractometer(plan: Plan) -> Sentence:
    """A refractometer before and after fermentation."""
    readings = plan.figures.readings
    return say(
        "A refractometer should show {before} in the wort. In the finished beer it shows {after}, for alcohol bends "
        "light too: that is {final} of final gravity, and not a beer that has stuck. Both go by a wort correction "
        "factor of {factor}; find your own instrument’s by reading one wort both ways.",
        before=readings.refractometer_before,
        after=readings.refractometer_after,
        final=plan.figures.fermentation.final,
        factor=next(value for value in lineage(readings.refractometer_before) if "correction" in value.label),
    )


def _topping_up(plan: Plan) -> Sentence:
    """What cold water does to hot wort, and how cool it must be before; nothing where none goes on."""
    cooling, top_up = plan.figures.cooling, plan.figures.volumes.top_up
    pitch = plan.recipe.pitched_at
    if cooling is None or top_up is None or pitch is None:
        return ()
    ice = cooling.ice
    words = " From the boil, {ice} of clean ice in place of as much of the water does it too."
    return say(
        "If the wort were topped up boiling with {top_up} at {cold}, all of it would stand at {boiling}{judged} "
        "Cool it in its pot first: from {cool} the water brings it to {pitch}, from less to less.{or_ice}",
        top_up=top_up,
        cold=cooling.cold,
        boiling=cooling.if_boiling,
        judged=", far too hot for yeast." if cooling.if_boiling.number > pitch.number + 5 else ".",
        cool=cooling.cool_to,
        pitch=pitch,
        or_ice=say(words, ice=ice) if ice is not None else "",
    )
