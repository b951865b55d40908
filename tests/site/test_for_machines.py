"""What other programs read of a book: its feed, and its recipes in the words of schema.org."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from dataclasses import replace
from datetime import datetime
from hashlib import sha256
from xml.etree import ElementTree

from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.problems import Problems
from gristbook.site.beer.known import Known
from gristbook.site.book.feed import dated, feed

ATOM = "{http://www.w3.org/2005/Atom}"


def test_the_feed_has_what_atom_asks_for(demo) -> None:  # type: ignore[no-untyped-def]
    """RFC 4287, 4.1.1 and 4.1.2: id, title, updated and an author once; every entry with its own, and a link."""
    root = ElementTree.fromstring(demo.files["feed.xml"])
    assert root.tag == f"{ATOM}feed"
    ids = [root.findtext(f"{ATOM}id")]
    assert root.findtext(f"{ATOM}author/{ATOM}name") == demo.book.author
    assert {link.get("rel"): link.get("href") for link in root.findall(f"{ATOM}link")} == {
        "self": f"{demo.book.address}feed.xml",
        "alternate": demo.book.address,
    }
    moments = []
    for entry in root.findall(f"{ATOM}entry"):
        for one in ("id", "title", "updated"):
            assert len(entry.findall(f"{ATOM}{one}")) == 1
        ids.append(entry.findtext(f"{ATOM}id"))
        moments.append(datetime.fromisoformat(entry.findtext(f"{ATOM}updated") or ""))
        (link,) = entry.findall(f"{ATOM}link")
        assert (link.get("href") or "").removeprefix(demo.book.address) in demo.files
    assert len(ids) == len(set(ids)) == len(dated([Known(plan, demo.book) for plan in demo.plans])) + 1 > 10
    assert moments == sorted(moments, reverse=True)
    assert datetime.fromisoformat(root.findtext(f"{ATOM}updated") or "") == moments[0]


def test_every_page_leads_to_the_feed(demo) -> None:  # type: ignore[no-untyped-def]
    for path, page in demo.trees.items():
        feed = "../" * path.count("/") + "feed.xml"
        assert page.xpath("//link[@type='application/atom+xml']/@href") == [feed], path


def test_a_recipe_without_a_date_is_left_out_and_a_feed_of_none_is_not_made(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    plan = demo.plan("quillmere-best")
    undated = replace(plan, recipe=replace(plan.recipe, date=""))
    book = replace(demo.book, editions=(), learning=None, pages=())
    for plans, told in (((undated,), False), ((undated, demo.plan("doorstep-ale")), True)):
        files = make_site(book, plans, Problems(), cache)
        assert ("feed.xml" in files) == told
        assert (b"atom+xml" in files["index.html"]) == told
    assert b"quillmere-best" not in files["feed.xml"]


def test_a_book_without_an_address_has_no_feed(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    book = replace(demo.book, address="", editions=(), learning=None, pages=())
    assert "feed.xml" not in make_site(book, (demo.plan("quillmere-best"),), Problems(), cache)


def test_an_author_s_words_are_no_markup_in_a_feed(demo) -> None:  # type: ignore[no-untyped-def]
    plan = demo.plan("quillmere-best")
    odd = replace(plan, recipe=replace(plan.recipe, title='<Best> & "more"', summary="]]> &amp; <b>"))
    root = ElementTree.fromstring(
        feed(replace(demo.book, title="A & B <c>"), demo.book.address, (Known(odd, demo.book),))
    )
    assert root.findtext(f"{ATOM}title") == "A & B <c>"
    assert root.findtext(f"{ATOM}entry/{ATOM}title") == "<Best> & “more”"


def test_a_recipe_says_itself_in_the_words_of_schema_org(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        page = demo.pages[f"{plan.recipe.slug}.html"]
        (block,) = page.find_all("script", type="application/ld+json")
        data = json.loads(block.string)
        assert (data["@context"], data["@type"], data["datePublished"]) == (
            "https://schema.org",
            "Recipe",
            plan.recipe.date,
        )
        assert data["image"].removeprefix(demo.book.address) in demo.files
        assert data["name"] == page.h1.get_text().strip()
        told = " ".join(data["recipeIngredient"])
        for line in (*plan.recipe.malts, *plan.recipe.sugars, *plan.recipe.hops, *plan.recipe.yeasts):
            assert line.name in told
        titles = [
            step.h3.get_text().strip() for step in demo.pages[f"{plan.recipe.slug}/day.html"].select(".method > li")
        ]
        assert [step["name"] for step in data["recipeInstructions"]] == titles
        assert all(step["text"] for step in data["recipeInstructions"])


def test_no_words_can_end_the_block_of_data(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    plan = demo.plan("quillmere-best")
    odd = replace(plan, recipe=replace(plan.recipe, title="</script><b>x</b>"))
    book = replace(demo.book, editions=(), learning=None, pages=())
    page = make_site(book, (odd,), Problems(), cache)["quillmere-best.html"].decode()
    block = page.partition('application/ld+json">')[2].partition("</script>")[0]
    assert json.loads(block)["name"] == "</script><b>x</b>"


def test_the_policy_names_the_very_block_of_data_and_nothing_else(demo) -> None:  # type: ignore[no-untyped-def]
    """As Content Security Policy, level 3, has a hash: SHA-256 of the text between the tags, in base64."""
    for path, page in demo.trees.items():
        policy = page.xpath("string(//meta[@http-equiv='Content-Security-Policy']/@content)")
        named = re.findall(r"'sha256-([^']+)'", policy)
        blocks = re.findall(rb'<script type="application/ld\+json">(.*?)</script>', demo.files[path], re.DOTALL)
        assert named == [b64encode(sha256(block).digest()).decode() for block in blocks], path
