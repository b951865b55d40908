"""The steps of a recipe back to lines: the mash, the sparge, the ferment and the carbonation."""

from gristbook.model.packing import Carbonation
from gristbook.model.steps import FermentStep, MashStep, Sparge
from gristbook.text.saying import Say, in_line, noted, with_doubt


def mash_line(step: MashStep, say: Say, *, first: bool) -> str:
    """A rest of the mash."""
    poured = say(step.water) if step.water and (first or step.hot is None) else ""
    hot = f"strike at {say(step.hot)}" if step.hot and first else ""
    if step.hot and not first:
        hot = f"infusion {say(step.water) if step.water else 'water'} at {say(step.hot)}"
    way = step.way if step.way != "infusion" else ""
    heat = "" if step.by_water else with_doubt(step.temperature, say)
    return in_line(step.role or "", heat, say(step.minutes), poured, hot, way, noted(step.note))


def sparge_line(sparge: Sparge, say: Say) -> str:
    """What is said of the sparge."""
    water = f" with {say(sparge.water)}" if sparge.water else ""
    heat = f" at {say(sparge.temperature)}" if sparge.temperature else ""
    return in_line(f"{sparge.way} sparge{water}{heat}".strip(), noted(sparge.note))


def ferment_line(step: FermentStep, say: Say) -> str:
    """A step of the ferment."""
    both = f"{say(step.temperature)} to {say(step.end)}" if step.end else say(step.temperature)
    ramp = step.way == "ramp"
    return in_line(
        step.called,
        step.way if step.way == "free rise" else "",
        f"from {both}" if ramp else both,
        f"over {say(step.days)}" if ramp else say(step.days),
        f"under pressure {say(step.pressure)}" if step.pressure else "",
        f"pitch at {say(step.pitched)}" if step.pitched else "",
        noted(step.note),
    )


def carbonation_line(carbonation: Carbonation, say: Say) -> str:
    """The gas, and how it comes there."""
    sugar, dose, drops = carbonation.sugar, carbonation.dose, carbonation.drops
    amount = f"{say(dose)}" if dose and not drops else ""
    each = f"{say(drops.each)} per {say(drops.bottle)} bottle" if drops else ""
    return in_line(
        "" if carbonation.by_dose or carbonation.pressure else say(carbonation.volumes),
        say(carbonation.pressure) if carbonation.pressure else "",
        f"primed with {sugar.called}" if sugar and not carbonation.unsaid else "",
        amount,
        each,
        carbonation.vessel if carbonation.vessel != "bottles" else "",
        say(carbonation.served) if carbonation.served else "",
        noted(carbonation.note),
    )
