"""The front page in a browser: beers are narrowed without a script, and with one counted anew and kept by address."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Any

import pytest

Open = Callable[..., AbstractContextManager[Any]]

ASKED = (("from", "extract"), ("colour", "pale"), ("strength", "small"))


def seen(it: Any) -> list[str]:
    return it.page.locator(".entry:visible h3").all_inner_texts()


@pytest.mark.parametrize("scripts", [True, False])
def test_a_pale_small_beer_from_extract_is_found_in_three_touches(opened: Open, scripts: bool) -> None:
    with opened("index.html", width=360 if scripts else 1280, scripts=scripts) as it:
        every = it.page.locator(".entry:visible")
        assert every.count() > 15
        made = it.page.locator(".entry:visible > a.extract")
        assert not made.first.is_visible()
        for name, key in ASKED:
            it.page.locator(f"#narrow input[name={name}][value={key}]").check()
        borne = [entry.get_attribute("data-is").split() for entry in every.all()]
        assert 1 <= len(borne) < 8
        assert all({"pale", "small", "extract"} <= set(keys) for keys in borne)
        assert not it.page.get_by_role("heading", name="First boils").is_visible()
        assert made.first.is_visible()
        assert made.first.get_attribute("href").endswith("/extract-10-l-in-pot.html")
        it.page.get_by_role("button", name="All").click()
        assert every.count() > 15
        assert it.complaints == []


@pytest.mark.parametrize("scripts", [True, False])
def test_a_beer_is_found_by_what_goes_in_and_by_its_style(opened: Open, scripts: bool) -> None:
    with opened("index.html", width=360, scripts=scripts) as it:
        it.page.locator(".choose > summary").click()
        it.page.get_by_text("More to choose by").click()
        it.page.locator("#with").select_option("fuggle")
        with_fuggle = seen(it)
        assert "Quillmere Best" in with_fuggle
        assert 1 < len(with_fuggle) < 10
        it.page.locator("#by-dark").check()
        assert 0 < len(seen(it)) < len(with_fuggle)
        if scripts:
            assert it.page.locator('#with [value="fuggle"]').inner_text() == f"Fuggle ({len(seen(it))})"
            assert "with=fuggle" in it.page.url
            it.page.reload()
            assert it.page.locator("#with").input_value() == "fuggle"
            assert it.page.locator("#with").is_visible()
        it.page.get_by_role("button", name="All").click()
        assert len(seen(it)) > 15
        it.page.locator("#style").select_option("british-golden-ale")
        assert seen(it) == ["Doorstep Ale", "Tuesday Tin"]
        assert it.complaints == []


def test_a_pot_counts_the_brews_that_need_no_more_as_soon_as_its_page_is_there(opened: Open) -> None:
    with opened("pots.html") as it:
        rows = it.page.locator("tr[data-is]")
        keys = [row.get_attribute("data-is").split() for row in rows.all()]
        for choice in it.page.locator("#narrow label:has(.count)").all():
            key = choice.locator("input").get_attribute("id").removeprefix("by-")
            count = sum(key in its for its in keys)
            assert choice.locator(".count").inner_text() == str(count) != "0"
        it.page.locator("#by-pot-15").check()
        it.page.locator("#by-bag").check()
        shown = it.page.evaluate(
            "() => [...document.querySelectorAll('.needs')].map(it => [it.querySelector('h2').innerText,"
            " getComputedStyle(it.querySelector('summary span'), '::after').content])"
        )
        assert [title for title, words in shown if "not with yours" in words]
        assert all("grain" in title for title, words in shown if "not with yours" in words)
        assert it.complaints == []


def test_a_script_counts_what_is_left_and_says_where_nothing_is(opened: Open) -> None:
    with opened("index.html") as it:
        it.page.locator("#by-dark").check()
        left = len(seen(it))
        assert it.page.locator("output").inner_text() == f"{left} of 21"
        offered = {label.locator("input").get_attribute("id"): int(label.locator(".count").text_content())
                   for label in it.page.locator("#narrow label:has(.count)").all()}  # fmt: skip
        none = [key for key, count in offered.items() if not count and key != "by-dark"]
        assert none
        assert offered["by-dark"] == left
        it.page.locator("details", has=it.page.locator(f"#{none[0]}")).last.evaluate("it => { it.open = true; }")
        it.page.locator(f"#{none[0]}").check()
        assert seen(it) == []
        assert "No beer" in it.page.locator("output").inner_text()


def test_on_a_phone_the_choice_is_one_line_and_the_first_beers_stand_on_the_first_screen(opened: Open) -> None:
    with opened("index.html", width=360) as it:
        assert not it.page.locator("#by-pale").is_visible()
        assert it.page.locator(".entry h3").first.bounding_box()["y"] < 740
        it.page.locator(".choose > summary").click()
        it.page.locator("#by-pale").check()
        assert it.page.locator("output").is_visible()
