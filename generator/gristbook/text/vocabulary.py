"""What an author may write in a recipe, described once: every field, and every part of every kind of line."""

from collections.abc import Mapping

from gristbook.model.moment import Stage
from gristbook.model.water import Into
from gristbook.pantry.fields import DIASTATIC_POWER, PITCH_RATE
from gristbook.reading import fields as f
from gristbook.reading.fields import Field, Kind
from gristbook.reading.lines import Property
from gristbook.reading.quantity import NUMBER
from gristbook.reading.units import spellings

FLAG = Kind("yes or no", shape="flag")
WORD = Kind("a word", shape="word")
STEEP = Kind("a steep, as 30 min at 68 °C")
STAND = Kind("a stand, as 20 min at 80 °C, 30 min from 95 to 75 °C, or 30 min cooling from 95 to 75 °C")
GAS = Kind("a line, as 2.2 volumes, keg", shape="lines")
STORE = Kind("a store, as 30 weeks at 4 °C, or 30 weeks at 4 °C under vacuum")
HSI = Kind("a hop storage index, as 0.35", ("",), least=0.2, most=2.0)
POTENTIAL = Kind("a potential, as 36 ppg or 300 L°/kg", ("points·gal/lb", "L°/kg"))
KIT = Kind("a label's bitterness, as 25 IBU in 23 L")

GIVE = rf"(?:\s*(?:±|\+/-|\+-)\s*{NUMBER})?"
DEGREES = r"(?:°\s*|deg\s*|degrees\s+)?[CF]"
VOLUMES = spellings("litre", "millilitre", "hectolitre", "us_gallon", "us_quart", "us_pint", "imperial_gallon")


def _times(*units: str) -> str:
    """A time in these units, as a part of a line: an hour and ten minutes is one."""
    one = rf"{NUMBER}\s*{spellings(*units)}"
    return rf"(?P<value>{one}(?:\s*{one})*)"


_TIME = _times("second", "minute", "hour")
_DAYS = _times("hour", "day", "week")
_LAST_DAYS = rf"{_times('day', 'week')}(?:\s+before packaging)?"
_DEGREES = rf"(?P<value>[-−]?{NUMBER}\s*{DEGREES})"
_PERCENT = rf"{NUMBER}\s*{spellings('percent')}{GIVE}(?:\s*%)?"
_COLOUR = rf"(?P<value>{NUMBER}\s*(?:°\s?L|Lovibond|EBC){GIVE})"
_POWER = rf"(?P<value>{NUMBER}\s*°\s?(?:Lintner|WK){GIVE})"
_POTENTIAL = rf"(?P<value>{NUMBER}\s*(?:ppg|L°\s*/\s*kg){GIVE})"

RECIPE: tuple[Field, ...] = (
    Field("title", f.WORDS, "The name of the beer.", required=True),
    Field("date", f.DATE, "When the recipe was written; a recipe without a date stays out of the feed."),
    Field("summary", f.WORDS, "One line that says what the beer is."),
    Field("style", f.WORDS, "A style of the pantry, to be compared with."),
    Field("brewhouse", f.WORDS, "One of the book's brewhouses; the book's own where nothing is said."),
    Field("batch", f.VOLUME, "Wort in the fermenter at pitching, topped up, before the yeast."),
    Field("boil", f.TIME, "How long the wort boils.", default="60 min"),
    Field("kettle", f.VOLUME, "A partial boil: the wort at the start of the boil, topped up to the batch afterwards."),
    Field("original gravity", f.GRAVITY, "The gravity that a grist of percentages is to reach."),
    Field("malts", f.LINES, "Malts and other grain, mashed or steeped."),
    Field("sugars", f.LINES, "Sugars, syrups and honey."),
    Field("extracts", f.LINES, "Malt extracts, dried or liquid, hopped or not."),
    Field("hops", f.LINES, "Each addition of hops."),
    Field("yeast", f.LINES, "The yeast, or several."),
    Field("mash", f.LINES, "The rests of the mash, in order."),
    Field("water", f.LINES, "The water it is brewed with, and what is done to it."),
    Field("finings and spices", f.LINES, "Whatever else goes in."),
    Field("ferment", f.LINES, "Temperatures and days, from pitching."),
    Field("carbonation", GAS, "The gas in the glass and how it comes there."),
    Field("expect", f.TABLE, "Figures that the recipe must keep to."),
    Field("editions", f.LINES, 'Editions besides the book\'s; "no 5 gal" drops one of them.'),
    Field("meant", f.TABLE, "Advice that the recipe means to go against, each with its reason."),
)

ALLERGENS = Property(
    "allergens",
    f.WORDS,
    r"allergens?(?:\s*:\s*| )(?P<value>.+)",
    "allergens: milk, nuts",
    "What it holds that some must not eat or drink, or none; the last in its line.",
)

MALT: tuple[Property, ...] = (
    Property("colour", f.COLOUR, _COLOUR, "60 °L", "The malt's colour, before the pantry's."),
    Property("steep", STEEP, r"(?:steep(?:ed)?)\s+(?P<value>.+)", "steep 30 min at 68 °C", "Steeped, not mashed."),
    Property(
        "extract", f.SHARE, rf"(?P<value>{_PERCENT})\s+extract", "81 % extract", "Extract, fine grind, dry basis."
    ),
    Property("potential", POTENTIAL, _POTENTIAL, "36 ppg", "Extract as it is weighed, in the trade's other ways."),
    Property("moisture", f.SHARE, rf"(?P<value>{_PERCENT})\s+moisture", "4 % moisture", "The malt's moisture."),
    Property("diastatic power", DIASTATIC_POWER, _POWER, "250 °WK", "The strength of its enzymes."),
    ALLERGENS,
)

_DISSOLVING: tuple[Property, ...] = (
    Property("time", f.TIME, _TIME, "10 min", "Minutes before the end of the boil; the whole boil if nothing is said."),
    Property(
        "fermenter",
        FLAG,
        r"(?P<value>(?:in|into|to)(?: the)? fermenter|fermenter)",
        "into the fermenter",
        "Added to the fermenting beer.",
    ),
    Property("days", f.DAYS, _LAST_DAYS, "10 days", "Added to the fermenting beer, so long before it is packaged."),
    Property("colour", f.COLOUR, _COLOUR, "5 °L", "Its colour, before the pantry's."),
    Property("extract", f.SHARE, rf"(?P<value>{_PERCENT})\s+extract", "80 % extract", "Extract as it is sold."),
    Property("potential", POTENTIAL, _POTENTIAL, "36 ppg", "Extract as it is weighed, in the trade's other ways."),
)

SUGAR: tuple[Property, ...] = (
    *_DISSOLVING,
    Property(
        "fermentable",
        f.SHARE,
        rf"(?P<value>{_PERCENT})\s+fermentable",
        "95 % fermentable",
        "What the yeast can take of it.",
    ),
    ALLERGENS,
)

EXTRACT: tuple[Property, ...] = (
    *_DISSOLVING,
    Property("hopped", KIT, r"(?P<value>.+IBU in .+)", "25 IBU in 23 L", "A hopped kit's bitterness, by its label."),
    ALLERGENS,
)

HOP: tuple[Property, ...] = (
    Property(
        "alpha", f.ALPHA, rf"(?P<value>{_PERCENT})(?:\s+(?:alpha(?: acids?)?|aa))?", "4.5 % alpha", "Alpha acids."
    ),
    Property("time", f.TIME, _TIME, "60 min", "Minutes in the boil, counted from its end."),
    Property("first wort", FLAG, r"(?P<value>first wort)", "first wort", "In the kettle while the wort runs in."),
    Property(
        "stand",
        STAND,
        r"stand\s+(?P<value>.+)",
        "stand 20 min at 80 °C",
        "Steeped in the hot wort after the boil: held, falling evenly, or cooling by itself in a room of 20 °C.",
    ),
    Property("dry", f.DAYS, rf"dry(?:\s+hop(?:ped)?)?\s+{_DAYS}", "dry 3 days", "In the beer, until it is packaged."),
    Property(
        "stored",
        STORE,
        r"stored\s+(?P<value>.+)",
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
        "form", WORD, r"(?P<value>whole|pellets?)(?:\s+hops)?", "whole", "Whole cones; pellets if nothing is said."
    ),
    ALLERGENS,
)

YEAST: tuple[Property, ...] = (
    Property("form", WORD, r"(?P<value>dry|dried|liquid)(?:\s+yeast)?", "dried", "Dried or liquid."),
    Property(
        "attenuation",
        f.SHARE,
        rf"(?P<value>{_PERCENT})(?:\s+attenuation)?",
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
        "pitch rate",
        PITCH_RATE,
        rf"pitch(?:ing)? rate\s+(?P<value>{NUMBER})",
        "pitch rate 1.0",
        "Million cells for each millilitre and °P, in place of what is usual for the yeast and the gravity.",
    ),
    ALLERGENS,
)

MASH: tuple[Property, ...] = (
    Property("temperature", f.TEMPERATURE, _DEGREES, "67 °C", "The rest's temperature."),
    Property("time", f.TIME, _TIME, "60 min", "How long it is held."),
    Property(
        "water",
        f.VOLUME,
        rf"(?P<value>{NUMBER}\s*{VOLUMES})(?:\s+water)?",
        "10 L",
        "Water poured in for it; worked out if nothing is said.",
    ),
    Property("way", WORD, r"(?P<value>infusion|decoction|heat)", "decoction", "How the rest is reached."),
)

FERMENT: tuple[Property, ...] = (
    Property("temperature", f.TEMPERATURE, _DEGREES, "19 °C", "The beer's temperature."),
    Property("time", f.DAYS, _DAYS, "10 days", "How long it is held."),
)

CARBONATION: tuple[Property, ...] = (
    Property(
        "volumes", f.VOLUMES, rf"(?P<value>{NUMBER}\s*{spellings('carbonation')})", "2.2 volumes", "Gas in the glass."
    ),
    Property(
        "sugar",
        f.WORDS,
        r"primed with\s+(?P<value>.+)",
        "primed with table sugar",
        "The sugar, or dried malt extract, that makes it.",
    ),
    Property("keg", FLAG, r"(?P<value>(?:in a )?keg)", "keg", "Carbonated under pressure, without sugar."),
)

_INTO = "(?:in|into|with|to)(?: the)? "
STAGES: tuple[tuple[Stage, str], ...] = (
    (Stage.MASH, f"{_INTO}mash"),
    (Stage.STEEP, f"{_INTO}steep"),
    (Stage.KETTLE, f"{_INTO}(?:kettle|boil)|(?:for )?(?:the )?whole boil"),
    (Stage.YEAST, "with(?: the)? yeast"),
    (Stage.FERMENTER, f"{_INTO}fermenter"),
    (Stage.FERMENTED, "after fermentation"),
    (Stage.PACKAGING, "at packaging"),
)
"""The words for each stage of the brew, as patterns: blanks stand for any number of them."""

EXTRA: tuple[Property, ...] = (
    Property("time", f.TIME, _TIME, "10 min", "Minutes before the end of the boil."),
    Property("days", f.DAYS, rf"(?:dry\s+)?{_DAYS}", "3 days", "Days in the beer, until it is packaged."),
    Property(
        "moment",
        WORD,
        f"(?P<value>{'|'.join(pattern for _, pattern in STAGES)})",
        "into the fermenter",
        "Another moment, in words.",
    ),
    ALLERGENS,
)

INTO: tuple[tuple[Into, str], ...] = (
    ("mash", f"{_INTO}mash"),
    ("sparge", f"{_INTO}sparge(?: water)?"),
    ("kettle", f"{_INTO}(?:kettle|boil)"),
)

WATER: tuple[Property, ...] = (
    Property("strength", f.SHARE, rf"(?P<value>{_PERCENT})", "88 %", "An acid's strength, as its label says."),
    Property(
        "moment",
        WORD,
        f"(?P<value>{'|'.join(pattern for _, pattern in INTO)})",
        "in the mash",
        "Where a salt or an acid goes; into all the water if nothing is said.",
    ),
)

LINES: Mapping[str, tuple[Property, ...]] = {
    "malts": MALT,
    "sugars": SUGAR,
    "extracts": EXTRACT,
    "hops": HOP,
    "yeast": YEAST,
    "mash": MASH,
    "water": WATER,
    "finings and spices": EXTRA,
    "ferment": FERMENT,
    "carbonation": CARBONATION,
}
"""What may stand in a line of each section of a recipe, after the amount and the name."""

UNNAMED = frozenset({"mash", "ferment", "carbonation"})
"""Sections whose lines begin with no amount and no name."""
JOINED = frozenset({"yeast", "water"})
"""Sections in which a part that says nothing by itself belongs to the name."""
