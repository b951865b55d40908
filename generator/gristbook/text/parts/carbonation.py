"""The parts of the line of the carbonation."""

from collections.abc import Mapping

from gristbook.model.packing import Holds
from gristbook.reading import fields as f
from gristbook.reading.line import Property
from gristbook.reading.quantity import NUMBER, UP_TO
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.units import spellings
from gristbook.text.parts.common import FLAG, HEAT, WORD
from gristbook.text.parts.steps import POURED, PRESSURES, any_of

VESSELS: Mapping[Holds, str] = {
    "cask": "(?:(?:in|from) (?:a |the )?)?cask(?:s|ed)?(?:[ -]conditioned)?",
    "heavy bottles": "(?:(?:in|into) )?(?:heavy|thick|strong|champagne)(?:[ -]walled)?(?: glass)? bottles(?: only)?!*",
    "swing-top bottles": "(?:(?:in|into) )?(?:heavy |thick |strong )?swing[ -]?top(?: bottle)?s",
    "bottles": rf"(?:(?:in|into) )?(?:{POURED} )?(?:(?:beer|wine|glass) )?bottle(?:s|d)?(?:[ -]conditioned)?"
    "|bottle[ -]conditioning",
}
"""What beer is packaged in besides a keg, which is a word of its own."""

CARBONIC = r"g\s*/\s*L(?: of)? (?:CO2|CO₂|carbon dioxide)"
SUGARS = "(?:sugars?|dextrose|glucose|sucrose|fructose|honey|syrup|molasses|treacle|candi|dme|spray ?malt|malt extract)"
"""Words that name what primes, without one that says so."""
DOSED = spellings("gram", "kilogram", "ounce", "pound", "us_cup", "us_tablespoon", "us_teaspoon")
DOSE = rf"(?:{NUMBER}|{IN_WORDS})\s*{DOSED}(?:\s*(?:/|per)\s*{spellings('litre', 'us_gallon')})?"
PER_BOTTLE = (
    rf"(?: (?:per|a|for (?:a|each)|(?:in(?:to)?|on|to)? ?(?:each|every)) (?:(?P<bottle>{POURED}|pint) )?bottle"
    rf"(?: of (?P<size>{POURED}))?)"
)
_EACH_BOTTLE = PER_BOTTLE.replace("?P<bottle>", "?:").replace("?P<size>", "?:")
EACH = (
    rf"(?P<count>{NUMBER}|{IN_WORDS})(?: (?:(?:carbonation )?drops?|sugar (?:cube|lump)s?))?"
    r" (?:(?:for |in )?(?:a|each)|per)"
    rf"(?: (?P<bottle>{POURED}))? (?:bottle|stubb(?:y|ie))"
)

CARBONATION: tuple[Property, ...] = (
    Property(
        "volumes",
        f.VOLUMES,
        rf"(?P<value>{NUMBER}{UP_TO}\s*(?:{spellings('carbonation')}|{CARBONIC}))(?: (?:of )?CO[2₂])?",
        "2.2 volumes",
        "Gas in the glass, or 5 g/L CO2.",
    ),
    Property(
        "dose",
        f.SUGAR_DOSE,
        rf"(?P<value>{DOSE}{_EACH_BOTTLE}?)",
        "7 g/L",
        "The sugar, in all or for a litre; the gas follows from it.",
    ),
    Property("each", f.WORDS, rf"(?P<value>{EACH})", "1 per 330 mL bottle", "Carbonation drops for a bottle."),
    Property(
        "sugar",
        f.WORDS,
        r"(?!.*\byeast)(?:(?:(?:batch |bottle )?prim(?:ed|e|ing)|(?:naturally )?carbonated"
        r"|(?:natural(?:ly)? |bottle[- ])?condition(?:ed|ing)) with "
        rf"|(?:in(?:to)? bottles |bottled? )?with (?!\d)(?=.*\b{SUGARS}\b)"
        rf"|(?=(?:{NUMBER}|{IN_WORDS})\s*{DOSED}[ /])"
        rf"|(?!bottled|and\b|in(?:to)?\b|with\b|[.\d])(?=.*\b(?:drops?|{SUGARS})\b))"
        rf"(?P<value>(?:(?! (?:in(?:to)?|dissolved|boiled|for|to)\b)[^()])+{_EACH_BOTTLE}?)",
        "primed with table sugar",
        "The sugar, honey or dried malt extract that makes it; with an amount, the gas follows from it.",
    ),
    Property(
        "dissolved",
        f.WORDS,
        rf"(?P<value>(?:(?:dissolved|boiled) )?in(?:to)? (?:(?:a little|some|(?:{POURED}|(?:{NUMBER}|{IN_WORDS}) cups?)"
        "(?: of)?) )?"
        "(?:(?:boiling|boiled|hot) )?water)",
        "dissolved in boiling water",
        "How the sugar goes in, as the method says it.",
    ),
    Property(
        "yeast",
        f.WORDS,
        r"(?:(?:plus|with|and|\+) )?(?P<value>(?!\d.*\bvol).*\byeast\b(?:(?! and ).)*)",
        "1/2 packet of champagne yeast",
        "Yeast for the bottles, which is counted where it stands as a line of the yeast, at bottling.",
    ),
    Property(
        "beer gas",
        f.WORDS,
        rf"(?P<value>(?:(?:on|with) )?(?:beer gas|mixed gas|nitro(?:gen)?)(?: {NUMBER}/{NUMBER})?)",
        "beer gas 70/30",
        "A gas that is not carbon dioxide alone; the pressure is reckoned as if it were.",
        again=True,
    ),
    Property("served", f.OF_BEER, HEAT, "4 °C", "The beer in the keg, for its pressure."),
    Property(
        "pressure",
        f.PRESSURE,
        rf"(?P<value>{NUMBER}{UP_TO}\s*{PRESSURES})",
        "12 psi",
        "What a keg's regulator is set to; the gas follows from it and from how warm the beer is.",
    ),
    Property(
        "keg",
        FLAG,
        r"(?P<value>(?:in(?:to)? (?:a |the )?)?keg(?:ged|s)?|spund(?:ed|ing)?(?: valve)?"
        r"|forced?(?:(?: |-)carb(?:onat(?:e|ed|ion|ing))?)?)",
        "keg",
        "Carbonated under pressure, without sugar.",
        again=True,
    ),
    Property("vessel", WORD, any_of(VESSELS), "cask", "What else it is packaged in, where not in bottles."),
    Property("still", FLAG, "(?P<value>still|none|no carbonation|uncarbonated)", "still", "It is to hold no gas."),
)
