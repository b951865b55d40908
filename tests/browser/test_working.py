"""A beer's working in a browser: one kettle or all, the part that one came for, and the way back."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

import pytest
import the_demo
from playwright.sync_api import Locator, Page, expect

Open = Callable[..., AbstractContextManager[Any]]

BEER, STOVE = "quillmere-best.html", "quillmere-best/10-l-in-stove.html"
WORKING = "quillmere-best/working.html"
KETTLES = {
    "20 L, mill": BEER,
    "10 L, stove": STOVE,
    "5 gal, garage": "quillmere-best/5-gal-in-garage.html",
    "10 L, pot, extract": "quillmere-best/extract-10-l-in-pot.html",
}
"""What the working calls the kettles of the beer, the recipe's own first, and their pages."""
ALL = "all, side by side"

WIDTHS = (320, 360, 1280)
PHONE = {"width": 360, "height": 640}
SCREENS = 25
"""At most so many screens of a phone, with everything closed."""

SHOWN = """() => [...new Set([...document.querySelectorAll('.steps tbody tr')].flatMap(
    ({cells}) => cells.length < 3 ? [] : [...cells].slice(1).flatMap(
        (cell, n) => cell.textContent.trim() && cell.checkVisibility() ? [n] : [])))]"""
FOLLOWED = """async () => {
    const radio = document.querySelector('.kettles :checked'), seen = {};
    for (const link of document.querySelectorAll('.steps a[href^="#"]')) {
        radio.checked = true;
        if (link.hash in seen || link.hash === location.hash || !link.checkVisibility()) continue;
        link.click();
        await new Promise(done => setTimeout(done, 10));
        await new Promise(done => setTimeout(done, 10));
        seen[link.hash] = Boolean(document.querySelector(':target')?.checkVisibility());
    }
    return seen;
}"""
MARKED = "marked => marked.filter(it => it.checkVisibility()).map(it => it.className)"
HEIGHT = "document.documentElement.scrollHeight"
TOO_WIDE = "document.documentElement.scrollWidth > document.documentElement.clientWidth"


def words(found: Locator) -> list[str]:
    """What a reader sees of them; nothing of those that are hidden."""
    return [" ".join(it.inner_text().split()) for it in found.all() if it.is_visible()]


def open_all(page: Page) -> None:
    """By the heads of the parts, as a reader does it who has no script."""
    page.evaluate("() => document.querySelectorAll('details:not([open]) > summary').forEach(head => head.click())")


def kettles_shown(page: Page) -> list[str]:
    """Those of which any row has a number in sight, with all parts open."""
    return [[*KETTLES][n] for n in sorted(page.evaluate(SHOWN))]


def back(page: Page) -> list[str]:
    """Where the links at the foot of the window lead that are in sight, without the folder."""
    links = page.locator(".back a:not([href^='#'])").all()
    return [str(it.evaluate("link => link.href")) for it in links if it.is_visible()]


def choice(page: Page, words: str) -> Locator:
    return page.get_by_role("group", name="Numbers for").get_by_label(words.replace(" L", "\N{NO-BREAK SPACE}L"))


def test_without_a_choice_the_recipes_own_kettle_is_shown_and_no_others_numbers(opened: Open) -> None:
    with opened(WORKING, scripts=False) as it:
        assert it.page.locator(".kettles input:checked").count() == 0
        assert words(it.page.locator("#bitterness > summary > span")) == ["33 IBU"]
        assert it.page.locator("details[open]").count() == 0
        open_all(it.page)
        assert kettles_shown(it.page) == ["20 L, mill"]
        assert set(words(it.page.locator(".steps thead th"))) == {"20 L, mill"}
        assert [url.endswith(f"/{BEER}") for url in back(it.page)] == [True]


def test_each_choice_shows_its_kettle_only_without_a_script(opened: Open) -> None:
    with opened(WORKING, scripts=False) as it:
        open_all(it.page)
        for n, (kettle, page) in enumerate(KETTLES.items()):
            choice(it.page, kettle).check()
            assert kettles_shown(it.page) == [kettle]
            assert set(words(it.page.locator(".steps thead th"))) == {kettle}
            assert [url.endswith(f"/{page}") for url in back(it.page)] == [True]
            marked = it.page.locator(".k:not(.back .k)").evaluate_all(MARKED)
            assert len(marked) > 50
            assert {f"k{n}" in marks.split() for marks in marked} == {True}


def test_all_kettles_stand_side_by_side_by_choice_without_a_script(opened: Open) -> None:
    with opened(WORKING, scripts=False) as it:
        open_all(it.page)
        choice(it.page, ALL).check()
        assert kettles_shown(it.page) == [*KETTLES]
        heads = it.page.locator("#bitterness thead").first.locator("th")
        assert words(heads) == [*KETTLES]
        row = it.page.locator("#utilisation-of-fuggle > td")
        places = [(head.bounding_box() or {}).get("x") for head in heads.all()]
        assert places == [(cell.bounding_box() or {}).get("x") for cell in row.all()], "a column for each"
        assert len({(cell.bounding_box() or {}).get("y") for cell in row.all()}) == 1
        assert len(back(it.page)) == len(KETTLES)


@pytest.mark.parametrize("scripts", [False, True])
def test_a_figure_opens_its_part_for_the_kettle_one_came_from_and_back_leads_to_its_page(
    opened: Open, scripts: bool
) -> None:
    with opened(STOVE, scripts=scripts) as it:
        figure = it.page.locator(".glance a.figure[href*='bitterness']")
        said = words(figure)
        figure.click()
        it.page.wait_for_url(f"**/{WORKING}#10-l-in-stove.bitterness*")
        assert words(it.page.locator("#bitterness > summary > span")) == said == ["33 IBU"]
        result = it.page.locator(":target b")
        expect(result).to_be_in_viewport()
        assert words(result) == ["33.08 IBU"]
        assert words(it.page.locator("#bitterness thead th"))[0] == "10 L, stove"
        assert not it.page.locator("#colour .steps").first.is_visible()
        it.page.go_back()
        it.page.wait_for_url(f"**/{STOVE}")
        it.page.go_forward()
        expect(it.page.locator(":target b")).to_be_in_viewport()
        it.page.get_by_role("link", name="Back to 10").click()
        it.page.wait_for_url(f"**/{STOVE}")


def test_the_kettle_one_came_for_stays_while_its_letters_are_followed(opened: Open) -> None:
    with opened(STOVE) as it:
        it.page.locator(".glance a.figure[href*='bitterness']").click()
        for words_of_link in ("bitterness", "iso", "U"):
            it.page.locator("tbody:has(:target), tbody:target").get_by_role("link", name=words_of_link).first.click()
            assert choice(it.page, "10 L, stove").is_checked()
        assert words(it.page.locator("tbody:target tr:has(th) b")) != []
        assert len(words(it.page.locator("tbody:target tr:has(th)").first.locator("b"))) == 1
        assert it.page.locator("#utilisation-of-fuggle > td").nth(1).is_visible()


def test_every_letter_leads_to_a_number_in_sight_for_another_kettle_too(opened: Open) -> None:
    with opened(STOVE) as it:
        it.page.locator(".glance a.figure[href*='bitterness']").click()
        it.page.wait_for_url(f"**/{WORKING}#*")
        open_all(it.page)
        followed = it.page.evaluate(FOLLOWED)
        assert len(followed) > 150
        assert [letter for letter, seen in followed.items() if not seen] == []


def test_a_letter_leads_to_the_number_of_the_kettle_that_is_shown(opened: Open) -> None:
    with opened(WORKING) as it:
        choice(it.page, "10 L, stove").check()
        it.page.locator("#weights-and-extract > summary").click()
        part = it.page.locator("#weights-and-extract .steps")
        part.get_by_role("link", name="mash efficiency", exact=True).first.click()
        assert words(it.page.locator(":target > td").first) == ["0.7 65 and 75 %"]
        assert "the brewhouse stove: 70 %" in words(it.page.locator(":target"))[0]


def test_a_part_that_one_came_for_can_be_closed_again(opened: Open) -> None:
    with opened(BEER) as it:
        it.page.locator(".glance a.figure[href*='bitterness']").click()
        expect(it.page.locator(":target")).to_be_visible(timeout=30_000)  # the largest page, on a busy machine
        it.page.locator("#bitterness > summary").click()
        expect(it.page.locator(":target")).not_to_be_visible()


def test_a_beers_working_is_at_most_25_screens_of_a_phone_with_everything_closed(
    opened: Open, all_pages: list[str]
) -> None:
    beers = [page for page in all_pages if re.fullmatch(r"[^/]+/working\.html", page)]
    assert len(beers) == len(the_demo.SLUGS)
    for page in beers:
        with opened(page) as it:
            it.page.set_viewport_size(PHONE)
            assert it.page.locator("details[open]").count() == 0
            assert 1 < it.page.evaluate(HEIGHT) / PHONE["height"] <= SCREENS, page


@pytest.mark.parametrize("page", [WORKING, "sluicegate-ipa/working.html"])
def test_an_open_working_is_no_wider_than_its_window_with_one_kettle_and_with_all(opened: Open, page: str) -> None:
    with opened(page) as it:
        open_all(it.page)
        for chosen in ("20 L, mill", ALL):
            choice(it.page, chosen).check()
            for width in WIDTHS:
                it.page.set_viewport_size({"width": width, "height": 640})
                assert not it.page.evaluate(TOO_WIDE), (chosen, width)


def test_what_is_too_wide_side_by_side_can_be_scrolled_by_keys(opened: Open) -> None:
    with opened(WORKING, width=320) as it:
        open_all(it.page)
        choice(it.page, ALL).check()
        part = it.page.locator("#bitterness")
        assert part.evaluate("part => part.scrollWidth > part.clientWidth")
        part.locator("a").first.focus()
        for _ in range(10):
            it.page.keyboard.press("ArrowRight")
        moved = "() => document.querySelector('#bitterness').scrollLeft"
        for _ in range(50):  # the page's policy lets nothing wait in it
            if it.page.evaluate(moved) > 0:
                break
            it.page.wait_for_timeout(100)
        assert it.page.evaluate(moved) > 0
        expect(part.locator("h3").first).to_be_in_viewport(ratio=1)  # what a row is of stays in sight


def test_bitterness_can_be_followed_from_the_beer_to_the_line_of_the_hop_in_three_touches(opened: Open) -> None:
    with opened(BEER, width=360) as it:
        it.page.set_viewport_size(PHONE)
        it.page.locator(".glance a.figure", has_text="33 IBU").click()
        it.page.wait_for_url(f"**/{WORKING}#*")
        here = it.page.locator("tbody:target, tbody:has(:target)")
        assert words(here.locator("b")) == ["32.58 IBU"]
        here.get_by_role("link", name="bitterness").click()
        fuggle = it.page.locator("tbody:target tr", has_text="Fuggle")
        assert words(fuggle.locator("b"))[0] == "21.43 IBU"
        it.page.get_by_role("link", name="The recipe’s lines").click()
        given = it.page.locator("#the-recipe .given").first
        expect(given.locator("caption")).to_be_in_viewport()
        assert words(given.locator("caption")) == ["Given in quillmere-best.md"]
        assert words(given.locator("tr", has_text="Weight of Fuggle")) == [
            "Weight of Fuggle 40 g the recipe: 40 g, line 15"
        ]


@pytest.mark.parametrize(
    ("asked", "place"),
    [
        ("bitterness-2", "10-l-in-stove.bitterness-2"),
        ("mash-efficiency", "10-l-in-stove.mash-efficiency"),
        ("length-of-the-boil", "length-of-the-boil"),
    ],
)
def test_an_old_address_of_a_kettles_working_leads_to_the_figure_for_that_kettle(
    opened: Open, site: Path, asked: str, place: str
) -> None:
    with opened("index.html") as it:
        it.page.goto((site / "quillmere-best/10-l-in-stove-working.html").as_uri() + f"#{asked}")
        it.page.wait_for_url(f"**/{WORKING}#10-l-in-stove.{asked}")
        assert choice(it.page, "10 L, stove").is_checked()
        expect(it.page.locator(f'[id="{place}"]')).to_be_in_viewport()
        open_all(it.page)
        assert kettles_shown(it.page) == ["10 L, stove"]


def test_an_old_address_of_a_kettles_working_leads_to_that_kettle_without_a_script(opened: Open) -> None:
    with opened("quillmere-best/10-l-in-stove-working.html", scripts=False) as it:
        it.page.wait_for_url(f"**/{WORKING}#10-l-in-stove")
        open_all(it.page)
        assert kettles_shown(it.page) == ["10 L, stove"]
        assert [url.endswith(f"/{STOVE}") for url in back(it.page)] == [True]


def test_a_range_is_called_one_and_a_number_in_per_cent_is_not(opened: Open) -> None:
    with opened(WORKING) as it:
        ranges = it.page.locator(".part small").all_text_contents()
        alone = it.page.locator(".part td > i").all_text_contents()
        assert len(ranges) > 100
        assert alone
        assert all(" and " in text for text in ranges)
        assert not [text for text in alone if " and " in text]
        before = "it => getComputedStyle(it, '::before').content"
        assert it.page.locator(".part small").first.evaluate(before) == '"between "'
        assert it.page.locator(".part td > i").first.evaluate(before) == "none"
