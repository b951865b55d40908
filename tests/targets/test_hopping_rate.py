"""A book by Garetz 1994: the more a beer is hopped, the less each hop gives, in rows, total, table and sizing alike.

The factor, HF = 1 + CF × IBU/260, was read in a letter of 1995 (35.3 IBU: 1.1358); CF, the final volume over the
boil's, is from memory. Every sum here is drawn up from the finished beer, where the factor is plain arithmetic.
"""

import os
from dataclasses import replace

import pytest
from any_brew import Brew, brews
from hypothesis import HealthCheck, assume, given, settings
from made_up import BASES, book, brewhouse, hop, malt, recipe, sugar, value, with_a_kit

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.hop import Hop
from gristbook.model.recipe import Recipe
from gristbook.problems import Problems
from gristbook.sheet.value import number
from gristbook.targets.chain import work_out
from gristbook.targets.editions.make import MadeEdition, make
from gristbook.targets.plan import plan_recipe
from gristbook.targets.results import Bitterness, Figures

EXAMPLES = int(os.environ.get("GRISTBOOK_EXAMPLES", "100"))
often = settings(
    max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow]
)
HOME = brewhouse("home", 20)
HOPS = (
    hop("Bitter hop", 25, "boil", minutes=60, alpha=0.10),
    hop("Middle hop", 20, "boil", minutes=25),
    hop("Late hop", 30, "boil", minutes=12),
    hop("Dry hop", 30, "dry"),
)


def brewed(written: Recipe, house: Brewhouse = HOME) -> Figures:
    return work_out(written, house, "garetz 1994", "morey 1995")


def beer(*hops: Hop) -> Recipe:
    return replace(recipe(20, 60, (malt("Pale malt", BASES["Pale malt"], 4.3),)), hops=hops or HOPS)


def by_garetz(found: Bitterness) -> float:
    return dict(found.models)["garetz 1994"].number


@given(brew=brews())
@often
def test_rows_total_and_table_agree_on_any_beer(brew: Brew) -> None:
    try:
        found = brewed(brew.recipe, brew.home).bitterness
    except ValueError:
        assume(False)
        raise
    rows = sum(line.bitterness.number for line in (*found.hops, *found.kits))
    assert found.total.number == pytest.approx(rows, rel=1e-9)
    assert found.total.number == pytest.approx(by_garetz(found), rel=1e-9)


def test_every_addition_is_divided_by_the_factor_of_the_finished_beer() -> None:
    """Garetz's table says 20, 8 and 2 % at 60, 25 and 12 minutes; over his gravity factor and 1 + IBU/260."""
    figures = brewed(beer())
    gravity = (number(figures.wort.before_the_boil) + number(figures.wort.after_the_boil)) / 2
    divisor = (1 + (gravity - 1.050) / 0.2) * (1 + figures.bitterness.total.number / 260)
    shares = [line.utilisation and line.utilisation.number for line in figures.bitterness.hops]
    assert shares[:3] == pytest.approx([0.20 / divisor, 0.08 / divisor, 0.02 / divisor], rel=1e-9)
    assert shares[3] is None
    assert number(figures.bitterness.hopping_rate or 0.0) == pytest.approx(
        1 + figures.bitterness.total.number / 260, rel=1e-9
    )


def test_twice_the_hops_are_less_than_twice_as_bitter() -> None:
    once, twice = (
        brewed(beer(hop("Bitter hop", grams, "boil", minutes=60, alpha=0.10))).bitterness.total.number
        for grams in (30, 60)
    )
    assert once * (1 + once / 260) * 2 == pytest.approx(twice * (1 + twice / 260), rel=1e-9)
    assert twice < 1.95 * once


def test_a_line_that_asks_for_bitterness_brings_it() -> None:
    wanted = hop("Bitter hop", None, "boil", minutes=60, wanted=22)
    for others in ((), HOPS[1:], (hop("Other hop", None, "boil", minutes=30, wanted=9), *HOPS[1:])):
        found = brewed(beer(wanted, *others)).bitterness
        assert found.hops[0].bitterness.number == pytest.approx(22, rel=1e-9)
        assert by_garetz(found) == pytest.approx(found.total.number, rel=1e-9)
        if len(others) > len(HOPS[1:]):
            assert found.hops[1].bitterness.number == pytest.approx(9, rel=1e-9)


def test_a_line_brings_what_it_asks_for_in_a_partial_boil_too() -> None:
    """CF = 20 L over what the pot holds at the end, 12 − 3 = 9 L: the factor is 1 + 20/9 × IBU/260."""
    extract = recipe(20, 60, (), (sugar("Dried extract", 2.5, minutes=0, from_malt=True),))
    partly = replace(
        extract, kettle=value(12, "L", "kettle"), hops=(hop("Bitter hop", None, "boil", minutes=60, wanted=22),)
    )
    figures = brewed(partly)
    end = number(figures.volumes.end_of_boil)
    assert figures.bitterness.total.number == pytest.approx(22, rel=1e-9)
    assert number(figures.bitterness.hopping_rate or 0.0) == pytest.approx(1 + 20 / end * 22 / 260, rel=1e-9)


def test_a_hopped_extract_keeps_its_milligrams() -> None:
    """25 IBU in 23 L are 575 mg, in 20 L 28.75 IBU, however much is hopped besides."""
    extract = recipe(20, 60, (), (sugar("Dried extract", 3, from_malt=True),))
    found = brewed(with_a_kit(extract, 25)).bitterness
    assert found.kits[0].bitterness.number == pytest.approx(28.75, rel=1e-9)
    hops_alone = brewed(extract).bitterness.total.number
    assert found.total.number == pytest.approx(28.75 + hops_alone, rel=1e-9)


@pytest.mark.parametrize("hops", [HOPS, (hop("Bitter hop", None, "boil", minutes=60, wanted=30), *HOPS[1:])])
def test_an_edition_keeps_the_total(hops: tuple[Hop, ...]) -> None:
    away = brewhouse("away", 10, efficiency=0.6, boil_off=2.5, left_l=1.5, altitude_m=900)
    shelf = replace(book(HOME, away), bitterness_model="garetz 1994")
    plan = plan_recipe(beer(*hops), shelf, Problems())
    assert plan is not None
    edition = make(plan, Brew(plan.recipe, HOME, away, value(10, "L", "batch"), shelf).edition(), shelf)
    assert isinstance(edition, MadeEdition)
    drift = next(drift for drift in edition.drifts if drift.figure == "bitterness")
    assert drift.exact.number == pytest.approx(drift.home.number, rel=1e-9)
    assert edition.plan.bitterness_model == "garetz 1994"


@given(brew=brews())
@often
def test_an_edition_keeps_the_total_of_any_beer_or_says_that_it_does_not(brew: Brew) -> None:
    shelf = replace(brew.book, bitterness_model="garetz 1994")
    plan = plan_recipe(brew.recipe, shelf, Problems())
    assume(plan is not None)
    assert plan is not None
    edition = make(plan, brew.edition(), shelf)
    assume(isinstance(edition, MadeEdition))
    assert isinstance(edition, MadeEdition)
    drift = next(drift for drift in edition.drifts if drift.figure == "bitterness")
    if abs(drift.exact.number - drift.home.number) > 0.01 * drift.home.number:
        assert [note for note in edition.notes if "bitter" in note], "no word on what did not give way"
