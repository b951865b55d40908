"""The balance chart: the beer and its style stand where the scales say, and words cover nothing."""

import itertools
import re

import pytest

from gristbook.charts.balance import StyleBox, balance_chart, dots
from gristbook.charts.balance_frame import BALANCE, draw_frame
from gristbook.charts.marks import TEXT, length
from gristbook.charts.placing import Area, Spot, Stroke

PALE = StyleBox(name="pale ale", og_low=1.045, og_high=1.060, ibu_low=30, ibu_high=50)
FRAME = draw_frame(words="outer")


def balance(cache, gravity, bitterness, style=None, spread=(0.003, 4.0)):
    return balance_chart(
        name="b",
        title="Balance",
        gravity=(gravity, gravity - spread[0], gravity + spread[0]),
        bitterness=(bitterness, max(bitterness - spread[1], 0), bitterness + spread[1]),
        style=style,
        cache=cache,
    )


def point(elements, svg):
    (shape,) = elements(svg, "polygon")
    return [tuple(map(float, corner.split(","))) for corner in shape.get("points").split()]


def desc(elements, svg):
    return elements(svg, "desc")[0].text


@pytest.mark.parametrize(("gravity", "bitterness"), [(1.035, 25), (1.095, 55)])
def test_the_point_stands_where_the_scales_say(cache, elements, gravity, bitterness):
    corners = point(elements, balance(cache, gravity, bitterness))
    assert len(corners) == 4
    middle = [sum(axis) / 4 for axis in zip(*corners, strict=True)]
    frame = FRAME
    assert middle == [pytest.approx(frame.x.at(gravity), abs=0.01), pytest.approx(frame.y.at(bitterness), abs=0.01)]


def test_the_cross_reaches_from_low_to_high_and_is_capped_at_both_ends(cache, elements):
    x, y = FRAME.x, FRAME.y
    drawn = [e.get("d") for e in elements(balance(cache, 1.050, 30), "path", stroke="var(--ink)")]
    ends = [[float(n) for n in re.findall(r"[\d.]+", d)] for d in drawn]
    assert len(ends) == 6
    assert ends[0] == pytest.approx([x.at(1.047), y.at(30), x.at(1.053), y.at(30)], abs=0.01)
    assert ends[1] == pytest.approx([x.at(1.050), y.at(34), x.at(1.050), y.at(26)], abs=0.01)


def test_the_region_covers_the_styles_ranges(cache, elements):
    x, y = FRAME.x, FRAME.y
    (region,) = elements(balance(cache, 1.050, 30, PALE), "rect", fill="var(--region)")
    assert [float(region.get(n)) for n in ("x", "y", "width", "height")] == pytest.approx(
        [x.at(1.045), y.at(50), x.at(1.060) - x.at(1.045), y.at(30) - y.at(50)], abs=0.01
    )


def test_a_beer_without_a_style_has_no_region(cache, elements):
    svg = balance(cache, 1.050, 30)
    assert not elements(svg, "rect")
    assert "shaded" not in desc(elements, svg)


@pytest.mark.parametrize("ratio", sorted(BALANCE))
def test_a_line_of_equal_balance_is_that_many_ibu_a_point(elements, ratio):
    """At 40 points the lines stand at 40 times their ratio: arithmetic, by hand on the picture."""
    frame = FRAME
    lines = [[float(n) for n in re.findall(r"[\d.]+", e.get("d"))] for e in elements(frame.svg, "path", fill="none")]
    at_40 = [y0 + (frame.x.at(1.040) - x0) * (y1 - y0) / (x1 - x0) for x0, y0, x1, y1 in lines if x0 != x1 and y0 != y1]
    assert any(y == pytest.approx(frame.y.at(40 * ratio), abs=0.05) for y in at_40)
    assert any(e.text.endswith(f"{ratio:.1f}") for e in elements(frame.svg, "text"))


def test_all_beers_have_one_frame_and_a_dot_where_their_own_chart_has_them(cache, elements):
    small, strong = (elements(balance(cache, *beer), "text", text_anchor="middle") for beer in ((1.035, 25), (1.1, 70)))
    assert [e.text for e in small if e.text.startswith("1.")] == [e.text for e in strong if e.text.startswith("1.")]
    svg = dots(title="Beers", beers=[(1.035, 25), (1.1, 70), (1.2, 10)], cache=cache)
    assert "var(--" not in svg  # a file of its own has no page to take a colour from
    at = [(float(e.get("cx")), float(e.get("cy"))) for e in elements(svg, "circle")]
    assert at == [pytest.approx(FRAME.held(*beer), abs=0.01) for beer in ((1.035, 25), (1.1, 70), (1.2, 10))]


@pytest.mark.parametrize(
    ("gravity", "bitterness", "tip", "said", "label"),
    [
        (1.150, 50, (1, 0), "gravity is above the highest", "this beer, 1.150"),
        (1.015, 20, (-1, 0), "gravity is below the lowest", "this beer, 1.015"),
        (1.100, 140, (0, -1), "bitterness is above the highest", "this beer, 140 IBU"),
        (1.150, 140, (1, -1), "bitterness is above the highest", "this beer, 1.150, 140 IBU"),
    ],
)
def test_a_beer_beyond_the_axes_is_an_arrow_at_their_end(cache, elements, gravity, bitterness, tip, said, label):
    svg = balance(cache, gravity, bitterness)
    corners = point(elements, svg)
    assert len(corners) == 3
    tip_x, tip_y = corners[0]
    tail_x, tail_y = ((corners[1][i] + corners[2][i]) / 2 for i in (0, 1))
    assert [(d > 0.1) - (d < -0.1) for d in (tip_x - tail_x, tip_y - tail_y)] == list(tip)
    assert said in desc(elements, svg)
    assert [e.text for e in elements(svg, "text", font_weight="bold")] == [label]


def test_the_description_says_the_figures(cache, elements):
    said = desc(elements, balance(cache, 1.050, 30, PALE))
    assert "1.050, likely 1.047 to 1.053" in said
    assert "30 IBU, likely 26 to 34" in said
    assert "0.60 IBU per point" in said  # 30 in 50 points
    assert "pale ale: original gravity 1.045 to 1.060, bitterness 30 to 50 IBU" in said


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_what_is_no_number_is_refused(cache, bad):
    with pytest.raises(ValueError, match="cannot show"):
        balance(cache, bad, 30)
    with pytest.raises(ValueError, match="cannot show"):
        balance(cache, 1.05, bad)


def words_on(elements, svg):
    """The room of the beer's and the style's words, and of the words along the lines."""
    upright = [
        Spot(float(e.get("x")), float(e.get("y")), e.get("text-anchor")).area(e.text)
        for e in elements(svg, "text", fill="var(--ink)")
    ]
    along = []
    for e in elements(svg, "text"):
        if e.get("transform"):
            turn, x, y = map(float, re.findall(r"-?[\d.]+", e.get("transform")))
            along.append(turned(x, y, turn, length(e.text) * (-1 if e.get("text-anchor") == "end" else 1)))
    return upright, along


def turned(x, y, degrees, reach):
    from math import cos, radians, sin

    c, s = cos(radians(degrees)), sin(radians(degrees))
    x, y = x + s * TEXT * 0.35, y - c * TEXT * 0.35
    return Stroke(x, y, x + c * reach, y + s * reach, thickness=TEXT * 0.7)


STYLES = [
    None,
    StyleBox(name="ordinary bitter", og_low=1.030, og_high=1.039, ibu_low=25, ibu_high=35),
    StyleBox(name="strong golden ale", og_low=1.070, og_high=1.095, ibu_low=22, ibu_high=35),
    StyleBox(name="imperial stout", og_low=1.075, og_high=1.115, ibu_low=50, ibu_high=90),
    StyleBox(name="sour wheat beer", og_low=1.028, og_high=1.032, ibu_low=3, ibu_high=8),
]
BEERS = list(
    itertools.product((1.020, 1.030, 1.035, 1.048, 1.065, 1.080, 1.095, 1.120, 1.140), (0, 12, 25, 40, 55, 75, 130))
)


@pytest.mark.parametrize("style", STYLES, ids=lambda s: s.name if s else "no style")
def test_words_cover_neither_each_other_nor_the_point(cache, elements, style):
    bad = []
    for gravity, bitterness in BEERS:
        svg = balance(cache, gravity, bitterness, style)
        upright, along = words_on(elements, svg)
        corners = point(elements, svg)
        xs, ys = zip(*corners, strict=True)
        spot = Area(min(xs), min(ys), max(xs), max(ys))
        covered = sum(a.shared(b) for a, b in itertools.combinations(upright, 2))
        covered += sum(line.shared(area) for line in along for area in upright)
        covered += sum(spot.shared(area) for area in upright) + sum(line.shared(spot) for line in along)
        picture = Area(0, 0, 640, 440)
        outside = sum(area.size - area.shared(picture) for area in upright)
        if covered > 60 or outside > 0:
            bad.append((gravity, bitterness, round(covered), round(outside)))
    assert not bad, f"{len(bad)}: {bad}"
