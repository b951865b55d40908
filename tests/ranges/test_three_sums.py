"""The three sums by which doubts add up, held to a worked example by hand, to draws, and to what must be so."""

from __future__ import annotations

import numpy as np
import pytest
from drawn_doubts import Doubts, Triple, Z

from gristbook.sheet.doubts import Ends, mixed, triple_of
from gristbook.sheet.doubts import Triple as Three

BY_HAND: dict[str, Ends] = {"alpha": (-3.30, 1.98), "volume": (0.54, -0.52), "scale": (-0.88, 0.88)}
"""26.4 IBU from 30 g (29 to 31) of hops with 8.0 % alpha (7.0 to 8.6) in 20 L (19.6 to 20.4), 0.22 of it used."""


def test_doubts_add_up_as_they_do_by_hand() -> None:
    found = triple_of(26.4, BY_HAND)
    assert (found.low, found.middle, found.high) == pytest.approx((22.95, 26.36, 28.63), abs=0.005)


def test_models_are_mixed_as_they_are_by_hand() -> None:
    first = triple_of(26.4, BY_HAND)
    halves = first.middle - first.low, first.high - first.middle
    others = (Three(m - halves[0] * m / first.middle, m, m + halves[1] * m / first.middle) for m in (31.16, 19.17))
    three = (first, *others)
    assert (mixed(three, 0.05), mixed(three, 0.95)) == pytest.approx((17.6, 32.8), abs=0.05)


def test_the_example_holds_when_it_is_drawn() -> None:
    doubts = Doubts("by hand", 200_000, "halves", 20260913)
    roots: dict[str, Triple] = {"grams": (29, 30, 31), "alpha": (0.07, 0.08, 0.086), "litres": (19.6, 20, 20.4)}
    grams, alpha, litres = (doubts.drawn(name, triple) for name, triple in roots.items())
    low, high = np.quantile(grams * alpha * 0.22 * 1000 / litres, (0.05, 0.95))
    assert (low, high) == pytest.approx((22.95, 28.63), abs=0.1)


@pytest.mark.parametrize("ends", [(-1.0, 1.0), (-3.0, 1.0), (-1.0, 5.0), (0.0, 2.0), (-2.0, 0.0), (1.0, -4.0)])
def test_a_doubt_that_stands_alone_gives_itself_back(ends: Ends) -> None:
    found = triple_of(10.0, {"it": ends})
    assert (found.low - 10, found.middle - 10, found.high - 10) == pytest.approx((min(ends), 0, max(ends)), abs=1e-9)


def test_what_is_certain_has_no_end() -> None:
    assert triple_of(7.0, {}) == Three(7.0, 7.0, 7.0)
    assert triple_of(7.0, {"nothing": (0.0, 0.0)}) == Three(7.0, 7.0, 7.0)
    assert triple_of(26.4, {**BY_HAND, "nothing": (0.0, 0.0)}) == triple_of(26.4, BY_HAND)


def test_many_doubts_to_one_side_come_near_a_normal() -> None:
    """Twenty alike of 1 : 5; what they give in draws, to a twentieth of the range."""
    ends = {f"doubt {n}": (-0.2, 1.0) for n in range(20)}
    found = triple_of(0.0, ends)
    doubts = Doubts("many", 100_000, "halves", 20260913)
    whole = sum(doubts.drawn(name, (low, 0.0, high)) for name, (low, high) in ends.items())
    low, half, high = np.quantile(whole, (0.05, 0.5, 0.95))
    room = (high - low) / 20
    assert (found.low, found.middle, found.high) == pytest.approx((low, half, high), abs=room)


def test_a_shape_passes_through_its_three_points() -> None:
    for shape in ("halves", "lognormals"):
        found = Doubts("one", 400_000, shape, 20260913).drawn("it", (8.0, 10.0, 11.0))
        assert np.quantile(found, (0.05, 0.5, 0.95)) == pytest.approx((8.0, 10.0, 11.0), abs=0.02)
    assert pytest.approx(1.6449, abs=1e-4) == Z
