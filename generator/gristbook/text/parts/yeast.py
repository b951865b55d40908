"""The parts of a line of yeast."""

from gristbook.model.moment import Stage
from gristbook.pantry.fields import PITCH_RATE
from gristbook.reading import fields as f
from gristbook.reading.fields import Kind
from gristbook.reading.line import Property
from gristbook.reading.quantity import NUMBER, UP_TO
from gristbook.reading.units import spellings
from gristbook.text.parts.common import (
    AGE,
    ALLERGENS,
    CONTACT,
    DAYS,
    FERMENTER,
    GIVE,
    HEAT,
    INTO_THE,
    ON_DAY,
    PERCENT,
    VOLUMES,
    WORD,
)

CELLS = Kind("a number of cells, as 100 billion cells", ("",), least=1, most=1e6)

SOURED = Kind("a time in warm wort, as 36 h at 38 °C")

SOURED_TO = Kind("a pH, as pH 3.4", ("",), least=2.8, most=4.6)
"""Wort that is soured in the kettle (common practice, no source: 3.2 to 3.6)."""

SOUR = "(?:kettle(?: |-)?)?sour(?:ed|ing)?"

EARLIER: tuple[tuple[str, str], ...] = (
    ("slurry", "(?:(?:yeast|harvested|repitched|washed|fresh|thick|thin|healthy) )*slurry"),
    ("harvested", "harvested(?: yeast)?|repitched(?: yeast)?"),
    ("top-cropped", "top(?: |-)?cropped(?: yeast)?"),
)
"""Yeast of an earlier brew, and the word that pages have for it."""

MOMENTS: tuple[tuple[Stage, str], ...] = (
    (Stage.YEAST, f"at pitching|{INTO_THE}{FERMENTER}|primary"),
    (Stage.KETTLE, f"(?:{INTO_THE}(?:kettle|wort) )?before the boil|{INTO_THE}(?:kettle|wort)|{SOUR}"),
    (Stage.FERMENTED, f"{INTO_THE}secondary|secondary|after fermentation"),
    (Stage.PACKAGING, "at (?:packaging|bottling|kegging)|for(?: the)? (?:bottles?|bottling|conditioning)"),
)

_DAYS, _HEAT = (part.replace("?P<value>", "?:") for part in (DAYS, HEAT))

YEAST: tuple[Property, ...] = (
    Property(
        "form",
        WORD,
        r"(?:(?:pitched|sprinkled) (?:on )?)?(?P<value>dry|dried|liquid)(?:\s+yeast)?",
        "dried",
        "Dried or liquid.",
    ),
    Property(
        "attenuation",
        f.SHARE,
        rf"(?:attenuat(?:ion|es|ing)(?: (?:of|to|about|around|is))* )?(?P<value>{PERCENT})(?:\s+attenuation)?",
        "75 % attenuation",
        "Apparent attenuation, before the pantry's.",
    ),
    Property(
        "made",
        f.DATE,
        r"made\s+(?P<value>\d{4}-\d{2}-\d{2})",
        "made 2026-01-20",
        "When a pack was filled.",
    ),
    Property(
        "earlier",
        WORD,
        f"(?:of )?(?P<value>{'|'.join(words for _, words in EARLIER)})",
        "slurry",
        "Yeast of an earlier brew, by the millilitre: slurry, harvested, top-cropped.",
        again=True,
    ),
    Property(
        "cells",
        CELLS,
        rf"(?P<value>{NUMBER})\s*(?:billion|bn|[×x]\s*10(?:⁹|\^9)) (?:(?:live|viable|fresh|yeast) )*cells(?: each)?",
        "100 billion cells",
        "The cells that a pack holds, or that are pitched where the line says no packs.",
    ),
    Property(
        "age",
        f.DAYS,
        rf"(?:harvested |top-cropped |cropped )?{AGE} (?:old|ago)",
        "10 days old",
        "Days since a pack was filled or yeast was harvested.",
    ),
    Property(
        "starter",
        f.VOLUME,
        rf"(?=.*starter)(?:with |in |from )?(?:an? )?(?:starter (?:of |in )?)?(?P<value>{NUMBER}\s*{VOLUMES})"
        r"(?: starter)?(?: (?:made|grown|begun|started|built)\b.*)?",
        "starter 1.5 L",
        "The wort that it is grown in first, standing.",
    ),
    Property(
        "each",
        f.MASS,
        rf"(?:of |at |à |each )?(?P<value>{NUMBER}\s*{spellings('gram')})(?: each| packets?| packs?| sachets?)?",
        "11.5 g each",
        "What a packet of dried yeast holds.",
    ),
    Property(
        "moment",
        WORD,
        f"(?P<value>{'|'.join(words for _, words in MOMENTS)})",
        "at bottling",
        "When another yeast goes in that is not pitched, or bacteria that sour the wort before the boil.",
    ),
    Property(
        "later",
        CONTACT,
        rf"(?P<value>{ON_DAY}|after {_DAYS}|{_DAYS} before packaging)",
        "after 7 days",
        "The same, by the day.",
    ),
    Property(
        "soured",
        SOURED,
        rf"(?:(?:{SOUR} )?(?:for )?)?(?P<value>{_DAYS}(?: at {_HEAT})?)(?: before the boil)?",
        "36 h at 38 °C",
        "How long bacteria sour the wort before the boil, and how warm.",
    ),
    Property(
        "pH",
        SOURED_TO,
        rf"(?:{SOUR} )?(?:(?:down )?to |until )?pH (?P<value>{NUMBER}{UP_TO}{GIVE})",
        "to pH 3.4",
        "How sour it is to get: it is read and told, and no acid is reckoned.",
    ),
    Property(
        "temperature",
        f.TEMPERATURE,
        rf"(?:(?:ferment(?:ed)?|pitch(?:ed)?|rising|then|up)? ?(?:at|to) )?{HEAT}".replace(" ?", "\\s*"),
        "at 20 °C",
        "How warm it is to ferment, which the steps under ferment say: it is compared with them.",
        again=True,
    ),
    Property(
        "pitch rate",
        PITCH_RATE,
        rf"pitch(?:ing)? rate\s+(?P<value>{NUMBER})",
        "pitch rate 1.0",
        "Million cells for each millilitre and °P, in place of what is usual for the yeast and the gravity.",
    ),
    ALLERGENS,
)
