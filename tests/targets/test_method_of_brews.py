"""The method of brews of every kind: what a line calls for is a step, at its place, and what it does not is absent."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.extra import Extra
from gristbook.problems import Place
from gristbook.sheet.value import Value, given
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import measured
from gristbook.targets.method.whole import Step, steps
from gristbook.text.brewhouse import default_brewhouse

MASHED = """---
title: A trial
batch: 20 L
boil: 60 min
malts:
  - 4 kg pale ale malt
{more}
yeast:
  - 11 g irish ale yeast, dried
{mash}
ferment:
  - 19 °C, 10 days
carbonation: {gas}
---
Prose.
"""
PRIMED = "2.2 volumes, primed with table sugar"
ONE_REST = "mash:\n  - 67 °C, 60 min"

EXTRACT = """---
title: A trial
batch: 20 L
kettle: 12 L
boil: 60 min
extracts:
  - 2 kg light dried malt extract
  - 1 kg light dried malt extract, 10 min
hops:
  - 30 g Fuggle, 4.5 %, 60 min
yeast:
  - 11 g irish ale yeast, dried
ferment:
  - 19 °C, 10 days
carbonation: 2.2 volumes, primed with table sugar
---
Prose.
"""


@pytest.fixture
def planned(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    """`planned(more)`: a plain mash with further sections, or another text, worked out."""

    def build(more: str = "", *, mash: str = ONE_REST, gas: str = PRIMED, text: str = "", bag: bool = False) -> Plan:
        sets = {"home": bagged() if bag else default_brewhouse()}
        outcome = plan_of(text or MASHED.format(more=more, mash=mash, gas=gas), sets)
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


@pytest.fixture
def brew(planned: Callable[..., Plan]) -> Callable[..., tuple[Step, ...]]:
    """`brew(more)`: the same, as steps."""
    return lambda *more, **other: steps(planned(*more, **other))


def bagged() -> Brewhouse:
    kept = given(0.7, "L/kg", "water that the grain keeps", words="a drained bag")
    return replace(default_brewhouse(), mash="bag", absorption=kept)


def kinds(method: tuple[Step, ...]) -> list[str]:
    return [step.kind for step in method]


def words(step: Step) -> str:
    """A step as text, each value as its number and unit."""
    shown = (f"{part.number:g} {part.unit}" if isinstance(part, Value) else part for s in step.sentences for part in s)
    return "".join(shown)


def values(step: Step, unit: str) -> list[float]:
    return [part.number for s in step.sentences for part in s if isinstance(part, Value) and part.unit == unit]


def the(method: tuple[Step, ...], kind: str) -> Step:
    (step,) = (step for step in method if step.kind == kind)
    return step


# What does not apply is absent


def test_an_extract_brew_has_no_mash(brew: Callable[..., tuple[Step, ...]]) -> None:
    absent = {*("crush", "mash", "rest", "infuse", "decoct", "warm", "sparge", "drain", "check"), "steep", "stand"}
    method = brew(text=EXTRACT)
    assert not absent & set(kinds(method))
    assert kinds(method).count("dissolve") == 2
    assert values(the(method, "heat"), "L")[0] + 2 * 0.63 == pytest.approx(12), "the early extract makes up the volume"


def test_a_bag_has_no_sparge_and_a_tun_no_bag(brew: Callable[..., tuple[Step, ...]]) -> None:
    assert "drain" in kinds(brew(bag=True))
    assert "sparge" not in kinds(brew(bag=True))
    assert "drain" not in kinds(brew())
    assert kinds(brew()).count("sparge") == 2


def test_a_plain_brew_has_neither_stand_nor_dry_hops_nor_topping_up(brew: Callable[..., tuple[Step, ...]]) -> None:
    assert not {"stand", "dry-hop", "feed", "top-up", "dissolve", "first-wort", "keg"} & set(kinds(brew()))


def test_a_keg_has_no_priming_and_no_bottles(brew: Callable[..., tuple[Step, ...]]) -> None:
    method = brew(gas="3.0 volumes, keg")
    assert not {"prime", "bottle", "keep"} & set(kinds(method))
    # The published table of gas by pressure and temperature: 3.0 volumes at 4 °C need 1.18 bar.
    assert values(the(method, "keg"), "bar")[0] == pytest.approx(1.18, abs=0.02)


def test_a_recipe_without_carbonation_is_bottled_without_sugar(planned: Callable[..., Plan]) -> None:
    text = MASHED.format(more="", mash=ONE_REST, gas=PRIMED).replace(f"carbonation: {PRIMED}\n", "")
    method = steps(planned(text=text))
    assert "prime" not in kinds(method)
    assert "gives no carbonation" in words(the(method, "bottle"))


# The mash


def test_infusions_leave_less_to_sparge_with(brew: Callable[..., tuple[Step, ...]]) -> None:
    one = brew()
    two = brew(mash="mash:\n  - 52 °C, 15 min\n  - 67 °C, 60 min")

    def sparge(method: tuple[Step, ...]) -> float:
        return values(next(step for step in method if step.title == "Heat the sparge water"), "L")[0]

    assert sparge(one) - sparge(two) == pytest.approx(values(the(two, "infuse"), "L")[0])


def test_a_decoction_is_drawn_by_a_balance_of_heat(brew: Callable[..., tuple[Step, ...]]) -> None:
    drawn = the(brew(mash="mash:\n  - 52 °C, 15 min\n  - 67 °C, 60 min, decoction"), "decoct")
    room = 4 * 2.7 + 0.67 * 4  # the mash water at 2.7 L/kg, and the room that 4 kg of grain take
    part = values(drawn, "L")[0]
    assert ((room - part) * 52 + part * 100) / room == pytest.approx(67, abs=0.05)


def test_a_bag_that_holds_all_its_water_is_warmed_on_the_stove(brew: Callable[..., tuple[Step, ...]]) -> None:
    method = brew(mash="mash:\n  - 52 °C, 15 min\n  - 67 °C, 60 min", bag=True)
    assert "warm" in kinds(method)
    assert "infuse" not in kinds(method)


def test_first_wort_hops_are_in_the_kettle_before_the_wort(brew: Callable[..., tuple[Step, ...]]) -> None:
    hops = "hops:\n  - 22 g Tettnang, 4 %, first wort"
    run_off = next(step for step in brew(hops) if step.title == "Run off the wort")
    assert "22 g of Tettnang into the empty kettle" in words(run_off)
    method = brew(hops, bag=True)
    assert kinds(method).index("drain") < kinds(method).index("first-wort") < kinds(method).index("boil")


# The kettle


def test_what_dissolves_goes_in_with_the_heat_off(brew: Callable[..., tuple[Step, ...]]) -> None:
    method = brew("sugars:\n  - 400 g lactose\n  - 150 g golden syrup, 10 min\nhops:\n  - 20 g Fuggle, 4.5 %, 10 min")
    stirred = [step for step in method if step.kind == "dissolve"]
    assert [step.title for step in stirred] == ["Stir in the lactose", "Stir in the golden syrup"]
    for step in stirred:
        assert "heat off" in words(step)
        assert any("Heat off" in words for (words,) in step.cautions)
    assert words(stirred[1]).index("heat off") < words(stirred[1]).index("Fuggle"), "sugar first, then the hops"
    assert "hops" not in kinds(method)


def test_an_addition_at_no_minutes_is_told_as_the_heat_goes_off(brew: Callable[..., tuple[Step, ...]]) -> None:
    method = brew("hops:\n  - 20 g Fuggle, 4.5 %, 0 min\nsugars:\n  - 100 g honey, 0 min")
    step = the(method, "dissolve")
    assert words(step).startswith("With the heat off, stir in 0.1 kg of honey")
    assert "Bring it back to the boil" not in words(step)


def test_extras_go_in_at_the_time_that_their_line_says(brew: Callable[..., tuple[Step, ...]]) -> None:
    method = brew(
        "finings and spices:\n  - 10 g coriander, 1/2 h\n  - 5 g irish moss, 10 min\n  - 50 g cocoa nibs, 5 days\n"
        "  - 100 g rice hulls, in the mash\n  - 2 pods vanilla, into the fermenter\n"
        "  - 3 g gelatine, after fermentation"
    )
    assert "30 min before the end, add 0.01 kg of coriander seed." in words(method[kinds(method).index("addition")])
    assert "rice hulls" in words(the(method, "mash"))
    fed = [words(step) for step in method if step.kind == "feed"]
    assert "vanilla" in fed[0]
    assert "5 d before you mean to package it" in fed[1]
    assert "gelatine" in fed[2]


def test_an_extra_without_a_time_is_not_given_one(brew: Callable[..., tuple[Step, ...]]) -> None:
    method = brew("finings and spices:\n  - 5 g orange {peel} & co")
    assert "does not say when to add 0.005 kg of orange {peel} & co: follow the label." in words(method[0])


def test_hops_that_stand_together_are_one_step_and_the_hottest_comes_first(
    brew: Callable[..., tuple[Step, ...]],
) -> None:
    method = brew(
        "hops:\n  - 10 g Fuggle, 4.5 %, stand 10 min at 70 °C\n  - 20 g Cascade, 6 %, stand 20 min from 95 to 85 °C\n"
        "  - 30 g Saaz, 3 %, stand 10 min at 70 °C"
    )
    hot, cool = (words(step) for step in method if step.kind == "stand")
    assert "95 °C" in hot
    assert "Let it fall to 85 °C over 20 min." in hot
    assert "10 g of Fuggle and 30 g of Saaz" in cool


def test_a_stand_that_is_left_alone_is_a_step_of_its_own(brew: Callable[..., tuple[Step, ...]]) -> None:
    method = brew(
        "hops:\n  - 20 g Cascade, 6 %, stand 20 min from 95 to 85 °C\n"
        "  - 30 g Saaz, 3 %, stand 20 min cooling from 95 to 85 °C in a room of 12 °C"
    )
    told = [words(step) for step in method if step.kind == "stand"]
    assert sorted("Let it fall to 85 °C over 20 min." in step for step in told) == [False, True]
    assert sorted("Leave it to cool by itself: it should come to about 85 °C in 20 min." in step for step in told) == [
        False,
        True,
    ]


def test_a_partial_boil_is_cooled_before_cold_water_meets_it(brew: Callable[..., tuple[Step, ...]]) -> None:
    method = brew(text=EXTRACT)
    told = kinds(method)
    assert told.index("cool") < told.index("top-up") < told.index("read") < told.index("pitch")
    assert values(the(method, "cool"), "°C")[0] == 30
    cold = values(the(method, "top-up"), "L")[0]
    assert ((20 - cold) * 30 + cold * 10) / 20 < 25, "with water at 10 °C it ends where yeast can live; from 100 °C not"
    assert ((20 - cold) * 100 + cold * 10) / 20 > 40


def test_ice_for_a_brewer_without_a_cooler_is_told_with_its_hygiene(brew: Callable[..., tuple[Step, ...]]) -> None:
    cool = the(brew(text=EXTRACT), "cool")
    assert "of clean ice into the fermenter" in words(cool)
    assert [said for said in cool.cautions if "Ice is as clean as its water and its box" in str(said)]
    assert [said for said in cool.cautions if "Never hot wort into glass" in str(said)]


# Fermentation


def test_readings_are_taken_after_the_last_sugar_and_the_dry_hops(brew: Callable[..., tuple[Step, ...]]) -> None:
    method = brew("sugars:\n  - 300 g honey, into the fermenter\nhops:\n  - 20 g Fuggle, dry 3 days, whole")
    told = kinds(method)
    assert told.index("feed") < told.index("dry-hop") < told.index("finished") < told.index("bottle")
    assert words(the(method, "finished")).startswith(
        "Take a reading in a sample at 20 °C, with the honey and dry hops in"
    )


@pytest.mark.parametrize(("days", "within"), [(2, False), (3, True), (5, True)])
def test_dry_hops_lie_in_the_beer_as_long_as_the_recipe_says(
    days: int, within: bool, brew: Callable[..., tuple[Step, ...]]
) -> None:
    """Two readings, three days apart, fall into the days of the hops where these are long enough."""
    method = brew(f"hops:\n  - 20 g Fuggle, dry {days} days")
    assert values(the(method, "dry-hop"), "d") == [days]
    read = words(the(method, "finished"))
    assert ("3 d before you mean to package it, and another on the day." in read) is within
    assert read.startswith("After the dry hops, take a reading") is not within


def test_dry_hops_go_in_from_the_longest_to_the_shortest(brew: Callable[..., tuple[Step, ...]]) -> None:
    method = brew("hops:\n  - 20 g Fuggle, dry 2 days\n  - 25 g Cascade, dry 1 week\n  - 30 g Saaz, dry 2 days")
    assert [values(step, "d") for step in method if step.kind == "dry-hop"] == [[7], [2]]


def test_a_recipe_without_ferment_steps_keeps_to_what_its_yeast_likes(planned: Callable[..., Plan]) -> None:
    text = MASHED.format(more="", mash=ONE_REST, gas=PRIMED)
    text = text.replace("ferment:\n  - 19 °C, 10 days\n", "").replace(f"carbonation: {PRIMED}\n", "")
    method = steps(planned(text=text))
    assert "between 17 °C and 21 °C" in words(the(method, "ferment"))


@pytest.mark.parametrize(
    ("amount", "written", "said"),
    [
        (given(0.01, "kg", "moss", words="made up"), "10 g", "0.01 kg of Irish moss"),
        (given(2.0, "pieces", "moss", words="made up"), "2 pods", "2 pods Irish moss"),
        (given(2.0, "pieces", "moss", words="made up"), "", "2 pieces of Irish moss"),
        (None, "a pinch of", "a pinch of Irish moss"),
        (None, "", "Irish moss"),
    ],
)
def test_pieces_and_pinches_are_told_as_the_author_wrote_them(amount: Value | None, written: str, said: str) -> None:
    extra = Extra("Irish moss", amount, written, None, "", "", None, Place("a.md"))
    assert "".join(it if isinstance(it, str) else f"{it.number:g} {it.unit}" for it in measured(extra)) == said


SUGAR, TWO_SUGARS = "sugars:\n  - 200 g table sugar", "sugars:\n  - 200 g table sugar\n  - 100 g honey, 5 min"
LIQUID = ("11 g irish ale yeast, dried", "2 packs irish ale yeast, liquid")
FLAKED = ("malts:\n", "malts:\n  - 300 g flaked oats\n")
BEFORE: list[tuple[str, tuple[str, str], str, bool]] = [
    (SUGAR, ("", ""), "Weigh the sucrose (table sugar) into a dry jug.", True),
    (TWO_SUGARS, ("", ""), "into dry jugs, one for each time.", True),
    ("", ("", ""), "Weigh the ", False),
    ("", ("", ""), "Weigh each addition of hops", False),
    ("hops:\n  - 20 g Fuggle, 4.5 %, 60 min", ("", ""), "Weigh each addition of hops", True),
    ("", FLAKED, "leave out the flaked oats.", True),
    ("", ("", ""), "Rolled grain", False),
    ("", LIQUID, "Take the liquid yeast out of the cold", True),
    ("", ("", ""), "Take the liquid yeast out of the cold", False),
    ("", LIQUID, "Shake each pack", True),
    ("", ("", ""), "Sprinkle it on", True),
    ("", LIQUID, "Sprinkle it on", False),
]


@pytest.mark.parametrize(("more", "put", "said", "is_said"), BEFORE)
def test_what_a_brew_calls_for_is_said_before_it_and_no_more(
    more: str, put: tuple[str, str], said: str, is_said: bool, brew: Callable[..., tuple[Step, ...]]
) -> None:
    old, new = put
    text = MASHED.format(more=more, mash=ONE_REST, gas=PRIMED)
    method = brew(text=text.replace(old, new) if old else text)
    assert any(said in words(step) for step in method) is is_said, [words(step) for step in method]


PLAIN = MASHED.format(more="", mash=ONE_REST, gas=PRIMED)
STIRRED_IN = MASHED.format(more="extracts:\n  - 500 g light dried malt extract", mash=ONE_REST, gas=PRIMED)
STEEPED = EXTRACT.replace("extracts:\n", "malts:\n  - 300 g caramel malt 40, steep 30 min at 68 °C\nextracts:\n")
TWO_STEEPS = STEEPED.replace("extracts:\n", "  - 100 g chocolate malt, steep 10 min at 70 °C\nextracts:\n")
FED = MASHED.format(more="sugars:\n  - 400 g honey, into the fermenter", mash=ONE_REST, gas=PRIMED)
FIRST_WORT = MASHED.format(more="hops:\n  - 20 g Fuggle, 4.5 %, first wort", mash=ONE_REST, gas=PRIMED)
KEG = MASHED.format(more="", mash=ONE_REST, gas="2.4 volumes, keg")
DISTILLED = MASHED.format(more="water:\n  - 5 L distilled water", mash=ONE_REST, gas=PRIMED)
BRANCHES: list[tuple[str, str, str]] = [
    # What is said of the one brew, and not of the other beside it.
    (EXTRACT, STIRRED_IN, "The kettle should now hold 12 L, measured cool."),
    (EXTRACT, PLAIN, " or less, as fast as you can."),
    (EXTRACT, PLAIN, "which is enough for topping up too"),
    (STEEPED, EXTRACT, "Pour another "),
    (TWO_STEEPS, STEEPED, "Bring the same water to 70 °C."),
    (FED, PLAIN, "Wait until the first rush is over"),
    (FED, PLAIN, "With the honey to come later, the beer counts as"),
    (PLAIN, STIRRED_IN, "A sample, cooled to 20 °C, should read"),
    (FIRST_WORT, PLAIN, "into the empty kettle, for the first wort to run on to."),
    (PLAIN, KEG, ", in one go: the yeast stays in the bottle"),
    (PLAIN, EXTRACT, "Run the water into the tun"),
    (DISTILLED, PLAIN, "distilled water"),
    (EXTRACT, PLAIN, "Bring it back to the boil before you go on counting."),
]


@pytest.mark.parametrize(("text", "other", "said"), BRANCHES, ids=[said for _, _, said in BRANCHES])
def test_what_is_said_of_one_brew_is_not_said_of_its_neighbour(
    text: str, other: str, said: str, brew: Callable[..., tuple[Step, ...]]
) -> None:
    here, there = ([words(step) for step in brew(text=it)] for it in (text, other))
    assert any(said in step for step in here), here
    assert not any(said in step for step in there), there


def test_a_bag_is_filled_and_first_wort_hops_go_into_its_pot(brew: Callable[..., tuple[Step, ...]]) -> None:
    tun, bag = brew(text=FIRST_WORT), brew(text=FIRST_WORT, bag=True)
    assert ("first-wort" in kinds(tun), "first-wort" in kinds(bag)) == (False, True)
    assert "line the pot with the bag" in words(the(bag, "mash"))
