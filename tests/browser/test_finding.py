"""From a pot to its brews, and the table of all beers, in a browser, with a script and without."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from io import BytesIO
from time import sleep
from typing import Any

import pytest
from PIL import Image

Open = Callable[..., AbstractContextManager[Any]]

RIGHT_END = """it => {
  const all = document.createRange();
  all.selectNodeContents(it);
  return all.getBoundingClientRect().right;
}"""
"""Where what stands in a cell ends."""


def shown(it: Any) -> list[Any]:
    return it.page.locator(".needs tbody tr:visible").all()


@pytest.mark.parametrize("scripts", [True, False])
def test_a_pot_and_a_bag_lead_to_what_can_be_brewed_and_how_full_it_will_be(opened: Open, scripts: bool) -> None:
    with opened("pots.html", width=360, scripts=scripts) as it:
        assert shown(it) == []
        it.page.locator("#by-pot-17").check()
        it.page.locator("#by-bag").check()
        rows = shown(it)
        assert 10 < len(rows) < 40
        for row in rows:
            assert float(row.get_attribute("data-least")) <= 17
            share = row.locator(".share:visible")
            assert share.count() == 1
            full = 100 * float(row.get_attribute("data-full")) / 17
            assert float(share.inner_text().split()[0]) == pytest.approx(full, abs=0.6)
        none = it.page.locator(".needs").filter(has=it.page.get_by_role("heading", name="One pot and a mash tun"))
        words = "it => getComputedStyle(it.querySelector('summary span'), '::after').content"
        assert none.evaluate(words) == '": not with yours"'
        assert none.locator("table:visible").count() == 0
        it.page.locator("#by-alone").check()
        assert 0 < len(shown(it)) < len(rows)
        it.page.get_by_role("button", name="All").click()
        assert it.complaints == []


def test_litres_typed_say_what_fits_how_full_and_what_the_next_larger_pot_would_add(opened: Open) -> None:
    with opened("pots.html") as it:
        every = it.page.locator(".needs tbody tr").count()
        it.page.locator("#by-pot-35").check()
        it.page.locator("#holds").fill("16.5")
        assert it.page.locator('[name=pot][value=""]').is_checked()
        rows = shown(it)
        assert 0 < len(rows) < every
        for row in rows:
            full = 100 * float(row.get_attribute("data-full")) / 16.5
            assert float(row.locator(".typed").inner_text().split()[0]) == pytest.approx(full, abs=0.6)
        hidden = [float(row.get_attribute("data-least")) for row in it.page.locator("tr[data-least][hidden]").all()]
        assert min(hidden) > 16.5
        told = it.page.locator(".told-pot").inner_text()
        assert told.startswith(f"{len(rows)} of {every} brews fit.")
        assert f"{min(hidden):g}" in told
        it.page.reload()
        assert it.page.locator("#holds").input_value() == "16.5"
        assert len(shown(it)) == len(rows)
        it.page.locator("#holds-in").select_option("US gallons")
        assert len(shown(it)) == every, "16.5 gallons are more than any brew needs"
        it.page.locator("#holds").fill("2")
        assert "Nothing of this book fits" in it.page.locator(".told-pot").inner_text()
        assert shown(it) == []
        it.page.locator("#by-pot-15").check()
        assert it.page.locator("#holds").input_value() == ""
        assert shown(it)
        assert it.complaints == []


def test_without_a_script_no_litres_are_asked_for_and_all_lists_can_be_opened(opened: Open) -> None:
    with opened("pots.html", scripts=False) as it:
        assert not it.page.locator("#holds").is_visible()
        it.page.get_by_role("heading", name="One pot and a bag, from grain").click()
        assert len(shown(it)) > 10


def test_the_table_is_sorted_by_the_column_whose_head_is_pressed_and_says_so(opened: Open) -> None:
    def column(it: Any, number: int) -> list[str]:
        return it.page.locator(f".sorted tbody td:nth-child({number})").all_inner_texts()

    with opened("table.html") as it:
        for key in ("Enter", "Space"):
            it.page.get_by_role("button", name="Strength").press(key)
            told = [float(words.split()[0]) for words in column(it, 2)]
            assert told == sorted(told, reverse=key == "Space")
            head = it.page.get_by_role("columnheader", name="Strength")
            assert head.get_attribute("aria-sort") == ("ascending" if key == "Enter" else "descending")
            assert it.page.locator("[aria-sort]").count() == 1
        it.page.get_by_role("button", name="Ready in").click()
        assert column(it, 7)[0].startswith("three")
        assert column(it, 7)[-1].endswith("months")
        it.page.get_by_role("button", name="Style").click()
        assert column(it, 5) == sorted(column(it, 5), key=str.casefold)
        it.page.get_by_role("button", name="Pot, from extract").click()
        pots = [cell.get_attribute("data-by") for cell in it.page.locator(".sorted tbody td:nth-child(8)").all()]
        some = [float(pot) for pot in pots if pot]
        assert some == sorted(some)
        assert pots[len(some) :] == [None] * (len(pots) - len(some)), "a beer that has no such size comes last"
        assert it.complaints == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("scripts", [True, False])
def test_on_a_phone_the_first_four_columns_fit_and_an_edge_says_that_more_is_beside(
    opened: Open, scheme: str, scripts: bool
) -> None:
    with opened("table.html", width=360, scheme=scheme, scripts=scripts) as it:
        frame = it.page.locator(".scroll")
        box = frame.bounding_box()
        heads = it.page.locator(".sorted thead th").all()
        assert [head.inner_text().split()[0] for head in heads[:4]] == ["Beer", "Strength", "Bitterness", "Colour"]
        for cell in it.page.locator(".sorted tr > :nth-child(4)").all():
            assert cell.evaluate(RIGHT_END) <= box["x"] + box["width"]
        assert heads[4].bounding_box()["x"] < box["x"] + box["width"], "the next looks out"
        assert it.page.get_by_text("More stands to the right").is_visible()

        def edge(side: int) -> int:
            """How far the ends of the empty line above the heads are from the paper, in the three colours."""
            shot = Image.open(BytesIO(frame.screenshot())).convert("RGB")
            at = shot.width - 1 if side > 0 else 0
            paper = Image.open(BytesIO(it.page.screenshot())).convert("RGB").getpixel((1, 1))
            return sum(abs(one - other) for one, other in zip(shot.getpixel((at, 2)), paper, strict=True))

        assert edge(1) > 100
        assert edge(-1) < 8
        frame.focus()
        for _ in range(20):
            it.page.keyboard.press("ArrowRight")
        for _ in range(50):  # it glides there
            if frame.evaluate("it => it.scrollLeft + it.clientWidth >= it.scrollWidth - 1"):
                break
            sleep(0.1)
        assert edge(1) < 8


@pytest.mark.parametrize("name", ["fuggle", "honey", "pale-ale-malt"])
def test_what_can_stand_in_begins_on_the_first_two_screens_of_a_phone(opened: Open, name: str) -> None:
    with opened(f"ingredients/{name}.html", width=360) as it:
        assert it.page.locator("#what-can-stand-in").bounding_box()["y"] < 2 * 740


def test_without_a_script_the_table_stands_by_names_and_has_nothing_to_press(opened: Open) -> None:
    with opened("table.html", width=360, scripts=False) as it:
        names = it.page.locator(".sorted tbody th").all_inner_texts()
        assert names == sorted(names, key=str.casefold)
        assert it.page.locator(".sorted button").count() == 0
        assert it.page.locator(".scroll").evaluate("it => it.scrollWidth > it.clientWidth")
