"""What a page with a strict content security policy asks of every chart."""

import re
from xml.etree import ElementTree

import pytest

from gristbook.charts.caches import MemoryCache

KINDS = ("balance", "swatch", "hops", "gravity", "temperature", "narrowing", "curves", "glasses", "tuns")
IN_PAGE_COLOURS = tuple(kind for kind in KINDS if kind not in ("swatch", "glasses"))
SVG = "{http://www.w3.org/2000/svg}"
DRAWN = {"svg", "title", "desc", "defs", "g", "path", "use", "rect", "polygon", "text", "tspan"}
PAGE_COLOURS = {f"var(--{name})" for name in ("ink", "ink-soft", "rule", "paper", "accent", "region")} | {"none"}


@pytest.mark.parametrize("kind", KINDS)
def test_a_chart_holds_only_elements_that_draw_or_describe(charts, kind):
    assert {e.tag.removeprefix(SVG) for e in ElementTree.fromstring(charts[kind]).iter()} <= DRAWN


@pytest.mark.parametrize("kind", KINDS)
def test_a_chart_has_no_style_no_script_no_font_name_and_no_link_out(charts, kind):
    names = {name for e in ElementTree.fromstring(charts[kind]).iter() for name in e.attrib}
    assert not names & {"style", "font", "font-family"}
    assert not [name for name in names if name.startswith("on") or "xlink" in name]
    assert "http" not in charts[kind].replace('xmlns="http://www.w3.org/2000/svg"', "")


@pytest.mark.parametrize("kind", KINDS)
def test_a_chart_begins_with_its_svg_and_has_a_view_box_and_no_size(charts, kind):
    root = ElementTree.fromstring(charts[kind])
    assert charts[kind].startswith("<svg ")
    assert root.get("viewBox").startswith("0 0 640 ")
    assert root.get("width") is root.get("height") is None
    assert (root.get("class"), root.get("role")) == (f"chart chart-{kind}", "img")


@pytest.mark.parametrize("kind", IN_PAGE_COLOURS)
def test_every_colour_is_one_of_the_page_so_that_dark_pages_work_too(charts, kind):
    root = ElementTree.fromstring(charts[kind])
    assert {e.get(paint) for e in root.iter() for paint in ("fill", "stroke")} - {None} <= PAGE_COLOURS
    assert not re.findall(r"#[0-9a-f]{6}\b", charts[kind])


@pytest.mark.parametrize("kind", KINDS)
def test_everything_drawn_says_how_it_is_filled(charts, kind):
    """What says nothing is black, on a dark page too."""
    root = ElementTree.fromstring(charts[kind])
    defined = {e for defs in root.iter(f"{SVG}defs") for e in defs.iter()}
    silent = [
        e.tag
        for tag in ("path", "rect", "polygon", "text", "use")
        for e in root.iter(SVG + tag)
        if e not in defined and e.get("fill") is None
    ]
    assert silent == []


@pytest.mark.parametrize("kind", KINDS)
def test_a_picture_is_named_and_described_in_words(charts, kind):
    root = ElementTree.fromstring(charts[kind])
    title, desc = root[0], root[1]
    assert (title.tag, desc.tag) == (f"{SVG}title", f"{SVG}desc")
    assert (root.get("aria-labelledby"), root.get("aria-describedby")) == (title.get("id"), desc.get("id"))
    assert title.text
    assert len(desc.text.split()) > 10


def test_ids_are_unique_on_a_page_of_many_charts_and_references_find_them(cache, draw):
    page = "".join(svg for name in ("one", "two") for svg in draw(cache, name=name).values())
    ids = re.findall(r'\bid="([^"]*)"', page)
    assert len(ids) == len(set(ids))
    assert all(re.match(rf"(one|two)-(style|{'|'.join(KINDS)})-", each) for each in ids)
    referred = re.findall(r'href="#([^"]*)"', page) + re.findall(r"url\(#([^)]*)\)", page)
    referred += re.findall(r'aria-(?:labelled|described)by="([^"]*)"', page)
    assert referred
    assert set(referred) <= set(ids)


@pytest.mark.parametrize("name", ["", "1st", "a b", 'x"', "café", "x.y"])
def test_a_name_that_cannot_begin_an_id_is_refused(draw, name):
    with pytest.raises(ValueError, match="name"):
        draw(MemoryCache(), name=name)


@pytest.mark.parametrize("kind", KINDS)
def test_an_authors_words_stay_words(cache, draw, harm, kind):
    svg = draw(cache, harm=harm)[kind]
    root = ElementTree.fromstring(svg)
    assert not list(root.iter(f"{SVG}script"))
    assert '</text><script>"&' in "".join(root.itertext())


def test_words_that_look_like_our_places_are_left_alone(cache, draw):
    tricky = " <!--over--> @name@ <!--head-->"
    for svg in draw(cache, harm=tricky).values():
        assert ElementTree.fromstring(svg)[0].text.endswith(tricky)


@pytest.mark.parametrize("kind", KINDS)
def test_text_stays_text_of_one_readable_size(charts, kind):
    texts = list(ElementTree.fromstring(charts[kind]).iter(f"{SVG}text"))
    assert texts
    # 640 units are 328 pixels on a phone: 19.6 units are 10 pixels.
    assert all(float(e.get("font-size")) * 328 / 640 >= 10 for e in texts)


@pytest.mark.parametrize("kind", KINDS)
def test_coordinates_have_at_most_two_decimals(charts, kind):
    root = ElementTree.fromstring(charts[kind])
    said = " ".join(value for e in root.iter() for name, value in e.items() if not name.startswith("aria"))
    assert not re.findall(r"\d\.\d{3,}", said)
