"""What things cost: an author's prices, read with their places, and a brew summed from them."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import the_demo

from gristbook.model.price import Prices
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Problems
from gristbook.sheet.value import lineage
from gristbook.targets.buying.cost import Cost, cost_of
from gristbook.targets.figures import Plan
from gristbook.text.prices import read_prices
from gristbook.text.values import Desk

BREW = """---
title: A trial
batch: 20 L
malts:
  - 4 kg pale ale malt
hops:
  - 30 g Fuggle, 4.5 %, 60 min
  - 20 g Fuggle, 4.5 %, 5 min
water:
  - 10 L distilled water
  - 5 g gypsum
  - 3 mL lactic acid 88 %
yeast:
  - 2 packs irish ale yeast, liquid
mash:
  - 67 °C, 60 min
finings and spices:
  - 1 tsp irish moss, 10 min
  - 2 pods cardamom, 10 min
ferment:
  - 19 °C, 10 days
carbonation: 2.2 volumes, keg
---
"""
PRICES = """pale ale malt: 50 / 25 kg
Fuggle: 4.50 / 100 g
distilled water: 0.30 per L
gypsum: 1.20 / 100 g
lactic acid 88 %: 4.00 for 100 mL
irish ale yeast: [4.00 / 11 g, 7.50 / pack]
irish moss: 0.12 / tsp
cardamom: 0.25 a pod
"""


def read(folder: Path, text: str, currency: str = "crowns") -> tuple[Prices | None, list[str]]:
    (folder / "prices.yaml").write_text(text, "utf-8")
    problems = Problems()
    found = read_prices(folder, currency, Desk(Pantry.load(None, Problems()), problems))
    return found, [str(problem) for problem in problems]


@pytest.fixture
def costing(tmp_path: Path, plan_of: Callable[..., Any]) -> Callable[[str], Cost]:
    """`costing(prices)`: what the trial brew costs."""

    def cost(text: str) -> Cost:
        outcome = plan_of(BREW)
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        prices, problems = read(tmp_path, text)
        assert not problems
        found = cost_of(outcome.plan.recipe, outcome.plan.figures, prices)
        assert found is not None
        return found

    return cost


def test_a_brew_is_summed_by_ingredient(costing: Callable[[str], Cost]) -> None:
    cost = costing(PRICES)
    # By hand: malt 4 × 2; hops 50 g of 45 a kilogram; water 10 × 0.3; gypsum 5 g of 12 a kilogram; acid 3 mL of 40 a
    # litre; two packs; a spoon of 0.12; two pods of 0.25.
    expected = 8 + 2.25 + 3 + 0.06 + 0.12 + 15 + 0.12 + 0.5
    assert cost.missing == ()
    assert cost.total is not None
    assert cost.a_litre is not None
    assert cost.total.number == pytest.approx(expected)
    assert cost.a_litre.number == pytest.approx(expected / 19)  # 20 L, of which 1 L stays with the yeast
    assert cost.currency == "crowns"


def test_the_cost_leads_back_to_the_authors_line(costing: Callable[[str], Cost]) -> None:
    total = costing(PRICES).total
    assert total is not None
    places = {str(place) for value in lineage(total) if (place := getattr(value, "place", None))}
    assert {"pantry/prices.yaml:1:16", "pantry/prices.yaml:6:32"} <= places


@pytest.mark.parametrize(
    ("line", "missing"),
    [
        ("gypsum: 1.20 / 100 g\n", ("Gypsum",)),
        ("irish moss: 0.12 / tsp\n", ("Irish moss",)),
        ("Fuggle: 4.50 / 100 g\n", ("Fuggle",)),
    ],
)
def test_without_a_price_for_everything_there_is_no_sum(
    line: str, missing: tuple[str, ...], costing: Callable[[str], Cost]
) -> None:
    cost = costing(PRICES.replace(line, ""))
    assert (cost.total, cost.a_litre, cost.missing) == (None, None, missing)


def test_a_price_by_another_measure_is_no_price(costing: Callable[[str], Cost]) -> None:
    assert costing(PRICES.replace("0.12 / tsp", "4 / 100 g")).missing == ("Irish moss",)


def test_a_book_without_prices_says_nothing_of_cost(tmp_path: Path, plan_of: Callable[..., Any]) -> None:
    assert read_prices(tmp_path, "crowns", Desk(Pantry.load(None, Problems()), Problems())) is None
    assert plan_of(BREW).plan.cost is None


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("Fuggle: dear\n", 'pantry/prices.yaml:1:9: error: "dear" is not a price; expected something like 2.20 / kg'),
        ("Fuggle: 4.50\n", '1:9: error: "4.50" is not a price'),
        ("Fuggle: 4.50 / hogshead\n", '1:16: error: unknown unit "hogshead"'),
        ("Fuggle: 4.50 / 20 min\n", '1:16: error: nothing is sold by "20 min"'),
        ("Fuggle: 4.50 / 0 g\n", '1:16: error: nothing is sold by "0 g"'),
        ("Fuggle: 4.50 / 100 g net\n", '1:16: error: "100 g net" is no amount'),
        ("Fuggle:\n", "1:8: error: no price of Fuggle"),
        ("Fuggle: [4 / 100 g, 30 / kg]\n", "1:21: error: a second price of Fuggle by kg"),
        ("munich malt: 2 / kg\n", '1:1: warning: "munich malt" may be several: Munich malt, light is taken; expected'),
        ("Fugle: 4 / 100 g\n", '1:1: warning: nothing in the pantry is called "Fugle"; did you mean "Fuggle"?'),
        ("- Fuggle\n", "1:1: error: the prices are not a table"),
    ],
)
def test_a_price_that_cannot_be_read_is_a_problem(text: str, problem: str, tmp_path: Path) -> None:
    _, problems = read(tmp_path, text)
    assert any(problem in one for one in problems), problems


def test_prices_in_no_money_are_a_problem(tmp_path: Path) -> None:
    prices, problems = read(tmp_path, PRICES, currency="")
    assert prices is None
    assert problems == ["pantry/prices.yaml:1:1: error: prices in no money; expected currency: … in book.yaml"]


def test_a_name_that_is_one_thing_exactly_is_not_several(tmp_path: Path) -> None:
    prices, problems = read(tmp_path, "amber malt: 3 / kg\n")
    assert not problems
    assert prices is not None
    assert prices.of("Amber malt", "kg") is not None
    assert prices.of("Dried malt extract, amber", "kg") is None


def test_the_demo_book_knows_what_all_its_beers_cost() -> None:
    for plan in the_demo.plans().values():
        assert plan.cost is not None
        assert plan.cost.missing == (), plan.recipe.slug
        assert plan.cost.a_litre is not None
        assert 0.5 < plan.cost.a_litre.number < 5, plan.recipe.slug
