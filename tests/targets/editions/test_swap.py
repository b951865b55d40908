"""Malt extract in place of malt, and malt in place of extract: equal extract, and honest words on the rest."""

from dataclasses import replace

import pytest
from any_brew import Brew
from made_up import BASES, SPECIALS, Kind, book, brewhouse, giving, hop, malt, recipe, sugar, value

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.extra import Extra
from gristbook.model.moment import BeforeTheEnd, Stage
from gristbook.model.recipe import Malt, Recipe
from gristbook.problems import Place, Problems
from gristbook.sheet.value import Value
from gristbook.site.words import share_words
from gristbook.targets.editions.make import MadeEdition, RefusedEdition, make
from gristbook.targets.editions.swap import as_extract, as_grain
from gristbook.targets.figures import Plan
from gristbook.targets.method.mash import grain_steps
from gristbook.targets.plan import plan_recipe
from gristbook.text.stand_ins import base_malt, base_mash, malt_extracts

HOME = brewhouse("home", 20, efficiency=0.75)
POT = brewhouse("pot", 10, "none", boil_off=2, left_l=0.5, kettle_l=15)
BAG = brewhouse("bag", 10, "bag", boil_off=2, left_l=0.5, kettle_l=25, absorption=0.7)
TUN = replace(brewhouse("tun", 10, boil_off=2, left_l=0.5, kettle_l=25), tun_heat=value(1, "L", "heat of the tun"))
NEXT = ("", "", None, Place("beer.md"))
POUND_GALLON = 46.177
"""Points that a pound of sugar gives in a gallon (Palmer, How to Brew, ch. 12, says 46)."""


TEN = value(10, "L", "batch")
THICK = brewhouse("pot", 10, "none", boil_off=2, left_l=0.5, kettle_l=9)
"""It boils 0.8 × 9/1.0416 = 6.9 L, of 10."""


def plan_of(written: Recipe, home: Brewhouse = HOME) -> Plan:
    plan = plan_recipe(written, book(home), Problems())
    assert plan is not None
    return plan


def grist(*malts: Malt) -> Recipe:
    return recipe(20, 60, malts)


def base(kg: float, name: str = "Pale malt") -> Malt:
    return malt(name, BASES[name], kg)


def edition(written: Recipe, away: Brewhouse, source: str) -> MadeEdition | RefusedEdition:
    brew = Brew(written, HOME, away, value(10, "L", "batch"), book(HOME, away))
    return make(plan_of(written), brew.edition(source), brew.book)  # type: ignore[arg-type]


@pytest.mark.parametrize(("points", "name", "kg"), [(44, "Dried malt extract, light", 0.631), (36, "Liquid", 0.771)])
def test_a_kilogram_of_malt_of_37_points_is_so_much_extract(points: float, name: str, kg: float) -> None:
    """Handbook arithmetic: 37 points at 75 % are 27.75, of which dried extract has 44 a pound and liquid 36."""
    malts = grist(replace(base(1.0), extract_dry=value(37 / POUND_GALLON, "fraction", "extract"), moisture=nothing()))
    shelf = malt_extracts()
    light = replace(
        shelf["Dried malt extract, light"],
        extract_dry=value(points / POUND_GALLON, "fraction", "extract"),
        moisture=nothing(),
    )
    swapped = as_extract(
        plan_of(malts, giving(HOME, 0.75, malts)), POT, TEN, {**shelf, "Dried malt extract, light": light}
    )
    assert sum(line.mass.number for line in swapped.recipe.sugars if line.mass) == pytest.approx(kg, abs=0.001)
    assert swapped.recipe.malts == ()


def nothing() -> object:
    return value(0.0, "fraction", "moisture")


def test_a_kilogram_of_dried_extract_is_so_much_malt() -> None:
    """The other way round, at 75 %: 44 points a pound against 27.75 are 1.586 kg of the malt of 37 points."""
    dried = replace(
        sugar("Dried extract", 1.0, from_malt=True),
        extract_dry=value(44 / POUND_GALLON, "fraction", "extract"),
        moisture=nothing(),
    )
    stand_in = replace(base_malt(), extract_dry=value(37 / POUND_GALLON, "fraction", "extract"), moisture=nothing())
    swapped = as_grain(plan_of(recipe(20, 60, (), (dried,))), stand_in, base_mash())
    assert swapped.recipe.malts[0].mass is not None
    assert swapped.recipe.malts[0].mass.number == pytest.approx(44 / (37 * 0.75), abs=0.001)
    assert swapped.recipe.sugars == ()


def test_the_swap_itself_keeps_the_extract_of_every_malt() -> None:
    """Whatever is neither steeped nor mashed comes back gram for gram, 96 % of the weight of the dried extract."""
    plan = plan_of(grist(base(3.0), base(0.5, "Wheat malt"), malt("Caramel malt", SPECIALS["Caramel malt"], 0.3)))
    swapped = as_extract(plan, POT, TEN, malt_extracts()).recipe
    brought = sum(0.96 * line.mass.number for line in swapped.sugars if line.mass)
    replaced = sum(line.extract.number for line in plan.figures.grist.malts if line.malt.name != "Caramel malt")
    assert brought == pytest.approx(replaced, rel=1e-9)
    assert {line.name for line in swapped.sugars} == {"Dried malt extract, light", "Dried malt extract, wheat"}
    assert [(line.name, line.steep is not None) for line in swapped.malts] == [("Caramel malt", True)]


def test_what_can_be_steeped_is_steeped_for_half_an_hour_below_the_mash_s_end() -> None:
    """30 min at 68 °C; in a pot that boils a part, six parts in ten of the extract late: common practice, no source."""
    swapped = as_extract(
        plan_of(grist(base(3.0), malt("Caramel malt", SPECIALS["Caramel malt"], 0.3))), THICK, TEN, malt_extracts()
    )
    steep = swapped.recipe.malts[0].steep
    assert steep is not None
    assert (steep.minutes.number, steep.temperature.number) == (30, 68)
    early, late = swapped.recipe.sugars
    assert early.minutes is None
    assert late.minutes is not None
    assert late.minutes.number == 10
    assert early.mass is not None
    assert late.mass is not None
    assert late.mass.number / early.mass.number == pytest.approx(6 / 4)


def test_what_goes_into_the_mash_alone_is_left_out_where_there_is_none() -> None:
    finings = Extra("Irish moss", value(0.005, "kg", "moss"), "5 g", BeforeTheEnd(value(10, "min", "moss")), *NEXT)
    hulls = Extra("Rice hulls", value(0.2, "kg", "hulls"), "200 g", Stage.MASH, *NEXT)
    beer = replace(grist(base(4.0)), extras=(finings, hulls))
    swapped = as_extract(plan_of(beer), POT, TEN, malt_extracts())
    assert swapped.recipe.extras == (finings,)
    assert [words for words in swapped.notes if "rice hulls" in words.casefold()]
    flaked = malt("Flaked barley", SPECIALS["Flaked barley"], 0.5)
    mashed = as_extract(plan_of(replace(grist(base(3.5), flaked), extras=(finings, hulls))), BAG, TEN, malt_extracts())
    assert mashed.recipe.extras == (finings, hulls)


def test_a_small_mash_gets_as_much_base_malt_as_converts_it() -> None:
    """500 g of flakes have no enzymes, and pale malt 55 °Lintner: 875 g of it bring the mean to 35, 48.1/1.375."""
    flaked = malt("Flaked barley", SPECIALS["Flaked barley"], 0.5)
    mashed = as_extract(plan_of(grist(base(3.5), flaked)), BAG, TEN, malt_extracts()).recipe.malts
    assert {line.name: line.mass.number for line in mashed if line.mass} == {
        "Flaked barley": pytest.approx(0.5),
        "Pale malt": pytest.approx(0.875),
    }


def test_even_a_handful_of_flakes_gets_base_malt_to_convert_it() -> None:
    """20 g of flakes lack 0.7 kg·°L, which 35 g of pale malt of 55 °L bring."""
    flaked = malt("Flaked barley", SPECIALS["Flaked barley"], 0.02)
    mashed = as_extract(plan_of(grist(base(3.98), flaked)), BAG, TEN, malt_extracts()).recipe.malts
    assert [line.mass.number for line in mashed if line.mass] == pytest.approx([0.02, 0.035])


def test_what_a_small_mash_leaves_of_the_base_malt_becomes_extract() -> None:
    """Of 3.5 kg of pale malt 0.875 kg are mashed, and malt extract of 96 % brings what the other three quarters did."""
    plan = plan_of(grist(base(3.5), malt("Flaked barley", SPECIALS["Flaked barley"], 0.5)))
    brought = as_extract(plan, BAG, TEN, malt_extracts()).recipe.sugars
    replaced = 0.75 * plan.figures.grist.malts[0].extract.number
    assert sum(0.96 * line.mass.number for line in brought if line.mass) == pytest.approx(replaced, rel=1e-9)


def test_a_beginners_extract_batch_boils_three_gallons() -> None:
    """Common practice, no source: the extract of 5 US gallons is dissolved in about 3 (11 L), and that is boiled.

    "About" is taken as a litre to each side. The pot is the usual one of 4 US gallons, 15.1 L to the brim.
    """
    gallon = 3.785411784
    pot = brewhouse("pot", 5 * gallon, "none", boil_off=2, left_l=1, kettle_l=4 * gallon)
    brew = Brew(grist(base(4.5)), HOME, pot, value(5 * gallon, "L", "batch"), book(HOME, pot))
    made = make(plan_of(brew.recipe), brew.edition("extract"), brew.book)
    assert isinstance(made, MadeEdition)
    volumes, water = made.plan.figures.volumes, made.plan.figures.water
    assert volumes.top_up is not None
    assert volumes.boil.number == pytest.approx(3 * gallon, abs=1.0)
    assert water.total.number - volumes.top_up.number == pytest.approx(3 * gallon, abs=1.0)


def test_part_of_the_extract_goes_in_late_where_the_pot_boils_a_part() -> None:
    made = edition(grist(base(4.5)), THICK, "extract")
    assert isinstance(made, MadeEdition)
    early, late = made.plan.recipe.sugars
    assert early.minutes is None
    assert late.minutes is not None
    assert late.minutes.number == 10
    assert late.mass is not None
    assert early.mass is not None
    assert late.mass.number == pytest.approx(1.5 * early.mass.number, rel=0.02)


def test_no_extract_is_kept_back_where_nearly_all_is_boiled() -> None:
    """The pot of 15 L boils 11.5 L for 10."""
    made = edition(grist(base(4.5)), POT, "extract")
    assert isinstance(made, MadeEdition)
    assert [sugar.minutes for sugar in made.plan.recipe.sugars] == [None]


@pytest.mark.parametrize(("minutes", "late"), [(15, 15), (5, 5), (20, 20), (21, 10), (0, 10)])
def test_what_goes_in_within_ten_minutes_goes_in_at_once(minutes: float, late: float) -> None:
    hopped = replace(grist(base(4.5)), hops=(hop("A", 20, "boil", minutes=60), hop("B", 20, "boil", minutes=minutes)))
    swapped = as_extract(plan_of(hopped), THICK, TEN, malt_extracts())
    assert [sugar.minutes.number for sugar in swapped.recipe.sugars if sugar.minutes] == [late]


@pytest.mark.parametrize("away", [POT, BAG, TUN], ids=["pot", "bag", "tun"])
def test_what_needs_a_mash_gets_a_small_one_with_its_water_its_pot_and_the_gravity(away: Brewhouse) -> None:
    """250 g of flakes for 10 L, 437.5 g of pale malt of 55 °Lintner bring the mean to 35; 3 L/kg, 67 °C, 45 min.

    0.69 kg (as it is weighed) takes 2.07 L of water and 0.67 L/kg of room: 2.53 L. Strike: 67 + 0.41/3 × 47 = 73.4 °C.
    """
    written = grist(base(3.5), malt("Flaked barley", SPECIALS["Flaked barley"], 0.5))
    made = edition(written, away, "extract")
    assert isinstance(made, MadeEdition), made.why
    plan, mash = made.plan, made.plan.figures.mash
    assert plan.named["diastatic-power"].number >= 34.5
    assert {line.malt.name for line in plan.figures.grist.malts} == {"Flaked barley", "Pale malt"}
    assert "A small mash, with pale malt to convert it, keeps what only a mash brings out: flaked barley." in made.notes
    assert mash is not None
    assert mash.sparge is None
    assert mash.water.number == pytest.approx(2.07, abs=0.02)
    assert mash.volume.number == pytest.approx(2.53, abs=0.02)
    assert mash.strike.number == pytest.approx(73.4, abs=0.3)
    (rest,) = plan.recipe.mash
    assert (rest.temperature.number, rest.minutes.number) == (67, 45)
    gravity = next(drift for drift in made.drifts if drift.figure == "original-gravity")
    assert gravity.exact.number == pytest.approx(gravity.home.number, abs=1e-9)
    there = sum(it.mass.number * 0.96 * it.malt.extract_dry.number for it in plan.figures.grist.malts)
    kg, litres = mash.grist.number, mash.water.number  # by hand: W − a m run off of W + 0.516 m of wort
    ran_off = (litres - away.absorption.number * kg) / (litres + 0.516 * kg)
    dissolved = sum(it.extract.number for it in plan.figures.grist.malts) / ran_off
    assert dissolved == pytest.approx(mash.conversion.number * there, rel=1e-6)
    assert 0.8 < mash.conversion.number <= 0.99


def test_the_water_of_a_small_mash_the_kettle_and_the_steep_are_all_the_water() -> None:
    """Nothing is sparged: what the method pours is, together, what the brew takes."""
    caramel = malt("Caramel malt", SPECIALS["Caramel malt"], 0.3)
    flaked = malt("Flaked barley", SPECIALS["Flaked barley"], 0.5)
    made = edition(grist(base(3.5), flaked, caramel), THICK, "extract")
    assert isinstance(made, MadeEdition), made.why
    steps = grain_steps(made.plan)
    poured = [
        next(part.number for part in words if isinstance(part, Value) and part.unit == "L")
        for _, title, sentences, _ in steps
        for words in sentences[:1]
        if title in ("Heat the water of the small mash", "Steep the grain", "Fill the kettle")
    ]
    top_up = made.plan.figures.volumes.top_up
    assert len(poured) == 3
    assert top_up is not None
    assert sum(poured) + top_up.number == pytest.approx(made.plan.figures.water.total.number, rel=1e-9)


@pytest.mark.parametrize(
    ("kind", "kg", "extract", "words"),
    [
        (Kind("base", 0.80, 3.3, "°L", 105, True, "rye"), 2.5, "Liquid malt extract, rye", "becomes rye malt extract"),
        (BASES["Vienna malt"], 2.5, "Liquid malt extract, Munich", "becomes Munich malt extract"),
        (
            BASES["Wheat malt"],
            2.5,
            "Dried malt extract, wheat",
            "becomes wheat malt extract, a part of which is barley",
        ),
        (Kind("caramel", 0.76, 1.7, "°L", 0, True), 0.3, "Maltodextrin", "becomes maltodextrin for its body"),
        (Kind("kilned", 0.78, 2.2, "°L", 0, True), 0.1, "Dried malt extract, light", "is left out: it sours a mash"),
    ],
    ids=["rye", "Vienna", "wheat", "dextrin", "sour"],
)
def test_what_a_small_mash_does_not_keep_is_said(kind: Kind, kg: float, extract: str, words: str) -> None:
    """Of 4 kg, 1.5 of pale malt: 2.5 kg of another have not as much of it beside them."""
    made = edition(grist(base(4.0 - kg), malt("Odd malt", kind, kg)), POT, "extract")
    assert isinstance(made, MadeEdition), made.why
    assert [note for note in made.notes if note.startswith(f"Odd malt {words}")]
    assert extract in {sugar.name for sugar in made.plan.recipe.sugars}
    assert "Odd malt" not in {line.name for line in made.plan.recipe.malts}


@pytest.mark.parametrize(
    "kind", [SPECIALS["Amber malt"], Kind("smoked", 0.80, 3.0, "°L", 80, True), BASES["Vienna malt"]]
)
def test_what_has_a_taste_of_its_own_keeps_it_in_a_small_mash(kind: Kind) -> None:
    made = edition(grist(base(3.5), malt("Odd malt", kind, 0.5)), POT, "extract")
    assert isinstance(made, MadeEdition), made.why
    masses = {line.malt.name: line.mass.number for line in made.plan.figures.grist.malts}
    assert masses["Odd malt"] == pytest.approx(0.25)
    assert masses["Pale malt"] >= masses["Odd malt"]


def test_half_the_weight_of_a_dextrin_malt_as_maltodextrin_is_its_body() -> None:
    """Half of what 300 g brought, 0.3 × 0.76 × 0.96 × 0.75: 82 g of extract, 86 g of a powder with 5 % of water."""
    glassy = malt("Dextrin malt", Kind("caramel", 0.76, 1.7, "°L", 0, True), 0.3)
    beer = grist(base(3.7), glassy)
    swapped = as_extract(plan_of(beer, giving(HOME, 0.75, beer)), POT, TEN, malt_extracts())
    (body,) = [sugar for sugar in swapped.recipe.sugars if sugar.name == "Maltodextrin"]
    assert body.mass is not None
    assert body.mass.number == pytest.approx(0.5 * 0.3 * 0.76 * 0.96 * 0.75 / 0.95, rel=1e-6)


@pytest.mark.parametrize(
    ("kind", "kg", "kettle_l", "why"),
    [
        (Kind("smoked", 0.80, 3.0, "°L", 80, True), 2.1, 15, "there is not so much of it here"),
        (SPECIALS["Flaked barley"], 1.5, 15, "there is not so much of it here"),
        (SPECIALS["Amber malt"], 1.0, 4, "the pot has no room for that"),
    ],
    ids=["smoke", "flakes", "room"],
)
def test_a_beer_that_only_a_mash_makes_is_refused_from_a_pot(kind: Kind, kg: float, kettle_l: float, why: str) -> None:
    """1.5 kg of flakes want 2.6 kg of pale malt; a kilogram of each for 10 L takes 3.67 L, a pot of 4 L has 3.2."""
    pot = replace(POT, kettle=value(kettle_l, "L", "kettle"))
    refused = edition(grist(base(4.0 - kg), malt("Odd malt", kind, kg)), pot, "extract")
    assert isinstance(refused, RefusedEdition)
    assert refused.why == f"only a mash brings out Odd malt, with as much pale malt or more, and {why}"


@pytest.mark.parametrize("away", [POT, BAG], ids=["pot", "bag"])
def test_an_extract_beer_is_only_sized_where_one_from_extract_is_asked_for(away: Brewhouse) -> None:
    dried = recipe(20, 60, (), (sugar("Dried extract", 3.0, from_malt=True),))
    made, sized = (edition(dried, away, source) for source in ("extract", "as written"))
    assert isinstance(made, MadeEdition)
    assert isinstance(sized, MadeEdition)
    assert made.plan.recipe.sugars == sized.plan.recipe.sugars
    assert not made.notes


def test_an_extract_beer_made_whole_mashes_what_was_steeped() -> None:
    written = recipe(
        20,
        60,
        (malt("Caramel malt", SPECIALS["Caramel malt"], 0.4, steeped=True),),
        (sugar("Dried extract", 2.6, from_malt=True), sugar("Table sugar", 0.2)),
    )
    made = edition(written, BAG, "grain")
    assert isinstance(made, MadeEdition), made.why
    assert {line.name: line.steep for line in made.plan.recipe.malts} == {"Pale ale malt": None, "Caramel malt": None}
    assert [line.name for line in made.plan.recipe.sugars] == ["Table sugar"]
    assert made.plan.figures.mash is not None
    gravity = next(drift for drift in made.drifts if drift.figure == "original-gravity")
    assert gravity.exact.number == pytest.approx(gravity.home.number, abs=1e-9)


def test_honest_steeped_grams_beside_extract_raise_no_alarm() -> None:
    """600 g beside 2.4 kg of dried extract are a fifth by weight; it has 0.98 × 0.97 of extract, 0.60 a kg of grain.

    So it stands for 2.4 × 0.9506/0.60 = 3.80 kg of grain, and 600 g are 13.6 % of the whole.
    """
    caramel = malt("Caramel malt", SPECIALS["Caramel malt"], 0.6, steeped=True)
    plan = plan_of(recipe(20, 60, (caramel,), (sugar("Dried extract", 2.4, from_malt=True),)))
    assert plan.named["specialty-malt"].number == pytest.approx(0.6 / (0.6 + 2.4 * 0.9506 / 0.60), abs=1e-6)
    assert plan.named["base-malt"].number == pytest.approx(0.864, abs=0.001)
    assert share_words(plan.figures.grist) == "as grain"
    assert share_words(plan_of(grist(base(4.0))).figures.grist) == "by weight"
