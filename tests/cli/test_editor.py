"""What `start --editor` lays: the files of two editors, and the schemas that they go by."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from gristbook import cli
from gristbook.cli.schema import FILES, schema

from .conftest import Ran

Run = Callable[..., Ran]
OWN = {"nvim": {".nvim.lua"}, "code": {".vscode/settings.json", ".vscode/tasks.json"}}
SCHEMAS = {f".schemas/{kind}.json" for kind in FILES}


def hidden(book: Path) -> set[str]:
    found = {it.relative_to(book).as_posix() for it in book.rglob("*") if it.is_file()}
    return {it for it in found if it.startswith(".")}


@pytest.mark.parametrize("editor", OWN)
def test_an_editor_finds_its_files_and_the_schemas_of_this_book(book: Path, run: Run, editor: str) -> None:
    ran = run("start", "book", "--editor", editor)
    assert (ran.status, ran.err) == (cli.FINE, "")
    assert hidden(book) == OWN[editor] | SCHEMAS
    for kind in FILES:
        assert (book / ".schemas" / f"{kind}.json").read_text("utf-8") == schema(kind, book) + "\n"
    assert run("check", "book", "--strict").status == cli.FINE
    ran = run("start", "book", "--editor", editor)
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert "already: nothing was written" in ran.err


@pytest.mark.parametrize("editor", OWN)
def test_a_new_book_has_them_from_the_start(
    tmp_path: Path, run: Run, monkeypatch: pytest.MonkeyPatch, editor: str
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = run("start", "mine", "--editor", editor, "--workflow")
    assert (ran.status, ran.err) == (cli.FINE, "")
    assert hidden(tmp_path / "mine") == OWN[editor] | SCHEMAS | {".gitignore", ".github/workflows/book.yml"}
    for name in hidden(tmp_path / "mine"):
        assert f"  mine/{name}\n" in ran.out
    assert '"home"' in Path("mine/.schemas/recipe.json").read_text("utf-8")  # its own brewhouse


def test_every_schema_that_an_editor_is_sent_to_is_there(book: Path, run: Run) -> None:
    run("start", "book", "--editor", "code")
    schemas = json.loads((book / ".vscode" / "settings.json").read_text("utf-8"))["yaml.schemas"]
    assert [(book / it).resolve() for it in schemas] == [(book / ".schemas" / "book.json").resolve()]
    laid = (Path(cli.__file__).parent / "laid" / "nvim.lua").read_text("utf-8")
    assert set(re.findall(r'\[schema\("(\w+)"\)\]', laid)) == set(FILES)


def test_the_task_and_make_find_every_problem_by_its_place(
    book: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    run("start", "book", "--editor", "code")
    (task,) = json.loads((book / ".vscode" / "tasks.json").read_text("utf-8"))["tasks"]
    assert cli.parser(["check"]).parse_args(task["command"].split()[1:]).command == "check"
    text = (book / "bitter.md").read_text("utf-8")
    (book / "bitter.md").write_text(text.replace("3.6 kg", "3.6 kgg").replace("Fuggle", "Fugle"), "utf-8")
    monkeypatch.chdir(book)
    said = [line for line in run("check", ".").err.splitlines() if not re.fullmatch(r".* errors?, .* warnings?", line)]
    pattern = task["problemMatcher"]["pattern"]
    found = [re.fullmatch(pattern["regexp"], line) for line in said]
    keys = ("file", "line", "column", "severity")
    assert [tuple(it[pattern[key]] for key in keys) for it in found if it] == [
        ("bitter.md", "5", "9", "error"),
        ("bitter.md", "8", "10", "warning"),
    ]
    assert None not in found
