"""The page for the day of a brew, as it is before its script."""

from __future__ import annotations

from pathlib import Path

import pytest
import the_demo

from gristbook import cli
from gristbook.targets.method.whole import steps

PAGES = ("quillmere-best/day.html", "quillmere-best/10-l-in-stove-day.html", "tuesday-tin/day.html")


@pytest.mark.parametrize("path", PAGES)
def test_a_step_has_one_caution_in_sight_and_folds_none_that_kills_or_burns(demo, path: str) -> None:  # type: ignore[no-untyped-def]
    page, slug = demo.pages[path], path.partition("/")[0]
    plan = the_demo.plans()[slug]
    if path.endswith("stove-day.html"):
        plan = next(it.plan for it in the_demo.made(slug) if it.edition.slug == "10-l-in-stove")
    told, leaves = steps(plan), page.select("li.leaf")
    assert len(leaves) == len(told)
    for leaf, step in zip(leaves, told, strict=True):
        assert len(leaf.select(":scope > .caution")) == any(rank != "day" for rank in step.ranks)
        assert len(leaf.select("details.more-care")) <= 1
        folded = " ".join(it.get_text() for it in leaf.select("details.more-care"))
        for caution, rank in zip(step.cautions, step.ranks, strict=True):
            words = str(caution[-1]).replace("'", "’")
            seen = words in leaf.select_one(":scope > .caution").get_text() if rank == "grave" else True
            assert seen, words
            assert rank != "grave" or words not in folded
            assert rank != "day" or words not in leaf.get_text()
    start = page.find(id="start").get_text()
    for word in ("carbon monoxide", "residual-current", "scald"):
        assert word in start


def test_a_case_of_the_table_is_what_adjust_says_of_the_same_reading(demo, capsys) -> None:  # type: ignore[no-untyped-def]
    page = demo.pages["quillmere-best/day.html"]
    table, said = page.select_one(".cases[data-step='before the boil']"), 0
    columns = [column["data-cool"] for column in table.select("thead th")[1:]]
    for row in table.select("tbody tr")[:3]:
        for litres, cell in zip(columns, row.select("td"), strict=True):
            wort = f"{litres} L at {row['data-gravity']}, before the boil"
            recipe = Path(the_demo.DEMO, "quillmere-best.md")
            assert cli.main(["adjust", str(recipe), "--measured", wort]) == cli.FINE
            out = capsys.readouterr().out
            for amount in cell.select(".amount"):
                metric = (amount.select_one(".metric") or amount).get_text()
                assert metric.replace("\N{NO-BREAK SPACE}", " ") in out.replace("\N{NO-BREAK SPACE}", " ")
                said += 1
    assert said >= 9


def test_all_that_a_batch_keeps_of_a_brew_is_asked_for_once(demo) -> None:  # type: ignore[no-untyped-def]
    fields = [it["data-field"] for it in demo.pages["quillmere-best/day.html"].select("#measured [data-field]")]
    assert len(fields) == len(set(fields))
    assert {"brewed", "before the boil", "original gravity", "readings", "packaged", "tasted"} <= set(fields)
