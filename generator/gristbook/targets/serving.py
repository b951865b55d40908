"""What is in a glass: energy and carbohydrate of a serving, and strength by the other published relations."""

from __future__ import annotations

from gristbook.equations import alcohol, attenuation, energy
from gristbook.targets.conventions import ASH, PROTEIN, SERVING
from gristbook.targets.results import Fermentation, Serving, Wort
from gristbook.worksheet import Calculator, N


def serving(wort: Wort[N], fermentation: Fermentation[N], calc: Calculator[N]) -> Serving[N]:
    """Energy and carbohydrate of a small bottle, by the American method."""
    kilocalories = calc(
        energy.calories,
        "energy of a serving",
        abw=fermentation.abw,
        real=fermentation.real_extract,
        gravity=fermentation.final,
        serving_ml=SERVING,
    )
    hall = calc(
        energy.calories_hall_1995,
        "energy of a serving after Hall 1995",
        original_gravity=wort.equivalent_original,
        final_gravity=fermentation.final,
        serving_ml=SERVING,
    )
    return Serving(
        kilocalories,
        calc(energy.kilojoules, "energy of a serving, kJ", kilocalories=kilocalories),
        calc(
            energy.carbohydrate,
            "carbohydrate of a serving",
            real=fermentation.real_extract,
            protein=PROTEIN,
            ash=ASH,
            gravity=fermentation.final,
            serving_ml=SERVING,
        ),
        (("ASBC, method Beer-33", kilocalories), ("hall 1995", hall)),
    )


def strengths(wort: Wort[N], final: N, apparent: N, balling: N, calc: Calculator[N]) -> tuple[tuple[str, N], ...]:
    """Alcohol by volume after each published relation; Balling's chain, the book's own, holds at any strength."""
    hall = calc(
        alcohol.abw_hall_1995,
        "alcohol by weight after Hall 1995",
        original_gravity=wort.equivalent_original,
        final_gravity=final,
    )
    cutaia = calc(
        alcohol.abw_cutaia_2009,
        "alcohol by weight after Cutaia 2009",
        original=wort.equivalent_original_plato,
        apparent=apparent,
    )
    return (
        ("balling 1865", balling),
        ("hall 1995", calc(alcohol.abv_hall_1995, "alcohol after Hall 1995", abw=hall, final_gravity=final)),
        ("cutaia 2009", calc(alcohol.abv, "alcohol after Cutaia 2009", abw=cutaia, gravity=final)),
    )


def degree_of_fermentation(wort: Wort[N], real: N, calc: Calculator[N]) -> N:
    """Real degree of fermentation by the American method."""
    return calc(
        attenuation.real_degree_of_fermentation,
        "real degree of fermentation",
        original=wort.equivalent_original_plato,
        real=real,
    )
