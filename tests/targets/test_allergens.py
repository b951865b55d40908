"""What some must not drink is named by the law's own groups, and whatever nobody knows leaves the sentence open."""

import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
import the_demo

from gristbook.pantry.allergens import allergens_in
from gristbook.pantry.pantry import Pantry, ours
from gristbook.problems import Severity
from gristbook.site.beer.brews import beer_of
from gristbook.site.beer.card_page import card_page
from gristbook.site.beer.ingredients import ingredients
from gristbook.site.book.feeds import figures_json
from gristbook.targets.advice.allergens import ANY_ALLERGEN, allergens
from gristbook.targets.advice.cautions import all_cautions
from gristbook.targets.figures import Plan
from gristbook.targets.method.whole import steps

BREW = """---
title: A trial
batch: 20 L
malts:
  - 4 kg {malt}
hops:
  - 30 g Fuggle, 4.5 %, 60 min
{more}
yeast:
  - 11 g irish ale yeast, dried
mash:
  - 67 °C, 60 min
ferment:
  - 18 °C, 10 days
carbonation: 2.2 volumes, keg
---
"""

Make = Callable[..., Plan]


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Make:
    def build(more: str = "", malt: str = "pale ale malt") -> Plan:
        outcome = plan_of(BREW.format(more=more, malt=malt))
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


def extra(line: str) -> str:
    return f"finings and spices:\n  - {line}"


LAW = [
    # Regulation (EU) No 1169/2011, Annex II: a word of each point, in its order, and how a label names it.
    ("1", "couscous", "wheat"),
    ("1", "rye bread", "rye"),
    ("1", "oat milk", "oats"),
    ("1", "kamut", "wheat"),
    ("1", "spelt", "spelt (a wheat)"),
    ("2", "shrimp", "crustaceans"),
    ("3", "egg yolks", "egg"),
    ("4", "anchovies", "fish"),
    ("5", "peanut butter powder", "peanuts"),
    ("6", "soy lecithin", "soya"),
    ("7", "casein", "milk"),
    ("7", "lactose", "milk"),
    ("8", "almonds", "nuts (almond)"),
    ("8", "hazelnuts", "nuts (hazelnut)"),
    ("8", "walnuts", "nuts (walnut)"),
    ("8", "cashews", "nuts (cashew)"),
    ("8", "pecan nuts", "nuts (pecan)"),
    ("8", "Brazil nuts", "nuts (Brazil nut)"),
    ("8", "pistachio nuts", "nuts (pistachio)"),
    ("8", "Queensland nuts", "nuts (macadamia)"),
    ("9", "celery seed", "celery"),
    ("10", "mustard seed", "mustard"),
    ("11", "tahini", "sesame"),
    ("12", "sulphur dioxide", "sulfite"),
    ("13", "lupin flour", "lupin"),
    ("14", "oysters", "molluscs"),
]


@pytest.mark.parametrize(("point", "word", "label"), LAW)
def test_each_group_of_the_law_is_known_by_its_usual_names(point: str, word: str, label: str, pantry: Pantry) -> None:
    assert allergens_in(word, pantry.allergens) == ({label}, True)
    assert next(it for it in pantry.allergens.records if it.name == label).group.startswith(f"{point},")


def test_all_fourteen_groups_are_there_and_on_the_page_of_cautions() -> None:
    groups = {it.group for it in ours("allergens").records}
    assert sorted(int(group.partition(",")[0]) for group in groups) == list(range(1, 15))
    assert any(ANY_ALLERGEN in row.words for row in all_cautions())


SOUNDS_LIKE = (
    "coconut", "nutmeg", "butternut squash", "cocoa butter", "milk stout", "buckwheat", "pine nuts", "chestnuts",
    "tiger nuts", "coconut milk", "cream of tartar", "crab apples", "oyster mushrooms", "milk thistle", "rice flour",
    "sunflower lecithin", "apple butter", "barley wine", "nut brown", "cream ale", "gluten free",
)  # fmt: skip


@pytest.mark.parametrize("name", SOUNDS_LIKE)
def test_what_only_sounds_like_an_allergen_is_none(name: str, pantry: Pantry) -> None:
    assert allergens_in(name, pantry.allergens)[0] == frozenset()


KNOWN = [
    ("", "pale ale malt", "barley"),
    ("", "pale wheat malt", "wheat"),
    ("", "flaked maize", ""),
    ("sugars:\n  - 200 g lactose, 10 min", "pale ale malt", "barley, milk"),
    ("extracts:\n  - 1 kg wheat dried malt extract", "flaked rice", "barley, wheat"),
    (extra("2 g isinglass, after fermentation"), "pale ale malt", "barley, fish"),
    (extra("2 g chitosan, after fermentation"), "pale ale malt", "barley, crustaceans"),
    (extra("90 g toasted coconut, 3 days"), "pale ale malt", "barley"),
    (extra("20 g orange peel, 5 min"), "pale ale malt", "barley"),
    ("water:\n  - 0.3 g potassium metabisulfite", "pale ale malt", "barley, sulfite"),
]


@pytest.mark.parametrize(("more", "malt", "words"), KNOWN)
def test_what_the_pantry_knows_is_named_and_nothing_else(more: str, malt: str, words: str, plan: Make) -> None:
    assert allergens(plan(more, malt)).words == words


OPEN = [
    ("100 g tahini, 3 days", "barley, sesame, and whatever is in tahini: read its label"),
    ("100 g dragon relish, 3 days", "barley, and whatever is in dragon relish: read its label"),
    (
        "5 g soy lecithin, 3 days\n  - 5 g shrimp, 3 days",
        "barley, crustaceans, soya, and whatever is in soy lecithin and shrimp: read their labels",
    ),
]


@pytest.mark.parametrize(("line", "words"), OPEN)
def test_what_nobody_knows_leaves_the_sentence_open_wherever_it_stands(line: str, words: str, plan: Make) -> None:
    made = plan(extra(line))
    home = beer_of(made, replace(the_demo.book(), editions=())).home
    assert ingredients(made).allergens == words
    assert card_page(home).ingredients.allergens == words
    said = ["".join(map(str, caution)) for step in steps(made) for caution in step.cautions]
    assert f"Allergens: {words}. Write it on the label, and say it when you pour." in said
    told = json.loads(figures_json(made))["allergens"]
    assert told == {"contains": list(allergens(made).names), "unknown in": list(allergens(made).unknown)}
    assert told["unknown in"]


SETTLED = [
    ("100 g dragon relish, 3 days, allergens: milk, nuts", "barley, milk, nuts"),
    ("100 g dragon relish, 3 days, Allergens:  MILK and celery", "barley, celery, milk"),
    ("100 g dragon relish, 3 days, allergens none", "barley"),
    (
        "{amount: 100 g, name: dragon relish, days: 3 days, allergens: 'milk, hazelnuts'}",
        "barley, milk, nuts (hazelnut)",
    ),
    ("100 g cocoa nibs, 3 days, allergens: none", "barley"),
    ("2 g isinglass, after fermentation, allergens: none", "barley, fish"),
]


@pytest.mark.parametrize(("line", "words"), SETTLED)
def test_a_line_that_says_its_allergens_settles_them_but_takes_none_out_of_a_thing(
    line: str, words: str, plan: Make
) -> None:
    assert allergens(plan(extra(line))).words == words


@pytest.mark.parametrize(
    ("more", "malt"),
    [
        ("sugars:\n  - 100 g golden syrup, 10 min, allergens: sulfite", "pale ale malt"),
        ("  - 10 g Saaz, 3 %, 10 min, allergens: sulfite", "pale ale malt"),
        ("", "pale ale malt, allergens: sulfite"),
    ],
    ids=["sugars", "hops", "malts"],
)
def test_every_kind_of_ingredient_may_say_its_allergens(more: str, malt: str, plan: Make) -> None:
    assert allergens(plan(more, malt)).words == "barley, sulfite"


def test_a_yeast_may_say_its_allergens(plan_of: Callable[..., Any]) -> None:
    text = BREW.format(more="", malt="pale ale malt").replace("yeast, dried", "yeast, dried, allergens: soya")
    assert allergens(plan_of(text).plan).words == "barley, soya"


def test_a_word_that_is_no_allergen_is_an_error(plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(BREW.format(more=extra("100 g cocoa nibs, 3 days, allergens: mlk"), malt="pale ale malt"))
    said = [str(problem) for problem in outcome.problems if problem.severity is Severity.ERROR]
    assert len(said) == 1
    assert 'no allergen is called "mlk"' in said[0]
    assert said[0].endswith('did you mean "milk"?')


def test_a_record_of_the_books_own_that_says_nothing_is_unknown(plan_of: Callable[..., Any], pantry: Pantry) -> None:
    """Ours all say what they bring; only yeast nutrient, whose make-up differs, says that nobody knows."""
    silent = [
        it.name for shelf in (pantry.sugars, pantry.finings, pantry.salts) for it in shelf.records if not it.allergen
    ]
    assert silent == ["Yeast nutrient"]
    outcome = plan_of(BREW.format(more=extra("3 g yeast nutrient, with the yeast"), malt="pale ale malt"))
    assert allergens(outcome.plan).words == "barley, and whatever is in yeast nutrient: read its label".replace(
        "Y", "y"
    )
