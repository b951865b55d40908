"""What no pantry has is brewed by what its line says: it moves each figure as a known thing of its figures does."""

from collections.abc import Callable
from typing import Any

import pytest
from written_again import as_text

from gristbook.targets.advice.allergens import allergens

KNOWN = """\
---
title: Known
batch: 20 L
malts:
  - 4 kg pale ale malt, 6 EBC, 80 % extract, 4 % moisture
sugars:
  - 300 g table sugar, 0 °L, 75 % extract, 95 % fermentable
hops:
  - 28 g Fuggle, 6.5 % alpha, 60 min
yeast: 11 g american ale yeast, clean, dried, 76 % attenuation
mash: 67 °C, 60 min
ferment: 19 °C, 14 days
carbonation: 2.2 volumes, primed with table sugar
---
"""
SWAPPED = {
    "4 kg pale ale malt, 6 EBC, 80 % extract, 4 % moisture": "4 kg Quillmere heritage malt, 6 EBC, 80 % extract",
    "table sugar, 0 °L, 75 % extract, 95 % fermentable": "date syrup, 75 % extract",
    "Fuggle": "Marsh Warbler",
    "american ale yeast, clean": "yeast from the mill",
}
FIGURES = ("original-gravity", "final-gravity", "alcohol-by-volume", "bitterness", "colour")


def strangers() -> str:
    text = KNOWN
    for known, stranger in SWAPPED.items():
        assert known in text
        text = text.replace(known, stranger, 1)
    return text


def test_a_stranger_moves_every_figure_as_a_known_thing_of_its_figures(plan_of: Callable[..., Any]) -> None:
    known, stranger = plan_of(KNOWN), plan_of(strangers())
    assert stranger.plan is not None, stranger.problems
    for figure in FIGURES:
        assert stranger.plan.sheet[figure].number == pytest.approx(known.plan.sheet[figure].number), figure
    assert [problem.what.split('"')[1] for problem in stranger.problems if "in no pantry" in problem.what] == [
        *("Quillmere heritage malt", "date syrup", "Marsh Warbler", "yeast from the mill")
    ]


def test_a_strange_sugar_brings_what_its_line_says(plan_of: Callable[..., Any]) -> None:
    """By hand: 300 g of 75 % extract as it is sold is 225 g of extract."""
    (line,) = plan_of(strangers()).plan.figures.grist.sugars
    assert line.extract.number == pytest.approx(0.225)


def test_what_may_be_in_a_strange_malt_or_sugar_stays_open(plan_of: Callable[..., Any]) -> None:
    assert allergens(plan_of(KNOWN).plan).unknown == ()
    found = allergens(plan_of(strangers()).plan)
    assert found.unknown == ("Quillmere heritage malt", "date syrup")
    assert any("barley" in name for name in found.names)
    of_wheat = plan_of(strangers().replace("Quillmere heritage malt", "mill wheat grist"))
    assert any("wheat" in name for name in allergens(of_wheat.plan).names)


def test_strangers_and_an_authors_own_names_are_written_again(plan_of: Callable[..., Any]) -> None:
    own = KNOWN.replace("pale ale malt", "organic Maris Otter").replace("Fuggle", "English Fuggles")
    for text in (strangers(), own):
        first = plan_of(text)
        again = plan_of(as_text(first.recipe, us=False))
        assert again.plan is not None, again.problems
        for figure in FIGURES:
            assert again.plan.sheet[figure].number == pytest.approx(first.plan.sheet[figure].number, rel=1e-6), figure
        names = [(it.name, it.own_words) for it in (*first.recipe.malts, *first.recipe.hops)]
        assert names == [(it.name, it.own_words) for it in (*again.recipe.malts, *again.recipe.hops)]


@pytest.mark.parametrize(
    ("line", "kind", "cereal"),
    [
        ("mill grist, 6 EBC, 80 % extract", "base", "barley"),
        ("mill embers, 100 EBC, 74 % extract", "caramel", "barley"),
        ("mill embers, 900 EBC, 70 % extract", "roast", "barley"),
        ("alder smoked wheat, 6 EBC, 80 % extract", "smoked", "wheat"),
        ("flaked quinoa rye, 6 EBC, 70 % extract", "flaked", "rye"),
    ],
)
def test_a_malts_kind_goes_by_its_name_or_its_colour(
    line: str, kind: str, cereal: str, plan_of: Callable[..., Any]
) -> None:
    text = KNOWN.replace("  - 4 kg", f"  - 100 g {line}\n  - 4 kg")
    recipe = plan_of(text).recipe
    assert recipe is not None
    assert (recipe.malts[0].kind, recipe.malts[0].cereal) == (kind, cereal)
