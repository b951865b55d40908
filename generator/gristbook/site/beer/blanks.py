"""What there is to write down at a brew of a recipe, each thing beside what is planned; nothing that it has not."""

from collections.abc import Iterator

from gristbook.model.moment import BeforePackaging
from gristbook.sheet.value import Value
from gristbook.site.amounts import amount
from gristbook.targets.conventions import CALIBRATION
from gristbook.targets.figures import Plan
from gristbook.text.begun import Blank

READINGS = "a line each, as - 2026-03-17, 1.018, {cellar}"
COOLED = "; cool the sample first, for hot wort breaks glass"
STABLE = "once two readings, days apart, are the same"
TASTED = "a line each, as - 2026-04-20, soft, a little sweet"


def blanks(plan: Plan, *, us: bool) -> tuple[Blank, ...]:
    """The measurements that a brew of this plan has, in the order of the brew."""
    return (*_hot_side(plan, us), *_cold_side(plan, us))


def afterwards(plan: Plan, *, us: bool) -> tuple[Blank, ...]:
    """What is told of the beer when it is done."""
    packaging = plan.figures.packaging
    days = f"planned {_said(packaging.ready, us)} after the yeast goes in" if packaging else "the day"
    return (Blank("ready", days), Blank("tasted", TASTED))


def _hot_side(plan: Plan, us: bool) -> Iterator[Blank]:
    recipe, figures, volumes = plan.recipe, plan.figures, plan.figures.volumes
    yield Blank("hydrometer", "the temperature that is printed on yours", _said(CALIBRATION, us))
    if figures.mash is not None:
        rests = ", then ".join(_said(step.temperature, us) for step in recipe.mash)
        yield Blank("mash temperature", f"planned {rests}")
        if plan.brewhouse.mash == "sparge":
            yield Blank("first runnings", f"planned {_said(figures.mash.first_runnings, us)}")
    before, after = figures.wort.before_the_boil, figures.wort.after_the_boil
    yield Blank("before the boil", f"planned {_wort(volumes.boil, volumes.boil_hot, before, us)}{COOLED}")
    yield Blank("boiled", f"planned {_said(recipe.boil, us)}")
    yield Blank("end of the boil", f"planned {_wort(volumes.end_of_boil, volumes.end_of_boil_hot, after, us)}")
    yield Blank("left in kettle", f"planned {_said(volumes.left_in_kettle, us)}")
    topped = ", topped up" if volumes.top_up is not None else ""
    yield Blank("into the fermenter", f"planned {_said(volumes.into_fermenter, us)}{topped}")


def _cold_side(plan: Plan, us: bool) -> Iterator[Blank]:
    recipe, figures = plan.recipe, plan.figures
    room = "75 °F" if us else "24 °C"
    yield Blank("original gravity", f"planned {_said(figures.wort.original, us)}, and how warm: 1.041 at {room}")
    if recipe.pitched_at:
        yield Blank("pitched", f"planned {_said(recipe.pitched_at, us)}")
    yield Blank("readings", READINGS.format(cellar="66 °F" if us else "19 °C"))
    dry = [hop.use.days for hop in recipe.hops if isinstance(hop.use, BeforePackaging)]
    if dry:
        longest = max(dry, key=lambda days: days.number)
        yield Blank("dry hopped", f"planned {_said(longest, us)} before it is packaged; the day")
    yield Blank("final gravity", f"planned {_said(figures.fermentation.final, us)}, {STABLE}")
    yield Blank("left in fermenter", f"planned {_said(plan.brewhouse.left_in_fermenter, us)}")
    packaging, packaged = figures.packaging, _said(figures.volumes.packaged, us)
    sugar = packaging.sugar if packaging else None
    with_sugar = f", {_said(sugar, us)} {_sugar(plan)}, bottles" if sugar else ", keg" if packaging else ""
    yield Blank("packaged", f"planned {packaged}{with_sugar}; the day first")
    yield Blank("warmest storage", "the warmest that it will be kept")


def _sugar(plan: Plan) -> str:
    carbonation = plan.recipe.carbonation
    return carbonation.sugar.called if carbonation and carbonation.sugar else ""


def _wort(cool: Value, hot: Value, gravity: Value, us: bool) -> str:
    return f"{_said(cool, us)} cool, {_said(hot, us)} hot, at {_said(gravity, us)}"


def _said(value: Value, us: bool) -> str:
    """A figure in one system of units."""
    shown = amount(value)
    return (shown.us if us and shown.us else shown.metric).replace("\N{NO-BREAK SPACE}", " ")
