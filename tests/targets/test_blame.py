"""What a setting of a brewhouse makes impossible is told there, with what would do; a full pot at the batch."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

import gristbook

RECIPE = """---
title: Pale
batch: 20 L
malts:
  - 4 kg pale ale malt
hops:
  - 28 g Fuggle, 4.5 % alpha, 60 min
yeast:
  - 11 g american ale yeast, clean, dried
mash:
  - 67 °C, 60 min
ferment:
  - 19 °C, 10 days
carbonation: 2.2 volumes, keg
---
"""

Told = Callable[..., list[str]]


@pytest.fixture
def told(tmp_path: Path) -> Told:
    """The errors of a book of one recipe, whose brewhouse has a batch of 20 L and what else is said of it."""

    def say(setting: str, *, units: str = "metric", recipe: str = RECIPE) -> list[str]:
        (tmp_path / "pale.md").write_text(recipe, "utf-8")
        book = f"title: A book\nunits: {units}\nbrewhouses:\n  mill:\n    batch: 20 L\n    {setting}\n"
        (tmp_path / "book.yaml").write_text(book, "utf-8")
        read = gristbook.read(tmp_path)
        read.check()
        return [str(it) for it in read.problems.errors()]

    return say


# Boil-off 3 L/h and 1.5 L left: 24.5 L at the start of the boil, and 4 kg keep 4 L, so there are 28.5 L of water,
# which is 7.125 L to a kilogram.


def test_a_mash_too_thin_for_its_brew_is_told_at_the_thickness(told: Told) -> None:
    (error,) = told("thickness: 9 L/kg")
    assert error.startswith(
        'book.yaml:6:16: error: with 9 L/kg as thickness of the mash, "Pale" cannot be brewed: the '
    )
    assert "the mash takes 36.0 L of water, and the wort leaves only 28.5 L for it; expected " in error
    most = re.search(r"expected ([\d.]+) L/kg or less", error)
    assert most is not None
    assert 7.125 * 0.99 <= float(most[1]) <= 7.125
    assert told(f"thickness: {most[1]} L/kg") == []


def test_what_would_do_is_said_as_the_setting_is(told: Told) -> None:
    """7.125 L/kg are 7.125 / 0.946353 × 0.453592 = 3.415 qt/lb."""
    (error,) = told("thickness: 4.5 qt/lb")
    most = re.search(r"expected ([\d.]+) qt/lb or less", error)
    assert most is not None, error
    assert 3.415 * 0.99 <= float(most[1]) <= 3.415
    assert told(f"thickness: {most[1]} qt/lb") == []


@pytest.mark.parametrize(
    ("setting", "at", "would_do"),
    [
        ("efficiency: 8 %", "6:17", "15.1 % or more"),
        ("tun heat: 20 L", "6:15", "L or less"),
        ("tun heat: 5 gal", "6:15", "gal or less"),
    ],
)
def test_any_setting_far_from_the_usual_may_be_to_blame(told: Told, setting: str, at: str, would_do: str) -> None:
    (error,) = told(setting)
    assert error.startswith(f"book.yaml:{at}: error: with ")
    assert error.endswith(would_do)


def test_a_grist_too_heavy_for_usual_vessels_is_the_recipes_own_fault(told: Told) -> None:
    """17 kg at 2.7 L/kg want 45.9 L, and 24.5 + 17 L are there."""
    (error,) = told("thickness: 2.7 L/kg", recipe=RECIPE.replace("4 kg", "17 kg"))
    assert error.startswith(
        "pale.md:2:1: error: the mash takes 45.9 L of water, and the wort leaves only 41.5 L for it"
    )


# 24.5 L are 25.5 L hot, which want 31.9 L.


def test_a_batch_too_large_for_its_kettle_is_told_at_the_batch_and_names_the_kettle(told: Told) -> None:
    (error,) = told("kettle: 8 gal")
    assert error.startswith(
        "pale.md:3:8: error: the hot wort takes 25.5 L; expected no more than the kettle of 8 gal (line 6 of book.yaml)"
    )


def test_a_recipe_that_names_no_batch_leaves_only_the_kettle_to_change(told: Told) -> None:
    (error,) = told("kettle: 30 L", recipe=RECIPE.replace("batch: 20 L\n", ""))
    assert error.startswith("book.yaml:6:13: error: the hot wort takes 25.5 L; ")


def test_a_brew_that_stays_behind_in_its_fermenter_is_told_so(told: Told) -> None:
    (error,) = told("left in fermenter: 1.2 L", recipe=RECIPE.replace("batch: 20 L", "batch: 1 L"))
    assert "1.2 L stay behind in the fermenter of mill: nothing of 1 L would be left to package" in error
