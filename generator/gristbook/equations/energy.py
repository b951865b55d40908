"""What a glass of beer feeds: energy and carbohydrate, by the alcohol and the real extract that are in it."""

from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.alcohol import AlcoholByWeight, FinalGravity
from gristbook.equations.attenuation import RealExtract
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Valid, published
from gristbook.refusal import Refusal

Serving = Annotated[float, "mL", "v", "the serving"]
GravityOfTheBeer = Annotated[float, "SG", "S", "gravity of the beer"]


@published(
    source=sources.ASBC_BEER_33,
    where="with 0.1 % of ash, and gravity standing for the beer's density",
    formula="kcal = (6.9 A + 4 (RE − 0.1)) S v / 100",
)
def calories(
    *, abw: AlcoholByWeight, real: RealExtract, gravity: GravityOfTheBeer, serving_ml: Serving
) -> Annotated[float, "kcal"]:
    """Energy in a serving [kcal]; two thirds or so come from the alcohol.

    Refuses a gravity that is not positive, or a negative serving.

    >>> calories(abw=5.107, real=5.179, gravity=1.012, serving_ml=355)
    199.6
    """
    positive(gravity, "a gravity")
    not_negative(serving_ml, "a serving")
    return (6.9 * abw + 4 * (real - 0.1)) * gravity * serving_ml / 100


@published(source=sources.ASBC_BEER_33, where="the calorie of thermochemistry, 4.184 J", formula="kJ = 4.184 kcal")
def kilojoules(*, kilocalories: Annotated[float, "kcal", "kcal", "the same energy"]) -> Annotated[float, "kJ"]:
    """Energy in the unit of the International System [kJ].

    >>> kilojoules(kilocalories=199.6)
    835.1
    """
    return 4.184 * kilocalories


@published(
    source=sources.ASBC_BEER_33, where="carbohydrate by difference", formula="g = (RE − protein − ash) S v / 100"
)
def carbohydrate(
    *,
    real: RealExtract,
    protein: Annotated[
        float, "%", "protein", "protein by weight, about 0.4", Valid(0.3, 0.5, "what is typical of beer (from memory)")
    ],
    ash: Annotated[float, "%", "ash", "ash by weight, about 0.1"],
    gravity: GravityOfTheBeer,
    serving_ml: Serving,
) -> Annotated[float, "g"]:
    """Carbohydrate in a serving: what of the real extract is neither protein nor ash [g].

    Refuses a gravity that is not positive, or a negative amount of protein, ash or beer.

    >>> carbohydrate(real=4.14, protein=0.46, ash=0.16, gravity=1, serving_ml=100)
    3.52
    """
    not_negative(protein, "a share of protein")
    not_negative(ash, "a share of ash")
    positive(gravity, "a gravity")
    not_negative(serving_ml, "a serving")
    return (real - protein - ash) * gravity * serving_ml / 100


@published(
    source=sources.HALL_1995,
    where="alcohol and extract together",
    formula="kcal = (1881.22 FG (OG − FG) / (1.775 − OG) + 3550 FG (0.1808 OG + 0.8192 FG − 1.0004)) v / 355",
)
def calories_hall_1995(
    *,
    original_gravity: Annotated[float, "SG", "OG", "gravity before fermentation"],
    final_gravity: FinalGravity,
    serving_ml: Serving,
) -> Annotated[float, "kcal"]:
    """Energy in a serving, straight from two gravities: the alternative to `calories` [kcal].

    Refuses a gravity that is not positive, an original gravity of 1.775 or more, or a negative serving.

    >>> calories_hall_1995(original_gravity=1.050, final_gravity=1.010, serving_ml=355)
    165.18
    """
    not_negative(serving_ml, "a serving")
    positive(original_gravity, "a gravity")
    positive(final_gravity, "a gravity")
    if original_gravity >= 1.775:
        raise Refusal(f"no wort has a gravity of {original_gravity:g}")
    alcohol = 1881.22 * final_gravity * (original_gravity - final_gravity) / (1.775 - original_gravity)
    extract = 3550 * final_gravity * (0.1808 * original_gravity + 0.8192 * final_gravity - 1.0004)
    return (alcohol + extract) * serving_ml / 355
