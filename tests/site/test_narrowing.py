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


def test_what_is_from_grain_as_written_leads_to_its_smallest_edition_from_extract(demo) -> None:  # type: ignore[no-untyped-def]
    for entry in demo.pages["index.html"].select(".entry:not(.again)"):
        slug = entry.h3.a["href"].removesuffix(".html")
        led = [link["href"] for link in entry.select("a.extract")]
        if "extract" not in keys_of(demo.plan(slug), ()) and "extract" in entry["data-is"].split():
            assert led == [f"{slug}/extract-10-l-in-pot.html"]  # the only edition of the book from extract
        else:
            assert led == []


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
    ruled = re.findall(r'body:has\(#by-([\w-]+):checked\) \[data-is\]:not\(\[data-is~="\1"\]\)', sheet)
    listed = [option["id"].removeprefix("by-") for option in demo.pages["index.html"].select("#narrow option[id]")]
    assert ruled == [*KEYS, *listed]
    assert len(set(ruled)) == len(ruled)


def test_what_goes_into_several_beers_and_what_style_they_are_of_can_be_chosen(demo) -> None:  # type: ignore[no-untyped-def]
    """Each by hand: the beers whose recipes name the thing, and nothing that one beer or every beer answers to."""
    page = demo.pages["index.html"]
    borne = {entry.h3.a["href"].removesuffix(".html"): entry["data-is"].split() for entry in page.select(".entry")}
    chosen = {option["value"]: option for option in page.select("#narrow option[id]")}
    assert "smoked-malt" not in chosen
    wanted = {
        "fuggle": {slug for slug in borne if "fuggle" in goes_in(demo, slug)},
        "pale-ale-malt": {slug for slug in borne if "pale ale malt" in goes_in(demo, slug)},
        "british-golden-ale": {"doorstep-ale", "tuesday-tin"},
    }
    for value, beers in wanted.items():
        option = chosen[value]
        key = option["id"].removeprefix("by-")
        assert {slug for slug, keys in borne.items() if key in keys} == beers, value
        assert option.get_text().endswith(f"({len(beers)})")
    for option in chosen.values():
        assert 1 < int(option.get_text().rpartition("(")[2].rstrip(")")) < len(borne)
    groups = [group["label"] for group in page.select("#with optgroup")]
    assert groups[0] == "Malts and grains"
    assert [group["label"] for group in page.select("#style optgroup")] == ["Families", "Styles"]


def goes_in(demo, slug: str) -> set[str]:  # type: ignore[no-untyped-def]
    recipe = demo.plan(slug).recipe
    return {line.name.lower() for line in (*recipe.malts, *recipe.hops)}


def test_nothing_is_asked_where_there_is_nothing_to_choose() -> None:
    assert narrowings([("grain",)] * 3) == ()
    assert narrowings([("grain", "pale")] * 9) == ()
    (only,) = narrowings([("grain", "pale")] * 8 + [("grain", "dark")])
    assert only.name == "colour"
    assert [(key, count) for key, _, count in only.choices] == [("pale", 8), ("dark", 1)]
    assert [facet.name for facet in FACETS if facet.first] == ["from", "colour", "strength"]
