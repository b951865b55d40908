"""Whatever goes in is told in the method at its moment, and an edition without that moment says what became of it."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.model.moment import Stage
from gristbook.sheet.value import Value
from gristbook.targets.editions.swap import as_extract, as_grain
from gristbook.targets.method.whole import steps
from gristbook.text.stand_ins import base_malt, base_mash, malt_extracts

BREW = """---
title: A trial
batch: 20 L
malts:
  - 4 kg pale ale malt
  - 200 g caramel malt 60, steep 30 min at 68 °C
hops:
  - 30 g Fuggle, 4.5 %, 60 min
finings and spices:
  - 3 g coriander seed, {moment}
yeast:
  - 11 g irish ale yeast, dried
mash:
  - 67 °C, 60 min
ferment:
  - 18 °C, 10 days
carbonation: 2.2 volumes, keg
---
"""
EXTRACT = BREW.replace(
    "malts:\n  - 4 kg pale ale malt\n", "extracts:\n  - 3 kg light dried malt extract\nmalts:\n"
).replace("mash:\n  - 67 °C, 60 min\n", "")


@pytest.mark.parametrize(
    ("moment", "kind"),
    [
        ("in the mash", "mash"),
        ("in the steep", "steep"),
        ("in the kettle", "hops"),
        ("5 min", "addition"),
        ("0 min", "addition"),
        ("with the yeast", "pitch"),
        ("into the fermenter", "feed"),
        ("3 days", "feed"),
        ("after fermentation", "feed"),
        ("at packaging", "keg"),
    ],
)
def test_whatever_goes_in_is_told_once_in_the_method_at_its_moment(
    moment: str, kind: str, plan_of: Callable[..., Any]
) -> None:
    plan = plan_of(BREW.format(moment=moment)).plan
    assert plan is not None
    told = [
        step.kind
        for step in steps(plan)
        for sentence in step.sentences
        if "coriander" in "".join(part for part in sentence if not isinstance(part, Value))
    ]
    assert told == [kind]


def test_what_goes_into_a_mash_is_left_out_where_there_is_none_and_the_edition_says_so(
    plan_of: Callable[..., Any],
) -> None:
    plan = plan_of(BREW.format(moment="in the mash")).plan
    swapped = as_extract(plan, plan.brewhouse, plan.recipe.batch, malt_extracts())
    assert swapped.recipe.mash == ()
    assert swapped.recipe.extras == ()
    assert "Left out, since it goes into the mash: coriander seed." in swapped.notes


def test_what_was_steeped_is_mashed_in_an_edition_of_whole_grain(plan_of: Callable[..., Any]) -> None:
    plan = plan_of(EXTRACT.format(moment="in the steep")).plan
    assert plan is not None
    swapped = as_grain(plan, base_malt(), base_mash())
    assert [extra.moment for extra in swapped.recipe.extras] == [Stage.MASH]
