"""Addresses of earlier versions: each leads to where its page is now, and none is taken for a page of its own."""

from __future__ import annotations

from dataclasses import replace
from posixpath import dirname, join, normpath

import pytest
from bs4 import BeautifulSoup
from made_site import make_site

from gristbook.problems import Problems
from gristbook.site.pages import Moved, Page, of_edition, of_recipe, site_of
from gristbook.site.render import Renderer


def moved(demo) -> list[Moved]:  # type: ignore[no-untyped-def]
    brews = [path.removesuffix("-card.html").split("/") for path in demo.files if path.endswith("-card.html")]
    at = [*(of_recipe(plan.recipe.slug) for plan in demo.plans), *(of_edition(slug, name) for slug, name in brews)]
    return [it for address in at for it in address.moved]


def leads_to(path: str, page: BeautifulSoup) -> str:
    """Where a page sends on to: by its link, and without a script by itself."""
    link = page.select_one("main a#moved")["href"]
    at_once = page.select_one("head noscript meta[http-equiv=refresh]")["content"]
    assert at_once == f"0; url={link}"
    return normpath(join(dirname(path), link))


def test_the_card_that_was_for_half_a_letter_is_found_at_its_old_address(demo) -> None:  # type: ignore[no-untyped-def]
    old = {it.old: it.new for it in moved(demo) if it.old.endswith("card-half-letter.html")}
    assert len(old) > 60
    for path, new in old.items():
        assert new == path.replace("-half-letter", "")
        assert demo.pages[new].select_one("article.card"), new


def test_an_old_address_says_where_its_page_is_now_and_leads_there_without_a_script(demo) -> None:  # type: ignore[no-untyped-def]
    for it in moved(demo):
        page, new = demo.pages[it.old], it.new.partition("#")[0]
        assert leads_to(it.old, page) == it.new
        assert new in demo.files
        assert page.select_one("link[rel=canonical]")["href"] == demo.book.address + new
        name = page.select_one("main a#moved").get_text()
        title, _, kind = name.rpartition(", ")
        whole = demo.pages[new].title.get_text()
        assert whole.startswith((name, f"{title.partition(',')[0]}, {kind}")), "one working a beer"


def test_an_old_address_is_in_no_list_of_pages_and_no_page_leads_there(demo) -> None:  # type: ignore[no-untyped-def]
    old = {it.old for it in moved(demo)}
    hidden = {path for path, page in demo.trees.items() if page.xpath("//meta[@name='robots'][@content='noindex']")}
    assert hidden == old
    for path in old:
        assert path not in demo.files["sitemap.xml"].decode()
    for path, page in demo.trees.items():
        there = {normpath(join(dirname(path), href)) for href in page.xpath("//a/@href")}
        assert not there & old, path


def test_without_an_address_an_old_page_still_names_the_new_one(demo, cache) -> None:  # type: ignore[no-untyped-def]
    book = replace(demo.book, address="", editions=(), learning=None)
    files = make_site(book, (demo.plan("quillmere-best"),), Problems(), cache)
    page = BeautifulSoup(files["quillmere-best/card-half-letter.html"], "html.parser")
    assert page.select_one("link[rel=canonical]")["href"] == "card.html"


@pytest.mark.parametrize(("prefix", "told"), [("", None), ("10-l-in-stove", "10-l-in-stove")])
def test_a_page_that_joined_another_tells_what_its_anchors_begin_with_there(demo, prefix: str, told: str) -> None:  # type: ignore[no-untyped-def]
    view = {"title": "Best, working", "new": "best/working.html#top", "prefix": prefix}
    site = site_of(demo.book, {}, things={}, styles={})
    page = Renderer(site).page(Page("best/stove-working.html", "moved.html", "Best", "Best", view))
    found = BeautifulSoup(page, "html.parser")
    assert found.select_one("#moved").get("data-prefix") == told
    assert leads_to("best/stove-working.html", found) == "best/working.html#top"
    assert found.select_one("link[rel=canonical]")["href"] == f"{demo.book.address}best/working.html"
