"""What changed in a recipe since it was brewed."""

from __future__ import annotations

from dataclasses import replace

from gristbook.targets.batches.differences import differences
from gristbook.targets.batches.results import Difference

THEN = (("batch", ("20 L",)), ("malts", ("3.6 kg pale ale malt", "200 g caramel malt 60")), ("boil", ("60 min",)))


def batch_with(desk, sections):  # type: ignore[no-untyped-def]
    batch = desk.batch({})
    return replace(batch, frozen=replace(batch.frozen, sections=sections))


def test_the_same_recipe_has_no_differences(desk) -> None:  # type: ignore[no-untyped-def]
    assert differences(batch_with(desk, THEN), THEN) == ()


def test_only_lines_that_changed_are_told_side_by_side(desk) -> None:  # type: ignore[no-untyped-def]
    now = (
        ("batch", ("20 L",)),
        ("malts", ("3.8 kg pale ale malt", "200 g caramel malt 60", "50 g roasted barley")),
        ("mash", ("67 °C, 60 min",)),
    )
    assert differences(batch_with(desk, THEN), now) == (
        Difference("malts", "3.6 kg pale ale malt", "3.8 kg pale ale malt"),
        Difference("malts", "", "50 g roasted barley"),
        Difference("boil", "60 min", ""),
        Difference("mash", "", "67 °C, 60 min"),
    )


def test_the_differences_move_with_the_recipe_and_the_figures_do_not(desk, measured) -> None:  # type: ignore[no-untyped-def]
    from gristbook.targets.batches.work_out import work_out_batch

    batch = desk.batch(measured)
    before, figures = differences(batch, THEN), work_out_batch(batch)
    assert differences(batch, THEN[:1]) != before
    assert work_out_batch(batch) == figures
