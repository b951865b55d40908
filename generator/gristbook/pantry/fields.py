"""What may be written of a malt, a hop, a yeast …: every field of the pantry, described once."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Generic, TypeVar

from gristbook.pantry.records import (
    Acid,
    Allergen,
    Extract,
    Fining,
    Hop,
    Malt,
    Record,
    Salt,
    Style,
    Sugar,
    Water,
    Yeast,
)
from gristbook.reading.fields import LINES, TABLE, WORDS, Field, Kind

R = TypeVar("R", bound=Record)

YES_NO = Kind("yes or no", choices=("yes", "no"))
SHARE = Kind("a share, as 4.5 % (3.5 to 5.5)", ("fraction",), most=1.0)
ALPHA = Kind("a share, as 4.5 % (3.5 to 5.5), to 25 % in cones and pellets", ("fraction",), most=0.25)
MALT_COLOUR = Kind("a malt colour, as 60 °L (54 to 66) or 158 EBC", ("°L", "EBC malt"), most=2000)
SUGAR_COLOUR = Kind("a colour, as 5 °L (2 to 8)", ("°L",), most=2000)
DIASTATIC_POWER = Kind("a diastatic power, as 55 °Lintner (40 to 80) or 180 °WK", ("°Lintner", "°WK"), most=900)
DENSITY = Kind("a density, as 0.85 g/mL", ("g/L",), least=50, most=2500)
OIL = Kind("an oil content, as 1.2 mL/100 g (0.8 to 1.6)", ("mL/100 g",), most=10)
TEMPERATURE = Kind("a temperature, as 17 to 22 °C", ("°C",), least=-2, most=50)
GRAVITY = Kind("a gravity, as 1.040 to 1.048", ("",), least=0.98, most=1.2)
STRENGTH = Kind("a strength by volume, as 3.8 to 4.6 %", ("fraction",), most=0.3)
BITTERNESS = Kind("a bitterness, as 25 to 40 IBU", ("IBU",), most=200)
BEER_COLOUR = Kind("a beer colour in SRM, as 8 to 16 SRM", ("SRM",), most=200)

MALT_KINDS = ("base", "kilned", "smoked", "caramel", "roast", "flaked", "torrefied", "raw")
CEREALS = (
    *("barley", "wheat", "rye", "oats", "spelt", "triticale"),
    *("maize", "rice", "sorghum", "millet", "buckwheat"),
)
"""A closed list: allergens are named from it, and a misspelt cereal must not become a label without wheat."""

ION = Kind("a concentration, as 60 mg/L (50 to 70)", ("g/L",), most=40)
ACID_CAPACITY = Kind("an acid capacity, as 3.2 mmol/L (3.0 to 3.4)", ("mmol/L",), most=50)
TOLD_AS = Kind("Cl2 or NH2Cl", choices=("Cl2", "NH2Cl"))
SALT_FORMULAS = (
    *("CaSO4·2H2O", "CaCl2", "CaCl2·2H2O", "MgSO4·7H2O", "MgCl2·6H2O", "NaCl"),
    *("NaHCO3", "CaCO3", "CaO2H2", "K2S2O5", "Na2S2O5"),
)
"""A closed list: what a salt brings is worked out of its formula."""
SUGAR_FORMULA = Kind("a formula, as C12H22O11", choices=("C6H12O6", "C6H12O6·H2O", "C12H22O11"))
ACID_FORMULAS = ("C3H6O3", "H3PO4")

FINING_KINDS = ("kettle fining", "fining", "nutrient", "enzyme", "spice", "flavouring", "lautering aid", "culture")
PIECE = Kind("a weight, as 3 g", ("kg",), most=1)
DOSE = Kind("a dose in the batch, as 0.5 g/L", ("g/L",), most=1000)

ABOUT = (
    Field("about", WORDS, "A remark for whoever brews with it."),
    Field("source", WORDS, "Where the figures come from."),
    Field("sources", TABLE, "Where single figures come from that are not from there."),
)
NAMES = (
    Field("name", WORDS, "What it is called; a name that the pantry has replaces the values that are given.", "", True),
    Field("also", LINES, "Other names it goes by."),
)
EXTRACT = Field("extract", SHARE, "Extract of the dry matter, fine grind.", "", True)
DISSOLVED = Field("extract", SHARE, "Extract of the dry matter.", "100 %")
WET = Field("moisture", SHARE, "Water in it as sold.", "", True)
TASTE = Field("taste", WORDS, "What it brings to the glass.")
ALLERGEN = Field(
    "allergen", WORDS, "What it holds that some must not eat or drink, or none; unknown if nothing is said."
)
USUAL_SHARE = Field("usual share", SHARE, "The share of a grist that it usually makes, by weight.")
SPOONED = Field("density", DENSITY, "What a level spoon or cup of it weighs.")


@dataclass(frozen=True, slots=True)
class Section(Generic[R]):
    """A shelf of the pantry and the file that fills it: its name, what one of it is called, its fields.

    ``rivals`` are fields that say the same in several ways, of which a record has exactly one.
    """

    name: str
    one: str
    record: type[R]
    own: tuple[Field, ...]
    rivals: tuple[str, ...] = ()

    @property
    def fields(self) -> tuple[Field, ...]:
        """Every field that a record of this section may have."""
        return NAMES + self.own + ABOUT

    @property
    def changes(self) -> tuple[Field, ...]:
        """The same fields for a record that changes one of ours: only its name is needed."""
        return NAMES + tuple(replace(field, required=False, default="") for field in self.own + ABOUT)


MALTS = Section(
    "malts",
    "a malt",
    Malt,
    (
        Field("kind", Kind("a kind of malt", choices=MALT_KINDS), "How it was made.", "", True),
        Field("cereal", Kind("a cereal", choices=CEREALS), "The grain it was made of.", "barley"),
        EXTRACT,
        Field("fine-coarse difference", SHARE, "What a coarse grind gives less of the dry malt, as its analysis says."),
        Field("moisture", SHARE, "Water in it as sold.", "4 % (3 to 6)"),
        Field("colour", MALT_COLOUR, "Its colour.", "", True),
        Field("diastatic power", DIASTATIC_POWER, "The strength of its enzymes."),
        Field("needs mash", YES_NO, "Whether it holds starch that steeping does not turn to sugar.", "yes"),
        USUAL_SHARE,
        TASTE,
    ),
)
SUGARS = Section(
    "sugars",
    "a sugar",
    Sugar,
    (
        Field("kind", Kind("sugar or syrup", choices=("sugar", "syrup")), "Dry or liquid.", "", True),
        Field("sold as", WORDS, "What a shop calls it, if the name is a chemist's."),
        Field("formula", SUGAR_FORMULA, "As it is weighed, of a sugar that ferments wholly: bottles are primed by it."),
        DISSOLVED,
        WET,
        Field("colour", SUGAR_COLOUR, "Its colour.", "0 °L"),
        Field("fermentable", SHARE, "The share of its extract that yeast takes, in real terms.", "", True),
        USUAL_SHARE,
        SPOONED,
        ALLERGEN,
        TASTE,
    ),
)
EXTRACTS = Section(
    "extracts",
    "a malt extract",
    Extract,
    (
        Field("kind", Kind("dried or liquid", choices=("dried", "liquid")), "Powder or syrup.", "", True),
        Field("cereal", WORDS, "The grain it was made of.", "barley"),
        DISSOLVED,
        WET,
        Field("colour", MALT_COLOUR, "Its colour.", "", True),
        Field("attenuation", SHARE, "Apparent attenuation of a wort of nothing else.", "74 % (70 to 78)"),
        SPOONED,
        TASTE,
    ),
)
HOPS = Section(
    "hops",
    "a hop",
    Hop,
    (
        Field("origin", WORDS, "The country where it was bred or is grown."),
        Field("alpha", ALPHA, "Alpha acids by weight, as sold.", "", True),
        Field("alpha in trials", ALPHA, "Alpha acids by weight, from trial plots."),
        Field("oil", OIL, "Essential oil."),
        Field("keeps", SHARE, "The share of the alpha acids left after six months at 20 °C."),
        Field("aroma", WORDS, "What it smells of."),
    ),
)
YEASTS = Section(
    "yeasts",
    "a yeast",
    Yeast,
    (
        Field("species", WORDS, "The species."),
        Field("kind", Kind("ale, lager or other", choices=("ale", "lager", "other")), "How it is pitched.", "", True),
        Field("attenuation", SHARE, "Apparent attenuation of an ordinary wort.", "", True),
        Field("temperature", TEMPERATURE, "Where it ferments well.", "", True),
        Field("flocculation", WORDS, "How readily it clumps and settles."),
        Field("alcohol tolerance", STRENGTH, "The strength at which it tires.", "10 %"),
        Field("phenolic", YES_NO, "Whether it makes clove and pepper of ferulic acid.", "no"),
        Field(
            "diastatic", Kind("yes, sometimes or no", choices=("yes", "sometimes", "no")), "Whether it eats on.", "no"
        ),
    ),
)
STYLES = Section(
    "styles",
    "a style",
    Style,
    (
        Field("family", WORDS, "The shelf of the beer cellar it stands on.", "other beers"),
        Field("original gravity", GRAVITY, "Low and high before fermentation.", "", True),
        Field("final gravity", GRAVITY, "Low and high after it.", "", True),
        Field("strength", STRENGTH, "Low and high by volume.", "", True),
        Field("bitterness", BITTERNESS, "Low and high.", "", True),
        Field("colour", BEER_COLOUR, "Low and high.", "", True),
    ),
)
FININGS = Section(
    "finings",
    "a fining or spice",
    Fining,
    (
        Field("kind", Kind("a kind of fining", choices=FINING_KINDS), "What sort of thing it is.", "", True),
        Field("purpose", WORDS, "What it is for."),
        ALLERGEN,
        SPOONED,
        Field("piece", PIECE, "What one pod, stick, nut or tablet of it weighs."),
        Field("usual dose", DOSE, "Above this it is worth a word."),
        Field("most", DOSE, "Above this nobody means it, and the recipe stops."),
        Field("too much", WORDS, "What too much of it does."),
    ),
)
WATERS = Section(
    "waters",
    "a water",
    Water,
    (
        Field("calcium", ION, "Calcium, as the ion.", "", True),
        Field("magnesium", ION, "Magnesium, as the ion.", "", True),
        Field("sodium", ION, "Sodium."),
        Field("bicarbonate", ION, "Bicarbonate; or else its alkalinity or acid capacity."),
        Field("alkalinity", ION, "Alkalinity as calcium carbonate; or else its bicarbonate."),
        Field("acid capacity", ACID_CAPACITY, "Acid that a litre takes up to pH 4.3; or else its bicarbonate."),
        Field("sulfate", ION, "Sulfate, as SO₄."),
        Field("chloride", ION, "Chloride."),
        Field("chlorine", ION, "Free chlorine."),
        Field("chloramine", ION, "Chloramine, told as Cl₂ or as itself."),
        Field("chloramine told as", TOLD_AS, "What the report weighs chloramine as.", "Cl2"),
    ),
    rivals=("bicarbonate", "alkalinity", "acid capacity"),
)
SALTS = Section(
    "salts",
    "a salt",
    Salt,
    (
        Field("formula", Kind("a formula, as CaSO4·2H2O", choices=SALT_FORMULAS), "As it is weighed.", "", True),
        Field("purpose", WORDS, "What it is for."),
        ALLERGEN,
    ),
)
ACIDS = Section(
    "acids",
    "an acid",
    Acid,
    (
        Field("formula", Kind("a formula, as C3H6O3", choices=ACID_FORMULAS), "The acid itself.", "", True),
        Field("strength", SHARE, "Acid by weight, as the label says.", "", True),
        Field("density", DENSITY, "Density of what the bottle holds.", "", True),
        Field("purpose", WORDS, "What it is for."),
    ),
)
ALLERGENS = Section(
    "allergens",
    "an allergen",
    Allergen,
    (
        Field("group", WORDS, "Where the list of the law has it.", "", True),
        Field("but", LINES, "Names that only sound like it."),
    ),
)
