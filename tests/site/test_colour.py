"""One look of colour: words that publishers print, swatches that people call so, malts compared by one measure."""

import csv
import re
from pathlib import Path

import colour
import numpy as np
import pytest
from bs4 import BeautifulSoup
from matplotlib.colors import XKCD_COLORS, to_rgb

from gristbook.pantry.pantry import ours
from gristbook.site.band import GLASS_CM, rgb
from gristbook.site.words import colour_word

with (Path(__file__).parent / "colour_words.csv").open(encoding="utf-8", newline="") as lines:
    PUBLISHED = list(csv.DictReader(lines))
BANDS = [row for row in PUBLISHED if row["srm_to"]]
SWATCHES = [row for row in PUBLISHED if row["scheme"] == "book words"]
NEIGHBOURS = {"very dark brown": "nearly black", "deep amber / light copper": "amber"}

SURVEY = [name.removeprefix("xkcd:") for name in XKCD_COLORS]
SURVEYED = colour.XYZ_to_Lab(colour.sRGB_to_XYZ(np.array([to_rgb(name) for name in XKCD_COLORS])))
"""What most of those asked called a colour on a screen: a survey of 2010, as matplotlib carries it."""
BROWNS = "orange|brown|umber|cinnamon|sienn?a|russet|rust|auburn|chestnut"


@pytest.mark.parametrize("row", BANDS, ids=[row["word"] for row in BANDS])
def test_a_colour_has_the_word_that_the_guideline_prints(row: dict[str, str]) -> None:
    middle = (float(row["srm_from"]) + float(row["srm_to"])) / 2
    printed = NEIGHBOURS.get(row["word"], row["word"])
    assert colour_word(middle) == printed or colour_word(middle) in printed or printed in colour_word(middle)


@pytest.mark.parametrize("row", SWATCHES, ids=[row["word"] for row in SWATCHES])
def test_a_colour_s_word_is_near_that_of_a_printed_swatch(row: dict[str, str]) -> None:
    """Another publisher's one word a swatch: the same family of colours, however pale or deep it is called."""
    families = [("straw", "yellow"), ("gold", "yellow"), ("amber", "copper"), ("brown", "black")]
    word = colour_word(float(row["srm_from"]))
    amber_brown = row["word"] == "amber-brown" and word == "light brown"
    gold_amber = row["word"] == "deep gold" and word == "gold"
    assert (
        amber_brown
        or gold_amber
        or any(
            any(name in row["word"] for name in family) and any(name in word for name in family) for family in families
        )
    )


def seen_as(srm: float) -> str:
    """The name of the survey that is nearest to a swatch (CIEDE2000)."""
    swatch = colour.XYZ_to_Lab(colour.sRGB_to_XYZ(np.array(to_rgb(rgb(srm)))))
    return SURVEY[int(np.argmin(colour.delta_E(SURVEYED, swatch, method="CIE 2000")))]


@pytest.mark.parametrize("srm", range(7, 28))
def test_amber_and_brown_beers_look_so_and_not_red(srm: int) -> None:
    name = seen_as(srm)
    assert re.search(BROWNS, name), name
    assert not re.search("^(.* )?(red|maroon|wine|burgundy|blood)$", name), name


def test_a_darker_beer_has_a_darker_swatch() -> None:
    light = [float(colour.sRGB_to_XYZ(np.array(to_rgb(rgb(srm))))[1]) for srm in range(1, 60)]
    assert light == sorted(light, reverse=True)


def test_every_colour_of_a_page_is_of_one_depth(demo) -> None:  # type: ignore[no-untyped-def]
    """Whatever a page fills with a colour of its own is a beer of some SRM through five centimetres."""
    assert GLASS_CM == 5
    known = np.array([[round(255 * part) for part in to_rgb(rgb(step / 10))] for step in range(601)])
    fills = {
        fill: path
        for path, data in demo.files.items()
        if path[-4:] == "html"
        for fill in re.findall(rb'fill="#(\w+)"', data)
    }
    assert len(fills) > 30
    for fill, path in fills.items():
        assert np.abs(known - [*bytes.fromhex(fill.decode())]).max(axis=1).min() <= 3, f"{path}: {fill!r}"


def test_malts_are_compared_by_an_equal_dose(demo) -> None:  # type: ignore[no-untyped-def]
    """On the shelf a malt that bears more colour stands beside a darker swatch, whatever share of it is usual."""
    page: BeautifulSoup = demo.pages["ingredients/index.html"]
    lovibond = {malt.name: malt.colour.typical for malt in ours("malts").records}
    shown = [
        (lovibond[name], colour.sRGB_to_XYZ(np.array(to_rgb(item.svg.rect["fill"])))[1])
        for item in page.select("section[aria-labelledby=malts] li")
        if item.svg and (name := item.a.get_text()) in lovibond
    ]
    assert len(shown) > 10
    for paler, darker in zip(sorted(shown)[:-1], sorted(shown)[1:], strict=True):
        assert darker[1] <= paler[1]
