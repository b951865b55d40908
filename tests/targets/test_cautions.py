"""Every caution of the trade stands where a step can hurt, and only there; gas, doses and allergens are judged."""

import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any, get_args

import pytest

from gristbook.problems import Place, Severity
from gristbook.sheet.value import Value
from gristbook.targets.advice.against import Against
from gristbook.targets.advice.caution_rows import AID, CAUTIONS
from gristbook.targets.advice.cautions import (
    CONDITIONS,
    all_cautions,
    cautions,
    in_short,
)
from gristbook.targets.advice.doses import doses
from gristbook.targets.advice.gas import beyond
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Kind
from gristbook.targets.method.whole import steps
from gristbook.text.brewhouse import default_brewhouse


def cautions_for(kind: str, plan: Plan) -> list[tuple[str | Value, ...]]:
    return [row.sentence for row in cautions(plan) if kind in row.kinds]


KINDS = {kind for part in get_args(Kind) for kind in get_args(part)}

BREW = """---
title: A trial
batch: 20 L
boil: 60 min
malts:
  - 4 kg {malt}
hops:
  - 30 g Fuggle, 4.5 %, 60 min
{more}
yeast:
  - 11 g {yeast}, dried
mash:
  - 52 °C, 10 min
  - 67 °C, 60 min
ferment:
  - 22 °C, 10 days
carbonation: {gas}
---
Prose.
"""


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    """`plan(more)`: a plain brew with further sections, another malt, yeast, gas or way of mashing."""

    def build(
        more: str = "",
        *,
        malt: str = "pale ale malt",
        yeast: str = "irish ale yeast",
        gas: str = "2.2 volumes, primed with table sugar",
        bag: bool = False,
    ) -> Plan:
        set_of_vessels = replace(default_brewhouse(), mash="bag") if bag else default_brewhouse()
        outcome = plan_of(BREW.format(more=more, malt=malt, yeast=yeast, gas=gas), {"home": set_of_vessels})
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


SUGAR = "sugars:\n  - 200 g lactose, 10 min\n  - 300 g honey, into the fermenter"


def told(sentence: tuple[str | Value, ...]) -> str:
    """A caution as one reads it."""
    return "".join(part if isinstance(part, str) else f"{part.number:g} {part.unit}" for part in sentence)


REQUIRED = [
    ("weight of the wet bag", "drain", "twice what its dry grain", {"bag": True}),
    ("grain dust", "crush", "Grain dust harms the lungs", {}),
    ("mill fingers", "crush", "fingers, hair and sleeves out of the rollers", {}),
    ("caustic and acid into water", "clean", "into water, never water into", {}),
    ("bleach", "clean", "bleach meet acid, ammonia or a peracetic", {}),
    ("the maker's instructions", "clean", "as its maker directs", {}),
    ("lead, brass, galvanised", "clean", "Nothing of lead, and nothing galvanised", {}),
    ("brass", "clean", "never leave acid standing on it", {}),
    ("a bag on a heated base", "mash", "lies on a heated base", {"bag": True}),
    ("a kitchen hob", "heat", "extractor on or a window open", {}),
    ("sulfite fumes and asthma", "water", "asthma", {}),
    ("grams and ounces", "water", "twenty-eight times too much", {}),
    ("carbon monoxide outdoors", "heat", "outdoors, level and steady: it makes carbon monoxide", {}),
    ("electricity near water", "heat", "residual-current device", {}),
    ("an element run dry", "heat", "no element ever run dry", {}),
    ("licensed practice", "heat", "licensed", {}),
    ("scalds", "heat", "scald", {}),
    ("boiling water into the mash", "infuse", "gloves and sleeves", {}),
    ("hoses of hot wort", "sparge", "Never suck or blow", {}),
    ("heat off for what dissolves", "dissolve", "Heat off until", {"more": SUGAR}),
    ("boil-over", "boil", "climbs out of the pot", {}),
    ("hops and dogs", "hops", "kill a dog", {}),
    ("hops and dogs in the cellar", "dry-hop", "kill a dog", {"more": "  - 20 g Saaz, dry 3 days"}),
    ("naked flame near spirit", "sanitise", "spirit catches fire", {}),
    ("hot wort into glass", "cool", "Never hot wort into glass", {}),
    ("lifting hot wort", "cool", "Cool it where it stands", {}),
    ("glass with both arms", "pitch", "both arms under it", {}),
    ("wort unpitched or canned", "pitch", "botulism", {}),
    ("blocked airlock", "ferment", "blocked airlock", {}),
    ("carbon dioxide in a room", "ferment", "carbon dioxide, which smothers", {}),
    ("foam when fed", "feed", "foams up", {"more": SUGAR}),
    ("stable after dry hops", "finished", "after the dry hops", {}),
    ("stable before bottles", "bottle", "until the gravity has stood still", {}),
    ("sound bottles", "bottle", "Only sound bottles", {}),
    ("heavy bottles", "bottle", "heavy bottles made for pressure", {"yeast": "saison yeast"}),
    ("gushing bottles", "keep", "goggles, thick gloves", {}),
    ("keg's rating", "keg", "pressure stamped on the keg, keep its relief valve", {"gas": "2.4 volumes, keg"}),
    ("cylinders", "keg", "upright and tied", {"gas": "2.4 volumes, keg"}),
    ("carbon dioxide that leaks", "keg", "closed room or a cold store", {"gas": "2.4 volumes, keg"}),
    ("local law", "keg", "as the law asks", {"gas": "2.4 volumes, keg"}),
    ("allergens", "serve", "Allergens: barley, milk.", {"more": SUGAR}),
    ("gluten-reduced", "serve", "does not make a beer gluten-free", {}),
    ("under age, pregnant, driving", "serve", "under age or pregnant, and not before driving", {}),
    ("distilling", "serve", "Never distil", {}),
]


@pytest.mark.parametrize(("kind", "needle", "brewed"), [row[1:] for row in REQUIRED], ids=[row[0] for row in REQUIRED])
def test_a_caution_stands_at_its_step(
    plan: Callable[..., Plan], kind: str, needle: str, brewed: dict[str, Any]
) -> None:
    plan_ = plan(**brewed)
    assert any(needle in told(caution) for caution in cautions_for(kind, plan_))
    assert any(needle in told(said) for step in steps(plan_) for said in step.cautions), "and a reader comes to it"


def test_a_caution_stands_nowhere_else(plan: Callable[..., Plan]) -> None:
    words = " ".join(told(caution) for step in steps(plan()) for caution in step.cautions)
    for absent in ("wet bag", "Heat off until", "keg", "may go on for weeks", "strong beer", "volumes", "milk"):
        assert absent not in words, absent


def test_a_steeped_bag_is_hot_too(plan_of: Callable[..., Any]) -> None:
    text = BREW.format(
        malt="caramel malt 60, steep 30 min at 68 °C", more="", yeast="irish ale yeast", gas="2 volumes, keg"
    )
    text = text.replace(
        "mash:\n  - 52 °C, 10 min\n  - 67 °C, 60 min\n", "extracts:\n  - 2 kg light dried malt extract\n"
    )
    outcome = plan_of(text)
    assert outcome.plan is not None, list(map(str, outcome.problems))
    assert any("twice what its dry grain did" in told(said) for said in cautions_for("steep", outcome.plan))


def test_what_must_be_said_every_time_is_and_the_rest_once(plan: Callable[..., Plan]) -> None:
    more = "  - 10 g Saaz, 3 %, 20 min\nsugars:\n  - 200 g lactose\n  - 200 g golden syrup, 10 min"
    counted = Counter(told(caution) for step in steps(plan(more)) for caution in step.cautions)
    often = {row.words for row in CAUTIONS if row.every}
    assert counted[next(row.words for row in CAUTIONS if row.kinds == ("dissolve",))] == 2
    assert all(number == 1 for words, number in counted.items() if words not in often)


def test_every_row_can_be_reached_and_says_where_it_is_from() -> None:
    for row in CAUTIONS:
        assert row.kinds
        assert set(row.kinds) <= KINDS, row.words
        assert row.when in CONDITIONS
        assert row.source in ("common practice, no source", "from memory")
        assert row.words.endswith(".")
        assert len(row.words) <= 230, "short"
    assert {row.when for row in CAUTIONS} == set(CONDITIONS), "no condition that nobody asks for"


@pytest.mark.parametrize(
    ("brewed", "needles"),
    [
        ({}, ("burner outdoors", "Hot wort", "two readings agree")),
        ({"bag": True}, ("burner outdoors", "The bag is hot", "Hot wort", "two readings agree")),
        (
            {"gas": "2.4 volumes, keg"},
            ("burner outdoors", "Hot wort", "two readings", "stamped pressure", "air the room"),
        ),
        ({"bag": True, "yeast": "saison yeast"}, ("outdoors", "bag", "Hot wort", "two readings", "heavy bottles")),
    ],
)
def test_a_card_names_the_three_to_five_things_that_can_maim_or_kill(
    plan: Callable[..., Plan], brewed: dict[str, Any], needles: tuple[str, ...]
) -> None:
    brew = plan(**brewed)
    short = in_short([step.kind for step in steps(brew)], brew)
    assert 3 <= len(short) == len(set(short)) <= 5
    assert all(len(words) <= 56 and words.endswith(".") and not re.search(r"\d", words) for words in short)
    assert all(sum(needle in words for words in short) == 1 for needle in needles), short


def test_what_to_do_after_is_told_once_at_the_first_step_that_calls_for_it(plan: Callable[..., Plan]) -> None:
    told_at = [(step.kind, aid) for step in steps(plan(bag=True)) for aid in step.aids]
    assert told_at == [("clean", "splash"), ("clean", "gas"), ("heat", "scald"), ("cool", "cut")]
    assert {row.aid for row in CAUTIONS} - {""} == set(AID)


def test_the_page_of_cautions_has_each_once_and_whole() -> None:
    gathered = [row.words for row in all_cautions()]
    assert len(gathered) == len(set(gathered))
    assert {row.words for row in CAUTIONS if not re.search(r"[{}]", row.words)} <= set(gathered)
    assert not any(re.search(r"[{}]", words) for words in gathered)
    assert any("swing-top" in words for words in gathered)


def test_a_strong_beer_is_called_one(plan_of: Callable[..., Any], plan: Callable[..., Plan]) -> None:
    assert any("strong beer" in told(said) for said in cautions_for("serve", plan("sugars:\n  - 2.5 kg honey")))


@pytest.mark.parametrize(
    ("volumes", "severity"),
    [
        (2.0, None),
        (2.8, None),
        (2.81, Severity.WARNING),
        (3.0, Severity.WARNING),
        (3.5, Severity.WARNING),
        (3.51, Severity.ERROR),
    ],
)
def test_gas_in_an_unnamed_bottle_is_judged(volumes: float, severity: Severity | None) -> None:
    found = beyond(volumes, 30, "bottles", Place("a"))
    assert (found.severity if found else None) is severity
    assert beyond(volumes, 30, "keg", Place("a")) is None, "a keg has a rating of its own"


def test_three_volumes_are_the_limit_of_an_ordinary_bottle(plan: Callable[..., Plan]) -> None:
    at, below = (beyond(volumes, 30, "bottles", Place("a")) for volumes in (3.0, 2.99))
    assert at is not None
    assert below is not None
    assert "limit of an ordinary bottle" in at.words[-1]
    assert "limit of an ordinary bottle" not in below.words[-1]
    lively = plan(gas="3.0 volumes, primed with table sugar")
    assert "3 vol is the limit of an ordinary bottle" in " ".join(map(told, cautions_for("bottle", lively)))


def test_a_dose_above_the_usual_is_said_at_the_water(plan: Callable[..., Plan]) -> None:
    much, little = (" ".join(map(told, cautions_for("water", plan(f"water:\n  - {g} g gypsum")))) for g in (25, 6))
    assert "More than 0.6 g/L of Gypsum is more than usual: past this sulfate tastes harsh." in much
    assert "more than usual" not in little


def test_an_author_who_writes_braces_is_told_no_less(plan: Callable[..., Plan]) -> None:
    braced = plan("finings and spices:\n  - 15 g {allergens} salt {0}, 10 min")
    assert any("{0} is more than usual" in told(said) for said in cautions_for("water", braced))
    assert any("whatever is in {allergens} salt {0}" in told(said) for said in cautions_for("serve", braced))
    assert steps(braced)


def test_what_stands_against_a_brew_is_found_once_for_all_of_its_steps(
    plan: Callable[..., Plan], monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[Plan] = []

    def counted(brew: Plan) -> Iterator[Against]:
        asked.append(brew)
        return doses(brew)

    monkeypatch.setattr("gristbook.targets.advice.cautions.doses", counted)
    assert len(steps(plan())) > 10
    assert len(asked) == 1


def test_what_a_card_says_because_it_can_maim_or_kill_is_never_folded_on_the_day() -> None:
    assert [row.words for row in CAUTIONS if row.short and row.rank == "step"] == []
    kills = ("carbon monoxide", "poisonous", "kills without a warning", "botulism", "scalding", "catches fire")
    for needle in kills:
        assert [row for row in CAUTIONS if needle in row.words], needle
        assert all(row.rank != "step" for row in CAUTIONS if needle in row.words), needle


def test_a_step_knows_how_loudly_each_of_its_cautions_is_said(plan: Callable[..., Plan]) -> None:
    for step in steps(plan()):
        assert len(step.ranks) == len(step.cautions)
    heat = next(step for step in steps(plan()) if step.kind == "heat")
    assert set(heat.ranks) == {"day"}, "what holds all day long is said once, at its start"
