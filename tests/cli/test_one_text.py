"""A command on a book may be given one of its texts, and a word that is all but right is told with the right one."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from gristbook import cli

from .conftest import Ran

Run = Callable[..., Ran]


def spoil(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_a_check_of_one_recipe_tells_what_concerns_it(book: Path, run: Run) -> None:
    (book / "mild.md").write_text((book / "mild.md").read_text("utf-8") + "[a](no.md)\n", encoding="utf-8")
    assert len(run("check", "book").err.splitlines()) == 2
    assert run("check", "book/bitter.md", "--strict") == Ran(cli.FINE, "bitter.md, nothing wrong\n", "")
    ran = run("check", "book/mild.md")
    assert (ran.status, ran.out) == (cli.FINE, "mild.md, no error\n")
    assert [line.split(":")[0] for line in ran.err.splitlines()] == ["book/mild.md", "no errors, 1 warning"]
    assert run("check", "book/mild.md", "--strict").status == cli.PROBLEMS
    assert len(json.loads(run("check", "book/mild.md", "--json").out)["problems"]) == 1


def test_an_error_of_the_whole_book_and_one_of_a_brew_concern_a_recipe(book: Path, run: Run) -> None:
    (book / "bitter").mkdir()
    (book / "bitter" / "2026-03-14.md").write_text("---\nplan: 3\n---\n", encoding="utf-8")
    assert run("check", "book/mild.md").status == cli.FINE
    assert run("check", "book/bitter.md").err.startswith("book/bitter/2026-03-14.md:")
    spoil(book / "book.yaml", "title:", "titel: x\ntitle:")
    assert run("check", "book/mild.md").err.startswith("book/book.yaml:")


def test_a_build_and_a_preview_of_a_text_are_of_its_book(book: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    assert run("build", "book/bitter.md", "--out", "out").out.startswith("2 recipes in out/index.html")
    assert run("build", "book/book.yaml", "--out", "out").out.startswith("2 recipes in out/index.html")
    monkeypatch.chdir(book)
    assert run("preview", "bitter.md").out.splitlines()[0].split()[0].endswith("/bitter.html")
    assert run("preview", "book.yaml").out.splitlines()[0].split()[0].endswith("/")
    spoil(book / "bitter.md", "malts:", "malts: 3\nmelts:")
    assert run("preview", "bitter.md").out.splitlines()[0].split()[0].endswith("/"), "it has no page"


@pytest.mark.parametrize("command", ["check", "build", "preview", "figures", "brew", "shop"])
def test_a_recipe_that_is_all_but_there_is_told_with_the_right_one(book: Path, run: Run, command: str) -> None:
    ran = run(command, "book/biter.md")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert ran.err.splitlines()[0] == ('book/biter.md:1:1: error: there is no such file; did you mean "bitter.md"?')
    assert run(command, "book/stout.md").err.splitlines()[0] == "book/stout.md:1:1: error: there is no such file"


def test_a_copy_of_a_recipe_that_is_all_but_there_is_none(book: Path, run: Run) -> None:
    ran = run("new", "Fog Signal", "--from", "biter", "--book", "book")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert 'did you mean "bitter.md"?' in ran.err
    assert not (book / "fog-signal.md").exists()


def test_a_text_of_no_book_is_told(book: Path, run: Run) -> None:
    (book / "bitter.md").rename("bitter.md")
    assert "no book.yaml here or in any folder above" in run("check", "bitter.md").err


@pytest.mark.parametrize(("typed", "meant"), [("buidl", "build"), ("figure", "figures"), ("chek", "check")])
def test_a_command_that_is_all_but_one_is_told_with_the_right_one(run: Run, typed: str, meant: str) -> None:
    assert run(typed, "book") == Ran(
        cli.USAGE, "", f'gristbook: there is no command "{typed}"; did you mean "{meant}"?\n'
    )
    assert "invalid choice" in run("brewery").err
