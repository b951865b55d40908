"""A slip of ten or twenty-eight, and what no mash, steep or vessel can be, is told; what is sound beside it is not.

Each danger stands with its sound neighbour. The bounds are common practice, and the rows say so; what beer can hold of
iso-alpha acids, about 100 mg/L, is from memory.
"""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.problems import Problems, Severity
from gristbook.targets.advice.bound_rows import BOUNDS
from gristbook.text.book import read_book

BOOK = """title: A book
brewhouses:
  home: {}
  thirty: {fermenter: 30 L}
  ladle: {fermenter: 18 L}
  test: {batch: 5 L, boil-off: 2 L/h, left in kettle: 0.4 L, left in fermenter: 0.3 L, kettle: 12 L, tun: 10 L}
  roomy: {batch: 500 L, boil-off: 40 L/h, kettle: 900 L, tun: 600 L}
"""
SOUND = {
    "title": "title: A beer",
    "batch": "batch: 20 L",
    "malts": "malts:\n  - 4 kg pale ale malt",
    "hops": "hops:\n  - 30 g Fuggle, 4.5 % alpha, 60 min",
    "yeast": "yeast:\n  - 11 g american ale yeast, dried",
    "mash": "mash:\n  - 67 °C, 60 min",
    "ferment": "ferment:\n  - 19 °C, 14 days",
}
KEYS = {row.key for row in BOUNDS}

Told = Callable[..., list[tuple[Severity, str]]]


@pytest.fixture(scope="session")
def told(plan_of: Callable[..., Any], tmp_path_factory: pytest.TempPathFactory) -> Told:
    """What is said of a recipe by the rows against slips, and by the vessels."""
    folder = tmp_path_factory.mktemp("slips")
    (folder / "book.yaml").write_text(BOOK, "utf-8")
    book = read_book(folder, problems := Problems())
    assert book is not None, list(problems)
    words = {words for row in BOUNDS for words in (row.too_low, row.too_high) if words}

    def said(*changes: str) -> list[tuple[Severity, str]]:
        rest = [text for key, text in SOUND.items() if not any(change.startswith(f"{key}:") for change in changes)]
        outcome = plan_of("\n".join(["---", *rest, *changes, "---", ""]), book.brewhouses)
        return [
            (problem.severity, str(problem))
            for problem in outcome.problems
            if problem.severity is Severity.ERROR or any(problem.what.startswith(line) for line in words)
        ]

    return said


GRAIN = "malts:\n  - 4 kg pale ale malt\n  - 300 g caramel malt 60, steep "

STRONG = "yeast:\n  - 40 g belgian golden strong ale yeast, dried"
STOPPED = {
    "grams for ounces of the grist": ("malts:\n  - 140 g pale ale malt",),
    "ten times the grist": ("malts:\n  - 40 kg pale ale malt",),
    "bitterness of 1871 IBU": ("hops:\n  - 280 g Magnum, 14 % alpha, 60 min\n  - 280 g Magnum, 14 % alpha, 50 min",),
    "ounces of hops as kilograms": ("hops:\n  - 2 kg Fuggle, 4.5 % alpha, dry 3 days",),
    "alpha of a whole hop at 60 %": ("hops:\n  - 30 g Fuggle, 60 % alpha, 60 min",),
    "a kilogram of dried yeast": ("yeast:\n  - 1 kg american ale yeast, dried",),
    "a mash of a minute": ("mash:\n  - 67 °C, 1 min",),
    "a mash that never converts": ("mash:\n  - 50 °C, 60 min",),
    "rests that fall from 72 to 50": ("mash:\n  - 72 °C, 30 min\n  - 50 °C, 20 min",),
    "a steep at 100 °C": (f"{GRAIN}30 min at 100 °C",),
    "a boil of a day": ("boil: 24 h",),
    "5000 L without a vessel": ("batch: 5000 L", "malts:\n  - 1000 kg pale ale malt"),
    "a batch that overflows its fermenter": ("brewhouse: ladle",),
}
WARNED = {
    "a wort of 1.160": ("malts:\n  - 13 kg pale ale malt", "sugars:\n  - 4.5 kg lactose", STRONG),
    "a wort of 1.010": ("malts:\n  - 900 g pale ale malt",),
    "200 IBU": ("hops:\n  - 140 g Magnum, 14 % alpha, 60 min",),
    "a mash of ten minutes": ("mash:\n  - 67 °C, 10 min",),
    "rests that fall by eight degrees": ("mash:\n  - 72 °C, 30 min\n  - 64 °C, 30 min",),
    "a steep at 85 °C": (f"{GRAIN}30 min at 85 °C",),
    "a steep of two minutes": (f"{GRAIN}2 min at 68 °C",),
    "a steep of five hours": (f"{GRAIN}5 h at 68 °C",),
    "500 L without a vessel": ("batch: 500 L", "malts:\n  - 100 kg pale ale malt"),
    "hardly room for the foam": ("brewhouse: thirty", "batch: 26 L"),
}
SILENT = {
    "an ordinary ale": (),
    "a barley wine of 1.120, boiled for 105 minutes": (
        "boil: 105 min",
        "malts:\n  - 11 kg pale ale malt",
        "hops:\n  - 80 g Fuggle, 4.5 % alpha, 60 min",
        "yeast:\n  - 33 g english ale yeast, attenuative, dried",
    ),
    "a double India pale ale of 110 IBU": (
        "malts:\n  - 7 kg pale ale malt",
        "hops:\n  - 70 g Magnum, 14 % alpha, 60 min\n  - 200 g Cascade, 6 % alpha, dry 4 days",
        "yeast:\n  - 22 g american ale yeast, dried",
    ),
    "a test batch of 5 L": (
        "brewhouse: test",
        "batch: 5 L",
        "malts:\n  - 1.1 kg pale ale malt",
        "hops:\n  - 8 g Fuggle, 4.5 % alpha, 60 min",
        "yeast:\n  - 11 g american ale yeast, dried",
    ),
    "a test batch of 5 L in a brewhouse that nobody described": (
        "batch: 5 L",
        "malts:\n  - 1.1 kg pale ale malt",
        "hops:\n  - 8 g Fuggle, 4.5 % alpha, 60 min",
    ),
    "a Berlin wheat of 1.030 without a boil": (
        "boil: 0 min",
        "malts:\n  - 1.2 kg pilsner malt\n  - 1.2 kg wheat malt",
        "hops:\n  - 20 g Fuggle, 4.5 % alpha, stand 10 min at 90 °C",
        "meant:\n  raw wort: it is held at 80 °C for half an hour",
    ),
    "a sour mash": ("mash:\n  - 67 °C, 60 min\n  - 45 °C, 24 h",),
    "a hop of 19 % alpha": ("hops:\n  - 10 g Magnum, 19 % alpha, 60 min",),
    "a mash of 45 minutes": ("mash:\n  - 67 °C, 45 min",),
    "a mash in steps": ("mash:\n  - 52 °C, 15 min\n  - 63 °C, 30 min\n  - 72 °C, 20 min\n  - 77 °C, 5 min",),
    "a mash that cools a little": ("mash:\n  - 68 °C, 30 min\n  - 66 °C, 60 min",),
    "a steep at 170 °F": (f"{GRAIN}30 min at 170 °F",),
    "roast steeped cold for a night": (f"{GRAIN}14 h at 15 °C",),
    "500 L in vessels that are described": ("brewhouse: roomy", "batch: 500 L", "malts:\n  - 95 kg pale ale malt"),
    "23 L in a fermenter of 30": ("brewhouse: thirty", "batch: 23 L"),
}


@pytest.mark.parametrize("changes", STOPPED.values(), ids=STOPPED)
def test_what_nobody_means_is_stopped(changes: tuple[str, ...], told: Told) -> None:
    assert [severity for severity, _ in told(*changes)].count(Severity.ERROR) >= 1


@pytest.mark.parametrize("changes", WARNED.values(), ids=WARNED)
def test_what_is_hardly_meant_is_warned_of(changes: tuple[str, ...], told: Told) -> None:
    assert {severity for severity, _ in told(*changes)} == {Severity.WARNING}


@pytest.mark.parametrize("changes", SILENT.values(), ids=SILENT)
def test_a_sound_beer_stays_silent(changes: tuple[str, ...], told: Told) -> None:
    assert told(*changes) == []


@pytest.mark.parametrize("changes", STOPPED.values(), ids=STOPPED)
def test_no_reason_makes_up_for_a_slip(changes: tuple[str, ...], told: Told) -> None:
    meant = "\n".join(["meant:", *(f'  "{key}": the miller likes it so' for key in sorted(KEYS))])
    assert Severity.ERROR in {severity for severity, _ in told(*changes, meant)}


def test_a_slip_is_told_at_its_line_where_it_has_one(told: Told) -> None:
    ((_, words),) = told(f"{GRAIN}30 min at 100 °C")
    assert words.startswith("recipe.md:14:44: error: ")
    assert "hotter than is good for it. 100 °C; expected to 93 °C" in words
