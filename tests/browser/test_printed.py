"""What the pages of a beer become on paper: few sides, and on them all that can be folded away on a screen."""

from __future__ import annotations

import re
from pathlib import Path

from pypdf import PdfReader

SIDES = {"{beer}.html": 4, "{beer}/day.html": 6}
"""At most so many sides of A4."""


def test_a_recipe_and_its_day_print_on_few_sides(opened, beer: str, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    for page, most in SIDES.items():
        with opened(page.format(beer=beer)) as it:
            it.page.pdf(path=tmp_path / "sides.pdf", format="A4", prefer_css_page_size=True)
        assert 2 <= len(PdfReader(tmp_path / "sides.pdf").pages) <= most, page


def test_the_day_on_paper_has_every_caution_and_table_that_a_screen_folds(opened, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    """As it was first opened, one step at a time too: nobody unfolds paper."""
    with opened("quillmere-best/day.html") as it:
        folded = it.page.locator(".more-care p, .look-up td, .cases td").all_text_contents()
        steps = it.page.locator(".doing h3").all_text_contents()
        it.page.check("input[name=shown][value=one]")
        it.page.emulate_media(media="print")
        it.page.pdf(path=tmp_path / "day.pdf", format="A4")
    said = "".join(page.extract_text() for page in PdfReader(tmp_path / "day.pdf").pages)
    said = re.sub(r"\s+", "", said)
    assert len(folded) > 40
    for words in (*folded, *steps):
        told = re.sub(r"\s+", "", re.sub(r" \([^)]*(?:gal|oz|°F|qt)[^)]*\)", "", words))
        assert told in said, words
