"""What may stand in a field of the pantry: the kinds of figures, and the closed lists of words."""

from gristbook.reading.fields import Kind

YES_NO = Kind("yes or no", choices=("yes", "no"))
SHARE = Kind("a share, as 4.5 % (3.5 to 5.5)", ("fraction",), most=1.0)
ALPHA = Kind("a share, as 4.5 % (3.5 to 5.5), to 25 % in cones and pellets", ("fraction",), most=0.25)
MALT_COLOUR = Kind("a malt colour, as 60 °L (54 to 66) or 158 EBC", ("°L", "EBC malt"), most=2000)
SUGAR_COLOUR = Kind("a colour, as 5 °L (2 to 8)", ("°L",), most=2000)
DIASTATIC_POWER = Kind("a diastatic power, as 55 °Lintner (40 to 80) or 180 °WK", ("°Lintner", "°WK"), most=900)
FRUIT_KINDS = ("fruit", "dried fruit", "juice", "vegetable")
DENSITY = Kind("a density, as 0.85 g/mL", ("g/L",), least=50, most=2500)
OIL = Kind("an oil content, as 1.2 mL/100 g (0.8 to 1.6)", ("mL/100 g",), most=10)
HOP_USE = Kind("bittering, aroma or dual", choices=("bittering", "aroma", "dual"))
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
SALT_FORMULA = Kind("a formula, as CaSO4·2H2O", choices=SALT_FORMULAS)
ACID_FORMULAS = ("C3H6O3", "H3PO4")
ACID_FORMULA = Kind("a formula, as C3H6O3", choices=ACID_FORMULAS)
YEAST_KIND = Kind("ale, lager or other", choices=("ale", "lager", "other"))
PITCH_RATE = Kind("million cells for a millilitre and °P, as 1.0", ("",), least=0.05, most=10)
DIASTATIC = Kind("yes, sometimes or no", choices=("yes", "sometimes", "no"))

FINING_KINDS = (
    "kettle fining",
    "fining",
    "nutrient",
    "enzyme",
    "spice",
    "flavouring",
    "spirit",
    "lautering aid",
    "culture",
)
PIECE = Kind("a weight, as 3 g", ("kg",), most=1)
DOSE = Kind("a dose in the batch, as 0.5 g/L", ("g/L",), most=1000)
