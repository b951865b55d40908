"""The work of a long book's pages grows as the book does, counted in steps and not in seconds."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import pytest

from gristbook.sheet.value import lineage
from gristbook.site.beer.brews import beer_of
from gristbook.site.brew import brewhouses_page
from gristbook.site.brew.batches import journal
from gristbook.site.shelf import sources_page
from gristbook.site.working import walk


@pytest.fixture
def counted(monkeypatch: pytest.MonkeyPatch) -> Callable[[object, str], list[object]]:
    """What a function of a module has been asked for, or has given one by one."""

    def counting(module: object, name: str) -> list[object]:
        own, seen = getattr(module, name), list[object]()

        def watched(*given: Any, **more: Any) -> Any:
            found = own(*given, **more)
            if not isinstance(found, Iterator):
                seen.append(found)
                return found
            return (seen.append(it) or it for it in found)  # type: ignore[func-returns-value]

        monkeypatch.setattr(module, name, watched)
        return seen

    return counting


def test_a_plans_lineage_is_walked_once_for_its_working(demo, counted) -> None:  # type: ignore[no-untyped-def]
    plan = demo.plan("quillmere-best")
    walked = counted(walk, "lineage")
    beer = beer_of(plan, replace(demo.book, editions=()))
    values = [value for value, _ in beer.home.workings.page[1][0].anchors.values()]
    assert len(walked) < 2 * len(list(lineage(*values)))


def test_what_rests_on_a_source_is_found_in_one_walk_of_a_plan(demo, counted) -> None:  # type: ignore[no-untyped-def]
    plan = demo.plan("quillmere-best")
    walked = counted(sources_page, "lineage")
    found = sources_page._figures_by_source(plan)
    assert "original gravity" in {name for names in found.values() for name in names}
    assert len(walked) == len(set(map(id, walked)))


def test_a_chart_of_lessons_learns_no_more_often_than_it_shows_a_stage(brews, counted) -> None:  # type: ignore[no-untyped-def]
    taught = next(it for it in brews.done.lessons.learned if it.readings)
    by_file = {
        it.figures.batch.place.path: it for it in journal(brews.book, brews.done.batches, brews.done.lessons).batches
    }
    learned = counted(brewhouses_page, "so_far")
    for many in (1, 3, 40):
        learned.clear()
        stages = list(brewhouses_page._stages(replace(taught, readings=taught.readings[:1] * many), by_file))
        assert len(stages) == min(many + 1, brewhouses_page.MOST_STAGES)
        assert len(learned) == min(many, brewhouses_page.MOST_STAGES)
