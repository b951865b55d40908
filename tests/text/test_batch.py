"""What is written of a batch is what the model has: each number once, in its unit, as it was read, with its place."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from gristbook.model.batch import Batch, Level, Reading
from gristbook.problems import Problems
from gristbook.sheet.doubts import NINE_IN_TEN
from gristbook.sheet.origin import By, Given
from gristbook.sheet.value import Value
from gristbook.text.batch import read_batch
from gristbook.text.book import read_book
from gristbook.text.values import Desk

HEAD = """---
brewhouse: mill
yeast: english ale yeast, attenuative
recipe:
  title: A beer
  batch: 5 gal
  boil: 60 min
  malts:
    - 8 lb Pale ale malt, 3 °L
    - 1 lb Caramel malt 60 L,   60 °L
  carbonation: 2 volumes, keg
  plan:
    original gravity: 1.0432 ± 0.0021
    boiling point: 96.5 °C
    mash efficiency: 0.74 ± 0.04 fraction
    cells to pitch: 158.614 ± 8.2 10⁹ cells
    residual alkalinity: -12.5 ± 3 mg/L CaCO₃
"""


def read(text: str, folder: Path, pantry: Any, name: str = "2026-03-14") -> Batch:
    problems = Problems()
    batch = read_batch(text, f"a-beer/{name}.md", folder, {"mill": None}, Desk(pantry, problems))
    assert [str(problem) for problem in problems] == []
    assert batch is not None
    return batch


@pytest.fixture
def measured(tmp_path: Path, pantry: Any) -> Any:
    def of(*lines: str) -> Batch:
        return read(HEAD + "measured:\n" + "".join(f"  {line}\n" for line in lines) + "---\n", tmp_path, pantry)

    return of


def plain(value: Value | None) -> tuple[float, str] | None:
    return None if value is None else (pytest.approx(value.number), value.unit)


def shown(reading: Reading | None) -> object:
    return None if reading is None else (plain(reading.shown), plain(reading.sample))


def level(found: Level | None) -> object:
    return None if found is None else (plain(found.volume), plain(found.warmth), shown(found.gravity))


def test_the_day_is_the_file_s_where_nothing_is_said(tmp_path: Path, pantry: Any) -> None:
    batch = read(HEAD + "---\nWords.\n", tmp_path, pantry, "2026-03-14-2")
    assert (batch.brewed, batch.slug, batch.recipe) == ("2026-03-14", "2026-03-14-2", "a-beer")
    assert (batch.prose, batch.edition, batch.ready, batch.tastings) == ("Words.\n", "", "", ())
    assert batch.yeast == "English ale, attenuative"


def test_the_recipe_is_kept_line_by_line_and_its_plan_with_ranges(tmp_path: Path, pantry: Any) -> None:
    frozen = read(HEAD + "---\n", tmp_path, pantry).frozen
    assert frozen.title == "A beer"
    assert frozen.sections == (
        ("batch", ("5 gal",)),
        ("boil", ("60 min",)),
        ("malts", ("8 lb Pale ale malt, 3 °L", "1 lb Caramel malt 60 L, 60 °L")),
        ("carbonation", ("2 volumes, keg",)),
    )
    figures = {name: (value.number, value.unit, round(value.spread * NINE_IN_TEN, 6)) for name, value in
               frozen.plan.items()}  # fmt: skip
    assert figures == {
        "original-gravity": (1.0432, "SG", 0.0021),
        "boiling-point": (96.5, "°C", 0),
        "mash-efficiency": (0.74, "fraction", 0.04),
        "cells-to-pitch": (158.614, "10⁹ cells", 8.2),
        "residual-alkalinity": (-12.5, "mg/L CaCO₃", 3),
    }
    kept = frozen.plan["original-gravity"]
    assert isinstance(kept.origin, Given)
    assert kept.origin.by is By.PLAN
    assert kept.place is not None
    assert (kept.place.line, kept.place.column) == (13, 23)
    assert kept.origin.words == "the plan when this was begun: 1.0432 ± 0.0021"


@pytest.mark.parametrize(
    ("line", "volume", "warmth", "gravity"),
    [
        ("25.5 L at 1.036, 60 °C", (25.5, "L"), (60, "°C"), ((1.036, "SG"), (60, "°C"))),
        ("25.5 L hot, 1.036 at 24 °C", (25.5, "L"), (96.5, "°C"), ((1.036, "SG"), (24, "°C"))),
        ("25.5 L hot at 1.036", (25.5, "L"), (96.5, "°C"), ((1.036, "SG"), None)),
        ("25.5 L at 60 °C at 1.036 at 24 °C", (25.5, "L"), (60, "°C"), ((1.036, "SG"), (24, "°C"))),
        ("25.5 L at 60 °C, 1.036", (25.5, "L"), (60, "°C"), ((1.036, "SG"), None)),
        ("1.036 at 24 °C, 25.5 L cool", (25.5, "L"), None, ((1.036, "SG"), (24, "°C"))),
        ("25.5 L", (25.5, "L"), None, None),
        ("25.5 L, 60 °C", (25.5, "L"), (60, "°C"), None),
        ("9.6 °Bx", None, None, ((9.6, "°Bx"), None)),
        ("9.6 Brix, 20 °C", None, None, ((9.6, "°Bx"), (20, "°C"))),
        ("25.5 L at 9.1 °P", (25.5, "L"), None, ((9.1, "°P"), None)),
        ("6 gal at 1.036, 140 °F", (22.712470704, "L"), (60, "°C"), ((1.036, "SG"), (60, "°C"))),
        ("{volume: 25.5 L, gravity: 1.036, temperature: 60 °C}", (25.5, "L"), (60, "°C"), ((1.036, "SG"), (60, "°C"))),
    ],
)
def test_wort_in_a_vessel_is_read_as_it_was_measured(
    measured: Any, line: str, volume: object, warmth: object, gravity: object
) -> None:
    assert level(measured(f"before the boil: {line}").measured.before_the_boil) == (volume, warmth, gravity)


def test_hot_is_as_it_boils_at_sea_level_where_the_plan_does_not_say(tmp_path: Path, pantry: Any) -> None:
    bare = HEAD.replace("    boiling point: 96.5 °C\n", "") + "measured:\n  end of the boil: 22 L hot\n---\n"
    found = read(bare, tmp_path, pantry).measured.end_of_the_boil
    assert found is not None
    assert found.warmth is not None
    assert found.warmth.number == 100
    assert isinstance(found.warmth.origin, Given)
    assert found.warmth.origin.words.startswith("by default")


def test_what_is_stated_behind_a_plus_minus_is_kept_and_nothing_else_is_made_up(measured: Any) -> None:
    found = measured("mash temperature: 66.5 °C ± 0.4", "left in kettle: 1.5 L", "original gravity: 1.041 ± 0.002")
    mash, kettle, original = found.measured.mash_temperature, found.measured.left_in_kettle, found.measured.original
    assert mash.high == pytest.approx(66.9)
    assert kettle.doubts == {}
    assert original.shown.low == pytest.approx(1.039)
    assert (kettle.place.line, kettle.place.column) == (20, 19)


def test_what_nobody_measured_is_none_and_what_nobody_said_of_instruments_is_usual(measured: Any) -> None:
    found = measured("boiled:").measured
    assert (found.boiled, found.mash_temperature, found.log, found.moments, found.dry_hopped) == (
        None,
        None,
        None,
        (),
        "",
    )
    assert plain(found.calibration) == (20, "°C")
    assert plain(found.wort_correction) == (1.04, "ratio")
    assert found.wort_correction.high == pytest.approx(1.06)


def test_looks_at_the_beer_stand_in_the_order_of_time(measured: Any) -> None:
    looks = ("2026-03-20 07:30, 19.5 °C", "2026-03-17, 1.018, 19 °C", "2026-03-18T18:05, 5.9 °Bx at 20 °C")
    found = measured("readings:", *(f"  - {look}" for look in looks)).measured.moments
    assert [(moment.when, shown(moment.gravity), plain(moment.temperature)) for moment in found] == [
        (datetime(2026, 3, 17, 12), ((1.018, "SG"), (19, "°C")), (19, "°C")),
        (datetime(2026, 3, 18, 18, 5), ((5.9, "°Bx"), (20, "°C")), None),
        (datetime(2026, 3, 20, 7, 30), None, (19.5, "°C")),
    ]


@pytest.mark.parametrize(
    ("line", "litres", "grams", "kind", "vessel"),
    [
        ("2026-03-28, 19 L, 95 g table sugar, swing-top bottles", 19, 95, "Sucrose", "swing-top bottles"),
        ("2026-03-28, 5 gal, 3.5 oz corn sugar, in heavy bottles", 18.927, 99.223, "Glucose monohydrate",
         "heavy bottles"),
        ("2026-03-28, 19 L, in a keg", 19, None, None, "keg"),
        ("2026-03-28, 95 ± 2 g of white sugar", None, 95, "Sucrose", "bottles"),
        ("{day: 2026-03-28, sugar: 80 g glucose anhydrous, vessel: bottles}", None, 80, "Glucose anhydrous", "bottles"),
    ],
)  # fmt: skip
def test_packaging_says_how_much_with_what_into_what(
    measured: Any, line: str, litres: float | None, grams: float | None, kind: str | None, vessel: str
) -> None:
    found = measured(f"packaged: {line}").measured.packaged
    primer = found.primer.name if found.primer else None
    assert (found.day, primer, found.vessel) == ("2026-03-28", kind, vessel)
    assert plain(found.volume) == (None if litres is None else (pytest.approx(litres, rel=1e-4), "L"))
    assert plain(found.sugar) == (None if grams is None else (pytest.approx(grams, rel=1e-4), "g"))


def test_batches_stand_in_the_order_of_their_days_whatever_their_recipe(tmp_path: Path) -> None:
    (tmp_path / "book.yaml").write_text("title: A book\naddress: https://quillmere.example/\n", "utf-8")
    text = HEAD.replace("brewhouse: mill\n", "") + "---\n"
    names = ("b-beer/2026-03-14", "a-beer/2026-03-14-2", "a-beer/2026-03-14", "a-beer/2025-12-01", "pages/2026-01-01",
             ".gristbook/2026-01-01", "a-beer/deeper/2026-01-01", "notes/plans")  # fmt: skip
    for name in names:
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / f"{name}.md").write_text(text.replace("---\n", "---\ntitle: A page\n", 1)
                                             if name.startswith("pages") else text, "utf-8")  # fmt: skip
    book = read_book(tmp_path, Problems())
    assert book is not None
    assert [(batch.recipe, batch.slug) for batch in book.batches] == [
        ("a-beer", "2025-12-01"),
        ("a-beer", "2026-03-14"),
        ("b-beer", "2026-03-14"),
        ("a-beer", "2026-03-14-2"),
    ]


def test_a_batch_reads_the_same_when_the_pantry_has_changed(tmp_path: Path) -> None:
    """Nothing of a kept recipe is looked up: only the yeast's name, under which it teaches, is the pantry's."""
    (tmp_path / "book.yaml").write_text("title: A book\naddress: https://quillmere.example/\n", "utf-8")
    (tmp_path / "a-beer").mkdir()
    lines = "measured:\n  packaged: 2026-03-28, 19 L, 95 g table sugar\n"
    text = HEAD.replace("brewhouse: mill\n", "") + lines + "---\n"
    (tmp_path / "a-beer" / "2026-03-14.md").write_text(text, "utf-8")
    before = read_book(tmp_path, Problems())
    (tmp_path / "pantry").mkdir()
    (tmp_path / "pantry" / "malts.yaml").write_text(
        "- name: Pale ale malt\n  kind: base\n  extract: 60 %\n  colour: 40 °L\n  source: a fire, invented\n", "utf-8"
    )
    after = read_book(tmp_path, Problems())
    assert before is not None
    assert after is not None
    assert before.batches == after.batches
    assert len(before.batches) == 1


@pytest.mark.parametrize(
    ("hops", "dry"), [("25 g Fuggle, 4.5 %, 60 min", False), ("25 g Fuggle, Dry hopped 3 days", True), ("", False)]
)
def test_a_batch_knows_whether_its_recipe_has_dry_hops(hops: str, dry: bool, tmp_path: Path, pantry: Any) -> None:
    lines = f"  hops:\n    - {hops}\n" if hops else ""
    assert read(HEAD.replace("  plan:", lines + "  plan:") + "---\n", tmp_path, pantry).frozen.dry_hopped == dry
