"""The whole way from two gravities, or from a gravity and an attenuation, to alcohol: worked apart from the project.

The rows of `fermentations.csv` were worked from the published equations that they name; their tolerance is half a unit
of the last figure given, and a little for the rounding of steps between.
"""

import csv
from pathlib import Path

import pytest

from gristbook.equations import alcohol, attenuation, gravity

with Path(__file__).with_name("fermentations.csv").open(encoding="utf-8", newline="") as table:
    ROWS = list(csv.DictReader(table))


def figures(original_gravity: float, final_gravity: float) -> dict[str, float]:
    original = gravity.plato_from_gravity(gravity=original_gravity)
    apparent = gravity.plato_from_gravity(gravity=final_gravity)
    real = attenuation.real_extract(original=original, apparent=apparent)
    abw = alcohol.abw_balling(original=original, real=real)
    hall = alcohol.abw_hall_1995(original_gravity=original_gravity, final_gravity=final_gravity)
    return {
        "original extract": original,
        "apparent extract": apparent,
        "real extract": real,
        "apparent attenuation": 100 * attenuation.apparent_attenuation(original=original, apparent=apparent),
        "real attenuation": 100 * attenuation.real_attenuation(original=original, real=real),
        "alcohol by weight": abw,
        "alcohol by volume": alcohol.abv(abw=abw, gravity=final_gravity),
        "alcohol by weight, Hall": hall,
        "alcohol by volume, Hall": alcohol.abv_hall_1995(abw=hall, final_gravity=final_gravity),
    }


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['id']}-{row['figure']}")
def test_two_gravities_give_the_figures_worked_apart(row: dict[str, str]) -> None:
    found = figures(float(row["original_gravity"]), float(row["final_gravity"]))[row["figure"]]
    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"])), row["source"]


@pytest.mark.parametrize(
    ("original_gravity", "parts_kg", "apparent", "final_gravity", "by_volume"),
    [
        pytest.param(1.03980, (2.2711,), (0.72,), 1.01088, 3.83, id="pale-bitter"),
        pytest.param(1.05000, (1.4282,), (0.76,), 1.01162, 5.10, id="wheat-beer"),
        pytest.param(1.05936, (2.8336, 0.38), (0.74, 0.0), 1.01996, 5.27, id="milk-stout-with-lactose"),
    ],
)
def test_a_gravity_and_an_attenuation_give_the_beers_worked_by_hand(
    original_gravity: float,
    parts_kg: tuple[float, ...],
    apparent: tuple[float, ...],
    final_gravity: float,
    by_volume: float,
) -> None:
    # Worked by hand from the ASBC cubic and the chain of Balling; lactose does not ferment.
    original = gravity.plato_from_gravity(gravity=original_gravity)
    real_parts = tuple(attenuation.real_from_apparent_attenuation(apparent_attenuation=part) for part in apparent)
    gone = attenuation.blended_attenuation(extracts_kg=parts_kg, attenuations=real_parts)
    real = attenuation.real_extract_after(original=original, real_attenuation=gone)
    end = gravity.gravity_from_plato(extract=attenuation.apparent_extract(original=original, real=real))
    assert end == pytest.approx(final_gravity, abs=0.00001)
    abw = alcohol.abw_balling(original=original, real=real)
    assert alcohol.abv(abw=abw, gravity=end) == pytest.approx(by_volume, abs=0.005)
