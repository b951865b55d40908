"""What parts of several sections have in common: numbers with their units, as patterns."""

from gristbook.reading import fields as f
from gristbook.reading.fields import Kind
from gristbook.reading.line import Property
from gristbook.reading.notes import NOTE
from gristbook.reading.quantity import NUMBER, UP_TO
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.units import spellings

FLAG = Kind("yes or no", shape="flag")
WORD = Kind("a word", shape="word")
GIVE = rf"(?:\s*(?:±|\+/-|\+-)\s*{NUMBER})?"
DEGREES = r"(?:(?:°\s*|deg\s*|degrees\s+)?[CF]|deg(?:rees?)?|°(?!\s*[^\W\d_]))"
VOLUMES = spellings(
    "litre", "millilitre", "hectolitre", "us_gallon", "us_quart", "us_pint", "us_fluid_ounce", "imperial_gallon"
)


def times(*units: str) -> str:
    """A time in these units, as a part of a line: an hour and ten minutes is one."""
    short = "|m(?![a-z])" if "minute" in units else ""
    one = rf"(?:{NUMBER}|{IN_WORDS}){UP_TO}\s*(?:more\s+)?(?:{spellings(*units)}{short})"
    return rf"(?P<value>{one}(?:\s*(?:and\s+)?{one})*(?:\s+and\s+a\s+half)?)"


MINUTES = times("second", "minute", "hour")
_MINUTES = MINUTES.replace("?P<value>", "?:")
DAYS = times("hour", "day", "week", "fortnight", "month")
AGE = times("hour", "day", "week", "fortnight", "month", "year")
CONTACT = Kind("a time in the beer, as 3 days, day 4, after 4 days or at high krausen")
_FIRE = "(?:the )?(?:boil|heat|gas|flame|burner|hob|stove|kettle|power)"
OFF = (
    "(?:at |after )?(?:the )?(?:flame|knock|switch|turn|heat|burner)(?: |-)?(?:out|off)"
    "|(?:at )?(?:the )?end of(?: the)? boil"
    rf"|(?:as|when|once) {_FIRE} (?:goes|is|has gone|is turned|is switched) (?:off|out|over)"
    rf"|(?:as|when|once) (?:I|you|we) (?:turn|switch|shut)(?: off {_FIRE}| {_FIRE} off)"
)
"""The end of the boil."""
AT_LAST = "(?:right )?at the (?:very )?end"
"""The same, of what can only be boiled."""
WHOLE = (
    "(?:(?:at|from) )?(?:the )?(?:start|beginning)(?: of(?: the)? boil)?|(?:for )?(?:the )?(?:whole|entire|full) boil"
    "|(?:when|once|as soon as) (?:it|the wort) (?:boils|comes to (?:the|a) boil)"
)
"""As the boil begins."""
TO_GO = (
    "(?:(?:before|from) (?:the )?(?:end|flame(?: |-)?out)(?: of (?:the )?boil)?"
    "|(?:of|in)(?: the)? boil|left|to go|remaining)"
)
"""What may stand behind minutes that are counted back from the end of the boil."""
ON_DAY = r"(?:on )?day \d+|(?:at )?(?:high )?kr(?:ä|ae|a)usen"
"""A day of fermentation: at most of them a high krausen is one."""


INTO_THE = "(?:in|into|with|to)(?: the)? "
FERMENTER = "(?:ferment[eo]r|FV|primary|carboy|demijohn)"
"""What the beer ferments in first."""
LEFT = rf"(?: in(?: the)? (?:{FERMENTER}|secondary))?(?: before (?:packaging|bottling|kegging|racking))?"
"""What may stand behind days that are counted back from the end."""


def in_beer(days: str) -> str:
    """A time in the beer, as a part of a line: so many ``days`` (a pattern) before packaging, or from a day on."""
    so_many = rf"(?:after )?{days.replace('?P<value>', '?:')}"
    return rf"(?:for )?(?:(?:the )?last )?(?P<value>{ON_DAY}|{so_many}){LEFT}"


LAST_DAYS = in_beer(times("day", "week", "fortnight", "month"))
HEAT = rf"(?P<value>[-−]?{NUMBER}(?:{UP_TO}|{GIVE})\s*{DEGREES}{GIVE})"
PERCENT = rf"{NUMBER}{UP_TO}\s*{spellings('percent')}{GIVE}(?:\s*%)?"
COLOUR = rf"(?P<value>{NUMBER}{UP_TO}\s*(?:°\s?L|Lovibond|EBC){GIVE})"
POWER = rf"(?P<value>{NUMBER}\s*°\s?(?:Lintner|WK){GIVE})"
YIELD = rf"(?P<value>{NUMBER}\s*(?:ppg|L°\s*/\s*kg){GIVE})"
_TOAST = "(?:(?:light|medium|dark|heavy)(?: plus)? )?(?:(?:un)?toast|roast)(?:ed)?"
_WORKED = (
    "crushed|cracked|ground|grated|chopped|diced|sliced|split|scraped|pitted|stoned|peeled|mashed|pur[ée]ed|juiced|zested"
    "|bruised|milled|brewed|boiled|steamed|sanitised|sanitized|pasteurised|pasteurized|sterilised|sterilized|soaked|thawed"
    "|cut|rinsed|washed|baked|cooked|roasted|simmered|steeped"
)
PREPARED: tuple[Property, ...] = (
    Property(
        "state",
        f.WORDS,
        "(?P<value>fresh|frozen|dried|raw|whole|roasted|canned|tinned|organic|unwaxed|hot|cooled"
        rf"|cold(?:(?: |-)(?:brewed|pressed))?|{_TOAST})",
        "frozen",
        "What it is bought as; it is shown, and changes nothing.",
        again=True,
    ),
    Property(
        "prepared",
        f.WORDS,
        rf"(?P<value>(?:[^\W\d_]+(?: |-))?(?:{_WORKED})"
        r"(?: (?:(?:and|at|for|in|into|over|until|with) |twice|again|(?=\d)).+)?|in an? .*bag)",
        "split and scraped",
        "What is done to it before; it is shown, and changes nothing.",
        again=True,
    ),
)
"""Words of an author's that no figure counts."""
ALLERGENS = Property(
    "allergens",
    f.WORDS,
    r"allergens?(?:\s*:\s*| )(?P<value>.+)",
    "allergens: milk, nuts",
    "What it holds that some must not eat or drink, or none; the last in its line.",
)
NOTED = Property(
    NOTE,
    f.WORDS,
    r"notes?\s*:\s*(?P<value>.+)",
    "note: soft and ripe",
    "Anything else, in your own words: it is shown, and nothing of it is reckoned.",
    again=True,
)
TIME = Property(
    "time",
    f.TIME,
    rf"(?:(?:for )?(?:the )?last |(?P<by>at )|with |boil )?(?P<value>{_MINUTES}|(?(by)\d{{1,3}}|(?!)))"
    f"(?: {TO_GO})?",
    "10 min",
    "Minutes before the end of the boil.",
    unit="min",
)
END = Property(
    "end",
    FLAG,
    f"(?P<value>{OFF}|{AT_LAST}|after (?:the )?boil)",
    "flameout",
    "At the end of the boil.",
)
