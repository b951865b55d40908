"""The demo book's pages: what a reader, a machine and a strict browser may rely on."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from posixpath import dirname, join, normpath
from urllib.parse import unquote

import pytest
import the_demo
from bs4 import BeautifulSoup
from made_site import make_site

from gristbook.charts.caches import FrameCache, MemoryCache
from gristbook.equations.registry import PRINTED, Source
from gristbook.model.book import Book, Page
from gristbook.model.figures import words_of
from gristbook.problems import Problems
from gristbook.reading.files import themes
from gristbook.sheet.origin import Worked
from gristbook.sheet.value import lineage
from gristbook.site.addresses import slug as named
from gristbook.site.amounts import amount, bare
from gristbook.site.beer.sections import SECTIONS
from gristbook.site.shelf.sources_page import equation_name
from gristbook.site.words import capital
from gristbook.site.working.numbers import result
from gristbook.targets.advice.judgement import judgement
from gristbook.targets.figures import Plan

RECIPES = the_demo.DEMO


def pages_of(demo, kind: str) -> dict[str, BeautifulSoup]:  # type: ignore[no-untyped-def]
    ends = {"recipe": ".html", "day": "/day.html", "study": "/figures.html", "card": "/card.html"}
    return {plan.recipe.slug: demo.pages[plan.recipe.slug + ends[kind]] for plan in demo.plans}


def used(demo) -> set[str]:  # type: ignore[no-untyped-def]
    """What any brew of the demo is made from, by the pantry's names."""
    found: set[str] = set()
    for plan in demo.plans:
        for recipe in (plan.recipe, *(it.plan.recipe for it in the_demo.made(plan.recipe.slug))):
            found |= {sugar.pantry_name for sugar in recipe.sugars}
            lines = (*recipe.malts, *recipe.hops, *recipe.extras)
            found |= {line.name for line in lines} | {yeast.name for yeast in recipe.yeasts}
            if recipe.carbonation and recipe.carbonation.sugar:
                found.add(recipe.carbonation.sugar.name)
    return found


def test_the_demo_book_has_all_its_pages_and_no_problem(demo) -> None:  # type: ignore[no-untyped-def]
    expected = {"index.html", "find.html", "cautions.html", "sources.html", "about.html", "style.css", "icon.svg"}
    expected |= {"sitemap.xml", "robots.txt", "feed.xml", "units.js", "moved.js", "working.js", "narrow.js", "find.js"}
    expected |= {"day.js", "buy.js", "pots.html", "pots.js", "table.html", "sort.js", "balance.svg"}
    expected |= {"glossary.html", "learning/index.html"}
    expected |= {f"learning/{lesson}.html" for lesson in demo.book.learning.lessons}
    expected |= {f"chapters/{named(chapter.title)}.html" for chapter in demo.book.chapters}
    expected |= {"ingredients/index.html", "styles/index.html"}
    expected |= {f"ingredients/{named(name)}.html" for name in used(demo)}
    expected |= {f"styles/{named(plan.recipe.style.name)}.html" for plan in demo.plans if plan.recipe.style}
    for plan in demo.plans:
        at = plan.recipe.slug
        expected |= {f"{at}.html", f"{at}/day.html", f"{at}/card.html", f"{at}/figures.html", f"{at}/figures.json"}
        expected |= {f"{at}/working.html", f"{at}/buy.html"}
        expected |= {f"{at}/card-half-letter.html", f"{at}/colour.svg"}
        made = [it.edition.slug for it in the_demo.made(at)]
        pages = (".html", "-day.html", "-card.html", "-card-half-letter.html", "-buy.html")
        for kind in (*pages, "-figures.html", "-working.html", ".json"):
            expected |= {f"{at}/{edition}{kind}" for edition in made}
    if demo.book.batches:
        expected |= {"brews.html", "brews.ics", "brewhouses.html"}
        expected |= {f"brewhouses/{name}.html" for name in demo.book.brewhouses}
        expected |= {f"brewhouses/{named(it.brewhouse)}-working.html" for it in demo.done.lessons.learned}
    for batch in demo.book.batches:
        own = f"{batch.recipe}/brew-{named(batch.slug)}"
        expected |= {f"{own}{kind}" for kind in (".html", "-working.html", ".json", ".ics")}
        assert demo.plan(batch.recipe), "the demo keeps the recipes of its brews"
    expected |= {picture.relative_to(RECIPES).as_posix() for picture in RECIPES.glob("*/*.png")}
    assert set(demo.files) == expected
    assert demo.problems == ()
    assert len(demo.plans) == len(demo.book.recipes)


def test_every_link_names_a_file_of_the_site_and_a_place_in_it(demo) -> None:  # type: ignore[no-untyped-def]
    ids = {path: set(page.xpath("//@id")) for path, page in demo.trees.items()}
    for path, page in demo.trees.items():
        for tag in page.xpath("//*[@href]"):
            href = tag.get("href")
            if tag.get("rel") == "canonical":
                continue
            assert not re.match(r"[a-z]+:|/", href), (path, href)
            file, _, fragment = href.partition("#")
            there = normpath(join(dirname(path), unquote(file))) if file else path
            assert there in demo.files, (path, href)
            assert not fragment or fragment in ids[there], (path, href)


def test_no_page_names_an_anchor_twice(demo) -> None:  # type: ignore[no-untyped-def]
    for path, page in demo.trees.items():
        ids = page.xpath("//@id")
        assert len(ids) == len(set(ids)), path


def test_references_within_a_page_name_what_is_there(demo) -> None:  # type: ignore[no-untyped-def]
    for path, page in demo.trees.items():
        ids = set(page.xpath("//@id"))
        for meant in page.xpath("//@aria-labelledby | //@aria-describedby | //@for"):
            assert set(meant.split()) <= ids, (path, meant)


def test_a_page_has_one_first_heading_and_leaves_no_level_out(demo) -> None:  # type: ignore[no-untyped-def]
    for path, page in demo.trees.items():
        levels = [int(tag.tag[1]) for tag in page.iter("h1", "h2", "h3", "h4", "h5", "h6")]
        assert levels.count(1) == 1, path
        assert levels[0] == 1, path
        assert all(after <= before + 1 for before, after in pairwise(levels)), path


def test_nothing_on_a_page_needs_a_weaker_policy(demo) -> None:  # type: ignore[no-untyped-def]
    for path, data in demo.files.items():
        if not path.endswith(".html"):
            continue
        page = demo.trees[path]
        (policy,) = page.xpath("//meta[@http-equiv='Content-Security-Policy']/@content")
        assert policy.startswith("default-src 'none';")
        assert "unsafe" not in policy
        assert not page.xpath("//style | //@style"), path
        scripts = page.xpath("//script[not(@type='application/ld+json')]")  # that one is data, which nothing runs
        assert all(script.get("src") and not script.text for script in scripts), path
        assert not re.search(rb"\son[a-z]+=", data), path


def test_nothing_is_fetched_from_another_host(demo) -> None:  # type: ignore[no-untyped-def]
    for path, page in demo.trees.items():
        for tag in page.iter("script", "img", "link", "iframe", "source"):
            address = tag.get("src") or tag.get("href") or ""
            assert tag.get("rel") == "canonical" or not re.match(r"[a-z]+:|//", address), (path, address)
    assert b"url(" not in demo.files["style.css"]


def test_the_head_says_what_a_page_is(demo) -> None:  # type: ignore[no-untyped-def]
    titles = set()
    for path, page in demo.trees.items():
        said = {meta.get("name"): meta.get("content") for meta in page.iter("meta")}
        assert page.get("lang") == demo.book.language
        assert page.xpath("//meta[@charset='utf-8']"), path
        assert said["viewport"] == "width=device-width, initial-scale=1"
        assert said["description"], path
        assert said["color-scheme"] == "light dark"
        assert page.xpath("string(//link[@rel='canonical']/@href)").startswith(demo.book.address)
        titles.add(page.findtext(".//title"))
    assert len(titles) == len(demo.pages)


def test_a_page_has_its_landmarks_and_a_way_past_them(demo) -> None:  # type: ignore[no-untyped-def]
    for path, page in demo.trees.items():
        assert page.xpath("//a[@class='skip']/@href") == ["#main"], path
        assert page.xpath("//main/@id") == ["main"], path
        navigations = [nav.get("aria-label") for nav in page.iter("nav")]
        assert all(navigations), path
        assert len(navigations) == len(set(navigations)), path


def test_every_table_has_a_caption_and_says_what_its_headings_head(demo) -> None:  # type: ignore[no-untyped-def]
    for path, page in demo.trees.items():
        for table in page.iter("table"):
            around = table.xpath("ancestor::*[contains(concat(' ', @class, ' '), ' scroll ')]/@aria-label")
            assert table.find("caption") is not None or (all(around) and around), path
            assert all(th.get("scope") for th in table.iter("th")), path


def test_every_figure_of_a_recipe_leads_to_where_it_is_worked_out(demo) -> None:  # type: ignore[no-untyped-def]
    """The number that a machine reads is the number of the value that the link's anchor was made from."""
    for slug, read in pages_of(demo, "recipe").items():
        told = read.find_all("data")
        advised = {id(figure) for figure in read.select("[aria-labelledby=advice] data")}
        assert len(told) > 30, slug
        assert all(it.parent.name == "a" or id(it) in advised for it in told), "but what is only usual"
    for slug, page in pages_of(demo, "study").items():
        plan = demo.plan(slug)
        figures = page.find_all("data")
        assert len(figures) > 60
        said = {id(figure) for figure in page.select("[aria-labelledby=water] data")}
        assert all(figure.parent.name == "a" or id(figure) in said for figure in figures), "but what is only usual"
        rows = {row.th.contents[0]: row for row in page.select("#table-targets tr:has(a.figure)")}
        untold = {name for name in plan.named if capital(words_of(name)) not in rows}
        assert untold <= UNTOLD, slug
        working = demo.trees[f"{slug}/working.html"]
        for name, value in ((name, value) for name, value in plan.named.items() if name not in untold):
            link = rows[capital(words_of(name))].find("a", class_="figure")
            assert link.data["value"] == bare(value.number), (slug, name)
            assert amount(value).metric in link.get_text()
            place = working.get_element_by_id(link["href"].partition("#")[2])
            assert result(value.number, value.unit) in place.text_content(), (slug, name)


def test_targets_stand_in_the_table_with_their_range_and_what_moves_them(demo) -> None:  # type: ignore[no-untyped-def]
    plan = demo.plan("quillmere-best")
    rows = {row.th.contents[0]: row for row in demo.pages["quillmere-best/figures.html"].select("#table-targets tr")}
    row = rows["Original gravity"]
    assert "within Best Bitter, 1.040–1.048" in row.get_text()
    original = plan.named["original-gravity"]
    assert row.find(class_="mover").get_text() == original.mover.replace("'", "’")
    assert f"{original.low:.3f} and {original.high:.3f}" in row.get_text()
    assert rows["Carbonation"].find(class_="mover") is None


def test_both_systems_of_units_are_on_the_page(demo) -> None:  # type: ignore[no-untyped-def]
    for slug, page in pages_of(demo, "recipe").items():
        cells = page.select("#grist .much")
        assert cells, slug
        assert all(cell.find(class_="metric") and cell.find(class_="us") for cell in cells), slug


def test_a_book_in_us_units_says_them_first(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    files = make_site(replace(demo.book, units="US"), (demo.plan("quillmere-best"),), Problems(), cache)
    page = BeautifulSoup(files["quillmere-best.html"], "html.parser")
    assert page.select_one("#grist .much").get_text().replace("\xa0", " ") == "7 lb 15 oz (3.60 kg)"
    assert page.html["data-units"] == "us", "the style sheet hides the other"
    assert page.select_one("#units [checked]")["value"] == "us"


def test_a_working_tells_every_figure_that_a_page_shows_or_a_formula_needs(demo) -> None:  # type: ignore[no-untyped-def]
    """Short sums that no page shows stand in the line that uses them; all else has a place, with its number."""
    for slug in (plan.recipe.slug for plan in demo.plans):
        page = demo.trees[f"{slug}/working.html"]
        text = page.text_content()
        for value in lineage(*demo.plan(slug).named.values()):
            if isinstance(value.made, Worked):
                assert result(value.number, value.unit) in text, (slug, value.label)
        steps = page.cssselect("table.steps tbody")
        assert len(steps) > 100, slug
        for step in steps:
            assert step.cssselect("h3 + p")[0].text_content(), slug
            cited = [a.get("href") for a in step.cssselect("a.source")]
            assert all(href.startswith("../sources.html#") for href in cited), slug
            assert bool(cited) == bool(step.cssselect("p.keys")), "arithmetic cites nobody, an equation somebody"


def test_a_number_in_brackets_is_that_of_its_work_on_the_page_of_sources(demo) -> None:  # type: ignore[no-untyped-def]
    works = {h3["id"]: h3.get_text().partition(" ")[0] for h3 in demo.pages["sources.html"].select("h3[id]")}
    for a in demo.trees["quillmere-best/working.html"].cssselect("a.source"):
        assert works[a.get("href").partition("#")[2]] == a.text_content()


def test_what_was_given_says_file_and_line(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.trees["quillmere-best/working.html"]
    row = page.get_element_by_id("weight-of-pale-ale-malt")
    assert row.tag == "tr"
    assert next(row.iterancestors("table")).findtext("caption") == "Given in quillmere-best.md"
    malt = demo.plan("quillmere-best").recipe.malts[0]
    assert f"line {malt.mass.place.line}" in row.text_content()


def test_the_bibliography_has_every_source_and_every_equation_that_was_used(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.pages["sources.html"]
    sources: dict[Source, set[str]] = {}
    for plan in demo.plans:
        for value in lineage(*plan.named.values()):
            if isinstance(value.made, Worked):
                sources.setdefault(value.made.equation.source, set()).add(value.made.equation.name)
    for source, equations in sources.items():
        heading = page.find(id=source.key)
        assert heading.cite.get_text() == source.citation.replace("'", "’")
        section = heading.find_parent("section")
        assert source.standing in section.get_text().lower()
        assert len(section.find_all("li")) >= len(equations)


def test_the_bibliography_calls_worked_by_hand_what_nobody_printed(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.pages["sources.html"]
    for plan in demo.plans:
        for value in lineage(*plan.named.values()):
            if isinstance(value.made, Worked):
                equation = value.made.equation
                section = page.find(id=equation.source.key).find_parent("section")
                name = equation_name(equation, equation.source)
                (row,) = (li for li in section.find_all("li") if li.cite.get_text() == name)
                assert row.get_text().endswith(f"({equation.held})") is (equation.held != PRINTED)


def test_the_bibliography_names_the_figures_that_rest_on_each_source(demo) -> None:  # type: ignore[no-untyped-def]
    """Whatever a figure's working cites, the work's own entry names that figure, or says that nearly all rest on it."""
    page, nearly_all = demo.pages["sources.html"], 0
    entries = {
        heading["id"]: heading.find_parent("section").find_all("p")[-1].get_text() for heading in page.select("h3")
    }
    for plan in demo.plans:
        for figure, value in plan.named.items():
            name = words_of(figure)
            for step in lineage(value):
                if isinstance(step.made, Worked):
                    entry = entries[step.made.equation.source.key]
                    assert name in re.split("; |: |\\.$", entry) or "nearly all" in entry, (name, step.label)
    for entry in entries.values():
        assert re.fullmatch(r"On it rest(: .+\.| nearly all the figures of the book\.)", entry)
        nearly_all += "nearly all" in entry
    assert nearly_all <= len(entries) / 5
    assert "bitterness after Rager 1990" in entries["rager-1990"]


def test_figures_for_machines_are_those_of_the_plan(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        data = json.loads(demo.files[f"{plan.recipe.slug}/figures.json"])
        assert list(data["figures"]) == list(plan.sheet)
        for name, value in plan.sheet.items():
            figure = data["figures"][name]
            assert figure["value"] == pytest.approx(value.number, rel=1e-8)
            assert figure["unit"] == value.unit
            assert figure["low"] <= figure["value"] <= figure["high"]
            assert figure["source"]


def test_the_data_has_what_goes_in_what_to_do_and_what_to_say_of_it(demo) -> None:  # type: ignore[no-untyped-def]
    """Weights, too, where a recipe asks for shares of a grist or for a bitterness."""
    for plan in demo.plans:
        own = plan.recipe.slug
        data, day = json.loads(demo.files[f"{own}/figures.json"]), demo.pages[f"{own}/day.html"]
        kg = sum(it["amount"]["value"] for it in data["ingredients"] if it["for"] == "Malt")
        assert kg == pytest.approx(sum(line.mass.number for line in plan.figures.grist.malts), rel=1e-8)
        hops = [it["amount"]["value"] for it in data["ingredients"] if it["for"] == "Hops"]
        assert hops == pytest.approx([line.mass.number for line in plan.figures.bitterness.hops], rel=1e-8)
        named = " ".join(it["name"] for it in data["ingredients"])
        for line in (*plan.recipe.sugars, *plan.recipe.extras, *plan.recipe.water.salts, *plan.recipe.yeasts):
            assert line.name in named
        assert [it["step"] for it in data["method"]] == [
            step.h3.get_text().strip() for step in day.select(".method > li")
        ]
        assert sum(len(it["take care"]) for it in data["method"]) > 10
        assert len(data["advice"]) == len(judgement(plan))


def test_the_title_page_has_every_beer_in_the_authors_order(demo) -> None:  # type: ignore[no-untyped-def]
    links = [a["href"] for a in demo.pages["index.html"].select(".entry h3 a")]
    assert links == [f"{slug}.html" for chapter in demo.book.chapters for slug in chapter.recipes]


def test_a_recipe_in_no_chapter_comes_last(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    book = replace(demo.book, chapters=demo.book.chapters[1:], editions=(), learning=None)
    plans = tuple(demo.plan(slug) for chapter in demo.book.chapters[:2] for slug in chapter.recipes)
    index = BeautifulSoup(make_site(book, plans, Problems(), cache)["index.html"], "html.parser")
    headings = [h.get_text() for h in index.find_all("h2")]
    assert headings[-1] == "More beers"
    rest = index.find(id="more-beers").find_parent("section")
    assert [a["href"] for a in rest.select("h3 a")] == sorted(f"{s}.html" for s in demo.book.chapters[0].recipes)


def test_a_recipe_that_cannot_be_brewed_leaves_no_page_and_no_link(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    plans = (demo.plan("hollow-lane-brown"), demo.plan("sluicegate-ipa"))
    files = make_site(demo.book, plans, Problems(), cache)
    assert not [path for path in files if path.startswith("quillmere-best")]
    links = re.compile(
        rb'(href|src)="[^"]*quillmere-best'
    )  # the file of a brew of it may be named: the mill learned from it
    assert not [path for path, data in files.items() if links.search(data)]


def test_two_producers_of_one_page_are_a_problem_and_the_first_stays(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    book = replace(demo.book, pages=(Page("Sources", "Mine", "words"), Page("quillmere-best", "Also mine", "words")))
    problems = Problems()
    files = make_site(book, (demo.plan("quillmere-best"),), problems, cache)
    told = [str(problem) for problem in problems.errors()]
    assert len(told) == 2
    assert any('"quillmere-best.html" is made twice' in words for words in told)
    assert any('"sources.html" is made twice' in words for words in told)
    assert b"Also mine" in files["quillmere-best.html"]


def test_a_lost_link_in_a_recipe_is_a_warning_at_its_file(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    plan = demo.plan("quillmere-best")
    odd = replace(plan, recipe=replace(plan.recipe, prose="See [this](nowhere.md) and [that](pages/about.md#maud)."))
    problems = Problems()
    files = make_site(demo.book, (odd,), problems, cache)
    assert [problem.within for problem in problems] == ["nowhere.md"]
    assert not problems.errors()
    assert b'<a href="about.html#maud">that</a>' in files["quillmere-best.html"]


def made_anew(demo, book: Book, plans: Sequence[Plan]) -> Mapping[str, bytes]:  # type: ignore[no-untyped-def]
    more = {"folder": RECIPES, "batches": demo.done.batches, "lessons": demo.done.lessons}
    return make_site(book, plans, Problems(), MemoryCache(), **more)


def test_a_few_beers_give_the_same_bytes_in_any_order(demo) -> None:  # type: ignore[no-untyped-def]
    book, plans = replace(demo.book, editions=(), learning=None), demo.plans[:3]
    assert made_anew(demo, book, plans[::-1]) == made_anew(demo, book, plans)


def test_another_beer_changes_the_dots_under_a_chart_and_no_chart(demo) -> None:  # type: ignore[no-untyped-def]
    book, path = replace(demo.book, editions=(), learning=None), f"{demo.plans[0].recipe.slug}.html"
    few, more = (made_anew(demo, book, demo.plans[:count]) for count in (2, 3))
    one, other = (str(BeautifulSoup(files[path], "lxml").select(".pictures")) for files in (few, more))
    assert one == other
    assert 'src="balance.svg"' in one
    assert few["balance.svg"].count(b"<circle") + 1 == more["balance.svg"].count(b"<circle")


@pytest.mark.slow
def test_the_same_book_gives_the_same_bytes(demo) -> None:  # type: ignore[no-untyped-def]
    assert made_anew(demo, demo.book, demo.plans[::-1]) == demo.files


def test_a_chart_has_words_and_a_table_with_its_numbers(demo) -> None:  # type: ignore[no-untyped-def]
    for slug, page in pages_of(demo, "study").items():
        brewed = page.find(id="table-brews") is not None  # how its brews ran is a chart of its own
        figures, first = page.find_all("figure"), demo.pages[f"{slug}.html"].find_all("figure")
        assert (len(figures), len(first)) == (3 + brewed, 2), slug
        links = [it.figcaption.a["href"].partition("#") for it in first]
        assert {file for file, _, _ in links} == {f"{slug}/figures.html"}
        assert {anchor for _, _, anchor in links} == {"table-targets", "table-hops"}
        for figure in figures:
            svg = figure.svg
            assert svg["role"] == "img"
            assert page.find(id=svg["aria-labelledby"]).get_text()
            assert len(page.find(id=svg["aria-describedby"]).get_text()) > 20
            table = page.find(id=figure.figcaption.a["href"].removeprefix("#"))
            assert table.name == "table"


def test_a_card_has_the_whole_grist_a_blank_for_each_target_and_its_cautions(demo) -> None:  # type: ignore[no-untyped-def]
    for slug, page in pages_of(demo, "card").items():
        words = page.find(class_="card").get_text()
        recipe = demo.plan(slug).recipe
        for line in (*recipe.malts, *recipe.sugars, *recipe.hops, *recipe.yeasts):
            assert line.name in words, (slug, line.name)
        rows = page.select(".measured tbody tr")
        assert len(rows) >= 6
        assert all(row.find("td", class_="blank") for row in rows)
        assert "scald" in words
        assert "barley" in words


def test_cautions_stand_at_the_step_where_something_can_hurt(demo) -> None:  # type: ignore[no-untyped-def]
    for slug, page in pages_of(demo, "day").items():
        steps = {step.h3.get_text().strip(): step for step in page.select(".method > li")}
        assert steps["Bring it to the boil"].find(class_="caution"), slug
        numbers = [int(step["data-step"]) for step in page.select(".method > li")]
        assert numbers == list(range(1, len(numbers) + 1))


def test_an_anchor_of_the_template_is_out_of_an_authors_reach() -> None:
    parts = set(re.findall(r'include "([^"]+)"', (themes() / "recipe.html").read_text(encoding="utf-8")))
    parts |= {"recipe/remarks.html", "recipe.html", "edition.html", "base.html"}
    assert len(parts) > 7
    templates = [themes() / part for part in sorted(parts)]
    written = {
        anchor
        for template in templates
        for anchor in re.findall(r'\bid="([^"{]+)"', template.read_text(encoding="utf-8"))
    }
    assert written <= set(SECTIONS)


UNTOLD = {"base-malt", "packs-of-liquid-yeast", "lactic-acid-for-the-mash"}
"""What a beer's own table leaves out: of malt or liquid yeast where there is none, and of the water, told elsewhere."""
COLOURS = ["--ink", "--ink-soft", "--accent", "--care", "--figure"]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("ground", ["--paper", "--region"])
@pytest.mark.parametrize("colour", COLOURS)
def test_words_can_be_read_on_their_ground(scheme: str, ground: str, colour: str) -> None:
    """WCAG 2.2, 1.4.3: 4.5 to 1, by its formula of relative luminance."""
    style = (themes() / "style.css").read_text(encoding="utf-8")
    roots = re.findall(r":root \{(.*?)\}", style, flags=re.S)
    colours = dict(re.findall(r"(--[a-z-]+): (#[0-9a-f]{6});", roots[0 if scheme == "light" else 1]))
    light, dark = sorted((_luminance(colours[ground]), _luminance(colours[colour])), reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= 4.5


def _luminance(colour: str) -> float:
    channels = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_a_site_without_an_address_has_no_canonical_link_and_no_map(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    files = make_site(replace(demo.book, address=""), (demo.plan("quillmere-best"),), Problems(), cache)
    assert "sitemap.xml" not in files
    assert b"canonical" not in files["index.html"]


def test_an_authors_words_never_become_markup(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    evil = '<script>alert("x")</script>'
    plan = demo.plan("quillmere-best")
    recipe = replace(
        plan.recipe,
        title=evil,
        summary=evil,
        prose=evil,
        malts=tuple(replace(malt, name=evil) for malt in plan.recipe.malts),
    )
    book = replace(demo.book, title=evil, author=evil, note=evil)
    files = make_site(book, (replace(plan, recipe=recipe),), Problems(), cache)
    assert not [path for path, data in files.items() if path.endswith(".html") and b"<script>alert" in data]
