"""Pages from disk, in a real browser: quiet, self-contained, styled, and no wider than the phone they are read on."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

import pytest
import the_demo
from playwright.sync_api import Page

Open = Callable[..., AbstractContextManager[Any]]

WIDTHS = (320, 360, 1280)
SCHEMES = ("light", "dark")

STYLE_OF = "([selector, property]) => getComputedStyle(document.querySelector(selector))[property]"
TOO_WIDE = """() => [...document.querySelectorAll('body *')].filter(it => {
    const box = it.getBoundingClientRect();
    if (box.width <= 1 || (box.right <= innerWidth + 0.5 && box.left >= -0.5)) return false;
    for (let up = it.parentElement; up; up = up.parentElement)
        if (/auto|scroll|hidden/.test(getComputedStyle(up).overflowX)) return false;
    return getComputedStyle(it).visibility !== 'hidden' && !it.closest('.skip');
}).map(it => `<${it.tagName.toLowerCase()} class="${it.getAttribute('class') || ''}">`)"""


INKS = """() => [...new Set([...document.querySelectorAll('body *')].filter(it => it.checkVisibility()
    && [...it.childNodes].some(node => node.nodeType === Node.TEXT_NODE && node.data.trim())
).map(it => getComputedStyle(it)[it.closest('svg') ? 'fill' : 'color']))].filter(ink => ink.startsWith('rgb('))"""


def style(page: Page, selector: str, name: str) -> str:
    return str(page.evaluate(STYLE_OF, [selector, name]))


def overflow(page: Page) -> list[str]:
    """What stands out of the window at the side, where the reader cannot scroll it on its own."""
    wide = page.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth")
    return [*(["the page itself"] if wide else []), *page.evaluate(TOO_WIDE)]


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("width", WIDTHS)
def test_every_kind_of_page_is_quiet_keeps_to_the_disk_and_fits_its_window(
    opened: Open, kind: str, width: int, scheme: str
) -> None:
    with opened(kind, width=width, scheme=scheme) as it:
        assert it.complaints == []
        assert [url for url in it.asked_for if not url.startswith("file://")] == []
        assert len(it.asked_for) >= 3  # itself, its style and its script
        assert overflow(it.page) == []


def test_no_page_of_a_beer_is_wider_than_a_small_phone(
    opened: Open, beer: str, pages_of: Callable[[str], list[str]]
) -> None:
    assert len(pages_of(beer)) >= 7  # page and card, as written and in two editions at least, and one working
    for page in pages_of(beer):
        with opened(page, width=320) as it:
            assert overflow(it.page) == [], page
            assert it.complaints == [], page


@pytest.mark.slow
def test_no_other_page_is_wider_than_a_small_phone(opened: Open, other_pages: list[str]) -> None:
    assert {"index.html", "sources.html", "chapters/first-boils.html"} <= set(other_pages)
    for page in other_pages:
        with opened(page, width=320) as it:
            assert overflow(it.page) == [], page
            assert it.complaints == [], page


def test_every_page_of_the_book_is_of_a_kind_that_is_opened(
    site: Path, all_pages: list[str], kinds: dict[str, str]
) -> None:
    for page in all_pages:
        fits = [example for example, kind in kinds.items() if re.fullmatch(kind, page)]
        assert len(fits) == 1, page
    for example, kind in kinds.items():
        assert (site / example).is_file()
        assert re.fullmatch(kind, example)


def test_the_policy_lets_the_style_and_the_script_work_and_no_other(opened: Open, kind: str) -> None:
    with opened(kind) as it:
        assert style(it.page, "body", "maxWidth") != "none"
        assert it.page.locator("#units, .masthead").first.is_visible()
        refused = it.page.evaluate("""() => new Promise(done => {
            document.addEventListener('securitypolicyviolation', broken => done(broken.violatedDirective));
            const script = document.createElement('script');
            script.textContent = 'document.title = "changed"';
            document.head.append(script);
        })""")
        assert refused.startswith("script-src")
        assert it.page.title() != "changed"


def test_dark_and_light_are_two_sets_of_colours_in_pages_and_charts(opened: Open) -> None:
    seen = {}
    for scheme in SCHEMES:
        with opened("quillmere-best.html", scheme=scheme) as it:
            seen[scheme] = (style(it.page, "html", "backgroundColor"), style(it.page, "svg.chart text", "fill"))
    assert seen["light"][0] != seen["dark"][0]
    assert seen["light"][1] != seen["dark"][1]


@pytest.mark.parametrize("scheme", SCHEMES)
def test_words_stand_out_from_the_paper(opened: Open, kind: str, scheme: str) -> None:
    """WCAG 2.2, 1.4.3: a contrast of 4.5 to 1, for every colour that words on a page have."""
    with opened(kind, scheme=scheme) as it:
        paper = luminance(style(it.page, "html", "backgroundColor"))
        inks = it.page.evaluate(INKS)
        assert len(inks) >= 2
        for colour in inks:
            ink = luminance(colour)
            assert (max(ink, paper) + 0.05) / (min(ink, paper) + 0.05) >= 4.5, colour


def luminance(colour: str) -> float:
    """Relative luminance of an `rgb(…)` by WCAG 2.2."""
    parts = [int(part) / 255 for part in colour.removeprefix("rgb(").removesuffix(")").split(",")]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("scripts", [True, False])
def test_the_books_own_units_stand_alone_until_a_reader_chooses_with_a_script_and_without(
    opened: Open, scripts: bool
) -> None:
    for page, own, other in (
        ("quillmere-best.html", "3.60 kg", "7 lb 15 oz"),
        ("quillmere-best/5-gal-in-garage.html", "7 lb 12 oz", "3.52 kg"),
    ):
        with opened(page, scripts=scripts) as it:
            goes_in = it.page.locator("section[aria-labelledby=ingredients]")
            for shown, hidden in ((own, other), (other, own)):
                words = goes_in.inner_text().replace("\N{NO-BREAK SPACE}", " ")
                assert shown in words, page
                assert hidden not in words, page
                assert "(" not in goes_in.locator("#grist").inner_text()
                it.page.get_by_label("US" if own.endswith("kg") else "metric", exact=True).check()


def test_a_reader_can_choose_one_system_of_units_without_a_script(opened: Open) -> None:
    with opened("quillmere-best.html", scripts=False) as it:
        metric, us = it.page.locator("main .metric").first, it.page.locator("main .us").first
        for choice, seen in (("US", us), ("metric", metric)):
            it.page.get_by_label(choice, exact=True).check()
            assert [one.is_visible() for one in (metric, us)] == [one is seen for one in (metric, us)]


def test_a_choice_of_units_holds_on_pages_that_do_not_ask(opened: Open) -> None:
    with opened("quillmere-best.html") as it:
        it.page.get_by_label("US", exact=True).check()
        it.page.get_by_role("navigation", name="Book").get_by_role("link", name="Beers").click()
        assert it.page.locator("#units").count() == 0
        it.page.get_by_text("More to choose by").click()
        assert it.page.locator("main .us").first.is_visible()
        assert it.page.locator("main .metric").first.is_hidden()


def test_a_reader_can_choose_one_system_of_units_and_it_stays(opened: Open) -> None:
    with opened("quillmere-best.html") as it:
        metric, us = it.page.locator("main .metric").first, it.page.locator("main .us").first
        assert metric.is_visible()
        assert us.is_hidden()
        it.page.get_by_label("US", exact=True).check()
        assert us.is_visible()
        assert metric.is_hidden()
        it.page.reload()
        assert it.page.locator("main .us").first.is_visible()
        assert it.page.locator("main .metric").first.is_hidden()
        it.page.get_by_label("metric", exact=True).check()
        assert it.page.locator("main .metric").first.is_visible()
        assert it.page.locator("main .us").first.is_hidden()


def test_a_figure_leads_to_its_working_and_the_working_back(opened: Open) -> None:
    with opened("quillmere-best.html") as it:
        figure = it.page.locator(".glance a.figure").first
        number = figure.inner_text().split()[0]
        figure.click()
        assert "/quillmere-best/working.html#" in it.page.url
        assert number in it.page.locator(":target").inner_text()
        it.page.go_back()
        assert it.page.url.endswith("/quillmere-best.html")


def test_the_sizes_of_a_beer_can_be_scrolled_by_keys_and_the_page_does_not(opened: Open) -> None:
    with opened("quillmere-best/figures.html", width=320) as it:
        region = it.page.locator(".scroll:has(#table-editions)")
        region.focus()
        assert region.evaluate("it => it.scrollWidth > it.clientWidth")
        for _ in range(20):
            it.page.keyboard.press("ArrowRight")
        it.page.wait_for_timeout(500)  # it glides
        assert region.evaluate("it => it.scrollLeft") > 0
        assert overflow(it.page) == []
        name = it.page.locator("#table-editions tbody th").first.bounding_box()
        assert name is not None
        assert name["x"] >= 0  # what a row is stays in sight


def test_a_reader_finds_another_size_and_the_way_back_without_a_script(opened: Open) -> None:
    with opened("quillmere-best.html", scripts=False) as it:
        it.page.get_by_role("link", name="One 22 L pot and a bag, from grain").click()
        assert it.page.url.endswith("/quillmere-best/10-l-in-stove.html")
        assert "10 L in the stove brewhouse" in it.page.locator("h1").inner_text().replace("\N{NO-BREAK SPACE}", " ")
        it.page.get_by_role("link", name="the recipe as it was written").first.click()
        assert it.page.url.endswith("/quillmere-best.html")


PHONE, AT_FIRST, LONGEST, OPENED = (360, 740), 8, 9, 25
"""A small phone; screens that a recipe may take of it as it is first seen, one of the book, and with all opened."""
TALL = "document.documentElement.scrollHeight"


def test_a_recipe_is_a_few_screens_of_a_phone(opened: Open, site: Path) -> None:
    """Every recipe and every edition; what is folded is far less than what is told."""
    brews = [*the_demo.SLUGS, *(f"{slug}/{it.edition.slug}" for slug in the_demo.SLUGS for it in the_demo.made(slug))]
    first, all_of_it = {}, {}
    for brew in brews:
        with opened(f"{brew}.html", width=PHONE[0]) as it:
            first[brew] = it.page.evaluate(TALL) / PHONE[1]
            it.page.evaluate("document.querySelectorAll('details').forEach(it => it.open = true)")
            all_of_it[brew] = it.page.evaluate(TALL) / PHONE[1]
    assert len(first) > 60
    over = {brew: screens for brew, screens in first.items() if screens > AT_FIRST}
    assert len(over) <= 1, over
    assert max(first.values()) <= LONGEST
    assert all(first[brew] < screens <= OPENED for brew, screens in all_of_it.items()), all_of_it


def test_a_figure_is_underlined_only_when_somebody_comes_near(opened: Open) -> None:
    with opened("quillmere-best.html") as it:
        figure = it.page.locator(".glance a.figure").first
        line = "it => getComputedStyle(it).textDecorationColor"
        assert figure.evaluate(line) == "rgba(0, 0, 0, 0)"
        assert style(it.page, ".glance a.figure", "color") != style(it.page, "main", "color"), "and yet is told apart"
        it.page.keyboard.press("Tab")
        figure.focus()
        assert figure.evaluate(line) != "rgba(0, 0, 0, 0)"
        figure.evaluate("it => it.blur()")
        figure.hover()
        assert figure.evaluate(line) != "rgba(0, 0, 0, 0)"


def test_the_letters_of_a_chart_are_large_enough_on_a_phone_and_a_chart_not_too_large_elsewhere(opened: Open) -> None:
    for page in ("quillmere-best.html", "quillmere-best/figures.html", "learning/malt-to-gravity.html"):
        with opened(page, width=PHONE[0]) as it:
            letters = it.page.evaluate(
                "[...document.querySelectorAll('svg.chart text')].map(it =>"
                " parseFloat(getComputedStyle(it).fontSize) * it.ownerSVGElement.getScreenCTM().a)"
            )
            assert letters, page
            assert min(letters) >= 12, page
        with opened(page) as it:
            rem = it.page.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)")
            widths = it.page.evaluate(
                "[...document.querySelectorAll('svg.chart')].map(it => it.getBoundingClientRect().width)"
            )
            assert max(widths) <= 30 * rem, page


def test_a_recipe_prints_on_four_sides_with_what_is_folded(opened: Open, beer: str) -> None:
    with opened(f"{beer}.html") as it:
        sides = it.page.pdf(format="A4").count(b"/Type /Page\n")
        assert 2 <= sides <= 4
        it.page.emulate_media(media="print")
        for folded in it.page.locator("details > :not(summary)").all():
            assert folded.is_visible()


def test_a_reader_finds_what_to_buy_for_a_chapter(opened: Open) -> None:
    with opened("index.html", scripts=False) as it:
        it.page.get_by_role("heading", name="First boils").get_by_role("link").click()
        assert it.page.url.endswith("/chapters/first-boils.html")
        assert not it.page.locator("table.buy").nth(1).is_visible()
        it.page.get_by_role("heading", name="10 L in the stove brewhouse").first.click()
        assert it.page.locator("table.buy").nth(1).is_visible()
