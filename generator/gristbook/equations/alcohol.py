"""Alcohol from the extract that is gone; how much is gone is in `attenuation`.

Nothing refuses alcohol below 0: it is what a beer that reads above its own wort gives, and shows a slip of the reading.
"""

from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.atoms import molar_mass
from gristbook.equations.attenuation import ApparentExtract, OriginalExtract, RealExtract
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import REGRESSION, Valid, equation, published
from gristbook.refusal import Refusal

_MOST: Final = 4 * molar_mass("C2H5OH") / molar_mass("C12H22O11")

AlcoholByWeight = Annotated[float, "%", "A", "alcohol by weight"]
FinalGravity = Annotated[float, "SG", "FG", "gravity of the beer, as a hydrometer shows it"]


@published(
    source=sources.BALLING, where="the great formula, solved for A", formula="A = (OE − RE) / (2.0665 − 0.010665 OE)"
)
def abw_balling(*, original: OriginalExtract, real: RealExtract) -> Annotated[float, "%"]:
    """Alcohol by weight from the extract that is gone [%].

    Refuses an original extract above 100 °P.

    >>> abw_balling(original=12, real=4.2176)
    4.0146
    """
    if not original <= 100:
        raise Refusal(f"no wort has {original:g} °P")
    return (original - real) / (2.0665 - 0.010665 * original)


@equation(held=REGRESSION, source=sources.HALL_1995, formula="A = 76.08 (OG − FG) / (1.775 − OG)")
def abw_hall_1995(
    *, original_gravity: Annotated[float, "SG", "OG", "gravity before fermentation"], final_gravity: FinalGravity
) -> Annotated[float, "%"]:
    """Alcohol by weight straight from two gravities [%]; in strong beer well above Balling's, by 4 % of it at 1.080.

    Refuses a gravity of 0 or below, or an original gravity of 1.775 or more, where the formula ends.

    >>> abw_hall_1995(original_gravity=1.050, final_gravity=1.010)
    4.198
    """
    positive(original_gravity, "a gravity")
    positive(final_gravity, "a gravity")
    if original_gravity >= 1.775:
        raise Refusal(f"no wort has a gravity of {original_gravity:g}")
    return 76.08 * (original_gravity - final_gravity) / (1.775 - original_gravity)


@published(source=sources.CUTAIA_2009, where="Table VI", formula="A = (0.372 + 0.00357 OE) (OE − AE)")
def abw_cutaia_2009(*, original: OriginalExtract, apparent: ApparentExtract) -> Annotated[float, "%"]:
    """Alcohol by weight, as fitted to 532 beers [%].

    >>> abw_cutaia_2009(original=12, apparent=2.5)
    3.941
    """
    return (0.372 + 0.00357 * original) * (original - apparent)


@published(
    source=sources.OIML_R22,
    where="0.79066 is the gravity of ethanol, 789.24 / 998.20 kg/m³ at 20 °C",
    formula="ABV = A S / 0.79066",
)
def abv(*, abw: AlcoholByWeight, gravity: Annotated[float, "SG", "S", "gravity of the beer"]) -> Annotated[float, "%"]:
    """Alcohol by volume at 20 °C [%].

    Refuses a gravity that is not positive.

    >>> abv(abw=4.162, gravity=1.010)
    5.316
    """
    positive(gravity, "a gravity")
    return abw * gravity / 0.79066


@equation(source=sources.HALL_1995, where="0.794 is the gravity of ethanol at 60 °F", formula="ABV = A FG / 0.794")
def abv_hall_1995(*, abw: AlcoholByWeight, final_gravity: FinalGravity) -> Annotated[float, "%"]:
    """Alcohol by volume as the article has it, at 60 °F: 0.4 % of it lower than at 20 °C [%].

    Refuses a gravity that is not positive.

    >>> abv_hall_1995(abw=4.198, final_gravity=1.010)
    5.34
    """
    positive(final_gravity, "a gravity")
    return abw * final_gravity / 0.794


@equation(
    source=sources.GAY_LUSSAC_1815,
    where="with 789.24 g/L, the density of ethanol at 20 °C (OIML R 22)",
    formula="ΔABV = 100 m y / (789.24 V)",
)
def priming_alcohol(
    *,
    sugar_g: Annotated[float, "g", "m", "mass of the sugar"],
    beer_l: Annotated[float, "L", "V", "beer that it is shared among"],
    ethanol_yield: Annotated[
        float,
        "g/g",
        "y",
        "ethanol from a gram of the sugar, when all of it ferments",
        Valid(0, _MOST, "ends with sucrose, the priming sugar that gives most"),
    ],
) -> Annotated[float, "%"]:
    """Alcohol by volume that the priming sugar adds in the bottle [%].

    Refuses a negative mass or yield, or no beer.

    >>> priming_alcohol(sugar_g=79.6, beer_l=18.5, ethanol_yield=0.5383)
    0.29
    """
    not_negative(sugar_g, "a mass of sugar")
    not_negative(ethanol_yield, "a yield")
    positive(beer_l, "a volume of beer")
    return 100 * sugar_g * ethanol_yield / (789.24 * beer_l)
