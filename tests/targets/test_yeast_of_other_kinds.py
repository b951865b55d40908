"""Yeast that is no fresh pack: slurry, a starter of the recipe's own, a second yeast, bacteria; cells by hand."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.site.beer.ingredients import ingredients
from gristbook.targets.beer.pitching import first
from gristbook.targets.buying.cost import needs
from gristbook.targets.method.whole import steps


@pytest.fixture
def pitched(trial: Callable[..., Any]) -> Callable[..., Any]:
    return lambda *lines: trial(yeast=lines, ferment=("12 °C, 20 days",))


@pytest.mark.parametrize(
    ("line", "cells"),
    [
        ("150 mL slurry of german lager yeast", 180.0),  # 150 mL of 1.2 billion each
        ("150 mL german lager yeast, slurry, 30 days old", 144.0),  # four fifths of them alive after thirty days
        ("2 packs german lager yeast", 200.0),  # two packs of 100 billion
        ("1 pack german lager yeast, starter 1 L", 152.0),  # White and Zainasheff 2010: 100 billion in 1 L give 152
        ("german lager yeast, starter 1 L", 152.0),  # one pack, where nothing is said
        ("1 L starter of german lager yeast", 152.0),
        ("2 packets german lager yeast, dried, 11.5 g each", 230.0),  # 23 g of 10 billion each
        ("1.15 g/L german lager yeast, dried", 230.0),  # in 20 L
    ],
)
def test_cells_are_those_of_the_sources(line: str, cells: float, pitched: Callable[..., Any]) -> None:
    assert pitched(line).figures.pitch.yeasts[0].cells.number == pytest.approx(cells, rel=0.005)


def test_slurry_without_an_amount_is_as_much_as_the_wort_wants(pitched: Callable[..., Any]) -> None:
    pitch = pitched("top-cropped german lager yeast").figures.pitch
    assert pitch.yeasts[0].amount.unit == "mL"
    assert pitch.yeasts[0].amount.number == pytest.approx(pitch.cells.number / 1.2)


def test_a_recipes_own_starter_is_the_one_that_is_shown_and_grown(pitched: Callable[..., Any]) -> None:
    plan = pitched("1 pack german lager yeast, starter 1.5 L")
    assert [it.volume.number for it in plan.figures.pitch.starters] == [1.5]
    assert any(step.kind == "starter" for step in steps(plan))


LATER = ("11 g german lager yeast, dried", "5 g american ale yeast, clean, dried, {}")


@pytest.mark.parametrize(
    ("when", "kind"),
    [
        ("at bottling", "keg"),
        ("in secondary", "feed"),
        ("after 7 days", "feed"),
        ("in the kettle, 36 h at 38 °C", "warm"),
    ],
)
def test_a_second_yeast_is_no_part_of_the_pitch_and_has_its_own_step(
    when: str, kind: str, pitched: Callable[..., Any]
) -> None:
    alone, plan = pitched(LATER[0]), pitched(LATER[0], LATER[1].format(when))
    assert [line.yeast.name for line in first(plan.figures.pitch)] == ["German lager"]
    assert plan.figures.pitch.rate.number == alone.figures.pitch.rate.number == 1.5
    told = {step.kind: "".join(map(str, (part for it in step.sentences for part in it))) for step in steps(plan)}
    assert "American ale" in told[kind]
    assert "American ale" not in told["pitch"]
    assert [need.name for need in needs(plan.recipe, plan.figures) if need.section == "Yeast"] == [
        "German lager, dried",
        "American ale, clean, dried",
    ]


def test_what_bacteria_make_is_said_to_be_left_out(pitched: Callable[..., Any]) -> None:
    plan = pitched(LATER[0], LATER[1].format("in the kettle, 36 h at 38 °C"))
    (_, words) = ingredients(plan).yeasts[1]
    assert "not reckoned" in "".join(map(str, words))
    assert plan.figures.fermentation.final.number == pitched(LATER[0]).figures.fermentation.final.number
