"""How values are shown: sizes against pint's own definitions, and the words around them."""

from __future__ import annotations

import re

import pint
import pytest
from even import even
from hypothesis import example, given, settings
from hypothesis import strategies as st

from gristbook.equations.registry import OWN, UNITS
from gristbook.sheet.value import given as written
from gristbook.site.amounts import SPACE, amount, amount_of, moved, span
from gristbook.site.scales import RULES, Row
from gristbook.site.working.numbers import put_in, result

UREG: pint.UnitRegistry[float] = pint.UnitRegistry()

KEPT = {
    "kg": "kilogram",
    "g": "gram",
    "mL": "millilitre",
    "mg": "milligram",
    "L": "litre",
    "L/kg": "litre / kilogram",
    "L/h": "litre / hour",
    "mL/g": "millilitre / gram",
    "g/L": "gram / litre",
    "°C": "degC",
    "m": "metre",
    "bar": "bar",
    "kPa": "kilopascal",
    "min": "minute",
    "d": "day",
    "fraction": "dimensionless",
}
"""A kept unit by pint's name for it; units that only brewers have are left out."""

PRINTED = {
    "lb oz": "ounce",
    "oz": "ounce",
    "gal": "US_liquid_gallon",
    "qt": "US_liquid_quart",
    "fl oz": "US_fluid_ounce",
    "tsp": "teaspoon",
    "qt/lb": "US_liquid_quart / pound",
    "gal/h": "US_liquid_gallon / hour",
    "fl oz/oz": "US_fluid_ounce / ounce",
    "oz/gal": "ounce / US_liquid_gallon",
    "°F": "degF",
    "°C": "degC",
    "ft": "foot",
    "psi": "psi",
    "%": "percent",
    "h": "hour",
    "min": "minute",
    "days": "day",
    "weeks": "week",
    "mL": "millilitre",
    "mL/g": "millilitre / gram",
    "g/L": "gram / litre",
    "L/kg": "litre / kilogram",
    "L/h": "litre / hour",
}

ROWS = [(kept, row) for kept in KEPT for row in (*RULES[kept].metric, *RULES[kept].us)]


@pytest.mark.parametrize(("kept", "row"), ROWS, ids=[f"{kept}-{row.unit}-{row.least:g}" for kept, row in ROWS])
def test_a_size_and_a_zero_are_those_of_pint(kept: str, row: Row) -> None:
    printed = UREG.Unit(PRINTED.get(row.unit, row.unit))
    for number in (0.0, 1.0, 7.25):
        expected = UREG.Quantity(number, KEPT[kept]).to(printed).magnitude
        assert number / row.size + row.zero == pytest.approx(expected, rel=1e-9, abs=1e-9)


def test_every_unit_of_an_equation_can_be_shown() -> None:
    assert UNITS - {OWN} <= set(RULES)


@given(st.floats(0.001, 60), st.sampled_from(["kg", "L"]))
@example(0.9996, "kg")
@example(0.45, "kg")
@example(1.8128, "kg")
@settings(max_examples=300)
def test_both_texts_say_the_same_weight_or_volume(number: float, unit: str) -> None:
    text = amount_of(number, unit)
    for said, rows in ((text.metric, RULES[unit].metric), (text.us or text.metric, RULES[unit].us)):
        row = next(row for row in rows if number >= row.least)
        assert _meaning(said, unit) == pytest.approx(number, rel=1e-9, abs=row.step * row.size / 2 + 1e-9)


def _meaning(text: str, unit: str) -> float:
    """What a printed amount is in its kept unit, read by pint."""
    parts = re.findall(rf"([\d.]+){SPACE}(fl oz|[A-Za-z]+)", text)
    assert parts, text
    printed = {"lb": "pound", **PRINTED}
    return sum(
        float(UREG.Quantity(float(number), printed.get(word, word)).to(KEPT[unit]).magnitude) for number, word in parts
    )


@pytest.mark.parametrize(
    ("number", "unit", "metric", "us"),
    [
        (3.6, "kg", "3.60 kg", "7 lb 15 oz"),
        (0.9996, "kg", "1.00 kg", "2 lb 3.5 oz"),
        (0.22, "kg", "220 g", "7.75 oz"),
        (3.628, "kg", "3.63 kg", "8 lb"),
        (0.00025, "kg", "0.25 g", ""),
        (0.0049, "kg", "4.9 g", ""),
        (5, "g", "5 g", ""),
        (40, "g", "40 g", "1.4 oz"),
        (20, "L", "20 L", "5.3 gal"),
        (0.45, "L", "450 mL", "15 fl oz"),
        (0, "L", "0 L", "0 gal"),
        (67, "°C", "67 °C", "153 °F"),
        (-5, "°C", "−5 °C", "23 °F"),
        (1.04, "SG", "1.040", ""),
        (10.57, "°P", "10.6 °P", ""),
        (0.105, "fraction", "10.5 %", ""),
        (4.36, "%", "4.4 %", ""),
        (32.7, "IBU", "33 IBU", ""),
        (9.2, "IBU", "9.2 IBU", ""),
        (9.97, "SRM", "10 SRM", ""),
        (7.5, "SRM", "7.5 SRM", ""),
        (2, "vol", "2.0 volumes", ""),
        (90, "min", "90 min", ""),
        (3.307, "min", "3.3 min", ""),
        (1, "d", "1 day", ""),
        (56, "d", "8 weeks", ""),
        (57, "d", "57 days", ""),
        (21, "d", "21 days", ""),
        (148.6, "10⁹ cells", "149 billion cells", ""),
        (1, "packs", "1 pack", ""),
        (2.07, "bar", "2.1 bar", "30 psi"),
        (4.2, "g/L", "4.2 g/L", "0.56 oz/gal"),
    ],
)
def test_an_amount_reads_as_a_brewer_writes_it(number: float, unit: str, metric: str, us: str) -> None:
    text = amount_of(number, unit)
    assert (text.metric.replace(SPACE, " "), text.us.replace(SPACE, " ")) == (metric, us)


@given(st.floats(1e-6, 0.00494))
def test_a_pinch_is_in_grams_for_everybody(mass_kg: float) -> None:
    text = amount_of(mass_kg, "kg")
    assert text.metric.endswith(f"{SPACE}g")
    assert text.us == ""


def test_what_was_worked_out_keeps_its_zeros_and_what_was_written_does_not() -> None:
    given_share = written(0.05, "fraction", "moisture", words="the recipe")
    worked_out = (given_share * 1.0).told_in("fraction")
    assert (amount(given_share).metric, amount(worked_out).metric) == (f"5{SPACE}%", f"5.0{SPACE}%")


def test_a_range_says_its_unit_once_and_nothing_where_there_is_none() -> None:
    volume = written(21.5, "L", "wort", words="x", ends=even(0.2))
    assert span(volume) is not None
    assert str(span(volume)).replace("\\xa0", " ") == "Amount(metric='21.2 and 21.8 L', us='5.6 and 5.75 gal')"
    assert span(written(21.5, "L", "wort", words="x", ends=even(0.001))) is None


def test_both_ends_of_a_range_are_in_the_unit_of_the_value() -> None:
    ready = span(written(24, "d", "ready", words="x", ends=even(5)))
    assert ready is not None
    assert ready.metric == f"15.8 and 32.2{SPACE}days"


def test_a_range_in_pounds_does_not_share_its_ounces() -> None:
    between = span(written(1.6, "kg", "malt", words="x", ends=even(0.2757)))
    assert between is not None
    assert between.us.count("lb") == 2


def test_a_working_puts_in_more_digits_than_come_out() -> None:
    assert (put_in(0.20654321, "kg"), result(0.20654321, "kg")) == (f"0.206543{SPACE}kg", f"0.2065{SPACE}kg")
    assert (put_in(1.0431, "SG"), result(1.0431, "SG")) == ("1.043100", "1.04310")
    assert (put_in(-2.5), result(-2.5)) == ("−2.5", "−2.5")
    assert (put_in(2.0654321e-6), result(2.0654321e-6)) == ("2.06543·10⁻⁶", "2.065·10⁻⁶")
    assert (result(9999.4), result(123456.7)) == ("9999", "123457")


@pytest.mark.parametrize(("unit", "number"), [("g", 5.0), ("g", 600.0), ("kg", 0.02), ("mL", 4.0), ("mL", 1200.0)])
def test_salts_sulfites_and_acids_are_metric_for_everybody(unit: str, number: float) -> None:
    """An ounce for a gram of metabisulfite is 28 times the dose."""
    weighed = written(number, unit, "gypsum", words="the recipe", ends=even(0.1 * number), metric=True)
    between = span(weighed)
    assert between is not None
    assert (amount(weighed).us, between.us) == ("", "")
    assert amount(written(number, unit, "hops", words="the recipe")).us or number <= 5


@pytest.mark.parametrize(
    ("then", "now", "unit", "us", "told"),
    [
        (1.0431, 1.0462, "SG", False, "+0.003"),
        (1.0431, 1.0434, "SG", False, ""),
        (19.0, 20.0, "L", False, "+1 L"),
        (3.785411784, 7.570823568, "L", True, "+1 gal"),
        (67.0, 65.0, "°C", True, "−4 °F"),  # 152.6 and 149 °F, which read 153 and 149
        (0.995, 1.01, "kg", False, "+15 g"),
        (0.0, 12.0, "g", False, "+12 g"),
        (0.74, 0.725, "fraction", False, "−1.5 %"),
    ],
)
def test_how_far_a_figure_moved_is_what_its_two_numbers_differ_by(
    then: float, now: float, unit: str, us: bool, told: str
) -> None:
    pair = (written(number, unit, "it", words="a test") for number in (then, now))
    assert moved(*pair, us=us).replace(SPACE, " ") == told
