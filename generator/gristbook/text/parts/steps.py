"""The parts of a line of the mash or the ferment, and the roles that a cook names in them.

What is usual in a role without a temperature or a time is common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

from gristbook.model.steps import FermentRole, FermentWay, MashRole, MashWay
from gristbook.reading import fields as f
from gristbook.reading.line import Property
from gristbook.reading.notes import NOTE
from gristbook.reading.quantity import NUMBER
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.units import spellings
from gristbook.text.parts.common import AGE, DAYS, DEGREES, FLAG, HEAT, MINUTES, VOLUMES, WORD

T = TypeVar("T", bound=str)

_DAYS = AGE.replace("?P<value>", "?:")


@dataclass(frozen=True, slots=True)
class Usual:
    """What a role is called, what is taken where its line says no temperature or no time, and the span of it (°C)."""

    pattern: str
    temperature: str = ""
    time: str = ""
    span: tuple[float, float] | None = None


RESTS: Mapping[MashRole, Usual] = {
    "dough in": Usual(r"(?:dough(?:ing)?|mash(?:ing)?)[ -]?in", "", "10 min", (30, 76)),
    "acid rest": Usual("(?:acid|phytase) rest", "37 °C", "60 min", (30, 46)),
    "glucan rest": Usual("(?:(?:beta|β)[ -])?glucan(?:ase)? rest", "42 °C", "20 min", (35, 50)),
    "ferulic rest": Usual("ferulic(?: acid)? rest", "44 °C", "15 min", (40, 48)),
    "protein rest": Usual("(?:protein|peptidase|protease) rest", "52 °C", "15 min", (43, 60)),
    "beta rest": Usual("(?:(?:beta|β)(?:[ -]amylase)?|maltose) rest", "63 °C", "40 min", (58, 67)),
    "alpha rest": Usual("(?:(?:alpha|α)(?:[ -]amylase)?|dextrin) rest", "72 °C", "20 min", (66, 76)),
    "saccharification rest": Usual(
        "(?:saccharification|sacch?)(?: rest)?|(?:(?:conversion|main|mash) )?rest", "67 °C", "60 min", (58, 76)
    ),
    "mash out": Usual("mash(?:ing)?[ -]?out", "76 °C", "10 min", (73, 80)),
}
"""The rests of a mash by what they are for."""

FRUITS = r"(?:fruits?|\w*berries|cherries|peaches|apricots|plums|grapes|mango(?:es)?|pur[ée]e|oak|lees)"
"""What beer lies on for a while."""

STAGES: Mapping[FermentRole, Usual] = {
    "primary": Usual("(?:in )?primary(?: fermentation)?"),
    "secondary": Usual(
        rf"(?:in )?secondary(?: fermentation)?(?: (?:on|with|in) (?:the )?\w+)?|(?:on|over|with) (?:the )?{FRUITS}"
    ),
    "diacetyl rest": Usual("diacetyl(?: rest)?|d[ -]?rest", "18 °C", "2 days", (12, 24)),
    "cold crash": Usual("cold[ -]?crash(?:ed|ing)?|crash(?:[ -]?cool(?:ed|ing)?)?", "2 °C", "2 days", (-2, 10)),
    "lagering": Usual("lager(?:ed|ing)?", "1 °C", "4 weeks", (-2, 10)),
    "conditioning": Usual(
        "(?:condition|matur)(?:ed?|ing|ation)?|(?:in (?:the |a )?)?cellar(?:ed|ing)?|(?:bulk )?age(?:d|ing)?|aging"
    ),
}
"""The stages of a fermentation by what they are for."""

NTH = r"(?:(?:\d(?:st|nd|rd|th)|first|second|third|final|last|single|double|triple|step|thick|thin) )*"
"""Which of several, and what of it is drawn: the method tells them one after another."""

WAYS: Mapping[MashWay, str] = {
    "infusion": f"{NTH}infusion(?: mash)?(?: (?:with|of) boiling water)?",
    "decoction": f"{NTH}decoction(?: mash)?",
    "heat": "(?:direct )?heat(?:ed|ing)?",
    "cool": "cool(?:ed|ing)?(?: down)?",
}
AMBIENT: Mapping[str, str] = {
    "20 °C": "(?:at )?(?:room|ambient|house) temp(?:erature)?",
    "12 °C": "(?:at )?cellar temp(?:erature)?",
    "4 °C": "(?:at )?(?:fridge|refrigerator) temp(?:erature)?",
}
"""How warm it is where a beer stands, by the word for the place (common practice, no source)."""
COURSES: Mapping[FermentWay, str] = {"ramp": "ramp(?:ed)?", "free rise": "free[ -]?rise"}

POURED = rf"(?:(?:\d+\s*[x×]\s*)?{NUMBER}|{IN_WORDS})\s*{VOLUMES}"

PARTI_GYLE = r"parti[ -]?gyle|(?:first|second|third|last) runnings?|two beers"
"""Words of two beers from one mash."""

AT_HEAT = HEAT.replace("(?P<value>", "(?P<at>at )?(?P<value>").replace(DEGREES, rf"(?:{DEGREES}|(?(at)|(?!)))")
"""A temperature; behind "at" it needs no unit."""
WARMTH = rf"[-−]?{NUMBER}\s*{DEGREES}"
MUCH = rf"(?P<volume>{POURED})(?: of)?(?: water)?"
STRIKE = (
    r"(?:strike(?: water)?(?: temperature)?|(?:mash|dough)(?:ing)?[ -]in(?= with .*\d.*\d))"
    rf"(?: with)?(?: {MUCH})? (?:at )?(?P<heat>{WARMTH})"
)
ADDED = rf"(?:infusion|infuse|add)(?: of| with)?(?: (?:{MUCH}|water)|(?<!add)) (?:at )?(?P<heat>{WARMTH})"
SPARGE = (
    rf"(?:(?P<way>batch|fly|continuous|no)[ -])?(?:sparg|rins|dunk)(?:e|ed|ing)?(?: water)?"
    r"(?: the (?:bag|grains?|mash))?(?: with)?(?: water)?"
    rf"(?: {MUCH})?(?: (?:at )?(?P<heat>{WARMTH}))?"
)
RISING = (
    r",? (?:(?:and|then|let|allow(?:ed)?|it|slowly|gradually|free) )*"
    "(?:ris(?:e|es|ing)|warm(?:s|ed|ing)?|ramp(?:s|ed|ing)?|rais(?:e|ed|ing)|climb(?:s|ing)?|increas(?:e|ed|ing)"
    "|go(?:es|ing)?|fall(?:s|ing)?|drop(?:s|ped|ping)?|cool(?:s|ed|ing)?|lower(?:ed|ing)?)(?: up| down)?"
)
"""Words of a temperature that goes from one to another."""
SPAN = (
    rf"(?:from |between |start(?:ing|ed)? (?:at )?)?(?P<low>[-−]?{NUMBER}\s*(?:{DEGREES})?)"
    rf"(?:(?P<course>{RISING}|(?: down| up)) to |\s*(?:to|and|[-–—→]|->)\s*)(?P<high>{WARMTH})"
)
PRESSURES = spellings("bar", "psi", "kilopascal")
UNDER = (
    r"(?:(?:under )?(?:pressure|spund(?:ed|ing)?)(?: (?:of|at|to))?\s*|under )?"
    rf"(?P<value>{NUMBER}\s*{PRESSURES}|under pressure|spund(?:ed|ing))"
)


def any_of(patterns: Mapping[T, str]) -> str:
    """A pattern for every word of a table."""
    return rf"(?P<value>{'|'.join(patterns.values())})"


def roles(of: Mapping[T, Usual]) -> dict[T, str]:
    """What roles are called, by role."""
    return {role: usual.pattern for role, usual in of.items()}


MASH: tuple[Property, ...] = (
    Property("temperature", f.OF_A_MASH, AT_HEAT, "67 °C", "The rest's temperature.", unit="degrees"),
    Property("time", f.TIME, MINUTES, "60 min", "How long it is held."),
    Property(
        "water",
        f.VOLUME,
        rf"(?P<value>{POURED})(?: of)?(?: boiling| thick| thin)?(?: water| mash)?(?: (?:drawn|pulled))?",
        "10 L",
        "Water poured in for it, or mash drawn for a decoction; worked out if nothing is said.",
    ),
    Property(
        "thickness",
        f.THICKNESS,
        rf"(?:(?:at )?thickness )?(?P<value>{NUMBER}\s*(?:{spellings('litre', 'us_quart', 'us_gallon')})"
        rf"\s*(?:/|per)\s*{spellings('kilogram', 'pound')})(?: thickness)?",
        "2.7 L/kg",
        "Water to the grain of the first rest, before the brewhouse's.",
    ),
    Property("way", WORD, any_of(WAYS), "decoction", "How the rest is reached."),
    Property(
        NOTE,
        f.WORDS,
        rf"(?P<value>(?:boil(?:ed|ing)?(?: it)?(?: for)?|over|within) {MINUTES.replace('?P<value>', '?:')}"
        rf"|(?:to|until) (?:[^\W\d]+ )*{POURED}.*)",
        "boil 10 min",
        "How long a decoction boils, or heating takes, or what is to be in the kettle; it is shown, and not reckoned.",
        again=True,
    ),
    Property("rest", WORD, any_of(roles(RESTS)), "mash out", "What the rest is for.", again=True),
    Property(
        "strike",
        f.TEMPERATURE,
        rf"(?P<value>{STRIKE})",
        "strike at 74 °C",
        "How hot the water of the first rest is; without a temperature, the rest's follows from it.",
    ),
    Property(
        "infusion",
        f.TEMPERATURE,
        rf"(?P<value>{ADDED})",
        "infusion 4 L at 95 °C",
        "Water poured in for a later rest, not boiling; without a temperature, the rest's follows from it.",
    ),
    Property(
        "bag",
        FLAG,
        "(?P<value>BIAB|(?:brew(?:ed)? )?in (?:a|the) bag|bag|full(?: |-)volume(?: mash)?)",
        "in a bag",
        "All the water in the mash and no sparge, whatever the brewhouse does.",
        again=True,
    ),
    Property(
        "sparge",
        f.TEMPERATURE,
        rf"(?P<value>{SPARGE})",
        "sparge with 12 L at 77 °C",
        "The sparge water; how much it takes is worked out, and compared.",
    ),
)

FERMENT: tuple[Property, ...] = (
    Property("span", f.OF_BEER, rf"(?P<value>{SPAN})", "18 to 20 °C", "Two temperatures that it is kept between."),
    Property("temperature", f.OF_BEER, AT_HEAT, "19 °C", "The beer's temperature.", unit="degrees"),
    Property(
        "ambient",
        WORD,
        any_of(AMBIENT),
        "at room temperature",
        "How warm it is, in words; a number counts before it.",
    ),
    Property(
        "until",
        f.WORDS,
        r"(?:or )?(?P<value>(?:un)?till? [^()]+|(?:after|before|once|when|while) [^()\d]+)",
        "until it stands still",
        "What it waits for; the days count, and the method asks for two readings that agree all the same.",
    ),
    Property(
        "time",
        f.DAYS,
        rf"(?P<next>(?:the )?next )?(?P<value>{_DAYS}|(?(next)\d+|\d+(?= more)))(?: more)?",
        "10 days",
        "How long it is held.",
        unit="days",
    ),
    Property(
        "over",
        f.DAYS,
        rf"(?:over|in|within) {DAYS}",
        "over 4 days",
        "How long it goes from one temperature to the other.",
    ),
    Property(
        "rate",
        f.WORDS,
        rf"(?:at |by |of )*(?P<value>{NUMBER}\s*{DEGREES}\s*(?:(?:a|an|each|every|per) |/\s*)(?:day|d))",
        "2 °C a day",
        "How fast it goes from one temperature to the other, in place of how long.",
    ),
    Property("way", WORD, any_of(COURSES), "free rise", "How it goes from one temperature to the other."),
    Property("stage", WORD, any_of(roles(STAGES)), "cold crash", "What the step is for."),
    Property(
        "pitch",
        f.OF_BEER,
        rf"pitch(?:ed|ing)?(?: at)? (?P<value>{WARMTH})",
        "pitch at 18 °C",
        "The wort as the yeast goes in, where the first step is another.",
    ),
    Property(
        "pressure",
        f.PRESSURE,
        UNDER,
        "under pressure 1 bar",
        "The pressure that it is held under, above the air's; without a number, that of the step before.",
    ),
)
