"""The pages of ingredients and styles: what a beer is made from and what it is compared with, and the ways there."""

from __future__ import annotations

import gzip
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup, Tag
from made_site import make_site

from gristbook.charts.caches import MemoryCache
from gristbook.problems import Problems
from gristbook.site.addresses import slug, way
from gristbook.site.amounts import bare
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

from .conftest import pages_of

HEAVIEST = 20_000
"""Bytes of a page over the wire, packed as any server packs it."""


def shelf_pages(demo: Any, folder: str) -> dict[str, BeautifulSoup]:
    return {path: demo.pages[path] for path in demo.pages if path.startswith(f"{folder}/")}


def one(page: BeautifulSoup | Tag, selector: str) -> Tag:
    found = page.select(selector)
    assert len(found) == 1, selector
    return found[0]


def test_a_recipes_tables_lead_to_what_each_thing_is(demo: Any) -> None:
    for plan in demo.plans:
        page = demo.pages[f"{plan.recipe.slug}.html"]
        links = {a.get_text(): a["href"] for a in page.select(".goes a.thing")}
        for line in (*plan.recipe.malts, *plan.recipe.sugars, *plan.recipe.hops, *plan.recipe.extras):
            assert links[line.name] == f"ingredients/{slug(getattr(line, 'pantry_name', line.name))}.html"
        if plan.recipe.style:
            compared = one(page, "[aria-labelledby=outcome] > p > a.thing")
            assert compared["href"] == f"styles/{slug(plan.recipe.style.name)}.html"


def test_an_ingredient_tells_every_beer_that_it_goes_into_and_how_much(demo: Any) -> None:
    for plan in demo.plans:
        for line in plan.figures.grist.malts:
            page = demo.pages[f"ingredients/{slug(line.malt.name)}.html"]
            rows = page.select(f'#table-of-uses tr:has(a[href="../{plan.recipe.slug}.html"])')
            said = [data["value"] for row in rows for data in row.find_all("data")]
            assert bare(line.mass.number) in said, (plan.recipe.slug, line.malt.name)


def test_what_only_an_edition_uses_says_which(demo: Any) -> None:
    page = demo.pages["ingredients/dried-malt-extract-light.html"]
    rows = page.select("#table-of-uses tbody tr")
    sizes = {row.th.a["href"]: one(row, ".aside").get_text() for row in rows if row.select("th .aside")}
    assert sizes
    assert all("from malt extract" in size for size in sizes.values())
    assert all("/" in path.removeprefix("../") for path in sizes), "an edition stands in its beer's folder"


def test_a_figure_of_an_ingredient_leads_to_its_working_on_the_same_page(demo: Any) -> None:
    for path, page in shelf_pages(demo, "ingredients").items():
        for link in page.select("[aria-labelledby=what-follows] td a.figure"):
            assert link["href"].startswith("#"), path
            step = page.find(id=link["href"][1:])
            assert isinstance(step, Tag)
            assert step.find_parent("table")["class"][0] == "steps", (path, link["href"])


def test_what_can_stand_in_stands_before_every_table(demo: Any) -> None:
    seen = 0
    for path, page in shelf_pages(demo, "ingredients").items():
        if section := page.find(id="what-can-stand-in"):
            assert not section.find_previous("table"), path
            seen += 1
    assert seen > 50


def test_what_a_hop_is_known_for_forbids_no_other_use_and_says_who_says_so(demo: Any) -> None:
    """The demo boils Fuggle, an aroma hop, for an hour."""
    page = demo.pages["ingredients/fuggle.html"]
    assert "60" in one(page, "#table-of-uses").get_text()
    told = one(page, ".about").get_text()
    assert "aroma hop" in told
    assert "boiled long, it makes a beer bitter" in told
    assert "from memory" in told


def test_what_follows_is_what_the_equations_give_by_hand(demo: Any) -> None:
    """Pale ale malt: 81.5 % extract, 3 % water; 4.2 % alpha in Fuggle, of which a quarter goes in six months."""
    malt = demo.pages["ingredients/pale-ale-malt.html"]
    figures = [float(data["value"]) for data in malt.select("[aria-labelledby=what-follows] td.number data")]
    assert figures[0] == pytest.approx(0.815 * 0.97)
    hop = demo.pages["ingredients/fuggle.html"]
    left = [float(data["value"]) for data in hop.select("[aria-labelledby=what-follows] td.number data")]
    assert left[0] == pytest.approx(0.042 * 0.75**0.75)
    assert left == sorted(left), "colder keeps better"


def test_allergens_stand_on_the_pages_of_what_brings_them(demo: Any) -> None:
    for name, brings in (("lactose", "milk"), ("flaked-oats", "oats"), ("wheat-malt-pale", "wheat")):
        assert f"Contains {brings}." in one(demo.pages[f"ingredients/{name}.html"], ".caution").get_text()
    assert demo.pages["ingredients/fuggle.html"].select(".caution") == []


def test_a_style_tells_its_beers_and_those_that_would_pass_for_it(demo: Any) -> None:
    styles = {plan.recipe.style.name: plan.recipe.style for plan in demo.plans if plan.recipe.style}
    for name, style in styles.items():
        path = f"styles/{slug(name)}.html"
        page = demo.pages[path]

        def told(section: str, page: BeautifulSoup = page) -> set[str]:
            return {a["href"] for a in page.select(f"[aria-labelledby={section}] h3 a")}

        named = {way(path, f"{plan.recipe.slug}.html") for plan in demo.plans if plan.recipe.style == style}
        assert told("beers") == named
        spans = (style.original_gravity, style.final_gravity, style.strength, style.bitterness, style.colour)
        for plan in demo.plans:
            beer = plan.figures.fermentation
            numbers = (plan.figures.wort.original, beer.final, beer.abv)
            numbers += (plan.figures.bitterness.total, plan.figures.colour.srm)
            inside = all(low <= value.number <= high for value, (low, high) in zip(numbers, spans, strict=True))
            if inside:
                assert way(path, f"{plan.recipe.slug}.html") in told("beers") | told("others"), name


def test_a_style_marks_each_of_its_beers_on_the_chart(demo: Any) -> None:
    for path, page in shelf_pages(demo, "styles").items():
        if path != "styles/index.html":
            chart = one(page, "svg.chart")
            beers = {a.get_text() for a in page.select("article.entry h3 a")}
            assert all(f"{beer}: original gravity" in chart.desc.get_text() for beer in beers), path
            assert len(chart.select("polygon")) == len(beers), path


def test_nothing_on_a_style_page_judges_by_a_sign(demo: Any) -> None:
    for path, page in shelf_pages(demo, "styles").items():
        assert not set("✓✔✗✘☑☒") & set(page.get_text()), path


def test_the_lists_name_everything_that_has_a_page(demo: Any) -> None:
    for folder in ("ingredients", "styles"):
        pages = shelf_pages(demo, folder)
        listed = {f"{folder}/{a['href']}" for a in pages[f"{folder}/index.html"].select(".things a")}
        assert listed == set(pages) - {f"{folder}/index.html"}


def test_head_or_foot_of_every_page_leads_to_both_lists(demo: Any) -> None:
    for path, page in demo.trees.items():
        found = page.xpath("//*[contains(@class, 'masthead') or contains(@class, 'colophon')]//nav//a/@href")
        assert {way(path, "ingredients/index.html"), way(path, "styles/index.html")} <= set(found), path


def test_a_page_to_look_up_is_light(demo: Any) -> None:
    for folder in ("ingredients", "styles"):
        for path in shelf_pages(demo, folder):
            assert len(gzip.compress(demo.files[path])) < HEAVIEST, path


@pytest.fixture
def built(tmp_path: Path) -> Callable[..., Mapping[str, BeautifulSoup]]:
    """The pages of a small book: `built(recipe, pantry/malts.yaml="…")`."""

    def build(recipe: str, **files: str) -> Mapping[str, BeautifulSoup]:
        (tmp_path / "pantry").mkdir()
        (tmp_path / "book.yaml").write_text("title: A small book\naddress: https://example.org/\n", "utf-8")
        (tmp_path / "trial.md").write_text(recipe, "utf-8")
        for name, text in files.items():
            (tmp_path / "pantry" / f"{name}.yaml").write_text(text, "utf-8")
        problems = Problems()
        book = read_book(tmp_path, problems)
        assert book is not None
        made = make_site(book, plan_book(book, problems), problems, MemoryCache())
        assert not problems.errors(), list(map(str, problems))
        return pages_of(made)

    return build


RECIPE = """\
---
title: Trial
batch: 20 L
malts:
  - 4 kg our own malt
hops:
  - 30 g Fuggle, 4.5 % alpha, 60 min
yeast: 11 g saison yeast, dried
mash: 67 °C, 60 min
ferment: 19 °C, 10 days
---
"""
OWN = "- name: Our own malt\n  kind: kilned\n  extract: 80 %\n  colour: 20 EBC\n  about: From 2 fields by the lake.\n"


def test_an_authors_own_malt_has_a_page_like_any_other(built: Callable[..., Mapping[str, BeautifulSoup]]) -> None:
    page = built(RECIPE, malts=OWN)["ingredients/our-own-malt.html"]
    assert "From 2 fields by the lake." in one(page, ".about").get_text()
    captions = [caption.get_text() for caption in page.select("#the-working table.given caption")]
    assert captions == ["Given in pantry/malts.yaml", "Given"]
    assert "20\xa0EBC" in one(page, "[aria-labelledby=the-numbers]").get_text()


def test_a_book_without_a_style_has_no_pages_of_styles(built: Callable[..., Mapping[str, BeautifulSoup]]) -> None:
    pages = built(RECIPE, malts=OWN)
    assert not [path for path in pages if path.startswith("styles/")]
    links = {a["href"] for a in pages["index.html"].select("nav a")}
    assert "ingredients/index.html" in links
    assert "styles/index.html" not in links


def test_names_that_make_one_address_get_two(built: Callable[..., Mapping[str, BeautifulSoup]]) -> None:
    own = "".join(f"- {{name: {name}, kind: base, extract: 80 %, colour: 3 °L}}\n" for name in ("Солод", "Ячмень"))
    recipe = RECIPE.replace("  - 4 kg our own malt\n", "  - 2 kg солод\n  - 2 kg ячмень\n")
    pages = built(recipe, malts=own)
    names = {pages[path].h1.get_text() for path in ("ingredients/part.html", "ingredients/part-2.html")}
    assert names == {"Солод", "Ячмень"}


def test_what_may_be_several_stands_on_the_page_of_the_usual_one(
    built: Callable[..., Mapping[str, BeautifulSoup]],
) -> None:
    recipe = RECIPE.replace("our own malt", "pale ale malt").replace("saison yeast", "english ale yeast")
    pages = built(recipe)
    assert "Trial" in one(pages["ingredients/english-ale-highly-flocculent.html"], "#table-of-uses").get_text()
    assert "ingredients/english-ale-attenuative.html" not in pages


def test_a_thing_that_no_pantry_has_is_marked_and_leads_nowhere(
    built: Callable[..., Mapping[str, BeautifulSoup]],
) -> None:
    recipe = RECIPE.replace("our own malt", "heather floor malt, 6 EBC, 80 % extract")
    page = next(page for path, page in built(recipe).items() if path == "trial.html")
    row = next(row for row in page.select("#grist li") if "heather floor malt" in row.get_text())
    assert "not of the pantry: taken as base malt of barley" in row.get_text()
    assert not row.select("a.thing")


def test_every_name_that_a_recipe_may_use_is_listed(demo: Any) -> None:
    listed = one(demo.pages["ingredients/index.html"], 'section[aria-labelledby="named"]').get_text()
    for it in demo.book.larder:
        assert it.name in listed
        assert all(other in listed for other in it.also)
