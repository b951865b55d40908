"""A potential that an author tells in the trade's other ways gives the beer that handbooks say it gives."""

from __future__ import annotations

import pytest

from gristbook.pantry.pantry import Pantry
from gristbook.problems import Place, Problems
from gristbook.reading.tree import Text
from gristbook.sheet.doubts import NINE_IN_TEN
from gristbook.targets.wort.grist import potential
from gristbook.text.brew import Brew
from gristbook.text.grist import read_malt, read_sugar
from gristbook.text.values import Desk, unread


def desk() -> Desk:
    return Desk(Pantry.load(None, Problems()), Problems())


@pytest.mark.parametrize(
    ("words", "share"),
    [
        ("36 ppg", 36 / 46.2),
        ("300 L°/kg", 300 / 386),
        ("300 L° / kg", 300 / 386),
        ("46.17 ppg", 1.0),
        ("0 ppg", 0.0),
    ],
)
def test_points_and_litre_degrees_are_a_share_of_pure_extract(words: str, share: float) -> None:
    """Books round pure sugar to 46.2 points and 386 litre-degrees; the wort's strength moves it by half a per cent."""
    malt = read_malt(Text(f"3 kg pale ale malt, {words}", Place("a.md", 1)), desk())
    assert malt is not None
    assert potential(malt).number == pytest.approx(share, rel=0.005)


def test_a_sugar_may_be_told_so_too() -> None:
    sugar = read_sugar(Text("100 g golden syrup, 38 ppg", Place("a.md", 1)), Brew(60.0, unread("L"), ()), desk())
    assert sugar is not None
    assert potential(sugar).number == pytest.approx(38 / 46.2, rel=0.005)


def test_a_doubt_of_the_points_is_one_of_the_potential() -> None:
    malt = read_malt(Text("3 kg pale ale malt, 36 ppg ± 1", Place("a.md", 1)), desk())
    assert malt is not None
    assert NINE_IN_TEN * potential(malt).spread == pytest.approx(1 / 46.2, rel=0.01)
