"""What can stand in for what: near by every measure that a brewer has, and never by a rule that fails at an edge."""

from __future__ import annotations

from itertools import combinations

import pytest

from gristbook.pantry.pantry import Pantry
from gristbook.problems import Problems
from gristbook.sheet.value import Value
from gristbook.targets.buying.alternatives import AT_MOST, FAR, measure, stand_ins
from gristbook.text.larder import read_larder

LARDER = read_larder(Pantry.load(None, Problems()))
BY_NAME = {(it.shelf, it.name): it for it in LARDER}


def near(shelf: str, name: str) -> list[str]:
    return [found.other.name for found in stand_ins(BY_NAME[shelf, name], LARDER)]  # type: ignore[index]


def why(shelf: str, name: str, other: str) -> str:
    found = next(it for it in stand_ins(BY_NAME[shelf, name], LARDER) if it.other.name == other)  # type: ignore[index]
    return "".join(part if isinstance(part, str) else f"<{part.number:g}>" for part in found.why)


@pytest.mark.parametrize("it", LARDER, ids=lambda it: it.name)
def test_stand_ins_are_few_of_the_same_shelf_and_never_the_thing_itself(it) -> None:  # type: ignore[no-untyped-def]
    found = stand_ins(it, LARDER)
    assert len(found) <= AT_MOST
    assert all(one.other.shelf == it.shelf and one.other.name != it.name for one in found)
    assert all(any(isinstance(part, Value) for part in one.why) for one in found), "each says a number"


@pytest.mark.parametrize("shelf", ["malts", "sugars", "extracts", "hops", "yeasts"])
def test_two_things_are_as_far_apart_from_either_side(shelf: str) -> None:
    things = [it for it in LARDER if it.shelf == shelf]
    for one, other in combinations(things, 2):
        assert measure(one, other) == pytest.approx(measure(other, one))


@pytest.mark.parametrize("shelf", ["malts", "sugars", "extracts", "hops", "yeasts"])
def test_the_nearest_come_first_and_nothing_far_is_offered(shelf: str) -> None:
    for it in (it for it in LARDER if it.shelf == shelf):
        far = [measure(it, found.other) for found in stand_ins(it, LARDER)]
        assert far == sorted(far)
        assert all(each < FAR for each in far)


def test_what_every_brewer_swaps_is_offered() -> None:
    """Swaps of common practice, no source."""
    assert near("malts", "Pilsner malt")[0] == "Pale two-row malt"
    assert "Munich malt, dark" in near("malts", "Munich malt, light")
    assert near("malts", "Caramel malt 60 L")[0] == "Caramel Munich malt 57 L"
    assert "Dehusked roasted malt" in near("malts", "Chocolate malt")
    assert "Glucose monohydrate" in near("sugars", "Sucrose")
    assert near("extracts", "Dried malt extract, light")[0] == "Liquid malt extract, light"
    assert near("yeasts", "American ale, clean")[0] in ("English ale, attenuative", "Irish ale")
    assert "Tettnang" in near("hops", "Spalt")


def test_what_has_a_taste_of_its_own_has_no_stand_in() -> None:
    """Smoke, lactic acid and rye are not to be had of another malt, nor a diastatic yeast's hunger of another yeast."""
    for name in ("Peat-smoked malt", "Beech-smoked malt", "Acidulated malt", "Rye malt"):
        assert near("malts", name) == []
    assert near("yeasts", "Saison") == []


def test_the_words_tell_what_to_do_and_what_is_shared() -> None:
    assert why("malts", "Caramel malt 60 L", "Caramel malt 40 L") == "<40>, paler; in common: caramel and toffee"
    assert why("hops", "Fuggle", "Northern Brewer").startswith("<0.085> alpha acids, so weigh less for the same bitter")
    assert why("extracts", "Dried malt extract, light", "Liquid malt extract, light").endswith("so weigh more of it")


def test_a_stand_in_that_brings_an_allergen_says_so() -> None:
    assert "it brings milk" in why("sugars", "Maltodextrin", "Lactose")
    assert "; of wheat" in why("malts", "Chocolate malt", "Chocolate wheat malt")


def test_finings_are_not_ranked() -> None:
    assert near("finings", "Irish moss") == []
