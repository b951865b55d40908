"""The water of a brew, from the tap to the pH of the mash, held to arithmetic by hand."""

from collections.abc import Callable
from dataclasses import fields, replace
from random import Random
from statistics import quantiles
from typing import Any

import pytest
from replay import Replay

from gristbook.equations import mash_ph as equations
from gristbook.model.figures import FIGURES
from gristbook.sheet.value import Value, given, lineage, number
from gristbook.targets.chain import work_out
from gristbook.targets.editions.rounding import rounded
from gristbook.targets.editions.water import scaled_water, without_a_mash
from gristbook.targets.figures import Plan
from gristbook.targets.method.whole import steps
from gristbook.targets.water.results import Ions, WaterChemistry
from gristbook.targets.water.rows import GRAINS, SHIFT, mash_ph_of

BREW = """---
title: A trial
batch: 20 L
malts:
  - 4 kg pale ale malt
  - 200 g caramel malt 60
  - 100 g chocolate malt
hops:
  - 30 g Fuggle, 4.5 %, 60 min
{water}
yeast:
  - 11 g irish ale yeast, dried
mash:
  - 67 °C, 60 min, 12 L
ferment:
  - 19 °C, 10 days
carbonation: 2.2 volumes, keg
---
"""
WHOLE = """water:
  - moderately hard tap water
  - 8.8 L distilled water
  - 5 g gypsum
  - 3 g calcium chloride dihydrate, in the mash
  - 1 g baking soda, in the mash
  - 2 mL lactic acid 88 %, in the mash
  - 0.2 g potassium metabisulfite"""


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    """`plan("- hard tap water")`: the trial brew with lines of water; `malts` in place of its own."""

    def build(*lines: str, malts: str = "", whole: str = "") -> Plan:
        water = whole or "\n".join(["water:", *(f"  - {line}" for line in lines)] if lines else [])
        text = BREW.format(water=water)
        if malts:
            start, end = text.index("malts:"), text.index("hops:")
            text = f"{text[:start]}malts:\n  - {malts}\n{text[end:]}"
        outcome = plan_of(text)
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


def chemistry(plan: Plan) -> WaterChemistry:
    found = plan.figures.chemistry
    assert found is not None
    return found


def ph(plan: Plan) -> Value:
    found = chemistry(plan).mash_ph
    assert found is not None
    return found


def numbers(ions: Ions | None) -> dict[str, float]:
    assert ions is not None
    return {field.name: getattr(ions, field.name).number for field in fields(ions)}


# A whole brew by hand. Molar masses (molmass): CaSO4·2H2O 172.171, CaCl2·2H2O 147.0144, NaHCO3 84.0067, CaCO3 100.087,
# K2S2O5 222.3232, lactic acid 90.078, Ca 40.078, Mg 24.305, Na 22.990, SO4 96.0624, Cl 35.453, HCO3 61.0169.
#
# Water: 20 L of batch, 1.5 L left, 3 L boiled away and 4.3 kg of grain at 1 L/kg: 28.8 L, of which 8.8 L distilled.
# 20 L of the tap's in 28.8 L are 0.69444 of its ions: Ca 38.194, Mg 6.25, Na 12.5, SO4 27.778, Cl 19.444, HCO3 114.583,
# which is 93.98 of alkalinity.
# 5 g of gypsum in 28.8 L: 173.611 mg/L, with Ca 0.23278 and SO4 0.55795 of it: 40.413 and 96.866.
# 3 g of calcium chloride: Ca 0.27261 and Cl 0.48231. In all 28.8 L: 28.397 and 50.241; in the mash's 12 L: 68.153 and
# 120.578.
# 1 g of soda: Na 0.27367, and 11.904 mEq. In all: 9.502 and 0.41333 mEq/L, 20.684 as chalk; in 12 L: 22.806 and 49.643.
# 0.2 g of metabisulfite: 6.944 mg/L, of which 2 × 96.0624 / 222.3232 becomes sulfate: 6.001.
ALL_OF_IT = {"calcium": 107.004, "magnesium": 6.25, "sodium": 22.002, "sulfate": 130.645, "chloride": 69.685}
IN_THE_MASH = {"calcium": 146.760, "magnesium": 6.25, "sodium": 35.306, "sulfate": 130.645, "chloride": 140.022}
# Alkalinity: 93.98 + 20.684 in all, 93.98 + 49.643 in the mash. Residual, in the mash: 143.62 less
# 146.760 × 2.49731 / 3.5 and 6.25 × 4.11796 / 7, which is 35.23, or 0.7039 mEq/L.
RESIDUAL = 35.23
# Buffering: 1 / ((1/30 + 1/58) / 2) = 39.545. Acid of lactic 88 %: 880 × 1.206 / 90.078 × 0.97197 = 11.452 mEq/mL.
# pH: (39.545 (4 × 5.65 + 0.3 × 5.7) − 0.2 × 33 − 0.1 × 42 + 12 × 0.7039 − 2 × 11.452) / (4.3 × 39.545) = 5.505.
PH = 5.505
# To 5.4: 39.545 (4 × 0.25 + 0.3 × 0.3) − 10.8 + 12 × 0.7039 = 40.75 mEq, in 3.559 mL.
ACID_ML = 3.559
# Chlorine: 0.5 × 0.69444 = 0.34722 mg/L, which takes 1.568 times as much, a quarter over, in 28.8 L: 0.0196 g.
SULFITE_G = 0.0196


def test_a_whole_brew_agrees_with_arithmetic_by_hand(plan: Callable[..., Plan]) -> None:
    brew = plan(whole=WHOLE)
    water = chemistry(brew)
    assert brew.figures.water.total.number == pytest.approx(28.8)
    treated, mash = numbers(water.treated), numbers(water.mash)
    assert treated == pytest.approx({**ALL_OF_IT, "alkalinity": 114.66}, rel=5e-4)
    assert mash == pytest.approx({**IN_THE_MASH, "alkalinity": 143.62}, rel=5e-4)
    assert water.residual_alkalinity.number == pytest.approx(RESIDUAL, rel=2e-3)  # a difference of larger numbers
    assert number(water.sulfate_to_chloride or 0.0) == pytest.approx(130.645 / 69.685, rel=5e-4)
    assert ph(brew).number == pytest.approx(PH, abs=0.001)
    assert number(water.acid or 0.0) == pytest.approx(ACID_ML, rel=2e-3)
    assert number(water.metabisulfite or 0.0) == pytest.approx(SULFITE_G, rel=2e-3)
    assert number(water.solution or 0.0) == pytest.approx(1000 * SULFITE_G, rel=2e-3)


def test_water_that_runs_from_the_tap_is_what_the_report_says(plan: Callable[..., Plan]) -> None:
    water = chemistry(plan("moderately hard tap water"))
    # 165 mg/L of bicarbonate, half a CaCO3 for each: 165 × 50.0435 / 61.0169.
    expected = {"calcium": 55, "magnesium": 9, "sodium": 18, "sulfate": 40, "chloride": 28, "alkalinity": 135.326}
    assert numbers(water.source) == pytest.approx(expected, rel=1e-4)
    assert water.source == water.treated == water.mash


def test_without_a_water_nothing_is_worked_out(plan: Callable[..., Plan]) -> None:
    for brew in (plan(), plan("5 g gypsum", "3 L distilled water")):
        assert brew.figures.chemistry is None
        assert not any(row.part == "The water" and row.id in brew.sheet for row in FIGURES)


def test_the_recipes_own_water_goes_before_the_brewhouses(plan: Callable[..., Plan]) -> None:
    hard, brew = plan("hard tap water"), plan("soft water")
    house = replace(brew.brewhouse, water=hard.recipe.water.source)
    silent = replace(brew.recipe, water=replace(brew.recipe.water, source=None))

    def calcium(recipe: Any) -> float:
        figures = work_out(recipe, house, "tinseth 1997", "morey 1995")
        assert figures.chemistry is not None
        return number(figures.chemistry.treated.calcium)

    assert (calcium(brew.recipe), calcium(silent)) == (12.0, 95.0)


def test_what_a_report_does_not_say_stays_unsaid(plan: Callable[..., Plan]) -> None:
    brew = plan("soft water", "2 g table salt", "5 L distilled water")
    source = brew.recipe.water.source
    assert source is not None
    quiet = replace(source, sodium=None, chlorine=None)
    recipe = replace(brew.recipe, water=replace(brew.recipe.water, source=quiet))
    found = work_out(recipe, brew.brewhouse, "tinseth 1997", "morey 1995").chemistry
    assert found is not None
    assert (found.treated.sodium, found.chlorine, found.metabisulfite) == (None, None, None)
    assert found.treated.chloride is not None


def test_each_push_goes_its_way(plan: Callable[..., Plan]) -> None:
    plain = ph(plan("moderately hard tap water")).number
    for lower in ("8 g gypsum", "2 mL lactic acid 88 %", "20 mL phosphoric acid 10 %", "50 % distilled water"):
        assert ph(plan("moderately hard tap water", lower)).number < plain, lower
    for higher in ("2 g baking soda, in the mash", "1 g slaked lime, in the mash"):
        assert ph(plan("moderately hard tap water", higher)).number > plain, higher
    more_roast = "4 kg pale ale malt\n  - 200 g caramel malt 60\n  - 300 g chocolate malt"
    assert ph(plan("moderately hard tap water", malts=more_roast)).number < plain
    sour = "4 kg pale ale malt\n  - 300 g acidulated malt"
    assert ph(plan("moderately hard tap water", malts=sour)).number < plain - 0.2


def test_what_goes_into_the_kettle_does_not_touch_the_mash(plan: Callable[..., Plan]) -> None:
    plain, kettle = (
        plan("hard tap water"),
        plan("hard tap water", "6 g gypsum, in the kettle", "3 mL lactic acid 88 %, in the sparge"),
    )
    assert ph(kettle).number == pytest.approx(ph(plain).number)
    assert number(chemistry(kettle).treated.calcium) > number(chemistry(plain).treated.calcium)


def test_acid_in_all_the_water_reaches_the_mash_by_its_share(plan: Callable[..., Plan]) -> None:
    # 12 of the 28.8 L meet the grain: 2.4 mL in all of it do there what 1 mL does in the mash.
    everywhere, there = (
        plan("hard tap water", "2.4 mL lactic acid 88 %"),
        plan("hard tap water", "1 mL lactic acid 88 %, in the mash"),
    )
    assert ph(everywhere).number == pytest.approx(ph(there).number)


def test_a_share_of_another_water_is_so_much_of_all_of_it(plan: Callable[..., Plan]) -> None:
    by_share, by_volume = plan("hard tap water", "25 % RO water"), plan("hard tap water", "7.2 L RO water")
    assert numbers(chemistry(by_share).treated) == pytest.approx(numbers(chemistry(by_volume).treated))


def test_chloramine_takes_sulfite_by_what_the_report_weighs_it_as(plan: Callable[..., Plan]) -> None:
    # 70.906 g of chlorine and 51.476 g of chloramine each take half a formula of metabisulfite, 111.16 g: 2 mg/L told
    # as chlorine takes 3.136 mg/L of it, told as chloramine 4.319, as deLange has it; 28.8 L and a quarter over.
    brew = plan("hard tap water")
    source = brew.recipe.water.source
    assert source is not None

    def sulfite_g(**told: float | None) -> float:
        values = {name: given(mg, "mg/L", name, words="a report") if mg else None for name, mg in told.items()}
        water = replace(source, **{"chlorine": None, "chloramine": None, "monochloramine": None, **values})
        recipe = replace(brew.recipe, water=replace(brew.recipe.water, source=water))
        found = work_out(recipe, brew.brewhouse, "tinseth 1997", "morey 1995").chemistry
        assert found is not None
        return number(found.metabisulfite or 0.0)

    total_l = brew.figures.water.total.number
    assert sulfite_g(chloramine=2.0) == pytest.approx(3.136 * total_l * 1.25 / 1000, rel=1e-3)
    assert sulfite_g(monochloramine=2.0) == pytest.approx(4.319 * total_l * 1.25 / 1000, rel=1e-3)
    assert sulfite_g(chlorine=1.0, monochloramine=2.0) == pytest.approx(5.887 * total_l * 1.25 / 1000, rel=1e-3)


def test_an_acid_capacity_is_the_alkalinity_that_it_neutralises(plan: Callable[..., Plan]) -> None:
    # A mmol/L of acid is taken up by 50.04 mg/L of calcium carbonate, half its molar mass.
    brew = plan("hard tap water")
    source = brew.recipe.water.source
    assert source is not None
    capacity = given(3.2, "mEq/L", "acid capacity", words="a report")
    water = replace(source, bicarbonate=None, acid_capacity=capacity)
    recipe = replace(brew.recipe, water=replace(brew.recipe.water, source=water))
    found = work_out(recipe, brew.brewhouse, "tinseth 1997", "morey 1995").chemistry
    assert found is not None
    assert number(found.source.alkalinity) == pytest.approx(160.14, abs=0.01)


def test_what_goes_into_the_kettle_does_not_touch_a_mash_that_has_salts_of_its_own(plan: Callable[..., Plan]) -> None:
    own = ("hard tap water", "3 g gypsum, in the mash")
    plain, more = plan(*own), plan(*own, "6 g gypsum, in the kettle", "4 g gypsum, in the sparge")
    assert ph(more).number == pytest.approx(ph(plain).number)
    assert chemistry(more).treated.calcium.number > chemistry(plain).treated.calcium.number


def test_gypsum_is_asked_for_where_calcium_is_low_and_brings_it_there(plan: Callable[..., Plan]) -> None:
    asked = chemistry(plan("soft water")).gypsum
    assert asked is not None
    # 50 less the report's 12 mg/L in 12 L of mash, at 0.23278 of calcium in a gram of gypsum.
    assert asked.number == pytest.approx(38 * 12 / 1000 / 0.23278, rel=1e-3)
    given_it = chemistry(plan("soft water", f"{asked.number + 0.001:.4f} g gypsum, in the mash"))
    assert given_it.mash is not None
    assert given_it.mash.calcium.number == pytest.approx(50.0, abs=0.05)
    assert given_it.gypsum is None
    assert chemistry(plan("hard tap water")).gypsum is None


def test_the_mash_stands_after_others_too(plan: Callable[..., Plan]) -> None:
    # In distilled water the trial's grist comes to (39.545 × 24.31 − 6.6 − 4.2) / (4.3 × 39.545) = 5.590. Troester's
    # shift is RA (0.013 × 12 / 4.3 + 0.013) for mEq/L, Kolbach's 0.3 for 178.5 mg/L as CaCO3.
    water = chemistry(plan("moderately hard tap water"))
    left = water.residual_alkalinity.number
    found = {name: value.number for name, value in water.mash_ph_models}
    assert found["balance of acids"] == number(water.mash_ph or 0.0)
    assert found["kolbach 1953"] == pytest.approx(5.590 + 0.3 * left / 178.5, abs=0.002)
    assert found["troester 2009"] == pytest.approx(5.590 + left / 50.04 * (0.013 * 12 / 4.3 + 0.013), abs=0.002)


def test_distilled_water_alone_needs_no_metabisulfite(plan: Callable[..., Plan]) -> None:
    water = chemistry(plan("distilled water"))
    assert (number(water.chlorine or 0.0), water.metabisulfite, water.sulfate_to_chloride) == (0.0, None, None)


def test_acid_is_asked_for_only_above_the_target(plan: Callable[..., Plan]) -> None:
    assert chemistry(plan("hard tap water")).acid is not None
    assert chemistry(plan("hard tap water", "10 mL lactic acid 88 %, in the mash")).acid is None


def test_the_acid_asked_for_brings_the_mash_to_the_target(plan: Callable[..., Plan]) -> None:
    wanted = chemistry(plan("hard tap water")).acid
    assert wanted is not None
    brought = plan("hard tap water", f"{wanted.number:.6f} mL lactic acid 88 %, in the mash")
    assert ph(brought).number == pytest.approx(5.4, abs=1e-4)


def test_the_range_of_the_mash_reaches_both_bufferings(plan: Callable[..., Plan]) -> None:
    # 30 is the least of the published bufferings; 58 follows from Troester's 0.052 pH for a mEq/L at 3 L/kg.
    assert 1 / SHIFT.high == pytest.approx(30)
    assert 1 / SHIFT.low == pytest.approx(58)
    brew = plan("very hard water")
    water = chemistry(brew)
    residual = water.residual_alkalinity.number / 50.0435
    for buffering in (30.0, 45.0, 58.0):
        by_hand = equations.mash_ph(
            base_kg=(4.0,),
            base_buffering=(buffering,),
            base_ph=(5.65,),
            specialty_kg=(0.2, 0.1),
            specialty_buffering=(buffering, buffering),
            specialty_acidity=(33.0, 42.0),
            mash_l=12.0,
            residual_alkalinity_meq=residual,
            acid_meq=0.0,
        )
        assert ph(brew).low <= by_hand <= ph(brew).high, buffering


def test_every_grain_of_the_pantry_has_a_ph_that_a_mash_can_have(plan: Callable[..., Plan], pantry: Any) -> None:
    malt = plan().recipe.malts[0]
    for record in pantry.malts.records:
        grain = replace(malt, name=record.name, kind=record.kind, cereal=record.cereal)
        assert 5.0 <= mash_ph_of(grain).number <= 6.2, record.name
    assert all(row.ph.doubts for row in GRAINS), "nobody knows a sack to the second decimal"


@pytest.mark.parametrize("malts", ["4 kg pilsner malt", "3 kg pale ale malt\n  - 1 kg pale wheat malt"])
def test_a_grist_without_specialty_malt_has_a_ph_too(plan: Callable[..., Plan], malts: str) -> None:
    assert 5.6 < ph(plan("soft water", malts=malts)).number < 6.0


def test_the_ph_leads_back_to_the_report_and_to_the_recipes_line(plan: Callable[..., Plan]) -> None:
    places = {str(value.place) for value in lineage(ph(plan("hard tap water", "5 g gypsum"))) if value.place}
    assert any(place.startswith("gristbook/pantry/data/waters.yaml") for place in places)
    assert any(place.startswith("recipe.md:12:") for place in places)


def test_the_ranges_hold_when_every_doubt_is_drawn(plan: Callable[..., Plan]) -> None:
    # The pH goes straight with what acid does to malt; the acid asked for goes with the reciprocal of that, and bends.
    brew = plan(whole=WHOLE)
    shown: dict[str, Value] = {"ph": ph(brew)}
    wanted = chemistry(brew).acid
    assert wanted is not None
    shown["acid"] = wanted
    allowed = {"ph": 0.15, "acid": 0.8}  # standard deviations; 4000 draws leave 0.13 to chance
    replay, dice, seen = Replay(shown), Random(7), {name: list[float]() for name in shown}
    for _ in range(4000):
        for name, drawn in replay.drawn({doubt: dice.gauss() for doubt in replay.doubts}).items():
            seen[name].append(drawn)
    for name, value in shown.items():
        cuts = quantiles(seen[name], n=20)
        assert abs(cuts[0] - value.low) <= allowed[name] * value.spread, name
        assert abs(cuts[-1] - value.high) <= allowed[name] * value.spread, name


def test_an_edition_of_half_the_batch_gets_half_the_salts(plan: Callable[..., Plan]) -> None:
    home = plan(whole=WHOLE).recipe
    half = scaled_water(home.water, home.batch, given(10.0, "L", "batch", words="an edition"))
    assert [salt.mass.number for salt in half.salts] == pytest.approx([2.5, 1.5, 0.5, 0.1])
    assert [acid.volume.number for acid in half.acids] == pytest.approx([1.0])
    assert [use.amount.value.number for use in half.dilutions] == pytest.approx([4.4])
    assert half.source == home.water.source


def test_an_editions_acid_is_what_a_syringe_shows(plan: Callable[..., Plan]) -> None:
    # 2 mL for 28.8 L of water are 1.0417 mL for 15 L of it; an ounce or a gram, a syringe shows tenths.
    home = plan(whole=WHOLE)
    water = scaled_water(
        home.recipe.water, given(28.8, "L", "water", words="home"), given(15.0, "L", "w", words="away")
    )
    for us in (False, True):
        (acid,) = rounded(replace(home.recipe, water=water), home.figures, us).water.acids
        assert acid.volume.number == pytest.approx(1.0, abs=1e-9)


def test_an_extract_edition_gets_neither_acid_nor_alkalinity(plan: Callable[..., Plan]) -> None:
    left = without_a_mash(plan(whole=WHOLE).recipe.water)
    assert [salt.name for salt in left.salts] == ["Gypsum", "Potassium metabisulfite"]
    assert left.acids == ()
    assert left.dilutions


@pytest.mark.parametrize(
    ("line", "title"),
    [
        ("4 g gypsum", "Treat the water"),
        ("4 g gypsum, in the mash", "Mash in"),
        ("4 g gypsum, in the sparge", "Heat the sparge water"),
        ("4 g gypsum, in the kettle", "Bring it to the boil"),
        ("4 mL lactic acid 88 %, in the mash", "Mash in"),
        ("8 L distilled water", "Treat the water"),
    ],
)
def test_what_goes_into_the_water_is_told_once_where_it_goes(line: str, title: str, plan: Callable[..., Plan]) -> None:
    what = " ".join(line.partition(",")[0].split()[2:4])
    told = [
        step.title
        for step in steps(plan("hard tap water", line))
        if what in "".join(part if isinstance(part, str) else "" for words in step.sentences for part in words)
    ]
    assert told == [title]


def test_the_method_takes_the_plans_own_dose_against_chlorine(plan: Callable[..., Plan]) -> None:
    brew = plan("hard tap water")
    dose = chemistry(brew).metabisulfite
    treat = next(step for step in steps(brew) if step.title == "Treat the water")
    assert dose is not None
    poured = [part for words in treat.sentences for part in words if isinstance(part, Value)]
    assert any(dose in lineage(part) for part in poured), "it is poured as a solution"
    silent = next(step for step in steps(plan("distilled water")) if step.title == "Treat the water")
    assert not any("metabisulfite" in str(part) for words in silent.sentences for part in words)
