"""What only the figures can show to be wrong: vessels that are too small, figures that have drifted, gas."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from gristbook.model.brewhouse import Brewhouse
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Place, Problems, Severity
from gristbook.reading.tree import Table, Text, read_yaml
from gristbook.targets.method.whole import steps
from gristbook.text.brewhouse import default_brewhouse, read_brewhouse
from gristbook.text.values import Desk

RECIPE = """---
title: A recipe
batch: 20 L
malts:
  - 4 kg pale ale malt
hops:
  - 28 g Fuggle, 4.5 % alpha, 60 min
yeast:
  - 11 g american ale yeast, clean, dried
mash:
  - 67 °C, 60 min
ferment:
  - 19 °C, 10 days
carbonation: 2.2 volumes, keg
---
"""
DESCRIBED = {"home": default_brewhouse()}
"""Vessels like those that are assumed, of an author who has described them."""
AT_BATCH = "recipe.md:3:8: error: "


def brewhouse(described: str) -> dict[str, Brewhouse]:
    problems = Problems()
    table = read_yaml(described, "book.yaml", problems)
    assert isinstance(table, Table)
    desk = Desk(Pantry.load(None, Problems()), problems)
    found = read_brewhouse(Text("mill", Place("book.yaml")), table, desk)
    assert found is not None, list(problems)
    return {"mill": found}


def said(outcome: Any) -> list[str]:
    """The errors; advice about a beer's balance is held elsewhere."""
    return [str(problem) for problem in outcome.problems if problem.severity is Severity.ERROR]


# Boil-off 3 L/h and 1.5 L left: 24.5 L of wort before the boil, 25.5 L hot (water is 4.3 % lighter at 100 °C), which
# needs a pot of 25.5/0.8 = 31.9 L. The mash is 4 × (2.7 + 0.67) = 13.5 L,
# 13.7 L at 67 °C, and wants a tun of 13.7/0.97 = 14.2 L.


@pytest.mark.parametrize(("kettle", "fits"), [("32.5 L", True), ("31.5 L", False)])
def test_a_kettle_may_be_filled_to_four_fifths(kettle: str, fits: bool, plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(RECIPE, brewhouse(f"{{batch: 20 L, boil-off: 3 L/h, left in kettle: 1.5 L, kettle: {kettle}}}"))
    assert (outcome.plan is not None) == fits
    if not fits:
        assert len(said(outcome)) == 1
        assert said(outcome)[0].startswith(f"{AT_BATCH}the hot wort takes 25.")
        assert "kettle of 31.5 L" in said(outcome)[0]


@pytest.mark.parametrize(("tun", "fits"), [("14.3 L", True), ("14 L", False)])
def test_a_tun_holds_its_mash_to_the_brim(tun: str, fits: bool, plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(RECIPE, brewhouse(f"{{thickness: 2.7 L/kg, tun: {tun}}}"))
    assert (outcome.plan is not None) == fits
    if not fits:
        assert len(said(outcome)) == 1
        assert said(outcome)[0].startswith(f"{AT_BATCH}the hot mash takes 13.7 L;")
        assert "mash tun of 14 L" in said(outcome)[0]


def test_a_bag_is_mashed_in_the_kettle(plan_of: Callable[..., Any]) -> None:
    """All the water at once: 24.5 L and what the grain keeps, 4 × 0.7 L, and its own room, 4 × 0.67 L, make 30 L.

    With 7.5 kg it is 34.8 L, which are 35.4 L at 67 °C (water, IAPWS-95: 0.97943 against 0.99821 kg/L).
    """
    fits = plan_of(RECIPE, brewhouse("{mash: bag, kettle: 34 L}"))
    assert fits.plan is not None
    more = RECIPE.replace("4 kg", "7.5 kg")
    outcome = plan_of(more, brewhouse("{mash: bag, kettle: 34 L}"))
    assert [words.partition(" L;")[0] for words in said(outcome)] == [f"{AT_BATCH}the hot mash takes 35.4"]


def test_nothing_is_mashed_where_there_is_no_mash(plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(RECIPE, brewhouse("{mash: none}"))
    assert said(outcome) == ["recipe.md:5:5: error: the brewhouse mill has no mash; expected a steep, or malt extract"]


def test_an_expectation_is_met_at_its_very_edge(plan_of: Callable[..., Any]) -> None:
    gravity = plan_of(RECIPE, DESCRIBED).plan.named["original-gravity"].number
    for off, met in ((0.0019, True), (-0.0019, True), (0.0021, False), (-0.0021, False)):
        expect = f"expect:\n  original gravity: {gravity + off:.6f} ± 0.002\n---"
        outcome = plan_of(RECIPE.removesuffix("---\n") + expect, DESCRIBED)
        assert (outcome.plan is not None) == met
        assert len(outcome.problems) == (0 if met else 1)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("bitterness: 30 kg ± 3", "recipe.md:16:3: error: bitterness is not in this unit; expected IBU"),
        ("strike water: 12 L ± 1", "recipe.md:16:3: error: no figure is called"),
        ("bitterness: 90 IBU ± 3", "recipe.md:16:3: error: bitterness has drifted to"),
        ("alcohol by volume: 9 % ± 0.5", "recipe.md:16:3: error: alcohol by volume has drifted to"),
    ],
)
def test_an_expectation_that_is_not_met_is_told_at_its_name(line: str, words: str, plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(RECIPE.removesuffix("---\n") + f"expect:\n  {line}\n---\n", DESCRIBED)
    assert outcome.plan is None
    assert len(said(outcome)) == 1
    assert said(outcome)[0].startswith(words)


def test_what_is_pinned_in_vessels_that_nobody_described_is_compared_and_stops_nothing(
    plan_of: Callable[..., Any],
) -> None:
    outcome = plan_of(RECIPE.removesuffix("---\n") + "expect:\n  bitterness: 90 IBU ± 3\n---\n")
    assert outcome.plan is not None
    (told,) = (str(it) for it in outcome.problems if "bitterness" in it.what)
    assert told.startswith("recipe.md:16:3: warning: bitterness comes to")


def test_expectations_are_read_in_the_units_of_the_trade(plan_of: Callable[..., Any]) -> None:
    """60 g is 2.116 oz, 24.5 L is 6.472 gal, 19 °C is 66.2 °F: the same figures, whatever they are written in."""
    named = plan_of(RECIPE.replace("keg", "primed with table sugar")).plan.named
    sugar, volume, strike = (named[name].number for name in ("priming-sugar", "boil-volume", "strike-temperature"))
    abv = named["alcohol-by-volume"].number
    expect = (
        f"expect:\n  priming sugar: {sugar / 28.349523125:.4f} oz ± 0.001\n"
        f"  boil volume: {volume / 3.785411784:.5f} gal ± 0.0001\n"
        f"  strike temperature: {32 + 1.8 * strike:.3f} °F ± 0.01\n  alcohol by volume: {abv:.4f} % ± 0.001\n---\n"
    )
    text = RECIPE.replace("keg", "primed with table sugar").removesuffix("---\n") + expect
    assert said(plan_of(text)) == []


@pytest.mark.parametrize(
    ("gas", "errors", "warnings"),
    [
        ("2.2 volumes, primed with table sugar", 0, 0),
        ("2.8 volumes, primed with table sugar", 0, 0),
        ("2.9 volumes, primed with table sugar", 0, 1),
        ("3.5 volumes, primed with table sugar", 0, 1),
        ("3.6 volumes, primed with table sugar", 1, 0),
        ("2.9 volumes, keg", 0, 0),
    ],
)
def test_an_unnamed_bottle_bears_so_much(gas: str, errors: int, warnings: int, plan_of: Callable[..., Any]) -> None:
    """Warned of above 2.8 volumes and refused above 3.5 (common practice, no source)."""
    outcome = plan_of(RECIPE.replace("2.2 volumes, keg", gas))
    found = [problem.severity.value for problem in outcome.problems]
    assert (found.count("error"), found.count("warning")) == (errors, warnings)
    assert all(problem.place == Place("recipe.md", 14, 14) for problem in outcome.problems)
    assert (outcome.plan is None) == bool(errors)


def test_a_beer_that_holds_more_gas_than_it_should_is_told(plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(RECIPE.replace("2.2 volumes, keg", "0.6 volumes, primed with table sugar"))
    assert outcome.plan is None
    assert said(outcome)[0].startswith("recipe.md:14:14: error: the beer still holds")


def test_every_problem_of_a_recipe_is_told_at_once(plan_of: Callable[..., Any]) -> None:
    text = RECIPE.replace("2.2 volumes, keg", "4 volumes, primed with table sugar").removesuffix("---\n")
    text += "expect:\n  happiness: 9 ± 1\n  bitterness: 90 ± 1\n---\n"
    outcome = plan_of(text, brewhouse("{kettle: 20 L, tun: 10 L}"))
    assert sorted(f"{problem.place.line}:{problem.place.column}" for problem in outcome.problems) == [
        "14:14",
        "16:3",
        "17:3",
        "3:8",
        "3:8",
    ]


def test_the_demo_book_has_nothing_wrong(capsys: pytest.CaptureFixture[str]) -> None:
    from gristbook.cli import FINE, main

    assert main(["check", "--strict", str(Path(__file__).parents[2] / "recipes")]) == FINE
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize(
    ("water", "told", "drawn"),
    [("10 gal RO", True, "Take "), ("28 L RO", False, "Draw "), ("100 % RO", False, "Take ")],
)
def test_more_of_the_only_water_than_the_brew_takes_is_told(
    water: str, told: bool, drawn: str, plan_of: Callable[..., Any]
) -> None:
    """10 US gallons are 37.9 L, and the brew takes a little over 28: 24.5 L of wort and a litre in each kilogram."""
    outcome = plan_of(RECIPE.replace("hops:\n", f"water: {water}\nhops:\n"), DESCRIBED)
    warned = [str(it).partition("are more than")[0] for it in outcome.problems if "the brew takes" in str(it)]
    assert warned == ["recipe.md:6:8: warning: 37.9 L of this water "] * told
    assert 28.0 < outcome.plan.figures.water.total.number < 28.8
    treat = next(step for step in steps(outcome.plan) if step.kind == "water")
    assert treat.sentences[0][0] == drawn
