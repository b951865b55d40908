"""What cannot be brewed is refused, and the words say which bound it met; numbers by hand beside each case."""

from dataclasses import replace

import pytest
from any_brew import Brew
from made_up import (
    BASES,
    SPECIALS,
    as_shares,
    book,
    brewhouse,
    giving,
    hop,
    malt,
    recipe,
    sugar,
    value,
    with_a_kit,
)

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.edition import Edition
from gristbook.model.recipe import Recipe
from gristbook.model.steps import MashStep
from gristbook.problems import Place, Problems
from gristbook.targets.editions.make import MadeEdition, RefusedEdition, make, wanted
from gristbook.targets.plan import plan_recipe
from gristbook.text.writing import sections_of

HOME = brewhouse("home", 20)
PALE = malt("Pale malt", BASES["Pale malt"], 4.0)
PLAIN = recipe(20, 60, (PALE,))
EXTRACT = recipe(20, 60, (), (sugar("Dried extract", 3.0, from_malt=True),))


def made(
    written: Recipe, away: Brewhouse, batch_l: float, source: str = "as written", home: Brewhouse = HOME
) -> MadeEdition | RefusedEdition:
    brew = Brew(written, home, away, value(batch_l, "L", "batch"), book(home, away))
    problems = Problems()
    plan = plan_recipe(written, brew.book, problems)
    assert plan is not None, [str(problem) for problem in problems]
    return make(plan, brew.edition(source), brew.book)  # type: ignore[arg-type]


def why(*args: object, **more: object) -> str:
    refused = made(*args, **more)  # type: ignore[arg-type]
    assert isinstance(refused, RefusedEdition), "it was made"
    return refused.why


def kept(*args: object, **more: object) -> MadeEdition:
    edition = made(*args, **more)  # type: ignore[arg-type]
    assert isinstance(edition, MadeEdition), edition.why
    return edition


def test_a_pot_that_is_too_small_for_the_wort_of_a_mash() -> None:
    """A 12 L pot boils 0.8 × 12/1.0416 = 9.2 L; 10 L and 1.5 L behind and 3 L of steam are 14.5 L."""
    assert why(PLAIN, brewhouse("away", 10, kettle_l=12), 10) == (
        "the pot of away boils 9.2 L at most, and 14.5 L of wort would have to be boiled"
    )


def test_a_small_pot_boils_a_part_of_an_extract_beer() -> None:
    """The same pot boils 9 L in half litres, leaves 9 − 3 − 1.5 = 4.5 L for the fermenter, and 5.5 L are topped up."""
    volumes = kept(EXTRACT, brewhouse("away", 10, kettle_l=12), 10).plan.figures.volumes
    assert volumes.boil.number == 9.0
    assert volumes.top_up is not None
    assert volumes.top_up.number == pytest.approx(5.5, abs=1e-9)


def test_a_pot_that_boils_dry() -> None:
    """A 5 L pot boils 3.84 L: 3 L of it go up, 1.5 L stay behind."""
    assert why(EXTRACT, brewhouse("away", 10, kettle_l=5), 10) == (
        "the pot of away boils 3.8 L at most, of which 3.0 L would steam away and 1.5 L stay behind: nothing would "
        "reach the fermenter"
    )


def test_a_pot_that_gives_the_fermenter_nothing_boils_dry_and_one_that_gives_it_half_a_litre_boils_syrup() -> None:
    """Of 4.5 L, 3 L go up and 1.5 L stay behind; the pots boil 4.6 and 5.1 L, in half litres."""
    nothing, little = (why(EXTRACT, brewhouse("away", 3, kettle_l=litres * 1.0435 / 0.8), 3) for litres in (4.6, 5.1))
    assert nothing.endswith("nothing would reach the fermenter")
    assert little.endswith("and the 2.0 L that the pot of away boils down to would be a syrup")


def test_late_extract_counts_for_what_a_pot_gives_to_the_fermenter() -> None:
    """The same pot of 4.6 L has as much left as the extract stirred in brings of its own room, which is a syrup."""
    late = recipe(20, 60, (), (sugar("Early", 1.0, from_malt=True), sugar("Late", 2.0, minutes=5, from_malt=True)))
    words = why(late, brewhouse("away", 3, kettle_l=4.6 * 1.0435 / 0.8), 3)
    assert words.endswith("that the pot of away boils down to would be a syrup")


def test_a_pot_that_boils_syrup() -> None:
    """9 L less 3 L of steam leave 6 L, a quarter of them behind: 60 L at 1.054 want 60 × 0.139 × 6/4.5 = 11.1 kg."""
    words = why(EXTRACT, brewhouse("away", 10, kettle_l=12), 60)
    assert words.startswith("a gravity of 1.0")
    assert words.endswith("kg of extract, and the 6.0 L that the pot of away boils down to would be a syrup")


def test_half_a_kilogram_of_extract_in_a_litre_is_the_bound_of_a_wort() -> None:
    """By the same arithmetic 16 L want 2.97 kg in the 6 L, and 17 L want 3.15 kg: common practice, no source."""
    away = brewhouse("away", 10, kettle_l=12)
    assert kept(EXTRACT, away, 16).plan.figures.volumes.end_of_boil.number == pytest.approx(6.0)
    assert why(EXTRACT, away, 17).endswith("would be a syrup")


def test_a_brewhouse_without_a_mash_mashes_nothing() -> None:
    assert why(PLAIN, brewhouse("away", 10, "none"), 10) == "nothing can be mashed in away, and this beer is mashed"
    assert why(EXTRACT, brewhouse("away", 10, "none"), 10, "grain").startswith("nothing can be mashed in away")


def test_a_fermenter_that_keeps_the_whole_batch() -> None:
    """A set for 80 L leaves 4 L with the yeast."""
    assert why(PLAIN, brewhouse("away", 80), 3) == (
        "4.0 L stay behind in the fermenter of away: nothing of 3.0 L would be left to package"
    )


def test_a_fermenter_that_keeps_the_whole_batch_with_its_dry_hops() -> None:
    """A set for 39.78 L leaves 1.989 L with the yeast, and 2 g of dry hops keep 6 mL each: more than 2 L."""
    dry = replace(PLAIN, hops=(hop("First", 20, "boil", minutes=60), hop("Last", 20, "dry")))
    assert why(dry, brewhouse("away", 39.78), 2) == (
        "2.0 L stay behind in the fermenter of away: nothing of 2.0 L would be left to package"
    )


def test_a_tun_that_is_too_small_even_for_a_thick_mash() -> None:
    """2 kg for 10 L take 2 × (1.8 + 0.67) = 4.9 L even when mashed as thick as can be stirred."""
    assert "no more than the mash tun of 4.5 L holds" in why(PLAIN, brewhouse("away", 10, tun_l=4.5), 10)


def test_a_tun_that_is_a_little_too_small_gets_a_thicker_mash() -> None:
    """2.14 kg (4 kg × 11.5/21.5) at 2.7 L/kg take 7.2 L. A tun of 6 L, 97 % of it filled, holds 5.82 L at 67 °C, where
    a cubic metre of water weighs 979.3 kg and not 998.2 (a table from memory): 5.71 L when cool, of which
    0.67 × 2.14 L are grain.
    """
    edition = kept(PLAIN, brewhouse("away", 10, tun_l=6), 10)
    mash = edition.plan.figures.mash
    assert mash is not None
    assert mash.sparge is not None
    assert mash.volume.number == pytest.approx(5.82 * 979.3 / 998.2, abs=0.011)
    assert [note for note in edition.notes if note.startswith("The mash is thicker than usual, 2.0 L to a kilogram")]
    assert mash.water.number + mash.sparge.number == pytest.approx(edition.plan.figures.water.total.number)


def test_a_mash_that_would_take_more_water_than_the_brew_has() -> None:
    """4 kg at 5 L/kg want 20 L; for 8 L of wort, all boiled in 10 min without loss, there are 8 + 4 = 12 L."""
    strong = recipe(8, 10, (malt("Pale malt", BASES["Pale malt"], 4.0),))
    thin, roomy = (
        giving(brewhouse(name, 8, thickness=thick, boil_off=0, left_l=0), 0.5, strong)
        for name, thick in (("away", 5), ("home", 2))
    )
    edition = kept(strong, thin, 8, home=roomy)
    mash = edition.plan.figures.mash
    assert mash is not None
    assert mash.sparge is not None
    assert mash.water.number == pytest.approx(12.0, abs=0.02)
    assert mash.sparge.number == pytest.approx(0.0, abs=0.011)
    assert "The mash is thicker than usual, 3.0 L to a kilogram, for there is no more for it." in edition.notes


def test_rests_by_infusion_that_take_more_water_than_the_brew_has() -> None:
    """From 40 to 65 and 78 °C by boiling water: 3.5 L/kg become more than twice that, and the wort wants less."""
    rests = tuple(
        MashStep(value(c, "°C", "mash temperature"), value(20, "min", "time"), None, "infusion", Place("recipe.md"))
        for c in (40, 65, 78)
    )
    strong = replace(recipe(8, 10, (malt("Pale malt", BASES["Pale malt"], 2.5),)), mash=rests)
    home = brewhouse("home", 8, "bag", boil_off=0, left_l=0)
    words = why(strong, brewhouse("away", 8, thickness=3.5, boil_off=0, left_l=0), 8, home=home)
    assert words.startswith("the mash takes ")
    assert "L of water, and the wort leaves only 1" in words


def test_strike_water_above_the_boil() -> None:
    """A mash of 1.8 L/kg at 76 °C and grain at 20 °C want 76 + 0.41/1.8 × 56 = 88.8 °C; water boils at 86 °C there."""
    hot = MashStep(value(76, "°C", "mash temperature"), value(60, "min", "time"), None, "infusion", Place("recipe.md"))
    high = brewhouse("away", 20, thickness=1.8, altitude_m=4200)
    words = why(replace(PLAIN, mash=(hot,)), high, 20)
    assert words == "the strike water would be at 89 °C, and water boils at 86 °C here"


def test_a_steep_that_takes_more_water_than_goes_into_the_pot() -> None:
    """2.5 kg at 3 L/kg take 7.5 L; 4.5 L are boiled, the grain keeps 2.5 L, 0.25 kg of extract are 0.16 L: 6.8 L."""
    malts = (malt("Caramel malt", SPECIALS["Caramel malt"], 5.0, steeped=True),)
    dark = recipe(20, 30, malts, (sugar("Dried extract", 0.5, from_malt=True),))
    words = why(dark, brewhouse("away", 10, "none", boil_off=1, left_l=0.5, kettle_l=6), 10)
    assert "the steep takes 7.5 L of water, and only 6.8 L go into the pot" in words


def test_a_steep_that_its_pot_cannot_hold() -> None:
    """2.5 kg at 3 L/kg take 7.5 L of water and 2.5 × 0.67 L of room: 9.175 L; 10 L × 9/9.175 would fit."""
    malts = (malt("Caramel malt", SPECIALS["Caramel malt"], 5.0, steeped=True),)
    dark = recipe(20, 30, malts, (sugar("Dried extract", 1.0, from_malt=True),))
    pot = brewhouse("away", 10, "none", boil_off=1, left_l=0.5, kettle_l=9)
    assert why(dark, pot, 10) == (
        "the steep takes 9.2 L (no more than the kettle of 9 L holds: one of 9.2 L would do, or a batch of 9.5 L)"
    )
    assert kept(dark, brewhouse("away", 10, "none", boil_off=1, left_l=0.5, kettle_l=15), 10)


def test_specialty_malts_that_bring_more_than_the_gravity_wants() -> None:
    """At home 0.55 of 4 kg of amber malt, away 0.80: it alone is above what the gravity at home wants."""
    dark = recipe(20, 60, (malt("Amber malt", SPECIALS["Amber malt"], 4.0), replace_mass(0.4)))
    home, away = (giving(brewhouse(name, 20), share, dark) for name, share in (("home", 0.55), ("away", 0.80)))
    words = why(dark, away, 20, home=home)
    assert words.startswith("what is not Pale malt brings 2.37 kg of extract by itself, and a gravity of 1.0")
    assert words.endswith("wants 1.80 kg")


def replace_mass(kg: float) -> object:
    return malt("Pale malt", BASES["Pale malt"], kg)


def test_a_gravity_that_no_weight_of_malt_reaches_in_a_bag() -> None:
    """Each kilogram keeps 5.5 L: no litre that runs off holds more than 0.95 × 0.78/5.5 = 0.13 kg of extract."""
    strong = recipe(20, 60, (malt("Pale malt", BASES["Pale malt"], 15.0),))
    strong = replace(strong, yeasts=(replace(strong.yeasts[0], tolerance_abv=40),))
    away = brewhouse("away", 5, "bag", efficiency=None, absorption=5.0, boil_off=0, left_l=0)
    words = why(strong, away, 5, home=brewhouse("home", 20, efficiency=0.9, thickness=1.8))
    assert words.startswith("no weight of malt reaches 1.1")
    assert "the more of its own wort it keeps" in words


def test_hops_that_would_fall_below_nothing_are_left_out_and_said() -> None:
    """A long stand brings more where the boil is thinner: the little that was boiled goes first."""
    bitter = replace(
        PLAIN,
        hops=(hop("First", 0.5, "boil", minutes=60), hop("Last", 60, "stand", minutes=40, heat_c=99, alpha=0.12)),
    )
    away = brewhouse("away", 20, left_l=0.2)
    home = brewhouse("home", 20, left_l=3)
    edition = kept(bitter, away, 20, home=home)
    assert [line.hop.name for line in edition.plan.figures.bitterness.hops] == ["Last"]
    assert "The longest boiled hop, First, is left out, for the rest brings all the bitterness." in edition.notes
    assert "Nothing else gives way: the beer is bitterer than the recipe." in edition.notes


def test_a_beer_without_boiled_hops_says_that_its_bitterness_drifts() -> None:
    stand = replace(PLAIN, hops=(hop("Last", 60, "stand", minutes=40, heat_c=90),))
    edition = kept(stand, brewhouse("away", 20, left_l=0.2), 20, home=brewhouse("home", 20, left_l=3))
    assert "No hop is boiled long enough to make up for it: the beer is bitterer than the recipe." in edition.notes
    assert next(drift for drift in edition.drifts if drift.figure == "bitterness").said


def test_a_beer_without_boiled_hops_in_a_brewhouse_like_its_own_says_nothing() -> None:
    stand = replace(PLAIN, hops=(hop("Last", 60, "stand", minutes=40, heat_c=90),))
    assert kept(stand, brewhouse("away", 20), 20).notes == ()


def test_a_beer_without_hops_is_as_bitter_as_it_was() -> None:
    for hops in ((), (hop("Last", 20, "dry"),)):
        edition = kept(replace(PLAIN, hops=hops), brewhouse("away", 20, left_l=0.2), 20, home=brewhouse("home", 20))
        assert edition.notes == ()


def test_a_beer_of_sugar_alone_is_sized_too() -> None:
    """60 L of water and sugar: all of it gives way, 10 L want a sixth."""
    wash = recipe(60, 30, (), (sugar("Table sugar", 6.0), sugar("Honey", 1.2, into_fermenter=True)))
    edition = kept(wash, brewhouse("away", 10, boil_off=0.5, left_l=0.25), 10)
    sugars = edition.plan.figures.grist.sugars
    assert sugars[0].mass.number == pytest.approx(1.0, abs=0.015)
    assert sugars[1].mass.number == pytest.approx(0.2, abs=0.0025)


def test_honey_into_the_fermenter_is_no_part_of_the_gravity_that_is_kept() -> None:
    """A hydrometer reads the wort at pitching; the honey goes by weight per litre, 400 g in 20 L."""
    honeyed = recipe(20, 60, (PALE,), (sugar("Honey", 0.4, into_fermenter=True),))
    edition = kept(honeyed, brewhouse("away", 10, boil_off=2, left_l=1), 10)
    assert edition.plan.figures.grist.sugars[0].mass.number == pytest.approx(0.2, abs=1e-9)
    plain = kept(PLAIN, brewhouse("away", 10, boil_off=2, left_l=1), 10)
    assert edition.plan.named["original-gravity"].number == plain.plan.named["original-gravity"].number


def test_percentages_keep_their_shares_in_a_partial_boil_too() -> None:
    """90 parts of extract to 10 of steeped caramel malt stay so, and reach 1.048, when the small pot tops up."""
    malts = (malt("Caramel malt", SPECIALS["Caramel malt"], 0.3, steeped=True),)
    parts = as_shares(recipe(20, 60, malts, (sugar("Dried extract", 2.7, from_malt=True),)), 1.048)
    edition = kept(parts, brewhouse("away", 10, "none", boil_off=2, left_l=0.5, kettle_l=9), 10)
    figures = edition.plan.figures
    assert figures.volumes.top_up is not None
    sugars, malts = figures.grist.sugars, figures.grist.malts
    assert sugars[0].mass.number / (sugars[0].mass.number + malts[0].mass.number) == pytest.approx(0.9, abs=0.005)
    drift = next(drift for drift in edition.drifts if drift.figure == "original-gravity")
    assert drift.exact.number == pytest.approx(1.048, abs=1e-9)


PARTLY = replace(EXTRACT, kettle=value(12, "L", "wort at the start of the boil"))


def test_a_partial_boil_belongs_to_its_pot_and_does_not_follow_the_beer() -> None:
    """Away there is room for all of it: 5 + 1 L, and 2 L of steam."""
    volumes = kept(PARTLY, brewhouse("away", 5, boil_off=2, left_l=1), 5).plan.figures.volumes
    assert volumes.boil.number == pytest.approx(8, abs=1e-9)
    assert volumes.top_up is None


@pytest.mark.parametrize(("litres", "boil", "top_up"), [(15, 12, 7.5), (7, 11.5, None)])
def test_a_partial_boil_stays_in_its_own_pot(litres: float, boil: float, top_up: float | None) -> None:
    """There 12 − 3 − 1.5 = 7.5 of 15 L come from the kettle; 7 + 1.5 + 3 L are less than what was asked for."""
    volumes = kept(PARTLY, HOME, litres).plan.figures.volumes
    assert volumes.boil.number == pytest.approx(boil, abs=1e-9)
    assert (volumes.top_up and volumes.top_up.number) == (top_up and pytest.approx(top_up, abs=1e-9))


def test_late_extract_does_not_climb_out_of_the_pot() -> None:
    """In a boil of 30 min at 0.5 L/h, 0.25 L go up; 2.4 kg stirred in late are 1.5 L, so that less is boiled before."""
    late = recipe(
        20, 30, (), (sugar("Dried extract", 0.6, from_malt=True), sugar("Late", 2.4, minutes=5, from_malt=True))
    )
    away = brewhouse("away", 20, "none", boil_off=0.5, left_l=0.5, kettle_l=15)
    figures = kept(late, away, 20).plan.figures
    stirred_in = 0.63 * figures.grist.sugars[1].mass.number
    assert figures.volumes.boil.number + stirred_in - 0.5 * 25 / 60 <= 0.8 * 15 / 1.0416
    assert figures.volumes.boil.number > 9.0


TIN = with_a_kit(EXTRACT, 25)
BOTH = recipe(
    20, 60, (), (sugar("Hopped", 1.7, from_malt=True), sugar("Plain", 1.0, from_malt=True, place=Place("x.md", 4)))
)


@pytest.mark.parametrize(("litres", "wanted", "size"), [(10, "0.5", 20), (28, "1.4", 20), (31, "1.6", 40)])
def test_half_a_hopped_tin_is_refused_with_the_size_that_would_do(litres: float, wanted: str, size: int) -> None:
    assert why(TIN, brewhouse("away", litres), litres) == (
        f"a hopped tin is bought whole, and {litres} L would want {wanted} of it: {size} L would do"
    )


def test_a_tin_alone_keeps_its_gravity_and_moves_the_volume() -> None:
    """All of it is in 20 + 1.5 L of wort at home, of the same gravity away: of those, 1 L stays there, so 20.5 L."""
    edition = kept(replace(TIN, hops=()), brewhouse("away", 19, left_l=1), 19)
    assert edition.plan.figures.grist.sugars[0].mass.number == 3.0
    assert edition.plan.figures.volumes.into_fermenter.number == pytest.approx(20.5, abs=1e-9)
    assert edition.notes[0] == (
        "Hopped tins are bought whole, and nothing beside them gives way: they make 20.5 L, and not 19.0 L."
    )


def test_what_is_beside_a_tin_makes_up_for_its_being_whole() -> None:
    """1.7 of 2.7 kg at home in 21.5 L of wort; away in 20.5 L the same gravity wants 2.7 × 20.5/21.5 kg in all."""
    tin = replace(with_a_kit(BOTH, 25), hops=(hop("Bitter", 20, "boil", minutes=60),))
    edition = kept(tin, brewhouse("away", 19), 19)
    hopped, plain = edition.plan.figures.grist.sugars
    assert hopped.mass.number == 1.7
    assert plain.mass.number == pytest.approx(2.7 * 20.5 / 21.5 - 1.7, abs=0.005)
    assert edition.plan.figures.bitterness.kits[0].bitterness.number == pytest.approx(575 / 19)
    drift = next(drift for drift in edition.drifts if drift.figure == "bitterness")
    assert drift.exact.number == pytest.approx(drift.home.number)
    assert edition.notes == ("Hopped tins are bought whole: what is weighed beside them makes up for it.",)


def test_two_tins_have_two_labels() -> None:
    """25 IBU in 23 L each: 1150 mg in 40 L; written out, each is a line of its own with its own label."""
    edition = kept(with_a_kit(BOTH, 25), brewhouse("away", 40, boil_off=6, left_l=3), 40)
    (kit,) = edition.plan.recipe.kits
    assert (kit.tins, kit.bitterness.number, kit.volume.number) == (2, 25, 46)
    assert edition.plan.figures.bitterness.kits[0].bitterness.number == pytest.approx(1150 / 40)
    lines = dict(sections_of(edition.plan.recipe, us=False))["extracts"]
    assert [("1.7 kg" in line, "25 IBU in 23 L" in line) for line in lines[:2]] == [(True, True)] * 2


def test_a_tin_that_brings_too_much_by_itself_is_refused_with_the_size_that_would_do() -> None:
    little = recipe(20, 60, (), (sugar("H", 3.0, from_malt=True), sugar("S", 0.1, place=Place("x.md", 4))))
    assert why(with_a_kit(little, 25), brewhouse("away", 18), 18).endswith(
        "; as hopped tins are bought whole, 20 L would do"
    )


def test_a_kit_is_not_there_any_more_when_its_extract_has_become_malt() -> None:
    assert why(replace(with_a_kit(EXTRACT, 25), hops=()), brewhouse("away", 10), 10, "grain") == (
        "its bitterness comes in the malt extract, and no hops are boiled in it"
    )
    edition = kept(with_a_kit(EXTRACT, 25), brewhouse("away", 10), 10, "grain")
    assert edition.plan.recipe.kits == ()
    drift = next(drift for drift in edition.drifts if drift.figure == "bitterness")
    assert drift.exact.number == pytest.approx(drift.home.number)


def test_an_unnamed_brewhouse_is_the_nearest_that_can_brew_it() -> None:
    """Nearest by ratio; malt extract may go into a pot without a mash, and whole grain may not."""
    sets = book(HOME, brewhouse("pot", 10, "none"), brewhouse("bag", 15, "bag"))
    batch = value(9, "L", "batch")
    for written, source, chosen in (
        (PLAIN, "as written", "bag"),
        (EXTRACT, "as written", "pot"),
        (PLAIN, "extract", "pot"),
        (EXTRACT, "grain", "bag"),
    ):
        plan = plan_recipe(written, sets, Problems())
        assert plan is not None
        edition = make(plan, Edition("9 L", "9-l", batch, None, source, False, Place("book.yaml")), sets)  # type: ignore[arg-type]
        assert isinstance(edition, MadeEdition), edition.why
        assert edition.plan.brewhouse.name == chosen, (source, chosen)


@pytest.mark.parametrize(("litres", "is_new"), [(20.19, False), (19.81, False), (20.21, True), (19.79, True)])
def test_a_size_within_a_hundredth_of_the_recipe_s_own_is_no_edition(litres: float, is_new: bool) -> None:
    sets = book(HOME)
    plan = plan_recipe(PLAIN, sets, Problems())
    assert plan is not None
    like = Edition("like it", "like-it", value(litres, "L", "batch"), "home", "as written", False, Place("book.yaml"))
    assert wanted(plan, replace(sets, editions=(like,))) == ((like,) if is_new else ())


@pytest.mark.parametrize(
    ("written", "source", "house", "is_new"),
    [
        (PLAIN, "as written", "home", False),
        (PLAIN, "as written", "other", True),
        (PLAIN, "grain", "home", False),
        (PLAIN, "extract", "home", True),
        (EXTRACT, "as written", "home", False),
        (EXTRACT, "grain", "home", True),
        (EXTRACT, "extract", "home", False),
        (EXTRACT, "extract", "other", True),
    ],
)
def test_only_what_is_not_the_recipe_itself_is_an_edition(
    written: Recipe, source: str, house: str, is_new: bool
) -> None:
    sets = book(HOME, brewhouse("other", 20))
    plan = plan_recipe(written, sets, Problems())
    assert plan is not None
    asked = Edition("asked", "asked", None, house, source, False, Place("book.yaml"))  # type: ignore[arg-type]
    assert bool(wanted(plan, replace(sets, editions=(asked,)))) is is_new
