"""Laws of brewing water and of the mash's pH: which way each thing pushes, and that acid and pH undo each other."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from molmass import Formula

from gristbook.equations import acids, chlorine, mash_ph, water

KILOGRAMS = st.floats(0.1, 10)
BUFFERING = st.floats(30, 60)
ALKALINITY = st.floats(-3, 6)

GRIST: dict[str, Any] = {
    "base_kg": (3.6, 0.9),
    "base_buffering": (40.0, 35.0),
    "base_ph": (5.7, 5.5),
    "specialty_kg": (0.3, 0.1),
    "specialty_buffering": (40.0, 40.0),
    "specialty_acidity": (33.0, 42.0),
    "mash_l": 14.0,
    "residual_alkalinity_meq": 1.0,
    "acid_meq": 0.0,
}


def ph_with(**changes: float | tuple[float, ...]) -> float:
    return mash_ph.mash_ph(**{**GRIST, **changes})


def residual_meq(calcium: float, magnesium: float, alkalinity: float) -> float:
    residual = water.residual_alkalinity_kolbach_1953(calcium=calcium, magnesium=magnesium, alkalinity=alkalinity)
    return water.alkalinity_in_milliequivalents(alkalinity=residual)


def test_alkalinity_raises_the_ph_of_a_mash() -> None:
    assert ph_with(residual_alkalinity_meq=2.0) > ph_with()


def test_calcium_and_magnesium_lower_the_ph_of_a_mash() -> None:
    plain = ph_with(residual_alkalinity_meq=residual_meq(0, 0, 100))
    assert ph_with(residual_alkalinity_meq=residual_meq(100, 0, 100)) < plain
    assert ph_with(residual_alkalinity_meq=residual_meq(0, 30, 100)) < plain


def test_specialty_malt_lowers_the_ph_of_a_mash() -> None:
    assert ph_with(specialty_kg=(0.6, 0.1)) < ph_with()
    assert ph_with(specialty_kg=(0.3, 0.4)) < ph_with()
    assert ph_with(specialty_acidity=(60.0, 42.0)) < ph_with()


def test_acid_lowers_the_ph_of_a_mash() -> None:
    assert ph_with(acid_meq=20.0) < ph_with()


@given(KILOGRAMS, BUFFERING, st.floats(5.4, 6.0))
def test_base_malt_alone_in_distilled_water_has_its_own_ph(kg: float, buffering: float, own: float) -> None:
    alone = ph_with(
        base_kg=(kg,),
        base_buffering=(buffering,),
        base_ph=(own,),
        specialty_kg=(),
        specialty_buffering=(),
        specialty_acidity=(),
        residual_alkalinity_meq=0.0,
    )
    assert alone == pytest.approx(own)


@given(
    st.lists(st.tuples(KILOGRAMS, BUFFERING, st.floats(5.3, 6.1)), min_size=1, max_size=4),
    st.lists(st.tuples(KILOGRAMS, BUFFERING, st.floats(0, 60)), max_size=3),
    st.floats(2, 40),
    ALKALINITY,
    st.floats(-50, 200),
)
def test_at_the_ph_found_all_acids_balance(
    base: list[tuple[float, float, float]],
    specialty: list[tuple[float, float, float]],
    mash_l: float,
    residual: float,
    acid_meq: float,
) -> None:
    columns = tuple(zip(*base, strict=True)), tuple(zip(*specialty, strict=True)) or ((), (), ())
    (base_kg, base_buffering, base_ph), (specialty_kg, specialty_buffering, specialty_acidity) = columns
    mash: dict[str, Any] = {
        "base_kg": base_kg,
        "base_buffering": base_buffering,
        "base_ph": base_ph,
        "specialty_kg": specialty_kg,
        "specialty_buffering": specialty_buffering,
        "specialty_acidity": specialty_acidity,
        "mash_l": mash_l,
        "residual_alkalinity_meq": residual,
    }
    ph = mash_ph.mash_ph(**mash, acid_meq=acid_meq)
    # The balance as published: base malts, specialty malts against 5.7, the water's alkalinity, the acid.
    left = sum(kg * buffering * (ph - own) for kg, buffering, own in base)
    left += sum(kg * (buffering * (ph - 5.7) + acidity) for kg, buffering, acidity in specialty)
    left += acid_meq - mash_l * residual
    assert left == pytest.approx(0, abs=1e-6)
    assert mash_ph.acid_for_ph(**mash, target_ph=ph) == pytest.approx(acid_meq, abs=1e-6)


@given(st.floats(1, 8), ALKALINITY)
def test_the_published_slope_is_what_a_buffering_of_r_over_the_slope_gives(thickness: float, residual: float) -> None:
    shift = mash_ph.mash_ph_shift_troester_2009(residual_alkalinity_meq=residual, thickness=thickness)
    alone = ph_with(
        base_kg=(1.0,),
        base_buffering=(thickness / (0.013 * thickness + 0.013),),
        base_ph=(5.7,),
        specialty_kg=(),
        specialty_buffering=(),
        specialty_acidity=(),
        mash_l=thickness,
        residual_alkalinity_meq=residual,
    )
    assert alone - 5.7 == pytest.approx(shift, abs=1e-9)


def test_roasted_malt_brings_the_acid_that_was_titrated() -> None:
    # Riffe 2013, after the titrations of Troester 2009: about 42 mEq/kg, whatever the colour (from memory).
    assert mash_ph.ROASTED_ACIDITY == 42


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"base_kg": ()}, "at least one"),
        ({"base_ph": (5.7,)}, "2 and 1"),
        ({"base_buffering": (40.0,)}, "2 and 1"),
        ({"specialty_acidity": (33.0,)}, "as many as each other"),
        ({"specialty_buffering": (40.0,)}, "as many as each other"),
        ({"specialty_buffering": (-1.0, 40.0)}, "negative"),
        ({"specialty_acidity": (33.0, -1.0)}, "negative"),
        ({"base_kg": (-1.0, 5.0)}, "negative"),
        ({"base_kg": (0.0, 0.0), "specialty_kg": (0.0, 0.0)}, "above zero"),
        ({"mash_l": -1.0}, "negative"),
    ],
)
def test_an_impossible_mash_is_refused_in_words(changes: dict[str, float | tuple[float, ...]], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        ph_with(**changes)


@given(st.floats(0, 300), st.floats(0, 80), st.floats(0, 500))
def test_residual_alkalinity_is_the_same_counted_in_milliequivalents(
    calcium: float, magnesium: float, alkalinity: float
) -> None:
    # Kolbach: every term in mEq/L or every term as calcium carbonate.
    in_meq = water.alkalinity_in_milliequivalents(alkalinity=alkalinity) - (
        calcium * 2 / Formula("Ca").mass / 3.5 + magnesium * 2 / Formula("Mg").mass / 7
    )
    assert residual_meq(calcium, magnesium, alkalinity) == pytest.approx(in_meq, abs=1e-3)


def test_the_ions_are_not_divided_by_three_and_a_half_as_they_are() -> None:
    slip = 50 - (100 / 3.5 + 20 / 7)
    right = water.residual_alkalinity_kolbach_1953(calcium=100, magnesium=20, alkalinity=50)
    assert slip - right > 50


@given(st.floats(0, 20))
def test_alkalinity_is_one_figure_in_both_units(meq: float) -> None:
    as_chalk = water.alkalinity_as_calcium_carbonate(alkalinity_meq=meq)
    assert water.alkalinity_in_milliequivalents(alkalinity=as_chalk) == pytest.approx(meq)


@given(st.floats(3, 9), st.floats(0.01, 2))
def test_an_acid_gives_more_the_less_acid_it_meets(ph: float, more: float) -> None:
    for protons in (acids.lactic_protons, acids.phosphoric_protons):
        assert protons(ph=ph) < protons(ph=ph + more)
    assert 0 < acids.lactic_protons(ph=ph) < 1
    assert 0 < acids.phosphoric_protons(ph=ph) < 2


@pytest.mark.parametrize(("ours", "formula"), [(acids.LACTIC_ACID, "C3H6O3"), (acids.PHOSPHORIC_ACID, "H3PO4")])
def test_acids_weigh_what_molmass_says(ours: float, formula: str) -> None:
    assert ours == pytest.approx(Formula(formula).mass, rel=1e-4)


@pytest.mark.parametrize(
    ("ours", "formula"),
    [(chlorine.POTASSIUM_METABISULFITE, "K2S2O5"), (chlorine.SODIUM_METABISULFITE, "Na2S2O5")],
)
def test_metabisulfite_weighs_what_molmass_says(ours: float, formula: str) -> None:
    assert ours == pytest.approx(Formula(formula).mass, rel=1e-4)
    per_chlorine = chlorine.metabisulfite_for_chlorine(chlorine=1, salt_molar_mass=ours)
    assert per_chlorine == pytest.approx(Formula(formula).mass / (2 * Formula("Cl2").mass), rel=3e-4)


@given(st.floats(0.01, 5))
def test_chloramine_told_as_chlorine_takes_what_the_chlorine_would(mg_per_l: float) -> None:
    salt = chlorine.POTASSIUM_METABISULFITE
    as_itself = mg_per_l * Formula("NH2Cl").mass / Formula("Cl2").mass
    assert chlorine.metabisulfite_for_chloramine(chloramine=as_itself, salt_molar_mass=salt) == pytest.approx(
        chlorine.metabisulfite_for_chlorine(chlorine=mg_per_l, salt_molar_mass=salt), rel=1e-3
    )
