"""What cold water and ice do to hot wort, against arithmetic by hand; water boils at 99.97 °C at sea level (IAPWS)."""

from dataclasses import replace

import pytest
from made_up import brewhouse, hop, recipe, sugar, value

from gristbook.model.recipe import Recipe
from gristbook.model.steps import FermentStep
from gristbook.sheet.origin import put_in
from gristbook.sheet.value import number
from gristbook.targets.chain import work_out
from gristbook.targets.results import Cooling

BARE_POT = brewhouse("home", 20, "none", boil_off=0, left_l=0)


def partly(pot_l: float, pitch_c: float = 19) -> Recipe:
    """An extract beer of 20 L, of which the pot boils a part; the extract goes in without room of its own, as sugar."""
    beer = recipe(20, 60, (), (sugar("Sugar", 2.0),))
    step = replace(beer.ferment[0], temperature=value(pitch_c, "°C", "fermenting"))
    assert isinstance(step, FermentStep)
    return replace(beer, kettle=value(pot_l, "L", "wort at the start of the boil"), ferment=(step,))


def cooled(written: Recipe) -> Cooling:
    found = work_out(written, BARE_POT, "tinseth 1997", "morey 1995").cooling
    assert found is not None
    return found


def test_eight_litres_boiling_and_twelve_of_cold_water_are_too_hot_for_yeast() -> None:
    found = cooled(partly(8))
    assert number(found.cold) == 10
    assert number(found.if_boiling or 0.0) == pytest.approx(46, abs=0.02)


def test_ice_in_place_of_some_of_the_water_brings_them_to_the_yeasts_temperature() -> None:
    """8 L × 4.19 × (99.97 − 19) = m (334 + 4.19 × 19) + (12 − m) × 4.19 × 9: m = 6.01 kg."""
    found = cooled(partly(8))
    assert found.ice is not None
    exact, _ = put_in(found.ice.origin)
    assert exact.number == pytest.approx((8 * 4.19 * 80.97 - 12 * 4.19 * 9) / (334 + 4.19 * 10), abs=0.005)
    assert exact.number == pytest.approx(6.01, abs=0.01)
    assert found.ice.number == pytest.approx(6.0), "ice is weighed to a tenth of a kilogram"


def test_there_is_no_ice_where_the_water_alone_is_enough() -> None:
    """2 L boiling and 18 L at 10 °C come to 19 °C, and the yeast is wanted at 20 °C."""
    assert cooled(partly(2, pitch_c=20)).ice is None


def test_there_is_no_ice_where_all_of_it_would_not_be_enough() -> None:
    """15 L boiling want 18.2 kg, and only 5 L are topped up."""
    assert cooled(partly(15)).ice is None


def test_wort_that_has_stood_is_not_at_the_boil_any_more() -> None:
    assert cooled(replace(partly(8), hops=(hop("Last", 20, "stand", minutes=20),))).ice is None
