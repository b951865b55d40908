"""By what the front page is narrowed: every beer bears the keys that its own figures and its editions answer to."""

from __future__ import annotations

import re

from gristbook.site.book.narrowing import FACETS, KEYS, keys_of, narrowings


def test_a_beer_bears_the_keys_of_its_figures(demo) -> None:  # type: ignore[no-untyped-def]
    """Read from the plans by hand: the ordinary bitter of the demo, and its tin of hopped malt."""
    best, tin, lager = (keys_of(demo.plan(it), ()) for it in ("quillmere-best", "tuesday-tin", "tailrace-pils"))
    assert set(best) == {"grain", "amber", "small", "hoppy", "pot-40", "month", "room"}
    assert {"extract", "small"} <= set(tin)
    assert "grain" not in tin
    assert {"cool", "season", "pale"} <= set(lager)


def test_one_edition_from_extract_or_for_a_small_pot_is_enough(demo) -> None:  # type: ignore[no-untyped-def]
    entries = {entry.h3.a["href"]: entry for entry in demo.pages["index.html"].select(".entry")}
    borne = entries["quillmere-best.html"]["data-is"].split()
    assert {"grain", "extract", "pot-15"} <= set(borne)


def test_each_choice_says_how_many_beers_answer_to_it(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.pages["index.html"]
    borne = [entry["data-is"].split() for entry in page.select(".entry:not(.again)")]
    assert len(borne) == len(demo.plans)
    shown = page.select("#narrow input[id]")
    assert len(shown) > 10
    for choice in shown:
        count = int(choice.parent.find(class_="count").get_text())
        assert count == sum(choice["value"] in keys for keys in borne) > 0


def test_the_style_sheet_hides_by_every_key_and_by_no_other(demo) -> None:  # type: ignore[no-untyped-def]
    sheet = demo.files["style.css"].decode()
    ruled = re.findall(r'body:has\(#by-([\w-]+):checked\) :is\(\[data-is\]:not\(\[data-is~="\1"\]\)', sheet)
    assert tuple(ruled) == KEYS
    assert len(set(KEYS)) == len(KEYS)


def test_nothing_is_asked_where_there_is_nothing_to_choose() -> None:
    assert narrowings([("grain",)] * 3) == ()
    assert narrowings([("grain", "pale")] * 9) == ()
    (only,) = narrowings([("grain", "pale")] * 8 + [("grain", "dark")])
    assert only.name == "colour"
    assert [(key, count) for key, _, count in only.choices] == [("pale", 8), ("dark", 1)]
    assert [facet.name for facet in FACETS if facet.first] == ["from", "colour", "strength"]
