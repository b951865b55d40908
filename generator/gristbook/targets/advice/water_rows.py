"""The rows of advice on water: its salts, the pH of the mash and what mends it, acid that is tasted."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf

from gristbook.problems import Place
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value
from gristbook.targets.advice.advice import Row, Span
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Sentence, say
from gristbook.targets.water.mash_acid import LACTIC
from gristbook.targets.water.rows import HIGHEST_PH, LACTIC_STRENGTH, LACTIC_TASTE, LOWEST_PH, PHOSPHORIC_STRENGTH

SALTY: Mapping[str, float] = {"sodium": 150.0, "chloride": 250.0, "sulfate": 400.0, "magnesium": 40.0}
"""From so many mg/L on a beer tastes of it (common practice, no source)."""
LEEWAY = 0.15
"""So far beyond what is usual, the pH of a mash is a little high or low (our own: nobody can tell it any better)."""

LITTLE_ML = 2.0
"""Lactic acid below which a half of it can no longer be measured (our own)."""


def _saltiest(plan: Plan) -> tuple[str, Value] | None:
    """The ion that lies highest against what is tasted."""
    water = plan.figures.chemistry
    found = ((ion, getattr(water.treated, ion)) for ion in SALTY) if water is not None else ()
    known = [(ion, value) for ion, value in found if value is not None]
    return max(known, key=lambda it: it[1].number / SALTY[it[0]], default=None)


def _ion(plan: Plan) -> Value | None:
    found = _saltiest(plan)
    return found[1] if found else None


def _tasted(plan: Plan) -> Span | None:
    found = _saltiest(plan)
    return (-inf, SALTY[found[0]]) if found else None


def _calcium(plan: Plan) -> Value | None:
    water = plan.figures.chemistry
    return water.mash.calcium if water is not None and water.mash is not None else None


def _lactic(plan: Plan) -> Value | None:
    """All the lactic acid that is written, for a litre of the batch."""
    uses = [use.volume for use in plan.recipe.water.acids if use.formula == LACTIC]
    if not uses:
        return None
    written = uses[0] if len(uses) == 1 else sum_of(uses, "all the lactic acid")
    return (written / plan.figures.volumes.batch).called("lactic acid in a litre", metric=True)


def _line(plan: Plan) -> Place | None:
    """The line of an acid, of another water or salt, of the water, or else of the mash."""
    water, own = plan.recipe.water, plan.recipe.place.path
    lines = [*water.acids, *water.dilutions, *water.salts, *((water.source,) if water.source else ())]
    places = [*(line.place for line in lines), *(rest.place for rest in plan.recipe.mash)]
    return next((place for place in places if place.path == own), None)


def mend(plan: Plan) -> Sentence:
    """The smallest amount that brings the mash to what is usual; phosphoric acid where the lactic would be tasted."""
    water = plan.figures.chemistry
    if water is None or water.mend is None:
        return ()
    by = water.mend
    if by.soda is not None:
        words = "{soda} of baking soda in the mash bring it to {lowest}, or stir the dark malt in late."
        return say(words, soda=by.soda, lowest=LOWEST_PH)
    if by.less is not None:
        words = "{less} less of its acid, told as lactic acid of {strength}, bring it to {lowest}."
        return say(words, less=by.less, strength=LACTIC_STRENGTH, lowest=LOWEST_PH)
    assert by.lactic is not None, "a mash that is not too low is too high"
    assert by.phosphoric is not None, "a mash that is not too low is too high"
    written = water.poured.number if water.poured is not None else 0.0
    words = "{acid} of lactic acid of {strength} in the mash bring it to {highest}: " + (
        "half of it first, then a cooled sample."
        if by.lactic.number >= LITTLE_ML
        else "too little to matter, or to measure unless it is thinned with nine times as much water."
    )
    strength, acid = LACTIC_STRENGTH, by.lactic
    if by.lactic.number + written > LACTIC_TASTE.number * plan.figures.volumes.batch.number:
        words = (
            "So much lactic acid would be tasted. {acid} of phosphoric acid of {strength} in the mash bring it to "
            "{highest} and taste of nothing: half of it first, then a cooled sample. Or take distilled water for some."
        )
        strength, acid = PHOSPHORIC_STRENGTH, by.phosphoric
    return say(words, acid=acid, strength=strength, highest=HIGHEST_PH)


WATER: tuple[Row, ...] = (
    Row(
        "taste of the water",
        _ion,
        _tasted,
        "",
        "The beer would taste of what is in the water ({what}).",
        "Buy drinking water for this one, or stretch it with distilled water.",
        where=_line,
    ),
    Row(
        "mash pH",
        lambda plan: plan.sheet.get("mash-ph"),
        (LOWEST_PH.number, HIGHEST_PH.number),
        "The water is soft for this beer, and the pH of its mash too low.",
        "The water is hard for this beer, and the pH of its mash too high.",
        "A mash that lacks acid draws harshness out of the husks, and one that has too much tastes sharp and thin.",
        "read: MBAA, document 155, in summary: 5.2 to 5.6 in a cooled sample",
        leeway=LEEWAY,
        a_little=(
            "The pH of the mash is a little low, worth a measurement.",
            "The pH of the mash is a little high, worth a measurement.",
        ),
        where=_line,
        mend=mend,
    ),
    Row(
        "calcium",
        _calcium,
        (10.0, inf),
        "There is next to no calcium in the water, and nothing that takes up the acid of dark malt.",
        "",
        "Calcium lets a mash come down, a yeast settle and a beer clear: some gypsum or calcium chloride brings it.",
        "common practice, no source: 50 to 100 mg/L do a mash good, and tap water has 10 at the least",
        where=_line,
    ),
    Row(
        "taste of lactic acid",
        _lactic,
        (-inf, LACTIC_TASTE.number),
        "",
        "So much lactic acid is tasted.",
        "Past 0.4 mL in a litre or so it makes a beer tart: phosphoric acid does the same and tastes of nothing.",
        where=_line,
    ),
)
