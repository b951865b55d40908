"""A band of the beer's own colour: the glass as a wedge, pale at the thin end and at its full depth at the other."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from html import escape

from gristbook.equations.spectrum import glass_srgb
from gristbook.site.words import colour_word

THIN, DEEP = 0.5, 8.0
"""Centimetres of beer that the light has come through at the two ends of a band."""
_STOPS = 12


@dataclass(frozen=True, slots=True)
class Band:
    """A band: an id of its own, its colours by place in per cent, and what one sees, in words."""

    id: str
    stops: tuple[tuple[str, str], ...]
    words: str


def band(name: str, srm: float) -> Band:
    """The band of a beer of this colour (SRM); ``name`` makes its id."""
    return Band(f"band-{name}", _stops(round(srm, 2)), f"The colour of the beer: {colour_word(srm)}")


def rgb(srm: float, path_cm: float) -> str:
    """A colour as a page writes it.

    >>> rgb(4, 5)
    '#e7aa31'
    """
    return "#" + "".join(f"{channel:02x}" for channel in glass_srgb(srm, path_cm))


@cache
def _stops(srm: float) -> tuple[tuple[str, str], ...]:
    depths = (THIN + (DEEP - THIN) * step / (_STOPS - 1) for step in range(_STOPS))
    return tuple((f"{100 * step / (_STOPS - 1):.4g}%", rgb(srm, depth)) for step, depth in enumerate(depths))


def band_svg(it: Band) -> bytes:
    """The band as a file of its own, twice as wide as it is high, for whoever shows a beer by a picture."""
    stops = "".join(f'<stop offset="{offset}" stop-color="{colour}"/>' for offset, colour in it.stops)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="1200" height="600" viewBox="0 0 100 50" '
        f'preserveAspectRatio="none"><title>{escape(it.words)}</title><defs><linearGradient id="beer">{stops}'
        '</linearGradient></defs><rect width="100" height="50" fill="url(#beer)"/></svg>\n'
    ).encode()
