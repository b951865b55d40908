"""What can stand in for what: near by every measure that a brewer has, and never by a rule that fails at an edge."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from gristbook.model.brings import UNKNOWN
from gristbook.model.larder import Ingredient
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Problems
from gristbook.sheet.value import Value, given
from gristbook.targets.buying.alternatives import AT_MOST, FAR, measure, stand_ins
from gristbook.targets.buying.ingredients import usual_share
from gristbook.text.larder import read_larder

LARDER = read_larder(Pantry.load(None, Problems()))
BY_NAME = {(it.shelf, it.name): it for it in LARDER}
MEASURED = tuple(replace(it, stand_ins={}) for it in LARDER)
"""The same things where nobody says what stands in for them."""


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
    for it in (it for it in MEASURED if it.shelf == shelf):
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


def test_what_the_pantry_names_comes_before_what_is_only_near() -> None:
    """By pedigree, use and oil: what growers and teachers name, from memory but where the pantry says it was read."""
    assert near("hops", "East Kent Golding") == ["Progress", "First Gold", "WGV"]
    assert near("hops", "Centennial") == ["Cascade", "Amarillo", "Simcoe"]  # the first two by growers' data
    assert near("hops", "Fuggle")[0] == "Willamette"
    for it in LARDER:
        named = [name for name in it.stand_ins if (it.shelf, name) in BY_NAME]
        assert len(named) == len(it.stand_ins), it.name
        assert not named or near(it.shelf, it.name) == named


def test_every_hop_that_was_looked_up_says_what_it_was_bred_from_and_what_it_is_for() -> None:
    for it in (it for it in LARDER if it.shelf == "hops"):
        assert ("not looked up" in it.source) == ("oil" not in it.figures), it.name
        if "not looked up" in it.source:
            continue
        assert it.words["pedigree"]
        assert it.words["use"] in ("bittering", "aroma", "dual")
        assert it.stand_ins


def test_what_has_a_taste_of_its_own_has_no_stand_in() -> None:
    """Smoke and lactic acid are not to be had of another malt, nor a diastatic yeast's hunger of another yeast."""
    for name in ("Peat-smoked malt", "Beech-smoked malt", "Acidulated malt"):
        assert near("malts", name) == []
    assert near("yeasts", "Saison") == []


def test_the_words_tell_what_to_do_and_what_is_shared() -> None:
    said = "lighter caramel; <40>, paler; in common: caramel and toffee"
    assert why("malts", "Caramel malt 60 L", "Caramel malt 40 L") == said
    assert why("hops", "Northern Brewer", "Perle").startswith(
        "its daughter; <0.065> alpha acids, so weigh more for the"
    )
    assert why("extracts", "Dried malt extract, light", "Liquid malt extract, light").endswith("so weigh more of it")


def test_a_stand_in_that_brings_an_allergen_says_so() -> None:
    assert "it brings milk" in why("sugars", "Maltodextrin", "Lactose")
    assert "; of wheat" in why("malts", "Chocolate malt", "Chocolate wheat malt")


def test_finings_are_not_ranked() -> None:
    assert near("finings", "Irish moss") == []


PLAIN: dict[str, tuple[dict[str, float], dict[str, str]]] = {
    "malts": (
        {"colour": 20.0, "usual share": 0.1, "diastatic power": 20.0},
        {"kind": "kilned", "cereal": "barley", "needs mash": "yes", "taste": "bread"},
    ),
    "sugars": (
        {"colour": 20.0, "fermentable": 0.8, "moisture": 0.1},
        {"kind": "sugar", "cereal": "barley", "taste": "bread"},
    ),
    "extracts": ({"colour": 20.0}, {"kind": "dried", "cereal": "barley"}),
    "hops": ({"alpha": 0.06, "oil": 1.0}, {"aroma": "earth, mint", "use": "aroma"}),
    "yeasts": (
        {"attenuation": 0.75, "temperature": 18.0},
        {"kind": "ale", "phenolic": "no", "diastatic": "no", "flocculation": "low"},
    ),
}
"""A made-up thing of each shelf."""
UNITS_OF = {"colour": "°L", "diastatic power": "°Lintner", "temperature": "°C"}


def made_up(shelf: str, name: str = "Another", **changes: float | str) -> Ingredient:
    figures, words = PLAIN[shelf]
    changes = {key.replace("_", " "): change for key, change in changes.items()}
    numbers = {**figures, **{key: it for key, it in changes.items() if not isinstance(it, str)}}
    terms = {**words, **{key: it for key, it in changes.items() if isinstance(it, str)}}
    values = {key: given(it, UNITS_OF.get(key, "fraction"), key, words="made up") for key, it in numbers.items()}
    return Ingredient(shelf, name, (), "", "", values, {}, terms, UNKNOWN)  # type: ignore[arg-type]


APART: list[tuple[str, dict[str, float | str], float]] = [
    # Every weight is common practice, no source. Two alike malts or sugars share one taste, which takes a fifth off.
    ("malts", {}, -0.2),
    ("malts", {"taste": "bread, nuts"}, -0.2),
    ("malts", {"taste": "smoke"}, 0.3),
    ("malts", {"colour": 40.0}, 0.4 - 0.2),
    ("malts", {"colour": 10.0}, 0.4 - 0.2),
    ("malts", {"usual_share": 0.2}, 0.2 - 0.2),
    ("malts", {"kind": "caramel"}, 0.7 - 0.2),
    ("malts", {"cereal": "wheat"}, 0.6 - 0.2),
    ("malts", {"diastatic_power": 29.9}, -0.2),
    ("malts", {"diastatic_power": 30.0}, 0.5 - 0.2),
    ("malts", {"needs_mash": "no"}, 0.3 - 0.2),
    ("sugars", {}, -0.2),
    ("sugars", {"fermentable": 0.9}, 0.4 - 0.2),
    ("sugars", {"colour": 40.0}, 0.3 - 0.2),
    ("sugars", {"kind": "syrup"}, 0.2 - 0.2),
    ("extracts", {}, 0.0),
    ("extracts", {"colour": 40.0}, 0.6),
    ("extracts", {"cereal": "wheat"}, 0.8),
    ("extracts", {"kind": "liquid"}, 0.3),
    ("hops", {}, 0.0),
    ("hops", {"aroma": "mint, pine"}, 1 - 1 / 3),
    ("hops", {"aroma": "pine"}, 1.0),
    ("hops", {"alpha": 0.12}, 0.3),
    ("hops", {"use": "bittering"}, 0.3),
    ("hops", {"oil": 2.0}, 0.2),
    ("yeasts", {}, 0.0),
    ("yeasts", {"attenuation": 0.70}, 0.4),
    ("yeasts", {"temperature": 20.0}, 0.24),
    ("yeasts", {"kind": "lager"}, 1.0),
    ("yeasts", {"phenolic": "yes"}, 1.0),
    ("yeasts", {"diastatic": "yes"}, 1.0),
    ("yeasts", {"flocculation": "high"}, 0.2),
]


@pytest.mark.parametrize(("shelf", "changes", "far"), APART)
def test_each_difference_counts_for_so_much(shelf: str, changes: dict[str, float | str], far: float) -> None:
    assert measure(made_up(shelf), made_up(shelf, **changes)) == pytest.approx(far)


def test_unmalted_grain_is_one_family_and_spelt_a_wheat_and_no_malt_is_paler_than_the_palest() -> None:
    for one, other in (({"kind": "flaked"}, {"kind": "raw"}), ({"cereal": "spelt"}, {"cereal": "wheat"})):
        assert measure(made_up("malts", **one), made_up("malts", **other)) == pytest.approx(-0.2)  # type: ignore[arg-type]
    assert measure(made_up("malts", colour=0.5), made_up("malts", colour=1.0)) == pytest.approx(-0.2)
    assert measure(made_up("malts", taste="a, b, c"), made_up("malts", taste="a, b, d")) == pytest.approx(-0.4)


SAID: list[tuple[str, dict[str, float | str], str]] = [
    ("malts", {"colour": 22.9}, ", as dark"),
    ("malts", {"colour": 23.1}, ", darker"),
    ("malts", {"colour": 17.5}, ", as dark"),
    ("malts", {"colour": 17.3}, ", paler"),
    ("sugars", {"moisture": 0.149}, "the same; in"),
    ("sugars", {"moisture": 0.151}, "it holds more water"),
    ("sugars", {"moisture": 0.049}, "it holds less water"),
    ("yeasts", {"attenuation": 0.764}, ", as far"),
    ("yeasts", {"attenuation": 0.766}, ", further"),
    ("yeasts", {"attenuation": 0.734}, ", less far"),
    ("yeasts", {"temperature": 18.9}, ", as far"),
    ("yeasts", {"temperature": 19.0}, "; likes it warmer, around <19>"),
    ("yeasts", {"temperature": 17.0}, "; likes it cooler, around <17>"),
]


@pytest.mark.parametrize(("shelf", "changes", "words"), SAID)
def test_what_is_a_little_more_is_told_as_alike(shelf: str, changes: dict[str, float | str], words: str) -> None:
    (found,) = stand_ins(made_up(shelf), [made_up(shelf, "Other", **changes)])  # type: ignore[arg-type]
    said = "".join(part if isinstance(part, str) else f"<{part.number:g}>" for part in found.why)
    assert words in said
    assert ("likes it" in said) == ("likes it" in words)
    assert ("water" in said) == ("water" in words)


def test_three_are_offered_and_none_from_a_whole_difference_on() -> None:
    nearer = [made_up("yeasts", f"Near {at}", temperature=18 + at) for at in range(1, 6)]
    assert [it.other.name for it in stand_ins(made_up("yeasts"), nearer)] == ["Near 1", "Near 2", "Near 3"]
    edge = [made_up("yeasts", "Within", attenuation=0.6251), made_up("yeasts", "Beyond", kind="lager")]
    assert [it.other.name for it in stand_ins(made_up("yeasts"), edge)] == ["Within"]


USUAL_SHARES = [
    # Common practice, no source: the share, and half of what lies between the least and the most that is usual.
    *(("base", 0.9, 0.25), ("smoked", 0.3, 0.475), ("kilned", 0.1, 0.135), ("caramel", 0.06, 0.05)),
    *(("roast", 0.04, 0.035), ("flaked", 0.1, 0.075), ("torrefied", 0.08, 0.06), ("raw", 0.2, 0.15)),
    *(("sugar", 0.08, 0.085), ("syrup", 0.08, 0.085), ("dried", 0.7, 0.35), ("liquid", 0.85, 0.425)),
]


@pytest.mark.parametrize(("kind", "share", "half"), USUAL_SHARES)
def test_what_nobody_states_a_share_of_has_that_of_its_kind(kind: str, share: float, half: float) -> None:
    taken = usual_share(Ingredient("malts", "Ours", (), "", "", {}, {}, {"kind": kind}, UNKNOWN))
    assert (taken.number, (taken.high - taken.low) / 2) == pytest.approx((share, half))
