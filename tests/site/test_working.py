"""The working: what is one step, what is two, and what each is called."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from gristbook.site.beer.steps import CONSTANT
from gristbook.site.beer.working import Elsewhere, Working, values_in, working

from gristbook.equations import extract
from gristbook.problems import Place
from gristbook.sheet.arithmetic import share_of
from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value, apply, given, lineage
from gristbook.site.amounts import SPACE

from .conftest import Demo


def everything(demo: Demo) -> Iterator[Value]:
    """Every figure of a book's beers, brews and lessons, and all that they rest on."""
    brews = (demo.done.batches, demo.done.lessons)
    roots = [value for record in (*demo.plans, *brews) for value in values_in(record)]
    yield from lineage(*roots, *(value for plan in demo.plans for value in plan.named.values()))


def test_a_figure_lies_within_its_own_range(demo: Demo, brews: Demo) -> None:
    """A reading may lie to either side of the middle: a signed number is not held to what a weight can be."""
    seen = [*everything(demo), *everything(brews)]
    assert any(value.number < 0 and value.unit == "standard deviations" for value in seen)
    for value in seen:
        assert value.low <= value.number <= value.high, value


def test_what_primes_a_beer_is_within_the_range_of_its_source(demo: Demo) -> None:
    primed = [value for value in everything(demo) if value.label == "alcohol that priming adds"]
    assert len(primed) > 10
    for value in primed:
        assert not isinstance(value.made, Given)
        assert not value.made.notes


def test_no_number_is_put_into_the_name_of_another(demo: Demo) -> None:
    """M is the sugar's molar mass, and M_CO₂ the gas's."""
    drawn = (page.find_class("formula") for page in demo.trees.values())
    text = " ".join(formula.text_content() for formulas in drawn for formula in formulas)
    found = re.findall(r"\S+(?:CO₂|C₂H₅OH)\b", text)
    assert found
    assert set(found) == {"MCO₂", "MC₂H₅OH"}


def written(number: float, unit: str, label: str, line: int) -> Value:
    return given(number, unit, label, words="the recipe", place=Place("beer.md", line))


def steps(made: Working) -> list[str]:
    return [step.label for section in made.sections for step in section.steps]


def share(part: Value, whole: Value) -> Value:
    return share_of(part, whole, "share")


def test_what_was_worked_out_twice_from_the_same_is_one_step() -> None:
    part, whole = written(1, "kg", "malt", 3), written(4, "kg", "grist", 4)
    first, second = share(part, whole), share(part, whole)
    made = working([("All", [first, second])], {})
    assert steps(made) == ["Share"]
    assert made.anchor(first) == made.anchor(second) == "share"


def test_the_same_number_from_other_inputs_is_another_step() -> None:
    whole = written(4, "kg", "grist", 4)
    first, second = (share(written(1, "kg", "malt", line), whole) for line in (3, 5))
    made = working([("All", [first, second])], {})
    assert (made.anchor(first), made.anchor(second)) == ("share", "share-2")
    assert [row.line for row in made.inputs[0].rows] == [3, 4, 5]


def test_a_step_stands_in_the_first_section_that_needs_it() -> None:
    part, whole = written(1, "kg", "malt", 3), written(4, "kg", "grist", 4)
    needed = share(part, whole)
    made = working([("First", [needed]), ("Second", [needed])], {})
    assert [section.title for section in made.sections] == ["First"]


def test_a_named_figure_goes_by_its_name() -> None:
    value = share(written(1, "kg", "malt", 3), written(4, "kg", "grist", 4))
    made = working([("All", [value])], {"base malt": value, "another name": value})
    assert made.anchor(value) == "base-malt"


def test_an_anchor_is_never_that_of_a_section() -> None:
    value = share(written(1, "kg", "share", 3), written(4, "kg", "given", 4))
    made = working([("Share", [value])], {})
    anchors = [made.anchor(value), *(row.anchor for row in made.inputs[0].rows)]
    assert len({*anchors, "share", "given", "main", made.inputs[0].anchor}) == 7


def test_a_constant_of_the_method_is_shown_where_it_is_used_and_has_no_place() -> None:
    value = apply(extract.grist_mass, "grist", extract_kg=3.0, shares=(0.5, 0.5), yields=(0.6, 0.6))
    made = working([("All", [value])], {})
    assert made.inputs == ()
    numbers = made.sections[0].steps[0].symbols[1].numbers
    assert [(put.label, put.anchor) for put in numbers] == [(CONSTANT, "")] * 2


def test_the_numbers_and_the_result_of_a_step_are_on_it() -> None:
    value = share(written(1, "kg", "malt", 3), written(4, "kg", "grist", 4))
    (step,) = working([("All", [value])], {}).sections[0].steps
    assert str(step.formula) == "malt ÷ grist"
    assert str(step.inserted).replace(SPACE, " ") == "1 kg ÷ 4 kg"
    assert step.result == "0.25"


def test_a_value_that_the_working_does_not_know_is_an_error_and_no_dead_link() -> None:
    made = working([("All", [written(1, "kg", "malt", 3)])], {})
    with pytest.raises(KeyError):
        made.anchor(written(1, "kg", "malt", 3))


def test_a_files_own_lines_come_before_what_no_file_gives() -> None:
    values = [given(1, "kg", "practice", words="common practice"), written(2, "kg", "malt", 3)]
    made = working([("All", values)], {})
    assert [group.path for group in made.inputs] == ["beer.md", ""]


def test_what_another_page_works_out_is_led_to_and_not_told_again() -> None:
    learned = share(written(1, "kg", "malt", 3), written(4, "kg", "grist", 4))
    rests = (written(2, "kg", "more malt", 5) * learned).called("extract")
    made = working([("All", [rests])], {}, elsewhere={id(learned): Elsewhere(learned, "the brews", "b.html#x")})
    assert steps(made) == ["Extract"]
    assert [row.label for inputs in made.inputs for row in inputs.rows] == ["More malt", "Share"]
    assert [(row.origin, row.leads_to) for row in made.inputs[-1].rows] == [("the brews", "b.html#x")]
