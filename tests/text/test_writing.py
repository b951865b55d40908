"""A recipe written down again, as it is or in an edition, is the same beer when it is read."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest
import the_demo
from hypothesis import assume, settings
from hypothesis import given as tried
from hypothesis import strategies as st
from the_demo import DEMO, SLUGS
from written_again import as_text

from gristbook.model.moment import Stage
from gristbook.model.recipe import Recipe
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Problems
from gristbook.reading.tree import NOT_TEXT, Text, read_yaml
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value
from gristbook.targets.chain import work_out
from gristbook.targets.figures import named_figures
from gristbook.text.begun import quoted
from gristbook.text.recipe import read_recipe
from gristbook.text.saying import plain
from gristbook.text.values import Desk
from gristbook.text.vocabulary import LINES
from gristbook.text.writing import sections_of, speaks_us, written_in_us


def beers(slug: str) -> list[Recipe]:
    """A recipe of the demo book, as it is written and in all its editions."""
    return [the_demo.plans()[slug].recipe, *(it.plan.recipe for it in the_demo.made(slug))]


def test_most_recipes_of_the_demo_are_written_and_read_in_editions_too() -> None:
    assert sum(len(beers(slug)) for slug in SLUGS) > 2 * len(SLUGS)


def read_again(text: str, shelves: Pantry) -> tuple[Recipe | None, list[str]]:
    problems = Problems()
    recipe = read_recipe(
        text, "again.md", the_demo.book().brewhouses, the_demo.book().brewhouse, Desk(shelves, problems)
    )
    return recipe, [str(problem) for problem in problems]


@pytest.fixture(scope="module")
def shelves() -> Pantry:
    """The demo book's own."""
    problems = Problems()
    found = Pantry.load(DEMO / "pantry", problems, "pantry")
    assert not len(problems)
    return found


def figures(recipe: Recipe) -> Mapping[str, float]:
    book = the_demo.book()
    worked = work_out(recipe, book.brewhouses[recipe.brewhouse], book.bitterness_model, book.colour_model)
    return {name: value.number for name, value in named_figures(worked).items()}


@pytest.mark.parametrize("slug", SLUGS)
def test_a_recipe_that_is_written_and_read_gives_the_same_figures(slug: str, shelves: Pantry) -> None:
    for recipe in beers(slug):
        before = figures(recipe)
        for us in (False, True):
            text = as_text(recipe, us=us)
            again, problems = read_again(text, shelves)
            assert again is not None, (problems, text)
            assert problems == [], text
            after = figures(again)
            assert before.keys() == after.keys()
            for name, number in before.items():
                assert after[name] == pytest.approx(number, rel=2e-3, abs=2e-4), f"{name}\n{text}"


@pytest.mark.parametrize("slug", SLUGS)
def test_what_was_written_and_read_is_written_the_same(slug: str, shelves: Pantry) -> None:
    """So that a batch differs from today's recipe only where the recipe has changed."""
    for recipe in beers(slug):
        us = speaks_us(recipe)
        again, _ = read_again(as_text(recipe, us=us), shelves)
        assert again is not None
        assert sections_of(again, us=us) == sections_of(recipe, us=us)
        assert written_in_us(sections_of(recipe, us=us)) is us


def test_lines_say_what_the_pantry_said_and_so_outlast_it(tmp_path: Path) -> None:
    recipe, *_ = beers("quillmere-best")
    text = as_text(recipe, us=False)
    (tmp_path / "hops.yaml").write_text(
        "- name: Fuggle\n  alpha: 2 %\n  aroma: none\n  source: a bad year, invented\n", "utf-8"
    )
    (tmp_path / "yeasts.yaml").write_text("", "utf-8")
    again, problems = read_again(text, Pantry.load(tmp_path, Problems()))
    assert again is not None, problems
    assert figures(again)["bitterness"] == pytest.approx(figures(recipe)["bitterness"], rel=1e-3)
    lines = dict(sections_of(recipe, us=False))
    assert lines["malts"][0] == "3.6 kg Pale ale malt, 3 °L"
    assert lines["yeast"] == ("11 g English ale, attenuative, dried, 76 % attenuation",)


ALL_OF_IT = """---
title: All of it
date: 2026-02-01
batch: 20 L
kettle: 18 L
boil: 90 min
malts:
  - 3.5 kg pale ale malt, 3.5 °L ± 0.5, 80 % ± 1 extract, 4.5 % moisture, 250 °WK
  - 200 g caramel malt 60, 150 EBC, 34 ppg, steep 30 min at 68 °C, note: twice, coarsely, allergens: wheat
sugars:
  - 200 g honey, into the fermenter, 8 days, 79 % extract, 93 % ± 2 fermentable, allergens: none
  - 100 g table sugar, 10 min, 384 L°/kg, note: in 2 handfuls
  - 100 g golden syrup, flameout
fruit:
  - 1 kg sour cherries, 8 days, 9 % ± 1 sugar, with stones, frozen, crushed in a bag, allergens: none
  - 1 L apple juice, 10 min
  - 500 g raspberries, after fermentation
  - 500 g blueberries, flameout, note: from the hedge
extracts:
  - 1 kg light liquid malt extract, 20 min, 81 % extract, 25 IBU in 23 L
  - 100 g light dried malt extract, flameout, note: for colour
  - 100 g light dried malt extract, 44 ppg, into the fermenter, 1 week, allergens: wheat, soya
hops:
  - 20 g Fuggle, 4.5 % ± 0.5 alpha, first wort, stored 30 weeks at 4 °C, whole
  - 20 g Fuggle, 4.5 % alpha, stand 20 min from 95 to 75 °C
  - 20 g Fuggle, 4.5 % alpha, stand 20 min cooling from 95 to 75 °C in a room of 18 °C
  - 20 g Fuggle, 4.5 % alpha, dry 12 h, note: in a sock, allergens: sulfite
  - 20 g Fuggle, 4.5 % alpha, 60 min, HSI 0.35
  - 20 g Fuggle, 4.5 % alpha, 30 min, stored 30 weeks at 4 °C under vacuum
  - 20 g Fuggle, 4.5 % alpha, late addition, 10 min
  - 20 g Fuggle, 4.5 % alpha, whirlpool 20 min at 80 °C
  - 20 g Fuggle, 4.5 % alpha, dry 3 days at 18 °C, wet
yeast:
  - 2 packs english ale yeast, attenuative, liquid, 75 % attenuation, made 2026-01-20, pitch rate 0.8, allergens: soya
  - 150 mL german lager yeast, slurry, 10 days old
  - german lager yeast, liquid, starter 1.5 L
  - 2 g american ale yeast, clean, dried, at bottling, note: the fresh pack
  - 5 g american ale yeast, clean, dried, 4 days before packaging
  - 1 pack german lager yeast, in the kettle, 36 h at 38 °C, to pH 3.4
mash:
  - protein rest, 52 °C, 15 min, 8 L, strike at 57 °C
  - 67 °C, 60 min, decoction, note: stirring
  - mash out, 76 °C, 10 min, infusion 9 L at 98 °C
  - fly sparge with 12 L at 77 °C
water:
  - the well, Ca 60 ± 5, Mg 8, Na 20, SO4 45, Cl 30, {alkaline}
  - 2 g gypsum, in the mash, note: dissolved first
  - 3 mL lactic acid 88 %, in the mash
  - 50 % distilled water
finings and spices:
  - 1/2 tsp irish moss, 10 min, note: soaked overnight
  - 1 pod vanilla, 5 days, allergens: milk, nuts
  - 12 g coriander seed, into the fermenter
  - 20 g cocoa nibs, roasted, soaked in rum, in secondary, 6 days
  - 1 lemon peel, flameout
  - 0.5 L cold brew coffee, at bottling
ferment:
  - primary, 17 °C, 5 days, under pressure 0.2 bar, pitch at 16 °C
  - free rise, 17 to 19 °C, 2 days
  - from 19 to 20 °C, over 3 days
  - 19 to 20 °C, 4 days, note: or as long as it takes
carbonation: {gas}
---
"""


GASES = (
    "2.4 volumes, keg, 5 °C, note: a long line to the tap",
    "2.4 volumes, primed with corn sugar",
    "primed with honey, 6 g/L",
    "primed with table sugar, 100 g, cask",
    "2.4 volumes, primed with table sugar, 120 g, heavy bottles",
    "primed with carbonation drops of 3 g, 1 per 500 mL bottle",
    "still",
    "2.2 volumes",
    "1 bar, keg, 4 °C",
    "2.2 volumes, cask",
)
BOTH = tuple(zip(GASES, 5 * ("HCO3 140", "alkalinity 115"), strict=True))


@pytest.mark.parametrize("us", [False, True], ids=["metric", "US"])
@pytest.mark.parametrize(("gas", "alkaline"), BOTH)
def test_every_part_of_every_line_comes_back(gas: str, alkaline: str, us: bool, plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(ALL_OF_IT.format(gas=gas, alkaline=alkaline))
    first = outcome.recipe
    assert first is not None, [str(problem) for problem in outcome.problems]
    front = as_text(first, us=us).replace("brewhouse: home\n", "")
    again = plan_of(front).recipe
    assert again is not None, ([str(problem) for problem in plan_of(front).problems], front)
    assert sections_of(again, us=us) == sections_of(first, us=us)
    assert [extra.moment for extra in again.extras][2] is Stage.FERMENTER
    for name in ("malts", "sugars", "hops", "yeasts", "extras"):
        assert [it.brings for it in getattr(again, name)] == [it.brings for it in getattr(first, name)]
    for name in ("malts", "sugars", "hops", "kits", "yeasts", "mash", "ferment"):
        for one, other in zip(getattr(first, name), getattr(again, name), strict=True):
            assert same(one, other), front


def same(one: Any, other: Any) -> bool:
    """Whether two lines of the model say the same; what the pantry is unsure of, a line states for good."""
    return all(
        here.number == pytest.approx(there.number, rel=1e-3)
        and (here.origin.by is not By.AUTHOR or here.spread == pytest.approx(there.spread, rel=1e-3))
        for here, there in zip(values(one), values(other), strict=True)
    )


def values(thing: Any) -> list[Value]:
    if isinstance(thing, Value):
        return [thing]
    if is_dataclass(thing):
        return [value for field in fields(thing) for value in values(getattr(thing, field.name))]
    return []


ELSEWHERE = {
    ("mash", "thickness"): "in place of the first rest's water, and held by itself",
    ("carbonation", "dissolved"): "not reckoned; the method says it",
    ("carbonation", "yeast"): "not reckoned, which a warning says",
    ("carbonation", "beer gas"): "not reckoned, which a warning says",
    ("water", "pH"): "not reckoned, which a warning says",
    ("water", "strength"): "a part of the acid's name",
    ("yeast", "each"): "a part of the amount",
    ("yeast", "cells"): "the amount, in packs",
    ("mash", "note"): "written as the note that it is",
    ("sugars", "note"): "written as the note that it is",
    ("sugars", "kettle"): "the whole boil, as where nothing is said",
    ("extracts", "kettle"): "the whole boil, as where nothing is said",
    ("hops", "amount"): "written before the name",
    ("hops", "held"): "not reckoned, which a warning says, or the days in the beer",
    ("yeast", "temperature"): "not reckoned where the ferment says another, which a warning says",
    ("ferment", "rate"): "written as the days that it comes to",
    ("ferment", "ambient"): "written as the temperature that it is taken for",
    ("ferment", "until"): "not reckoned, which a warning says",
    ("mash", "bag"): "written as no sparge",
}
"""Parts that are read, and written otherwise or not at all."""

PARTS = [(section, part) for section, parts in LINES.items() for part in parts if (section, part.key) not in ELSEWHERE]


def test_no_part_of_a_line_is_forgotten_when_it_is_written(plan_of: Callable[..., Any]) -> None:
    recipes = [plan_of(ALL_OF_IT.format(gas=gas, alkaline=alkaline)).recipe for gas, alkaline in BOTH]
    lines = [dict(sections_of(recipe, us=False)) for recipe in recipes]
    for section, part in PARTS:
        pieces = [piece.strip() for told in lines for line in told[section] for piece in line.split(",")]
        assert any(re.fullmatch(part.pattern, piece, re.IGNORECASE) for piece in pieces), (section, part.key, pieces)


@tried(st.floats(1e-3, 1e6))
def test_a_number_is_written_in_digits_alone_to_six_figures(number: float) -> None:
    assert set(plain(number, places=9)) <= set("0123456789.")
    assert float(plain(number, places=9)) == pytest.approx(number, rel=5.1e-6)


@tried(words=st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), min_size=1).map(str.strip))
@settings(max_examples=300)
def test_any_words_can_be_written_and_read(words: str) -> None:
    """What a person calls a beer may hold any sign that is one."""
    assume(words)
    assume(not NOT_TEXT.search(words))
    for text in (f"title: {quoted(words)}\n", f"lines:\n  - {quoted(words)}\n"):
        problems = Problems()
        tree = read_yaml(text, "written.md", problems)
        assert not len(problems), [str(problem) for problem in problems]
        node = tree.entries[0][1]  # type: ignore[union-attr]
        node = node if isinstance(node, Text) else node.items[0]  # type: ignore[union-attr]
        assert isinstance(node, Text)
        assert node.value == words
