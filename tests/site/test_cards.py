"""Cards: hops by the packet in hand, and the stamp that ties a paper to its page."""

from __future__ import annotations

from dataclasses import replace

import pytest
from bs4 import BeautifulSoup, Tag
from made_site import make_site

from gristbook.model.moment import BeforePackaging
from gristbook.problems import Problems
from gristbook.site.beer.stamp import mark
from gristbook.targets.figures import Plan
from gristbook.targets.hops.packets import alphas, packet_rows
from gristbook.targets.method.whole import steps
from gristbook.targets.plan import plan_recipe


def numbers(cell: Tag) -> list[float]:
    return [float(data["value"]) for data in cell.find_all("data")]  # type: ignore[arg-type]


def test_every_packet_on_a_card_brings_the_alpha_acids_of_the_plan(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        rows = demo.pages[f"{plan.recipe.slug}/card.html"].select(".packets tbody tr")
        hops = [line for line in plan.figures.bitterness.hops if not isinstance(line.hop.use, BeforePackaging)]
        assert len(rows) == len(hops), plan.recipe.slug
        for row, line in zip(rows, hops, strict=True):
            cells = row.find_all("td")
            assert len(cells) == 5, plan.recipe.slug
            for cell in cells:
                alpha, grams = numbers(cell)
                assert alpha * grams == pytest.approx(line.hop.alpha.number * line.mass.number, rel=1e-6)
            assert [numbers(cell)[0] for cell in cells] == sorted(numbers(cell)[0] for cell in cells)
            planned = row.find("td", class_="planned")
            assert numbers(planned) == pytest.approx([line.hop.alpha.number, line.mass.number], rel=1e-6)


def test_what_is_weighed_from_a_packet_is_shown_with_its_working_and_in_both_units(demo) -> None:  # type: ignore[no-untyped-def]
    cell = demo.pages["quillmere-best/card.html"].select_one(".packets td:not(.planned)")
    assert cell.find(class_="metric").get_text().endswith("g")
    assert cell.find(class_="us").get_text().endswith("oz")
    link = cell.find_all("a")[1]["href"].partition("#")[2]
    step = demo.pages["quillmere-best/working.html"].find(id=link)
    assert "g × AA / AA" in step.find_parent("tbody").get_text()


def test_what_is_weighed_is_a_decision_and_has_no_doubt(demo) -> None:  # type: ignore[no-untyped-def]
    for row in packet_rows(demo.plan("sluicegate-ipa")):
        assert all(packet.mass.spread == 0 for packet in row.packets if not packet.planned)


@pytest.mark.parametrize(
    ("planned", "low", "high"),
    [(0.045, 0.024, 0.061), (0.02, 0.01, 0.2), (0.001, 0.0005, 0.002), (0.18, 0.02, 0.2), (0.99, 0.9, 1.0)],
)
def test_packets_stand_around_the_planned_one_and_none_is_absurd(planned: float, low: float, high: float) -> None:
    found = alphas(planned, low, high)
    assert planned in found
    assert list(found) == sorted(found)
    assert found[0] > 0
    assert found[-1] <= 1
    assert found[0] >= planned / 3 or planned <= 0.003


def test_a_card_bears_the_date_the_vessels_the_mark_and_the_address_of_its_page(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        slug = plan.recipe.slug
        stamp = demo.pages[f"{slug}/card.html"].select_one(".stamp")
        date, made, mark, address = (name.get_text() for name in stamp.select(".name"))
        assert date == plan.recipe.date
        assert plan.brewhouse.name in made
        assert address == f"{demo.book.address}{slug}.html"
        assert mark in demo.pages[f"{slug}.html"].select_one(".also").get_text()


def test_no_two_brews_of_the_book_bear_the_same_mark(demo) -> None:  # type: ignore[no-untyped-def]
    cards = [page for path, page in demo.trees.items() if path.endswith("card.html")]
    marks = [card.cssselect(".stamp .name")[-2].text_content() for card in cards]
    assert len(set(marks)) == len(marks) > 40


def marked(plan: Plan) -> str:
    return mark(plan, steps(plan))


def test_a_mark_stays_with_the_brew_and_changes_with_it(demo) -> None:  # type: ignore[no-untyped-def]
    """Prose and the day it was written are no part of the brew; a gram, a minute and a kettle are."""
    plan = demo.plan("quillmere-best")
    recipe = plan.recipe

    def again(**changes: object) -> str:
        found = plan_recipe(replace(recipe, expectations=(), **changes), demo.book, Problems())  # type: ignore[arg-type]
        assert found is not None
        return marked(found)

    mark = marked(plan)
    assert again() == again(prose="Other words.", date="2026-12-24") == mark
    first = recipe.malts[0]
    heavier = first.weighing(replace(first.mass, number=first.mass.number + 0.001))
    changed = [
        again(malts=(heavier, *recipe.malts[1:])),
        again(boil=replace(recipe.boil, number=61.0)),
        again(brewhouse="garage"),
        again(title="Another"),
    ]
    assert len({mark, *changed}) == 5


def test_without_an_address_a_card_names_its_page_s_file(demo, cache) -> None:  # type: ignore[no-untyped-def]
    book = replace(demo.book, address="", editions=(), learning=None)
    files = make_site(book, (demo.plan("quillmere-best"),), Problems(), cache)
    stamp = BeautifulSoup(files["quillmere-best/card.html"], "html.parser").select(".stamp .name")
    assert stamp[-1].get_text() == "quillmere-best.html"


def test_a_card_says_at_its_line_what_can_maim_or_kill_and_no_more(demo) -> None:  # type: ignore[no-untyped-def]
    cards = {path: page for path, page in demo.pages.items() if path.endswith("card.html")}
    assert len(cards) > 40
    for path, card in cards.items():
        at = {row.dt.get_text(): [it.get_text() for it in row.select(".care")] for row in card.select(".do div")}
        said = [words for lines in at.values() for words in lines]
        assert 3 <= len(said) == len(set(said)) <= 5, path
        assert any("Hot wort scalds" in words for words in at["Boil"]), path
        assert any("two readings" in words for words in at.get("Prime") or at["Keg"]), path
        assert any("burner outdoors" in words for words in (at.get("Mash") or at.get("Steep") or at["Boil"])), path
