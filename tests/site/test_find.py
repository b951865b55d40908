"""What the page to find things on leads to, and how much it weighs in a long book."""

from __future__ import annotations

import gzip
from dataclasses import replace
from posixpath import normpath
from typing import Any

import pytest
import the_demo

from gristbook.charts.caches import MemoryCache
from gristbook.problems import Problems
from gristbook.site import pages as at
from gristbook.site.beer.known import Known
from gristbook.site.book.find_page import find_page
from gristbook.site.book.find_words import HEADINGS, PARTS
from gristbook.site.press import Press

from .test_weight import LEVEL, other

INDEX = 100_000
"""Bytes over the wire of all that is searched in a book of two hundred beers."""


def test_every_way_leads_to_a_place_that_is_there(demo: Any) -> None:
    for link in demo.pages["find.html"].select(".find a"):
        path, _, anchor = link["href"].partition("#")
        assert not anchor or demo.pages[normpath(path)].find(id=anchor), link["href"]


def test_no_other_word_is_kept_for_a_heading_that_is_gone(demo: Any) -> None:
    called = {a.parent["data-called"] for a in demo.pages["find.html"].select("[data-called] > a")}
    linked = {a["href"] for a in demo.pages["find.html"].select("[data-called] > a")}
    for heading, words in HEADINGS.items():
        lesson, _, anchor = heading.partition("#")
        assert f"learning/{lesson}.html#{anchor}" in linked, heading
        assert words in called


def test_every_beer_has_the_parts_that_are_shown_for_one(demo: Any) -> None:
    """But for what may be taken instead, where nothing may."""
    for plan in demo.plans:
        address = at.of_recipe(plan.recipe.slug)
        for part in PARTS:
            page = demo.pages[getattr(address, part.page)]
            assert not part.anchor or part.anchor == "instead" or page.find(id=part.anchor), (address.page, part)


def test_a_heading_that_several_lessons_have_is_no_place_of_its_own(demo: Any) -> None:
    words = [a.get_text() for a in demo.pages["find.html"].select("[aria-labelledby=sections] li > a")]
    assert len(words) > 80
    assert len(set(words)) == len(words)
    assert "Try this" not in words


@pytest.fixture(scope="module")
def press() -> Press:
    brews = {"batches": the_demo.done().batches, "lessons": the_demo.done().lessons}
    plans = tuple(the_demo.plans().values())
    return Press(the_demo.book(), plans, Problems(), MemoryCache(), folder=the_demo.DEMO, **brews)


def test_the_page_of_two_hundred_beers_with_its_script_is_light_over_the_wire(press: Press, demo: Any) -> None:
    printing, own = press.printing, list(press.printing.beers.values())
    beers = {}
    for number in range(200):
        plan = other(own[number % len(own)].plan, number)
        beers[plan.recipe.slug] = Known(plan, the_demo.book())
    page = press.renderer.page(find_page(replace(printing, beers=beers)))
    assert page.count(b"&#160;IBU</data>") + page.count("\u00a0IBU</data>".encode()) >= 200
    assert sum(len(gzip.compress(data, LEVEL, mtime=0)) for data in (page, demo.files["find.js"])) <= INDEX


def test_a_book_without_a_beer_finds_its_pages_and_no_part_of_a_beer(press: Press) -> None:
    found = find_page(replace(press.printing, beers={}, stock=(), styles={})).view
    kinds = {group.anchor: group.rows for group in found.kinds}  # type: ignore[attr-defined]
    assert not {"beers", "ingredients", "styles", "parts"} & set(kinds)
    assert at.CAUTIONS in {it.path for it in kinds["pages"]}
