"""The page that gathers all cautions, and the ways to it."""

from __future__ import annotations

from posixpath import dirname, join, normpath
from typing import get_args

from gristbook.site.beer.stages import STAGES
from gristbook.site.learn.cautions_page import WHEN, cautions_page
from gristbook.targets.advice.caution_rows import AID
from gristbook.targets.advice.cautions import all_cautions
from gristbook.targets.method.step import Kind


def test_every_caution_is_there_once_and_says_when(demo) -> None:  # type: ignore[no-untyped-def]
    items = demo.pages["cautions.html"].select(".dangers li")
    assert len(items) == len(all_cautions())
    words = [item.get_text().replace("\xa0", " ") for item in items]
    for caution in all_cautions():
        assert sum(caution.words.replace("'", "’") in text for text in words) == 1, caution.words
    assert all("When " in text for text in words)
    assert any(text.startswith("More than 2.8 volumes: a swing-top") for text in words)


def test_it_defers_to_makers_law_and_licensed_people(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.pages["cautions.html"].find("main").get_text()
    for authority in ("makers", "local law and codes", "licensed"):
        assert authority in page


def test_a_caution_without_a_usual_standing_says_where_it_is_from(demo) -> None:  # type: ignore[no-untyped-def]
    (botulism,) = (it for it in demo.pages["cautions.html"].select(".dangers li") if "botulism" in it.get_text())
    assert "(from memory)" in botulism.get_text()


def test_every_page_and_card_and_method_leads_to_it(demo) -> None:  # type: ignore[no-untyped-def]
    for path, page in demo.trees.items():
        nav = {normpath(join(dirname(path), a.get("href"))) for a in page.cssselect(".masthead nav a")}
        assert "cautions.html" in nav or path == "cautions.html", path
    for slug in (plan.recipe.slug for plan in demo.plans):
        assert demo.pages[f"{slug}.html"].select_one(".caution a[href='cautions.html']")
        assert demo.pages[f"{slug}/day.html"].select_one(".caution a[href='../cautions.html']")
        assert demo.pages[f"{slug}/card.html"].select_one(".screen-only a[href='../cautions.html']")


def test_the_parts_of_the_page_are_those_of_the_brew() -> None:
    page = cautions_page(all_cautions())
    assert [part.title for part in page.parts] == [title for title, _ in STAGES]
    assert set(WHEN) <= {kind for part in get_args(Kind) for kind in get_args(part)}


def test_what_to_do_after_stands_in_one_place_and_steps_lead_there(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.pages["cautions.html"]
    usual = {
        "scald": ("cool running water", "twenty minutes", "no ice", "a doctor"),
        "splash": ("fifteen to twenty minutes", "lids open", "poison centre", "emergency number"),
        "gas": ("out into fresh air", "do not go in", "emergency number", "a doctor that day"),
        "cut": ("clean cloth", "Do not pull out", "an eye that glass has hit"),
    }
    assert usual.keys() == AID.keys()
    for aid, needles in usual.items():
        heading = page.find("h3", id=aid)
        words = heading.find_next_sibling("p").get_text()
        assert all(needle in words for needle in needles), aid
    assert "emergency number where you live knows better" in page.find(id="happened").parent.get_text()
    for plan in demo.plans:
        day = demo.pages[f"{plan.recipe.slug}/day.html"]
        led = {
            a["href"].partition("#")[2] for a in day.select(".caution a") if a["href"].startswith("../cautions.html#")
        }
        assert sorted(led) == sorted(AID), plan.recipe.slug
