"""What the pantry knows of each ingredient and style: frozen records, and beside each figure what may be written of it.

A row of a record is a field that an author may write, by the name of its attribute.
"""

from dataclasses import dataclass, field
from typing import Annotated, Literal, TypeAlias, TypeVar

from gristbook.pantry import fields as f
from gristbook.problems import Place
from gristbook.reading.fields import LINES, TABLE, WORDS, Field, Kind


def row(kind: Kind, sentence: str, default: str = "", *, required: bool = False, name: str = "") -> Field:
    """The field of an attribute: its name, with blanks in it, unless it is given one.

    A figure that no record is without is required, too, where nothing is usual.
    """
    return Field(name, kind, sentence, default, required)


@dataclass(frozen=True, slots=True)
class Spread:
    """A number that varies from sack to sack: nine in ten lie between ``low`` and ``high``.

    All three are in ``unit``, a base of `gristbook.reading.units` ("fraction", "°L", "EBC malt", "°C", "g/L", "IBU",
    "") or a scale of the trade that is no unit ("°Lintner", "°WK", "SRM"). Where the source gives one figure,
    the three are the same: no spread is known. ``source`` and ``place`` say where this very number stands.
    """

    typical: float
    low: float
    high: float
    unit: str
    source: str = field(default="", compare=False)
    place: Place = field(default=Place(""), compare=False)


Maybe: TypeAlias = Spread | None
Dissolved: TypeAlias = Annotated[Spread, row(f.SHARE, "Extract of the dry matter.", "100 %")]
Wet: TypeAlias = Annotated[Spread, row(f.SHARE, "Water in it as sold.")]
UsualShare: TypeAlias = Annotated[Maybe, row(f.SHARE, "The share of a grist that it usually makes, by weight.")]
Spooned: TypeAlias = Annotated[Maybe, row(f.DENSITY, "What a level spoon, a cup or a litre of it weighs.")]
Taste: TypeAlias = Annotated[str, row(WORDS, "What it brings to the glass.")]
StandIns: TypeAlias = Annotated[
    tuple[tuple[str, str], ...], row(TABLE, "What may be taken instead, the best first, each with what changes.")
]
StandInsFrom: TypeAlias = Annotated[
    str, row(WORDS, "Where that is known from, in the words of a page; from memory if nothing is said.")
]
Purpose: TypeAlias = Annotated[str, row(WORDS, "What it is for.")]
Allergenic: TypeAlias = Annotated[
    str, row(WORDS, "What it holds that some must not eat or drink, or none; unknown if nothing is said.")
]

NAMES = (
    Field("name", WORDS, "What it is called; a name that the pantry has replaces the values that are given.", "", True),
    Field("also", LINES, "Other names it goes by."),
    Field("usual for", LINES, "Names that mean several, of which it is the usual one."),
)
ABOUT = (
    Field("about", WORDS, "A remark for whoever brews with it."),
    Field("source", WORDS, "Where the figures come from."),
    Field("sources", TABLE, "Where single figures come from that are not from there."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What every record has: its name, the other names it goes by, a remark, its source and its line.

    ``usual_for`` are names that mean several, of which it is the usual one.
    """

    name: str
    also: tuple[str, ...] = ()
    usual_for: tuple[str, ...] = ()
    about: str = ""
    source: str
    place: Place = field(compare=False)


R = TypeVar("R", bound=Record)


@dataclass(frozen=True, slots=True, kw_only=True)
class Malt(Record):
    """A malt or another grain.

    ``extract`` is fine grind, dry basis, and ``moisture`` the share of water as sold (fractions); ``colour`` is in °L,
    or in "EBC malt" where an author wrote that; ``diastatic_power`` in °Lintner or °WK, and ``fine_coarse_difference``
    what a coarse grind gives less of the dry malt (fraction), both `None` where nobody states them; ``usual_share`` is
    of a grist by weight.
    """

    kind: Annotated[str, row(Kind("a kind of malt", choices=f.MALT_KINDS), "How it was made.", required=True)]
    cereal: Annotated[str, row(Kind("a cereal", choices=f.CEREALS), "The grain it was made of.", "barley")]
    extract: Annotated[Spread, row(f.SHARE, "Extract of the dry matter, fine grind.")]
    fine_coarse_difference: Annotated[
        Maybe,
        row(
            f.SHARE,
            "What a coarse grind gives less of the dry malt, as its analysis says.",
            name="fine-coarse difference",
        ),
    ]
    moisture: Annotated[Spread, row(f.SHARE, "Water in it as sold.", "4 % (3 to 6)")]
    colour: Annotated[Spread, row(f.MALT_COLOUR, "Its colour.")]
    diastatic_power: Annotated[Maybe, row(f.DIASTATIC_POWER, "The strength of its enzymes.")]
    needs_mash: Annotated[bool, row(f.YES_NO, "Whether it holds starch that steeping does not turn to sugar.", "yes")]
    usual_share: UsualShare
    taste: Taste
    stand_ins: StandIns
    stand_ins_from: StandInsFrom


@dataclass(frozen=True, slots=True, kw_only=True)
class Sugar(Record):
    """A sugar or a syrup: it dissolves whole.

    ``extract`` is of the dry matter, ``moisture`` as sold, ``fermentable`` the share of the extract that yeast takes,
    in real terms (all fractions); ``density`` is of a level spoon or cup, in g/L; ``sold_as`` what a shop calls it.
    ``formula`` is of a single sugar that ferments wholly, as it is weighed, its water of crystallisation in it; ""
    where nobody can say how much gas it gives.
    """

    kind: Annotated[str, row(Kind("sugar or syrup", choices=("sugar", "syrup")), "Dry or liquid.", required=True)]
    sold_as: Annotated[str, row(WORDS, "What a shop calls it, if the name is a chemist's.")]
    formula: Annotated[
        str, row(f.SUGAR_FORMULA, "As it is weighed, of a sugar that ferments wholly: bottles are primed by it.")
    ]
    extract: Dissolved
    moisture: Wet
    colour: Annotated[Spread, row(f.SUGAR_COLOUR, "Its colour.", "0 °L")]
    fermentable: Annotated[Spread, row(f.SHARE, "The share of its extract that yeast takes, in real terms.")]
    usual_share: UsualShare
    density: Spooned
    allergen: Allergenic
    taste: Taste
    stand_ins: StandIns
    stand_ins_from: StandInsFrom


@dataclass(frozen=True, slots=True, kw_only=True)
class Fruit(Record):
    """A fruit, a juice or a vegetable, as it goes into the beer: shares of its weight without stones, peel or core.

    ``sour_of`` names its main acid, and ``stones`` is their share of the whole fruit; ``fermentable`` is of its sugar.
    """

    kind: Annotated[
        str, row(Kind("a kind of fruit", choices=f.FRUIT_KINDS), "What sort of thing it is.", required=True)
    ]
    sugar: Annotated[Spread, row(f.SHARE, "Sugar in it.")]
    water: Annotated[Spread, row(f.SHARE, "Water in it.")]
    acid: Annotated[Spread, row(f.SHARE, "Acid in it.")]
    sour_of: Annotated[str, row(WORDS, "The acid that most of it is.")]
    fermentable: Annotated[Spread, row(f.SHARE, "The share of its sugar that yeast takes.", "100 %")]
    stones: Annotated[Maybe, row(f.SHARE, "What its stones weigh of the whole fruit.")]
    density: Spooned
    allergen: Allergenic
    taste: Taste
    care: Annotated[str, row(WORDS, "What may hurt in it, and what to do about that.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Extract(Record):
    """A malt extract, dried or liquid. ``attenuation`` is the apparent attenuation of a wort of nothing else."""

    kind: Annotated[str, row(Kind("dried or liquid", choices=("dried", "liquid")), "Powder or syrup.", required=True)]
    cereal: Annotated[str, row(WORDS, "The grain it was made of.", "barley")]
    extract: Dissolved
    moisture: Wet
    colour: Annotated[Spread, row(f.MALT_COLOUR, "Its colour.")]
    attenuation: Annotated[Spread, row(f.SHARE, "Apparent attenuation of a wort of nothing else.", "74 % (70 to 78)")]
    density: Spooned
    taste: Taste
    stand_ins: StandIns
    stand_ins_from: StandInsFrom


@dataclass(frozen=True, slots=True, kw_only=True)
class Hop(Record):
    """A hop variety.

    ``alpha`` (fraction) is what is sold; ``alpha_in_trials`` what trial plots gave, where that is another range;
    ``oil`` in mL/100 g; ``keeps`` the share of the alpha acids left after six months at 20 °C.
    """

    origin: Annotated[str, row(WORDS, "The country where it was bred or is grown.")]
    alpha: Annotated[Spread, row(f.ALPHA, "Alpha acids by weight, as sold.")]
    alpha_in_trials: Annotated[Maybe, row(f.ALPHA, "Alpha acids by weight, from trial plots.")]
    oil: Annotated[Maybe, row(f.OIL, "Essential oil.")]
    keeps: Annotated[Maybe, row(f.SHARE, "The share of the alpha acids left after six months at 20 °C.")]
    aroma: Annotated[str, row(WORDS, "What it smells of.")]
    pedigree: Annotated[str, row(WORDS, "What it was bred from.")]
    use: Annotated[str, row(f.HOP_USE, "What it is mostly used for.")]
    stand_ins: StandIns
    stand_ins_from: StandInsFrom


@dataclass(frozen=True, slots=True, kw_only=True)
class Yeast(Record):
    """A family of yeasts.

    ``attenuation`` is apparent and ``alcohol_tolerance`` by volume (fractions); ``temperature`` in °C; ``diastatic``
    is "yes", "sometimes" or "no": whether it goes on to ferment dextrins; ``pitch_rate`` is in million cells for a
    millilitre and °P, `None` where it is pitched as its kind is.
    """

    species: Annotated[str, row(WORDS, "The species.")]
    kind: Annotated[Literal["ale", "lager", "other"], row(f.YEAST_KIND, "How it is pitched.", required=True)]
    pitch_rate: Annotated[Maybe, row(f.PITCH_RATE, "The rate that it is pitched at below 1.061, if not its kind's.")]
    attenuation: Annotated[Spread, row(f.SHARE, "Apparent attenuation of an ordinary wort.")]
    temperature: Annotated[Spread, row(f.TEMPERATURE, "Where it ferments well.")]
    flocculation: Annotated[str, row(WORDS, "How readily it clumps and settles.")]
    alcohol_tolerance: Annotated[Spread, row(f.STRENGTH, "The strength at which it tires.", "10 %")]
    phenolic: Annotated[bool, row(f.YES_NO, "Whether it makes clove and pepper of ferulic acid.", "no")]
    diastatic: Annotated[str, row(f.DIASTATIC, "Whether it eats on.", "no")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Style(Record):
    """A style of beer: gravities as SG, strength by volume (fraction), bitterness in IBU, colour in SRM."""

    family: Annotated[str, row(WORDS, "The shelf of the beer cellar it stands on.", "other beers")]
    original_gravity: Annotated[Spread, row(f.GRAVITY, "Low and high before fermentation.")]
    final_gravity: Annotated[Spread, row(f.GRAVITY, "Low and high after it.")]
    strength: Annotated[Spread, row(f.STRENGTH, "Low and high by volume.")]
    bitterness: Annotated[Spread, row(f.BITTERNESS, "Low and high.")]
    colour: Annotated[Spread, row(f.BEER_COLOUR, "Low and high.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fining(Record):
    """A fining, a spice, a nutrient: what it is for, what it may bring, what a litre of it weighs from a spoon.

    ``piece`` is the weight of one (kg); ``usual_dose`` and ``most`` are bounds in the batch (g/L), ``too_much`` says
    what they are for.
    """

    kind: Annotated[
        str, row(Kind("a kind of fining", choices=f.FINING_KINDS), "What sort of thing it is.", required=True)
    ]
    purpose: Purpose
    allergen: Allergenic
    density: Spooned
    piece: Annotated[Maybe, row(f.PIECE, "What one pod, stick, nut or tablet of it weighs.")]
    usual_dose: Annotated[Maybe, row(f.DOSE, "Above this it is worth a word.")]
    most: Annotated[Maybe, row(f.DOSE, "Above this nobody means it, and the recipe stops.")]
    too_much: Annotated[str, row(WORDS, "What too much of it does.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Water(Record):
    """A water to brew with, by its report: ions in g/L, `None` where the report is silent.

    Exactly one of ``bicarbonate``, ``alkalinity`` (as calcium carbonate) and ``acid_capacity`` (mmol/L) is there;
    ``chloramine`` is told as Cl₂, as most reports do, or as itself: ``chloramine_told_as`` is "Cl2" or "NH2Cl".
    """

    calcium: Annotated[Spread, row(f.ION, "Calcium, as the ion.")]
    magnesium: Annotated[Spread, row(f.ION, "Magnesium, as the ion.")]
    sodium: Annotated[Maybe, row(f.ION, "Sodium.")]
    bicarbonate: Annotated[Maybe, row(f.ION, "Bicarbonate; or else its alkalinity or acid capacity.")]
    alkalinity: Annotated[Maybe, row(f.ION, "Alkalinity as calcium carbonate; or else its bicarbonate.")]
    acid_capacity: Annotated[
        Maybe, row(f.ACID_CAPACITY, "Acid that a litre takes up to pH 4.3; or else its bicarbonate.")
    ]
    sulfate: Annotated[Maybe, row(f.ION, "Sulfate, as SO₄.")]
    chloride: Annotated[Maybe, row(f.ION, "Chloride.")]
    chlorine: Annotated[Maybe, row(f.ION, "Free chlorine.")]
    chloramine: Annotated[Maybe, row(f.ION, "Chloramine, told as Cl₂ or as itself.")]
    chloramine_told_as: Annotated[str, row(f.TOLD_AS, "What the report weighs chloramine as.", "Cl2")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Salt(Record):
    """A salt for the water. ``formula`` is of the salt as it is weighed, its water of crystallisation in it."""

    formula: Annotated[str, row(f.SALT_FORMULA, "As it is weighed.", required=True)]
    purpose: Purpose
    allergen: Allergenic


@dataclass(frozen=True, slots=True, kw_only=True)
class Acid(Record):
    """An acid: ``strength`` by weight (fraction), ``density`` of what the bottle holds (g/L)."""

    formula: Annotated[str, row(f.ACID_FORMULA, "The acid itself.", required=True)]
    strength: Annotated[Spread, row(f.SHARE, "Acid by weight, as the label says.")]
    density: Annotated[Spread, row(f.DENSITY, "Density of what the bottle holds.")]
    purpose: Purpose


@dataclass(frozen=True, slots=True, kw_only=True)
class Allergen(Record):
    """What some must not eat or drink: words that say so stand in ``also``, what only sounds like it in ``but``."""

    group: Annotated[str, row(WORDS, "Where the list of the law has it.", required=True)]
    but: Annotated[tuple[str, ...], row(LINES, "Names that only sound like it.")]
