"""The pages of brews: what was planned, what was measured, what became of it, and what the book learned."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from math import isclose
from posixpath import dirname, join, normpath

import pytest
from bs4 import BeautifulSoup, Tag
from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.model.figures import words_of
from gristbook.problems import Problems
from gristbook.sheet.origin import Worked
from gristbook.sheet.value import lineage
from gristbook.site.addresses import slug
from gristbook.site.amounts import amount, bare
from gristbook.site.brew.batches import BATCH_SECTIONS, setting
from gristbook.site.words import capital
from gristbook.targets.batches.brewed import brewed

FIRST, HURRIED = "quay-bitter/brew-2026-03-14.html", "quay-bitter/brew-2026-05-02.html"
HEAT, LOST = "quay-bitter/brew-2026-07-01-heat.html", "lost-porter/brew-2025-11-02.html"


def figures_of(brews, recipe: str, day: str):  # type: ignore[no-untyped-def]
    return next(it for it in brews.done.batches if (it.batch.recipe, it.batch.brewed) == (recipe, day))


def row_of(page: BeautifulSoup, table: str, name: str) -> Tag:
    found = page.find("table", id=table)
    assert isinstance(found, Tag)
    rows = (row for row in found.find_all("tr") if row.td and row.th)
    return next(row for row in rows if row.th.contents[0].get_text().strip() == name)


def spoken(tag: Tag) -> str:
    return " ".join(tag.get_text(" ").replace("\u00a0", " ").split()).replace(" .", ".").replace(" ,", ",")


def spoken_of(words: str) -> str:
    return " ".join(words.replace("\u00a0", " ").split())


def test_what_became_of_a_brew_is_said_first_in_a_sentence(brews) -> None:  # type: ignore[no-untyped-def]
    page = brews.pages[FIRST]
    became = page.select_one(".became")
    strength = amount(figures_of(brews, "quay-bitter", "2026-03-14").abv).metric
    for words in (strength, "went into bottles on 28 March 2026", "of table sugar", "ready on 18 April 2026"):
        assert words.replace("\u00a0", " ") in spoken(became)
    order = [it["id"] for it in page.select("main [id]") if it["id"] in ("about", "tasted", "measured", "fermentation")]
    assert order == ["about", "tasted", "measured", "fermentation"]


def test_every_measured_figure_stands_beside_its_plan_with_the_verdict_in_words(brews) -> None:  # type: ignore[no-untyped-def]
    words = {"within": "as planned", "above": "higher than planned", "below": "lower than planned"}
    for it in brews.done.batches:
        page = brews.pages[f"{it.batch.recipe}/brew-{it.batch.slug}.html"]
        for compared in it.compared:
            row = row_of(page, "table-measured", capital(words_of(compared.figure)))
            planned, measured = row.find_all("td")
            assert measured.data["value"] == bare(compared.measured.number)
            if compared.planned is not None:
                assert planned.data["value"] == bare(compared.planned.number)
            assert (row.th.find(class_="aside") is not None) == bool(compared.verdict)
            if compared.verdict:
                assert row.th.find(class_="aside").get_text() == words[compared.verdict]


def test_every_figure_of_a_brew_leads_to_where_it_is_worked_out(brews) -> None:  # type: ignore[no-untyped-def]
    for path in (FIRST, HURRIED, HEAT, LOST, "brews.html", "brewhouses.html", "brewhouses/mill.html"):
        folder = path.partition("/")[0] + "/" if "/" in path else ""
        for link in brews.pages[path].select("a.figure"):
            file, _, anchor = link["href"].partition("#")
            place = brews.pages[normpath(folder + file)].find(id=anchor)
            assert place is not None, link["href"]
            numbers = [float(it) for it in re.findall(r"\d+(?:\.\d+)?", place.get_text())]
            value = abs(float(link.data["value"]))
            assert any(isclose(it, value, rel_tol=6e-4, abs_tol=1e-9) for it in numbers), (path, link["href"])


def test_a_working_leads_down_to_the_lines_of_the_batch_file(brews) -> None:  # type: ignore[no-untyped-def]
    it = figures_of(brews, "quay-bitter", "2026-03-14")
    page = brews.pages["quay-bitter/brew-2026-03-14-working.html"]
    given = [table for table in page.select("table.given") if "quay-bitter/2026-03-14.md" in table.caption.get_text()]
    lines = {int(line) for table in given for line in re.findall(r"line (\d+)", table.get_text())}
    rests_on = {value.place.line for value in lineage(it.abv, it.mash_efficiency) if value.place}
    assert rests_on <= lines
    steps = " ".join(table.get_text() for table in page.select("table.steps")).lower()
    for value in lineage(it.abv):
        assert not isinstance(value.made, Worked) or value.label.lower().replace("'", "’") in steps, value.label


def test_too_much_gas_is_said_at_the_top_and_with_what_to_do(brews) -> None:  # type: ignore[no-untyped-def]
    page = brews.pages[HURRIED]
    first = page.select_one("main .caution")
    assert "bursts an ordinary bottle" in first.get_text()
    assert first.find_next(id="measured") is not None
    packaging = page.find(id="packaging").find_parent("details")
    assert "thick gloves" in packaging.get_text()
    assert packaging.has_attr("open")
    good = brews.pages[FIRST].find(id="packaging").find_parent("details")
    assert "Take care" not in good.get_text()
    assert not good.has_attr("open")


def test_what_differed_is_said_first_with_both_numbers_and_what_was_as_planned_is_one_line(brews) -> None:  # type: ignore[no-untyped-def]
    for it in brews.done.batches:
        page = brews.pages[f"{it.batch.recipe}/brew-{it.batch.slug}.html"]
        first, off, judged = spoken(page.select_one(".became")), 0, 0
        for row in it.compared:
            judged += row.planned is not None
            if row.planned is not None and amount(row.planned) != amount(row.measured):
                planned, measured = (spoken_of(amount(value).metric) for value in (row.planned, row.measured))
                told = f"{words_of(row.figure)} {measured}" in first and f"not {planned}" in first
                assert told is (row.verdict != "within"), row.figure
                off += told
        if judged:
            assert f"{judged - off} of {judged} as planned" in spoken(page.find(id="measured").parent)


def test_what_a_brew_taught_is_said_with_the_way_to_all_that_its_brewhouse_learned(brews) -> None:  # type: ignore[no-untyped-def]
    first = brews.pages[FIRST].select_one(".became")
    it = figures_of(brews, "quay-bitter", "2026-03-14")
    assert it.lessons
    for lesson in it.lessons:
        assert spoken_of(amount(lesson.value).metric) in spoken(first)
    assert first.find("a", href="../brewhouses/mill.html") is not None
    aside = brews.pages[HEAT].select_one(".became")
    assert "taught the book" not in spoken(aside)


def test_other_published_corrections_stand_beside_the_one_used(brews) -> None:  # type: ignore[no-untyped-def]
    table = spoken(brews.pages[HURRIED].find("table", id="table-corrections"))
    for name in ("Terrill 2011, Linear", "Novotný 2017, Quadratic", "Bonham"):
        assert name.lower() in table.lower()


def test_what_has_changed_stands_then_and_now_and_not_in_colour_alone(brews) -> None:  # type: ignore[no-untyped-def]
    table = brews.pages[FIRST].find("table", id="table-since")
    cells = [tuple(spoken(cell) for cell in row.find_all("td")) for row in table.find_all("tr") if row.find("td")]
    assert ("250 g Caramel malt 60 L, 60 °L", "200 g Caramel malt 60 L, 60 °L") in cells
    assert ("20 g Fuggle, dry 3 days", "no longer there") in cells
    assert [spoken(head) for head in table.thead.find_all("th")] == ["Then", "Now"]


def test_a_brew_whose_recipe_is_gone_keeps_its_page_without_a_link_to_it(brews) -> None:  # type: ignore[no-untyped-def]
    page = brews.pages[LOST]
    assert page.find(id="since") is None
    assert not page.select('main a[href*="lost-porter.html"]')
    assert "Lost Porter" in brews.pages["brews.html"].get_text()


def test_a_recipe_lists_all_its_brews_and_an_edition_its_own(brews) -> None:  # type: ignore[no-untyped-def]
    def listed(path: str, rows: str) -> list[str]:
        found = brews.pages[path].select(rows)
        return [normpath(join(dirname(path), row.select_one("a[href*=brew-]")["href"])) for row in found]

    for own, theirs in (("quay-bitter{}.html", [HEAT, HURRIED, FIRST]), ("quay-bitter/10-l-in-stove{}.html", [HEAT])):
        figures = own.format("-figures" if "/" in own else "/figures")
        assert listed(own.format(""), ".runs > li") == theirs
        assert listed(figures, "#table-brews tbody tr") == theirs


def test_a_recipe_that_nobody_has_brewed_says_nothing_of_brews(brews, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    book = replace(brews.book, batches=())
    files = make_site(book, brews.plans, Problems(), cache)
    assert not [path for path in files if re.search(r"brews\.|/brew-|-working", path) and "quay" not in path]
    assert "brewhouses/mill.html" in files, "what one may brew in is told all the same"
    assert b'id="brewed"' not in files["quay-bitter.html"]
    assert b"brews.html" not in files["index.html"]


def test_brews_stand_by_date_the_last_one_first(brews) -> None:  # type: ignore[no-untyped-def]
    page = brews.pages["brews.html"]
    assert [time["datetime"] for time in page.select(".entry time")] == [
        "2026-07-01",
        "2026-05-02",
        "2026-03-14",
        "2025-11-02",
    ]
    assert [head.get_text() for head in page.select("main h2")] == ["2026", "2025"]
    assert "thrown away: went sour in week 3" in spoken(page)


def test_a_brewhouse_shows_what_it_learned_beside_what_the_book_says(brews) -> None:  # type: ignore[no-untyped-def]
    page = brews.pages["brewhouses/mill.html"]
    learned = brews.done.lessons.of("mill", "conversion")
    part = page.find(id="mill-conversion").find_parent("details")
    before, now = (spoken_of(amount(it).metric) for it in (learned.setting, learned.value))
    assert spoken(part.summary) == f"Conversion {now} and not {before}"
    said = [it["value"] for it in part.p.select("data")]
    assert said == [bare(learned.setting.number), bare(learned.value.number)]
    assert "From 2 brews" in spoken(part.p)
    assert spoken(part.p).endswith("Plans go by it.")
    assert "No brew has taught anything" in brews.pages["brewhouses.html"].find(id="stove").get_text()
    assert brews.pages["brewhouses/stove.html"].find(id="taught") is None


def test_what_a_brewhouse_holds_and_what_is_brewed_in_it_stands_on_a_page_of_its_own(demo) -> None:  # type: ignore[no-untyped-def]
    for name, house in demo.book.brewhouses.items():
        page = demo.pages[f"brewhouses/{name}.html"]
        holds = spoken(page.select_one("#vessels + dl"))
        assert f"Pot {spoken_of(amount(house.kettle).metric)} " in holds
        assert ("in a tun" in holds) == (house.mash == "sparge")
        beers = page.find(id="beers").find_parent("details").select("li a")
        own = [plan.recipe.slug for plan in demo.plans if plan.brewhouse.name == name]
        assert {f"../{slug}.html" for slug in own} <= {link["href"] for link in beers}
        brewed = [it for it in demo.done.batches if it.batch.brewhouse == name]
        assert len(page.select(".runs li")) == len(brewed)


def test_an_old_anchor_of_the_brewhouses_page_stands_at_the_way_to_its_own_page(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.pages["brewhouses.html"]
    for it in demo.done.lessons.learned:
        anchor = slug(f"{it.brewhouse} {setting(it)}")
        link = page.find(id=anchor)
        assert link["href"] == f"brewhouses/{it.brewhouse}.html#{anchor}"
        assert demo.pages[f"brewhouses/{it.brewhouse}.html"].find(id=anchor) is not None
    assert [item["id"] for item in page.select("main li")] == [*demo.book.brewhouses]


def test_a_reading_that_is_set_aside_says_why(brews) -> None:  # type: ignore[no-untyped-def]
    told = spoken(brews.pages["brewhouses/mill.html"])
    assert "set aside: the kettle boiled over" in told


def test_the_working_of_what_was_learned_leads_to_the_book_and_to_every_brew(brews) -> None:  # type: ignore[no-untyped-def]
    page = brews.pages["brewhouses/mill-working.html"]
    files = {table.caption.get_text().removeprefix("Given in ") for table in page.select("table.given")}
    assert {"book.yaml", "quay-bitter/2026-03-14.md", "quay-bitter/2026-05-02.md"} <= files
    assert "spread of the next brew" in page.get_text()


def test_a_page_of_a_brew_stays_when_everything_around_it_changes(brews, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    """Only what has changed since, and the links around, may differ."""
    mill = brews.book.brewhouses["mill"]
    stove = {"stove": brews.book.brewhouses["stove"]}
    other = replace(mill, boil_off=replace(mill.boil_off, number=5.0), kettle=replace(mill.kettle, number=60.0))
    book = replace(brews.book, brewhouses={"mill": other} | stove, bitterness_model="rager 1990", recipes=())
    done = brewed(book, Problems())
    files = make_site(book, (), Problems(), cache, batches=done.batches, lessons=done.lessons)

    def told(data: bytes) -> list[str]:
        main = BeautifulSoup(data, "html.parser").main
        for part in main.select("#since, #more, nav, .recipe-title"):
            (part.find_parent(["details", "section"]) if part.name == "h2" else part).decompose()
        return main.get_text().split()

    assert told(files[FIRST]) == told(brews.files[FIRST])
    working = FIRST.replace(".html", "-working.html")
    assert told(files[working]) == told(brews.files[working])


def test_data_of_a_brew_are_its_figures(brews) -> None:  # type: ignore[no-untyped-def]
    data = json.loads(brews.files["quay-bitter/brew-2026-03-14.json"])
    it = figures_of(brews, "quay-bitter", "2026-03-14")
    assert set(data["figures"]) == {row.figure for row in it.compared}
    strength = data["figures"]["alcohol-by-volume"]
    assert strength["measured"]["value"] == pytest.approx(it.abv.number)
    assert (strength["planned"]["value"], strength["against the plan"]) == (4.1, "within")
    assert len(data["looks"]) == len(it.course.moments)


def test_an_authors_words_in_a_brew_never_become_markup(brews) -> None:  # type: ignore[no-untyped-def]
    page = brews.pages[FIRST]
    assert page.find("b") is None
    assert "<b>a little</b> sweet; 2 glasses" in page.find(class_="tastings").get_text()


def test_a_brew_may_lead_to_another_by_its_file(brews) -> None:  # type: ignore[no-untyped-def]
    about = brews.pages[FIRST].find(id="about")
    assert about.a["href"] == "brew-2026-05-02.html"
    assert brews.problems == ()


def test_an_anchor_of_a_brews_page_is_out_of_an_authors_reach(brews) -> None:  # type: ignore[no-untyped-def]
    for path in (FIRST, HURRIED, HEAT, LOST):
        own = {tag["id"] for tag in brews.pages[path].find_all(id=True) if not tag.find_parent(class_="prose")}
        own = {name for name in own if not name.startswith(("band", "gravity-chart-", "temperature-chart-"))}
        assert own - {f"table-{step}" for step in ("before-the-boil", "end-of-the-boil")} <= set(BATCH_SECTIONS) | {
            "quay-bitter",
            "lost-porter",
        }


def test_pages_of_brews_are_light_enough_for_a_phone(brews) -> None:  # type: ignore[no-untyped-def]
    """Uncompressed here, so that a compressed page is far below 150 kB."""
    assert max(len(brews.files[path]) for path in (FIRST, HURRIED, "brews.html", "brewhouses/mill.html")) < 150_000


def test_a_plan_leads_to_what_its_brewhouse_has_learned_and_does_not_tell_it_again(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.trees["quillmere-best/working.html"]
    row = page.get_element_by_id("conversion")
    there, anchor = row.find(".//a").get("href").removeprefix("../").split("#")
    assert there == "brewhouses/mill-working.html"
    learned = demo.trees[there].get_element_by_id(anchor)
    assert row.find("td").text_content().split()[0] in learned.text_content()
    assert "wallower-porter/2026-03-10.md" in demo.trees[there].text_content()  # every brew that taught it
    assert "wallower-porter/2026-03-10.md" not in page.text_content()
