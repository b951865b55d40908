"""Malts that are named by their colour: crystal malt 150 EBC."""

import re

COLOURED = re.compile(
    r"(?P<name>\D*?)[\s,]*\b(?P<number>\d+(?:\.\d+)?)\s*(?P<unit>°?\s*L|Lovibond|°?\s*EBC)?", re.IGNORECASE
)
"""A malt whose colour ends its name: crystal malt 150 EBC."""

LIGHTEST_IN_EBC = 160
"""A caramel malt's bare number above this is of EBC; below it, as most malts' names have it, of °L."""


def in_lovibond(ebc: float) -> float:
    """A malt's colour in °L, of one in EBC: the trade's conversion of malt colours.

    >>> round(in_lovibond(157.8), 1)
    60.0
    """
    return (ebc + 1.2) / 2.65
