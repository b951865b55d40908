"""From the grist's colour to the beer's: malt colour units, three models, and the scales between them."""

import math
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive, side_by_side
from gristbook.equations.registry import REGRESSION, Valid, equation, published

LITRES_PER_GALLON: Final = 3.785411784
KILOGRAMS_PER_POUND: Final = 0.45359237
# A malt colour unit is a pound of malt of 1 °L in a US gallon: 8.345404 of it in kilograms and litres.
POUNDS_PER_GALLON_IN_ONE_KILOGRAM_PER_LITRE: Final = LITRES_PER_GALLON / KILOGRAMS_PER_POUND


@equation(
    source=sources.MOREY_1995,
    where="definition of malt colour units: pounds of malt, and US gallons of wort",
    formula="MCU = Σ (kgᵢ × °Lᵢ) / 0.45359237 / (V / 3.785411784)",
)
def malt_colour_units(
    *,
    masses_kg: Annotated[tuple[float, ...], "kg", "kgᵢ", "mass of each malt"],
    colours: Annotated[tuple[float, ...], "°L", "°Lᵢ", "colour of each malt, in the same order"],
    wort_l: Annotated[float, "L", "V", "the wort they colour; here the cool kettle volume at the end of the boil"],
) -> Annotated[float, "MCU"]:
    """Colour that a grist brings to a wort, before any model of how it shows: pounds times °L in a US gallon [MCU].

    Refuses a negative mass or colour, or a volume that is not positive.

    >>> malt_colour_units(masses_kg=(5,), colours=(3,), wort_l=20)
    6.259
    """
    side_by_side(masses_kg, colours, "masses and colours")
    not_negative(min(masses_kg), "a mass of malt")
    not_negative(min(colours), "a colour of malt")
    positive(wort_l, "a volume of wort")
    brought = math.fsum(mass * colour for mass, colour in zip(masses_kg, colours, strict=True))
    return POUNDS_PER_GALLON_IN_ONE_KILOGRAM_PER_LITRE * brought / wort_l


@equation(source=sources.MOREY_1995, formula="SRM = 1.4922 × MCU^0.6859")
def srm_morey_1995(
    *,
    colour: Annotated[
        float,
        "MCU",
        "MCU",
        "malt colour of the wort",
        Valid(0, (50 / 1.4922) ** (1 / 0.6859), "the author gives it for beers below 50 SRM"),
    ],
) -> Annotated[float, "SRM"]:
    """Colour of the beer, after Morey [SRM].

    Refuses a negative colour.

    >>> srm_morey_1995(colour=5)
    4.50
    """
    not_negative(colour, "a colour")
    return 1.4922 * math.pow(colour, 0.6859)


@equation(held=REGRESSION, source=sources.DANIELS_1995, formula="SRM = 0.2 × MCU + 8.4")
def srm_daniels_1995(
    *,
    colour: Annotated[
        float,
        "MCU",
        "MCU",
        "malt colour of the wort",
        Valid(10.5, 37, "the span of the worts that it was fitted to; no beer is paler than 8.4 by it"),
    ],
) -> Annotated[float, "SRM"]:
    """Colour of the beer, after Daniels [SRM]; a line for the middle of the scale, never below 10 MCU.

    Refuses a negative colour.

    >>> srm_daniels_1995(colour=20)
    12.4
    """
    not_negative(colour, "a colour")
    return 0.2 * colour + 8.4


@equation(held=REGRESSION, source=sources.MOSHER_1995, formula="SRM = 0.3 × MCU + 4.7")
def srm_mosher_1995(
    *,
    colour: Annotated[
        float,
        "MCU",
        "MCU",
        "malt colour of the wort",
        Valid(10, math.inf, "no beer is paler than 4.7 by it; no upper end is known"),
    ],
) -> Annotated[float, "SRM"]:
    """Colour of the beer, after Mosher [SRM]; a line for darker worts, never below 10 MCU.

    Refuses a negative colour.

    >>> srm_mosher_1995(colour=30)
    13.7
    """
    not_negative(colour, "a colour")
    return 0.3 * colour + 4.7


@equation(
    source=sources.EBC_COLOUR, where="both scales are multiples of one absorbance", formula="EBC = 25 / 12.7 × SRM"
)
def ebc_from_srm(*, colour: Annotated[float, "SRM", "SRM", "of the beer"]) -> Annotated[float, "EBC"]:
    """Colour of a beer on the European scale, 1.9685 times the American [EBC]. Not for malt.

    Refuses a negative colour.

    >>> ebc_from_srm(colour=20)
    39.37
    """
    not_negative(colour, "a colour")
    return 25 / 12.7 * colour


@published(source=sources.MALT_COLOUR, formula="°L = (EBC + 1.2) / 2.65")
def lovibond_from_malt_ebc(
    *, colour: Annotated[float, "EBC malt", "EBC", "of the malt, congress wort"]
) -> Annotated[float, "°L"]:
    """Colour of a malt in degrees Lovibond from its European figure [°L]. Not for beer.

    Refuses a negative colour.

    >>> lovibond_from_malt_ebc(colour=6.75)
    3.0
    """
    not_negative(colour, "a colour")
    return (colour + 1.2) / 2.65
