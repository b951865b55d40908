"""The pages of editions and of chapters: each size of a beer in its own units, compared, and bought for."""

from __future__ import annotations

import json
from dataclasses import replace
from posixpath import dirname, join, normpath

import pytest
import the_demo
from bs4 import BeautifulSoup, Tag
from lxml.html import HtmlElement
from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.model.figures import words_of
from gristbook.problems import Problems
from gristbook.site.amounts import amount, bare
from gristbook.site.beer.brews import beer_of
from gristbook.site.beer.editions import comparison
from gristbook.targets.buying.shopping import shopping
from gristbook.targets.editions.make import COMPARED, MadeEdition, RefusedEdition

from .conftest import Demo


@pytest.fixture(scope="session")
def editions(demo: Demo) -> dict[str, tuple[MadeEdition | RefusedEdition, ...]]:
    return {plan.recipe.slug: the_demo.editions(plan.recipe.slug) for plan in demo.plans}


@pytest.fixture(scope="session")
def made(editions: dict[str, tuple[MadeEdition | RefusedEdition, ...]]) -> list[tuple[str, MadeEdition]]:
    return [(slug, it) for slug, found in editions.items() for it in found if isinstance(it, MadeEdition)]


def leads_to(page: str, link: Tag | HtmlElement) -> str:
    return normpath(join(dirname(page), str(link.get("href")).partition("#")[0]))


def text(tag: Tag | HtmlElement) -> str:
    words = tag.get_text() if isinstance(tag, Tag) else tag.text_content()
    return words.replace("\N{NO-BREAK SPACE}", " ")


def section(page: HtmlElement, name: str) -> HtmlElement:
    """The section whose heading bears a name."""
    return next(page.get_element_by_id(name).iterancestors("section"))


def test_every_beer_stands_on_three_pages_at_least_or_says_why_not(demo: Demo, editions) -> None:  # type: ignore[no-untyped-def]
    for slug, found in editions.items():
        page = demo.pages[f"{slug}.html"]
        section = page.find(id="editions").find_parent("section")
        pages = {leads_to(f"{slug}.html", link) for link in section.select("nav.sizes a")}
        assert len(pages) >= 3, slug
        assert section.select_one("[aria-current]")["href"] == "#", "the page itself is among them"
        assert pages - {"."} <= set(demo.files)
        for it in found:
            if isinstance(it, RefusedEdition):
                assert it.why.replace("'", "’") in section.get_text(), (slug, it.edition.name)


def test_every_beer_is_brewed_from_extract_or_says_why_not(editions) -> None:  # type: ignore[no-untyped-def]
    for slug, found in editions.items():
        from_extract = [it for it in found if it.edition.source == "extract"]
        assert from_extract, slug
        assert all(isinstance(it, MadeEdition) or it.why for it in from_extract), slug


def test_an_edition_has_a_page_a_card_a_working_and_figures_that_lead_back(demo: Demo, made) -> None:  # type: ignore[no-untyped-def]
    assert len(made) > 30
    for slug, it in made:
        own = f"{slug}/{it.edition.slug}"
        page, card = (demo.trees[own + end] for end in (".html", "-card.html"))
        there = {leads_to(f"{own}.html", link) for link in page.cssselect("main a")}
        assert {f"{slug}.html", f"{own}-day.html", f"{own}-card.html", f"{own}-figures.html"} <= there
        assert {f"{slug}/working.html", f"{own}.json"} <= there
        assert leads_to(f"{own}-card.html", card.cssselect("main a")[0]) == f"{own}.html"
        at = f"{slug}/working.html"
        assert f"{own}.html" in {leads_to(at, link) for link in demo.trees[at].cssselect("p.back a")}
        data = json.loads(demo.files[f"{own}.json"])
        for name, value in it.plan.named.items():
            assert data["figures"][name]["value"] == pytest.approx(value.number, rel=1e-8), (own, name)


def test_an_edition_says_what_it_is_and_where_its_story_stands_and_tells_it_not_again(demo: Demo, made) -> None:  # type: ignore[no-untyped-def]
    for slug, it in made:
        page = demo.trees[f"{slug}/{it.edition.slug}.html"]
        words = text(page.find(".//h1"))
        title = text(demo.trees[f"{slug}.html"].find(".//h1"))
        assert words.startswith(f"{title} ")
        assert f"in the {it.edition.brewhouse} brewhouse" in words
        assert ("from malt extract" in words) == (it.edition.source == "extract")
        assert not page.xpath("//*[@id='about']")
        assert "the recipe as it was written" in section(page, "changes").text_content()
        (sizes,) = page.cssselect("nav.sizes")
        assert [text(it).lower() for it in sizes.cssselect("[aria-current] .aside")] == [
            words.removeprefix(f"{title} ").lower()
        ]
        links = sizes.findall(".//a")
        assert len({leads_to(f"{slug}/x.html", link) for link in links}) == len(links)


def test_an_edition_says_what_it_cannot_keep(demo: Demo, made) -> None:  # type: ignore[no-untyped-def]
    drifted = 0
    for slug, it in made:
        page, study = (demo.trees[f"{slug}/{it.edition.slug}{end}.html"] for end in ("", "-figures"))
        changes, first = section(study, "changes"), section(page, "changes").find_class("changed")
        for note in it.notes:
            assert note.replace("'", "’") in first[0].text_content(), "not said on the first screen"
        rows = changes.cssselect("#table-kept tbody tr")
        assert len(rows) == len(it.drifts)
        for row, drift in zip(rows, it.drifts, strict=True):
            assert [data.get("value") for data in row.iter("data")] == [
                bare(value.number) for value in (drift.home, drift.exact, drift.rounded)
            ]
            assert (text(row.find_class("aside")[0]) == "kept") == (not drift.said)
            drifted += drift.said
    assert drifted


def test_the_sizes_side_by_side_have_the_numbers_of_their_own_pages(demo: Demo, editions) -> None:  # type: ignore[no-untyped-def]
    for slug, found in editions.items():
        table = demo.trees[f"{slug}/figures.html"].get_element_by_id("table-editions")
        made = [f"{slug}/{it.edition.slug}" for it in found if isinstance(it, MadeEdition)]
        paths = [f"{slug}/figures.html", *(f"{own}-figures.html" for own in made)]
        own = [figures_of(demo.trees[path]) for path in paths]
        heads = table.cssselect("thead th")[2:]
        assert [leads_to(f"{slug}/figures.html", head.find(".//a")) for head in heads] == paths[1:]
        rows = table.cssselect("tbody tr")
        assert {text(row.find("th")).lower() for row in rows} <= set(map(words_of, COMPARED))
        assert len(rows) >= len(COMPARED) - 1
        for row in rows:
            name = text(row.find("th"))
            for cell, figures in zip(row.findall("td"), own, strict=True):
                said = next(cell.iter("data"), None)
                assert (None if said is None else said.get("value")) == figures.get(name), (slug, name)


def figures_of(page: HtmlElement) -> dict[str, str]:
    """The figures of a page's own table of targets."""
    rows = page.xpath("//*[@id='table-targets']//tr[.//data]")
    return {row.find("th").text: next(row.iter("data")).get("value") for row in rows}


def test_a_figure_of_another_size_leads_to_that_size_s_working(demo: Demo) -> None:
    table = demo.pages["quillmere-best/figures.html"].find(id="table-editions")
    row = next(row for row in table.select("tbody tr") if text(row.th) == "Colour")
    links = [a["href"].partition("#") for a in row.select("a.figure")]
    assert {file for file, _, _ in links} == {"working.html"}
    own = [anchor.rpartition(".")[0] for _, _, anchor in links]
    assert own == ["", *(edition.slug for edition in demo.book.editions)]


def test_a_us_edition_says_us_units_first_on_all_its_pages_and_a_metric_one_metric(demo: Demo, made) -> None:  # type: ignore[no-untyped-def]
    assert {it.edition.us for _, it in made} == {True, False}
    for slug, it in made:
        first = "us" if it.edition.us else "metric"
        for end in (".html", "-day.html", "-card.html", "-figures.html"):
            page = demo.trees[f"{slug}/{it.edition.slug}{end}"]
            assert page.get("data-units") == first
            pairs = page.cssselect("main .both")[::2]
            assert pairs, (slug, end)
            for pair in pairs:
                before = next(pair.itersiblings("span", preceding=True))
                assert before.get("class") == first, (slug, it.edition.slug, end)


def test_the_recipe_itself_keeps_the_units_of_the_book(demo: Demo) -> None:
    for both in demo.pages["quillmere-best.html"].select("main .both")[::2]:
        assert both.find_previous_sibling("span")["class"] == ["metric"]


def test_a_us_edition_is_weighed_in_twentieths_and_a_metric_one_in_whole_grams(made) -> None:  # type: ignore[no-untyped-def]
    for slug, it in made:
        for hop in it.plan.figures.bitterness.hops:
            step = 28.349523125 / 20 if it.edition.us else 1.0
            steps = hop.mass.number / step
            assert steps == pytest.approx(round(steps), abs=1e-6), (slug, it.edition.slug, hop.hop.name)


def test_what_cannot_honestly_be_made_is_named_with_its_reason_and_has_no_page(demo: Demo, cache: FrameCache) -> None:
    pot = next(edition for edition in demo.book.editions if edition.source == "extract")
    tall = replace(pot, name="10 L in pot", slug="10-l-in-pot", source="as written")
    files = make_site(replace(demo.book, editions=(tall,)), (demo.plan("quillmere-best"),), Problems(), cache)
    page = BeautifulSoup(files["quillmere-best.html"], "html.parser")
    assert "There is no edition of 10 L in the pot brewhouse: " in text(page.find(class_="refused"))
    study = BeautifulSoup(files["quillmere-best/figures.html"], "html.parser")
    assert study.find(id="table-editions") is None
    assert not [path for path in files if path.startswith("quillmere-best/10-l")]


def test_a_beer_without_editions_says_nothing_of_other_kettles(demo: Demo, cache: FrameCache) -> None:
    plan = demo.plan("quillmere-best")
    book = replace(demo.book, editions=())
    assert comparison(beer_of(plan, book), "quillmere-best.html") is None
    files = make_site(book, (plan,), Problems(), cache)
    for path in ("quillmere-best.html", "quillmere-best/figures.html"):
        page = BeautifulSoup(files[path], "html.parser")
        assert page.find(id="editions") is None
        assert not page.select('a[href="#editions"]')


def test_a_line_that_a_recipe_adds_is_another_page_and_one_that_it_drops_is_none(demo: Demo, cache: FrameCache) -> None:
    plan = demo.plan("quillmere-best")
    first, unwanted, *_ = demo.book.editions
    assert first.batch is not None
    own = replace(first, name="8 L in stove", slug="8-l-in-stove", batch=replace(first.batch, number=8.0))
    recipe = replace(plan.recipe, editions=(own,), dropped=(unwanted,))
    files = make_site(demo.book, (replace(plan, recipe=recipe),), Problems(), cache)
    assert "quillmere-best/8-l-in-stove.html" in files
    assert f"quillmere-best/{first.slug}.html" in files
    assert not [path for path, data in files.items() if unwanted.slug in path or f"/{unwanted.slug}".encode() in data]


def test_two_editions_of_one_address_are_a_problem_and_no_traceback(demo: Demo, cache: FrameCache) -> None:
    plan = demo.plan("quillmere-best")
    stove = next(edition for edition in demo.book.editions if edition.slug == "10-l-in-stove")
    other = replace(stove, slug="10-l-in-stove-card")
    problems = Problems()
    make_site(replace(demo.book, editions=(stove, other)), (plan,), problems, cache)
    assert [p.what for p in problems.errors()] == ['"quillmere-best/10-l-in-stove-card.html" is made twice']


def test_every_chapter_has_a_page_with_its_beers_and_the_front_page_leads_to_it(demo: Demo) -> None:
    front = demo.pages["index.html"]
    headings = front.select(".chapter > h2")
    assert [text(heading) for heading in headings] == [chapter.title for chapter in demo.book.chapters]
    for heading, chapter in zip(headings, demo.book.chapters, strict=True):
        path = leads_to("index.html", heading.a)
        page = demo.pages[path]
        assert text(page.h1) == chapter.title
        assert chapter.about in text(page.find("main"))
        beers = [leads_to(path, a) for a in page.select(".entry h3 a")]
        assert beers == [f"{slug}.html" for slug in chapter.recipes]


def test_a_chapter_s_page_says_what_to_buy_in_every_size_of_the_book(demo: Demo, editions) -> None:  # type: ignore[no-untyped-def]
    chapter = demo.book.chapters[1]
    page = demo.pages["chapters/the-village-pump.html"]
    tables = page.select("table.buy")
    assert len(tables) == 1 + len(demo.book.editions)
    plans = [demo.plan(slug) for slug in chapter.recipes]
    baskets = [plans]
    for edition in demo.book.editions:
        found = {slug: {it.edition.slug: it for it in editions[slug]} for slug in chapter.recipes}
        baskets.append([found[slug][edition.slug].plan for slug in chapter.recipes])
    for table, basket in zip(tables, baskets, strict=True):
        rows = table.select("tbody tr:has(td.box)")
        assert "sanitiser, as its label says" in text(table.find_next(class_="besides"))
        assert "as each beer’s own list says" in text(table.find_next(class_="besides"))
        wanted = shopping(basket, prices=demo.book.prices)
        assert [row.th.contents[0].strip() for row in rows] == [purchase.name for purchase in wanted]
        for row, purchase in zip(rows, wanted, strict=True):
            assert purchase.amount is not None
            much, weight, packs = row.select_one("td.much"), row.select_one(".weight"), row.select_one(".packs data")
            assert weight.data["value"] == bare(purchase.amount.number)
            assert amount(purchase.amount).metric.replace("\N{NO-BREAK SPACE}", " ") in text(much)
            cost = row.select_one("td.cost")
            shares = [share.split(",") for share in row["data-of"].split()]
            assert sum(float(share[1]) for share in shares) == pytest.approx(purchase.amount.number)
            assert sum(float(share[3]) for share in shares) == pytest.approx(purchase.cost.number)
            assert bare(purchase.packs.number) == packs["value"] if purchase.packs is not None else packs is None
            assert purchase.cost is not None
            assert cost.data["value"] == bare(purchase.cost.number)
        costs = [float(row.select_one("td.cost data")["value"]) for row in rows]
        assert float(table.select_one(".total data")["value"]) == pytest.approx(sum(costs))


def test_a_beer_s_list_says_how_many_bottles_it_fills(demo: Demo) -> None:
    """By hand: 18.88 L are 37.8 half litres; what is kegged is not bottled."""
    assert "38 bottles of 500 mL" in text(demo.pages["quillmere-best/buy.html"].select_one(".besides"))
    for plan in demo.plans:
        packaging, page = plan.figures.packaging, demo.pages[f"{plan.recipe.slug}/buy.html"]
        assert ("bottles and caps" in text(page.select_one(".besides"))) == bool(packaging and packaging.sugar)


def test_what_primes_the_bottles_stands_with_what_goes_in(demo: Demo) -> None:
    """The line is the last of its list, and as much as the method weighs."""
    for plan in demo.plans:
        page, packaging = demo.pages[f"{plan.recipe.slug}.html"], plan.figures.packaging
        last = text(page.select("#extras li")[-1])
        assert ("to prime the bottles" in last) == bool(packaging and packaging.sugar)
        if packaging and packaging.sugar:
            shown = page.select("#extras li")[-1].data["value"]
            assert float(shown) == pytest.approx(packaging.sugar.number)


def test_a_chapter_s_list_leaves_out_what_cannot_be_made_and_says_why(demo: Demo, cache: FrameCache) -> None:
    pot = next(edition for edition in demo.book.editions if edition.source == "extract")
    tall = replace(pot, name="10 L in pot", slug="10-l-in-pot", source="as written")
    plans = (demo.plan("lamplighter-amber"), demo.plan("straw-skep-ale"))
    files = make_site(replace(demo.book, editions=(tall,)), plans, Problems(), cache)
    page = BeautifulSoup(files["chapters/first-boils.html"], "html.parser")
    assert len(page.select("table.buy")) == 2
    assert [text(table.caption) for table in page.select("table.buy")] == ["For two beers", "For one beer"]
    assert "Without Straw Skep Ale: " in text(page.find("main"))


def test_a_chapter_keeps_its_address_when_its_beers_change(demo: Demo, cache: FrameCache) -> None:
    first, *others = demo.book.chapters
    book = replace(demo.book, chapters=(*others, replace(first, recipes=first.recipes[:1])))
    files = make_site(book, (demo.plan("doorstep-ale"),), Problems(), cache)
    assert [path for path in files if path.startswith("chapters/")] == ["chapters/first-boils.html"]


def test_the_map_of_the_site_has_every_page_of_every_edition_and_chapter(demo: Demo) -> None:
    listed = demo.files["sitemap.xml"].decode()
    for path, page in demo.trees.items():
        leads_on = page.xpath("//meta[@name='robots']")
        assert (f"<loc>{demo.book.address}{path}</loc>" in listed) != bool(leads_on), path


def test_a_brew_leads_to_its_own_list_and_that_to_those_of_its_chapters(demo: Demo, editions) -> None:  # type: ignore[no-untyped-def]
    for chapter in demo.book.chapters:
        for slug in chapter.recipes:
            for path in (f"{slug}.html", *(f"{slug}/{it.edition.slug}.html" for it in editions[slug])):
                if path not in demo.pages:
                    continue  # what cannot honestly be made
                (own,) = [leads_to(path, a) for a in demo.pages[path].select("nav.actions a") if "buy" in text(a)]
                links = demo.pages[own].select('a[href$="#buy"]')
                assert chapter.title in [text(demo.pages[leads_to(own, link)].h1) for link in links]


def test_a_brew_s_list_has_the_most_first_and_says_what_can_stand_in(demo: Demo) -> None:
    plan, page = demo.plan("quillmere-best"), demo.pages["quillmere-best/buy.html"]
    names = [row.th.contents[0].strip() for row in page.select("table.buy tr:has(td.box)")]
    assert names == [it.name for it in shopping([plan])]
    assert names[:3] == ["Pale ale malt", "Caramel malt 60 L", "Chocolate malt"]  # 3.6 kg, 220 g, 40 g as it is written
    (fuggle,) = (row for row in page.select("table.buy tr:has(td.box)") if "Fuggle" in row.th.contents[0])
    assert "or Willamette; " in text(fuggle.th)  # what the pantry itself names first
