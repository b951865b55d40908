"""What is said of the water in plain words: every row can be reached, none needs chemistry, and none quarrels."""

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import pytest

from gristbook.sheet.value import Value, given
from gristbook.targets.figures import Plan
from gristbook.targets.water.verdict import JUDGEMENTS, REMARKS, UNKNOWN, verdict

PALE, BROWN, BLACKEST = (
    "4 kg pilsner malt",
    "4 kg pale ale malt\n  - 300 g caramel malt 80\n  - 80 g chocolate malt",
    "3.2 kg pale ale malt\n  - 700 g caramel malt 120\n  - 900 g black malt",
)
REACHED: Mapping[str, tuple[str, tuple[str, ...]]] = {
    "extract": ("", ("hard tap water",)),
    "worked on": (PALE, ("hard tap water", "6 mL lactic acid 88 %, in the mash")),
    "as it runs": (BROWN, ("soft water",)),
    "mash": (BROWN, ("soft water",)),
    "may be low": (BLACKEST, ("soft water",)),
    "may be high": (BROWN, ("soft water",)),
    "may be usual": (BROWN, ("moderately hard tap water",)),
    "chlorine": (BROWN, ("hard tap water",)),
    "sulfite": (BROWN, ("hard tap water", "0.01 g potassium metabisulfite")),
    "unknown chlorine": (BROWN, ("hard tap water, silent",)),
    "calcium": (PALE, ("soft water",)),
    "dry": (PALE, ("hard tap water", "8 g gypsum")),
    "full": (PALE, ("soft water", "8 g calcium chloride dihydrate")),
    "even": (PALE, ("hard tap water",)),
}
"""A grist and a water for each row; without a grist the beer is of malt extract."""


@pytest.fixture
def brew(plan_of: Callable[..., Any]) -> Callable[[str, tuple[str, ...]], Plan]:
    def build(malts: str, water: tuple[str, ...]) -> Plan:
        mash = "mash:\n  - 67 °C, 60 min\n" if malts else ""
        grist = f"malts:\n  - {malts}\n" if malts else "extracts:\n  - 3 kg light dried malt extract\n"
        lines = "".join(f"  - {line.removesuffix(', silent')}\n" for line in water)
        section = f"water:\n{lines}" if water else ""
        outcome = plan_of(
            f"---\ntitle: A trial\nbatch: 20 L\n{grist}hops:\n  - 28 g Fuggle, 4.5 %, 60 min\n{section}"
            f"yeast:\n  - 11 g american ale yeast, clean, dried\n{mash}ferment:\n  - 19 °C, 10 days\n"
            "carbonation: 2.2 volumes, keg\n---\n"
        )
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        plan: Plan = outcome.plan
        if any(line.endswith(", silent") for line in water) and plan.figures.chemistry is not None:
            quiet = replace(plan.figures.chemistry, chlorine=None, metabisulfite=None, solution=None)
            return replace(plan, figures=replace(plan.figures, chemistry=quiet))
        return plan

    return build


def begins(words: str) -> str:
    """The words of a row up to its first figure."""
    return words.partition("{")[0]


@pytest.mark.parametrize("row", [*JUDGEMENTS, *REMARKS], ids=lambda row: row.key)
def test_every_row_is_said_of_some_brew(row: Any, brew: Callable[..., Plan]) -> None:
    said = ["".join(part for part in one.words if isinstance(part, str)) for one in verdict(brew(*REACHED[row.key]))]
    where = said[:1] if row in JUDGEMENTS else said[1:]
    assert any(words.startswith(begins(row.words)) for words in where), said


def test_a_water_that_nobody_named_gets_plain_words_and_no_number(brew: Callable[..., Plan]) -> None:
    assert verdict(brew(BROWN, ())) == (UNKNOWN,)


def test_no_row_hides_a_number_in_its_words_or_asks_for_chemistry() -> None:
    for row in (*JUDGEMENTS, *REMARKS):
        plain = re.sub(r"{\w+}", "", f"{row.words} {row.reason}")
        assert not re.search(r"\d", plain), row.key
        for word in ("residual alkalinity", "milliequivalent", "mEq", "bicarbonate", "buffer"):
            assert word not in plain, f"{row.key}: {word}"
        assert row.words.endswith(".")
        assert row.reason.endswith(".")


@pytest.mark.parametrize(("malts", "water"), REACHED.values(), ids=REACHED)
def test_a_figure_that_is_said_is_there(malts: str, water: tuple[str, ...], brew: Callable[..., Plan]) -> None:
    for said in verdict(brew(malts, water)):
        assert "" not in said.words
        assert all(isinstance(part, str | Value) for part in said.words)


def test_one_thing_is_not_said_to_be_two(brew: Callable[..., Plan]) -> None:
    for malts, water in REACHED.values():
        texts = ["".join(part for part in one.words if isinstance(part, str)) for one in verdict(brew(malts, water))]
        assert sum("stand at a pH" in text for text in texts) <= 1
        assert sum("sulfate for one of chloride" in text for text in texts) <= 1


def test_a_brew_without_a_mash_has_no_ph(brew: Callable[..., Plan]) -> None:
    chemistry = brew("", ("hard tap water",)).figures.chemistry
    assert chemistry is not None
    assert (chemistry.mash_ph, chemistry.acid, chemistry.mash) == (None, None, None)


EVEN = {"ph": 5.45, "sulfate": 40.0, "chloride": 40.0}
"""A water that suits the beer, and of which nothing leads."""
SALTY, SOFT, A_LITTLE_LOW, NOTHING, A_LITTLE_HIGH, HARD = (
    "would taste of what is in the water",
    "soft for this beer",
    "a little low",
    "Nothing need be done",
    "a little high",
    "hard for this beer",
)
DRY, FULL, NEITHER = "It leans to a dry", "It leans to a full", "Neither hops nor malt"
ENDS: list[tuple[dict[str, float], str, dict[str, float], str]] = [
    # So many mg/L are tasted: common practice, no source.
    ({"sodium": 150.0}, NOTHING, {"sodium": 150.1}, SALTY),
    ({"chloride": 250.0, "sulfate": 250.0}, NOTHING, {"chloride": 250.1, "sulfate": 250.0}, SALTY),
    ({"sulfate": 400.0}, NOTHING, {"sulfate": 400.1}, SALTY),
    ({"magnesium": 40.0}, NOTHING, {"magnesium": 40.1}, SALTY),
    # 5.2 to 5.6 is usual in a cooled sample (MBAA, document 155, in summary), and 0.15 beyond is a little (our own).
    ({"ph": 5.604}, NOTHING, {"ph": 5.606}, A_LITTLE_HIGH),
    ({"ph": 5.754}, A_LITTLE_HIGH, {"ph": 5.756}, HARD),
    ({"ph": 5.196}, NOTHING, {"ph": 5.194}, A_LITTLE_LOW),
    ({"ph": 5.046}, A_LITTLE_LOW, {"ph": 5.044}, SOFT),
    # Twice as much of one as of the other leads, if there are 50 mg/L of both: common practice, no source.
    ({"sulfate": 79.9}, NEITHER, {"sulfate": 80.0}, DRY),
    ({"chloride": 80.0}, NEITHER, {"chloride": 80.1}, FULL),
    ({"sulfate": 10.0, "chloride": 40.0}, FULL, {"sulfate": 9.9, "chloride": 40.0}, ""),
]


def treated(plan: Plan, figures: Mapping[str, float]) -> Plan:
    """The plan with other figures of its water and of its mash."""

    def of(name: str, unit: str) -> Value | None:
        return given(figures[name], unit, name, words="made up") if name in figures else None

    water = plan.figures.chemistry
    assert water is not None
    ions = {ion: of(ion, "mg/L") for ion in ("sodium", "chloride", "sulfate", "magnesium") if ion in figures}
    water = replace(
        water,
        treated=replace(water.treated, **ions),
        mash_ph=of("ph", "pH"),
        sulfate_to_chloride=given(figures["sulfate"] / figures["chloride"], "ratio", "ratio", words="made up"),
        mend=None,
    )
    return replace(plan, figures=replace(plan.figures, chemistry=water))


def said_of(plan: Plan) -> list[str]:
    return ["".join(part for part in it.words if isinstance(part, str)) for it in verdict(plan)]


@pytest.mark.parametrize(("within", "then", "beyond", "beyond_it"), ENDS)
def test_each_bound_of_the_verdict_is_held_on_both_sides(
    within: dict[str, float], then: str, beyond: dict[str, float], beyond_it: str, brew: Callable[..., Plan]
) -> None:
    plan = brew(BROWN, ("moderately hard tap water",))
    for figures, expected, other in ((within, then, beyond_it), (beyond, beyond_it, then)):
        said = said_of(treated(plan, EVEN | figures))
        assert any(expected in sentence for sentence in said), said
        assert not any(other and other in sentence for sentence in said), said


@pytest.mark.parametrize("water", ["hard tap water", "distilled water", "very hard water"])
@pytest.mark.parametrize("malts", [PALE, BROWN, BLACKEST])
def test_no_figure_of_the_page_is_against_its_verdict(malts: str, water: str, brew: Callable[..., Plan]) -> None:
    plan = brew(malts, (water,))
    chemistry = plan.figures.chemistry
    assert chemistry is not None
    assert chemistry.mash_ph is not None
    usual = 5.2 <= round(chemistry.mash_ph.number, 2) <= 5.6
    assert any("need be done" in words for words in said_of(plan)) is (usual and water != "distilled water")


def mended(plan: Plan, brew: Callable[..., Plan], malts: str, water: str) -> Plan:
    """The same brew with what the verdict asks for in its mash."""
    assert plan.figures.chemistry is not None
    by = plan.figures.chemistry.mend
    assert by is not None
    line = f"{by.soda.number:.6f} g baking soda" if by.soda else f"{by.lactic.number:.6f} mL lactic acid 88 %"  # type: ignore[union-attr]
    return brew(malts, (water, f"{line}, in the mash"))


@pytest.mark.parametrize(
    ("malts", "water", "end"),
    [
        (PALE, "hard tap water", 5.6),
        ("3 kg pale ale malt\n  - 1 kg black malt\n  - 1 kg caramel malt 120", "soft water", 5.2),
    ],
)
def test_what_mends_a_mash_brings_it_to_the_nearer_end(
    malts: str, water: str, end: float, brew: Callable[..., Plan]
) -> None:
    chemistry = mended(brew(malts, (water,)), brew, malts, water).figures.chemistry
    assert chemistry is not None
    assert chemistry.mash_ph is not None
    assert chemistry.mash_ph.number == pytest.approx(end, abs=0.0005)
    assert chemistry.mend is None or all(
        amount is None or amount.number < 1e-3 for amount in (chemistry.mend.lactic, chemistry.mend.soda)
    )


def test_too_much_acid_is_mended_by_less_of_it(brew: Callable[..., Plan]) -> None:
    def of(ml: float) -> Any:
        return brew(PALE, ("soft water", f"{ml:.6f} mL lactic acid 88 %, in the mash")).figures.chemistry

    less = of(15).mend.less.number
    assert 0 < less < 15
    assert of(15 - less).mash_ph.number == pytest.approx(5.2, abs=0.0005)


def test_where_lactic_acid_would_be_tasted_phosphoric_is_offered(brew: Callable[..., Plan]) -> None:
    """0.4 mL in a litre: common practice, no source; 8 mL in 20 L."""
    much = "7 kg pilsner malt\n  - 2 kg pale wheat malt"
    few, many = (" ".join(said_of(brew(malts, ("very hard water",)))) for malts in (PALE, much))
    assert ("of lactic acid of" in few, "phosphoric" in few) == (True, False)
    assert ("of lactic acid of" in many, "phosphoric" in many) == (False, True)
    written = [said_of(brew(much, ("very hard water", f"{ml} mL lactic acid 88 %, in the mash"))) for ml in (8.0, 8.2)]
    assert [any("So much lactic acid is tasted" in words for words in said) for said in written] == [False, True]


def test_a_mash_that_is_usual_is_told_of_no_acid_and_one_that_is_not_of_one_target(brew: Callable[..., Plan]) -> None:
    for ml, mended in ((6, False), (2, True)):
        said = verdict(brew(PALE, ("hard tap water", f"{ml} mL lactic acid 88 %, in the mash")))
        acid = [it.words for it in said if any(isinstance(part, Value) and part.unit == "mL" for part in it.words)]
        assert bool(acid) is mended, said
        assert all(any(isinstance(part, Value) and part.number == 5.6 for part in words) for words in acid)


@pytest.mark.parametrize(("more", "halved"), [(-0.01, False), (0.01, True)])
def test_a_half_is_told_only_of_acid_that_a_syringe_measures(
    more: float, halved: bool, brew: Callable[..., Plan]
) -> None:
    """Two millilitres: our own."""
    plan = brew(PALE, ("hard tap water",))
    chemistry = plan.figures.chemistry
    assert chemistry is not None
    assert chemistry.mend is not None
    little = replace(chemistry.mend, lactic=given(2.0 + more, "mL", "acid", words="made up", metric=True))
    water = replace(chemistry, mend=little)
    said = " ".join(said_of(replace(plan, figures=replace(plan.figures, chemistry=water))))
    assert ("half of it first" in said, "too little to matter" in said) == (halved, not halved)


@pytest.mark.parametrize(("grams", "too_little"), [(0.0799, True), (0.0801, False)])
def test_metabisulfite_is_too_little_where_it_is_less_than_the_reaction_takes(
    grams: float, too_little: bool, brew: Callable[..., Plan]
) -> None:
    """0.1 g hold a quarter more than is needed, so 0.08 g do."""
    plan = brew(BROWN, ("hard tap water", f"{grams} g potassium metabisulfite"))
    chemistry = plan.figures.chemistry
    assert chemistry is not None
    dosed = replace(chemistry, metabisulfite=given(0.1, "g", "metabisulfite", words="made up", metric=True))
    said = verdict(replace(plan, figures=replace(plan.figures, chemistry=dosed)))
    assert any("is less than its chlorine takes" in str(it.words[0]) for it in said) is too_little
