"""Lautering as a balance of extract: how strong the first wort is, and what share of the extract leaves the grain.

The wort in the mash is taken to be well mixed: what runs off carries its share of the extract, what the grain keeps
carries the rest. Channels in the grain, and extract that the mash never dissolved, are not in it.
"""

import math
from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import fraction, not_negative, positive
from gristbook.equations.gravity import CONCENTRATION, extract_concentration
from gristbook.equations.registry import equation, published

_CONGRESS = "P = 100 E / (E + 0.998203 V), E = c m"
_ONE_RUN_OFF = "η = V / (V + (a + r) m)"


@equation(
    source=sources.EBC_CONGRESS, where="solved for P; V is all the water, the malt's own with it", formula=_CONGRESS
)
def first_runnings_extract(
    *,
    potential_kg: Annotated[float, "kg", "m", "extract that the grist could give, by its analysis"],
    conversion: Annotated[float, "fraction", "c", "share of it that the mash dissolves"],
    mash_l: Annotated[float, "L", "V", "water in the mash, the malt's own with it, at 20 °C"],
) -> Annotated[float, "°P"]:
    """Extract of the first wort from the grain, before any sparge [°P].

    The water in the malt, 4 % of its weight (common practice), thins it a little: it is part of the water.
    Refuses a negative potential, a conversion outside 0 to 1, or no water.

    >>> first_runnings_extract(potential_kg=0.7565, conversion=1, mash_l=8.0545)  # a congress wort of 8.6 °P
    8.60
    """
    not_negative(potential_kg, "a potential extract")
    fraction(conversion, "a conversion")
    positive(mash_l, "mash water")
    extract_kg = potential_kg * conversion
    return 100 * extract_kg / (extract_kg + 0.998203 * mash_l)


@equation(source=sources.LAVOISIER_1789, formula=f"m = c(SG) V / (1000 e η), {CONCENTRATION}")
def grist_of_one_malt(
    *,
    gravity: Annotated[float, "SG", "SG", "gravity wanted"],
    wort_l: Annotated[float, "L", "V", "wort in the kettle at the end of the boil, as cool wort"],
    potential: Annotated[float, "fraction", "e", "extract that a kilogram could give"],
    efficiency: Annotated[float, "fraction", "η", "share that comes out of the mash"],
) -> Annotated[float, "kg"]:
    """Malt of one kind that brings a wort to a gravity [kg].

    Refuses a malt or a mash that gives nothing, or a negative volume.

    >>> grist_of_one_malt(gravity=1.045, wort_l=21.5, potential=0.768, efficiency=0.72)
    4.541
    """
    not_negative(wort_l, "a volume of wort")
    positive(potential * efficiency, "what a mash gives")
    return extract_concentration(gravity=gravity) * wort_l / (1000 * potential * efficiency)


@equation(
    source=sources.EBC_CONGRESS,
    where="the same water and grain as planned",
    formula="c = c₀ P (100 − P₀) / (P₀ (100 − P))",
)
def conversion_shown(
    *,
    extract: Annotated[float, "°P", "P", "extract of the first wort as measured"],
    planned_extract: Annotated[float, "°P", "P₀", "extract of the first wort as planned"],
    planned_conversion: Annotated[float, "fraction", "c₀", "share of the grist's extract that it was planned by"],
) -> Annotated[float, "fraction"]:
    """Share of its extract that a mash dissolved, by its first wort: `first_runnings_extract` the other way round.

    Above 1 it shows a slip.
    Refuses a wort of no extract, or of nothing else.

    >>> conversion_shown(extract=18, planned_extract=20, planned_conversion=0.95)
    0.834
    """
    positive(extract, "the extract of a wort")
    positive(planned_extract, "the extract of a wort")
    fraction(planned_conversion, "a conversion")
    positive(100 - extract, "the water in a wort")
    positive(100 - planned_extract, "the water in a wort")
    return planned_conversion * extract * (100 - planned_extract) / (planned_extract * (100 - extract))


@published(source=sources.LAVOISIER_1789, where="one run-off from a well-mixed mash", formula=_ONE_RUN_OFF)
def lauter_efficiency_without_sparge(
    *,
    grain_kg: Annotated[float, "kg", "m", "mass of the dry grist"],
    absorption: Annotated[float, "L/kg", "a", "its apparent absorption"],
    room: Annotated[float, "L/kg", "r", "what a kilogram adds to the wort"],
    run_off_l: Annotated[float, "L", "V", "wort that runs off"],
) -> Annotated[float, "fraction"]:
    """Share of the dissolved extract that runs off, when all the water is in the mash [fraction].

    The apparent absorption is water that goes in less wort that comes out: the grain keeps more wort than that, by
    what its extract and its own water have added. Refuses a negative amount, or no wort at all.

    >>> lauter_efficiency_without_sparge(grain_kg=5, absorption=0.7, room=0.516, run_off_l=24)
    0.798
    """
    return 1 - _left_behind(grain_kg, absorption, room, run_off_l)


@published(
    source=sources.LAVOISIER_1789,
    where="run-off by run-off, each from a well-mixed mash",
    formula="η = 1 − Π (a + r) m / ((a + r) m + Vᵢ)",
)
def lauter_efficiency_batch_sparged(
    *,
    grain_kg: Annotated[float, "kg", "m", "mass of the dry grist"],
    absorption: Annotated[float, "L/kg", "a", "its apparent absorption"],
    room: Annotated[float, "L/kg", "r", "what a kilogram adds to the wort"],
    run_offs_l: Annotated[tuple[float, ...], "L", "Vᵢ", "wort of each run-off, in order"],
) -> Annotated[float, "fraction"]:
    """Share of the dissolved extract that runs off in several batches, water stirred in between them [fraction].

    The first is the mash's own run-off. Equal batches wash out most; more than two add little.
    Refuses a negative amount, or no wort at all.

    >>> lauter_efficiency_batch_sparged(grain_kg=5, absorption=1.0, room=0.516, run_offs_l=(12, 12))
    0.850
    """
    if not run_offs_l:
        raise ValueError("a lauter has at least one run-off")
    return 1 - math.prod(_left_behind(grain_kg, absorption, room, run_off_l) for run_off_l in run_offs_l)


def _left_behind(grain_kg: float, absorption: float, room: float, run_off_l: float) -> float:
    """Share of the extract that stays with the grain when this much runs off."""
    not_negative(grain_kg, "a mass of grain")
    not_negative(absorption, "an absorption")
    not_negative(room, "the room of the extract")
    not_negative(run_off_l, "a run-off")
    kept_l = grain_kg * (absorption + room)
    positive(kept_l + run_off_l, "the wort in the mash")
    return kept_l / (kept_l + run_off_l)
