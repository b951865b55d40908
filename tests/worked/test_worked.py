"""Three beers worked by hand go the whole way, from an author's text to figures.

The rows of `worked.csv` were worked apart from the project, from the published equations that each row names, for the
recipes of `book/`. A row that ends in "the other convention" is a figure that a defensible choice would have given
instead: where the main figure is off, it tells a bug from a choice.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import pytest
from replay import Replay

from gristbook.equations.colour import srm_morey_1995
from gristbook.equations.density import hot_volume
from gristbook.model.book import Book
from gristbook.model.figures import words_of
from gristbook.problems import Problems, Severity
from gristbook.sheet.doubts import NINE_IN_TEN
from gristbook.sheet.value import Value, lineage
from gristbook.targets.chain import work_out
from gristbook.targets.conventions import FIRST_WORT, GRAIN_HEAT
from gristbook.targets.figures import named_figures
from gristbook.targets.plan import plan_book
from gristbook.targets.results import Figures
from gristbook.text.book import read_book

HERE = Path(__file__).parent
with (HERE / "worked.csv").open(encoding="utf-8", newline="") as table:
    ROWS = list(csv.DictReader(table))


@cache
def book() -> Book:
    problems = Problems()
    read = read_book(HERE / "book", problems)
    assert read is not None
    assert list(problems) == []
    return read


@cache
def worked_out(slug: str) -> Figures:
    recipe = next(recipe for recipe in book().recipes if recipe.slug == slug)
    return work_out(recipe, book().brewhouses[recipe.brewhouse], book().bitterness_model, book().colour_model)


@cache
def figures(slug: str) -> dict[str, float]:
    """All that the handwork has a number for, by the words of the table."""
    worked = worked_out(slug)
    found: dict[str, Value | None] = {**{words_of(figure): it for figure, it in named_figures(worked).items()}}
    found |= {
        "extract in the kettle": worked.grist.extract,
        "malt colour units": worked.colour.malt_colour,
        "thickness of the mash": worked.mash.thickness if worked.mash else None,
        "alcohol that priming adds": worked.packaging.added_alcohol if worked.packaging else None,
        "mean gravity of the boil": in_the_working(worked.bitterness.total, "mean gravity of the boil"),
    }
    for place, malt in enumerate(worked.grist.malts, 1):
        found[f"weight of malt {place}"] = malt.mass
    for place, hop in enumerate(worked.bitterness.hops, 1):
        found[f"weight of hop {place}"] = hop.mass
        found[f"equivalent minutes of hop {place}"] = hop.minutes
        found[f"utilisation of hop {place}"] = hop.utilisation
        found[f"bitterness of hop {place}"] = hop.bitterness
    return {name: value.number for name, value in found.items() if value is not None} | other_conventions(slug)


def other_conventions(slug: str) -> dict[str, float]:
    """What the same brew would show if the book meant something else by a word."""
    worked = worked_out(slug)
    assert worked.mash is not None
    bitterness, strike, gained = worked.bitterness.total, worked.mash.strike, worked.bitterness.gain_in_stand
    crowding = worked.volumes.end_of_boil / worked.volumes.into_fermenter
    moved = Replay({"bitterness": bitterness, "strike": strike})
    return {
        "bitterness spread over the batch": (bitterness * crowding).number,
        "colour spread over the batch": srm_morey_1995(colour=(worked.colour.malt_colour * crowding).number),
        "strike temperature with a grain heat of 0.38": moved.drawn({GRAIN_HEAT.label: off_by(GRAIN_HEAT, 0.38)})[
            "strike"
        ],
        "bitterness with first wort at 1.10": moved.drawn({FIRST_WORT.label: off_by(FIRST_WORT, 1.10)})["bitterness"],
        "bitterness with what the first wort gains in the stand": (
            (bitterness + gained if gained is not None else bitterness).number
        ),
    }


def off_by(convention: Value, wanted: float) -> float:
    """How many standard deviations a convention must lie off to be the wanted number."""
    half = convention.number - convention.low if wanted < convention.number else convention.high - convention.number
    return NINE_IN_TEN * (wanted - convention.number) / half


def in_the_working(figure: Value, label: str) -> Value | None:
    return next((value for value in lineage(figure) if value.label == label), None)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['recipe']}-{row['figure']}")
def test_a_recipe_gives_the_figure_worked_by_hand(row: dict[str, str]) -> None:
    found = figures(row["recipe"])[row["figure"]]
    assert abs(found - float(row["expected"])) <= float(row["tolerance"]), (
        f"{found:.6g} instead of {row['expected']} ± {row['tolerance']} {row['unit']}: {row['source']}"
    )


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['recipe']}-{row['figure']}")
def test_a_row_says_where_it_comes_from_and_why_its_tolerance(row: dict[str, str]) -> None:
    assert all((words or "").strip() for words in row.values())
    assert row["source"].startswith("worked by hand from the published equations")


def test_a_pot_of_dried_extract_is_as_full_as_worked_by_hand() -> None:
    # Worked by hand: 3 kg at 0.63 L/kg stirred into 11 L, and cold / hot = 0.96009; half of the last figure given.
    assert hot_volume(cool_l=11 + 3 * 0.63, temperature=100) == pytest.approx(13.4, abs=0.05)


def test_three_volumes_in_an_unnamed_bottle_are_cautioned() -> None:
    problems = Problems()
    plan_book(book(), problems)
    cautioned = {problem.place.path for problem in problems if problem.severity is Severity.WARNING}
    assert {"wheat-beer.md", "wheat-beer-rounded.md"} <= cautioned
    assert "pale-bitter.md" not in cautioned
    assert problems.errors() == []
