"""What a figure goes by: the id never moves, whatever the words become and in whatever order lines stand."""

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from gristbook.model import figures
from gristbook.model.figures import FIGURES, KEPT, Figure, known, words_of
from gristbook.problems import Place, Problems
from gristbook.reading.tree import Table, Text
from gristbook.sheet.value import Value
from gristbook.targets.figures import PATHS
from gristbook.text.batch_lines import read_plan

RECIPE = """\
---
title: Two of a name
batch: 20 L
malts:
  - 4 kg pale ale malt
hops:
{hops}
yeast: 11 g English ale, attenuative
mash: 67 °C, 60 min
carbonation: still
expect:
  original gravity: 1.045 ± 0.02
---
"""
HOPS = (
    "  - 20 g Fuggle, 4.5 % alpha, 60 min",
    "  - 15 g East Kent Golding, 5 % alpha, 20 min",
    "  - 10 g Fuggle, 4.5 % alpha, 5 min",
)


def sheet(plan_of: Callable[..., Any], *hops: str) -> dict[str, Value]:
    outcome = plan_of(RECIPE.format(hops="\n".join(hops)))
    assert outcome.plan is not None, outcome.problems
    return dict(outcome.plan.sheet)


def numbers(values: dict[str, Value]) -> dict[str, tuple[float, float]]:
    return {figure: (value.number, value.spread) for figure, value in values.items()}


def renamed(monkeypatch: pytest.MonkeyPatch, figure: str, words: str) -> None:
    """The table as it would be if a figure had better words."""

    def anew(row: Figure) -> Figure:
        return replace(row, words=words, former=(*row.former, row.words)) if row.id == figure else row

    by_id = {row.id: anew(row) for row in (*FIGURES, *KEPT)}
    said = {words.casefold(): row for row in by_id.values() for words in (row.words, *row.former)}
    monkeypatch.setattr(figures, "_BY_ID", by_id)
    monkeypatch.setattr(figures, "_BY_WORDS", said)


def test_no_two_figures_share_an_id_or_words_old_or_new() -> None:
    rows = (*FIGURES, *KEPT)
    assert [it for it, times in Counter(row.id for row in rows).items() if times > 1] == []
    said = Counter(words for row in rows for words in (row.words, *row.former, *row.also))
    assert [it for it, times in said.items() if times > 1] == []
    assert set(PATHS) == {row.id for row in FIGURES}


def test_a_figure_has_the_unit_that_the_table_says(plan_of: Callable[..., Any]) -> None:
    units = {row.id: row.unit for row in FIGURES}
    found = {figure: value.unit for figure, value in sheet(plan_of, *HOPS).items() if figure in units}
    assert found == {figure: units[figure] for figure in found}
    assert len(found) >= 40


def test_better_words_for_a_figure_break_no_expectation(
    plan_of: Callable[..., Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    before = numbers(sheet(plan_of, *HOPS))
    renamed(monkeypatch, "original-gravity", "gravity at pitching")
    assert words_of("original-gravity") == "gravity at pitching"
    outcome = plan_of(RECIPE.format(hops="\n".join(HOPS)))
    assert outcome.problems == ()
    assert numbers(dict(outcome.plan.sheet)) == before
    drifted = plan_of(RECIPE.format(hops="\n".join(HOPS)).replace("1.045 ± 0.02", "1.080 ± 0.002"))
    assert drifted.problems[0].what.startswith("gravity at pitching comes to")


def test_better_words_for_a_figure_find_a_batch_s_plan_that_has_the_old(monkeypatch: pytest.MonkeyPatch) -> None:
    renamed(monkeypatch, "alcohol-by-volume", "strength")
    here = Place("brew.md")
    table = Table(((Text("alcohol by volume", here), Text("4.1 %", here)),), here)
    problems = Problems()
    assert [*read_plan(table, problems)] == ["alcohol-by-volume"]
    assert not len(problems)


def test_lines_may_change_places(plan_of: Callable[..., Any]) -> None:
    """The second line of a name is told apart by the order of its own name alone."""
    one, other = sheet(plan_of, *HOPS), sheet(plan_of, HOPS[1], HOPS[0], HOPS[2])
    assert {"hop.fuggle/bitterness", "hop.east-kent-golding/bitterness", "hop.fuggle.2/bitterness"} <= set(one)
    assert set(one) == set(other)
    for figure, value in one.items():
        assert other[figure].number == pytest.approx(value.number, rel=1e-12), figure
    assert one["hop.fuggle/bitterness"].number > 3 * one["hop.fuggle.2/bitterness"].number


def test_nobody_asks_for_a_figure_that_is_not_in_the_table() -> None:
    assert known("bitterness") == "bitterness"
    with pytest.raises(KeyError):
        known("original gravity")
