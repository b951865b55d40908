"""What is in a glass: energy and carbohydrate of a serving, and strength by the other published relations."""

from __future__ import annotations

from gristbook.equations import alcohol, attenuation, energy
from gristbook.sheet.value import Value, apply
from gristbook.targets.conventions import ASH, PROTEIN, SERVING
from gristbook.targets.results import Fermentation, Serving, Wort


def serving(wort: Wort, fermentation: Fermentation) -> Serving:
    """Energy and carbohydrate of a small bottle, by the American method."""
    kilocalories = apply(
        energy.calories,
        "energy of a serving",
        abw=fermentation.abw,
        real=fermentation.real_extract,
        gravity=fermentation.final,
        serving_ml=SERVING,
    )
    hall = apply(
        energy.calories_hall_1995,
        "energy of a serving after Hall 1995",
        original_gravity=wort.equivalent_original,
        final_gravity=fermentation.final,
        serving_ml=SERVING,
    )
    return Serving(
        kilocalories,
        apply(energy.kilojoules, "energy of a serving, kJ", kilocalories=kilocalories),
        apply(
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


def strengths(wort: Wort, final: Value, apparent: Value, balling: Value) -> tuple[tuple[str, Value], ...]:
    """Alcohol by volume after each published relation; Balling's chain, the book's own, holds at any strength."""
    hall = apply(
        alcohol.abw_hall_1995,
        "alcohol by weight after Hall 1995",
        original_gravity=wort.equivalent_original,
        final_gravity=final,
    )
    cutaia = apply(
        alcohol.abw_cutaia_2009,
        "alcohol by weight after Cutaia 2009",
        original=wort.equivalent_original_plato,
        apparent=apparent,
    )
    return (
        ("balling 1865", balling),
        ("hall 1995", apply(alcohol.abv_hall_1995, "alcohol after Hall 1995", abw=hall, final_gravity=final)),
        ("cutaia 2009", apply(alcohol.abv, "alcohol after Cutaia 2009", abw=cutaia, gravity=final)),
    )


def degree_of_fermentation(wort: Wort, real: Value) -> Value:
    """Real degree of fermentation by the American method."""
    return apply(
        attenuation.real_degree_of_fermentation,
        "real degree of fermentation",
        original=wort.equivalent_original_plato,
        real=real,
    )
