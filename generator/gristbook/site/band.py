"""A band of the beer's own colour, as a glass of it looks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from html import escape

from gristbook.equations.spectrum import glass_srgb
from gristbook.site.words import colour_word

GLASS_CM = 5.0
"""Centimetres of beer that the light has come through, wherever a colour is shown."""


@dataclass(frozen=True, slots=True)
class Band:
    """A band: its colour, and what one sees, in words."""

    colour: str
    words: str


def band(srm: float) -> Band:
    """The band of a beer of this colour (SRM)."""
    return Band(rgb(round(srm, 2)), f"Colour: {colour_word(srm)}")


@cache
def rgb(srm: float) -> str:
    """A colour as a page writes it.

    >>> rgb(4)
    '#e7aa31'
    """
    return "#" + "".join(f"{channel:02x}" for channel in glass_srgb(srm, GLASS_CM))


def band_svg(it: Band) -> bytes:
    """The band as a file of its own, twice as wide as it is high, for whoever shows a beer by a picture."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="1200" height="600" viewBox="0 0 100 50" '
        f'preserveAspectRatio="none"><title>{escape(it.words)}</title>'
        f'<rect width="100" height="50" fill="{it.colour}"/></svg>\n'
    ).encode()
