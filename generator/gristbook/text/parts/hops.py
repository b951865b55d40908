"""The parts of a line of hops."""

from typing import Literal

from gristbook.model.hop import HopForm
from gristbook.model.moment import Stage
from gristbook.reading import fields as f
from gristbook.reading.apart import AMOUNT
from gristbook.reading.fields import Kind
from gristbook.reading.line import Property
from gristbook.reading.quantity import NUMBER
from gristbook.text.parts.common import (
    AGE,
    ALLERGENS,
    AT_LAST,
    CONTACT,
    DAYS,
    FERMENTER,
    FLAG,
    GIVE,
    HEAT,
    INTO_THE,
    MINUTES,
    OFF,
    PERCENT,
    TO_GO,
    VOLUMES,
    WHOLE,
    WORD,
    in_beer,
)

STAND = Kind("a stand, as 20 min at 80 °C, 30 min from 95 to 75 °C, or 30 min cooling from 95 to 75 °C")

STORE = Kind("a store, as 30 weeks at 4 °C, or 30 weeks at 4 °C under vacuum")

HSI = Kind("a hop storage index, as 0.35", ("",), least=0.2, most=2.0)

EXTRACT_ALPHA = Kind("a share, as 60 %, to 70 % in hop extract", ("fraction",), most=0.70)
"""Extract made with carbon dioxide has 35 to 65 % (common practice, no source)."""

_AGE = AGE.replace("?P<value>", "?:")
_MINUTES = MINUTES.replace("?P<value>", "?:")
_DRY_HOP = (
    f"dry(?:(?: |-)?hop(?:ped|ping|s)?)?"
    f"(?: {INTO_THE}(?:{FERMENTER}|secondary)| after (?:the )?(?:primary )?(?:fermentation|primary))?"
)

Use = Literal["boil", "stand", "dry", "end"] | Stage
"""The whole boil, a stand after the boil, in the beer, the end of the boil, or a stage of the brew."""

USES: tuple[tuple[tuple[Use, str], str], ...] = (
    (("stand", ""), "after (?:flame(?: |-)?out|the boil)|(?:left |leave )?to (?:stand|steep)"),
    (("end", "flameout"), f"{OFF}|{AT_LAST}|FO|KO"),
    (("boil", ""), WHOLE),
    (("stand", "whirlpool"), "(?:in(?: the)? )?whirlpool(?:ed|ing)?"),
    (("stand", "hop stand"), "hop(?: |-)?stand"),
    (("stand", "steep"), "steep(?:ed)?"),
    (("stand", ""), "stand"),
    (("dry", ""), _DRY_HOP),
    ((Stage.MASH, "mash hop"), f"mash(?: |-)?hop(?:ped|ping|s)?|{INTO_THE}mash"),
    (("dry", "into the fermenter"), f"{INTO_THE}{FERMENTER}|with(?: the)? yeast"),
    (
        (Stage.PACKAGING, "in the keg"),
        f"(?:{_DRY_HOP} )?{INTO_THE}(?:keg|cask|barrel|firkin|pin)|keg(?: |-)?hop(?:ped|ping|s)?",
    ),
)
"""How a hop is used, the word that pages have for it where there are several, and what may be written."""

STANDS = frozenset(word for (use, word), _ in USES if use == "stand" and word)

ROLES: tuple[tuple[str, str], ...] = (
    ("bittering", "(?:for )?bittering(?: addition)?"),
    ("hop tea", rf"(?:in {NUMBER}\s*{VOLUMES}(?: of)? water )?(?:as an? )?(?:hop )?tea"),
    ("late addition", "late(?: addition| hops?)?"),
    ("flavour", "(?:for )?flavou?r(?: addition)?"),
    ("aroma", "(?:for )?aroma(?: addition)?"),
)
"""What a hop is there for, by an author's word, which changes nothing and is shown."""

FORMS: tuple[tuple[HopForm, str], ...] = (
    ("whole", "(?:whole(?: leaf| cone)?|leaf)(?: hops| cones)?|cones"),
    ("pellets", "(?:T-?90 )?(?:hop )?pellets?(?: hops)?"),
    ("extract", "(?:CO[2₂] )?(?:hop )?extract"),
    ("wet", "(?:(?:fresh|wet|green|undried)(?: |-)?)+(?:hops?|hopped|cones)?"),
)

_ALPHA = r"(?:alpha(?: acids?)?|alfa|aa|a\.a\.|α|a)"

HOP: tuple[Property, ...] = (
    Property(
        AMOUNT,
        f.BITTERNESS,
        rf"(?:(?:to|for|about|giv(?:es|ing)|=|~|≈|→|->) ?)?(?P<value>{NUMBER}\s*IBUs?)".replace(" ?", r"\s*"),
        "22 IBU",
        "The bitterness that it is to bring.",
    ),
    Property(
        "alpha",
        f.ALPHA,
        rf"(?P<of>{_ALPHA}(?: |:|=)*)?(?P<value>{PERCENT}|(?(of){NUMBER}|(?:{NUMBER}(?=\s*{_ALPHA})|\d\d?\.\d)))"
        rf"(?:\s*{_ALPHA})?(?: left| now)?",
        "4.5 % alpha",
        "Alpha acids.",
        unit="%",
    ),
    Property(
        "time",
        f.TIME,
        rf"(?:(?:at |for |boil(?:ed|ing)? )|(?:the )?last )*(?P<value>{_MINUTES}|\d{{1,3}})(?: boil| {TO_GO})?",
        "60 min",
        "Minutes in the boil, counted from its end; a number alone is minutes, too.",
        unit="min",
    ),
    Property(
        "first wort",
        FLAG,
        r"(?P<value>first(?: |-)wort(?:(?: |-)hop(?:s|ped|ping)?)?|FWH)",
        "first wort",
        "In the kettle while the wort runs in.",
    ),
    Property(
        "stand",
        STAND,
        rf"(?:stand )?(?P<value>{_MINUTES} (?:at|from|cooling from) .+)",
        "stand 20 min at 80 °C",
        "Steeped in the hot wort after the boil: held, falling evenly, or cooling by itself in a room of 20 °C.",
    ),
    Property(
        "dry",
        CONTACT,
        rf"(?:{_DRY_HOP} )?{in_beer(DAYS)}",
        "dry 3 days",
        "In the beer until it is packaged: so many days, or from a day of fermentation on, as day 4 or after 4 days.",
        again=True,
    ),
    Property(
        "temperature",
        f.TEMPERATURE,
        rf"(?:at |below |under |around )?{HEAT}",
        "at 80 °C",
        "Of the wort, or of the beer that they lie in.",
    ),
    Property(
        "use",
        WORD,
        f"(?P<value>{'|'.join(pattern for _, pattern in USES)})",
        "flameout",
        "How they are used, in a word: at the end of the boil, in a whirlpool, in the mash, dry, in the keg.",
        again=True,
    ),
    Property(
        "role",
        WORD,
        f"(?P<value>{'|'.join(pattern for _, pattern in ROLES)})",
        "late addition",
        "What they are there for; it changes nothing.",
    ),
    Property(
        "stored",
        STORE,
        rf"(?P<kept>stored\s+)?(?P<value>(?(kept).+|{_AGE} old))",
        "stored 30 weeks at 4 °C",
        "Kept since its alpha was measured: open, airtight (what is taken if nothing is said) or under vacuum.",
    ),
    Property(
        "HSI",
        HSI,
        rf"HSI\s+(?P<value>{NUMBER}{GIVE})",
        "HSI 0.35",
        "Hop storage index of a later sheet than the one that gives the alpha; not for a sheet that gives both.",
    ),
    Property(
        "form",
        WORD,
        f"(?P<value>{'|'.join(pattern for _, pattern in FORMS)})",
        "whole",
        "Whole cones, wet ones or hop extract; pellets if nothing is said.",
        again=True,
    ),
    ALLERGENS,
)
