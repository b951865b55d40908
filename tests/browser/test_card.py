"""The print cards: one side of A5 and of half a US letter, whatever the recipe."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

import pytest

Open = Callable[..., AbstractContextManager[Any]]
PagesOf = Callable[[str], list[str]]

PAPERS = {"A5": (148.0, 210.0), "half a letter": (139.7, 215.9)}
"""Width and height in mm: ISO 216, and half of ANSI/ASME Y14.1's letter, 5.5 × 8.5 in."""

ON_BOTH = tuple(map(min, *PAPERS.values()))

SMALLEST_PX = 10.0
"""7.5 points: a reader with wet hands has no glasses on."""

ROOM_MM = 25.0
"""What is left at least to write what happened: three lines and their heading."""

INKED = """() => [...document.querySelectorAll('.card *')].filter(it => it.checkVisibility()
    && [...it.childNodes].some(node => node.nodeType === Node.TEXT_NODE && node.data.trim())
).map(it => parseFloat(getComputedStyle(it).fontSize))"""

LAID_OUT = """() => { const mm = 25.4 / 96, card = document.querySelector('.card'), box = card.getBoundingClientRect();
    const out = [...card.querySelectorAll('*')].map(it => it.getBoundingClientRect()).filter(it => it.width
        && (it.left < box.left - 0.5 || it.right > box.right + 0.5 || it.bottom > box.bottom + 0.5)).length;
    return { out, over: card.scrollHeight - card.clientHeight, width: box.width * mm, height: box.height * mm,
        room: document.querySelector('.notes').getBoundingClientRect().height * mm }; }"""

MARGINS = r"@page card { margin: ([\d.]+)mm ([\d.]+)mm; }"
"""Those above and below, and those at the sides: a page on a disk may not read its own style sheet."""


def printed(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height (mm) of each page of a PDF, by its boxes."""
    boxes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", pdf)
    assert len(boxes) == len(re.findall(rb"/Type\s*/Page\b", pdf))
    return [(float(width) / 72 * 25.4, float(height) / 72 * 25.4) for width, height in boxes]


def on(page: Any, paper: tuple[float, float], **how: bool) -> list[tuple[float, float]]:
    """A page printed on a paper."""
    width, height = paper
    return printed(page.pdf(width=f"{width}mm", height=f"{height}mm", **how))


def cards(pages: list[str]) -> list[str]:
    """Of a beer's pages the cards: the recipe's own first, then one for each edition."""
    found = [page for page in pages if re.search(r"[/-]card\.html$", page)]
    assert len(found) >= 3
    return sorted(found, key=lambda page: (not page.endswith("/card.html"), page))


@pytest.fixture(scope="session")
def longest(site: Path, all_pages: list[str]) -> list[str]:
    """The three cards that have the most to weigh and to do."""
    lines = {page: (site / page).read_text("utf-8") for page in all_pages if page.endswith("card.html")}
    return sorted(lines, key=lambda page: len(re.findall("<li>|<dt>|<tr>", lines[page])))[-3:]


@pytest.mark.parametrize("paper", PAPERS)
def test_every_card_of_a_beer_prints_on_one_side_of_either_paper(
    opened: Open, beer: str, pages_of: PagesOf, paper: str
) -> None:
    """In the units that it comes in, and the recipe's own card in the others, too."""
    home, *editions = cards(pages_of(beer))
    for card, choices in ((home, ("metric", "US")), *((edition, ("",)) for edition in editions)):
        with opened(card) as it:
            for units in choices:
                if units:
                    it.page.get_by_label(units, exact=True).check()
                assert on(it.page, PAPERS[paper]) == [pytest.approx(PAPERS[paper], abs=0.4)], (card, units)


def test_the_longest_cards_print_whole_on_one_side_of_either_paper_and_of_what_both_have(
    opened: Open, longest: list[str]
) -> None:
    """However a browser takes the size of the paper; nothing stands outside of it, and there is room to write."""
    for card in longest:
        with opened(card) as it:
            for paper in (*PAPERS.values(), ON_BOTH):
                for by_the_page in (True, False):
                    sides = on(it.page, paper, prefer_css_page_size=by_the_page)
                    assert sides == [pytest.approx(paper, abs=0.4)], (card, paper)
            it.page.emulate_media(media="print")
            laid = it.page.evaluate(LAID_OUT)
            assert (laid["out"], laid["over"]) == (0, 0), card
            assert laid["room"] >= ROOM_MM, card


def test_a_card_has_its_place_on_a_sheet_as_narrow_as_one_paper_and_as_low_as_the_other(
    opened: Open, site: Path
) -> None:
    """With its margins; a card that is wider would be printed smaller, and nobody would be told."""
    with opened("quillmere-best/card.html") as it:
        it.page.emulate_media(media="print")
        laid = it.page.evaluate(LAID_OUT)
        ((ends, sides),) = re.findall(MARGINS, (site / "style.css").read_text("utf-8"))
        assert 100 < laid["width"] <= ON_BOTH[0] - 2 * float(sides)
        assert 150 < laid["height"] <= ON_BOTH[1] - 2 * float(ends)


def test_a_printed_card_can_be_read_is_whole_and_has_no_links_to_click_and_no_choices(
    opened: Open, beer: str, pages_of: PagesOf
) -> None:
    """The type is no smaller than 7.5 points, and all but the room for notes has its place on the paper."""
    for card in cards(pages_of(beer)):
        with opened(card, width=480) as it:
            it.page.emulate_media(media="print")
            assert it.page.locator(".card").is_visible()
            assert min(it.page.evaluate(INKED)) >= SMALLEST_PX, card
            laid = it.page.evaluate(LAID_OUT)
            assert (laid["out"], laid["over"]) == (0, 0), card
            assert laid["room"] >= ROOM_MM, card
            for screen_only in ("nav", "#units", ".screen-only", ".colophon"):
                assert it.page.locator(screen_only).first.is_hidden(), (card, screen_only)


def test_what_is_weighed_from_another_packet_is_on_paper_in_the_units_of_the_page(opened: Open) -> None:
    """There is no room for both; a reader who chooses has his own."""
    for card, choice, unit in (
        ("card", "", "metric"),
        ("5-gal-in-garage-card", "", "us"),
        ("card", "US", "us"),
        ("5-gal-in-garage-card", "metric", "metric"),
    ):
        with opened(f"quillmere-best/{card}.html") as it:
            if choice:
                it.page.get_by_label(choice, exact=True).check()
            it.page.emulate_media(media="print")
            shown = it.page.locator(".packets td :is(.metric, .us):visible")
            assert shown.count() == it.page.locator(f".packets td .{unit}").count() > 0
            assert {mass.get_attribute("class") for mass in shown.all()} == {unit}


def test_every_link_of_a_card_has_room_for_a_finger(opened: Open) -> None:
    """WCAG 2.2, 2.5.8: 24 by 24 pixels for whatever stands in no sentence."""
    for width in (320, 1280):
        with opened("quillmere-best/card.html", width=width) as it:
            links = it.page.locator(".card table a")
            assert links.count() > 20
            for box in (link.bounding_box() for link in links.all()):
                assert box is not None
                assert min(box["width"], box["height"]) >= 24


def test_a_recipe_s_page_prints_its_text_too(opened: Open) -> None:
    with opened("quillmere-best.html") as it:
        assert len(printed(it.page.pdf(prefer_css_page_size=True))) >= 2
