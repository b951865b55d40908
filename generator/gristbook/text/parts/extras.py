"""The parts of a line of finings and spices."""

import re

from gristbook.model.moment import Stage
from gristbook.reading.line import Property
from gristbook.text.parts.common import (
    ALLERGENS,
    CONTACT,
    DAYS,
    END,
    FERMENTER,
    INTO_THE,
    PREPARED,
    TIME,
    WHOLE,
    WORD,
    in_beer,
)

KETTLE = f"{INTO_THE}(?:kettle|boil)|{WHOLE}"

STAGES: tuple[tuple[Stage, str], ...] = (
    (Stage.MASH, f"{INTO_THE}mash"),
    (Stage.STEEP, f"{INTO_THE}steep"),
    (Stage.KETTLE, KETTLE),
    (Stage.YEAST, "with(?: the)? yeast|at pitching"),
    (Stage.FERMENTER, f"{INTO_THE}{FERMENTER}|{FERMENTER}"),
    (Stage.FERMENTED, f"after(?: the)? (?:primary|(?:primary )?fermentation)|{INTO_THE}secondary|secondary"),
    (
        Stage.PACKAGING,
        f"(?:at|when) (?:packaging|bottling|kegging)|{INTO_THE}(?:serving )?(?:keg|cask|barrel|bottles?)",
    ),
)
"""Stages of the brew, and what may be written for them: of fruit and of what else goes in."""

OWN_WORDS = re.compile(r"primary|secondary|pitching|bottl|keg|cask|barrel")
"""What an author may call a moment that we call otherwise, and that is told in the same word."""

EXTRA: tuple[Property, ...] = (
    TIME,
    END,
    Property(
        "days",
        CONTACT,
        rf"(?:dry )?{in_beer(DAYS)}",
        "3 days",
        "Days in the beer, until it is packaged.",
        again=True,
    ),
    Property(
        "moment",
        WORD,
        f"(?P<value>{'|'.join(pattern for _, pattern in STAGES)})",
        "into the fermenter",
        "Another moment, in words.",
    ),
    *PREPARED,
    ALLERGENS,
)
