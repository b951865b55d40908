"""`gristbook check` and `build` with batches: what cannot be is an error, what is risky a warning, none is no fault."""

from __future__ import annotations

from pathlib import Path

import pytest

from gristbook import cli

BATCH = """\
---
brewhouse: hall
recipe:
  title: Reed Bank Bitter
  batch: 20 L
  plan:
    potential of the mashed grain: 3 kg
    extract besides the mash, before the boil: 0 kg
    real attenuation: 0.62 ± 0.03 fraction
measured:
{measured}
---
"""


def check(book: Path, run, measured: str):  # type: ignore[no-untyped-def]
    (book / "bitter").mkdir()
    (book / "bitter" / "2026-03-14.md").write_text(BATCH.format(measured=measured), encoding="utf-8")
    return run("check", "book")


def test_extract_out_of_nothing_is_an_error_at_its_line(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = check(book, run, "  before the boil: 25 L at 1.060")
    assert ran.status == cli.PROBLEMS
    assert "book/bitter/2026-03-14.md:11:" in ran.err
    assert "error: more extract came out of the mash than the grain holds" in ran.err


def test_bottling_too_soon_is_a_warning(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    measured = (
        "  original gravity: 1.040\n  readings:\n    - 2026-03-17, 1.020\n    - 2026-03-20, 1.014\n"
        "  packaged: 2026-03-20, 19 L, 30 g table sugar, heavy bottles"
    )
    ran = check(book, run, measured)
    assert ran.status == cli.FINE
    assert "warning: bottled before it stood still" in ran.err


def test_bottles_that_would_burst_are_an_error(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = check(book, run, "  packaged: 2026-03-28, 10 L, 300 g table sugar\n  readings: ['2026-03-24, 1.010, 19 °C']")
    assert ran.status == cli.PROBLEMS
    assert "error: it comes to" in ran.err
    assert "bursts an ordinary bottle" in ran.err


@pytest.mark.parametrize("command", ["check", "build"])
def test_a_book_without_batches_is_no_fault(book: Path, run, command: str) -> None:  # type: ignore[no-untyped-def]
    assert run(command, "book").status == cli.FINE
