"""Recipes that lack what most have: each still gets its pages, and none of them breaks the others."""

from __future__ import annotations

import re
from collections.abc import Mapping
from copy import copy
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.problems import Problems
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

from .conftest import pages_of

BOOK = """\
title: Odd beers
brewhouse: hall
brewhouses:
  hall:
    batch: 20 L
    efficiency: 72 % ± 4
    boil-off: 3 L/h
    left in kettle: 1 L
    left in fermenter: 1 L
    tun: 30 L
    kettle: 40 L
    mash: sparge
"""

YEAST = "yeast: 11 g american ale yeast, clean, dried\nferment: 19 °C, 10 days\n"
MASH = "mash: 67 °C, 60 min\n"
GRAIN = "malts: 4 kg pale ale malt\n" + MASH

ODD = {
    "kit": """\
extracts:
  - 1.5 kg light liquid malt extract, 25 IBU in 23 L
  - 1 kg light dried malt extract
"""
    + YEAST,
    "unhopped": GRAIN + YEAST,
    "kegged": GRAIN + YEAST + "hops: 20 g Fuggle, 60 min\ncarbonation: 2.4 volumes, keg\n",
    "shares": """\
original gravity: 1.050
malts:
  - 90 % pale ale malt
  - 10 % caramel malt 40
hops:
  - 25 IBU Challenger, 7 % alpha, 60 min
  - 20 g Cascade, stand 30 min from 95 to 75 °C
"""
    + MASH
    + YEAST,
    "topped-up": """\
kettle: 12 L
extracts: 2.5 kg light dried malt extract
hops: 30 g Fuggle, first wort
"""
    + YEAST,
    "two-yeasts": """\
hops: 20 g Saaz, dry 4 days
yeast:
  - saison yeast, dried
  - 1 pack american ale yeast, clean, liquid
ferment:
  - 24 °C, 13 days
  - 26 °C, 1 day
"""
    + GRAIN,
    "spiced": """\
sugars: 300 g honey, into the fermenter
finings and spices:
  - 2 sticks cinnamon, 5 days
  - 1 tsp coriander seed, 5 min
  - lemon peel, into the fermenter
"""
    + GRAIN
    + YEAST,
    "salted": """\
water:
  - 4 g gypsum
  - 3 mL lactic acid, 80 %, in the mash
"""
    + GRAIN
    + YEAST,
}
"""The front matter of each, besides its title and its batch."""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory, cache: FrameCache) -> Mapping[str, BeautifulSoup]:
    folder: Path = tmp_path_factory.mktemp("odd")
    (folder / "book.yaml").write_text(BOOK, encoding="utf-8")
    for slug, matter in ODD.items():
        recipe = f"---\ntitle: {slug.title()}\nbatch: 20 L\n{matter}---\n\nWords.\n"
        (folder / f"{slug}.md").write_text(recipe, encoding="utf-8")
    problems = Problems()
    book = read_book(folder, problems)
    assert book is not None
    plans = plan_book(book, problems)
    files = make_site(book, plans, problems, cache)
    assert not problems.errors(), [str(problem) for problem in problems]
    return pages_of(files)


@pytest.mark.parametrize("slug", sorted(ODD))
def test_an_odd_recipe_has_its_pages(site: Mapping[str, BeautifulSoup], slug: str) -> None:
    assert {f"{slug}.html", f"{slug}/card.html", f"{slug}/working.html"} <= set(site)
    page, study, day = (site[f"{slug}{end}.html"] for end in ("", "/figures", "/day"))
    assert study.find(id="table-targets")
    assert study.find(id="table-grist")
    assert page.find(id="grist")
    ids = {tag["id"] for tag in site[f"{slug}/working.html"].find_all(id=True)}
    for figure in (it for of in (page, study, day) for it in of.select("a.figure")):
        assert figure["href"].partition("#")[2] in ids


def test_a_hopped_kit_says_what_its_label_says(site: Mapping[str, BeautifulSoup]) -> None:
    assert "hopped brings 25 IBU in 23 L" in site["kit.html"].get_text().replace("\xa0", " ")


def test_a_beer_without_hops_has_no_table_and_no_chart_of_them(site: Mapping[str, BeautifulSoup]) -> None:
    page, study = site["unhopped.html"], site["unhopped/figures.html"]
    assert study.find(id="table-hops") is None
    assert page.find(id="hops") is None
    assert (len(page.find_all("figure")), len(study.find_all("figure"))) == (1, 2)


def test_a_keg_is_not_primed(site: Mapping[str, BeautifulSoup]) -> None:
    words = site["kegged/figures.html"].find(id="bottling").find_parent("section").get_text()
    assert "no sugar goes in" in words
    assert "Prime" not in words


def test_a_falling_stand_says_both_its_ends(site: Mapping[str, BeautifulSoup]) -> None:
    words = site["shares/figures.html"].find(id="table-hops").get_text().replace("\xa0", " ")
    assert "stand 30 min from 95 °C (203 °F) to 75 °C (167 °F)" in words


def test_weights_that_were_worked_out_lead_to_their_working(site: Mapping[str, BeautifulSoup]) -> None:
    anchors = [a["href"].partition("#")[2] for a in site["shares.html"].select("#grist .much a")]
    assert anchors
    assert all(anchor.startswith("weight-of") for anchor in anchors)


def test_a_spice_stands_as_it_was_written_and_without_an_amount_to_taste(site: Mapping[str, BeautifulSoup]) -> None:
    rows = [row.get_text(" ").replace("\xa0", " ").lower() for row in site["spiced.html"].select(".goes li")]
    assert [row.split("  ")[0].strip().startswith("2 sticks") for row in rows if "cinnamon" in row] == [True]
    assert ["to taste" in row for row in rows if "peel" in row] == [True]
    assert ["5 ml" in row and "1 tsp" in row for row in rows if "coriander" in row] == [True]


def test_a_recipe_without_a_style_is_compared_with_none(site: Mapping[str, BeautifulSoup]) -> None:
    assert "within" not in site["kegged/figures.html"].find(id="table-targets").get_text()


def test_salts_and_acids_stand_with_their_amount_and_where_they_go(site: Mapping[str, BeautifulSoup]) -> None:
    rows = [row.get_text("|").replace("\xa0", " ").lower() for row in site["salted.html"].select(".goes li")]
    (gypsum,) = [row for row in rows if "gypsum" in row]
    (acid,) = [row for row in rows if "lactic" in row]
    assert gypsum.startswith("4 g|")
    assert "|into all the water;" in gypsum
    assert acid.startswith("3 ml")
    assert "80 %" in acid
    assert "|in the mash;" in acid


def test_every_page_of_a_beer_from_a_hopped_tin_says_that_it_is_hopped(site: Mapping[str, BeautifulSoup]) -> None:
    pages = {path: copy(page) for path, page in site.items() if path.startswith("kit")}
    for page in pages.values():  # what stands in for a plain extract is one
        for instead in page.select(".instead"):
            instead.decompose()
    pages = {path: " ".join(page.get_text(" ").split()) for path, page in pages.items()}
    # The thing by its name, in a table or in a sentence: what any liquid extract takes up when dissolved is no tin.
    named = re.compile(r"(hopped )?(light liquid malt extract|liquid malt extract, light(, hopped)?)", re.IGNORECASE)
    found = [(path, match) for path, text in pages.items() for match in named.finditer(text)]
    assert len({path for path, _ in found}) >= 3
    for path, match in found:
        assert match[1] or match[3], (path, match[0], pages[path][match.start() - 80 : match.end() + 80])
