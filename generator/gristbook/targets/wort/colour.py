"""The beer's colour: what the grist brings to the kettle, thinned by the top-up, by each model that covers it."""

from __future__ import annotations

from gristbook.equations import colour as equations
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply, chosen
from gristbook.targets.conventions import within
from gristbook.targets.models import COLOUR, covers
from gristbook.targets.results import Colour, Grist, Volumes
from gristbook.targets.wort.grist import as_weighed, malt_colour
from gristbook.targets.wort.volumes import thinned


def colour(grist: Grist, volumes: Volumes, model: str) -> Colour:
    """SRM and EBC; steeped grain and sugars colour in full, sugar into the fermenter over the whole batch."""
    kettle = [(as_weighed(line.mass, line.malt), line.colour) for line in grist.malts]
    later: list[tuple[Value, Value]] = []
    for line in grist.sugars:
        mass = as_weighed(line.mass, line.sugar)
        (later if line.sugar.into_fermenter else kettle).append((mass, malt_colour(line.sugar.colour)))
    in_kettle = _units(kettle, volumes.end_of_boil, "malt colour in the kettle")
    units = thinned(in_kettle, volumes, "malt colour of the beer")
    if later:
        units = sum_of(
            (units, _units(later, volumes.fermenting, "malt colour of the late sugar")), "malt colour of the beer"
        )
    after = {
        name: within(apply(equation, f"colour after {name.title()}", colour=units), ABOUT_THE_MODEL)
        for name, equation in COLOUR.items()
        if name == model or covers(name, units.number)
    }
    srm = chosen("colour model", model, after).called("colour")
    return Colour(units, srm, apply(equations.ebc_from_srm, "colour, EBC", colour=srm), tuple(after.items()))


ABOUT_THE_MODEL = {"what is about each model of colour": "about a colour model"}


def _units(lines: list[tuple[Value, Value]], wort_l: Value, label: str) -> Value:
    return apply(
        equations.malt_colour_units,
        label,
        masses_kg=tuple(mass for mass, _ in lines),
        colours=tuple(lovibond for _, lovibond in lines),
        wort_l=wort_l,
    )
