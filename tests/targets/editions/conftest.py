"""A plain edition, for what holds of any."""

import pytest
from any_brew import Brew
from made_up import BASES, book, brewhouse, malt, recipe, value

from gristbook.problems import Problems
from gristbook.targets.editions.make import MadeEdition, make
from gristbook.targets.plan import plan_recipe


@pytest.fixture(scope="session")
def a_plain_edition() -> MadeEdition:
    home, away = brewhouse("home", 20), brewhouse("away", 10, efficiency=0.65, boil_off=2, left_l=1)
    brew = Brew(
        recipe(20, 60, (malt("Pale malt", BASES["Pale malt"], 4.0),)),
        home,
        away,
        value(10, "L", "batch"),
        book(home, away),
    )
    plan = plan_recipe(brew.recipe, brew.book, Problems())
    assert plan is not None
    edition = make(plan, brew.edition(), brew.book)
    assert isinstance(edition, MadeEdition)
    return edition
