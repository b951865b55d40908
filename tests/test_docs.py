"""What the README and its neighbours say is true: commands, options, paths, examples, a sentence a field."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from gristbook import __version__, cli
from gristbook.cli.manual import whole
from gristbook.reading.fields import Field
from gristbook.reading.line import Property
from gristbook.text import batch_vocabulary, book, brewhouse, vocabulary

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
MANUAL = "\n".join(whole().values())
SET_UP = "python3 -m venv .venv && .venv/bin/pip install -e '.[test]' && "


def fenced(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)


def helped(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    with pytest.raises(SystemExit) as left:
        cli.main([*words, "--help"])
    assert left.value.code == 0
    return capsys.readouterr().out


def test_the_readme_gives_two_commands_and_they_are_the_whole_set_up() -> None:
    alone = SET_UP.replace("-e '.[test]'", ".")
    assert fenced("sh") == [
        f"{alone}.venv/bin/gristbook build recipes\n",
        f"{SET_UP}.venv/bin/pytest -n auto --dist loadfile\n",
    ]


def test_the_readme_opens_with_the_job_then_a_picture_then_the_commands() -> None:
    title, job, picture, *_ = README.split("\n\n")
    assert title == "# Gristbook"
    assert job.startswith("Gristbook is for ")
    path = re.fullmatch(r"!\[.+\]\((.+)\)", picture)
    assert path is not None
    assert (ROOT / path[1]).read_bytes().startswith(b"\x89PNG")
    assert README.index(picture) < README.index("```sh")


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md", "CHANGES.md"])
def test_every_link_of_a_page_leads_to_a_file(page: str) -> None:
    for target in re.findall(r"\]\(([^)]+)\)", (ROOT / page).read_text(encoding="utf-8")):
        assert (ROOT / target).exists(), target


def test_every_test_that_a_developer_is_told_of_is_there() -> None:
    sources = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "tests").rglob("test_*.py"))
    named = re.findall(r"`(test_\w+)`", DEVELOPERS)
    assert len(named) >= 5
    for name in named:
        assert f"def {name}(" in sources, name


def test_every_file_that_a_developer_is_told_of_is_there() -> None:
    homes = (ROOT, ROOT / "generator" / "gristbook")
    for path in re.findall(r"`((?:[\w.-]+/)+[\w.*-]*)`", DEVELOPERS + README):
        if path not in THE_READERS_OWN and not path.startswith(".venv/"):
            assert any(next(home.glob(path.rstrip("/")), None) for home in homes), path


THE_READERS_OWN = {
    ".github/workflows/book.yml",
    ".vscode/",
    ".schemas/",
    "site/",
    "site/index.html",
    "dist/",
    "theme/",
    "theme/learning/",
    "theme/extra.css",
    "learning/balance.md",
    "pantry/",
}
"""What a reader has, or gets by the README's commands."""


def test_the_picture_of_the_rooms_has_every_room() -> None:
    rooms = {path.stem for path in (ROOT / "generator" / "gristbook").iterdir() if path.suffix in ("", ".py")}
    for room in rooms - {"__init__", "__main__", "__pycache__"}:
        assert re.search(rf"\b{room}\b", DEVELOPERS), room


def test_every_command_and_option_is_documented(capsys: pytest.CaptureFixture[str]) -> None:
    documented = README + DEVELOPERS + MANUAL
    for command in cli.COMMANDS:
        text = helped(capsys, command)
        what = re.findall(r"^positional arguments:\n +([A-Z]+)", text, re.MULTILINE)
        assert " ".join(["gristbook", command, *what]) in documented, command
        for option in set(re.findall(r"(?<![\w-])--[a-z-]+", text + helped(capsys))):
            assert option in documented, f"{command} {option}"


def test_help_tells_of_every_command_what_its_own_help_says(capsys: pytest.CaptureFixture[str]) -> None:
    whole = " ".join(helped(capsys).split())
    for command, summary in cli.COMMANDS.items():
        assert f" {command} {summary}" in whole
        assert f"{summary[:1].upper() + summary[1:]}." in " ".join(helped(capsys, command).split())


def test_version_says_which_one_it_is(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        cli.main(["--version"])
    assert left.value.code == 0
    assert capsys.readouterr().out == f"gristbook {__version__}\n"
    assert f"## {__version__}" in (ROOT / "CHANGES.md").read_text(encoding="utf-8")


@pytest.fixture
def readme_book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The README's whole book, in the current folder."""
    (recipe,), (book,) = fenced("yaml"), fenced("yaml book")
    monkeypatch.chdir(tmp_path)
    (tmp_path / "book.yaml").write_text(book, encoding="utf-8")
    path = tmp_path / "reed-bank-bitter.md"
    path.write_text(recipe, encoding="utf-8")
    return path


def test_the_readme_s_recipe_is_a_good_one(readme_book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["check", "--strict", "."]) == cli.FINE
    said = capsys.readouterr()
    assert said.err == ""
    assert "1 recipe" in said.out


def test_the_readme_s_recipe_is_the_manual_s(readme_book: Path) -> None:
    assert whole()["reed-bank-bitter.md"] == readme_book.read_text("utf-8")


def test_the_readme_s_problems_are_what_its_recipe_gives_with_two_slips(
    readme_book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    slips = {"3.6 kg pale": "3.6 kgg pale", "40 g Fuggle": "40 g Fugle"}
    text = readme_book.read_text(encoding="utf-8")
    for right, wrong in slips.items():
        assert text.count(right) == 1
        text = text.replace(right, wrong)
    readme_book.write_text(text, encoding="utf-8")
    assert cli.main(["check", "."]) == cli.PROBLEMS
    (block,) = fenced("text")
    assert capsys.readouterr().err == block + "1 error, 1 warning\n"


def test_build_writes_into_site_if_no_folder_is_named(readme_book: Path) -> None:
    assert cli.main(["build", "."]) == cli.FINE
    assert (readme_book.parent / "site" / "index.html").is_file()


def described() -> Iterator[tuple[str, Field | Property]]:
    for module in (vocabulary, batch_vocabulary, brewhouse, book):
        for name, rows in sorted(vars(module).items()):
            if isinstance(rows, tuple) and rows and isinstance(rows[0], Field | Property):
                for row in rows:
                    yield f"{name.lower()}: {row.name if isinstance(row, Field) else row.key}", row


def test_every_field_says_what_it_is_for() -> None:
    for where, row in described():
        assert re.fullmatch(r"[A-Z0-9].{5,}\.", row.sentence), f"{where}: {row.sentence!r}"
        assert row.kind.words, where


def test_fields_of_every_kind_of_file_are_seen_by_the_test_above() -> None:
    seen = {where.partition(":")[0] for where, _ in described()}
    assert {
        "recipe",
        "malt",
        "hop",
        "yeast",
        "mash",
        "brewhouse",
        "book",
        "chapter",
        "batch",
        "measured",
        "level_parts",
    } <= seen
