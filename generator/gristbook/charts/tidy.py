"""From matplotlib's SVG to what a page with a strict content security policy can hold inside itself.

Metadata, style element, style attributes, font names, sizes and needless groups go; colours become the page's own.
"""

import re
from collections.abc import Iterator, Mapping
from xml.etree import ElementTree
from xml.sax.saxutils import escape, quoteattr

from gristbook.charts.frame import NAME
from gristbook.charts.marks import ACCENT, INK, PAPER, REGION, RULE, SOFT, number

# Matplotlib wants real colours. These stand for the page's, and are odd enough never to be drawn by accident.
STAND_INS = {INK: "#010203", SOFT: "#010204", RULE: "#010205", PAPER: "#010206", ACCENT: "#010207", REGION: "#010208"}

_SVG = "{http://www.w3.org/2000/svg}"
_HREF = "{http://www.w3.org/1999/xlink}href"
_DROPPED = {"metadata", "style", "title"}
_REFERENCE = re.compile(r"#([\w-]+)")
_DECIMAL = re.compile(r"-?\d+\.\d+(?:e-?\d+)?")


def tidied(svg: str) -> str:
    """The elements that matplotlib drew, without the outer one, ids preceded by the place for the chart's name.

    Raises `ValueError` for a colour that is not one of the stand-ins: it would be wrong on a dark page.
    """
    root = ElementTree.fromstring(svg)
    used = {i for e in root.iter() for value in _attributes(e).values() for i in _REFERENCE.findall(value)}
    return "".join(part for child in root for part in _written(child, used))


def _written(element: ElementTree.Element, used: set[str]) -> Iterator[str]:
    tag = element.tag.removeprefix(_SVG)
    if tag in _DROPPED:
        return
    attributes = _attributes(element)
    own = attributes.pop("id", None)
    if own in used:
        attributes["id"] = f"{NAME}-{own}"
    inside = escape((element.text or "").strip()) + "".join(part for child in element for part in _written(child, used))
    if tag in {"g", "defs"} and not (inside and attributes):
        # A group that says nothing, or definitions of nothing, add nothing to the picture.
        yield f"<defs>{inside}</defs>" if tag == "defs" and inside else inside
        return
    said = "".join(f" {name}={quoteattr(_value(value))}" for name, value in sorted(attributes.items()))
    yield f"<{tag}{said}>{inside}</{tag}>" if inside else f"<{tag}{said}/>"


def _attributes(element: ElementTree.Element) -> dict[str, str]:
    """An element's attributes with those of its style laid over them, font names left out."""
    attributes = {("href" if name == _HREF else name): value for name, value in element.items() if name != "style"}
    style = dict(_declarations(element.get("style", "")))
    if "font" in style and (size := re.search(r"([\d.]+)px", style.pop("font"))):
        style["font-size"] = size[1]
    style.pop("font-family", None)
    if attributes.get("transform", "").startswith("rotate(-0 "):
        del attributes["transform"]
    return attributes | style


def _declarations(style: str) -> Iterator[tuple[str, str]]:
    for declaration in style.split(";"):
        name, colon, value = declaration.partition(":")
        if colon:
            yield name.strip(), value.strip()


_COLOURS: Mapping[str, str] = {stand_in: colour for colour, stand_in in STAND_INS.items()}


def _value(value: str) -> str:
    """A value in one line, coordinates to two decimals, colours the page's own, references to ids with their place."""
    if re.fullmatch(r"#[0-9a-f]{6}", value):
        if value not in _COLOURS:
            raise ValueError(f"a frame is drawn in the page's colours, not {value}")
        return _COLOURS[value]
    value = _REFERENCE.sub(rf"#{NAME}-\1", value.removesuffix("px"))
    return " ".join(_DECIMAL.sub(lambda found: number(float(found[0])), value).split())
