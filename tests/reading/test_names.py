"""Names of files: what becomes a page is called what every disk can keep, and nothing of a book lies outside of it."""

from __future__ import annotations

import unicodedata
from pathlib import Path

import pytest

from gristbook.model.paths import TAKEN
from gristbook.problems import Problems
from gristbook.reading.files import Outside, inside, read_text
from gristbook.reading.names import pages_in


def names(folder: Path) -> tuple[list[str], list[str]]:
    problems = Problems()
    return [name for _, name in pages_in(folder, "", problems, TAKEN)], [str(problem) for problem in problems]


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("best\nnotes.txt", "cannot be seen"),
        ("best\x1b[2Jbitter", "cannot be seen"),
        ("best\N{RIGHT-TO-LEFT OVERRIDE}bitter", "cannot be seen"),
        ("best\N{LINE SEPARATOR}bitter", "cannot be seen"),
        ("best\udcff", "cannot be seen"),
        ("a\\b", "a slash"),
        ("best.", "a dot or a blank"),
        (" best", "a dot or a blank"),
        ("best ", "a dot or a blank"),
        ("b" * 200, "longer than 200 bytes"),
        ("ü" * 100, "longer than 200 bytes"),
        *((name, "one of its own") for name in ("cautions", "Index", "learning", "ingredients", "theme", "style.css")),
    ],
)
def test_a_recipe_is_called_what_its_page_can_be_called(tmp_path: Path, name: str, why: str) -> None:
    (tmp_path / f"{name}.md").write_text("", "utf-8")
    found, (problem,) = names(tmp_path)
    assert found == []
    assert why in problem
    assert problem.isprintable()


@pytest.mark.parametrize(
    "name", ["best bitter", "No. 7", "Kölsch", "ストーン", "نیم\N{ZERO WIDTH NON-JOINER}فاصله", "b" * 195, "brew"]
)
def test_an_ordinary_name_is_no_problem(tmp_path: Path, name: str) -> None:
    (tmp_path / f"{name}.md").write_text("", "utf-8")
    assert names(tmp_path) == ([unicodedata.normalize("NFC", name)], [])


@pytest.mark.parametrize(
    ("one", "other"),
    [("Best", "best"), ("straße", "STRASSE"), ("k\u00f6lsch", "ko\u0308lsch"), ("Ko\u0308l", "k\u00f6l")],
)
def test_two_names_that_a_disk_may_take_for_one_are_a_problem(tmp_path: Path, one: str, other: str) -> None:
    for name in (one, other):
        (tmp_path / f"{name}.md").write_text("", "utf-8")
    found, (problem,) = names(tmp_path)
    assert len(found) == 1
    assert "on many disks it is the same as" in problem


def test_a_name_with_its_accents_apart_becomes_the_usual_one(tmp_path: Path) -> None:
    (tmp_path / "ko\u0308lsch.md").write_text("", "utf-8")
    assert names(tmp_path) == (["k\u00f6lsch"], [])


def test_hidden_files_are_no_recipes(tmp_path: Path) -> None:
    (tmp_path / "._best.md").write_bytes(b"\x00\x05\x16\x07")
    (tmp_path / ".#best.md").symlink_to("somebody@somewhere.4711")
    assert names(tmp_path) == ([], [])


@pytest.mark.parametrize(
    "path", ["../secret.md", "/etc/hostname", "a/../../secret.md", "link.md", "links/secret.md", "a\0b"]
)
def test_nothing_outside_of_a_book_is_opened(tmp_path: Path, path: str) -> None:
    (tmp_path / "secret.md").write_text("secret", "utf-8")
    book = tmp_path / "book"
    book.mkdir()
    (book / "link.md").symlink_to(tmp_path / "secret.md")
    (book / "links").symlink_to(tmp_path, target_is_directory=True)
    with pytest.raises(Outside):
        inside(book, path)
    problems = Problems()
    assert read_text(book, path, problems) is None
    assert [problem.what for problem in problems] == ["this file cannot be read: it leads out of the folder"]


def test_a_link_within_a_book_and_a_book_that_is_a_link_are_read(tmp_path: Path) -> None:
    book = tmp_path / "book"
    book.mkdir()
    (book / "best.md").write_text("words", "utf-8")
    (book / "same.md").symlink_to("best.md")
    (tmp_path / "linked").symlink_to(book, target_is_directory=True)
    assert read_text(tmp_path / "linked", "same.md", Problems()) == "words"
