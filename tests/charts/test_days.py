"""The chart over days, and the chart of an estimate that narrows."""

import re
from math import nan

import pytest

from gristbook.charts.caches import MemoryCache
from gristbook.charts.days import Planned, Run, days_chart
from gristbook.charts.days_frame import draw_frame
from gristbook.charts.narrowing import Stage, narrowing_chart


def gravity(cache, *runs, **more):
    return days_chart(name="a", title="Gravity", measure="gravity", runs=runs, cache=cache, **more)


BREW = Run(label="a brew", marks=[(0, 1.042), (4.5, 1.019), (13.5, 1.011)])


def frame_of(**more):
    data = {"measure": "gravity", "head": 44.0, "days": 14.0, "day_step": 2.0, "low": 1.0, "high": 1.05, "step": 0.01}
    return draw_frame(**{**data, **more})


def test_a_look_stands_at_its_day_and_its_gravity(cache, elements):
    frame = frame_of()
    corners = elements(gravity(cache, BREW), "polygon")[1].get("points").split()
    x, _ = map(float, corners[0].split(","))
    _, y = map(float, corners[1].split(","))
    assert (x, y) == pytest.approx((frame.x.at(4.5), frame.y.at(1.019)), abs=0.01)


def test_brews_differ_by_shape_and_dashes_and_not_by_colour(cache, elements):
    svg = gravity(cache, *(Run(label=f"brew {n}", marks=[(0, 1.04 + n / 1000), (9, 1.01)]) for n in range(4)))
    marks = elements(svg, "polygon")
    assert {mark.get("fill") for mark in marks} == {"var(--ink)"}
    outlines = set()
    for mark in marks:
        points = [tuple(map(float, corner.split(","))) for corner in mark.get("points").split()]
        outlines.add(tuple((round(x - points[0][0], 1), round(y - points[0][1], 1)) for x, y in points))
    assert len(outlines) == 4
    assert len(set(re.findall(r'stroke-dasharray="([^"]*)"', svg))) == 3
    assert all(f">brew {n}</text>" in svg for n in range(4))


def test_a_gap_in_a_log_is_a_gap_in_its_curve(cache, elements):
    whole = Run(label="log", marks=[], curve=[(1, 1.040), (2, 1.030), (3, 1.025), (4, 1.020), (5, 1.019)])
    parted = Run(label="log", marks=[], curve=[(1, 1.040), (2, 1.030), (3, nan), (4, 1.020), (5, 1.019)])
    strokes = [len(elements(gravity(cache, run), "path", stroke="var(--accent)")) for run in (whole, parted)]
    assert strokes == [1, 2]


def test_a_planned_range_is_a_band_from_its_low_to_its_high(cache, elements):
    frame = frame_of()
    (band,) = elements(
        gravity(cache, BREW, planned=[Planned(label="planned", low=1.0395, high=1.0455)]), "rect", fill="var(--region)"
    )
    assert float(band.get("y")) == pytest.approx(frame.y.at(1.0455), abs=0.01)
    assert float(band.get("height")) == pytest.approx(frame.y.at(1.0395) - frame.y.at(1.0455), abs=0.01)


def test_the_words_tell_every_look_and_everything_that_happened(cache):
    svg = gravity(cache, BREW, moments=[("dry hops", 10.0)], planned=[Planned(label="planned", low=1.040, high=1.044)])
    said = re.search(r"<desc[^>]*>(.*?)</desc>", svg)[1]
    for words in ("1.042 on day 0.0", "1.019 on day 4.5", "1.011 on day 13.5", "Day 10: dry hops", "1.040 to 1.044"):
        assert words in said


@pytest.mark.parametrize(("celsius", "fahrenheit"), [(15, 59), (20, 68), (25, 77)])
def test_a_temperature_has_both_scales(cache, celsius, fahrenheit):
    """Round values of NIST SP 811 (2008), table B.8: t/°C = (t/°F − 32)/1.8."""
    run = Run(label="beer", marks=[(1, 17.0), (9, 21.0)])
    svg = days_chart(name="a", title="T", measure="temperature", runs=[run], cache=cache)
    assert f">{celsius}</text>" in svg
    assert f">{fahrenheit}</text>" in svg


@pytest.mark.parametrize("days", [1, 7, 8, 15, 90, 364, 365, 900])
def test_the_axis_of_days_holds_the_last_one(cache, elements, days):
    svg = gravity(MemoryCache(), Run(label="a", marks=[(0, 1.04), (days, 1.01)]))
    last = elements(svg, "polygon")[-1].get("points").split()[0]
    assert float(last.split(",")[0]) <= 622.01


@pytest.mark.parametrize(
    "runs", [[], [Run(label="a", marks=[])], [BREW] * 5, [Run(label="a", marks=[(0, nan)])]], ids=str
)
def test_a_chart_without_readings_or_of_too_many_brews_is_refused(cache, runs):
    with pytest.raises(ValueError, match=r"readings|no number"):
        gravity(cache, *runs)


def narrowing(cache, *stages):
    return narrowing_chart(name="a", title="An estimate", unit="%", stages=stages, cache=cache)


SETTING = Stage(label="as set", middle=74, low=70, high=78)


def test_a_reading_set_aside_is_hollow_and_says_so(cache, elements):
    svg = narrowing(cache, SETTING, Stage(label="odd", middle=74, low=70, high=78, reading=60, aside=True))
    (mark,) = elements(svg, "polygon")
    assert mark.get("fill") == "var(--paper)"
    assert "set aside</tspan>" in svg


def test_a_bar_reaches_as_far_as_nine_brews_in_ten(cache, elements):
    svg = narrowing(cache, SETTING, Stage(label="a brew", middle=73, low=71, high=75, reading=72.5))
    lengths = []
    for bar in elements(svg, "path", stroke="var(--accent)"):
        x0, x1 = (float(x) for x in re.findall(r"[ML]([\d.]+) ", bar.get("d")))
        lengths.append(x1 - x0)
    assert lengths[0] / lengths[1] == pytest.approx((78 - 70) / (75 - 71), rel=1e-3)


@pytest.mark.parametrize("scale", [0.01, 1.0, 30.0])
def test_the_axis_of_an_estimate_holds_everything(cache, scale, elements):
    svg = narrowing(MemoryCache(), Stage(label="a", middle=3 * scale, low=2.7 * scale, high=3.31 * scale))
    (bar,) = elements(svg, "path", stroke="var(--accent)")
    assert all(10 <= float(x) <= 630 for x in re.findall(r"[ML]([\d.]+) ", bar.get("d")))


def test_an_estimate_without_stages_is_refused(cache):
    with pytest.raises(ValueError, match="stages"):
        narrowing(cache)
