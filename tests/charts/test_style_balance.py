"""The chart of a style: its ground, and every beer on it."""

import re

import pytest

from gristbook.charts.balance import StyleBox
from gristbook.charts.style_balance import Mark, style_chart

STYLE = StyleBox(name="best bitter", og_low=1.040, og_high=1.048, ibu_low=25, ibu_high=40)


def beer(name, gravity=1.044, bitterness=30.0):
    return Mark(name=name, gravity=gravity, bitterness=bitterness, colour="#b45a0a")


def chart(cache, *beers):
    return style_chart(name="a", title="A style", style=STYLE, beers=beers, cache=cache)


def test_every_beer_is_marked_in_its_own_colour_and_named(cache, elements):
    svg = chart(cache, beer("One"), beer("Two", 1.060, 50.0), beer("Three", 1.030, 12.0))
    assert len(elements(svg, "polygon", fill="#b45a0a")) == 3
    for name in ("One", "Two", "Three"):
        assert f">{name}</text>" in svg


def test_a_style_is_drawn_without_a_beer(cache, elements):
    assert len(elements(chart(cache), "rect", fill="var(--region)")) == 1


@pytest.mark.parametrize(("gravity", "where"), [(1.0395, "outside"), (1.040, "in"), (1.048, "in"), (1.0485, "outside")])
def test_the_words_say_whether_a_beer_is_in_the_box(cache, gravity, where):
    assert f"bitterness 30 IBU, {where} the box." in chart(cache, beer("One", gravity))


def test_beers_at_one_place_have_names_apart(cache):
    svg = chart(cache, *(beer(name) for name in ("One", "Two", "Three")))
    places = {
        re.search(rf'<text x="([^"]+)" y="([^"]+)"[^>]*>{name}<', svg).groups() for name in ("One", "Two", "Three")
    }
    assert len(places) == 3


def test_a_beer_that_is_no_number_is_refused(cache):
    with pytest.raises(ValueError, match="without a gravity"):
        chart(cache, beer("One", float("nan")))
