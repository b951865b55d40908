"""The sums in the learning pages come out: what a page prints is what the published equations give.

The equations are held to their sources in `tests/published/`; here the text is held to the equations.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from gristbook.equations import alcohol, carbonation, colour, gravity, instruments, isomerisation, mash, pressure
from gristbook.equations.attenuation import real_extract
from gristbook.equations.bitterness import utilisation_tinseth_1997 as used
from gristbook.site import words
from gristbook.targets import conventions

TEXT = Path(__file__).parents[2] / "themes" / "learning"
SUCROSE = carbonation.carbon_dioxide_yield(molecules=4, molar_mass=342.297)
ORIGINAL, APPARENT = (gravity.plato_from_gravity(gravity=number) for number in (1.040, 1.010))
REAL = real_extract(original=ORIGINAL, apparent=APPARENT)
STAND = isomerisation.isomerisation_rate(temperature=80) / isomerisation.isomerisation_rate(temperature=100)
LESSON_L = 1 + 0.1 * conventions.DRIED_EXTRACT_VOLUME.number
LESSON = gravity.wort_gravity(extract_kg=0.1 * conventions.STARTER_POTENTIAL.number, wort_l=LESSON_L)


def strike(thickness: float) -> float:
    return mash.strike_temperature_with_tun(
        grain_kg=1, water_l=thickness, tun_heat_l=0, grain_c=20, mash_c=66, grain_heat=conventions.GRAIN_HEAT.number
    )


def true_gravity(at_c: float) -> float:
    return instruments.hydrometer_corrected(reading=1.040, sample_c=at_c, calibration_c=20)


def beer_srm(chocolate_kg: float, pale_kg: float = 2.0) -> float:
    units = colour.malt_colour_units(masses_kg=(pale_kg, chocolate_kg), colours=(3.0, 375.0), wort_l=10.8)
    return colour.srm_morey_1995(colour=units)


def bar(volumes: float, at_c: float) -> float:
    return pressure.gauge_pressure(volumes=volumes, temperature=at_c)


def lesson_ibu(minutes: float) -> float:
    return 3 * 0.05 * 1000 * used(boil_min=minutes, gravity=LESSON) / LESSON_L


PALE, DRIED, LIQUID = 0.815 * (1 - 0.03), 1 - 0.04, 1 - 0.20  # as sold: the pantry's pale ale malt and extracts
BOTTLED_SOON = 2.4 + carbonation.gas_from_gravity_points(points=4)
SUMS: tuple[tuple[str, str, float], ...] = (
    # Regulation (EU) 1169/2011, Annex II, no. 12: 10 mg/L; two SO2 of 64.06 from one K2S2O5 of 222.32 g/mol.
    ("water", "{0.35} g of potassium metabisulfite in 20 L", 0.010 * 20 * 222.32 / (2 * 64.06)),
    ("malt-and-mash", "at 20 °C must begin at about {72} °C to settle at 66 °C", strike(3.0)),
    ("malt-and-mash", "took 82 per cent of the gravity of a wort mashed at 65 °C, and only {70} per cent after",
     82 * mash.mash_temperature_effect(mash_c=70) / mash.mash_temperature_effect(mash_c=65)),
    ("adjuncts-and-sugars", "in 20 litres adds {19} points",
     1000 * (gravity.wort_gravity(extract_kg=1, wort_l=20) - 1)),
    ("extract-and-kits", "It should show about {1.035}", LESSON),
    ("extract-and-kits", "does the work of about {83}0 g of dried", 100 * LIQUID / DRIED),
    ("extract-and-kits", "replaced by about {62}0 g of dried", 100 * 0.75 * PALE / DRIED),
    ("extract-and-kits", "or {74}0 g of liquid", 100 * 0.75 * PALE / LIQUID),
    ("hops-and-time", "gives {25} per cent after 60 minutes", 100 * used(boil_min=60, gravity=1.040)),
    ("hops-and-time", "{19} after 30", 100 * used(boil_min=30, gravity=1.040)),
    ("hops-and-time", "{13} after 15", 100 * used(boil_min=15, gravity=1.040)),
    ("hops-and-time", "in a strong wort of 1.080, only {18} after", 100 * used(boil_min=60, gravity=1.080)),
    ("hops-and-time", "which is {25} IBU", 20 * 0.05 * 0.25 * 1000 / 10),
    ("pitching-and-temperature", "× 10 °P = {75} thousand million", 0.75e6 * 10_000 * ORIGINAL / 1e9),
    ("gravity-and-strength", "almost exactly {10} °P", ORIGINAL),
    ("gravity-and-strength", "1.060 is {14.7} °P", gravity.plato_from_gravity(gravity=1.060)),
    ("gravity-and-strength", "or {74} in proper degrees Plato", 100 * (ORIGINAL - APPARENT) / ORIGINAL),
    ("gravity-and-strength", "only {61} per cent has really gone", 100 * (ORIGINAL - REAL) / ORIGINAL),
    ("gravity-and-strength", "makes {4.0} per cent by volume",
     alcohol.abv(abw=alcohol.abw_balling(original=ORIGINAL, real=REAL), gravity=1.010)),
    ("gravity-and-strength", "should show {1.040}", gravity.gravity_from_plato(extract=10)),
    ("balance", "33 ÷ 42 = {0.79}", 33 / 42),
    ("colour", "a gold beer of {4.3} SRM", beer_srm(0)),
    ("colour", "makes {6.9} and not", beer_srm(0, pale_kg=4)),
    ("colour", "brings it to {11} SRM", beer_srm(0.05)),
    ("colour", "dark brown, {25} SRM", beer_srm(0.2)),
    ("colour", "({1.97} times", colour.ebc_from_srm(colour=1)),
    *(("measuring", f"| {at_c} °C | {{{shown}}} |", true_gravity(at_c))
      for at_c, shown in ((10, "1.039"), (30, "1.042"), (40, "1.046"), (50, "1.050"))),
    ("measuring", "is {10} °P, or 1.040", instruments.brix_corrected(reading=10.4, factor=1.04)),
    ("packaging", "a litre of beer {0.49} litres of gas more", carbonation.gas_from_gravity_points(points=1)),
    ("packaging", "{0.88} volumes if it finished at 20 °C", carbonation.residual_carbon_dioxide(temperature=20)),
    ("packaging", "{1.2} at 10 °C", carbonation.residual_carbon_dioxide(temperature=10)),
    ("packaging", "takes {3.84} g of table sugar",
     carbonation.priming_sugar(target=1, residual=0, beer_l=1, carbon_dioxide_yield=SUCROSE)),
    ("packaging", "× 9.4 = {51} g",
     carbonation.priming_sugar(target=2.3, residual=0.88, beer_l=9.4, carbon_dioxide_yield=SUCROSE)),
    ("packaging", "press with {1.9} bar at 20 °C", bar(2.4, 20)),
    ("packaging", "{2.8} bar at 30 °C", bar(2.4, 30)),
    ("packaging", "would reach about {5.8} bar", bar(BOTTLED_SOON, 30)),
    ("first-brew-day", "Bring 14.5 L to {69} °C",
     strike(14.5 / 2.1)),
    ("first-brew-day", "read it: about {1.034}", gravity.wort_gravity(extract_kg=0.7 * 2.1 * PALE, wort_l=13)),
    ("first-brew-day", "read: near {1.041}", gravity.wort_gravity(extract_kg=0.7 * 2.1 * PALE, wort_l=10.8)),
    ("two-jugs-answers", "gives about {1.035} at 20 °C", LESSON),
    ("two-jugs-answers", "turns {16} per cent", 100 * used(boil_min=20, gravity=LESSON)),
    ("two-jugs-answers", "or about {23} IBU", lesson_ibu(20)),
    ("two-jugs-answers", "worth about {3.3} minutes", 20 * STAND),
    ("two-jugs-answers", "of boiling: {5} IBU", lesson_ibu(20 * STAND)),
)  # fmt: skip
"""Page, words with the printed number in braces, and what the equations give."""


def flat(page: str) -> str:
    return " ".join((TEXT / f"{page}.md").read_text("utf-8").replace("> ", "").split())


@pytest.mark.parametrize(("page", "said", "number"), SUMS, ids=[f"{page}: {said}" for page, said, _ in SUMS])
def test_a_sum_on_a_learning_page_comes_out(page: str, said: str, number: float) -> None:
    assert said.replace("{", "").replace("}", "") in flat(page)
    printed = re.search(r"\{(.+)\}", said)
    assert printed is not None
    digits = len(printed[1].partition(".")[2])
    assert number == pytest.approx(float(printed[1]), abs=0.501 * 10**-digits)


def test_the_words_for_balance_and_colour_are_those_of_the_recipes() -> None:
    for end, word in words.BALANCES[:-1]:
        assert re.search(rf"\| (?:up to|[\d.]+ to) {end} \| {word} \|", flat("balance"))
    for end, word in words.COLOURS[1:-1]:
        assert re.search(rf"\| {word} \| [\d.]+ to {end:g} \|", flat("colour"))
    assert f"| {words.COLOURS[-1][1]} | above {words.COLOURS[-2][0]:g} |" in flat("colour")
