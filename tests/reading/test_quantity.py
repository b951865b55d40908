"""Numbers with units as people write them."""

import pytest

from gristbook.problems import Place, Problems
from gristbook.reading.quantity import Quantity, Unreadable, leading_quantity, quantity
from gristbook.reading.tree import Text

POUND = 0.45359237
PLACE = Place("file", 3, 5)


def read(written: str, *bases: str) -> tuple[Quantity | None, list[str]]:
    problems = Problems()
    found = quantity(Text(written, PLACE), problems, bases, "a weight, as 250 g")
    return found, [str(problem) for problem in problems]


@pytest.mark.parametrize(
    ("written", "number", "base", "tolerance"),
    [
        ("3 kg", 3.0, "kg", None),
        ("3.0kg", 3.0, "kg", None),
        (".5 kg", 0.5, "kg", None),
        ("+3 kg", 3.0, "kg", None),
        ("1/2 lb", POUND / 2, "kg", None),
        ("1 1/2 lb", 1.5 * POUND, "kg", None),
        ("½ lb", POUND / 2, "kg", None),
        ("1½ lb", 1.5 * POUND, "kg", None),
        ("1 lb 4 oz", 1.25 * POUND, "kg", None),
        ("1 lb 1/2 oz", 33 / 32 * POUND, "kg", None),
        ("1 kg 250 g", 1.25, "kg", None),
        ("1 gal 2 qt", 1.5 * 3.785411784, "L", None),
        ("1 h 30 min", 90.0, "min", None),
        ("1 week 3 days", 14400.0, "min", None),
        ("72 % ± 4", 0.72, "fraction", 0.04),
        ("72 % ± 4 %", 0.72, "fraction", 0.04),
        ("72 per cent +/- 4", 0.72, "fraction", 0.04),
        ("1.048 ± 0.002", 1.048, "", 0.002),
        ("67 °C ± 1", 67.0, "°C", 1.0),
        ("152.6 °F ± 1.8", 67.0, "°C", 1.0),
        ("67 °C ± 1.8 °F", 67.0, "°C", 1.0),
        ("-1 °C", -1.0, "°C", None),
        ("−1 °C", -1.0, "°C", None),
        ("-3 m", -3.0, "m", None),
        ("20 L ± 0", 20.0, "L", 0.0),
        ("20 L ± 500 mL", 20.0, "L", 0.5),
        ("12 °P ± ½", 12.0, "°P", 0.5),
        ("22 ± 0.5 L", 22.0, "L", 0.5),
        ("68 ± 9 °F", 20.0, "°C", 5.0),
        ("74 ± 4 %", 0.74, "fraction", 0.04),
        ("3 US gal", 3 * 3.785411784, "L", None),
        ("2 fl oz", 2 * 3.785411784 / 128, "L", None),
        ("67 ° C", 67.0, "°C", None),
    ],
)
def test_a_quantity_is_read(written: str, number: float, base: str, tolerance: float | None) -> None:
    found, problems = read(written, base)
    assert problems == []
    assert found is not None
    assert found.number == pytest.approx(number, abs=1e-9)
    assert found.tolerance == (None if tolerance is None else pytest.approx(tolerance, abs=1e-9))
    assert (found.base, found.text, found.place) == (base, written, PLACE)


@pytest.mark.parametrize(
    ("written", "column", "what"),
    [
        ("", 5, '"" is not a weight'),
        ("some", 5, '"some" is not a weight'),
        ("3", 5, '"3" is not a weight'),
        ("3 L", 5, '"3 L" is not a weight'),
        ("3 kg or 4", 10, '"or 4" after 3 kg'),
        ("3 kgg", 7, 'unknown unit "kgg"'),
        ("3,5 kg", 5, '"3,5" has a comma in it'),
        ("3, kg", 5, '"3," is not a number'),
        ("3.5.1 kg", 5, '"3.5.1" is not a number'),
        ("3. kg", 5, '"3." is not a number'),
        ("1/0 kg", 5, '"1/0" divides by nothing'),
        ("1 1/0 kg", 5, '"1 1/0" divides by nothing'),
        ("2-1/0 kg", 7, '"1/0" divides by nothing'),
        ("3 kg ± 1/0", 12, '"1/0" divides by nothing'),
        ("3 kg ± 4 L", 14, '"L" is not the unit of what stands before the ±'),
        ("-3 kg", 5, '"-3 kg" is below nothing'),
        ("-3", 5, '"-3" is below nothing'),
        ("1 lb -4 oz", 10, '"-4 oz" is below nothing'),
        ("1000000001 kg", 5, "a number that no brew can hold"),
        ("9" * 400 + " kg", 5, "a number that no brew can hold"),
        ("9" * 5000 + " kg", 5, "a number that no brew can hold"),
        ("3 kg ± " + "9" * 5000, 12, "a number that no brew can hold"),
        ("4 oz 1 lb", 10, '"1 lb" after 4 oz'),
        ("3 lb 2 lb", 10, '"2 lb" after 3 lb'),
        ("1e3 kg", 6, 'unknown unit "e"'),
    ],
)
def test_what_is_no_quantity_is_told_at_its_first_letter(written: str, column: int, what: str) -> None:
    found, problems = read(written, "kg")
    assert found is None
    assert len(problems) == 1
    assert problems[0].startswith(f"file:3:{column}: error: {what}")


@pytest.mark.parametrize(
    ("written", "rest"),
    [
        ("3 kg pale ale malt", " pale ale malt"),
        ("1 lb 4 oz pale ale malt", " pale ale malt"),
        ("3 kg ± 0.1 pale ale malt", " pale ale malt"),
        ("3 kg 2-row malt", " 2-row malt"),
        ("28 g 4 seasons hops", " 4 seasons hops"),
        ("1 lb 8 row malt", " 8 row malt"),
    ],
)
def test_the_name_begins_where_the_amount_ends(written: str, rest: str) -> None:
    problems = Problems()
    read = leading_quantity(Text(written, PLACE), problems)
    assert read is not None
    assert written[read.end :] == rest
    assert not len(problems)


def test_a_text_that_begins_with_no_number_has_no_quantity_and_no_problem() -> None:
    problems = Problems()
    assert leading_quantity(Text("pale ale malt", PLACE), problems) is None
    assert not len(problems)


def test_a_number_that_makes_no_quantity_is_told_before_it_is_raised() -> None:
    problems = Problems()
    with pytest.raises(Unreadable):
        leading_quantity(Text("3 kgg malt", PLACE), problems)
    assert len(problems) == 1
