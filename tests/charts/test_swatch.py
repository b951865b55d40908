"""The colour swatch: the caller's colours, unchanged, and words beside them."""

import pytest

from gristbook.charts.swatch import colour_swatch

SPAN = ["#e6aa32", "#c86e00", "#aa4600", "#7d1900"]


def swatch(**changed):
    said = {
        "name": "s",
        "title": "Colour",
        "beer": "#c97000",
        "beer_label": "12 SRM, 24 EBC",
        "depth_cm": 7.5,
        "style_span": SPAN,
        "style_label": "best bitter, 8 to 16 SRM",
        "beer_place": 0.25,
    }
    return colour_swatch(**{**said, **changed})


def test_the_colours_given_are_the_colours_drawn_in_their_order(elements):
    fills = [e.get("fill") for e in elements(swatch(), "rect") if e.get("fill") != "none"]
    assert fills == ["#c97000", "#e6aa32", "#c86e00", "#aa4600", "#7d1900"]


def test_words_stand_on_the_page_and_never_on_the_beer(elements):
    svg = swatch()
    bands = [(float(e.get("y")), float(e.get("y")) + float(e.get("height"))) for e in elements(svg, "rect")]
    for e in elements(svg, "text"):
        assert e.get("fill") in {"var(--ink)", "var(--ink-soft)"}
        baseline = float(e.get("y"))
        assert not [band for band in bands if band[0] < baseline + 5 and baseline - 17 < band[1]]


def test_the_depth_is_said_under_the_beer(elements):
    texts = [e.text for e in elements(swatch(), "text")]
    assert {"through 7.5 cm of beer", "best bitter, 8 to 16 SRM"} <= set(texts)


@pytest.mark.parametrize("place", [0.0, 0.25, 1.0])
def test_the_tick_stands_at_the_beers_place_in_the_span(elements, place):
    svg = swatch(beer_place=place)
    (tick,) = elements(svg, "path")
    assert float(tick.get("d")[1:].split()[0]) == pytest.approx(10 + place * 620)
    assert "this beer" in [e.text for e in elements(svg, "text")]


@pytest.mark.parametrize(("place", "word", "end"), [(-0.2, "paler", 10), (1.4, "darker", 630)])
def test_a_beer_beyond_its_style_is_an_arrow_at_the_end_and_words(elements, place, word, end):
    svg = swatch(beer_place=place)
    (arrow,) = elements(svg, "polygon")
    tip = float(arrow.get("points").split(",")[0])
    assert tip == end
    assert f"this beer is {word}" in [e.text for e in elements(svg, "text")]
    assert f"{word} than the style" in elements(svg, "desc")[0].text


def test_without_a_style_only_the_beer_is_shown(elements):
    svg = swatch(style_span=(), style_label="", beer_place=None)
    assert len(elements(svg, "rect")) == 1
    assert "Below" not in elements(svg, "desc")[0].text
