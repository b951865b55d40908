"""What the pantry holds: sane figures, each with a source, held to what is published where something is."""

import csv
from pathlib import Path
from typing import Any

import pytest
from molmass import Formula

from gristbook.pantry.names import VOCABULARIES
from gristbook.pantry.pantry import SECTIONS, Pantry
from gristbook.pantry.records import Record, Spread
from gristbook.problems import Problems

PANTRY = Pantry.load(None, Problems())
RECORDS: list[tuple[str, Record]] = [
    (section, record) for section in SECTIONS for record in getattr(PANTRY, section).records
]

POINTS_PER_POUND = 46.17
"""Of pure extract in a US gallon: the ASBC cubic at 119.83 g/L."""

ROUNDING = 0.0075
"""By how much the two columns of the printed table disagree with one another."""


def spreads(record: Record) -> dict[str, Spread]:
    return {
        name: value
        for name in (field for kind in type(record).__mro__ for field in getattr(kind, "__slots__", ()))
        if isinstance(value := getattr(record, name), Spread)
    }


def only(kind: str, name: str) -> Any:
    record = getattr(PANTRY, f"{kind}s").look_up(name).only
    assert record is not None, name
    return record


def test_every_record_says_where_it_comes_from() -> None:
    for section, record in RECORDS:
        assert record.source, record.place
        assert record.place.path == f"gristbook/pantry/data/{section}.yaml"
        for spread in spreads(record).values():
            assert spread.source, spread.place
            assert spread.place.line >= record.place.line, spread.place


def test_every_figure_runs_from_low_to_high_and_none_was_assumed() -> None:
    for _, record in RECORDS:
        for name, spread in spreads(record).items():
            assert 0 <= spread.low <= spread.typical <= spread.high, (name, spread.place)
            assert "not stated" not in spread.source, (name, spread.place)


@pytest.mark.parametrize("section", SECTIONS)
def test_no_two_records_of_a_shelf_share_a_name(section: str) -> None:
    words = VOCABULARIES[section].words
    names = [words(name) for record in getattr(PANTRY, section).records for name in (record.name, *record.also)]
    assert sorted(names) == sorted(set(names))


def test_every_malt_sugar_and_extract_says_how_it_tastes_and_every_hop_how_it_smells() -> None:
    assert all(malt.taste for malt in PANTRY.malts.records)
    assert all(sugar.taste for sugar in PANTRY.sugars.records)
    assert all(extract.taste for extract in PANTRY.extracts.records)
    assert all(hop.aroma and hop.origin for hop in PANTRY.hops.records)
    assert all(yeast.about and yeast.flocculation and yeast.species for yeast in PANTRY.yeasts.records)
    assert all(style.family for style in PANTRY.styles.records)
    assert all(fining.purpose for fining in PANTRY.finings.records)


def test_only_caramel_and_roast_malts_can_do_without_a_mash() -> None:
    # A glassy dextrin malt may hold starch, so it is mashed; everything else that is steeped is caramel or roast.
    assert {malt.kind for malt in PANTRY.malts.records if not malt.needs_mash} == {"caramel", "roast"}
    assert all(not malt.needs_mash for malt in PANTRY.malts.records if malt.kind == "roast")


def test_a_base_malt_can_convert_itself_and_raw_grain_cannot() -> None:
    for malt in PANTRY.malts.records:
        assert malt.diastatic_power is not None
        if malt.kind == "base" and malt.cereal == "barley":
            assert malt.diastatic_power.typical >= 35, malt.name  # common practice, no source
        if malt.kind in ("caramel", "roast", "flaked", "torrefied", "raw"):
            assert malt.diastatic_power.high <= 5, malt.name


def test_malts_in_whose_name_a_colour_stands_have_that_colour() -> None:
    coloured = [(malt, int(words[-2])) for malt in PANTRY.malts.records if (words := malt.name.split())[-1] == "L"]
    assert len(coloured) == 8
    assert all(malt.colour.typical == colour for malt, colour in coloured)


def table_9() -> list[dict[str, str]]:
    lines = Path(__file__).with_name("table9.csv").read_text("utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize("row", table_9(), ids=lambda row: row["name"])
def test_yields_agree_with_a_printed_table_or_the_reason_is_known(row: dict[str, str]) -> None:
    # J. Palmer, How to Brew, Table 9. Whether its grain is dry is not said, so a printed yield has to
    # lie between the crop's low as sold and its high when dry, give or take the table's own rounding.
    kind = "sugar" if row["name"] in ("Sucrose", "Glucose monohydrate", "Maltodextrin") else "malt"
    one, printed = only(kind, row["name"]), float(row["printed maximum yield"]) / 100
    low = one.extract.low * (1 - one.moisture.high) - ROUNDING
    agrees = low <= printed <= one.extract.high + ROUNDING
    assert agrees != bool(row["reason"])


def test_the_water_in_crystals_is_what_their_formula_says() -> None:
    water = Formula("H2O").mass
    for name, sugar in (("glucose monohydrate", "C6H12O6"), ("lactose", "C12H22O11")):
        expected = water / (Formula(sugar).mass + water)
        assert only("sugar", name).moisture.typical == pytest.approx(expected, abs=0.0005), name


@pytest.mark.parametrize(("kind", "low", "high"), [("dried", 42, 46), ("liquid", 34, 38)])
def test_malt_extracts_give_the_points_that_handbooks_print(kind: str, low: float, high: float) -> None:
    # 42 to 46 and 34 to 38 points per pound and gallon: the usual range of handbooks, from memory.
    for extract in PANTRY.extracts.records:
        if extract.kind == kind:
            points = extract.extract.typical * (1 - extract.moisture.typical) * POINTS_PER_POUND
            assert low <= points <= high, extract.name


def test_spoons_of_sugar_weigh_what_kitchens_say() -> None:
    # A US cup (236.6 mL) of granulated sugar is 200 g, one of honey 340 g: kitchen practice, from memory.
    assert only("sugar", "table sugar").density.typical * 0.2366 == pytest.approx(200, rel=0.05)
    assert only("sugar", "honey").density.typical * 0.2366 == pytest.approx(340, rel=0.05)


def test_what_some_must_not_eat_is_named() -> None:
    assert only("sugar", "lactose").allergen == "milk"
    assert only("fining", "isinglass").allergen == "fish"
    assert only("fining", "chitosan").allergen == "crustaceans"
    assert only("fining", "egg white").allergen == "egg"
    for malt in PANTRY.malts.records:
        for cereal in ("wheat", "rye", "spelt"):
            assert cereal not in malt.name.lower().split() or malt.cereal == cereal, malt.name
        assert "oat" not in malt.name.lower().split() or malt.cereal == "oats"


def test_a_yeast_that_eats_on_is_marked() -> None:
    assert [yeast.name for yeast in PANTRY.yeasts.records if yeast.diastatic != "no"] == [
        "Saison",
        "Brettanomyces",
        "Mixed sour culture",
    ]


def test_lager_yeasts_are_the_lager_species() -> None:
    # Saccharomyces pastorianus is the lager yeast: any textbook of brewing.
    for yeast in PANTRY.yeasts.records:
        assert (yeast.kind == "lager") == (yeast.species == "Saccharomyces pastorianus"), yeast.name


def test_a_style_ends_below_where_it_begins() -> None:
    for style in PANTRY.styles.records:
        assert style.final_gravity.high < style.original_gravity.low, style.name
