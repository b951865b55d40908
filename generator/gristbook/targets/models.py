"""The published models that a book may choose between, by the name that `book.yaml` gives them: a look-up, no ifs."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from gristbook.equations import bitterness, colour
from gristbook.equations.registry import about

BITTERNESS: Mapping[str, Callable[..., float]] = {
    "tinseth 1997": bitterness.utilisation_tinseth_1997,
    "rager 1990": bitterness.utilisation_rager_1990,
    "garetz 1994": bitterness.utilisation_garetz_1994,
    "daniels 1996": bitterness.utilisation_daniels_1996_pellets,
}
"""Utilisation by boil time and gravity."""

WHOLE_HOPS: Mapping[str, Callable[..., float]] = {"daniels 1996": bitterness.utilisation_daniels_1996_whole}
"""Where a model has a table of its own for whole hops."""

NEEDS_ALTITUDE = frozenset({"garetz 1994"})

BY_THE_CLOCK = frozenset({"rager 1990", "garetz 1994", "daniels 1996"})
"""Tables of bands of minutes, read by the clock: half a minute that altitude takes off would be a whole band."""

BY_HOPPING_RATE = frozenset({"garetz 1994"})
"""Where an addition is used the less, the more the whole beer is hopped."""

COLOUR: Mapping[str, Callable[..., float]] = {
    "morey 1995": colour.srm_morey_1995,
    "daniels 1995": colour.srm_daniels_1995,
    "mosher 1995": colour.srm_mosher_1995,
}
"""Colour by malt colour units."""


def covers(model: str, units: float) -> bool:
    """Whether a model of colour covers a beer of so many malt colour units, by the span that its source gives."""
    valid = about(COLOUR[model]).arguments["colour"].valid
    return valid is None or valid.holds(units)
