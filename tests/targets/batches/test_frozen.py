"""What a batch keeps of its plan: all that tells later what its readings mean, in units that can be read."""

from __future__ import annotations

import pytest

from gristbook.model.figures import FIGURES
from gristbook.targets.batches import frozen
from gristbook.targets.batches.frozen import frozen_plan, late_volume
from gristbook.text.batch_vocabulary import PLAN_UNITS

KEPT = {
    frozen.POTENTIAL: "kg",
    frozen.BESIDES_BEFORE: "kg",
    frozen.BESIDES_AT_END: "kg",
    frozen.IN_THE_FERMENTER: "kg",
    frozen.BOILING_POINT: "°C",
    frozen.BOIL_OFF: "L/h",
    frozen.BOILED: "min",
    frozen.LEFT_IN_KETTLE: "L",
    frozen.LEFT_IN_FERMENTER: "L",
    frozen.ATTENUATION: "fraction",
    frozen.WARMEST: "°C",
}


def test_a_frozen_plan_has_its_named_figures_and_what_readings_need(desk) -> None:  # type: ignore[no-untyped-def]
    kept = frozen_plan(desk.plan)
    assert {name: value for name, value in kept.items() if name in desk.plan.named} == dict(desk.plan.named)
    assert {name: kept[name].unit for name in KEPT} == KEPT
    assert not set(KEPT) & {row.id for row in FIGURES}


def test_every_unit_of_a_frozen_plan_can_be_written_down(desk) -> None:  # type: ignore[no-untyped-def]
    assert {value.unit for value in frozen_plan(desk.plan).values()} <= set(PLAN_UNITS)


def test_the_potential_is_that_of_the_mashed_grain(desk) -> None:  # type: ignore[no-untyped-def]
    """3.6 kg of pale ale malt, 81.5 % of the dry and 3 % water; 200 g of caramel malt, by the pantry's figures."""
    (pale, caramel) = desk.plan.recipe.malts
    by_hand = 3.6 * 0.815 * 0.97 + 0.2 * caramel.extract_dry.number * (1 - caramel.moisture.number)
    assert frozen_plan(desk.plan)[frozen.POTENTIAL].number == pytest.approx(by_hand, rel=1e-12)
    assert pale.name == "Pale ale malt"


def test_extract_that_joins_late_is_told_apart_and_its_volume_is_found_again(desk) -> None:  # type: ignore[no-untyped-def]
    """A kilogram of dried malt extract ten minutes before the end adds 0.63 L."""
    recipe = desk.folder / "bitter.md"
    late = recipe.read_text("utf-8").replace("hops:", "extracts:\n  - 1 kg light dried malt extract, 10 min\nhops:", 1)
    recipe.write_text(late, "utf-8")
    kept = frozen_plan(desk.plans()[0])
    assert kept[frozen.BESIDES_BEFORE].number == 0
    assert 0.9 < kept[frozen.BESIDES_AT_END].number < 1.0
    volume = late_volume(kept)
    assert abs(volume.number - 0.63) < 1e-9
    assert late_volume(frozen_plan(desk.plan)).number == 0.0
    assert late_volume({}).number == 0.0
