"""Laws of lautering and of extract in the units of the trade: nothing is made, nothing lost, nothing turned about."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gristbook.equations import extract, runnings, yield_units
from gristbook.targets.conventions import GRAIN_ROOM

GRAIN = st.floats(0.5, 15)
LITRES = st.floats(1, 60)
ABSORPTION = st.floats(0.3, 1.5)
RUN_OFFS = st.lists(st.floats(0.5, 30), min_size=1, max_size=6)


@given(GRAIN, ABSORPTION, LITRES)
def test_one_batch_is_a_lauter_without_sparge(grain_kg: float, absorption: float, run_off_l: float) -> None:
    assert runnings.lauter_efficiency_batch_sparged(
        grain_kg=grain_kg, absorption=absorption, room=0.5, run_offs_l=(run_off_l,)
    ) == runnings.lauter_efficiency_without_sparge(
        grain_kg=grain_kg, absorption=absorption, room=0.5, run_off_l=run_off_l
    )


@given(GRAIN, ABSORPTION, RUN_OFFS)
def test_extract_is_followed_batch_by_batch_and_none_is_lost(
    grain_kg: float, absorption: float, run_offs_l: list[float]
) -> None:
    kept_l, left, gone = grain_kg * (absorption + 0.5), 1.0, 0.0
    for run_off_l in run_offs_l:
        leaves = left * run_off_l / (kept_l + run_off_l)
        left, gone = left - leaves, gone + leaves
    found = runnings.lauter_efficiency_batch_sparged(
        grain_kg=grain_kg, absorption=absorption, room=0.5, run_offs_l=tuple(run_offs_l)
    )
    assert found == pytest.approx(gone)
    assert 0 < found < 1


@given(GRAIN, ABSORPTION, LITRES, st.floats(0.05, 0.95))
def test_equal_batches_wash_out_no_less_than_unequal_ones(
    grain_kg: float, absorption: float, whole_l: float, part: float
) -> None:
    def efficiency(*run_offs_l: float) -> float:
        return runnings.lauter_efficiency_batch_sparged(
            grain_kg=grain_kg, absorption=absorption, room=0.5, run_offs_l=run_offs_l
        )

    equal = efficiency(whole_l / 2, whole_l / 2)
    assert equal >= efficiency(whole_l * part, whole_l * (1 - part)) - 1e-12
    assert equal > efficiency(whole_l)


def test_very_many_batches_come_to_washing_without_end() -> None:
    # Textbooks of extraction: what is left falls to e^(-V/v) when the same solvent is used in ever smaller parts.
    many = runnings.lauter_efficiency_batch_sparged(
        grain_kg=5, absorption=0.5, room=0.5, run_offs_l=(24 / 5000,) * 5000
    )
    assert many == pytest.approx(1 - math.exp(-24 / 5), abs=3e-5)


@given(GRAIN, st.floats(0.1, 5), ABSORPTION, LITRES)
def test_more_grain_gives_up_less_of_its_extract(
    grain_kg: float, more_kg: float, absorption: float, run_off_l: float
) -> None:
    def efficiency(kg: float) -> float:
        return runnings.lauter_efficiency_without_sparge(
            grain_kg=kg, absorption=absorption, room=0.5, run_off_l=run_off_l
        )

    assert efficiency(grain_kg + more_kg) < efficiency(grain_kg)


@given(st.floats(1, 10), st.floats(2.5, 6), st.floats(0.6, 0.82))
def test_with_all_the_wort_kept_extract_and_volume_balance(grain_kg: float, thickness: float, share: float) -> None:
    apparent, room, own = 0.8, 0.6166, 0.04  # water in less wort out; litres that a kilogram of extract takes, at 12 °P
    water_l, extract_kg = grain_kg * thickness, grain_kg * share
    wort_l, run_off_l = water_l + grain_kg * own + room * extract_kg, water_l - apparent * grain_kg
    leaves = runnings.lauter_efficiency_without_sparge(
        grain_kg=grain_kg, absorption=apparent, room=own + share * room, run_off_l=run_off_l
    )
    assert leaves == pytest.approx(run_off_l / wort_l)


@pytest.mark.parametrize(("grain_kg", "by_hand"), [(3, 0.868), (5, 0.798), (7, 0.738)])
def test_what_runs_off_a_drained_bag_is_what_a_balance_of_masses_by_hand_says(grain_kg: float, by_hand: float) -> None:
    # 24 L of 26.1, 27.5 and 28.9 L of water, with all of 0.768 kg a kilogram dissolved and 4 % of moisture: 27.64,
    # 30.07 and 32.50 L of cool wort by their weight and density.
    room = GRAIN_ROOM.number
    found = runnings.lauter_efficiency_without_sparge(grain_kg=grain_kg, absorption=0.7, room=room, run_off_l=24)
    assert found == pytest.approx(by_hand, abs=0.001)


@given(st.floats(0.1, 10), st.floats(0.3, 1), st.floats(5, 60))
def test_first_wort_holds_the_extract_that_dissolved(potential_kg: float, conversion: float, mash_l: float) -> None:
    plato = runnings.first_runnings_extract(potential_kg=potential_kg, conversion=conversion, mash_l=mash_l)
    extract_kg = potential_kg * conversion
    assert plato / 100 * (extract_kg + 0.998203 * mash_l) == pytest.approx(extract_kg)


@given(st.floats(0, 1))
def test_potential_told_in_points_and_back_is_the_same_potential(potential: float) -> None:
    points = yield_units.points_per_pound_gallon(potential=potential)
    degrees = yield_units.litre_degrees_per_kg(potential=potential)
    back = yield_units.potential_from_points_per_pound_gallon(points_per_pound_gallon=points)
    assert back == pytest.approx(potential, abs=1e-9)
    back = yield_units.potential_from_litre_degrees_per_kg(litre_degrees_per_kg=degrees)
    assert back == pytest.approx(potential, abs=1e-9)


@given(st.floats(0.3, 1))
def test_the_two_units_differ_by_no_more_than_how_thin_their_worts_are(potential: float) -> None:
    # A pound in a gallon is 120 g/L, a kilogram in ten litres 100 g/L: published yields move by 0.1 % between them.
    degrees = 3.785411784 / 0.45359237 * yield_units.points_per_pound_gallon(potential=potential)
    assert degrees == pytest.approx(yield_units.litre_degrees_per_kg(potential=potential), rel=0.0015)


@given(st.floats(0.5, 0.9), st.floats(0.02, 0.08))
def test_a_brewers_short_cut_lies_within_three_points_in_a_thousand_of_the_balance(dry: float, moisture: float) -> None:
    short_cut = extract.as_is_noonan(coarse_grind_dry_basis=dry, moisture=moisture)
    balance = extract.as_is_potential(fine_grind_dry_basis=dry, moisture=moisture)
    assert abs(short_cut - balance) < 0.0035


@pytest.mark.parametrize(
    ("grain_kg", "absorption", "run_offs_l", "words"),
    [(-1, 1, (10,), "negative"), (5, 1, (), "at least one"), (0, 1, (0,), "above zero"), (5, 1, (-2,), "negative")],
)
def test_an_impossible_lauter_is_refused_in_words(
    grain_kg: float, absorption: float, run_offs_l: tuple[float, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        runnings.lauter_efficiency_batch_sparged(
            grain_kg=grain_kg, absorption=absorption, room=0.5, run_offs_l=run_offs_l
        )


def test_a_mash_gives_no_more_than_its_potential() -> None:
    with pytest.raises(ValueError, match="between 0 and 1"):
        runnings.first_runnings_extract(potential_kg=4, conversion=1.1, mash_l=15)
    with pytest.raises(ValueError, match="negative"):
        yield_units.potential_from_points_per_pound_gallon(points_per_pound_gallon=-1)
