"""The book that benchmarks and random edits are made on: always the same, sound, and with something of every kind."""

from __future__ import annotations

from pathlib import Path

import pytest

from gristbook import cli

from .made_book import lay

KINDS = (
    *("malts:", "extracts:", "sugars:", "hops:", "yeast:", "mash:", "water:", "finings and spices:", "ferment:"),
    *("% pale", " lb ", " oz ", "5 gal", "°F", "steep", "stand", "dry 3 days", "liquid", "keg", "primed", "distilled"),
    *("brewhouse: cabin", "brewhouse: halt", "brewhouse: pan", "log:", "into the fermenter", "[20 L in quarry]"),
)


def texts(folder: Path) -> dict[str, str]:
    return {path.relative_to(folder).as_posix(): path.read_text("utf-8") for path in folder.rglob("*.*")}


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return lay(tmp_path_factory.mktemp("made"), 60)


def test_it_is_the_same_for_the_same_seed_and_another_for_another(book: Path, tmp_path: Path) -> None:
    assert texts(lay(tmp_path / "again", 60)) == texts(book)
    assert texts(lay(tmp_path / "other", 60, seed=2)) != texts(book)


def test_it_has_something_of_every_kind(book: Path) -> None:
    whole = "\n".join(texts(book).values())
    assert [kind for kind in KINDS if kind not in whole] == []
    assert len(list(book.glob("*.md"))) == len(list(book.glob("*-*/*.md"))) == 60


def test_a_check_finds_no_error_in_it_and_few_warnings(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["check", str(book)]) == cli.FINE
    assert capsys.readouterr().err.count(" warning: ") <= 3
