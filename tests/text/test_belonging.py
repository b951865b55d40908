"""A name under another heading is told where it belongs; a name that is in no list is told what that means."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.problems import Severity

BREW = """---
title: A trial
batch: 20 L
malts:
  - 4 kg pale ale malt
{section}:
  - {line}
{hops}yeast:
  - 11 g irish ale yeast, dried
mash:
  - 67 °C, 60 min
ferment:
  - 18 °C, 10 days
carbonation: 2.2 volumes, keg
---
"""
HOPS = "hops:\n  - 30 g Fuggle, 4.5 %, 60 min\n"
EXTRAS = "finings and spices"


def problems(plan_of: Callable[..., Any], section: str, line: str) -> list[tuple[str, Severity]]:
    hops = "" if section == "hops" else HOPS
    outcome = plan_of(BREW.format(section=section, line=line, hops=hops))
    return [(str(problem), problem.severity) for problem in outcome.problems]


@pytest.mark.parametrize(
    ("section", "line", "what", "there"),
    [
        (EXTRAS, "500 g table sugar, 1 day", "a sugar", "sugars"),
        (EXTRAS, "1 kg Honey, after fermentation", "a sugar", "sugars"),
        (EXTRAS, "200 g lactose, at packaging", "a sugar", "sugars"),
        (EXTRAS, "300 g DME, 10 min", "a malt extract", "extracts"),
        (EXTRAS, "1 kg oats, in the mash", "a malt", "malts"),
        (EXTRAS, "20 g Cascade, 3 days", "a hop", "hops"),
        (EXTRAS, "11 g saison yeast, at packaging", "a yeast", "yeast"),
        (EXTRAS, "5 g gypsum, in the mash", "a salt", "water"),
        (EXTRAS, "3 mL lactic acid 88 %, in the mash", "an acid", "water"),
        ("sugars", "5 g irish moss", "a fining or spice", EXTRAS),
        ("sugars", "5 g gypsum", "a salt", "water"),
        ("hops", "100 g table sugar, 10 min", "a sugar", "sugars"),
        ("hops", "5 g coriander seed, 10 min", "a fining or spice", EXTRAS),
        ("water", "5 g coriander", "a fining or spice", EXTRAS),
        ("water", "500 g honey", "a sugar", "sugars"),
        ("extracts", "20 g Saaz", "a hop", "hops"),
    ],
)
def test_a_name_under_another_heading_is_an_error_that_says_where_it_belongs(
    section: str, line: str, what: str, there: str, plan_of: Callable[..., Any]
) -> None:
    said = problems(plan_of, section, line)
    assert [severity for _, severity in said] == [Severity.ERROR]
    assert f'" is {what}' in said[0][0]
    assert said[0][0].endswith(f"expected it under {there}")


@pytest.mark.parametrize(
    "line",
    [
        "20 g sweet orange peel, 5 min",
        "20 g orange peel, 5 min",
        "5 g chamomile, 5 min",
        "200 g rice hulls, in the mash",
        "2 pods vanilla, 5 days",
        "1 g nutmeg, 5 min",
        "50 g toasted coconut, 5 days",
        "1 tablet carrageenan, 10 min",
        "zest of 2 lemons, 5 min",
    ],
)
def test_what_is_no_fermentable_and_in_a_list_stays_without_a_word(line: str, plan_of: Callable[..., Any]) -> None:
    assert problems(plan_of, EXTRAS, line) == []


@pytest.mark.parametrize("name", ["chocolate", "biscuits", "caramel", "dragon relish"])
def test_what_is_in_no_list_is_a_warning_that_says_what_is_not_reckoned(name: str, plan_of: Callable[..., Any]) -> None:
    said = problems(plan_of, EXTRAS, f"500 g {name}, 8 days")
    assert {severity for _, severity in said} == {Severity.WARNING}
    assert f'"{name}" is in no list: nothing is reckoned of it, no sugar, no volume, no allergen' in said[0][0]


@pytest.mark.parametrize(
    ("line", "severity"),
    [
        ("5 kg irish moss, 10 min", Severity.ERROR),
        ("20 g irish moss, 10 min", Severity.WARNING),
        ("1 cup irish moss, 10 min", Severity.ERROR),
        ("1 tsp irish moss, 10 min", None),
        ("200 g nutmeg, 10 min", Severity.ERROR),
        ("6 pieces nutmeg, 10 min", Severity.ERROR),
        ("2 pieces nutmeg, 10 min", Severity.WARNING),
        ("14 g coriander seed, 5 min", None),
        ("200 g cocoa nibs, 5 days", None),
    ],
)
def test_finings_and_spices_have_ceilings(line: str, severity: Severity | None, plan_of: Callable[..., Any]) -> None:
    said = problems(plan_of, EXTRAS, line)
    assert [found for _, found in said] == ([severity] if severity else [])


def test_lines_of_one_spice_count_together_and_the_word_stands_at_the_scales(plan_of: Callable[..., Any]) -> None:
    text = BREW.format(section=EXTRAS, line="5 g nutmeg, 10 min\n  - 5 g nutmeg, 5 min", hops=HOPS)
    outcome = plan_of(text)
    assert ["more than 0.25 g/L of Nutmeg is more than usual" in str(it) for it in outcome.problems] == [True]
    assert outcome.plan is not None


def test_every_fining_has_bounds_and_the_most_is_far_above_the_usual(pantry: Any) -> None:
    for it in pantry.finings.records:
        assert it.usual_dose is not None, it.name
        assert it.most is not None, it.name
        assert 3 <= it.most.typical / it.usual_dose.typical <= 12, it.name
