"""What a recipe's own brewhouse cannot do is a problem, whatever vessels nobody has described."""

from made_up import BASES, as_shares, book, brewhouse, malt, recipe

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.problems import Problems
from gristbook.targets.plan import plan_recipe


def errors(written: Recipe, home: Brewhouse) -> list[str]:
    problems = Problems()
    plan = plan_recipe(written, book(home), problems)
    assert (plan is None) == bool(problems.errors())
    return [problem.what for problem in problems.errors()]


def pale(kg: float) -> Recipe:
    return recipe(20, 60, (malt("Pale malt", BASES["Pale malt"], kg),))


def test_a_mash_takes_no_more_water_than_the_brew() -> None:
    """15 kg at 4 L/kg want 60 L; 24.5 L are boiled and 15 L stay in the grain."""
    assert errors(pale(15), brewhouse("home", 20, thickness=4)) == [
        "the mash takes 60.0 L of water, and the wort leaves only 39.5 L for it"
    ]
    assert errors(pale(15), brewhouse("home", 20, thickness=2.6)) == []


def test_a_gravity_that_no_weight_of_malt_reaches_in_a_bag_is_refused() -> None:
    """Each kilogram keeps 2 L: of 24.5 L that run off, at most 0.95 × 0.7776 × 24.5/2 = 9 kg of extract do."""
    bag = brewhouse("home", 20, "bag", efficiency=None, absorption=2.0)
    assert errors(as_shares(pale(1), 1.19), bag) == [
        "this cannot be brewed as written: no weight of malt reaches 1.190: the more of it there is, the more of its "
        "wort it keeps"
    ]
    assert errors(as_shares(pale(1), 1.10), bag) == []
