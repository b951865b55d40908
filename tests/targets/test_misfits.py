"""What a recipe's own brewhouse cannot do is a problem, whatever vessels nobody has described."""

from dataclasses import replace

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


def test_a_mash_to_the_brim_does_not_fit_for_it_swells_and_is_stirred() -> None:
    """4 kg at 2.7 L/kg take 10.8 L of water and 4 × 0.67 L of room: 13.48 L, and at 67 °C 998.2/979.3 times as much,
    13.74 L. A tun of which 97 % may be filled has to be 14.17 L; in one of 13.5 L, 13.1 L fit, which 13.1/13.74 of the
    batch make.
    """
    problems = Problems()
    plan_recipe(pale(4), book(brewhouse("home", 20, thickness=2.7, tun_l=13.5)), problems)
    (problem,) = problems.errors()
    assert (problem.what, problem.expected, problem.safety) == (
        "the hot mash takes 13.7 L",
        "no more than the mash tun of 13.5 L holds, of which 97 % may be filled: one of 14.2 L would do, or a batch of "
        "19 L",
        True,
    )
    assert errors(pale(4), brewhouse("home", 20, thickness=2.7, tun_l=14.2)) == []


def test_a_book_in_us_units_is_told_so_in_gallons() -> None:
    """13.74 L are 3.63 gal, 13.5 L 3.57 gal, 14.22 L 3.76 gal and 19 L 5.02 gal."""
    problems = Problems()
    us = replace(book(brewhouse("home", 20, thickness=2.7, tun_l=13.5)), units="US")
    plan_recipe(pale(4), us, problems)
    (problem,) = problems.errors()
    assert problem.what == "the hot mash takes 3.63 gal"
    assert problem.expected.startswith("no more than the mash tun of 3.57 gal holds, of which 97 % may be filled: one")
