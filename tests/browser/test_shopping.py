"""A shopping list is ticked off, added up for the beers that are chosen, and printed with every row under its head."""

from __future__ import annotations

import re
from pathlib import Path

from pypdf import PdfReader

CHAPTER = "chapters/borrowed-accents.html"


def rows(page) -> dict[str, str]:  # type: ignore[no-untyped-def]
    """What the open list says, by the name of each box."""
    told = page.locator("details[open] tr[data-of]:visible")
    return {row.locator("input").get_attribute("name"): row.inner_text() for row in told.all()}


def kilograms(page, malt: str) -> float:  # type: ignore[no-untyped-def]
    (told,) = (text for name, text in rows(page).items() if malt in name)
    (number,) = re.findall(r"([\d.]+)\s*kg", told)
    return float(number)


def test_a_tick_stays_and_can_be_taken_off(opened) -> None:  # type: ignore[no-untyped-def]
    with opened("quillmere-best/buy.html", width=360) as it:
        it.page.locator(".box input").nth(1).check()
        it.page.reload()
        assert [box.is_checked() for box in it.page.locator(".box input").all()[:3]] == [False, True, False]
        it.page.get_by_role("button", name="Untick all").click()
        it.page.reload()
        assert it.page.locator(".box input:checked").count() == 0
        assert it.complaints == []


def test_a_list_is_added_up_for_the_beers_that_are_chosen(opened) -> None:  # type: ignore[no-untyped-def]
    """The weights of a beer's own list are what is left when it alone is chosen, and what goes when it is not."""
    with opened("damsel-wheat/buy.html") as it:
        own = it.page.locator("table.buy").inner_text()
        (alone,) = re.findall(r"([\d.]+)\s*kg\s+Pilsner malt", own)
        paid = it.page.locator(".total td").inner_text()
    with opened(CHAPTER) as it:
        whole, all_of_it = rows(it.page), kilograms(it.page, "Pilsner malt")
        chooser = it.page.locator("details[open] .whose input")
        chooser.first.uncheck()
        assert abs(kilograms(it.page, "Pilsner malt") - (all_of_it - float(alone))) <= 0.06  # steps of 50 g above 10 kg
        for box in chooser.all():
            box.uncheck()
        assert rows(it.page) == {}
        chooser.first.check()
        assert abs(kilograms(it.page, "Pilsner malt") - float(alone)) <= 0.01
        assert it.page.locator("details[open] .total td").inner_text() == paid
        it.page.reload()
        assert 0 < len(rows(it.page)) < len(whole)
        for box in chooser.all():
            box.check()
        assert rows(it.page) == whole
        assert it.complaints == []


def test_without_scripts_the_list_of_the_chapter_stands_there(opened) -> None:  # type: ignore[no-untyped-def]
    with opened(CHAPTER, scripts=False) as it:
        assert len(rows(it.page)) > 20
        assert it.page.locator(".whose:visible, .untick:visible").count() == 0


def test_no_printed_page_has_the_head_or_the_sum_of_a_list_without_its_rows(opened, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    with opened(CHAPTER) as it:
        it.page.pdf(path=tmp_path / "list.pdf", format="A5")
    texts = [page.extract_text() for page in PdfReader(tmp_path / "list.pdf").pages]
    assert len(texts) > 2
    assert sum("In all" in text for text in texts) == 1
    for text in texts:
        head = text.find("How much")
        assert len(re.findall(r"\d+ (?:kg|g|mL|packs)\b", text.replace("\xa0", " ")[max(head, 0) :])) >= 2, text


def test_a_beer_s_list_prints_on_one_side(opened, beer: str, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    with opened(f"{beer}/buy.html") as it:
        it.page.pdf(path=tmp_path / "list.pdf", format="A4")
    assert len(PdfReader(tmp_path / "list.pdf").pages) == 1
