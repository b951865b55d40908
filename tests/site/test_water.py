"""The water's section of a recipe's page, and its cost: words first, every number the plan's, none where none is."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
import the_demo
from bs4 import BeautifulSoup, Tag
from lxml.etree import XPath
from made_site import make_site

from gristbook.charts.caches import MemoryCache
from gristbook.problems import Problems
from gristbook.sheet.value import Value
from gristbook.site.amounts import amount
from gristbook.targets.buying.shopping import shopping
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

from .conftest import pages_of

TREATED, AS_IT_RUNS = "tailrace-pils", "wallower-porter"


def water_of(page: BeautifulSoup) -> Tag:
    section = page.find("section", attrs={"aria-labelledby": "water"})
    assert isinstance(section, Tag)
    return section


def test_the_verdict_stands_first_and_is_words_alone(demo: Any) -> None:
    for plan in demo.plans:
        section = water_of(demo.pages[f"{plan.recipe.slug}/figures.html"])
        verdict = section.find("strong")
        first = section.find(["p", "ul", "table"])
        assert isinstance(verdict, Tag)
        assert isinstance(first, Tag)
        assert verdict in first.descendants
        assert not any(letter.isdigit() for letter in verdict.get_text())


def test_a_treated_water_is_told_beside_the_tap(demo: Any) -> None:
    for slug, columns in ((TREATED, 2), (AS_IT_RUNS, 1)):
        table = water_of(demo.pages[f"{slug}/figures.html"]).find("table")
        assert isinstance(table, Tag)
        chemistry = demo.plan(slug).figures.chemistry
        rows = {row.th.get_text(): row.find_all("data") for row in table.tbody.find_all("tr")}  # type: ignore[union-attr]
        assert list(rows) == ["calcium", "magnesium", "sodium", "sulfate", "chloride", "alkalinity"]
        assert {len(cells) for cells in rows.values()} == {columns}
        for name, cells in rows.items():
            shown = [float(cell["value"]) for cell in cells]
            told = [getattr(ions, name).number for ions in (chemistry.source, chemistry.treated)][:columns]
            assert shown == pytest.approx(told), name


def test_no_page_leaves_a_water_as_it_is_above_a_figure_that_is_not_usual(demo: Any) -> None:
    """On every page of a recipe and of an edition, whatever pH it shows; and none says that all is well with a beer."""
    seen = {True: 0, False: 0}
    for page in (path for path in demo.files if path.endswith(".html")):
        text = " ".join(" ".join(TEXTS(demo.trees[page])).split())
        assert not re.search("let this recipe pass|nothing in it lies outside|nothing wrong with it", text), page
        section = re.search(r"reckoned to stand at a pH of about ([\d.]+)", text)
        if section:
            usual = 5.2 <= float(section[1]) <= 5.6
            assert ("need be done to it for this beer" in text or "would taste of what" in text) is usual, page
            assert ("hard for this beer" in text or "a little high" in text) is (float(section[1]) > 5.6), page
            seen[usual] += 1
    assert min(seen.values()) >= 5


def test_every_number_of_the_water_leads_to_its_working(demo: Any) -> None:
    for plan in demo.plans:
        for figure in water_of(demo.pages[f"{plan.recipe.slug}/figures.html"]).find_all("data"):
            assert figure.parent.name == "a", plan.recipe.slug


def test_a_beers_page_says_what_it_costs_in_the_books_own_money(demo: Any) -> None:
    for plan in demo.plans:
        line = demo.pages[f"{plan.recipe.slug}.html"].select_one("[aria-labelledby=outcome] > .cost")
        shown = [float(data["value"]) for data in line.find_all("data")]
        assert shown == pytest.approx([plan.cost.total.number, plan.cost.a_litre.number])
        assert "quills" in line.get_text()


RECIPE = """---
title: A trial
malts: 4 kg pale ale malt
hops: 30 g Fuggle, 4.5 %, 60 min
yeast: 11 g american ale yeast, clean, dried
mash: 67 °C, 60 min
ferment: 19 °C, 10 days
---
"""


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, BeautifulSoup]:
    """The pages of a recipe whose book names no water and has a price for half of it."""
    folder: Path = tmp_path_factory.mktemp("bare")
    (folder / "book.yaml").write_text("title: A book\ncurrency: crowns\n", "utf-8")
    (folder / "trial.md").write_text(RECIPE, "utf-8")
    (folder / "pantry").mkdir()
    (folder / "pantry" / "prices.yaml").write_text("pale ale malt: 2 / kg\n", "utf-8")
    problems = Problems()
    book = read_book(folder, problems)
    assert book is not None
    files = make_site(book, plan_book(book, problems), problems, MemoryCache())
    assert not problems.errors(), list(map(str, problems))
    return pages_of(files)


def test_without_a_named_water_there_are_words_and_no_figure(bare: Mapping[str, BeautifulSoup]) -> None:
    section = water_of(bare["trial/figures.html"])
    assert "carbon filter" in section.get_text()
    assert section.find_all("data") == []
    assert section.find("table") is None


def test_what_has_no_price_is_named_in_place_of_a_sum(bare: Mapping[str, BeautifulSoup]) -> None:
    cost = bare["trial.html"].find(class_="cost")
    assert isinstance(cost, Tag)
    assert "no price yet for Fuggle, American ale, clean" in cost.get_text()
    assert "crowns" not in cost.get_text()


CHEMICALS = "gypsum|calcium chloride|epsom|table salt|baking soda|chalk|metabisulfite|lactic acid|phosphoric acid"
TEXTS = XPath("//text()", smart_strings=False)
IN_METRIC = re.compile(rf"\d\s*(?:g|mL)\s+(?:of\s+)?(?:[a-z]+\s+)?(?:{CHEMICALS})", re.IGNORECASE)
IN_US = re.compile(rf"\d\s*(?:lb|oz|tsp|tbsp|cups?|fl oz|qt)\s+(?:of\s+)?(?:[a-z]+\s+)?(?:{CHEMICALS})", re.IGNORECASE)


def test_no_page_gives_a_salt_a_sulfite_or_an_acid_in_ounces_or_spoons(demo: Any, brews: Any) -> None:
    """The caution beside them says that an ounce for a gram makes people ill."""
    named = 0
    for book in (demo, brews):
        for path, data in book.files.items():
            if path.endswith((".html", ".json", ".xml", ".txt")):
                text = " ".join(TEXTS(book.trees[path])) if path.endswith(".html") else data.decode()
                text = " ".join(text.split())
                named += len(IN_METRIC.findall(text))
                assert not IN_US.search(text), (path, IN_US.search(text))
    assert named > 50


def test_every_salt_and_acid_of_every_beer_edition_and_shopping_list_is_metric(demo: Any) -> None:
    plans = [*demo.plans, *(it.plan for slug in the_demo.SLUGS for it in the_demo.made(slug))]
    seen: list[Value] = []
    for plan in plans:
        treated, chemistry = plan.recipe.water, plan.figures.chemistry
        seen += [salt.mass for salt in treated.salts] + [acid.volume for acid in treated.acids]
        for found in (chemistry and chemistry.metabisulfite, chemistry and chemistry.solution):
            seen += [found] if found is not None else []
        names = {it.name for it in (*treated.salts, *treated.acids)}
        seen += [
            it.amount for it in shopping([plan], times=3, prices=demo.book.prices) if it.name in names and it.amount
        ]
    assert len(seen) > 20
    assert all(value.metric and not amount(value).us for value in seen)
