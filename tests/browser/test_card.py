"""The print card: one side of A5, whatever the recipe."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Any

import pytest

Open = Callable[..., AbstractContextManager[Any]]
PagesOf = Callable[[str], list[str]]

A5 = (148 / 25.4 * 72, 210 / 25.4 * 72)
"""ISO 216, in points."""


def printed(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height (points) of each page of a PDF, by its boxes."""
    boxes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", pdf)
    assert len(boxes) == len(re.findall(rb"/Type\s*/Page\b", pdf))
    return [(float(width), float(height)) for width, height in boxes]


def cards(pages: list[str]) -> list[str]:
    """Of a beer's pages those to print: the recipe's own card, and one for each edition."""
    found = [page for page in pages if page.endswith(("/card.html", "-card.html"))]
    assert len(found) >= 3
    return found


def test_every_card_of_a_beer_prints_on_one_side_of_a5_in_any_units(opened: Open, beer: str, pages_of: PagesOf) -> None:
    for card in cards(pages_of(beer)):
        with opened(card) as it:
            for units in ("both", "metric", "US"):
                it.page.get_by_label(units, exact=True).check()
                sizes = printed(it.page.pdf(prefer_css_page_size=True))
                assert len(sizes) == 1, (card, units)
                assert sizes[0] == pytest.approx(A5, abs=1.0)


def test_a_printed_card_has_no_links_to_click_and_no_choices(opened: Open, beer: str, pages_of: PagesOf) -> None:
    for card in cards(pages_of(beer)):
        with opened(card) as it:
            it.page.emulate_media(media="print")
            assert it.page.locator(".card").is_visible()
            for screen_only in ("nav", "#units", ".screen-only", ".colophon"):
                assert it.page.locator(screen_only).first.is_hidden(), (card, screen_only)
            assert it.page.evaluate("document.querySelector('.card').scrollWidth <= innerWidth"), card


def test_a_recipe_s_page_prints_its_text_too(opened: Open) -> None:
    with opened("quillmere-best.html") as it:
        assert len(printed(it.page.pdf(prefer_css_page_size=True))) >= 2
