"""Hops that were kept: the alpha acids that are left in them, by a later storage index or by how they were kept.

Garetz 1994: lost = 110 log10(HSI / 0.25) per cent; in store k = −ln(1 − lost)/180 a day, half that for every 15 °C
below 20 °C, times 1.0 in the open, 0.75 airtight, 0.5 under vacuum.
"""

from dataclasses import replace
from math import log10

import pytest
from made_up import BASES, brewhouse, hop, malt, recipe, value

from gristbook.model.amount import Wanted
from gristbook.model.hop import Hop, Store
from gristbook.sheet.origin import Worked
from gristbook.sheet.value import lineage, number
from gristbook.targets.chain import work_out
from gristbook.targets.results import HopFigures

FRESH = hop("Bitter hop", 20, "boil", minutes=60, alpha=0.10)


def brewed(line: Hop) -> HopFigures:
    beer = replace(recipe(20, 60, (malt("Pale malt", BASES["Pale malt"], 4.3),)), hops=(line,))
    return work_out(beer, brewhouse("home", 20), "tinseth 1997", "morey 1995").bitterness.hops[0]


def measured(hsi: float, line: Hop) -> HopFigures:
    return brewed(replace(line, storage_index=value(hsi, "ratio", "hop storage index")))


@pytest.mark.parametrize("hsi", [0.25, 0.30, 0.40, 0.9])
def test_a_later_storage_index_takes_what_was_lost_off_the_packets_figure(hsi: float) -> None:
    left = 1 - 1.10 * log10(hsi / 0.25)
    found, fresh = measured(hsi, FRESH), brewed(FRESH)
    assert found.alpha.number == pytest.approx(0.10 * left, rel=1e-9)
    assert found.bitterness.number == pytest.approx(fresh.bitterness.number * left, rel=1e-9)


def test_hops_fresher_than_fresh_have_lost_nothing_and_the_working_says_so() -> None:
    found = measured(0.22, FRESH)
    assert found.alpha.number == pytest.approx(0.10, rel=1e-12)
    (lost,) = [value for value in lineage(found.alpha) if value.label.startswith("alpha acids lost")]
    assert isinstance(lost.origin, Worked)
    assert [str(note) for note in lost.origin.notes if "the least there can be" in str(note)]


def test_old_hops_that_are_to_bring_a_bitterness_are_weighed_for_what_is_left() -> None:
    asked = replace(FRESH, amount=Wanted(value(22, "IBU", "bitterness wanted")))
    old, fresh = measured(0.40, asked), brewed(asked)
    assert old.bitterness.number == pytest.approx(22, rel=1e-9)
    assert number(old.mass) == pytest.approx(number(fresh.mass) / (1 - 1.10 * log10(0.40 / 0.25)), rel=1e-9)


@pytest.mark.parametrize(("package", "power"), [(1.0, 1.0), (0.75, 0.75), (0.5, 0.5), (None, 0.75)])
def test_hops_keep_by_what_they_are_kept_in(package: float | None, power: float) -> None:
    """180 days at 20 °C in the open lose 40 %; at 5 °C they age half as fast."""
    kept = None if package is None else value(package, "ratio", "how the hops are kept")
    lost = value(0.4, "fraction", "lost")
    store = Store(value(180, "d", "days"), value(5, "°C", "store"), lost, kept)
    found = brewed(replace(FRESH, store=store))
    assert found.alpha.number == pytest.approx(0.10 * 0.6 ** (0.5 * power), rel=1e-9)
    unsure = "how the hops are kept" in found.alpha.doubts
    assert unsure is (package is None), "who says what they were kept in is sure of it"
