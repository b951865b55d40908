"""Where no grain is mashed, no stage is called a mash and no table a grist, and nothing is boiled for no time."""

from __future__ import annotations

import re
from typing import Any

import pytest


def unmashed(demo: Any) -> list[Any]:
    """What is brewed in a book without a mash, tins and steeped grain, and editions of them: page, figures and day."""
    found = []
    for path, study in demo.pages.items():
        if study.find(id="table-grist") and not study.find(id="table-mash"):
            own = "" if path.endswith("/figures.html") else "-"
            at = path.removesuffix(f"{own or '/'}figures.html")
            found.append((demo.pages[f"{at}.html"], study, demo.pages[f"{at}{own or '/'}day.html"]))
    return found


def test_what_is_not_mashed_has_no_mash_and_no_grist(demo: Any) -> None:
    pages = unmashed(demo)
    assert len(pages) > 10
    for page, study, day in pages:
        name = page.h1.get_text()
        stages = {stage.get_text() for stage in day.select(".stage")}
        assert "Mash" not in stages, name
        assert len(stages & {"Steep", "Water"}) == 1, name
        assert "Mash" not in {stage.get_text() for stage in page.select(".stages dt")}, name
        told = [it for of in (page, study, day) for it in of.select("caption, th[colspan], h2, h3")]
        headings = [it.get_text().casefold() for it in told]
        assert not [words for words in headings if "grist" in words or "mash" in words], name


@pytest.mark.parametrize(
    ("slug", "caption"),
    [("tuesday-tin", "Extract and sugar"), ("lamplighter-amber", "Extract and grain"), ("doorstep-ale", "The grist")],
)
def test_a_list_of_what_brings_extract_is_called_what_it_is(demo: Any, slug: str, caption: str) -> None:
    assert demo.pages[f"{slug}/figures.html"].select_one("#table-grist caption").get_text() == caption
    assert demo.pages[f"{slug}.html"].select_one("#grist").find_previous("h3").get_text() == caption


def test_a_label_is_quoted_for_a_whole_tin_only(demo: Any) -> None:
    said = {}
    for path, page in demo.pages.items():
        words = page.get_text(" ", strip=True).replace("\xa0", " ")
        if path.startswith("tuesday-tin") and page.find(id="grist") and "by its label" in words:
            said[path] = "1.70 kg" in words and re.search(r"brings 26 IBU in [^,]*20 L", words) is not None
    assert len(said) == 3  # as written, 20 L in the stove, 5 gallons in the garage
    assert all(said.values()), said
    refused = " ".join(it.get_text() for it in demo.pages["tuesday-tin.html"].select(".refused"))
    assert refused.count("a hopped tin is bought whole, and 10 L would want 0.5 of it: 20 L would do") == 2


def test_nothing_is_boiled_for_no_time(demo: Any) -> None:
    for path, page in demo.pages.items():
        words = page.get_text(" ", strip=True).replace("\xa0", " ")
        assert not re.search(r"\b(boil|last|dry) 0 (h|min|days)", words), path
