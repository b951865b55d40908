"""Spices, oak, coffee and what else goes in: how much of it is in a litre, when it goes in, and what is shown of it."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.model.extra import Extra
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, Stage
from gristbook.problems import Severity
from gristbook.site.beer.ingredients import ingredients
from gristbook.targets.advice.against import told
from gristbook.targets.advice.doses import dose_of
from gristbook.targets.advice.unreckoned import unreckoned
from gristbook.targets.figures import Plan
from gristbook.targets.method.whole import steps

BREW = """---
title: A trial
batch: 20 L
malts:
  - 4 kg pale ale malt
hops:
  - 30 g Fuggle, 4.5 % alpha, 60 min
finings and spices:
  - {line}
yeast: 11 g english ale yeast, attenuative, dried
mash: 67 °C, 60 min
ferment: 19 °C, 21 days
carbonation: 2.0 volumes, primed with table sugar
---
"""


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[[str], Plan]:
    def build(line: str) -> Plan:
        outcome = plan_of(BREW.format(line=line))
        assert isinstance(outcome.plan, Plan), list(map(str, outcome.problems))
        return outcome.plan

    return build


@pytest.fixture
def extra(plan: Callable[[str], Plan]) -> Callable[[str], Extra]:
    return lambda line: plan(line).recipe.extras[0]


@pytest.mark.parametrize(
    ("line", "amount", "unit"),
    [
        ("0.5 g/L coriander seed, 5 min", 0.010, "kg"),  # half a gram in each of 20 litres
        ("2 mL/L vanilla extract, at bottling", 0.040, "L"),
        ("2 vanilla beans, 7 days", 2, "pieces"),
        ("3 sticks cinnamon, 10 min", 3, "pieces"),
        ("4 cloves, 5 min", 4, "pieces"),
        ("zest of 2 lemons, flameout", 2, "pieces"),
        ("half a tablet of carrageenan, 10 min", 0.5, "pieces"),
        ("a pinch of nutmeg, 5 min", 0.00492892159375 / 16, "L"),
    ],
)
def test_an_amount_is_what_the_line_says(extra: Callable[[str], Extra], line: str, amount: float, unit: str) -> None:
    found = extra(line).amount
    assert found is not None
    assert (found.number, found.unit) == (pytest.approx(amount, rel=1e-6), unit)


@pytest.mark.parametrize(
    ("line", "dose"),
    [
        ("2 vanilla beans, 7 days", 2 * 3 / 20),  # a bean of 3 g
        ("zest of 2 oranges, 5 min", 2 * 6 / 20),  # of 6 g
        ("a pinch of nutmeg, 5 min", 0.00492892159375 / 16 * 500 / 20),  # of 0.5 g/mL
        ("30 g oak chips, 7 days", 30 / 20),
        ("200 mL cold brew coffee, at packaging", 200 / 20),
        ("0.5 g/L coriander seed, 5 min", 0.5),
    ],
)
def test_its_dose_is_its_weight_over_the_batch_beside_what_is_usual(
    plan: Callable[[str], Plan], line: str, dose: float
) -> None:
    brewed = plan(line)
    found = dose_of(brewed.recipe.extras[0], brewed.recipe.batch)
    assert found is not None
    assert found[0].number == pytest.approx(dose, rel=1e-6)
    (row,) = ingredients(brewed).extras
    assert len(row.dose) == 4


@pytest.mark.parametrize(
    ("line", "moment", "value"),
    [
        ("10 g coriander seed, for the last 10 min", BeforeTheEnd, 10),
        ("10 g coriander seed, 10 min before the end of the boil", BeforeTheEnd, 10),
        ("10 g coriander seed, flameout", BeforeTheEnd, 0),
        ("10 g coriander seed, in the boil, 15 min", BeforeTheEnd, 15),
        ("30 g oak chips, in secondary, 2 weeks", BeforePackaging, 14),
        ("30 g oak chips, after fermentation, 5 days", BeforePackaging, 5),
    ],
)
def test_a_time_is_read_with_the_stage_that_it_is_in(
    extra: Callable[[str], Extra], line: str, moment: type, value: float
) -> None:
    found = extra(line).moment
    assert isinstance(found, moment)
    number = found.minutes if isinstance(found, BeforeTheEnd) else found.days  # type: ignore[union-attr]
    assert number.number == pytest.approx(value)


@pytest.mark.parametrize(
    ("line", "stage"),
    [
        ("30 g oak chips, in secondary", Stage.FERMENTED),
        ("1 vanilla bean, in the keg, 3 days", Stage.PACKAGING),
        ("10 g gelatine, in the cask", Stage.PACKAGING),
        ("200 mL cold brew coffee, at bottling", Stage.PACKAGING),
        ("500 g rice hulls", Stage.MASH),
    ],
)
def test_a_stage_in_the_words_of_the_trade(extra: Callable[[str], Extra], line: str, stage: Stage) -> None:
    assert extra(line).moment is stage


def test_an_authors_words_are_on_page_and_in_method(plan: Callable[[str], Plan]) -> None:
    brewed = plan("2 vanilla beans, split and scraped, in secondary, 7 days")
    (row,) = ingredients(brewed).extras
    assert row.purpose.startswith("split and scraped")
    assert "in secondary" in "".join(map(str, row.moment))
    told_of = [told(sentence) for step in steps(brewed) for sentence in step.sentences]
    assert any("2 vanilla pod (split and scraped)" in words for words in told_of), told_of


def test_more_than_usual_is_a_warning_and_a_slip_of_the_scales_an_error(plan_of: Callable[..., Any]) -> None:
    for line, severity in (("300 g oak cubes, 14 days", Severity.WARNING), ("2 kg oak cubes, 14 days", Severity.ERROR)):
        found = [it for it in plan_of(BREW.format(line=line)).problems if "Oak cubes" in it.what]
        assert {it.severity for it in found} == {severity}


def test_a_liquid_and_a_thing_that_nobody_knows_are_named_as_not_reckoned(plan: Callable[[str], Plan]) -> None:
    (coffee,) = unreckoned(plan("500 mL cold brew coffee, at packaging"))
    assert "volume of cold brew coffee is not reckoned" in told(coffee)
    (rum,) = unreckoned(plan("50 mL rum, at packaging"))
    assert told(rum) == "The alcohol and the volume of rum are not reckoned: the beer is stronger."
    (relish,) = unreckoned(plan("50 g dragon relish, 5 days"))
    assert "dragon relish nothing is known" in told(relish)
    assert not [*unreckoned(plan("30 g oak chips, 7 days"))]
