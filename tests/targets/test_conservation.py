"""Nothing is lost on the way from the grist to the glass: extract, water, alpha acids and colour, to the gram.

Tried on made-up recipes of every kind in made-up brewhouses, through the whole chain of equations; the balances beside
it are drawn up here, from what a brew takes in and what becomes of it, and not from the chain's own sums.
"""

import os

import pytest
from any_brew import Brew, brews
from hypothesis import HealthCheck, assume, given, settings

from gristbook.model.moment import BeforePackaging
from gristbook.model.recipe import Recipe
from gristbook.sheet.value import number
from gristbook.targets.chain import work_out
from gristbook.targets.results import Figures

EXAMPLES = int(os.environ.get("GRISTBOOK_EXAMPLES", "150"))
often = settings(
    max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow]
)
GRAM = 0.001
WATER_KG_PER_L = 0.998203
"""At 20 °C, as the tables of extract take it."""


def worked_out(brew: Brew) -> Figures:
    """The figures at home; what cannot be brewed at all balances nothing."""
    try:
        return work_out(brew.recipe, brew.home, "tinseth 1997", "morey 1995")
    except ValueError:
        assume(False)
        raise


def extract_by_table(gravity: float, litres: float) -> float:
    """Kilograms of extract in a wort, by the cubic through ASBC Table 1 and the weight of a litre."""
    plato = -616.868 + 1111.14 * gravity - 630.272 * gravity**2 + 135.997 * gravity**3
    return plato / 100 * gravity * WATER_KG_PER_L * litres


def share_that_leaves(figures: Figures) -> float:
    """The share of the kettle's wort that goes into the fermenter."""
    end = number(figures.volumes.end_of_boil)
    return (end - number(figures.volumes.left_in_kettle)) / end


@given(brew=brews())
@often
def test_the_extract_of_the_grist_is_in_the_fermenter_or_left_behind(brew: Brew) -> None:
    figures = worked_out(brew)
    efficiency, steep = figures.wort.mash_efficiency, brew.home.steep_yield.number
    brought = 0.0
    for line in figures.grist.malts:
        dry, moisture = line.malt.extract_dry.number, line.malt.moisture.number
        share = steep if line.malt.steep else number(efficiency or 0.0)
        brought += number(line.mass) * dry * (1 - moisture) * share
    for sugar in figures.grist.sugars:
        if not sugar.sugar.into_fermenter:
            brought += number(sugar.mass) * sugar.sugar.extract_dry.number * (1 - sugar.sugar.moisture.number)
    end, behind = number(figures.volumes.end_of_boil), number(figures.volumes.left_in_kettle)
    into = number(figures.volumes.into_fermenter)
    in_fermenter = extract_by_table(number(figures.wort.original), into)
    left_behind = extract_by_table(number(figures.wort.after_the_boil), behind) if behind else 0.0
    assert extract_by_table(number(figures.wort.after_the_boil), end) == pytest.approx(brought, abs=GRAM)
    assert in_fermenter + left_behind == pytest.approx(brought, abs=GRAM)
    assert number(figures.wort.extract_in_fermenter) == pytest.approx(in_fermenter, abs=GRAM)


@given(brew=brews())
@often
def test_fermented_extract_is_alcohol_gas_and_yeast(brew: Brew) -> None:
    """Balling's balance: 2.0665 g of extract make 1 g of alcohol, 0.9565 g of carbon dioxide and 0.11 g of yeast.

    Gas and yeast leave the beer, whose weight shrinks by them; what is left of the extract stays in it. The tolerance
    is a gram in a kilogram of extract: Balling's printed 0.010665 stands for (2.0665 − 1)/100.
    """
    figures = worked_out(brew)
    later = sum(line.extract.number for line in figures.grist.sugars if line.sugar.into_fermenter)
    extract_kg = number(figures.wort.extract_in_fermenter) + later
    plato = number(figures.wort.equivalent_original_plato)
    wort_kg = 100 * extract_kg / plato
    by_weight, real = (number(part) / 100 for part in (figures.fermentation.abw, figures.fermentation.real_extract))
    alcohol_kg = wort_kg * by_weight / (1 + (0.9565 + 0.11) * by_weight)
    beer_kg = wort_kg - (0.9565 + 0.11) * alcohol_kg
    fermented_kg = extract_kg - real * beer_kg
    assert fermented_kg == pytest.approx((1 + 0.9565 + 0.11) * alcohol_kg, abs=GRAM * max(extract_kg, 1))
    assert alcohol_kg >= 0
    litres = beer_kg / (number(figures.fermentation.final) * WATER_KG_PER_L)
    ethanol_kg_per_l = 0.78924  # at 20 °C, OIML R 22
    assert number(figures.fermentation.abv) == pytest.approx(100 * alcohol_kg / ethanol_kg_per_l / litres, rel=1e-4)


@given(brew=brews())
@often
def test_all_the_water_steams_away_stays_in_the_grain_or_becomes_wort(brew: Brew) -> None:
    """Poured = into the fermenter + left in the kettle + steam + kept by the grain − room that malt extract takes."""
    figures = worked_out(brew)
    grain = number(figures.grist.mashed or 0.0) + number(figures.grist.steeped or 0.0)
    dissolved = sum(
        0.63 * number(line.mass)
        for line in figures.grist.sugars
        if line.sugar.from_malt and not line.sugar.into_fermenter
    )
    steam = brew.home.boil_off.number * brew.recipe.boil.number / 60
    wort = number(figures.volumes.into_fermenter) + number(figures.volumes.left_in_kettle)
    accounted = wort + steam + grain * brew.home.absorption.number - dissolved
    assert number(figures.water.total) == pytest.approx(accounted, abs=GRAM / WATER_KG_PER_L)


@given(brew=brews())
@often
def test_all_alpha_acids_are_bitter_in_the_beer_left_behind_or_not_isomerised(brew: Brew) -> None:
    figures = worked_out(brew)
    leaves, into = share_that_leaves(figures), number(figures.volumes.into_fermenter)
    for line in figures.bitterness.hops:
        alpha_mg = 1000 * number(line.mass) * line.hop.alpha.number
        used = number(line.utilisation or 0.0)
        assert 0 <= used <= 1
        in_beer_mg = number(line.bitterness) * into
        assert in_beer_mg == pytest.approx(alpha_mg * used * leaves, rel=1e-9, abs=1e-6)
    kits_mg = sum(kit.kit.bitterness.number * kit.kit.volume.number for kit in figures.bitterness.kits)
    hops_mg = sum(number(line.bitterness) * into for line in figures.bitterness.hops)
    assert number(figures.bitterness.total) * into == pytest.approx(hops_mg + kits_mg, rel=1e-9, abs=1e-6)


@given(brew=brews())
@often
def test_all_colour_is_in_the_beer_or_left_behind(brew: Brew) -> None:
    """Malt colour units are pounds times °L a gallon: so many are 8.3454 kg·°L in a litre."""
    figures = worked_out(brew)
    in_kettle = 0.0
    later = 0.0
    for line in figures.grist.malts:
        colour = line.malt.colour
        lovibond = colour.number if colour.unit == "°L" else (colour.number + 1.2) / 2.65
        in_kettle += number(line.mass) * lovibond
    for sugar in figures.grist.sugars:
        whole = number(sugar.mass) * sugar.sugar.colour.number
        in_kettle += 0.0 if sugar.sugar.into_fermenter else whole
        later += whole if sugar.sugar.into_fermenter else 0.0
    in_beer = number(figures.colour.malt_colour) * number(figures.volumes.into_fermenter) / 8.3454
    assert in_beer == pytest.approx(in_kettle * share_that_leaves(figures) + later, rel=1e-5)


@given(brew=brews())
@often
def test_the_beer_is_packaged_or_left_behind(brew: Brew) -> None:
    """6 mL of beer stay in each gram of dry hops (common practice)."""
    figures = worked_out(brew)
    kept = 0.006 * dry_hops_g(brew.recipe) + brew.home.left_in_fermenter.number
    whole = number(figures.volumes.packaged) + kept
    assert whole == pytest.approx(number(figures.volumes.into_fermenter), abs=GRAM)


def dry_hops_g(recipe: Recipe) -> float:
    return sum(hop.mass.number for hop in recipe.hops if isinstance(hop.use, BeforePackaging) and hop.mass)
