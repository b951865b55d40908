"""The sums in the learning pages come out: what a page prints is what the published equations give.

The equations are held to their sources in `tests/published/`; here the text is held to the equations.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from gristbook.equations import (
    alcohol,
    carbonation,
    colour,
    gravity,
    instruments,
    isomerisation,
    mash,
    pressure,
    starter,
)
from gristbook.equations.attenuation import real_extract
from gristbook.equations.bitterness import utilisation_tinseth_1997 as used
from gristbook.equations.extract import as_is_potential
from gristbook.pantry.colours import colour_words
from gristbook.pantry.doubts import usual
from gristbook.pantry.pantry import ours
from gristbook.pantry.records import Malt
from gristbook.site import words
from gristbook.site.learn import drawings
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


def sparged(grain_kg: float, run_off_l: float = 24.0) -> float:
    """Extract that one well-mixed sparge of equal run-offs brings out of what is dissolved, by a balance of masses.

    Grain of 80 % extract (dry) and 4 % water keeps a litre a kilogram more than it lets go.
    """
    water, extract, half = run_off_l / 2 + grain_kg, 0.80 * 0.96 * grain_kg, run_off_l / 2
    wort_kg = 0.9982 * water + 0.04 * grain_kg + extract
    wort_l = wort_kg / (0.9982 * gravity.gravity_from_plato(extract=100 * extract / wort_kg))
    return 100 * (1 - (1 - half / wort_l) * ((wort_l - half) / wort_l))


def left(points: float, attenuation: float, sugar: float = 0.0) -> float:
    """Final gravity in points: malt's share by what its yeast takes, sugar wholly gone, by Balling's real extract."""
    rest = (points - sugar) * (1 - 0.8192 * attenuation)
    return (rest - 0.1808 * points) / 0.8192


PALE, DRIED, LIQUID = 0.815 * (1 - 0.03), 1 - 0.04, 1 - 0.20  # as sold: the pantry's pale ale malt and extracts
ONE = 10_000 * (gravity.wort_gravity(extract_kg=1, wort_l=10) - 1)  # points of a kilogram of sugar in a litre
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
    ("malt-to-gravity", "reads {1.0386}", gravity.wort_gravity(extract_kg=1, wort_l=10)),
    ("malt-to-gravity", "or {386} points in one", ONE),
    ("malt-to-gravity", "= {652} points", 2.0 * 305 + 0.15 * 278),
    ("malt-to-gravity", "456 ÷ 10.8 = {42}", 652 * 0.70 / 10.8),
    ("malt-to-gravity", "{1.042}", gravity.wort_gravity(extract_kg=652 / ONE * 0.70, wort_l=10.8)),
    ("malt-to-gravity", "486 ÷ 0.70 = {694}", 45 * 10.8 / 0.70),
    ("malt-to-gravity", "694 ÷ 305 = **{2.28} kg**", 694 / 305),
    ("malt-to-gravity", "can come out is {85} per cent", sparged(5)),
    ("malt-to-gravity", "from 8 kg it is {75}", sparged(8)),
    ("final-gravity", "48 × 0.24 = {11.5}", left(48, 0.76)),
    ("final-gravity", "48 × 0.26 = {12.5}", left(48, 0.74)),
    ("final-gravity", "48 × 0.29 = {13.9}", left(48, 0.71)),
    ("final-gravity", "which makes {8.9}", 42 * 0.24 - 6 * 0.2),
    ("final-gravity", "**1.00{9}**", left(48, 0.76, sugar=6)),
    ("design-from-extract", "454 ÷ 370 = **{1.23} kg**", 42 * 10.8 / (ONE * DRIED)),
    ("design-from-extract", "454 ÷ 308 = {1.47} kg", 42 * 10.8 / (ONE * LIQUID)),
    ("design-from-extract", "uses {25} per cent", 100 * used(boil_min=60, gravity=1.040)),
    ("design-from-extract", "1.080 only {18}", 100 * used(boil_min=60, gravity=1.080)),
    ("design-from-extract", "this saves you {30} per cent of the hops",
     100 * (1 - used(boil_min=60, gravity=1.080) / used(boil_min=60, gravity=1.040))),
    ("choose-hops", "is {16} g with 1.25", 20 * 1.00 / 1.25),
    ("design-from-extract", "Together {442}", 1.1 * 370 + 0.6 * (0.15 * 278 + 0.06 * 268)),
    ("design-from-extract", "442 ÷ 10.8 = {41}", 442 / 10.8),
    ("design-from-extract", "| 17 g, 60 min | {20} IBU |", 17 * 0.05 * 1000 * used(boil_min=60, gravity=1.041) / 10.8),
    ("design-from-extract", "1.5 × 308 ÷ 42 = {11.0} litres", 1.5 * 308 / 42),
    ("a-starter", "{97} g of pale dried",
     starter.starter_extract(starter_l=1, gravity=1.036, potential=conventions.STARTER_POTENTIAL.number)),
    *(("a-starter", f"| {litres} L | {{{cells}}} |",
       starter.starter_cells_white_zainasheff_2010(cells=100, starter_l=litres, fall=7))
      for litres, cells in ((1, 152), (2, 205))),
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
    for end, word in colour_words()[1:-1]:
        assert re.search(rf"\| {word} \| [\d.]+ to {end:g} \|", flat("colour"))
    assert f"| {colour_words()[-1][1]} | above {colour_words()[-2][0]:g} |" in flat("colour")


def rows(page: str) -> list[list[str]]:
    """The cells of every row of a page's tables."""
    text = (TEXT / f"{page}.md").read_text("utf-8")
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in text.splitlines() if line.startswith("|")]


def test_the_points_of_a_kilogram_are_those_of_the_pantry() -> None:
    printed = {name: float(points) for name, points in rows("malt-to-gravity")[2:]}
    assert printed.pop("table sugar") == pytest.approx(ONE, abs=0.51)
    assert printed.pop("dried malt extract") == pytest.approx(ONE * DRIED, abs=0.51)
    assert printed.pop("liquid malt extract") == pytest.approx(ONE * LIQUID, abs=0.51)
    called = {"pale wheat malt": "wheat malt, pale"}
    malts: dict[str, Malt] = {malt.name.lower(): malt for malt in ours("malts").records}
    for name, points in printed.items():
        malt = malts[called.get(name, name).lower()]
        of_it = as_is_potential(fine_grind_dry_basis=malt.extract.typical, moisture=malt.moisture.typical)
        assert points == pytest.approx(ONE * of_it, abs=0.51), name
    assert len(printed) == 6


def test_the_usual_doubts_on_a_page_are_those_that_the_book_reckons_with() -> None:
    kinds = {
        "a weight of malt": "weight",
        "a volume, poured or read": "poured",
        "an efficiency": "efficiency",
        "a mash temperature": "mash temperature",
        "alpha acids on a packet": "alpha",
        "a malt's colour": "malt colour",
    }
    printed = dict(rows("reading-a-figure")[2:])
    assert printed.keys() == kinds.keys()
    for name, kind in kinds.items():
        doubt, times = usual(kind), 1 if kind == "mash temperature" else 100
        said = [float(number) for number in re.findall(r"[\d.]+", printed[name].partition(", and")[0])]
        assert said == pytest.approx([-times * doubt.low, times * doubt.high][: len(said)]), name
        assert len(said) == 2 or doubt.low == -doubt.high, name
    assert usual("weight").least == 0.005
    assert "5 g at least" in printed["a weight of malt"]


def test_the_families_of_yeast_are_those_of_the_pantry() -> None:
    families = {yeast.name: yeast for yeast in ours("yeasts").records}
    table = rows("choose-yeast")
    by_the_beer = [row[1] for row in table if len(row) == 2][2:]
    assert all(name in families or set(name.split(", ")) <= families.keys() for name in by_the_beer)
    assert len(by_the_beer) == 10
    for name, takes, warm, _ in [row for row in table if len(row) == 4][2:]:
        share, heat = families[name].attenuation, families[name].temperature
        assert takes == f"{100 * share.low:.0f} to {100 * share.high:.0f}", name
        assert warm == f"{heat.low:.0f} to {heat.high:.0f}", name


def test_the_hops_by_flavour_and_by_use_are_what_the_pantry_says_of_them() -> None:
    hops = {hop.name: hop for hop in ours("hops").records}
    by_flavour, by_use = rows("choose-hops")[2:10], rows("choose-hops")[12:]
    means = {
        "grapefruit": "citrus",
        "lemon": "lemon",
        "flowers": "floral",
        "herbs": "herbal",
        "spice": "spicy",
        "earth": "earthy",
    }
    means |= {"marmalade": "marmalade", "wood": "woody", "dark berries": "berry", "blackcurrant": "blackcurrant"}
    for flavour, names in by_flavour:
        words_of_it = {word for part in flavour.split(", ") for word in (part, means.get(part, part))}
        for name in names.split(", "):
            assert any(word in hops[name].aroma for word in words_of_it), (flavour, name, hops[name].aroma)
    spans = {"bittering": (0.11, 0.165), "both": (0.06, 0.11), "aroma": (0.03, 0.06)}
    assert [use for use, *_ in by_use] == list(spans)
    for use, names, _ in by_use:
        low, high = spans[use]
        assert all(low <= hops[name].alpha.typical <= high for name in names.split(", ")), use


def test_the_drawings_show_what_the_equations_give_and_the_pages_say() -> None:
    at_end, low, high = drawings.bitterness_by_minutes(60)
    assert at_end == pytest.approx(20 * 0.05 * used(boil_min=60, gravity=1.040) * 1000 / 10)
    assert low < at_end < high
    assert [round(drawings.attenuation_at(heat)) for heat in (65, 70)] == [82, 70]  # as its source measured
    (cool, hot), (least, most) = drawings.FLATTER
    assert f"between {least:.0f} and {most:.0f} per cent all the way from {cool} to {hot:.0f} °C" in flat(
        "final-gravity"
    )
    srm = [drawings.malt_colour(name) for name in ("Pilsner malt", "Caramel malt 40 L", "Chocolate malt")]
    grams = 115.0 * 45 / 44.6 / 0.778 / 0.75  # of malt in a litre of 1.045, by hand: 115 g/L at 1.0446
    assert srm[0] == pytest.approx(1.4922 * (8.3454 * grams / 1000 * 1.7) ** 0.6859, rel=0.02)  # Morey, by hand
    assert srm[0] < srm[1] < srm[2]


def test_every_drawing_is_on_a_page_and_every_page_s_drawing_is_there(demo) -> None:  # type: ignore[no-untyped-def]
    called = re.findall(r"\]\(chart:([a-z-]+)\)", "".join(path.read_text("utf-8") for path in TEXT.glob("*.md")))
    assert sorted(called) == sorted(drawings.DRAWINGS)
    drawn = [
        svg for path, page in demo.pages.items() if path.startswith("learning/") for svg in page.select("svg.chart")
    ]
    assert len(drawn) == len(called)
