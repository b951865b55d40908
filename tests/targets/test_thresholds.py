"""Where a plan, its method or an edition goes one way or the other: each threshold is tried just before and just past.

They are common practice, no source, unless a remark says more, and are written here, each apart from the code.
"""

from collections.abc import Callable
from dataclasses import replace
from math import exp, log
from typing import Any

import pytest
from any_brew import Brew
from made_up import BASES, SPECIALS, Kind, book, brewhouse, giving, hop, malt, recipe, sugar, value
from scipy.optimize import brentq

from gristbook.equations.density import hot_volume
from gristbook.equations.gravity import wort_gravity
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.model.steps import MashStep
from gristbook.problems import Place, Problems
from gristbook.sheet.value import given
from gristbook.targets.beer.fermentation import main_rest
from gristbook.targets.chain import work_out
from gristbook.targets.editions.make import MadeEdition, RefusedEdition, make
from gristbook.targets.editions.swap import as_extract
from gristbook.targets.figures import Plan
from gristbook.targets.hops.packets import alphas
from gristbook.targets.method.whole import steps
from gristbook.targets.plan import plan_recipe
from gristbook.targets.results import Figures
from gristbook.targets.water.rows import mash_ph_of
from gristbook.targets.wort.roles import role
from gristbook.text.stand_ins import malt_extracts

MODELS = ("tinseth 1997", "morey 1995")
PALE = malt("Pale malt", BASES["Pale malt"], 4.0)
PLAIN = recipe(20, 60, (PALE,))
EXTRACT = recipe(20, 60, (), (sugar("Dried extract", 3.0, from_malt=True),))
HERE = Place("recipe.md")


def rest(celsius: float, minutes: float, how: Any = "infusion") -> MashStep:
    return MashStep(value(celsius, "°C", "mash"), value(minutes, "min", "time"), None, how, HERE)


def errors(written: Recipe, home: Brewhouse) -> list[str]:
    plan_recipe(written, book(home), problems := Problems())
    return [problem.what for problem in problems.errors()]


# What a vessel holds


def _mash(figures: Figures) -> Any:
    assert figures.mash is not None
    return figures.mash


STEEPED = recipe(
    20, 60, (malt("Caramel malt", SPECIALS["Caramel malt"], 3.0, steeped=True),), (sugar("Extract", 2, from_malt=True),)
)
SWOLLEN = hot_volume(cool_l=1.0, temperature=67)
"""What a mash at 67 °C takes up, cool; `tests/published` holds it to the steam tables."""
ROOMS: dict[str, tuple[Recipe, str, Callable[[Figures], float]]] = {
    "the hot wort": (PLAIN, "kettle", lambda figures: figures.volumes.boil_hot.number / 0.8),
    "the hot mash": (PLAIN, "tun", lambda figures: _mash(figures).volume.number * SWOLLEN / 0.97),
    "the strike water": (
        recipe(20, 60, (malt("Pale malt", BASES["Pale malt"], 14.0),)),
        "kettle",
        lambda figures: _mash(figures).water.number,
    ),
    "the mash drawn to be boiled": (
        replace(PLAIN, mash=(rest(40, 30), rest(72, 30, "decoction"))),
        "kettle",
        lambda figures: _mash(figures).rests[1].decoction.number / 0.8,
    ),
    "the steep": (
        replace(STEEPED, kettle=value(10.0, "L", "wort at the start of the boil")),
        "kettle",
        # Three litres to a kilogram, and 0.67 L/kg of room for the grain.
        lambda figures: (3.0 + 0.67) * figures.grist.steeped.number,  # type: ignore[union-attr]
    ),
}


@pytest.mark.parametrize("what", ROOMS)
def test_a_vessel_that_just_holds_it_is_large_enough_and_one_that_does_not_is_too_small(what: str) -> None:
    """A fifth of what boils is left to the foam, 3 % of a tun to the spoon; a steep may come up to the brim."""
    written, vessel, needed = ROOMS[what]
    home = brewhouse("home", 20)
    room = needed(work_out(written, home, *MODELS))

    def said(litres: float) -> bool:
        full = replace(home, **{vessel: value(litres, "L", vessel)})
        return any(words.startswith(f"{what} takes ") for words in errors(written, full))

    assert not said(room + 1e-5)
    assert said(room - 1e-5)


@pytest.mark.parametrize("thickness", [(24.5 + 15 - 1e-5) / 15, (24.5 + 15 + 1e-5) / 15])
def test_a_mash_takes_all_the_water_of_the_brew_and_no_drop_more(thickness: float) -> None:
    """15 kg keep 15 L, and 24.5 L are boiled."""
    heavy = recipe(20, 60, (malt("Pale malt", BASES["Pale malt"], 15.0),))
    said = [it for it in errors(heavy, brewhouse("home", 20, thickness=thickness)) if it.startswith("the mash takes")]
    assert bool(said) == (thickness > (24.5 + 15) / 15)


@pytest.mark.parametrize(("more", "fits"), [(-1e-4, True), (1e-4, False)])
def test_a_wort_may_climb_to_what_the_pot_boils(more: float, fits: bool) -> None:
    """2 kg stirred in at once are 1.26 L, and 0.5 L have gone up as steam; it swells as the plan has it."""
    late = recipe(20, 60, (), (sugar("Early", 1, from_malt=True), sugar("Late", 2, minutes=10, from_malt=True)))
    home = brewhouse("home", 20, boil_off=0.6)
    start = work_out(late, home, *MODELS).volumes
    swells = start.boil_hot.number / start.boil.number
    brim = (start.boil.number + 1.26 - 0.5 - more) * swells / 0.8
    words = errors(late, replace(home, kettle=value(brim, "L", "kettle")))
    assert (not [it for it in words if it.startswith("the wort climbs to")]) is fits


@pytest.mark.parametrize(("litres", "why"), [(3.0, "the kettle boils dry"), (4.5, "the wort that leaves"), (4.6, "")])
def test_a_kettle_boils_dry_and_gives_nothing_where_no_drop_is_left(litres: float, why: str) -> None:
    """3 L go up in the hour, and 1.5 L stay behind."""
    sugar_water = recipe(20, 60, (), (sugar("Sugar", 0.5),))
    words = errors(replace(sugar_water, kettle=value(litres, "L", "boil")), brewhouse("home", 20))
    refused = [it.removeprefix("this cannot be brewed as written: ") for it in words if "cannot be brewed" in it]
    assert [it.startswith(why) for it in refused] == ([True] if why else []), words


# The mash, the beer


@pytest.mark.parametrize(("celsius", "main"), [(59.9, 66.0), (60.0, 60.0)])
def test_the_main_rest_is_the_longest_at_60_degrees_or_above(celsius: float, main: float) -> None:
    found = main_rest((rest(celsius, 60), rest(66, 30)))
    assert found is not None
    assert found.temperature.number == main


@pytest.mark.parametrize(("power", "part"), [(29.9, "specialty"), (30.0, "base")])
def test_a_kilned_malt_that_converts_itself_is_a_base_malt(power: float, part: str) -> None:
    assert role(malt("Amber", Kind("kilned", 0.78, 5.0, "°L", power, True), 1.0)) == part


@pytest.mark.parametrize(("mcu", "models"), [(9.99, 1), (10.01, 2), (10.49, 2), (10.51, 3), (36.9, 3), (37.1, 2)])
def test_a_model_of_colour_is_asked_only_where_its_source_covers_the_beer(mcu: float, models: int) -> None:
    """Mosher's line from 10, Daniels' from 10.5 to 37 malt colour units, as Morey quotes them.

    Pounds times °L in a US gallon of the wort in the kettle at the end of the boil, 21.5 L.
    """
    colour = mcu * (21.5 / 3.785411784) / (4 / 0.45359237)
    grist = recipe(20, 60, (malt("Pale malt", Kind("base", 0.8, colour, "°L", 60, True), 4.0),))
    assert len(work_out(grist, brewhouse("home", 20), *MODELS).colour.models) == models


@pytest.mark.parametrize("metres", [0, 60, 1500])
@pytest.mark.parametrize(("minutes", "daniels", "rager"), [(60, 0.30, 0.30), (30, 0.24, 0.153), (20, 0.19, 0.101)])
def test_a_table_of_bands_is_read_by_the_clock_however_high_it_boils(
    minutes: float, daniels: float, rager: float, metres: float
) -> None:
    """By the printed tables, in thin wort: 20 g of 8 % in the 21.5 L of the kettle. A curve gives less higher up."""
    written = replace(PLAIN, hops=(hop("Bitter hop", 20, "boil", alpha=0.08, minutes=minutes),))
    found, low = (
        {name: it.number for name, it in work_out(written, house, *MODELS).bitterness.models}
        for house in (brewhouse("home", 20, altitude_m=metres), brewhouse("home", 20))
    )
    assert found["daniels 1996"] == pytest.approx(20 * 80 * daniels / 21.5, rel=1e-6)
    assert found["rager 1990"] == pytest.approx(20 * 80 * rager / 21.5, rel=1e-6)
    assert (found["tinseth 1997"] < low["tinseth 1997"]) is (metres > 0)


@pytest.mark.parametrize("minutes", [60, 30, 20, 10])
def test_a_hop_meets_each_gravity_for_as_long_as_it_lasts(minutes: float) -> None:
    """20 L do not boil away; a kilogram of sugar is in them from the start, and another from 20 min before the end.

    The gravity is found from the share that is used, as Tinseth 1997 prints it, and wort's by the printed cubic.
    """
    grist = recipe(20, 60, (), (sugar("Early", 1.0), sugar("Late", 1.0, minutes=20)))
    written = replace(grist, hops=(hop("First", 20, "boil", minutes=minutes),))
    used = work_out(written, brewhouse("home", 20, boil_off=0, left_l=0), *MODELS).bitterness.hops[0].utilisation
    assert used is not None
    met = 1 + log(used.number / (1.65 * (1 - exp(-0.04 * minutes)) / 4.15)) / log(0.000125)
    thin, strong = (wort_gravity(extract_kg=kg * 0.98 * 0.97, wort_l=20) for kg in (1, 2))
    before = max(minutes - 20, 0)
    assert met == pytest.approx((before * thin + min(minutes, 20) * strong) / minutes, abs=1e-6)


STEPS_OF_ALPHA = (0.001, 0.002, 0.0025, 0.005, 0.01, 0.015, 0.02)


@pytest.mark.parametrize("step", STEPS_OF_ALPHA)
def test_packets_lie_as_far_apart_as_their_crops_do(step: float) -> None:
    expected = tuple(0.1 + times * step for times in (-2, -1, 0, 1, 2))
    assert alphas(0.1, 0.1 - 2 * step, 0.1) == pytest.approx(expected)
    assert alphas(0.1, 0.1, 0.1 + 2 * step) == pytest.approx(expected)


def test_no_packet_is_a_third_as_strong_as_the_planned_one_or_more_than_pure() -> None:
    assert alphas(0.031, 0.011, 0.051)[0] == pytest.approx(0.011)
    assert alphas(0.029, 0.009, 0.049)[0] == pytest.approx(0.019)
    assert alphas(0.96, 0.92, 1.0)[-1] == 1.0
    assert len(alphas(0.98, 0.94, 1.02)) == 4
    assert alphas(0.002, 0.0, 0.004) == pytest.approx((0.001, 0.002, 0.003, 0.004))


# The method

BREW = """---
title: A trial
batch: 20 L
boil: {boil} min
malts:
  - 4 kg pale ale malt
hops:
  - 28 g Fuggle, 4.5 %, {hop} min
water:
  - hard tap water
yeast:
  - 11 g american ale yeast, clean, dried
mash:
  - 67 °C, 60 min, {water} L
{rest}ferment:
  - 19 °C, 10 days
carbonation: 2.2 volumes, keg
---
"""


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    def build(boil: float = 60, water: float = 12, hop: float = 10, rest: str = "") -> Plan:
        outcome = plan_of(BREW.format(boil=boil, water=water, hop=hop, rest=rest))
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


@pytest.mark.parametrize(("minutes", "is_hung_in"), [(14.9, False), (15, True)])
def test_a_coil_is_boiled_for_a_quarter_of_an_hour_where_the_boil_is_as_long(
    minutes: float, is_hung_in: bool, plan: Callable[..., Plan]
) -> None:
    assert ("coil" in {step.kind for step in steps(plan(boil=minutes))}) is is_hung_in


@pytest.mark.parametrize(("left", "is_heated"), [(0.049, False), (0.051, True)])
def test_nobody_heats_a_drop_to_sparge_with(left: float, is_heated: bool, plan: Callable[..., Plan]) -> None:
    """24.5 L are boiled and 4 kg keep 4 L."""
    titles = {step.title for step in steps(plan(water=28.5 - left))}
    assert ("Heat the sparge water" in titles) is is_heated


@pytest.mark.parametrize(("minutes", "begins"), [(60, "At once, "), (59.9, ""), (0, "With the heat off, ")])
def test_what_boils_for_the_whole_boil_goes_in_at_once(minutes: float, begins: str, plan: Callable[..., Plan]) -> None:
    (added,) = (step for step in steps(plan(hop=minutes)) if step.kind == "hops")
    said = "".join(part for part in added.sentences[0] if isinstance(part, str))
    assert said.startswith(begins)
    assert ("At once" in said) == (begins == "At once, ")


@pytest.mark.parametrize(("celsius", "kind"), [(67, "Rest again"), (66, "Rest again"), (67.1, "Raise the mash")])
def test_only_a_warmer_rest_is_warmed_to(celsius: float, kind: str, plan: Callable[..., Plan]) -> None:
    method = steps(plan(rest=f"  - {celsius} °C, 10 min\n"))
    assert any(step.title.startswith(kind) for step in method)
    assert not any(step.title.startswith("Warm the mash") for step in method)


@pytest.mark.parametrize(("grams", "is_dissolved"), [(0.499, True), (0.5, False)])
def test_what_no_kitchen_scale_shows_is_measured_by_the_spoon_of_a_solution(
    grams: float, is_dissolved: bool, plan: Callable[..., Plan]
) -> None:
    whole = plan()
    chemistry = whole.figures.chemistry
    assert chemistry is not None
    dose = given(grams, "g", "metabisulfite", words="made up", metric=True)
    dosed = replace(whole, figures=replace(whole.figures, chemistry=replace(chemistry, metabisulfite=dose)))
    words = "".join(
        part for step in steps(dosed) for sentence in step.sentences for part in sentence if isinstance(part, str)
    )
    assert ("dissolve " in words) is is_dissolved


# Editions


def plan_in(written: Recipe, home: Brewhouse) -> Plan:
    planned = plan_recipe(written, book(home), problems := Problems())
    assert planned is not None, list(map(str, problems))
    return planned


def made(written: Recipe, home: Brewhouse, away: Brewhouse, batch_l: float) -> MadeEdition | RefusedEdition:
    brew = Brew(written, home, away, value(batch_l, "L", "batch"), book(home, away))
    return make(plan_in(written, home), brew.edition("as written"), brew.book)


def odd(kind: Kind, share: float) -> Plan:
    """A beer with so much of its grist of an odd malt."""
    grist = (malt("Pale malt", BASES["Pale malt"], 4 * (1 - share)), malt("Odd malt", kind, 4 * share))
    return plan_in(recipe(20, 60, grist), brewhouse("home", 20))


POT = brewhouse("pot", 10, "none", boil_off=2, left_l=0.5, kettle_l=15)
TEN = value(10, "L", "batch")


@pytest.mark.parametrize(("share", "is_made"), [(0.36, True), (0.37, False)])
def test_a_small_mash_of_flakes_takes_seven_parts_of_pale_malt_to_four(share: float, is_made: bool) -> None:
    """Pale malt has 55 °Lintner, flakes none: 35/(55 − 35) = 1.75 of it to one of them, which are 4/11 of the two."""
    if is_made:
        assert as_extract(odd(SPECIALS["Flaked barley"], share), POT, TEN, malt_extracts()).recipe.mash
    else:
        with pytest.raises(ValueError, match="there is not so much of it here"):
            as_extract(odd(SPECIALS["Flaked barley"], share), POT, TEN, malt_extracts())


@pytest.mark.parametrize(("colour", "kind"), [(2.49, "extra light"), (2.5, "light")])
def test_a_malt_paler_than_two_and_a_half_degrees_becomes_the_palest_extract(colour: float, kind: str) -> None:
    beer = recipe(20, 60, (malt("Pale malt", Kind("base", 0.8, colour, "°L", 60, True), 4.0),))
    swapped = as_extract(plan_in(beer, brewhouse("home", 20)), POT, TEN, malt_extracts())
    assert {line.name for line in swapped.recipe.sugars} == {f"Dried malt extract, {kind}"}


@pytest.mark.parametrize(("colour", "left_out"), [(2.49, True), (2.5, False)])
def test_a_kilned_malt_below_two_and_a_half_degrees_is_sour(colour: float, left_out: bool) -> None:
    notes = as_extract(odd(Kind("kilned", 0.78, colour, "°L", 0, True), 0.05), POT, TEN, malt_extracts()).notes
    assert any("Odd malt is left out" in note for note in notes) is left_out


@pytest.mark.parametrize(("kg", "lines"), [(0.499, 1), (0.501, 2)])
def test_less_than_half_a_kilogram_of_extract_goes_in_at_once(kg: float, lines: int) -> None:
    """The extract is 96 % of dried malt extract, and the grain gives 0.75 of its potential, 0.81 × 0.96."""
    caramel = malt("Caramel malt", SPECIALS["Caramel malt"], 4.0)
    beer = recipe(20, 60, (malt("Pale malt", BASES["Pale malt"], kg * 0.96 / (0.75 * 0.81 * 0.96)), caramel))
    home = giving(brewhouse("home", 20), 0.75, beer)
    pot = replace(POT, kettle=value(9, "L", "kettle"))
    assert len(as_extract(plan_in(beer, home), pot, TEN, malt_extracts()).recipe.sugars) == lines


@pytest.mark.parametrize(("litres", "boiled"), [(1.0, 1.0), (1.49, 1.0), (1.5, 1.5), (0.99, 0.99)])
def test_a_pot_is_filled_in_half_litres_from_a_litre_on(litres: float, boiled: float) -> None:
    """A fifth is left for the foam, and it swells as the plan has it."""
    away = brewhouse("away", 2, "none", boil_off=0.1, left_l=0.05)
    volumes = work_out(EXTRACT, brewhouse("home", 20), *MODELS).volumes
    swells = volumes.boil_hot.number / volumes.boil.number
    away = replace(away, kettle=value((litres + 1e-6) * swells / 0.8, "L", "kettle"))
    edition = made(EXTRACT, brewhouse("home", 20), away, 2)
    assert isinstance(edition, MadeEdition), edition.why
    assert edition.plan.figures.volumes.boil.number == pytest.approx(boiled, abs=1e-5)


@pytest.mark.parametrize(("thickness", "is_made"), [(1.801, True), (1.799, False)])
def test_a_tun_too_small_for_what_can_be_stirred_is_refused(thickness: float, is_made: bool) -> None:
    """2.14 kg of grist (4 × 11.5/21.5), and 0.67 L/kg of room; a mash is thinned by hundredths of a litre.

    It swells in the heat, and may fill 97 % of the brim.
    """
    kg = 2.14
    tun = (kg * (thickness + 0.67) + (0.01 if is_made else -0.001)) * SWOLLEN / 0.97
    edition = made(PLAIN, brewhouse("home", 20), brewhouse("away", 10, tun_l=tun), 10)
    assert isinstance(edition, MadeEdition) is is_made


@pytest.mark.parametrize(("drift", "is_said"), [(0.0099, False), (0.0101, True)])
def test_a_drift_of_bitterness_is_said_from_a_hundredth_on(drift: float, is_said: bool) -> None:
    """No hop is boiled, so the wort that is left in the kettle decides how much of the stand gets into the beer."""
    stand = replace(PLAIN, hops=(hop("Last", 60, "stand", minutes=40, heat_c=90),))
    home = brewhouse("home", 20, left_l=3)

    def size(left_l: float) -> MadeEdition:
        edition = made(stand, home, brewhouse("away", 20, left_l=left_l), 20)
        assert isinstance(edition, MadeEdition), edition.why
        return edition

    def off(left_l: float) -> float:
        kept = next(it for it in size(left_l).drifts if it.figure == "bitterness")
        return abs(kept.exact.number / kept.home.number - 1) - drift

    left_l = brentq(off, 0.1, 3, xtol=1e-4)
    assert any("No hop is boiled long enough" in note for note in size(left_l).notes) is is_said


# Water


@pytest.mark.parametrize(
    ("ion", "mg_l", "figure", "is_there"),
    [
        ("calcium", 49.9, "gypsum", True),
        ("calcium", 50.0, "gypsum", False),
        ("chloride", 0.99, "sulfate_to_chloride", False),
        ("chloride", 1.0, "sulfate_to_chloride", True),
        ("chlorine", 0.0, "metabisulfite", False),
        ("chlorine", 0.01, "metabisulfite", True),
    ],
)
def test_what_a_water_wants_goes_by_what_is_in_it(
    ion: str, mg_l: float, figure: str, is_there: bool, plan: Callable[..., Plan]
) -> None:
    """50 mg/L of calcium do a mash good, a ratio to less than 1 mg/L of chloride says nothing."""
    whole = plan()
    source = whole.recipe.water.source
    assert source is not None
    plain = replace(source, chlorine=value(0, "mg/L", "chlorine"), chloramine=None, monochloramine=None)
    water = replace(whole.recipe.water, source=replace(plain, **{ion: value(mg_l, "mg/L", ion)}))
    found = work_out(replace(whole.recipe, water=water), whole.brewhouse, *MODELS).chemistry
    assert (getattr(found, figure) is not None) is is_there


MASHED_ALONE = [
    # From memory: typical mashes in distilled water, and how far nine sacks in ten lie about them.
    *((("Flaked oats", "flaked", "oats"), 5.9, 0.3), (("Torrefied wheat", "torrefied", "wheat"), 5.9, 0.3)),
    *((("Raw wheat", "raw", "wheat"), 5.9, 0.3), (("Beech-smoked malt", "smoked", "barley"), 5.7, 0.15)),
    *((("Dark wheat malt", "kilned", "wheat"), 5.95, 0.1), (("Pilsner malt", "base", "barley"), 5.75, 0.1)),
    *((("Pale ale malt", "base", "barley"), 5.65, 0.1), (("Mild malt", "base", "barley"), 5.7, 0.15)),
    *((("Vienna malt", "kilned", "barley"), 5.6, 0.1), (("Munich malt, light", "kilned", "barley"), 5.45, 0.1)),
    (("Brown malt", "kilned", "barley"), 5.3, 0.25),
]


@pytest.mark.parametrize(("grain", "ph", "half"), MASHED_ALONE, ids=lambda part: str(part))
def test_a_grain_mashed_alone_comes_to_so_much(grain: tuple[str, str, str], ph: float, half: float) -> None:
    name, kind, cereal = grain
    found = mash_ph_of(malt(name, Kind(kind, 0.8, 3.0, "°L", 0, True, cereal), 1.0))
    assert (found.number, found.high - found.number) == pytest.approx((ph, half))
