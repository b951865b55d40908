"""The parts of a line of the water."""

from gristbook.model.water import Into
from gristbook.reading import fields as f
from gristbook.reading.fields import Kind
from gristbook.reading.line import Property
from gristbook.reading.quantity import NUMBER
from gristbook.text.parts.common import GIVE, INTO_THE, PERCENT, WORD

INTO: tuple[tuple[Into, str], ...] = (
    ("mash", f"(?:for the |{INTO_THE})?mash(?: water)?"),
    ("sparge", f"(?:for the |{INTO_THE})?sparge(?: water)?"),
    ("kettle", f"(?:for the |{INTO_THE})?(?:kettle|boil)|(?:{INTO_THE}kettle )?before (?:the )?(?:kettle )?souring"),
)

ION = Kind("an ion by a water report, in mg/L, as Ca 60", ("",), most=5000)

IONS: tuple[tuple[str, str, str], ...] = (
    ("calcium", "Ca(?:lcium)?", "Ca 60"),
    ("magnesium", "Mg|magnesium", "Mg 8"),
    ("sodium", "Na|sodium", "Na 20"),
    ("sulfate", "SO4|SO₄|sul(?:f|ph)ate", "SO4 45"),
    ("chloride", "Cl|chloride", "Cl 30"),
    ("bicarbonate", "HCO3|HCO₃|bicarbonate", "HCO3 140"),
    ("alkalinity", "alkalinity", "alkalinity 115"),
)
"""What a water report tells in mg/L, the alkalinity as calcium carbonate: name, what may be written, an example."""

TAP = (
    "(?:(?:the|my|our|local|city|town|carbon|charcoal|filtered|dechlorinated|plain|boiled)[ -])*"
    "(?:tap|city|town|mains|well)(?: water)?"
)
"""What runs at home."""
A_WATER = rf"{TAP}|(?:[^\W\d]+ )*water|RO|DI"
"""A water by its name alone, to which the salts of the same line are added."""

WATER: tuple[Property, ...] = (
    Property(
        "pH",
        f.WORDS,
        rf"(?P<value>(?:[^\W\d]+(?:[ -][^\W\d]+)* )?(?:to|for) (?:an? |the )?(?:mash )?pH (?:of )?{NUMBER})",
        "to pH 5.3",
        "What it is to come to, which a meter tells; how much acid that takes is among the figures.",
    ),
    Property("strength", f.SHARE, rf"(?P<value>{PERCENT})", "88 %", "An acid's strength, as its label says."),
    Property(
        "moment",
        WORD,
        f"(?P<value>{'|'.join(pattern for _, pattern in INTO)})",
        "in the mash",
        "Where a salt or an acid goes; into all the water if nothing is said.",
    ),
    *(
        Property(
            ion,
            ION,
            rf"(?:{words})(?: |:|=)*(?P<value>{NUMBER}{GIVE})\s*(?:mg\s*/\s*L|ppm)?(?: as CaCO3)?",
            example,
            f"The {ion} of a tap by its report, in mg/L.",
        )
        for ion, words, example in IONS
    ),
)
