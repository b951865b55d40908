"""What hops turn bitter in a stand that is held, falls evenly or cools by itself."""

from dataclasses import replace
from math import exp, log

import pytest
from made_up import BASES, brewhouse, hop, malt, recipe, value
from scipy.integrate import quad

from gristbook.model.hop import Hop
from gristbook.model.moment import Stand
from gristbook.sheet.value import number
from gristbook.targets.chain import work_out
from gristbook.targets.results import Bitterness

STAND = hop("Last hop", 50, "stand", minutes=30, heat_c=95)
HELD = STAND.use
assert isinstance(HELD, Stand)


def brewed(*hops: Hop) -> Bitterness:
    beer = replace(recipe(20, 60, (malt("Pale malt", BASES["Pale malt"], 4.3),)), hops=hops)
    return work_out(beer, brewhouse("home", 20), "tinseth 1997", "morey 1995").bitterness


def falling(to_c: float) -> Hop:
    return replace(STAND, use=replace(HELD, end=value(to_c, "°C", "end")))


def left(to_c: float, room_c: float) -> Hop:
    return replace(STAND, use=replace(HELD, end=value(to_c, "°C", "end"), air=value(room_c, "°C", "room")))


def k1(temperature: float) -> float:
    """Malowicki and Shellhammer 2005, abstract."""
    return 7.9e11 * exp(-11858 / (temperature + 273.15))


@pytest.mark.parametrize(("to_c", "room_c"), [(75, 20), (60, 12), (90, 30)])
def test_a_stand_that_is_left_to_cool_goes_along_newtons_curve(to_c: float, room_c: float) -> None:
    """Integrated by SciPy: the distance to the room shrinks by the same share each minute, to the end that is said."""
    rate = log((95 - room_c) / (to_c - room_c)) / 30
    worth, _ = quad(lambda t: k1(room_c + (95 - room_c) * exp(-rate * t)) / k1(100), 0, 30)
    assert brewed(left(to_c, room_c)).hops[0].minutes.number == pytest.approx(worth, rel=1e-6)


def test_a_pot_left_to_itself_cools_fastest_at_first_and_gives_less_than_an_even_fall() -> None:
    even, by_itself, held = (number(brewed(line).hops[0].minutes or 0.0) for line in (falling(75), left(75, 20), STAND))
    assert 0 < by_itself < even < held < 30


def test_hops_in_the_kettle_already_gain_the_same_minutes() -> None:
    """Tinseth's curve, 1 − e^(−0.04 t), at 60 min and at 60 min and those of the stand; his factor of gravity stays."""
    found = brewed(hop("Bitter hop", 20, "boil", minutes=60), left(75, 20))
    worth = number(found.hops[1].minutes or 0.0)
    more = (1 - exp(-0.04 * (60 + worth))) / (1 - exp(-0.04 * 60)) - 1
    assert number(found.gain_in_stand or 0.0) == pytest.approx(found.hops[0].bitterness.number * more, rel=1e-9)
