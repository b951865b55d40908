"""The print cards: one side of A5 or of half a US letter, whatever the recipe."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Any

import pytest

Open = Callable[..., AbstractContextManager[Any]]
PagesOf = Callable[[str], list[str]]

PAPERS = {
    r"card\.html": (148 / 25.4 * 72, 210 / 25.4 * 72),
    r"card-half-letter\.html": (5.5 * 72, 8.5 * 72),
}
"""The end of a card's name, and its paper in points: ISO 216, and half of ANSI/ASME Y14.1's letter."""

SMALLEST_PX = 10.0
"""7.5 points: a reader with wet hands has no glasses on."""

INKED = """() => [...document.querySelectorAll('.card *')].filter(it => it.checkVisibility()
    && [...it.childNodes].some(node => node.nodeType === Node.TEXT_NODE && node.data.trim())
).map(it => parseFloat(getComputedStyle(it).fontSize))"""

CUT_OFF = """() => { const card = document.querySelector('.card');
    return [card.scrollHeight - card.clientHeight, card.scrollWidth - innerWidth]; }"""


def printed(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height (points) of each page of a PDF, by its boxes."""
    boxes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", pdf)
    assert len(boxes) == len(re.findall(rb"/Type\s*/Page\b", pdf))
    return [(float(width), float(height)) for width, height in boxes]


def cards(pages: list[str], end: str) -> list[str]:
    """Of a beer's pages those to print on one paper: the recipe's own card first, then one for each edition."""
    found = [page for page in pages if re.search(rf"[/-]{end}$", page)]
    assert len(found) >= 3
    return sorted(found, key=lambda page: (not re.search(rf"/{end}$", page), page))


@pytest.mark.parametrize("end", PAPERS)
def test_every_card_of_a_beer_prints_on_one_side_of_its_paper(
    opened: Open, beer: str, pages_of: PagesOf, end: str
) -> None:
    """With both systems of units, which take the most room; the recipe's own card with either alone, too."""
    home, *editions = cards(pages_of(beer), end)
    for card, choices in ((home, ("both", "metric", "US")), *((edition, ("both",)) for edition in editions)):
        with opened(card) as it:
            for units in choices:
                it.page.get_by_label(units, exact=True).check()
                sizes = printed(it.page.pdf(prefer_css_page_size=True))
                assert len(sizes) == 1, (card, units)
                assert sizes[0] == pytest.approx(PAPERS[end], abs=1.0)


@pytest.mark.parametrize("end", PAPERS)
def test_a_printed_card_can_be_read_is_whole_and_has_no_links_to_click_and_no_choices(
    opened: Open, beer: str, pages_of: PagesOf, end: str
) -> None:
    """The type is no smaller than 7.5 points, and all but the room for notes has its place on the paper."""
    for card in cards(pages_of(beer), end):
        with opened(card, width=480) as it:
            it.page.emulate_media(media="print")
            assert it.page.locator(".card").is_visible()
            assert min(it.page.evaluate(INKED)) >= SMALLEST_PX, card
            down, across = it.page.evaluate(CUT_OFF)
            assert down <= 0, card
            assert across <= 0, card
            for screen_only in ("nav", "#units", ".screen-only", ".colophon"):
                assert it.page.locator(screen_only).first.is_hidden(), (card, screen_only)


def test_a_packet_s_grams_are_on_the_metric_paper_and_its_ounces_on_the_us_one(opened: Open) -> None:
    for end, unit in (("card", ".metric"), ("card-half-letter", ".us")):
        with opened(f"quillmere-best/{end}.html") as it:
            it.page.emulate_media(media="print")
            shown = it.page.locator(".packets td :is(.metric, .us):visible")
            assert shown.count() == it.page.locator(f".packets td {unit}").count() > 0
            assert shown.first.evaluate("it => it.className") == unit.removeprefix(".")


def test_a_recipe_s_page_prints_its_text_too(opened: Open) -> None:
    with opened("quillmere-best.html") as it:
        assert len(printed(it.page.pdf(prefer_css_page_size=True))) >= 2
