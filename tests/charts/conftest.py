"""One of each chart, with names that would do harm if they were not escaped."""

from collections.abc import Callable
from math import nan
from xml.etree import ElementTree

import pytest

from gristbook.charts.balance import StyleBox, balance_chart
from gristbook.charts.caches import FrameCache, MemoryCache
from gristbook.charts.curves import Axis, Curve, Ground, curves_chart
from gristbook.charts.days import Planned, Run, days_chart
from gristbook.charts.glasses import glasses_chart
from gristbook.charts.hops import hops_chart
from gristbook.charts.narrowing import Stage, narrowing_chart
from gristbook.charts.style_balance import Mark, style_chart
from gristbook.charts.swatch import colour_swatch
from gristbook.charts.tuns import Tun, tuns_chart

HARM = '</text><script>"&\x00\n\x1b'


def draw_all(cache: FrameCache, *, name: str = "one", harm: str = "") -> dict[str, str]:
    style = StyleBox(name="best bitter" + harm, og_low=1.040, og_high=1.048, ibu_low=25, ibu_high=40)
    return {
        "balance": balance_chart(
            name=f"{name}-balance",
            title="Balance" + harm,
            gravity=(1.046, 1.043, 1.049),
            bitterness=(30.0, 25.0, 36.0),
            style=style,
            cache=cache,
        ),
        "swatch": colour_swatch(
            name=f"{name}-swatch",
            title="Colour" + harm,
            beer="#d27800",
            beer_label="12 SRM" + harm,
            depth_cm=5,
            style_span=["#e6aa32", "#c86e00", "#aa4600"],
            style_label="best bitter, 8 to 16 SRM" + harm,
            beer_place=0.5,
        ),
        "style": style_chart(
            name=f"{name}-style",
            title="Style" + harm,
            style=style,
            beers=[
                Mark(name="House bitter" + harm, gravity=1.044, bitterness=31.0, colour="#be640a"),
                Mark(name="Strong one", gravity=1.140, bitterness=20.0, colour="#5a1e05"),
            ],
            cache=cache,
        ),
        "hops": hops_chart(
            name=f"{name}-hops",
            title="Hops" + harm,
            additions=[
                ("Fuggle" + harm, "60 min" + harm, 24.0, 20.0, 29.0, "little flavour" + harm),
                ("East Kent Golding", "dry 3 days", 0.0, 0.0, 0.0, "much aroma"),
            ],
            cache=cache,
        ),
        "gravity": days_chart(
            name=f"{name}-gravity",
            title="Gravity" + harm,
            measure="gravity",
            runs=[
                Run(label="a brew" + harm, marks=[(0, 1.042), (4, 1.019), (13.5, 1.011)]),
                Run(
                    label="another", marks=[], curve=[(0.5, 1.045), (1.0, 1.040), (1.5, nan), (3.0, 1.020), (9, 1.012)]
                ),
            ],
            moments=[("dry hops" + harm, 10.0), ("packaged", 14.0)],
            planned=[Planned(label="planned" + harm, low=1.0395, high=1.0455)],
            cache=cache,
        ),
        "temperature": days_chart(
            name=f"{name}-temperature",
            title="Temperature" + harm,
            measure="temperature",
            runs=[Run(label="the beer" + harm, marks=[(1, 18.0), (13.5, 19.5)])],
            cache=cache,
        ),
        "narrowing": narrowing_chart(
            name=f"{name}-narrowing",
            title="Mash efficiency" + harm,
            unit="%",
            stages=[
                Stage(label="as the book has it" + harm, middle=74, low=70, high=78),
                Stage(label="a brew", middle=72.8, low=69.5, high=76.1, reading=70.5),
                Stage(label="an odd one", middle=72.8, low=69.5, high=76.1, reading=61.0, aside=True),
            ],
            cache=cache,
        ),
        "curves": curves_chart(
            name=f"{name}-curves",
            title="By minutes" + harm,
            x=Axis("minutes" + harm, (0, 30, 60)),
            y=Axis("bitterness, IBU" + harm, (0, 20, 40)),
            curves=[Curve("a model" + harm, [(0, 0), (30, 19.4), (60, 25.2)], at=(58, 22), read=[(60, 25.2)])],
            grounds=[Ground("other models" + harm, [(0, 0), (60, 20), (60, 30), (0, 6)], at=(4, 34))],
            spans=[(0, 20, "flavour" + harm)],
        ),
        "glasses": glasses_chart(
            name=f"{name}-glasses",
            title="Malts" + harm,
            glasses=[(f"malt {at}" + harm, f"{at} SRM", f"#{250 - 20 * at:02x}7800") for at in range(1, 6)],
        ),
        "tuns": tuns_chart(
            name=f"{name}-tuns",
            title="A mash" + harm,
            brim_l=20,
            tuns=[Tun("Mash" + harm, "4 kg, 12 L" + harm, 2.7, 12, 0), Tun("Run off", "it keeps 4 L", 2.7, 4, 8)],
        ),
    }


@pytest.fixture(scope="session")
def cache() -> MemoryCache:
    """Frames drawn once for all tests that do not ask about drawing."""
    return MemoryCache()


@pytest.fixture
def charts(cache: MemoryCache) -> dict[str, str]:
    return draw_all(cache)


@pytest.fixture(scope="session")
def draw() -> Callable[..., dict[str, str]]:
    return draw_all


@pytest.fixture(scope="session")
def harm() -> str:
    return HARM


@pytest.fixture(scope="session")
def elements() -> Callable[..., list[ElementTree.Element]]:
    """The elements of an SVG picture that have these attributes."""

    def found(svg: str, tag: str, **attributes: str) -> list[ElementTree.Element]:
        return [
            each
            for each in ElementTree.fromstring(svg).iter(f"{{http://www.w3.org/2000/svg}}{tag}")
            if all(each.get(name.replace("_", "-")) == value for name, value in attributes.items())
        ]

    return found
