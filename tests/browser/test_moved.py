"""Addresses of earlier versions, in a browser: they lead on, with a script and without, and take the place along."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

import pytest

Open = Callable[..., AbstractContextManager[Any]]

OLD, NEW = "quillmere-best/card-half-letter.html", "quillmere-best/card.html"


@pytest.mark.parametrize("scripts", [True, False])
def test_an_old_address_leads_on_with_a_script_and_without(opened: Open, scripts: bool) -> None:
    with opened(OLD, scripts=scripts) as it:
        it.page.wait_for_url(f"**/{NEW}")
        assert it.page.locator("article.card").is_visible()
        assert [words for words in it.complaints if not words.startswith("not loaded")] == []  # it left in between


@pytest.mark.parametrize(
    ("asked", "prefix", "place"),
    [
        ("", "", ""),
        ("#do", "", "#do"),
        ("#colour", "10-l-in-stove", "#10-l-in-stove.colour"),
        ("#k%C3%B6lsch", "", "#k%C3%B6lsch"),
    ],
)
def test_an_old_address_takes_the_place_on_its_page_along(
    opened: Open, site: Path, asked: str, prefix: str, place: str
) -> None:
    """A page that joined another has its anchors there behind a prefix."""
    page = (site / OLD).read_text("utf-8").replace('<a id="moved"', f'<a id="moved" data-prefix="{prefix}"')
    (site / "quillmere-best" / "joined.html").write_text(page, encoding="utf-8")
    try:
        with opened("index.html") as it:
            it.page.goto((site / "quillmere-best" / "joined.html").as_uri() + asked)
            it.page.wait_for_url(f"**/{NEW}{place}")
    finally:
        (site / "quillmere-best" / "joined.html").unlink()
