"""The page to find things on, in a browser: what is asked in a stranger's words leads to the place that answers."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager
from typing import Any

import pytest

Open = Callable[..., AbstractContextManager[Any]]

ANSWERED: Mapping[str, tuple[str, ...]] = {
    "fuggles": ("ingredients/fuggle.html", "quillmere-best.html"),
    "MITTELFRUH": ("ingredients/hallertauer-mittelfruh.html",),
    "substitute fuggle": ("ingredients/fuggle.html",),
    "substitute": ("learning/choose-hops.html#if-the-shop-has-not-got-it",),
    "stand in": ("learning/choose-hops.html#if-the-shop-has-not-got-it",),
    "bottling": ("learning/packaging.html#the-bottles", "learning/first-brew-day.html#9-bottle-two-readings-later"),
    "priming sugar": ("learning/packaging.html#then-the-sugar", "glossary.html#priming"),
    "low gravity": ("learning/what-went-wrong.html#original-gravity-is-low",),
    "gravity too low": ("learning/what-went-wrong.html#gravity-before-the-boil-is-low",),
    "hydrometer low": ("learning/what-went-wrong.html#original-gravity-is-low",),
    "chiller": ("learning/first-brew-day.html#6-cool-30-minutes",),
    "cooler": ("learning/pitching-and-temperature.html#cool-first-pitch-after",),
    "wheat beers": ("damsel-wheat.html", "styles/weissbier.html"),
    "scalded": ("cautions.html",),
}


def ways(it: Any) -> list[str]:
    return [a.get_attribute("href") for a in it.page.locator(".find li:visible > a").all()]


def ask(it: Any, words: str) -> str:
    it.page.locator("#asked").fill(words)
    said: str = it.page.locator(".asked [role=status]").inner_text()
    return said


def test_what_a_stranger_asks_for_leads_to_what_answers(opened: Open) -> None:
    with opened("find.html", width=360) as it:
        every = len(ways(it))
        for words, answers in ANSWERED.items():
            said, found = ask(it, words), ways(it)
            assert said == f"{len(found)} found", words
            assert set(answers) <= set(found), words
            assert len(found) < every / 4, words
        assert it.complaints == []


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("fuggles", "ingredients/fuggle.html"),
        ("substitute", "learning/choose-hops.html#if-the-shop-has-not-got-it"),
        ("bottling", "learning/first-brew-day.html#9-bottle-two-readings-later"),
        ("wheat beers", "damsel-wheat.html"),
        ("stand in", "learning/choose-hops.html#if-the-shop-has-not-got-it"),
    ],
)
def test_what_is_called_so_comes_before_what_only_has_it(opened: Open, words: str, first: str) -> None:
    with opened("find.html") as it:
        before = ways(it)
        ask(it, words)
        assert ways(it)[0] == first
        ask(it, "")
        assert ways(it) == before, "what is asked no longer leaves nothing behind"


def test_every_way_that_is_found_leads_to_its_place(opened: Open) -> None:
    with opened("find.html") as it:
        ask(it, "gravity too low")
        it.page.locator(".find li:visible > a", has_text="Wort that is not as planned").click()
        assert it.page.locator(":target").first.inner_text().startswith("Wort that is not as pl")
        it.page.go_back()
        assert it.page.locator("#asked").input_value() == "gravity too low"
        ask(it, "substitute")
        it.page.locator(".find li:visible > a", has_text="What may be taken instead").click()
        assert it.page.locator("#instead").is_visible(), "what is folded opens"


def test_a_slip_of_the_finger_offers_the_nearest_to_press(opened: Open) -> None:
    with opened("find.html") as it:
        for slip, meant in (
            ("fugle", "Fuggle"),
            ("ufggle", "Fuggle"),
            ("uggle", "Fuggle"),
            ("challanger", "Challenger"),
        ):
            said = ask(it, slip)
            assert said.startswith(f"Nothing has “{slip}”.")
            assert ways(it) == []
            it.page.get_by_role("button", name=meant, exact=True).click()
            assert it.page.locator("#asked").input_value() == meant
            assert f"ingredients/{meant.lower()}.html" in ways(it)
        assert ask(it, "xylophone qqq") == "Nothing has “xylophone” or “qqq”."


def test_where_nothing_has_all_words_what_has_most_is_shown_and_said(opened: Open) -> None:
    with opened("find.html") as it:
        said = ask(it, "fuggle zzzz boil wallower")
        assert said == "Nothing has “zzzz”. 1 has 2 of the 4 words."
        assert ways(it) == ["wallower-porter.html"]


def test_a_figure_is_found_whole_and_a_beers_stand_beside_it(opened: Open) -> None:
    with opened("find.html") as it:
        ask(it, "33 IBU")
        lines = it.page.locator(".find li:visible").all_inner_texts()
        assert lines
        assert all("33\u00a0IBU" in line for line in lines)
        assert ask(it, "3 IBU").startswith("Nothing has all of these words."), "a three is no thirty-three"


def test_the_authors_own_money_leads_to_what_to_buy(opened: Open) -> None:
    with opened("find.html") as it:
        ask(it, "quills")
        (way,) = ways(it)
        assert way.endswith("/buy.html")
        it.page.goto(it.page.evaluate("document.querySelector('.find li:not([hidden]) a').href"))
        assert "quills" in it.page.locator("main, article").first.inner_text()


def test_what_is_asked_stays_in_the_address(opened: Open) -> None:
    with opened("find.html") as it:
        ask(it, "quillm be")
        it.page.reload()
        assert ways(it) == ["quillmere-best.html"]


def test_without_scripts_the_page_is_a_list_of_everything_that_leads_to_every_part(opened: Open) -> None:
    with opened("find.html", width=360, scripts=False) as it:
        assert not it.page.locator("#asked").is_visible()
        assert len(ways(it)) > 300
        assert it.page.get_by_role("link", name="Wort that is not as planned").is_visible()
        assert it.page.locator('.find a[href="ingredients/fuggle.html#what-can-stand-in"]').is_visible()
