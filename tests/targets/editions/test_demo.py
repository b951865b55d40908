"""The demo book: every recipe in at least three editions that can be brewed, one of them from extract, or why not."""

from dataclasses import replace

import pytest
from the_demo import SLUGS, book, editions, plans

from gristbook.problems import Place
from gristbook.sheet.value import number
from gristbook.targets.chain import work_out
from gristbook.targets.editions.make import MadeEdition
from gristbook.targets.editions.sizing import sized
from gristbook.targets.figures import Plan
from gristbook.targets.water.results import Ions


@pytest.mark.parametrize("slug", SLUGS)
def test_a_recipe_has_three_ways_to_brew_it_and_one_from_extract_or_the_reason(slug: str) -> None:
    """The recipe as it is written is one of the ways: it is its own edition for its own brewhouse."""
    made = [edition for edition in editions(slug) if isinstance(edition, MadeEdition)]
    assert 1 + len(made) >= 3
    own_extract = any(sugar.from_malt for sugar in plans()[slug].recipe.sugars) and not plans()[slug].figures.mash
    from_extract = [edition for edition in editions(slug) if edition.edition.source == "extract"]
    assert from_extract or own_extract
    for edition in from_extract:
        assert isinstance(edition, MadeEdition) or edition.why


@pytest.mark.parametrize("slug", SLUGS)
def test_an_edition_is_the_same_beer_before_it_is_rounded_and_near_it_after(slug: str) -> None:
    """After rounding to 10 g and 1 g, or to ounces and eighths of them: gravity within 0.001, bitterness within 10 %.

    An eighth of an ounce is 3.5 g: half of it is a twelfth of the least bittering addition, 20 g.
    """
    for edition in editions(slug):
        if isinstance(edition, MadeEdition):
            drifts = {drift.figure: drift for drift in edition.drifts}
            gravity, bitter = drifts["original-gravity"], drifts["bitterness"]
            assert gravity.exact.number == pytest.approx(gravity.home.number, abs=0.0005)
            assert gravity.rounded.number == pytest.approx(gravity.home.number, abs=0.001)
            assert bitter.exact.number == pytest.approx(bitter.home.number, rel=0.01)
            assert bitter.rounded.number == pytest.approx(bitter.home.number, rel=0.10)


@pytest.mark.parametrize("slug", SLUGS)
def test_an_edition_that_ends_elsewhere_says_so_on_its_first_screen(slug: str) -> None:
    """As both are printed: one point is no matter, and of two a sentence tells."""
    for edition in editions(slug):
        if isinstance(edition, MadeEdition):
            ends, home = (round(1000 * plan.sheet["final-gravity"].number) for plan in (edition.plan, plans()[slug]))
            said = [note for note in edition.notes if note.startswith("It ends")]
            assert len(said) == (abs(ends - home) >= 2), (edition.edition.slug, home, ends)
            for note in said:
                assert note.split()[2] == ["", "", "two", "three", "four", "five"][abs(ends - home)]
                assert ("higher" in note) is (ends > home)


def ions(plan: Plan) -> list[float]:
    assert plan.figures.chemistry is not None
    treated: Ions = plan.figures.chemistry.treated
    return [number(ion) for ion in (treated.calcium, treated.magnesium, treated.sulfate, treated.chloride) if ion]


@pytest.mark.parametrize("slug", SLUGS)
def test_the_waters_ions_stay_in_another_brewhouse_on_the_same_tap(slug: str) -> None:
    """Salts go by the litre of all the brewing water, of which a bag takes another share than a tun does."""
    home = plans()[slug]
    for house in book().brewhouses.values():
        away = replace(house, water=home.brewhouse.water)
        if away.mash == "none" or home.brewhouse.water is None:
            continue
        recipe, notes = sized(home.recipe, home, away, home.recipe.batch if home.recipe.kits else away.batch)
        figures = work_out(recipe, away, home.bitterness_model, home.colour_model)
        assert ions(replace(home, recipe=recipe, brewhouse=away, figures=figures)) == pytest.approx(
            ions(home), rel=1e-9
        )
        assert [note for note in notes if "tap" in note] == []


def test_salts_for_another_tap_are_spoken_of() -> None:
    home = next(plan for plan in plans().values() if plan.recipe.water.salts and plan.recipe.water.source is None)
    away = replace(home.brewhouse, name="hill", water=None)
    _, notes = sized(home.recipe, home, away, away.batch)
    here = home.brewhouse.name
    assert f"What goes into the water is weighed for the tap of {here}, and hill has another." in notes


def test_one_tap_that_is_written_down_twice_is_one_tap() -> None:
    home = next(plan for plan in plans().values() if plan.recipe.water.salts and plan.recipe.water.source is None)
    tap = home.brewhouse.water
    assert tap is not None
    again = replace(tap, name="the same tap", place=Place("book.yaml", 99))
    other = replace(tap, calcium=replace(tap.calcium, number=tap.calcium.number + 5))
    told = []
    for water in (again, other):
        away = replace(home.brewhouse, name="hill", water=water)
        told.append(any("has another" in note for note in sized(home.recipe, home, away, away.batch)[1]))
    assert told == [False, True]
