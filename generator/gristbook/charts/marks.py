"""A chart's own marks as SVG elements, with the page's colours as presentation attributes and never a style."""

import math
import unicodedata
from xml.sax.saxutils import escape, quoteattr

# To the right and down from the picture's upper left corner.
Point = tuple[float, float]

# The page's custom properties, so that one picture serves light and dark.
INK, SOFT, RULE, PAPER = "var(--ink)", "var(--ink-soft)", "var(--rule)", "var(--paper)"
ACCENT, REGION = "var(--accent)", "var(--region)"

# Pictures are 640 units wide: letters of 22 units are 12 pixels high at the 354 pixels that a phone gives them.
WIDTH = 640.0
TEXT = 22.0

# A letter's mean width as a share of the size of type. The page chooses the typeface; this is that of a wide one.
_LETTER = 0.6


def element(tag: str, text: str = "", **attributes: str | float | None) -> str:
    """One element, its text and attributes escaped; `font_size` becomes `font-size`, and None leaves one out.

    >>> element("circle", cx=2.0, cy=1 / 3, fill="var(--ink)")
    '<circle cx="2" cy="0.33" fill="var(--ink)"/>'
    """
    said = "".join(
        f" {name.rstrip('_').replace('_', '-')}={quoteattr(value if isinstance(value, str) else number(value))}"
        for name, value in attributes.items()
        if value is not None
    )
    return f"<{tag}{said}>{escape(printable(text))}</{tag}>" if text else f"<{tag}{said}/>"


def number(value: float) -> str:
    """A coordinate to two decimals. Raises `ValueError` if it is no finite number.

    >>> number(12.0), number(-0.001), number(3.14159)
    ('12', '0', '3.14')
    """
    if not math.isfinite(value):
        raise ValueError(f"a chart cannot show {value}")
    said = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if said == "-0" else said


def printable(text: str) -> str:
    """The text without control characters, which XML cannot hold even escaped, in one line.

    >>> printable("pale\\x00 ale\\nmalt")
    'pale ale malt'
    """
    return " ".join("".join(c if c.isprintable() or c.isspace() else "" for c in text).split())


def words(
    text: str,
    x: float,
    y: float,
    *,
    then: str = "",
    anchor: str = "start",
    fill: str = INK,
    halo: str | None = None,
    weight: str | None = None,
) -> str:
    """Words with their baseline at `y`, and what follows `then` in softer ink.

    With a halo in the colour of what lies beneath, they interrupt the lines that they cross.
    """
    edge: dict[str, str | float] = (
        {"paint_order": "stroke", "stroke": halo, "stroke_width": 6.0, "stroke_linejoin": "round"} if halo else {}
    )
    said = element("text", text, x=x, y=y, text_anchor=anchor, fill=fill, font_size=TEXT, font_weight=weight, **edge)
    return said.replace("</text>", element("tspan", f", {then}", fill=SOFT) + "</text>") if then else said


def line(*points: Point, stroke: str = INK, width: float = 1.5, dashes: str | None = None) -> str:
    """A line through these points, drawn on from one to the next."""
    path = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)
    return element("path", d=path, fill="none", stroke=stroke, stroke_width=width, stroke_dasharray=dashes)


def box(
    x: float,
    y: float,
    width: float,
    height: float,
    *,
    fill: str,
    fill_opacity: float | None = None,
    stroke: str | None = None,
    stroke_width: float | None = None,
) -> str:
    """A rectangle by its upper left corner."""
    edge: dict[str, str | float | None] = {"stroke": stroke, "stroke_width": stroke_width}
    return element("rect", "", x=x, y=y, width=width, height=height, fill=fill, fill_opacity=fill_opacity, **edge)


def diamond(x: float, y: float, reach: float) -> tuple[Point, ...]:
    """The corners of a square that stands on one of them, so far from its middle."""
    return (x, y - reach), (x + reach, y), (x, y + reach), (x - reach, y)


def shape(*points: Point, fill: str = ACCENT, stroke: str = PAPER, width: float = 2.0) -> str:
    """A filled shape with these corners and an edge that keeps it apart from the lines it lies on."""
    corners = " ".join(f"{number(x)},{number(y)}" for x, y in points)
    return element("polygon", points=corners, fill=fill, stroke=stroke, stroke_width=width)


def rounded(value: float, unit: str) -> str:
    """A figure as a brewer reads it: whole from ten on, to a tenth below."""
    return f"{value:.0f} {unit}" if value >= 9.95 or value == 0 else f"{value:.1f} {unit}"


def length(text: str) -> float:
    """About how long the words are on the picture; a guess on the long side, since the page chooses the typeface."""
    letters = sum(2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in printable(text))
    return letters * TEXT * _LETTER


def shortened(text: str, room: float) -> str:
    """The words, cut with an ellipsis where they would not fit into the room.

    >>> shortened("caramel malt, steeped half an hour", 200)
    'caramel malt…'
    """
    text = printable(text)
    if length(text) <= room:
        return text
    while text and length(text + "…") > room:
        text = text[:-1].rstrip(" ,;")
    return text + "…"
