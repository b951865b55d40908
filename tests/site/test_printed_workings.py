"""Workings as a reader has them: every line worked out anew from what the pages print, and where its letters lead to.

A number that goes in is printed with six digits, gravities with six decimals, and a result with four, gravities with
five decimals. The numbers as they are printed give the printed result within one of its last digit; a share comes as a
fraction, with its per cent behind it. What is halfway between two steps of a scale may go to either.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

import pint
import pytest
import the_demo
from lxml import html
from printed import Line, blocks, in_unit, last_digit, lines, number, text_of, told
from terms import NotASum

from gristbook.site.amounts import SPACE

from .conftest import Demo

HALFWAY = 1e-5
"""How far from the middle between two steps, in steps: what six digits leave open."""

ALONE = r"−?[\d.]+(?:·10[⁻⁰¹²³⁴-⁹]+)?(?:\xa0[^+−×÷()]+)?"
"""One number, and its unit if it has one."""

_BETWEEN = r" (?:[+−×÷]|in steps of) |[()]"


def worked(demo: Demo) -> Iterator[tuple[str, html.HtmlElement]]:
    """The pages that have workings."""
    return ((path, demo.trees[path]) for path, data in demo.files.items() if b'<table class="steps' in data)


def amiss(line: Line) -> str:
    """Why a line does not give what it says; nothing where it does."""
    try:
        found = line.worked_out()
    except (NotASum, pint.DimensionalityError, KeyError) as no:
        return f"{no!r}"
    return "" if abs(found - line.number) <= line.digit * (1 + 1e-9) or halfway(line, found) else f"{found}"


def halfway(line: Line, found: float) -> bool:
    """Whether a line goes to the other one of two steps that are as near."""
    before, _, step = line.put_in.rpartition(" in steps of ")
    if line.formula or not before:
        return False
    unit = line.result.partition("\xa0")[2]
    size = in_unit(f"1 × {step}", unit)
    whole, left = divmod(in_unit(f"1 × ({before})", unit) / size, 1)
    return abs(left - 0.5) <= HALFWAY and abs(line.number - (whole + 0.5) * size) <= size / 2 + line.digit


def test_every_printed_working_of_the_demo_gives_its_printed_result(demo: Demo) -> None:
    """Nothing is left out; what two pages print alike is worked out once."""
    found: dict[Line, str] = {}
    for path, page in worked(demo):
        for line in lines(page):
            found.setdefault(line, path)
    kinds = Counter(bool(line.formula) for line in found)
    assert kinds[True] > 6_000
    assert kinds[False] > 3_000
    assert not [
        (path, line.formula, line.put_in, line.result, why) for line, path in found.items() if (why := amiss(line))
    ]


@pytest.mark.parametrize(
    ("put_in", "result", "holds"),
    [
        ("24.5~L − (3~L/h × 50~min)", "22~L", True),
        ("24.5~L − (3~L/h × 50~min)", "22.01~L", True),
        ("24.5~L − (3~L/h × 50~min)", "22.02~L", False),
        ("24.5~L − (3~L/h × 50)", "22~L", False),
        ("(12~g × 40~money/kg) + (2~packs × 1.5~money each)", "3.48~money", True),
        ("(4~g × 0.5~g/g) ÷ 20~L", "100~mg/L", True),
        ("((4~g × 0.5~g/g) ÷ 20~L) × 1000", "100~mg/L", False),
        ("(25~g × (10~L ÷ 20~L)) in steps of 1~g", "12~g", True),
        ("(25~g × (10~L ÷ 20~L)) in steps of 1~g", "13~g", True),
        ("(25~g × (10~L ÷ 20~L)) in steps of 1~g", "14~g", False),
        ("12.51~g in steps of 1~g", "12~g", False),
        ("219.7~10⁹ cells ÷ (100~10⁹ cells/pack × 1) rounded up", "3~packs", True),
        ("30~IBU × 20~L", "600~mg", True),
        ("30~IBU + 20~L", "50~L", False),
        ("2·10⁻³~kg + −1~g", "1~g", True),
        ("2~kg malt", "2~kg", False),
    ],
)
def test_a_printed_sum_is_reckoned_as_one_reads_it(put_in: str, result: str, holds: bool) -> None:
    """Sums that anybody can do in the head, and some that are wrong by a digit, a step or a unit."""
    line = Line("", (), *(text.replace("~", SPACE) for text in (put_in, result)))
    assert (amiss(line) == "") is holds


def test_a_sum_in_the_place_of_a_letter_is_told_in_the_unit_of_the_letter() -> None:
    """Half a kilogram is 500 g, and a letter of which no unit is said takes pure numbers only."""
    put_in = "m = 0.2~kg + 0.3~kg, V = 10".replace("~", SPACE).replace(" = ", f"{SPACE}={SPACE}")
    line = Line("c = m / V", (("m", "g"), ("V", "L")), put_in, f"50{SPACE}g/L")
    assert amiss(line) == ""
    assert amiss(replace(line, units=(("m", "kg"), ("V", "L"))))
    assert "Dimensionality" in amiss(replace(line, units=(("m", ""), ("V", "L"))))


def test_no_formula_is_printed_twice_on_a_page(demo: Demo) -> None:
    seen = 0
    for path, page in worked(demo):
        formulas = [text_of(said) for block in blocks(page) if (said := told(block)) is not None]
        seen += len(formulas)
        assert [it for it, times in Counter(formulas).items() if times > 1] == [], path
    assert seen > 1_000


def test_a_letter_leads_to_where_its_number_stands(demo: Demo) -> None:
    """Of a figure that stands alone under its formula, in the first kettle: what goes in is what came out there."""
    followed = Counter[bool]()
    for slug in the_demo.SLUGS:
        page = demo.trees[f"{slug}/working.html"]
        anchors = {it.get("id"): it for it in page.iterfind(".//*[@id]")}
        for block in blocks(page):
            assert [it.get("href") for it in block.iterfind(".//p/a") if it.get("href")[1:] not in anchors] == [], slug
            own = printed_at(block)
            for href, put in () if own is None else led(block, text_of(own)):
                there = printed_at(anchors[href[1:]])
                if there is not None:
                    came = result_in(there)
                    assert came, f"{slug}{href} leads to no number of this kettle"
                    apart = abs(number(put) - number(came))
                    assert apart <= 0.501 * last_digit(came) + 5e-6 * abs(number(put)), f"{slug}{href}: {put}, {came}"
                    followed[block.find(".//p[@class='keys']") is None] += 1
    assert followed[False] > 2_000
    assert followed[True] > 1_000


def led(block: html.HtmlElement, put_in: str) -> Iterator[tuple[str, str]]:
    """The links of a block to single numbers, and the number that a line has in the place of each."""
    said, keys = block.find(".//p"), block.find(".//p[@class='keys']")
    if keys is not None:
        places = {text_of(it): it.get("href") for it in keys.iterfind("a")}
        put = (text.partition(f"{SPACE}={SPACE}") for text in re.sub(r"\sgives\s$", "", put_in).split(", "))
        pairs = [(places.get(letter, ""), text) for letter, _, text in put if letter and letter[-1] not in "ᵢⱼ"]
    else:
        words = (said.text or "") + "".join(it.get("href") + (it.tail or "") for it in said)
        parts, texts = (re.split(_BETWEEN, text) for text in (words, re.sub(r"\s=\s$", "", put_in)))
        pairs = [*zip(parts, texts, strict=True)] if len(parts) == len(texts) else []
    for href, text in pairs:
        if href.startswith("#") and re.fullmatch(ALONE, text):
            yield href, text.partition(SPACE)[0]


def printed_at(place: html.HtmlElement) -> html.HtmlElement | None:
    """The cell with the number of the first kettle, if there is one of it and no more."""
    if place.tag == "tbody":
        rows = [row for row in place.iterfind("tr") if row.find("td/b") is not None]
        return printed_at(rows[0]) if len(rows) == 1 and _of_the_first(place) else None
    if place.tag == "tr":
        return place[1] if _of_the_first(place) else None
    return place if place.tag == "td" else None


def _of_the_first(place: html.HtmlElement) -> bool:
    """Whether a row or a block is said of the first kettle, as all are that do not say of which."""
    marks = (place.get("class") or "").split()
    return not marks or "k0" in marks


def result_in(cell: html.HtmlElement) -> str:
    """The number that a cell comes to, or that was given."""
    bold = cell.find("b")
    return ((cell.text or "") if bold is None else text_of(bold)).strip().partition(SPACE)[0]
