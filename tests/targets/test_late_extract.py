"""A grist of percentages in a bag, some of it malt extract stirred in late: all that goes by the load agrees."""

from __future__ import annotations

from dataclasses import replace

import pytest
from made_up import BASES, brewhouse, malt, recipe, sugar, value

from gristbook.model.moment import Stage
from gristbook.sheet.value import number
from gristbook.targets.chain import work_out

BAG = brewhouse("bag", 20, "bag", efficiency=None, absorption=0.7)
SHARES = replace(
    recipe(
        20,
        60,
        (malt("Pale malt", BASES["Pale malt"], None, share=0.7),),
        (sugar("Dried extract", None, share=0.3, from_malt=True, minutes=10),),
    ),
    original_gravity=value(1.065, "SG", "original gravity"),
)


def test_weighed_by_shares_it_is_the_beer_that_its_weights_make() -> None:
    solved = work_out(SHARES, BAG, "tinseth 1997", "morey 1995")
    lines = solved.grist
    weighed = replace(
        SHARES,
        original_gravity=None,
        malts=tuple(line.malt.weighing(line.mass) for line in lines.malts),
        sugars=tuple(line.sugar.weighing(line.mass) for line in lines.sugars),
    )
    found = work_out(weighed, BAG, "tinseth 1997", "morey 1995")
    assert number(found.wort.original) == pytest.approx(1.065, abs=1e-6)
    assert number(found.wort.mash_efficiency or 0.0) == pytest.approx(
        number(solved.wort.mash_efficiency or 0.0), rel=1e-6
    )


def test_what_extract_takes_of_the_wort_has_not_washed_the_grain_early_or_late() -> None:
    # Dried extract takes 0.63 L/kg, at the start or at the end: as much less wort runs off the grain.
    late = work_out(SHARES, BAG, "tinseth 1997", "morey 1995")
    early = replace(SHARES, sugars=tuple(replace(line, moment=Stage.KETTLE) for line in SHARES.sugars))
    boiled = work_out(early, BAG, "tinseth 1997", "morey 1995")
    extract_kg = number(late.grist.sugars[0].mass)
    assert boiled.volumes.boil.number - late.volumes.boil.number == pytest.approx(0.63 * extract_kg, rel=1e-6)
    assert number(late.wort.mash_efficiency or 0.0) == pytest.approx(
        number(boiled.wort.mash_efficiency or 0.0), rel=1e-6
    )
