"""From matplotlib's SVG to the page's."""

import pytest

from gristbook.charts.tidy import STAND_INS, tidied

INK = STAND_INS["var(--ink)"]
HEAD = '<?xml version="1.0"?><!DOCTYPE svg><svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">'


def tidy(inside: str) -> str:
    return tidied(f"{HEAD}{inside}</svg>")


def test_metadata_style_elements_and_needless_groups_go():
    said = tidy(
        "<metadata>m</metadata><defs><style>*{}</style></defs>"
        f'<g id="a"><g><path d="M 1 2 L 3 4" fill="{INK}"/></g></g>'
    )
    assert said == '<path d="M 1 2 L 3 4" fill="var(--ink)"/>'


def test_style_becomes_attributes_without_font_names():
    said = tidy(
        f"""<text style="font-size: 21px; font-family: 'DejaVu Sans', serif; fill: {INK}" x="1.23456">a &lt; b</text>"""
    )
    assert said == '<text fill="var(--ink)" font-size="21" x="1.23">a &lt; b</text>'


def test_the_short_form_of_a_font_keeps_its_size():
    """As earlier matplotlib wrote it."""
    said = tidy(f"""<text style="font: 21px 'DejaVu Sans'; text-anchor: middle" fill="{INK}">b</text>""")
    assert said == '<text fill="var(--ink)" font-size="21" text-anchor="middle">b</text>'


def test_ids_that_are_referred_to_stay_and_take_the_charts_name():
    said = tidy(
        '<defs><clipPath id="p1"><rect x="0"/></clipPath><path id="m1" d="M 0 0"/></defs>'
        '<g id="unused" clip-path="url(#p1)"><use xlink:href="#m1" x="1.0049"/></g>'
    )
    assert said == (
        '<defs><clipPath id="@name@-p1"><rect x="0"/></clipPath><path d="M 0 0" id="@name@-m1"/></defs>'
        '<g clip-path="url(#@name@-p1)"><use href="#@name@-m1" x="1"/></g>'
    )


def test_a_colour_that_is_not_the_pages_is_refused():
    with pytest.raises(ValueError, match="#ff0000"):
        tidy('<path d="M 0 0" style="stroke: #ff0000"/>')
