"""What a recipe may leave to its water, its sugar or its vessel, held to sums by hand; and the words that it chose."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.targets.advice.advice import advise
from gristbook.targets.advice.advice_rows import ROWS
from gristbook.targets.figures import Plan
from gristbook.targets.method.whole import steps

BEER = {
    "title": "A beer",
    "batch": "20 L",
    "malts": "\n  - 4.5 kg pale ale malt",
    "hops": "\n  - 28 g Fuggle, 4.5 % alpha, 60 min",
    "yeast": "\n  - 11 g american ale yeast, clean, dried",
    "mash": "67 °C, 60 min",
    "ferment": "19 °C, 10 days",
    "carbonation": "2.2 volumes, primed with table sugar",
}


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    def build(**said: str) -> Plan:
        lines = [f"{key}: {value}" for key, value in {**BEER, **said}.items()]
        outcome = plan_of("\n".join(["---", *lines, "---", ""]))
        assert outcome.plan is not None, [str(it) for it in outcome.problems]
        return outcome.plan  # type: ignore[no-any-return]

    return build


def told(plan: Plan) -> str:
    """The whole method in plain words."""
    found = [(step.title, *(part for words in step.sentences for part in words)) for step in steps(plan)]
    parts = (part if isinstance(part, str) else f"{part.number:.3g} {part.unit}" for it in found for part in it)
    return " ".join(" ".join(parts).split())


def test_a_rest_follows_from_its_strike_water(plan: Callable[..., Plan]) -> None:
    """By hand: 4.5 kg at 20 °C take up the heat of 0.41 × 4.5 = 1.845 L; 2.7 L/kg are 12.15 L of water at 76 °C."""
    found = plan(mash="strike at 76 °C, 60 min")
    by_hand = (20 * 1.845 + 76 * 12.15) / (1.845 + 12.15)
    assert found.recipe.mash[0].temperature.number == pytest.approx(by_hand, abs=0.01)
    assert found.figures.mash is not None
    assert found.figures.mash.strike.number == pytest.approx(76, abs=0.001)
    other = plan(mash=f"{by_hand:.4f} °C, 60 min")
    assert found.figures.fermentation.final.number == pytest.approx(other.figures.fermentation.final.number, abs=1e-5)


def test_a_later_rest_follows_from_its_infusion(plan: Callable[..., Plan]) -> None:
    """By hand: 1.845 + 12.15 L at 62 °C, and 4 L at 95 °C."""
    found = plan(mash="\n  - 62 °C, 30 min\n  - infusion 4 L at 95 °C, 30 min")
    assert found.recipe.mash[1].temperature.number == pytest.approx((62 * 13.995 + 95 * 4) / 17.995, abs=0.01)


def test_less_hot_water_is_more_of_it(plan: Callable[..., Plan]) -> None:
    """By hand: (1.845 + 12.15) × (72 − 62) / (90 − 72) = 7.775 L of water at 90 °C."""
    found = plan(mash="\n  - 62 °C, 30 min\n  - 72 °C, 30 min, infusion with water at 90 °C").figures.mash
    assert found is not None
    assert found.rests[1].infusion is not None
    assert found.rests[1].infusion.number == pytest.approx(7.775, abs=0.001)


def test_four_ounces_of_corn_sugar_make_so_much_gas(plan: Callable[..., Plan]) -> None:
    """By hand: 113.398 g of C6H12O6·H2O (198.17 g/mol) give 2 × 44.009 / 198.17 = 0.44415 of gas, in 19 L of beer.

    0.905 volumes are left at 19 °C: between 0.93 at 18 and 0.88 at 20 in the table of Hibberd.
    """
    found = plan(carbonation="primed with 4 oz corn sugar").figures
    assert found.packaging is not None
    assert found.packaging.sugar is not None
    assert found.packaging.sugar.number == pytest.approx(113.398, abs=0.001)
    beer = found.volumes.packaged.number
    by_hand = 0.905 + 113.398 * 0.44415 / (beer * 1.9768)
    assert found.packaging.volumes.number == pytest.approx(by_hand, abs=0.001)


def test_grams_to_a_litre_are_grams_to_a_litre(plan: Callable[..., Plan]) -> None:
    """By hand: 0.905 + 6 × 4 × 44.009 / 342.297 / 1.9768 = 2.466 volumes."""
    found = plan(carbonation="primed with table sugar, 6 g/L").figures.packaging
    assert found is not None
    assert found.volumes.number == pytest.approx(2.466, abs=0.001)


def test_drops_are_so_much_sugar_in_a_bottle(plan: Callable[..., Plan]) -> None:
    """By hand: 3 g in 0.5 L are 6 g/L."""
    found = plan(carbonation="primed with carbonation drops of 3 g, 1 per 500 mL bottle")
    assert found.figures.packaging is not None
    assert found.figures.packaging.volumes.number == pytest.approx(2.466, abs=0.001)
    assert "1 pieces of carbonation drops into each bottle of 0.5 L" in told(found)


def test_grams_of_gas_are_volumes(plan: Callable[..., Plan]) -> None:
    """By hand: 5 / 1.9768 = 2.529."""
    found = plan(carbonation="5 g/L CO2, keg").figures.packaging
    assert found is not None
    assert found.volumes.number == pytest.approx(2.529, abs=0.001)


def test_beer_that_fermented_under_pressure_holds_more_gas_and_wants_less_sugar(plan: Callable[..., Plan]) -> None:
    """By Henry's law, by hand: 0.905 × (0.5 + 1.01325) / 1.01325 = 1.3516 volumes."""
    open_to_air = plan().figures.packaging
    found = plan(ferment="19 °C, 10 days, under pressure 0.5 bar")
    under = found.figures.packaging
    assert under is not None
    assert open_to_air is not None
    assert open_to_air.residual.number == pytest.approx(0.905, abs=0.0005)
    assert under.residual.number == pytest.approx(1.3516, abs=0.0005)
    assert under.sugar is not None
    assert open_to_air.sugar is not None
    share = (2.2 - 1.3516) / (2.2 - 0.905)
    assert under.sugar.number / open_to_air.sugar.number == pytest.approx(share, abs=0.001)
    assert "set the valve to 0.5 bar" in told(found)


@pytest.mark.parametrize(
    "steps_of_it",
    [
        "19 °C, 7 days\n  - 18 °C, 3 days, under pressure 0.5 bar",
        "18 °C, 7 days, under pressure 0.5 bar\n  - 19 °C, 3 days",
    ],
)
def test_gas_that_was_held_at_any_step_is_still_there(plan: Callable[..., Plan], steps_of_it: str) -> None:
    """The warmest step has no pressure of its own; by hand as above, or bottles would be primed as if it had gone."""
    found = plan(ferment=f"\n  - {steps_of_it}").figures.packaging
    assert found is not None
    assert found.residual.number == pytest.approx(1.3516, abs=0.0005)


def test_gas_goes_by_the_warmest_end_of_a_span(plan: Callable[..., Plan]) -> None:
    """0.88 volumes at 20 °C in the table of Hibberd, 0.83 at 22."""
    spans = {"18 to 20 °C, 10 days": 0.88, "18 °C, 4 days, then ramp to 22 °C over 6 days": 0.83}
    for ferment, residual in spans.items():
        found = plan(ferment=ferment).figures.packaging
        assert found is not None
        assert found.residual.number == pytest.approx(residual, abs=0.0005)


def test_a_mash_out_does_not_change_how_far_it_ferments(plan: Callable[..., Plan]) -> None:
    rest = "\n  - sacch rest at 65 °C for 30 min\n  - mash out 76 °C, 40 min"
    found, alone = plan(mash=rest), plan(mash="65 °C, 30 min")
    assert found.figures.fermentation.real_attenuation.number == pytest.approx(
        alone.figures.fermentation.real_attenuation.number, abs=1e-9
    )


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ({"mash": "\n  - protein rest 52 °C, 15 min\n  - 67 °C, 60 min\n  - mash out, 76 °C, 10 min"}, "Protein rest"),
        ({"mash": "\n  - 67 °C, 60 min\n  - mash out, 76 °C, 10 min"}, "Mash out"),
        ({"mash": "\n  - 67 °C, 60 min\n  - fly sparge at 75 °C"}, "Fly sparge"),
        ({"mash": "\n  - 67 °C, 60 min\n  - fly sparge at 75 °C"}, "of the water to 75 °C"),
        (
            {"ferment": "\n  - 19 °C, 10 days\n  - secondary on the cherries 3 weeks at 18 °C"},
            "Secondary on the cherries",
        ),
        ({"ferment": "\n  - 19 °C, 10 days\n  - cold crash to 2 °C, 2 days"}, "Cold crash"),
        ({"ferment": "\n  - pitch at 17 °C\n  - free rise to 21 °C, 10 days"}, "With the wort at 17 °C"),
        ({"ferment": "\n  - pitch at 17 °C\n  - free rise to 21 °C, 10 days"}, "warm by itself from 17 °C to 21 °C"),
        ({"carbonation": "cask, 1.4 volumes, primed with table sugar"}, "Fill the cask"),
        ({"carbonation": "still"}, "It is to be still"),
        ({"boil": "none", "hops": ""}, "do not boil it"),
    ],
)
def test_the_method_speaks_in_the_recipes_own_words(
    said: dict[str, str], words: str, plan: Callable[..., Plan]
) -> None:
    assert words in told(plan(**said))
    assert "start the clock" not in told(plan(boil="none", hops=""))


def test_a_salt_by_the_litre_is_weighed_for_the_water_that_it_goes_into(plan: Callable[..., Plan]) -> None:
    """By hand: 0.5 g in each of 4.5 × 2.7 = 12.15 L of mash water, 80 mg and 0.2 mL in each litre of all of it."""
    water = "\n  - soft water\n  - 0.5 g/L gypsum in the mash\n  - 80 mg/L Epsom salt\n  - 0.2 mL/L lactic acid 80 %"
    found = plan(water=water)
    gypsum, epsom = found.recipe.water.salts
    assert gypsum.mass.number == pytest.approx(0.5 * 12.15)
    assert gypsum.mass.unit == epsom.mass.unit == "g"
    whole = found.figures.water.total.number
    assert epsom.mass.number == pytest.approx(0.08 * whole)
    assert found.recipe.water.acids[0].volume.number == pytest.approx(0.2 * whole)
    grams = ("soft water", f"{0.5 * 12.15} g gypsum in the mash", f"{0.08 * whole} g Epsom salt")
    weighed = plan(water="".join(f"\n  - {it}" for it in grams)).figures.chemistry
    assert weighed is not None
    assert found.figures.chemistry is not None
    assert found.figures.chemistry.treated.sulfate == pytest.approx(weighed.treated.sulfate)


def test_without_a_sparge_all_the_water_is_in_the_mash(plan: Callable[..., Plan]) -> None:
    """By hand: what fills the kettle and what 4.5 kg keep; of the extract stays what is in 4.5 × (kept + 0.516) L."""
    sparged, found = plan(), plan(mash="67 °C, 60 min, no sparge")
    mash, kettle = found.figures.mash, found.figures.volumes.boil.number
    assert mash is not None
    assert sparged.figures.mash is not None
    assert sparged.figures.mash.sparge is not None
    kept = 4.5 * found.brewhouse.absorption.number
    assert mash.sparge is None
    assert mash.water.number == pytest.approx(kettle + kept)
    assert mash.lauter.number == pytest.approx(kettle / (kettle + kept + 4.5 * 0.516), abs=0.001)
    assert mash.lauter.number < sparged.figures.mash.lauter.number
    assert found.sheet["original-gravity"].number < sparged.sheet["original-gravity"].number
    assert "sparge" not in told(found).casefold()


def test_a_keg_by_its_pressure_holds_what_the_trade_s_table_says(plan: Callable[..., Plan]) -> None:
    """2.57 volumes at 38 °F and 12 psi (table 1 of Miller's article in BrewingTechniques 2(1), 1994)."""
    found = plan(carbonation="keg at 12 psi, 38 °F")
    assert found.sheet["carbonation"].number == pytest.approx(2.57, abs=0.056)
    assert found.figures.packaging is not None
    assert found.figures.packaging.sugar is None


def test_a_range_is_its_middle_and_its_half_on_either_side(plan: Callable[..., Plan]) -> None:
    """66 to 68 °C is 67 °C, a degree more or less; 3 to 4 days are half a day more or less than 3.5."""
    hops = "\n  - 28 g Fuggle, 4.5 % alpha, 60 min\n  - 20 g Fuggle, dry hop 3-4 days"
    recipe = plan(mash="66-68 °C / 60 min", hops=hops).recipe
    rest, dry = recipe.mash[0].temperature, recipe.hops[1].use.days
    assert (rest.number, rest.low, rest.high) == pytest.approx((67, 66, 68))
    assert (dry.number, dry.low, dry.high) == pytest.approx((3.5, 3, 4))


@pytest.mark.parametrize(
    ("said", "days"),
    [("day 4", 6), ("on day 4", 6), ("after 4 days", 6), ("for the last 3 days", 3), ("at high krausen", 8)],
)
def test_dry_hops_and_sugar_go_in_on_a_day(said: str, days: float, plan: Callable[..., Plan]) -> None:
    """Of ten days of ferment so many are left; high krausen is taken as the second."""
    hops = f"\n  - 28 g Fuggle, 4.5 % alpha, 60 min\n  - 20 g Fuggle, dry hop {said}"
    recipe = plan(hops=hops, sugars=f"\n  - 300 g table sugar, in the fermenter, {said}").recipe
    assert recipe.hops[1].use.days.number == pytest.approx(days)
    assert recipe.sugars[0].moment.days.number == pytest.approx(days)


def test_wort_is_soured_to_a_ph_that_page_and_method_tell(plan: Callable[..., Plan]) -> None:
    found = plan(
        yeast="\n  - lactobacillus, kettle sour 2 days at 38 °C, to pH 3.4\n  - 11 g american ale yeast, dried",
    )
    moment = found.recipe.yeasts[0].moment
    assert (moment.days.number, moment.temperature.number, moment.ph.number) == (2, 38, 3.4)
    assert "come down to pH 3.4" in told(found)


def test_sugar_and_malt_extract_among_the_malts_count_where_they_belong(plan: Callable[..., Plan]) -> None:
    mixed = plan(malts="\n  - 4 kg pale ale malt\n  - 300 g table sugar\n  - 500 g light dried malt extract")
    apart = plan(
        malts="\n  - 4 kg pale ale malt",
        sugars="\n  - 300 g table sugar",
        extracts="\n  - 500 g light dried malt extract",
    )
    without = plan(malts="\n  - 4 kg pale ale malt")
    gravity, there, less = (it.sheet["original-gravity"].number for it in (mixed, apart, without))
    assert gravity == pytest.approx(there)
    assert gravity > less + 0.005


def test_a_decoction_is_compared_with_what_the_rise_asks_for(plan: Callable[..., Plan]) -> None:
    """By hand: (12.15 + 0.67 × 4.5) L × (67 − 52) / (100 − 52) = 4.74 L to draw, whatever is told."""
    rests = "\n  - 52 °C, 15 min\n  - 67 °C, 60 min, decoction {}"
    found = [plan(mash=rests.format(litres)) for litres in ("2 L", "5 L")]
    for it in found:
        assert it.figures.mash is not None
        assert it.figures.mash.rests[1].decoction.number == pytest.approx(4.74, abs=0.03)
    assert [any(one.key == "decoction" for one in advise(it, ROWS)) for it in found] == [True, False]
