"""What takes a beer further down than brewer's yeast does, for weeks or months, and the gas that it may make then."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.equations import brew_day, carbonation
from gristbook.model.batch import Vessel
from gristbook.model.extra import Extra
from gristbook.model.yeast import Yeast
from gristbook.problems import Severity
from gristbook.sheet.value import apply, given
from gristbook.targets.advice.against import Against
from gristbook.targets.advice.gas import MEMORY, beyond
from gristbook.targets.beer.packaging import gas_with
from gristbook.targets.conventions import PRACTICE, WARMEST_STORAGE
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import say, spoken

BONE_DRY = given(1.000, "SG", "gravity where nothing is left to ferment", words=f"{PRACTICE}: 0.998 to 1.002")
DRY_WITHIN = 0.002


def eaten(by: Extra | Yeast, plan: Plan, vessel: Vessel, *, in_beer: bool) -> Iterator[Against]:
    """What takes the beer further down than its plan: the gas, if it is packaged where the plan ends."""
    packaging, final = plan.figures.packaging, plan.figures.fermentation.final
    if packaging is None or final.number <= BONE_DRY.number + DRY_WITHIN:
        return
    left = apply(brew_day.points_above, "gravity that it may still lose", gravity=final, expected=BONE_DRY)
    more = apply(carbonation.gas_from_gravity_points, "gas from what it may still ferment", points=left)
    gas = gas_with(packaging.volumes, more, "gas if it is packaged where the plan ends")
    found = beyond(gas.number, WARMEST_STORAGE.number, vessel, by.place)
    words = say(
        "With {it} this beer may go down to about {driest}, and the plan stops at {final}: packaged there it would "
        "come to {gas} of gas. State the attenuation that you expect with it, in the line of the yeast.",
        it=spoken(by.name),
        driest=BONE_DRY,
        final=final,
        gas=gas,
    )
    severity = found.severity if found and in_beer else Severity.WARNING
    yield Against(severity, by.place, words, ("finished", "bottle"), "It may go on to the driest: wait.", MEMORY)


def left_to_go_dry(by: Yeast) -> Against:
    """A yeast that the plan itself takes to leave nothing: so much is waited for."""
    words = say(
        "With {it} this beer is taken to go down to about {driest}, as it may in months: package it only once it "
        "stands there. If you expect less, state the attenuation in the line of the yeast.",
        it=spoken(by.name),
        driest=BONE_DRY,
    )
    return Against(Severity.WARNING, by.place, words, ("finished", "bottle"), "Package it at the driest only.", MEMORY)
