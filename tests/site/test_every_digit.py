"""Every number on a page was printed by the macros of one template, or stands in words that somebody else wrote."""

from __future__ import annotations

import re
from functools import cache

import pytest
from lxml import html
from lxml.cssselect import CSSSelector

from gristbook.pantry.pantry import Pantry
from gristbook.problems import Problems
from gristbook.reading.files import themes
from gristbook.targets.batches.measured import FITS
from gristbook.targets.method.step import spoken

DIGIT = re.compile(r"\d")

PRINTED = (".figure", ".amount", ".formula")
"""What the macros of `figure.html` print: a value, an amount in words of a unit, a formula with or without numbers."""

WRITTEN = (".prose", ".summary", ".note", ".about", ".told", "h1", "q")
"""The author's own words, as they stand in the book's files."""

CITED = ("cite", "code", ".place", ".name")
"""Published works, who says so, a file, a line of it, a name that is a number (A5, 10 L in the stove brewhouse)."""

DRAWN = ("svg", "head")
"""Pictures, whose axes are numbers (each has a table, and tests of its own), and what only a machine reads."""


@pytest.fixture(scope="module")
def names(demo) -> re.Pattern[str]:  # type: ignore[no-untyped-def]
    """What the pantry calls its ingredients, and who published a model: caramel malt 60 L, Hall 1995.

    So many pieces of a spice, and the label of a hopped tin, stand in the author's own words too.
    """
    found = {record.name for record in Pantry.load(None, Problems()).malts.records}  # any may stand in for another
    for plan in demo.plans:
        recipe, water = plan.recipe, plan.recipe.water
        lines = (*recipe.malts, *recipe.sugars, *recipe.hops, *recipe.kits, *recipe.yeasts, *recipe.extras)
        called = {line.name for line in (*lines, *water.salts, *water.acids)}
        found |= called | {spoken(name) for name in called}
        found |= {extra.written for extra in recipe.extras if extra.amount and extra.amount.unit == "pieces"}
        found |= {sugar.label for sugar in recipe.sugars if sugar.label}
        found |= {model for model, _ in (*plan.figures.bitterness.models, *plan.figures.colour.models)}
        found |= {model for model, _ in (*plan.figures.fermentation.strengths, *plan.figures.serving.models)}
        found |= {model for model, _ in (plan.figures.chemistry.mash_ph_models if plan.figures.chemistry else ())}
    found |= {name for name, _ in FITS} | {"lyons 1992"}
    with_digits = sorted((name for name in found if DIGIT.search(name)), key=len, reverse=True)
    return re.compile("|".join(map(re.escape, with_digits)), re.IGNORECASE)


APART = frozenset((*PRINTED, *WRITTEN, *CITED, *DRAWN))
"""What is taken out, by its tag or by a point and one of its classes."""


def left_over(page: html.HtmlElement, names: re.Pattern[str]) -> list[str]:
    """Texts that still hold a digit when all that may is taken out; a link to the glossary does not part a text."""
    texts = ("".join(run).strip() for run in _runs(page, [[]]))
    return [text for text in texts if DIGIT.search(text) and _unnamed(text, names)]


@cache
def _unnamed(text: str, names: re.Pattern[str]) -> bool:
    """Whether a text, of which many stand on many pages, holds a digit that is no name's."""
    return bool(DIGIT.search(names.sub("", text)))


def _runs(element: html.HtmlElement, runs: list[list[str]]) -> list[list[str]]:
    """The texts of an element in their order, parted by every element that is no term of the glossary."""
    runs[-1].append(element.text or "")
    for child in element:
        called = [f".{name}" for name in child.get("class", "").split()]
        term = child.tag == "a" and ".term" in called
        if not term:
            runs.append([])
        if isinstance(child.tag, str) and APART.isdisjoint((child.tag, *called)):
            _runs(child, runs)
        if not term:
            runs.append([])
        runs[-1].append(child.tail or "")
    return runs


@pytest.mark.parametrize("book", ["demo", "brews"])
def test_no_digit_is_on_a_page_that_nobody_printed_or_wrote(book: str, names: re.Pattern[str], request) -> None:  # type: ignore[no-untyped-def]
    pages = request.getfixturevalue(book).trees
    found = {path: stray for path, page in pages.items() if (stray := left_over(page, names))}
    assert found == {}


def test_a_stray_digit_would_be_found(demo, names: re.Pattern[str]) -> None:  # type: ignore[no-untyped-def]
    """The same page with a number that a template wrote itself, and with one that hides behind a name."""
    page = demo.files["quillmere-best.html"].decode()
    for where, stray in (('<h2 id="ingredients">', "5 L"), ("<h3>The grist", " of caramel malt 60 L at 7 kg")):
        assert where in page
        spoilt = html.document_fromstring(page.replace(where, f"{where} {stray}", 1).encode())
        assert [stray in text for text in left_over(spoilt, names)] == [True]


def test_only_one_template_prints_numbers() -> None:
    """What the test above takes out as printed can come from nowhere else."""
    classes = "|".join(name.removeprefix(".") for name in PRINTED)
    for template in sorted(themes().rglob("*.html")):
        text = template.read_text(encoding="utf-8")
        assert (template.name == "figure.html") == bool(re.search(rf'class="({classes})\b', text)), template.name
        assert (template.name == "figure.html") == ("<data" in text), template.name


def test_what_is_printed_is_a_number_and_its_unit(demo) -> None:  # type: ignore[no-untyped-def]
    """No sentence hides in what is taken out: a figure is a few characters in each system of units."""
    printed, cited = CSSSelector(".figure, .amount:not(table)"), CSSSelector(".place, .name, q")
    for path, page in demo.trees.items():
        for figure in printed(page):
            assert DIGIT.search(figure.text_content()), path
            assert len(figure.text_content()) <= 70, (path, figure.text_content())
        for words in cited(page):
            assert len(words.text_content()) <= 160, (path, words.text_content())
