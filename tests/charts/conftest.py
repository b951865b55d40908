"""One of each chart, with names that would do harm if they were not escaped."""

from collections.abc import Callable
from xml.etree import ElementTree

import pytest

from gristbook.charts import (
    Mark,
    MemoryCache,
    StyleBox,
    balance_chart,
    colour_swatch,
    grist_chart,
    hops_chart,
    style_chart,
)
from gristbook.charts.caches import FrameCache

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
            beer=((210, 120, 0), (150, 40, 0)),
            beer_label="12 SRM" + harm,
            depths_cm=(3, 7),
            style_span=[(230, 170, 50), (200, 110, 0), (170, 70, 0)],
            style_label="best bitter, 8 to 16 SRM" + harm,
            beer_place=0.5,
        ),
        "style": style_chart(
            name=f"{name}-style",
            title="Style" + harm,
            style=style,
            beers=[
                Mark(name="House bitter" + harm, gravity=1.044, bitterness=31.0, colour=(190, 100, 10)),
                Mark(name="Strong one", gravity=1.140, bitterness=20.0, colour=(90, 30, 5)),
            ],
            cache=cache,
        ),
        "grist": grist_chart(
            name=f"{name}-grist",
            title="Grist" + harm,
            shares=[("pale ale malt" + harm, 0.9, 0.93, "base malt" + harm), ("chocolate malt", 0.1, 0.07, "roasted")],
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
