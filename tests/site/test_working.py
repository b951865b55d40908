"""The working: what is one step, what is two, and what each is called."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
import the_demo

from gristbook.equations import extract
from gristbook.problems import Place
from gristbook.sheet.arithmetic import share_of
from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value, apply, given, lineage
from gristbook.site.amounts import SPACE
from gristbook.site.working.numbers import result
from gristbook.site.working.page import MODELS, worksheet
from gristbook.site.working.walk import Elsewhere, Group, Kettle, values_in
from gristbook.site.working.worksheet import Block, Entry, GivenRow, Working, Worksheet

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


def written(number: float, unit: str, label: str, line: int, path: str = "beer.md") -> Value:
    return given(number, unit, label, words="the recipe", place=Place(path, line))


def page(*groups: tuple[str, list[Value]], **more: Any) -> tuple[Worksheet, Working]:
    """The working of one kettle."""
    made, (own,) = worksheet([Kettle("", "beer.html", [Group(*it) for it in groups], more.pop("names", {}))], **more)
    return made, own


def blocks(made: Worksheet) -> list[Block]:
    return [block for part in made.parts for block in part.blocks]


def entries(made: Worksheet) -> list[Entry]:
    return [entry for block in blocks(made) for entry in block.entries]


def givens(made: Worksheet) -> list[GivenRow]:
    return [row for part in made.parts for file in part.given for row in file.rows]


def share(part: Value, whole: Value) -> Value:
    return share_of(part, whole, "share")


def told(entry: Entry) -> list[str]:
    cells = (f"{cell.put_in} {cell.sign} {cell.result}" for cell in entry.cells if cell.result)
    return [words.replace(SPACE, " ") for words in cells]


def test_what_was_worked_out_twice_from_the_same_is_one_step() -> None:
    part, whole = written(1, "kg", "malt", 3), written(4, "kg", "grist", 4)
    first, second = share(part, whole), share(part, whole)
    made, own = page(("All", [first, second]))
    assert len(entries(made)) == 1
    assert own.anchor(first) == own.anchor(second) == "share"


def test_the_same_number_from_other_inputs_is_another_step_under_the_same_formula() -> None:
    whole = written(4, "kg", "grist", 4)
    first, second = (share(written(1, "kg", "malt", line), whole) for line in (3, 5))
    made, own = page(("All", [first, second]))
    assert (own.anchor(first), own.anchor(second)) == ("share", "share-2")
    assert [row.line for row in givens(made)] == [3, 4, 5]
    assert [len(block.entries) for block in blocks(made)] == [2]


def test_a_step_stands_in_the_first_part_that_needs_it() -> None:
    needed = share(written(1, "kg", "malt", 3), written(4, "kg", "grist", 4))
    made, _ = page(("First", [needed]), ("Second", [needed]))
    assert [part.title for part in made.parts] == ["First"]


def test_a_named_figure_goes_by_its_name() -> None:
    value = share(written(1, "kg", "malt", 3), written(4, "kg", "grist", 4))
    _, own = page(("All", [value]), names={"base malt": value, "another name": value})
    assert own.anchor(value) == "base-malt"


def test_an_anchor_is_never_that_of_a_part_or_of_a_kettle() -> None:
    value = share(written(1, "kg", "share", 3), written(4, "kg", "as written", 4))
    made, own = page(("Share", [value]))
    anchors = [own.anchor(value), *(row.anchor for row in givens(made))]
    assert len({*anchors, "share", "as-written", "main", "kettle-0"}) == 7


def test_a_constant_of_the_method_is_shown_where_it_is_used_and_has_no_place() -> None:
    value = apply(extract.grist_mass, "grist", extract_kg=3.0, shares=(0.5, 0.5), yields=(0.6, 0.6))
    made, _ = page(("All", [value]))
    assert givens(made) == []
    (block,) = blocks(made)
    assert [key.href for key in block.keys] == ["", "", ""]
    assert told(block.entries[0]) == ["E = 3, xᵢ = 0.5, 0.5, yᵢ = 0.6, 0.6 gives 5 kg"]


def test_the_numbers_and_the_result_of_plain_arithmetic_are_in_its_line() -> None:
    value = share(written(1, "kg", "malt", 3), written(4, "kg", "grist", 4))
    (block,) = blocks(page(("All", [value]))[0])
    assert block.formula == "<a href=#malt>malt</a> ÷ <a href=#grist>grist</a>"
    assert told(block.entries[0]) == ["1 kg ÷ 4 kg = 0.25"]


def test_a_short_sum_that_no_page_shows_stands_in_the_line_that_uses_it() -> None:
    grist = (written(1, "kg", "malt", 3) + written(3, "kg", "wheat", 4)).called("grist")
    value = share(written(1, "kg", "sugar", 5), grist)
    made, own = page(("All", [value]))
    assert [told(entry) for entry in entries(made)] == [["1 kg ÷ (1 kg + 3 kg) = 0.25"]]
    with pytest.raises(KeyError):
        own.anchor(grist)
    assert len(entries(page(("All", [grist, value]))[0])) == 2, "but it has its own where a page shows it"


def test_a_value_that_the_working_does_not_know_is_an_error_and_no_dead_link() -> None:
    _, own = page(("All", [written(1, "kg", "malt", 3)]))
    with pytest.raises(KeyError):
        own.anchor(written(1, "kg", "malt", 3))


def test_a_files_own_lines_come_before_what_no_file_gives() -> None:
    values = [given(1, "kg", "practice", words="common practice"), written(2, "kg", "malt", 3)]
    made, _ = page(("All", values))
    assert [file.path for file in made.parts[0].given] == ["beer.md", ""]


def test_what_another_page_works_out_is_led_to_and_not_told_again() -> None:
    learned = share(written(1, "kg", "malt", 3), written(4, "kg", "grist", 4))
    rests = (written(2, "kg", "more malt", 5) * learned).called("extract")
    made, _ = page(("All", [rests]), elsewhere={id(learned): Elsewhere(learned, "the brews", "b.html#x")})
    assert [block.anchor for block in blocks(made)] == ["extract"]
    assert [row.label for row in givens(made)] == ["More malt", "Share"]
    assert [(row.words, row.leads_to) for row in givens(made)][-1] == ("the brews", "b.html#x")


def kettles(home: float, other: float) -> tuple[Worksheet, Value, Value, tuple[Working, ...]]:
    """A recipe's share of malt, and that of a smaller kettle."""
    first, second = (
        share(written(part, "kg", "malt", line), written(4, "kg", "grist", 4)) for part, line in ((home, 3), (other, 9))
    )
    both = [
        Kettle("20 L, mill", "a.html", [Group("All", [first])]),
        Kettle("10 L, stove", "b.html", [Group("All", [second])], slug="stove"),
    ]
    made, own = worksheet(both)
    return made, first, second, own


def test_a_figure_of_two_kettles_is_told_once_with_the_numbers_of_both() -> None:
    made, first, second, (home, stove) = kettles(1, 2)
    (entry,) = entries(made)
    assert told(entry) == ["1 kg ÷ 4 kg = 0.25", "2 kg ÷ 4 kg = 0.5"]
    assert (home.anchor(first), stove.anchor(second)) == ("share", "stove.share")
    assert (entry.anchor, entry.cells[1].anchor) == ("", "stove.share")
    assert blocks(made)[0].anchor == "share"


def test_what_reads_alike_in_all_kettles_is_told_once_for_all() -> None:
    made, first, second, (home, stove) = kettles(1, 1)
    (entry,) = entries(made)
    assert told(entry) == ["1 kg ÷ 4 kg = 0.25"]
    assert home.anchor(first) == stove.anchor(second) == "share"
    malt = [row for row in givens(made) if row.label == "Malt"]
    assert [(row.line, row.marks) for row in malt] == [(3, "k0 k"), (9, "k1 k")], "each on its own line"


def test_what_only_one_kettle_has_is_marked_as_its_own(demo: Demo) -> None:
    own = written(1, "kg", "extract", 7)
    both = [
        Kettle("20 L, mill", "a.html", [Group("All", [])]),
        Kettle("10 L, pot", "b.html", [Group("All", [own])], slug="pot"),
    ]
    made, (_, pot) = worksheet(both)
    assert [(row.anchor, row.marks) for row in givens(made)] == [("extract", "k1 k")]
    assert pot.anchor(own) == "extract"


def test_what_other_models_make_of_it_is_told_apart(demo: Demo) -> None:
    page = demo.trees["quillmere-best/working.html"]
    others = page.cssselect("#bitterness details.others")[0]
    assert "Rager 1990" in others.text_content()
    for step in page.cssselect("#bitterness > table.steps tbody"):
        assert "Rager 1990" not in step.text_content() or step.cssselect("h3")[0].text_content() == MODELS


def test_figures_side_by_side_are_put_in_for_the_same_letters(demo: Demo) -> None:
    for plan in demo.plans:
        for step in demo.trees[f"{plan.recipe.slug}/working.html"].cssselect("table.steps tbody"):
            cells = (cell.text_content() for cell in step.cssselect("tr > td:not(:has(h3))"))
            found = {tuple(re.findall(r"(?:^|, )(\S+)\u00a0=\u00a0", cell)) for cell in cells if " gives " in cell}
            assert len(found) == bool(step.cssselect("p.keys")), step.get("id")


def test_what_each_model_makes_of_it_stands_in_one_table_for_every_kettle(demo: Demo) -> None:
    """The totals of the plans themselves, for the recipe and each of its editions."""
    plan = demo.plan("quillmere-best")
    page = demo.trees["quillmere-best/working.html"]
    steps = page.cssselect("#bitterness > table.steps tbody")
    (table,) = (it for it in steps if it.cssselect("h3")[0].text_content() == MODELS)
    plans = [plan, *(made.plan for made in the_demo.made("quillmere-best"))]
    for name, _ in plan.figures.bitterness.models:
        (row,) = (it for it in table.iter("tr") if name.title() in it.text_content())
        totals = [dict(it.figures.bitterness.models)[name] for it in plans]
        told = [cell.findtext("b") for cell in row.findall("td")]
        assert told == [result(it.number, it.unit) for it in totals], name


def test_each_addition_of_hops_says_when_it_goes_in_and_the_sum_begins_in_words(demo: Demo) -> None:
    """The best has Golding three times: by its name alone nobody knows which row is which."""
    part = demo.trees["quillmere-best/working.html"].get_element_by_id("bitterness")
    first = part.cssselect("summary ~ *")[0]
    assert first.tag == "p"
    assert first.text_content().startswith("Each addition of hops is reckoned by itself: ")
    rows = [label.text_content() for label in part.get_element_by_id("alpha-acids-of-fuggle-2.all").cssselect("th")]
    golding = ("East Kent Golding, 20 min", "East Kent Golding, stand 20 min at 80 °C")
    assert [row.replace(SPACE, " ") for row in rows] == ["Fuggle, 60 min", *golding]
    stood = [label.text_content().replace(SPACE, " ") for label in part.cssselect("th[scope=row]")]
    assert "Fuggle, 60 min with stand 20 min at 80 °C" in stood


def test_no_two_rows_of_hops_under_one_formula_are_called_alike(demo: Demo) -> None:
    seen = 0
    for path, tree in demo.trees.items():
        if not path.endswith("/working.html"):
            continue
        hops = {hop.name for plan in demo.plans if path.startswith(f"{plan.recipe.slug}/") for hop in plan.recipe.hops}
        for block in tree.cssselect("#bitterness > table.steps > tbody"):
            names = [label.text_content() for label in block.cssselect("th[scope=row]")]
            names = [name for name in names if name.startswith(tuple(hops))]
            assert len(names) == len({*names}), (path, names)
            seen += len(names)
    assert seen > 100
