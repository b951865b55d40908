"""A book in US units is US wherever it speaks, whatever units a recipe of it is written in."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from gristbook import cli


@pytest.fixture
def us(book: Path) -> Path:
    """The small book in US units, its recipes still in litres and kilograms."""
    with (book / "book.yaml").open("a", encoding="utf-8") as file:
        file.write("units: US\n")
    return book


def test_figures_come_in_us_units_first(us: Path, run: Callable[..., Any]) -> None:
    for asked in ((), ("--from", "extract"), ("--brewhouse", "hob", "--from", "extract")):
        told = run("figures", "book/bitter.md", *asked)
        assert told.status == cli.FINE
        (into,) = [line for line in told.out.splitlines() if line.strip().startswith("into the fermenter")]
        assert into.split()[3:5] == ["5.3", "gal"]  # 20 L / 3.785411784 L = 5.28 gal


def test_the_blanks_of_a_new_batch_are_in_us_units(us: Path, run: Callable[..., Any]) -> None:
    told = run("brew", "book/bitter.md", "--on", "2026-03-14").out
    assert "planned 153 °F" in told
    assert "°C" not in told
    assert " L " not in told


def test_what_a_kettle_cannot_boil_is_told_in_gallons(us: Path, run: Callable[..., Any]) -> None:
    """A kettle of 40 L, a fifth left to the foam, boils 32 L hot, 30.7 L cool: 8.11 gal."""
    assert "the pot of hall boils 8.11 gal at most" in run("figures", "book/bitter.md", "--batch", "21 gal").err
