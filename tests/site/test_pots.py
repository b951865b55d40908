"""From a pot to what can be brewed in it, and the table of all beers: what each brew needs follows from its plan."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import pytest
import the_demo
from bs4 import BeautifulSoup, Tag

from gristbook.site.amounts import amount, bare
from gristbook.site.book.pots_page import POTS, pot_of
from gristbook.targets.advice.misfits import fill, misfits
from gristbook.targets.figures import Plan

WATER_AT_20, WATER_AT_100 = 0.9982, 0.9584
"""Density of water (kg/L; CRC Handbook of Chemistry and Physics, 6-1)."""


def every_brew() -> Iterator[tuple[str, Plan]]:
    for slug, plan in the_demo.plans().items():
        yield f"{slug}.html", plan
        yield from ((f"{slug}/{it.edition.slug}.html", it.plan) for it in the_demo.made(slug))


def brew(path: str) -> Plan:
    return dict(every_brew())[path]


def rows(page: BeautifulSoup) -> dict[str, Tag]:
    return {row.a["href"]: row for row in page.select(".needs tbody tr")}


def test_a_boil_needs_its_hot_wort_and_a_fifth_of_the_pot_for_foam() -> None:
    it, plan = fill(brew("doorstep-ale/extract-10-l-in-pot.html")), brew("doorstep-ale/extract-10-l-in-pot.html")
    hot = plan.figures.volumes.boil.number * WATER_AT_20 / WATER_AT_100
    assert it.what == "hot wort"
    assert it.fullest == pytest.approx(hot, rel=2e-3)
    assert it.least == pytest.approx(hot / 0.8, rel=2e-3)
    assert it.weight == pytest.approx(plan.figures.volumes.boil.number * WATER_AT_20 * 1.04, rel=0.02)


def test_a_mash_in_a_bag_may_be_fuller_and_heavier_than_its_boil() -> None:
    plan = brew("great-spur/10-l-in-stove.html")
    it, mash = fill(plan), plan.figures.mash
    assert it.what == "hot mash"
    assert it.fullest > plan.figures.volumes.boil_hot.number
    assert it.least == pytest.approx(it.fullest / 0.97)
    assert it.weight == pytest.approx(mash.water.number * WATER_AT_20 + mash.grist.number, rel=1e-3)


def test_a_mash_in_a_tun_takes_no_room_in_the_pot() -> None:
    plan = brew("quillmere-best.html")
    assert fill(plan).least == pytest.approx(plan.figures.volumes.boil_hot.number / 0.8)


@pytest.mark.parametrize("path", [path for path, _ in every_brew()])
def test_the_least_pot_is_the_one_that_a_check_lets_pass_and_no_smaller(path: str) -> None:
    """The page and `check` say the same: a brew in a pot of that size, and in one of half a litre less."""
    plan = brew(path)

    def amiss(litres: float) -> list[str]:
        kettle = plan.brewhouse.kettle
        assert kettle is not None
        pot = replace(plan, brewhouse=replace(plan.brewhouse, kettle=replace(kettle, number=litres)))
        return [it.what for it in misfits(pot) if it.vessel is None or it.vessel.number == litres]

    assert amiss(pot_of(fill(plan))) == []
    assert amiss(pot_of(fill(plan)) - 0.5)
    assert fill(plan).least <= pot_of(fill(plan)) < fill(plan).least + 0.11


def test_every_brew_of_the_book_stands_under_what_it_needs_the_smallest_pot_first(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.pages["pots.html"]
    assert set(rows(page)) == {path for path, _ in every_brew()}
    heads = [head.get_text() for head in page.select(".needs h2")]
    assert heads == [
        "One pot, from malt extract",
        "One pot and a bag, from malt extract",
        "One pot and a bag, from grain",
        "One pot and a mash tun, from grain",
    ]
    for table in page.select(".needs table"):
        needed = [float(row["data-least"]) for row in table.select("tbody tr")]
        assert all(before <= after for before, after in pairwise(needed))
    needs = {link.find_parent("details").h2.get_text() for link in page.select('.needs a[href^="tuesday-tin"]')}
    assert needs == {"One pot, from malt extract"}


def test_a_brew_says_how_full_each_pot_will_be_that_may_be_chosen_and_is_large_enough(demo) -> None:  # type: ignore[no-untyped-def]
    for path, row in rows(demo.pages["pots.html"]).items():
        plan, keys = brew(path), row["data-is"].split()
        large = [litres for litres in POTS if litres >= fill(plan).least]
        assert [key for key in keys if key.startswith("pot-")] == [
            f"pot-{litres}" for litres in large if f"pot-{litres}" in keys
        ]
        for litres in (it for it in large if f"pot-{it}" in keys):
            share = float(row.find(class_=f"pot-{litres}").get_text().removesuffix("\u00a0%"))
            assert share == pytest.approx(100 * fill(plan).fullest / litres, abs=0.5)
            assert share <= 97


def test_who_has_only_a_pot_is_shown_nothing_that_wants_a_bag_or_a_tun(demo) -> None:  # type: ignore[no-untyped-def]
    needs = {"alone": "pot,", "bag": "a bag", "tun": "a mash tun"}
    for row in rows(demo.pages["pots.html"]).values():
        kind = row.find_parent("details").h2.get_text()
        borne = {key for key in row["data-is"].split() if key in needs}
        assert borne == ({*needs} if "pot," in kind else {key for key, words in needs.items() if words in kind})


def test_a_beginner_finds_the_page_from_the_front_page_and_from_learning(demo) -> None:  # type: ignore[no-untyped-def]
    assert demo.pages["index.html"].select_one('.begin a[href="pots.html"]')
    assert demo.pages["learning/index.html"].select_one('main a[href="../pots.html"]')
    page = demo.pages["pots.html"]
    assert "Nobody carries that hot" in page.select_one(".caution").get_text()
    assert page.select_one('a[href="cautions.html#scald"]')


def test_the_table_has_every_beer_by_its_name_with_what_one_sorts_by(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.pages["table.html"]
    lines = page.select(".sorted tbody tr")
    names = [row.a.get_text() for row in lines]
    assert len(names) == len(demo.plans)
    assert names == sorted(names, key=str.casefold)
    assert [head.get_text() for head in page.select("[aria-sort]")] == ["Beer"]
    best = next(row for row in lines if row.a["href"] == "quillmere-best.html")
    figures = demo.plan("quillmere-best").figures
    told = [cell.get_text(" ", strip=True) for cell in best.select("td")]
    assert told[:2] == [amount(figures.fermentation.abv).metric, amount(figures.bitterness.total).metric]
    assert told[3] == "Best Bitter"
    assert told[4] == amount(figures.wort.original).metric
    assert best.select("td")[2]["data-by"] == bare(figures.colour.srm.number)


def test_the_table_has_the_smallest_pot_from_extract_and_from_grain_each_as_the_pots_page_has_it(demo) -> None:  # type: ignore[no-untyped-def]
    needs: dict[tuple[str, str], float] = {}
    for table in demo.pages["pots.html"].select(".needs table"):
        source = "extract" if "extract" in table.find_parent("details").h2.get_text() else "grain"
        for row in table.select("tbody tr"):
            beer = row.a["href"].partition("/")[0].removesuffix(".html"), source
            needs[beer] = min(float(row["data-least"]), needs.get(beer, 1e9))
    found = {}
    for row in demo.pages["table.html"].select(".sorted tbody tr"):
        cells = row.select("td")[6:]
        for source, cell in zip(("extract", "grain"), cells, strict=True):
            assert bool(cell.get("data-by")) == bool(cell.get_text(strip=True))
            if cell.get("data-by"):
                found[row.a["href"].removesuffix(".html"), source] = float(cell["data-by"])
    assert found == needs
    assert any(
        needs[beer, source] > needs[beer, "extract"]
        for beer, source in needs
        if source == "grain" and (beer, "extract") in needs
    )
