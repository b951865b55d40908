"""What an author may write in a recipe, described once: every field, and where the parts of its lines stand."""

from collections.abc import Mapping

from gristbook.reading import fields as f
from gristbook.reading.fields import Field, Kind
from gristbook.reading.line import Property
from gristbook.text.parts.carbonation import CARBONATION
from gristbook.text.parts.common import NOTED
from gristbook.text.parts.extras import EXTRA
from gristbook.text.parts.grist import EXTRACT, FRUIT, MALT, SUGAR
from gristbook.text.parts.hops import HOP
from gristbook.text.parts.steps import FERMENT, MASH
from gristbook.text.parts.water import WATER
from gristbook.text.parts.yeast import YEAST

GAS = Kind("a line, as 2.2 volumes, keg", shape="lines")

RECIPE: tuple[Field, ...] = (
    Field("title", f.WORDS, "The name of the beer.", required=True, also="name, beer"),
    Field("date", f.DATE, "When the recipe was written; a recipe without a date stays out of the feed."),
    Field("summary", f.WORDS, "One line that says what the beer is.", also="description, about"),
    Field("style", f.WORDS, "A style of the pantry, to be compared with.", also="beer style"),
    Field(
        "brewhouse", f.WORDS, "One of the book's brewhouses; the book's own where nothing is said.", also="equipment"
    ),
    Field(
        "batch",
        f.VOLUME,
        "Wort in the fermenter at pitching, topped up, before the yeast.",
        also="batch size, batch volume, volume, size, into the fermenter, makes, yield, quantity, final volume",
    ),
    Field(
        "boil",
        f.TIME,
        "How long the wort boils, or none for raw ale.",
        default="60 min",
        also="boil time, boil length, length of the boil, length of boil, boil for, kettle time",
        unit="min",
    ),
    Field("kettle", f.VOLUME, "A partial boil: the wort at the start of the boil, topped up to the batch afterwards."),
    Field(
        "original gravity",
        f.GRAVITY,
        "The gravity that a grist of percentages is to reach, and that one of weights should come to.",
        also="OG, starting gravity, target gravity, target OG",
    ),
    Field(
        "malts",
        f.LINES,
        "Malts and other grain, mashed or steeped.",
        also="malt, grain, grains, grist, grain bill, malt bill, fermentables, cereals, mash bill, malts and grains"
        ", malt and grain, base malt, base malts, specialty malts, specialty grains",
    ),
    Field("sugars", f.LINES, "Sugars, syrups and honey.", also="sugar, syrups, honey, adjuncts"),
    Field(
        "fruit",
        f.LINES,
        "Fruit, juice and purée; among sugars or spices they are read all the same.",
        also="fruits, juice, juices, fruit and juice, berries",
    ),
    Field(
        "extracts",
        f.LINES,
        "Malt extracts, dried or liquid, hopped or not.",
        also="extract, malt extract, malt extracts",
    ),
    Field("hops", f.LINES, "Each addition of hops.", also="hop, hop schedule, hop additions, hopping, hop bill"),
    Field("yeast", f.LINES, "The yeast, or several.", also="yeasts, yeast and bacteria, bacteria, cultures, culture"),
    Field("mash", f.LINES, "The rests of the mash, in order.", also="mashing, mash schedule, mash steps, mash profile"),
    Field(
        "sparge",
        f.LINES,
        "The sparge water, as 12 L at 77 °C; the same as a line of the mash that says sparge.",
        also="sparging, sparge water",
    ),
    Field(
        "water",
        f.LINES,
        "The water it is brewed with, and what is done to it.",
        also="brewing water, water treatment, liquor treatment, water salts, salts, minerals, liquor, acid, acids",
    ),
    Field(
        "finings and spices",
        f.LINES,
        "Whatever else goes in.",
        also="finings, fining, spices, spice, herbs, extras, other ingredients, misc, miscellaneous, additions, other"
        ", others, anything else, enzymes, kettle additions, fermenter additions, flavourings, flavorings",
    ),
    Field(
        "ferment",
        f.LINES,
        "Temperatures and days, from pitching.",
        also="fermentation, fermenting, fermented, fermentation schedule, fermentation profile"
        ", fermentation temperature",
    ),
    Field(
        "carbonation",
        GAS,
        "The gas in the glass and how it comes there.",
        also="packaging, package, priming, bottling, kegging, serving, carb, carbonate, prime, bottle, keg, gas"
        ", packaged, bottled, kegged, casked, priming sugar, bottles, cask, casks, casking, barrel, kegs",
    ),
    Field(
        "expect",
        f.TABLE,
        "Figures that the recipe must keep to within a ±; without one, or above as IBU: 35, a word is said.",
        also="expected, targets, target, figures, vital statistics",
    ),
    Field("editions", f.LINES, 'Editions besides the book\'s; "no 5 gal" drops one of them.'),
    Field("meant", f.TABLE, "Advice that the recipe means to go against, each with its reason."),
)

_LINES: Mapping[str, tuple[Property, ...]] = {
    "malts": MALT,
    "sugars": SUGAR,
    "fruit": FRUIT,
    "extracts": EXTRACT,
    "hops": HOP,
    "yeast": YEAST,
    "mash": MASH,
    "water": WATER,
    "finings and spices": EXTRA,
    "ferment": FERMENT,
    "carbonation": CARBONATION,
}
LINES = {section: (*properties, NOTED) for section, properties in _LINES.items()}
"""What may stand in a line of each section of a recipe, after the amount and the name."""

UNNAMED = frozenset({"mash", "ferment", "carbonation"})
"""Sections whose lines begin with no amount and no name."""

COUNTED = frozenset({"finings and spices"})
"""Sections in which a number alone counts what it stands before, whatever that is."""

WITHOUT_COMMAS = frozenset({"water"})
"""Sections in whose lines no comma is missed before a number."""
