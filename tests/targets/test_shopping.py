"""A shopping list: everything of every brew, each thing once, and what is sold in packs paid for by the pack."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.model.price import Prices
from gristbook.sheet.value import given
from gristbook.targets.buying.shopping import Purchase, shopping, total_cost
from gristbook.targets.figures import Plan

BREW = """---
title: A trial
batch: 20 L
malts:
  - 4 kg pale ale malt
sugars:
  - 200 g table sugar
extracts:
  - 500 g light dried malt extract
hops:
  - 30 g Fuggle, 4.5 %, 60 min
  - 20 g Fuggle, 4.5 %, 5 min
  - 10 g Fuggle, 4.5 %, 5 min, whole
water:
  - 10 L distilled water
  - 5 g gypsum
yeast:
  - {yeast}
mash:
  - 67 °C, 60 min
finings and spices:
  - 2 g irish moss, 10 min
ferment:
  - 19 °C, 10 days
carbonation: {gas}
---
"""
PRIMED = "2.2 volumes, primed with table sugar"


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    def build(yeast: str = "12 g irish ale yeast, dried", gas: str = PRIMED) -> Plan:
        outcome = plan_of(BREW.format(yeast=yeast, gas=gas))
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


def the(bought: tuple[Purchase, ...], name: str) -> Purchase:
    (found,) = (it for it in bought if it.name == name)
    return found


def test_everything_is_bought_once_by_section_for_all_the_brews(plan: Callable[..., Plan]) -> None:
    bought = shopping([plan(), plan()], times=3)
    assert [(it.section, it.name) for it in bought] == [
        ("Malt", "Pale ale malt"),
        ("Malt extract", "Dried malt extract, light"),
        ("Sugar", "Sucrose"),
        ("Sugar", "Sucrose (table sugar), for priming"),
        ("Hops", "Fuggle, pellets"),
        ("Hops", "Fuggle, whole"),
        ("Yeast", "Irish ale, dried"),
        ("Water, salts and acids", "Distilled water"),
        ("Water, salts and acids", "Gypsum"),
        ("Finings and spices", "Irish moss"),
    ]
    amounts = {it.name: it.amount.number for it in bought if it.amount is not None}
    assert amounts["Pale ale malt"] == pytest.approx(24)
    assert amounts["Fuggle, pellets"] == pytest.approx(300)
    assert amounts["Gypsum"] == pytest.approx(30)


@pytest.mark.parametrize(("grams", "packs"), [(11, 1), (11.1, 2), (22, 2)])
def test_dried_yeast_is_paid_for_in_whole_packs(grams: float, packs: int, plan: Callable[..., Plan]) -> None:
    """A packet of 11 g (common practice, no source), at 200 a kilogram, for each of three brews."""
    price = given(200.0, "money/kg", "price of the yeast", words="made up")
    prices = Prices("crowns", {"irish ale": {"kg": price}})
    bought = the(shopping([plan(f"{grams} g irish ale yeast, dried")], 3, prices), "Irish ale, dried")
    assert bought.packs is not None
    assert bought.amount is not None
    assert bought.cost is not None
    assert (bought.packs.number, bought.amount.number) == (3 * packs, pytest.approx(3 * grams))
    assert bought.cost.number == pytest.approx(3 * packs * 0.011 * 200)


def test_liquid_yeast_is_bought_by_the_pack_it_is_written_in(plan: Callable[..., Plan]) -> None:
    bought = the(shopping([plan("2 packs irish ale yeast, liquid")], 2), "Irish ale, liquid")
    assert bought.packs is None
    assert bought.amount is not None
    assert (bought.amount.number, bought.amount.unit) == (4, "packs")


def test_no_sugar_is_bought_to_prime_a_keg_and_what_has_no_price_is_named(plan: Callable[..., Plan]) -> None:
    prices = Prices("crowns", {"gypsum": {"kg": given(12.0, "money/kg", "price of gypsum", words="made up")}})
    bought = shopping([plan(gas="2.2 volumes, keg")], 1, prices)
    assert not [it for it in bought if "for priming" in it.name]
    total, missing = total_cost(bought)
    assert total is not None
    assert total.number == pytest.approx(0.06)
    assert missing == tuple(it.name for it in bought if it.name != "Gypsum")


def test_nothing_is_bought_for_no_brew(plan: Callable[..., Plan]) -> None:
    with pytest.raises(ValueError, match="less than once"):
        shopping([plan()], times=0)
    assert len(shopping([plan()], times=1)) == 10
