"""A recipe's file as a whole: what it may begin with, what it says by default, and how its parts stand together."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.problems import Place
from gristbook.sheet.origin import By, Given

SOUND = """---
title: A sound recipe
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
carbonation: 2.2 volumes, primed with table sugar
---

Prose, with a rule of its own:

---

and more.
"""


@pytest.mark.parametrize("source", ["", "\n", "Prose.\n", "title: A beer\n", "\ufeff"])
def test_a_file_without_front_matter_is_one_problem(source: str, plan_of: Callable[..., Any]) -> None:
    assert [str(problem) for problem in plan_of(source).problems] == [
        'recipe.md:1:1: error: no front matter; expected a first line "---"'
    ]


def test_a_sound_recipe_has_a_plan_and_no_problem(plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(SOUND)
    assert outcome.problems == ()
    assert outcome.plan is not None
    assert outcome.recipe.prose == "Prose, with a rule of its own:\n\n---\n\nand more.\n"
    assert (outcome.recipe.slug, outcome.recipe.title, outcome.recipe.date) == ("recipe", "A sound recipe", "")
    assert outcome.recipe.place == Place("recipe.md", 2, 1)


def test_a_mark_of_byte_order_shifts_no_column(plan_of: Callable[..., Any]) -> None:
    assert plan_of("\ufeff" + SOUND).problems == ()
    wrong = "\ufeff" + SOUND.replace("Fuggle", "Fugle")
    assert [str(problem.place) for problem in plan_of(wrong).problems] == ["recipe.md:7:10"]


@pytest.mark.parametrize("written", ["title: 2026", "title: no", "title: 1:30", 'title: "yes"', "title: ~"])
def test_a_title_is_words_whatever_they_look_like(written: str, plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(SOUND.replace("title: A sound recipe", written))
    assert outcome.problems == ()
    assert outcome.recipe.title == written.removeprefix("title: ").strip('"')


def test_what_nobody_wrote_is_said_to_be_so(plan_of: Callable[..., Any]) -> None:
    recipe = plan_of(SOUND.replace("batch: 20 L\n", "")).recipe
    assert isinstance(recipe.batch.origin, Given)
    assert recipe.batch.origin.by is By.DEFAULT
    assert recipe.batch.origin.words.startswith("by default")
    assert (recipe.boil.number, recipe.boil.unit) == (60.0, "min")


def test_a_tolerance_holds_nine_in_ten(plan_of: Callable[..., Any]) -> None:
    alpha = plan_of(SOUND.replace("4.5 % alpha", "4.5 % ± 0.5 alpha")).recipe.hops[0].alpha
    assert (alpha.low, alpha.high) == pytest.approx((0.040, 0.050))


def test_a_style_is_what_the_pantry_says_of_it(plan_of: Callable[..., Any]) -> None:
    style = plan_of(SOUND.replace("batch:", "style: ordinary bitters\nbatch:")).recipe.style
    assert style is not None
    assert style.name == "Ordinary Bitter"
    assert style.original_gravity[0] < style.original_gravity[1]
    assert 1 < style.strength[0] < style.strength[1] < 20


@pytest.mark.parametrize(
    ("old", "new", "value", "said"),
    [
        ("11 g american", "1 pack american", "yeasts.amount", "packets taken as 11 g"),
        ("hops:", "sugars:\n  - 300 mL honey\nhops:", "sugars.mass", "weighed by its density"),
    ],
)
def test_what_stands_between_the_words_and_the_weight_is_said(
    old: str, new: str, value: str, said: str, plan_of: Callable[..., Any]
) -> None:
    section, _, attribute = value.partition(".")
    found = getattr(getattr(plan_of(SOUND.replace(old, new)).recipe, section)[0], attribute)
    assert isinstance(found.origin, Given)
    assert found.origin.words.startswith(said)
