"""The hops, a row each: bars as long as the scale says, words that stay readable."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gristbook.charts.hops import _axis, hops_chart

LEFT, RIGHT = 10, 630
ADDITIONS = [
    ("Fuggle", "60 min", 20.0, 16.0, 25.0, "little flavour"),
    ("Cascade", "stand 20 min", 5.0, 2.0, 9.0, "much flavour"),
    ("Cascade", "dry 3 days", 0.0, 0.0, 0.0, "much aroma"),
]


def hops(cache, additions):
    return hops_chart(name="h", title="Hops", additions=additions, cache=cache)


def widths(found):
    return [float(e.get("width")) for e in found]


def ends(element):
    return [float(n) for n in re.findall(r"[\d.]+", element.get("d"))]


def test_bars_of_the_hops_are_as_long_as_their_bitterness_on_an_axis_that_ends_round(cache, elements):
    svg = hops(cache, ADDITIONS)
    per_ibu = (RIGHT - LEFT) / 30
    assert widths(elements(svg, "rect", fill="var(--accent)")) == pytest.approx([20 * per_ibu, 5 * per_ibu], abs=0.01)
    assert [e.text for e in elements(svg, "text", text_anchor="middle")] == ["10", "20"]
    assert "30 IBU" in [e.text for e in elements(svg, "text", text_anchor="end", fill="var(--ink-soft)")]


def test_whiskers_reach_from_low_to_high(cache, elements):
    per_ibu = (RIGHT - LEFT) / 30
    across = [ends(e) for e in elements(hops(cache, ADDITIONS), "path", stroke="var(--ink)")]
    level = [(x0, x1) for x0, y0, x1, y1 in across if y0 == y1]
    assert level == [
        pytest.approx((LEFT + 16 * per_ibu, LEFT + 25 * per_ibu), abs=0.01),
        pytest.approx((LEFT + 2 * per_ibu, LEFT + 9 * per_ibu), abs=0.01),
    ]
    assert len(across) == 2 * 3


def test_an_addition_without_bitterness_is_a_marked_zero_with_its_words(cache, elements):
    svg = hops(cache, ADDITIONS)
    (zero,) = elements(svg, "polygon")
    corners = [float(c.split(",")[0]) for c in zero.get("points").split()]
    assert sum(corners) / len(corners) == LEFT
    assert "0 IBU" in [e.text for e in elements(svg, "text")]
    assert "Cascade, dry 3 days, no bitterness, much aroma" in elements(svg, "desc")[0].text


def test_each_addition_says_when_it_goes_in_and_what_it_keeps(cache, elements):
    svg = hops(cache, ADDITIONS)
    assert [e.text for e in elements(svg, "tspan")] == [", 60 min", ", stand 20 min", ", dry 3 days"]
    soft = [e.text for e in elements(svg, "text", text_anchor="start", fill="var(--ink-soft)")]
    assert [each for each in soft if each != "0"] == ["little flavour", "much flavour", "much aroma"]


def test_a_long_name_gives_way_to_the_time(cache, elements):
    svg = hops(cache, [("Golding from the garden behind the old grist mill", "stand 20 min at 80 °C", 3, 2, 4, "")])
    (label,) = elements(svg, "text", text_anchor="start", fill="var(--ink)")
    assert label.text.endswith("…")
    assert label[0].text == ", stand 20 min at 80 °C"


@pytest.mark.parametrize("bad", [-1.0, float("nan"), float("inf")])
def test_bitterness_that_is_none_is_refused(cache, bad):
    with pytest.raises(ValueError, match="bitterness"):
        hops(cache, [("Fuggle", "60 min", bad, 0, 1, "")])
    with pytest.raises(ValueError, match="bitterness"):
        hops(cache, [("Fuggle", "60 min", 1, 0, bad, "")])


@given(st.floats(min_value=0, max_value=5000))
def test_an_axis_holds_the_most_and_is_not_twice_as_long_as_need_be(most):
    end, step = _axis(most)
    assert end >= most
    assert end <= max(2 * most, 10)
    assert round(end / step) in (3, 4, 5)
    assert end == pytest.approx(step * round(end / step))


def test_rows_do_not_reach_into_each_other_or_the_scale(cache, elements):
    svg = hops(cache, ADDITIONS)
    foot = max(float(e.get("y")) for e in elements(svg, "text"))
    bars = [float(e.get("y")) + float(e.get("height")) for e in elements(svg, "rect")]
    assert max(bars) < foot - 21


def test_a_chart_of_nothing_is_refused(cache):
    with pytest.raises(ValueError, match="at least one"):
        hops(cache, [])
