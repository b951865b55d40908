"""The manual: every example in it is read or run, and nothing that an author may write is without one."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from gristbook import cli
from gristbook.cli.manual import whole
from gristbook.interface import Book
from gristbook.model.figures import figure_called
from gristbook.pantry.pantry import SECTIONS, Pantry
from gristbook.pantry.records import ABOUT, NAMES
from gristbook.problems import Problems, Severity
from gristbook.reading.fields import Field, field_called
from gristbook.reading.tree import Listing, Node, Table, read_yaml
from gristbook.reading.units import UNITS
from gristbook.text.manual import BATCH_LINES, FILES, TOPICS, names_of
from gristbook.text.manual_tables import ASKED
from gristbook.text.vocabulary import LINES, RECIPE

MANUAL = whole()
LEARNING = "theme/learning/"
PAGES = {name: text for name, text in MANUAL.items() if name.startswith(LEARNING) and name.endswith(".md")}
FENCED = re.compile(
    r"^```(?P<language>\w+)(?: (?P<what>\S+))?(?P<warned> warned)?\n(?P<text>.*?)^```$", re.DOTALL | re.MULTILINE
)
PLAIN = """\
title: Scratch
batch: 20 L
malts: 4 kg pale ale malt
hops: 30 g Fuggle, 4.5 % alpha, 60 min
yeast: 11 g english ale yeast, attenuative, dried
mash: 67 °C, 60 min
ferment: 19 °C, 14 days
carbonation: 2.2 volumes, primed with table sugar
"""
"""What an example of some fields of a recipe is laid over."""


@dataclass(frozen=True, slots=True)
class Example:
    """A fenced block: its page, its language, what it is a piece of, or the file that it is, and if it is warned of."""

    page: str
    language: str
    what: str
    text: str
    warned: bool


def examples(page: str = "") -> Iterator[Example]:
    for name, text in PAGES.items():
        if page in ("", name):
            for it in FENCED.finditer(text):
                yield Example(name, it["language"], it["what"] or "", it["text"], bool(it["warned"]))


def chunks(text: str, fields: tuple[Field, ...]) -> dict[str, str]:
    """The top-level entries of a table by the field's own name."""
    found = re.findall(r"^(?:[^\s#].*\n(?:[ \t#-].*\n|\n)*)", text, re.MULTILINE)
    names = [it.partition(":")[0].strip() for it in found]
    return {
        (known.name if (known := field_called(fields, name)) else name): it
        for name, it in zip(names, found, strict=True)
    }


def laid_over(plain: str, text: str, fields: tuple[Field, ...]) -> str:
    """An example's entries in the place of the plain ones; the plain brewhouses stay beside others."""
    below, above = chunks(plain, fields), chunks(text, fields)
    if "brewhouses" in above:
        sets, own = (dict(re.findall(r"^  (\w+):\n((?:   .*\n)*)", it["brewhouses"], re.M)) for it in (below, above))
        more = "".join(f"  {name}:\n{lines}" for name, lines in sets.items() if name not in own)
        above["brewhouses"] += more
    return "".join((below | above).values())


def lay(folder: Path) -> None:
    """The manual's book without its pages, and with ours as an author's has them."""
    for name, text in MANUAL.items():
        if not name.startswith("theme/"):
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text.replace("learning: own\n", ""), "utf-8")


def apply(example: Example, folder: Path) -> str:
    """The example as a file of the book in a folder; the file's name."""
    book = folder / "book.yaml"
    if example.what == "recipe":
        whole_one = example.text.startswith("---")
        text = example.text if whole_one else f"---\n{laid_over(PLAIN, example.text, RECIPE)}---\n"
        (folder / "scratch.md").write_text(text, "utf-8")
        return "scratch.md"
    if example.what == "book":
        book.write_text(laid_over(book.read_text("utf-8"), example.text, FILES["book.yaml"]), "utf-8")
        return "book.yaml"
    if example.what == "measured":
        (begun,) = folder.glob("reed-bank-bitter/*.md")
        kept = re.search(r"(?ms)^recipe:.*", begun.read_text("utf-8"))
        assert kept is not None
        begun.write_text(f"---\n{example.text}{kept[0]}", "utf-8")
        return str(begun.relative_to(folder))
    path = folder / example.what
    if not (folder / "my-beers").is_dir():
        path = folder / example.what.removeprefix("my-beers/")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(example.text, "utf-8")
    return example.what


def wrong(folder: Path, name: str) -> tuple[list[str], list[str]]:
    """The errors of a book, and the warnings of one of its files; which lists it stands in is of no account here."""
    book = Book(folder)
    book.check()
    told = {severity: [str(it) for it in book.problems if it.severity is severity] for severity in Severity}
    warnings = [it for it in told[Severity.WARNING] if it.startswith(name) and " stands in no " not in it]
    return told[Severity.ERROR], warnings


@pytest.mark.parametrize("page", [name for name in PAGES if any(it.language != "console" for it in examples(name))])
def test_every_example_of_a_text_is_read(page: str, tmp_path: Path) -> None:
    lay(tmp_path)
    if any(it.what == "measured" for it in examples(page)):
        cli.main(["brew", str(tmp_path / "reed-bank-bitter.md"), "--on", "2026-03-14"])
    for example in examples(page):
        if example.language == "console":
            continue
        assert example.what, f"{page}: nobody knows what this is\n{example.text}"
        if example.language == "python":
            subprocess.run([sys.executable, "-c", example.text], cwd=tmp_path, check=True, capture_output=True)
            continue
        errors, warnings = wrong(tmp_path, apply(example, tmp_path))
        assert errors == [], example.text
        assert example.warned == bool(warnings), f"{example.text}\n{warnings}"
        (tmp_path / "scratch.md").unlink(missing_ok=True)


COMMAND = re.compile(r"^\$ (?P<said>.*(?:\\\n.*)*)\n(?P<printed>(?:(?!\$ ).*\n)*)", re.MULTILINE)


def commands(example: Example) -> Iterator[tuple[str, str]]:
    for it in COMMAND.finditer(example.text):
        yield it["said"], it["printed"]


@pytest.mark.slow
@pytest.mark.parametrize("page", [name for name in PAGES if any(it.language == "console" for it in examples(name))])
def test_every_command_that_is_shown_does_what_is_shown(
    page: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """`…` in a line stands for anything, and so do the lines after one that is nothing else."""
    lay(tmp_path)
    monkeypatch.chdir(tmp_path)
    for name in ("GIT_AUTHOR_NAME", "GIT_COMMITTER_NAME", "GIT_AUTHOR_EMAIL", "GIT_COMMITTER_EMAIL"):
        monkeypatch.setenv(name, "maud@quillmere.example")
    for example in examples(page):
        if example.language != "console":
            if example.language in ("yaml", "markdown", "csv", "text"):
                apply(example, tmp_path)
            continue
        for said, printed in commands(example) if example.what != "shown" else ():
            status, out = ran(said, monkeypatch, capsys)
            right = int(example.what or 0) if said == [*commands(example)][-1][0] else 0
            assert status == right, f"$ {said}\n{out}"
            pattern = re.escape(f"\n{printed}".replace("\n…\n", "\n‥")).replace("…", ".*").replace("‥", "(?s:.*)")
            assert not printed or re.fullmatch(pattern, f"\n{out}"), f"$ {said}\n{out}"


def ran(said: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> tuple[int, str]:
    words = shlex.split(said)
    if words[0] == "cd":
        monkeypatch.chdir(words[1])
        return 0, ""
    if words[0] != "gristbook":
        done = subprocess.run(said, shell=True, capture_output=True, text=True, check=False)
        return done.returncode, done.stdout + done.stderr
    into = None
    if ">" in words:
        words, into = words[: words.index(">")], words[-1]
    try:
        status = cli.main(words[1:])
    except SystemExit as left:  # argparse's own
        status = int(left.code or 0)
    told = capsys.readouterr()
    if into:
        Path(into).write_text(told.out, "utf-8")
    return status, told.err + ("" if into else told.out)


def told(node: Node | None) -> Any:
    if isinstance(node, Table):
        return {key.value: told(value) for key, value in node.entries}
    return [told(item) for item in node.items] if isinstance(node, Listing) else node.value if node else None


def tables() -> Iterator[tuple[str, Mapping[str, object]]]:
    """Every table of the examples, by the title that the vocabularies have for it."""
    for example in examples():
        if example.language not in ("yaml", "markdown"):
            continue
        text = example.text.split("---\n")[1] if example.text.startswith("---") else example.text
        found = told(read_yaml(text, example.page, Problems()))
        path = example.what
        if path == "recipe":
            yield "a recipe", found
        elif path == "book":
            yield "book.yaml", found
            for brewhouse in found.get("brewhouses", {}).values():
                yield "book.yaml: a brewhouse", brewhouse
            for chapter in found.get("chapters", []):
                yield "book.yaml: a chapter", chapter
        elif path == "measured":
            yield "a batch", found
            yield "a batch: what was measured", found.get("measured") or {}
        elif path.startswith("pages/"):
            yield "another page", found
        elif path.endswith("contents.yaml"):
            yield from (("theme/learning/contents.yaml: a group", it) for it in found)
        elif path.endswith("glossary.yaml"):
            yield from (("theme/learning/glossary.yaml: a term", it) for it in found)
        elif path.startswith(LEARNING) and path.endswith(".md"):
            yield "theme/learning: a page", found
        elif path.startswith("pantry/") and isinstance(found, list):
            yield from ((path, it) for it in found)


KEPT = "a batch: its recipe"
"""What no author writes."""


@pytest.mark.parametrize("title", [title for title in FILES if title != KEPT])
def test_every_field_has_an_example(title: str) -> None:
    shown = {
        known.name
        for of, table in tables()
        for key, value in (table.items() if of == title else ())
        if value and (known := field_called(FILES[title], str(key)))
    }
    kept = {"recipe"} if title == "a batch" else set()
    assert {field.name for field in FILES[title]} - kept - shown == set()


@pytest.mark.parametrize("section", [name for name in SECTIONS if name != "allergens"])
def test_every_field_of_the_pantry_has_an_example(section: str) -> None:
    shown = {key for of, table in tables() if of == f"pantry/{section}.yaml" for key in table}
    rows = {row.name for row in SECTIONS[section].own}
    rivals = set(SECTIONS[section].rivals)
    assert rows - rivals - shown == set()
    assert not rivals or rivals & shown
    everywhere = {key for of, table in tables() if of.startswith("pantry/") for key in table}
    assert {row.name for row in (*NAMES, *ABOUT)} - everywhere == set()


def written(section: str) -> Iterator[str]:
    """The parts of every line of a section that an example has."""
    for of, table in tables():
        for key, value in table.items():
            known = field_called(FILES[of], str(key)) if of in FILES else None
            if known and known.name in [it.strip() for it in section.replace(", and ", ",").split(",")]:
                lines = value if isinstance(value, list) else [value]
                for line in lines:
                    whole_line = (
                        ", ".join(": ".join(it) for it in line.items()) if isinstance(line, dict) else str(line)
                    )
                    parts = re.split(r",(?!\d)|\s+at\s+(?=\d\.\d{3})", whole_line)
                    yield from (part.strip() for part in parts)


@pytest.mark.parametrize("section", [*LINES, *BATCH_LINES])
def test_every_part_of_a_line_has_an_example(section: str) -> None:
    parts = {*written(section)}
    for part in {**LINES, **BATCH_LINES}[section]:
        assert any(part.found_in(it) for it in parts), f"{part.key}, as {part.example}"


def test_every_unit_has_an_example() -> None:
    text = "\n".join(it.text for it in examples() if it.language == "yaml")
    for name, unit in UNITS.items():
        words = "|".join(re.escape(word) for word in unit.words)
        assert re.search(rf"\d\s*(?:{words})(?![^\W\d_])", text), name


def test_every_command_and_option_has_an_example(capsys: pytest.CaptureFixture[str]) -> None:
    said = [words for it in examples() if it.language == "console" for words, _ in commands(it)]
    for command in cli.COMMANDS:
        with pytest.raises(SystemExit):
            cli.main([command, "--help"])
        options = {*re.findall(r"(?<![\w-])--[a-z]+", capsys.readouterr().out.partition("example:")[0])} - {"--help"}
        calls = [words for words in said if words.startswith(f"gristbook {command}")]
        assert calls, command
        assert options - {it for words in calls for it in words.split()} == set(), command


def test_every_status_is_told() -> None:
    text = PAGES[f"{LEARNING}problems.md"]
    for status in (cli.FINE, cli.PROBLEMS, cli.USAGE, cli.OUR_FAULT, cli.INTERRUPTED, cli.UNHEARD):
        assert re.search(rf"^- \*\*{status}\*\*", text, re.MULTILINE), status


def test_every_list_that_the_vocabularies_have_is_asked_for() -> None:
    files = (fields for title, fields in FILES.items() if title != KEPT)
    for fields in (*files, *(section.own for section in SECTIONS.values() if section.name != "allergens")):
        for field in fields:
            said = rf"^(?:- \*\*|### ){re.escape(field.name)}(?:\*\*: |\n\n){re.escape(field.sentence)}"
            assert any(re.search(said, text, re.MULTILINE) for text in PAGES.values()), field.name
    for topic in TOPICS:
        assert any(f"gristbook words {topic}" in text for text in PAGES.values()), topic
        for name, _ in names_of(topic, Pantry.load(None, Problems())) if topic not in ("units", "figures") else ():
            said = rf"(?:^|; )\*\*{re.escape(name)}\*\*(?:; | \(|\.$)"
            assert any(re.search(said, text, re.MULTILINE) for text in PAGES.values()), name
    assert not any(ASKED.search(text) for text in PAGES.values())


def test_a_figure_that_is_expected_somewhere_is_one() -> None:
    expected = [name for of, table in tables() if of == "a recipe" for name in table.get("expect", {})]  # type: ignore[attr-defined]
    assert expected
    assert all(figure_called(name) for name in expected)


def test_the_manual_is_a_book_without_a_problem_and_is_written_as_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert cli.main(["manual", "my-manual"]) == cli.FINE
    told = capsys.readouterr()
    assert told.err == ""
    assert re.search(r"^3 recipes in my-manual/index\.html: \d+ files new", told.out)
    assert re.search(r"^Done in \d", told.out, re.MULTILINE)
    for name in PAGES:
        page = (tmp_path / "my-manual" / "learning" / Path(name).name).with_suffix(".html").read_text("utf-8")
        assert "](" not in page.partition("<main")[2].partition("<pre")[0], name
        assert ">Manual</a>" in page, "its pages are no lessons"
        assert ">Learn</a>" not in page
        assert "– Manual" in page.partition("</title>")[0]


def test_names_run_on_by_the_alphabet_a_paragraph_a_letter() -> None:
    names = PAGES["theme/learning/names-of-grain.md"]
    assert re.search(r"\*\*Caramel malt 20 L\*\* .*\*\*Caramel malt 120 L\*\*", names), (
        "in one line, the pale one first"
    )
    letters = re.findall(r"^\*\*(\w)", names.partition("## Malts")[2].partition("\n## ")[0], re.MULTILINE)
    assert letters == sorted({*letters})
    assert len(letters) > 10
