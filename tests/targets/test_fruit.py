"""Fruit by hand: sugar, water, pulp and acid of the table's rows go into gravity, strength, volumes, gas and advice."""

import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from gristbook.pantry.pantry import ours
from gristbook.problems import Severity
from gristbook.site.book.feeds import figures_json
from gristbook.targets.advice.against import told
from gristbook.targets.advice.cautions import cautions, in_short
from gristbook.targets.advice.gas_routes import routes_to_gas
from gristbook.targets.advice.unreckoned import unreckoned
from gristbook.targets.buying.cost import needs
from gristbook.targets.conventions import SUGAR_ROOM, WATER_ROOM
from gristbook.targets.editions.sizing import sized
from gristbook.targets.figures import Plan
from gristbook.targets.method.whole import steps
from gristbook.text.brewhouse import default_brewhouse
from gristbook.text.writing import sections_of

BREW = """---
title: A trial
batch: 20 L
{grist}
hops:
  - 30 g Fuggle, 4.5 % alpha, 60 min
{more}
yeast: 11 g english ale yeast, attenuative, dried
mash: 67 °C, 60 min
ferment: 19 °C, 21 days
carbonation: {gas}
---
"""
WEIGHTS = "malts:\n  - 4 kg pale ale malt"
CHERRIES = "fruit:\n  - 3 kg sour cherries, into the fermenter, 14 days"


@pytest.fixture
def brew(plan_of: Callable[..., Any]) -> Callable[..., Any]:
    """`brew(more)`: what comes of a plain ale with further sections."""

    def build(more: str = "", *, grist: str = WEIGHTS, gas: str = "2.0 volumes, primed with table sugar") -> Any:
        return plan_of(BREW.format(grist=grist, more=more, gas=gas), {"home": default_brewhouse()})

    return build


@pytest.fixture
def plan(brew: Callable[..., Any]) -> Callable[..., Plan]:
    def build(*args: Any, **more: Any) -> Plan:
        outcome = brew(*args, **more)
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


def test_three_kilograms_of_cherries_bring_what_the_table_says(plan: Callable[..., Plan]) -> None:
    """Sour cherries: 8.49 g of sugar and 86.1 g of water in 100 g, 1.8 g of acid; their pulp keeps 0.3 L/kg."""
    bare, fruited = plan().figures, plan(CHERRIES).figures
    sugar_kg, water_kg = 3 * 0.0849, 3 * 0.861
    assert fruited.grist.sugars[0].extract.number == pytest.approx(sugar_kg, rel=1e-6) == 0.2547
    juice_l = water_kg / 0.9982 + sugar_kg * 0.62
    assert juice_l == pytest.approx(2.7456, abs=2e-4)
    assert fruited.volumes.fruit is not None
    assert fruited.volumes.fruit.number == pytest.approx(juice_l, abs=1e-3)
    assert fruited.volumes.into_fermenter.number == bare.volumes.into_fermenter.number == pytest.approx(20)
    more_l = fruited.volumes.packaged.number - bare.volumes.packaged.number
    assert more_l == pytest.approx(2.7456 - 3 * 0.3, abs=1e-3)
    assert fruited.fermentation.fruit_acid is not None
    assert fruited.fermentation.fruit_acid.number == pytest.approx(1000 * 3 * 0.018 / (20 + juice_l), rel=1e-3)
    assert fruited.bitterness.total.number == pytest.approx(
        bare.bitterness.total.number * 20 / (20 + juice_l), rel=1e-4
    )
    assert fruited.wort.original == bare.wort.original


def test_what_the_yeast_makes_of_them_is_balling_by_hand(plan: Callable[..., Plan]) -> None:
    """Mass of wort and juice together, all sugar of the fruit fermented, alcohol by Balling's 2.0665 and 0.010665."""
    bare, fruited = plan().figures, plan(CHERRIES).figures
    wort_kg = 20 * bare.wort.original.number * 0.99823
    wort_extract = wort_kg * bare.wort.original_plato.number / 100
    juice_kg, sugar_kg = 3 * (0.861 + 0.0849), 3 * 0.0849
    original = 100 * (wort_extract + sugar_kg) / (wort_kg + juice_kg)
    left_kg = wort_extract * (1 - bare.fermentation.real_attenuation.number)
    real = original - 100 * (wort_extract + sugar_kg - left_kg) / (wort_kg + juice_kg)
    by_weight = (original - real) / (2.0665 - 0.010665 * original)
    assert fruited.wort.equivalent_original_plato.number == pytest.approx(original, rel=1e-3)
    assert fruited.fermentation.abw.number == pytest.approx(by_weight, rel=2e-3)
    assert fruited.fermentation.abv.number > bare.fermentation.abv.number
    assert fruited.fermentation.final.number < bare.fermentation.final.number


@pytest.mark.parametrize(
    ("brix", "density"), [(8.0, 1.030), (10.0, 1.038), (14.0, 1.055), (16.0, 1.064), (20.0, 1.081)]
)
def test_juice_takes_the_room_that_the_bureau_of_standards_printed(brix: float, density: float) -> None:
    """Densities of sucrose in water at 20 °C, National Bureau of Standards circular C440, as the table quotes them."""
    room = (1 - brix / 100) * WATER_ROOM.number + brix / 100 * SUGAR_ROOM.number
    assert 1 / room == pytest.approx(density, abs=0.002)


def test_juice_in_the_kettle_takes_the_place_of_water_and_brings_its_sugar(plan: Callable[..., Plan]) -> None:
    """10 L of 1.048 kg/L with 9.62 % of sugar and 88.2 % of water: 1.008 kg of sugar, and room for 9.885 L."""
    bare, juicy = plan().figures, plan("fruit:\n  - 10 L apple juice, in the kettle").figures
    assert juicy.grist.sugars[0].extract.number == pytest.approx(10.48 * 0.0962, rel=1e-3)
    assert bare.water.total.number - juicy.water.total.number == pytest.approx(9.885, abs=0.02)
    assert juicy.volumes.packaged.number == pytest.approx(bare.volumes.packaged.number)
    assert juicy.volumes.fruit is None
    assert juicy.wort.original.number > bare.wort.original.number + 0.012


def test_late_juice_swells_the_wort_and_pulp_stays_in_the_kettle(plan: Callable[..., Plan]) -> None:
    late = plan("fruit:\n  - 2 kg raspberries, 5 min").figures
    juice_l = 2 * (0.858 * 1.0018 + 0.0442 * 0.62)
    steam = late.volumes.boil.number + juice_l - late.volumes.end_of_boil.number
    assert steam == pytest.approx(default_brewhouse().boil_off.number, abs=1e-3)
    left = default_brewhouse().left_in_kettle.number
    assert late.volumes.left_in_kettle.number == pytest.approx(left + 2 * 0.3, abs=1e-6)


def test_beside_percentages_fruit_has_a_weight_and_the_gravity_is_reached(plan: Callable[..., Plan]) -> None:
    shares = "original gravity: 1.050\nmalts:\n  - 100 % pale ale malt"
    for more in (CHERRIES, "fruit:\n  - 4 L apple juice, in the kettle"):
        assert plan(more, grist=shares).figures.wort.original.number == pytest.approx(1.050, abs=2e-4)
    less = plan("fruit:\n  - 4 L apple juice, in the kettle", grist=shares).figures.grist.malts[0].mass.number
    assert less < plan(grist=shares).figures.grist.malts[0].mass.number


def test_juice_at_packaging_primes_and_there_is_so_much_less_sugar(plan: Callable[..., Plan]) -> None:
    """A litre of raspberry juice (1.0375 kg, 8 % of sugar) and the rest make the gas: 44.01 g are 22.26 L."""
    figures = plan("fruit:\n  - 1 L raspberry juice, at bottling").figures
    packaging = figures.packaging
    assert packaging is not None
    assert packaging.sugar is not None
    of_juice = 1000 * 1.0375 * 0.08 * 2 * 44.01 / 180.156
    of_sugar = packaging.sugar.number * 4 * 44.01 / 342.297
    volumes = (of_juice + of_sugar) / (44.01 / 22.414) / figures.volumes.packaged.number
    assert packaging.residual.number + volumes == pytest.approx(2.0, abs=0.03)


def test_too_much_of_it_at_packaging_is_an_error_of_safety(brew: Callable[..., Any]) -> None:
    problems = [it for it in brew("fruit:\n  - 3 L grape juice, at packaging").problems if it.safety]
    assert problems
    assert all(it.severity is Severity.ERROR for it in problems)
    assert "fruit" in problems[-1].what


@pytest.mark.parametrize(
    ("line", "severity", "words"),
    [
        ("3 kg sour cherries, into the fermenter, 14 days", None, ""),
        ("3 kg sour cherries, 5 days", Severity.WARNING, "a time of 5 days is left for sour cherries"),
        ("3 kg sour cherries, 2 days", Severity.ERROR, "a time of 2 days is left for sour cherries"),
        (
            "3 kg sour cherries, after fermentation",
            Severity.WARNING,
            "the fermentation starts again with sour cherries",
        ),
        ("1 L raspberry juice, at packaging", Severity.WARNING, "the sugar of raspberry juice makes 1"),
    ],
)
def test_fruit_has_to_ferment_out_before_it_is_bottled(
    brew: Callable[..., Any], line: str, severity: Severity | None, words: str
) -> None:
    found = [it for it in brew(f"fruit:\n  - {line}").problems if words and words in it.what]
    assert {it.severity for it in found} == ({severity} if severity else set())
    if severity is None:
        assert not [*routes_to_gas(brew(f"fruit:\n  - {line}").plan)]


def test_page_card_and_data_say_what_fruit_does_and_what_is_not_reckoned(plan: Callable[..., Plan]) -> None:
    fruited = plan(CHERRIES)
    (said,) = unreckoned(fruited)
    assert "sourer" in told(said)
    assert "2.37 g/L" in told(said)
    assert "malic" in told(said)
    assert "pH is not reckoned, nor the colour" in told(said)
    data = json.loads(figures_json(fruited))
    assert data["not reckoned"] == [told(said)]
    assert data["figures"]["juice-of-the-fruit"]["value"] == pytest.approx(2.746, abs=2e-3)
    assert any(
        need.section == "Fruit and juice" and need.name == "Sour cherries"
        for need in needs(fruited.recipe, fruited.figures)
    )
    feeding = next(step for step in steps(fruited) if step.title == "Add the sour cherries")
    assert "3 kg" in told(feeding.sentences[1])
    words = " ".join(row.words for row in cautions(fruited))
    assert "Leave stones whole" in words
    assert "freeze it first" in words
    assert any("wide tube" in short for short in in_short({"feed"}, fruited))
    assert not [*unreckoned(plan())]


def test_with_stones_a_tenth_is_stone(plan: Callable[..., Plan]) -> None:
    whole = plan("fruit:\n  - 3 kg sour cherries, with stones").figures
    assert whole.grist.sugars[0].extract.number == pytest.approx(0.9 * 0.2547, rel=1e-6)


def test_an_edition_has_fruit_by_the_litre(plan: Callable[..., Plan]) -> None:
    home = plan(CHERRIES)
    half, _ = sized(
        home.recipe, home, replace(default_brewhouse(), mash="bag"), replace(home.recipe.batch, number=10.0)
    )
    assert half.sugars[0].mass is not None
    assert half.sugars[0].mass.number == pytest.approx(1.5)


def test_fruit_is_written_again_as_it_was_read(brew: Callable[..., Any]) -> None:
    more = """fruit:
  - 3 kg sour cherries, into the fermenter, 14 days, with stones
  - 2 kg raspberries, after fermentation, 6 % ± 1 sugar, allergens: none
  - 1 L apple juice, 10 min
  - 1 kg mango puree, whole boil
sugars:
  - 500 g blueberries
finings and spices:
  - 1 L lemon juice, with the yeast"""
    first = brew(more).recipe
    lines = dict(sections_of(first, us=False))["fruit"]
    assert lines == (
        "3 kg Sour cherries, into the fermenter, 14 days, with stones",
        "2 kg Raspberries, after fermentation, 6 % ± 1 sugar, allergens: none",
        "1.048 kg Apple juice, 10 min",
        "1 kg Mango, in the kettle",
        "500 g Blueberries, into the fermenter",
        "1.034 kg Lemon juice, with the yeast",
    )
    again = brew("fruit:\n" + "\n".join(f"  - {line}" for line in lines)).recipe
    assert dict(sections_of(again, us=False))["fruit"] == lines


def test_each_fruit_holds_no_more_than_itself() -> None:
    """Sugar, water and acid come from different tables, and so may come to a few hundredths too much."""
    for fruit in ours("fruits").records:
        assert fruit.sugar.typical + fruit.water.typical + fruit.acid.typical <= 1.03, fruit.name
        assert fruit.kind != "juice" or fruit.density is not None, fruit.name
        assert fruit.taste, fruit.name
