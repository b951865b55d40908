"""The doubt of the bitterness model is how far the published models lie apart in this very beer.

Held to the spread that `numpy` finds of many numbers drawn evenly between the ends of the printed table.
"""

from collections.abc import Iterable
from dataclasses import replace

import numpy as np
import pytest
from made_up import BASES, brewhouse, hop, malt, recipe, sugar, with_a_kit

from gristbook.model.recipe import Hop, Recipe
from gristbook.targets.chain import work_out
from gristbook.targets.models import BITTERNESS
from gristbook.targets.results import Bitterness

HOME = brewhouse("home", 20)
LONG = hop("Bitter hop", 25, "boil", minutes=60, alpha=0.10)
LATE = hop("Late hop", 60, "boil", minutes=8, alpha=0.12)
STAND = hop("Last hop", 60, "stand", minutes=20, heat_c=75, alpha=0.12)


def brewed(written: Recipe, model: str = "tinseth 1997") -> Bitterness:
    return work_out(written, HOME, model, "morey 1995").bitterness


def beer(*hops: Hop) -> Recipe:
    return replace(recipe(20, 60, (malt("Pale malt", BASES["Pale malt"], 4.3),)), hops=hops)


def even_between(totals: Iterable[float]) -> float:
    """The standard deviation of numbers that lie evenly from the lowest to the highest."""
    return float(np.linspace(min(totals := list(totals)), max(totals), 100_001).std())


def by_model(found: Bitterness) -> float:
    return found.total.doubts.get("bitterness model", 0.0)


@pytest.mark.parametrize("model", BITTERNESS)
def test_the_doubt_is_the_spread_of_the_printed_table(model: str) -> None:
    found = brewed(beer(LONG, LATE, STAND), model)
    table = {name: total.number for name, total in found.models}
    assert by_model(found) == pytest.approx(even_between(table.values()), rel=1e-3)


def test_a_beer_on_which_the_models_disagree_has_the_wider_range() -> None:
    boiled, late, stood = (brewed(beer(*hops)) for hops in ((LONG,), (LONG, LATE), (LONG, LATE, STAND)))
    shares = [by_model(found) / found.total.number for found in (boiled, late, stood)]
    assert shares == sorted(shares)
    assert shares[2] > 1.5 * shares[0]
    widths = [(found.total.high - found.total.low) / found.total.number for found in (boiled, late, stood)]
    assert widths == sorted(widths)


def test_every_addition_shares_the_doubt() -> None:
    found = brewed(beer(LONG, LATE))
    shares = [line.bitterness.doubts["bitterness model"] / line.bitterness.number for line in found.hops]
    assert shares[0] == pytest.approx(shares[1])


def test_what_a_hopped_extract_brings_is_no_models_doubt() -> None:
    kit = with_a_kit(replace(recipe(20, 60, (), (sugar("Dried extract", 3, from_malt=True),)), hops=()), 25)
    assert by_model(brewed(kit)) == 0
    both = brewed(replace(kit, hops=(LONG,)))
    table = {name: total.number for name, total in both.models}
    assert by_model(both) == pytest.approx(even_between(table.values()), rel=1e-3)


def test_a_model_that_finds_nothing_has_no_doubt_to_share() -> None:
    """Garetz's table begins with 0 % up to ten minutes, and a share of nothing is nothing."""
    found = brewed(beer(LATE), "garetz 1994")
    assert found.total.number == 0
    assert found.total.doubts == {}
    assert dict(found.models)["rager 1990"].number > 10
