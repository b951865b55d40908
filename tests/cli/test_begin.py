"""Beginning a book and a recipe, as somebody does who has neither yet."""

from __future__ import annotations

import json
import os
import pty
import re
import shlex
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from gristbook import cli
from gristbook.targets.advice.grist_figures import NAMED as PROMISES

from .conftest import Ran

ROOT = Path(__file__).parents[2]
LAID = {"book.yaml", "landing-stage-ale.md", "README.md", ".gitignore"}


@pytest.fixture
def nowhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


KITCHENS = [
    *(
        ["--pot", pot, "--mash", mash]
        for pot in ("5 L", "20 L", "5 gal", "100 L")
        for mash in ("bag", "tun", "nothing")
    ),
    ["--pot", "12 L", "--mash", "nothing", "--batch", "20 L"],
    ["--pot", "3 gal", "--mash", "nothing", "--batch", "5 gal"],
    ["--pot", "40 L", "--mash", "tun", "--batch", "10 L"],
    ["--units", "US"],
    [],
]


@pytest.mark.parametrize("kitchen", KITCHENS, ids=" ".join)
def test_a_book_that_was_begun_has_nothing_wrong(
    nowhere: Path, run: Callable[..., Ran], kitchen: Sequence[str]
) -> None:
    ran = run("start", "my-beers", *kitchen)
    assert (ran.status, ran.err) == (cli.FINE, "")
    assert {path.name for path in Path("my-beers").iterdir()} == LAID
    checked = run("check", "my-beers", "--strict")
    assert (checked.status, checked.err) == (cli.FINE, "")
    begun = run("new", "A Second Beer", "--book", "my-beers")
    assert (begun.status, begun.err) == (cli.FINE, "")
    assert run("check", "my-beers", "--strict").status == cli.FINE
    figures = json.loads(run("figures", "my-beers/landing-stage-ale.md", "--json").out)["figures"]
    gravity = figures["original-gravity"]
    assert 1.034 < gravity["value"] < 1.050


def test_a_book_that_was_begun_is_built(nowhere: Path, run: Callable[..., Ran]) -> None:
    run("start", "my-beers", "--batch", "9 L")
    ran = run("build", "my-beers", "--strict")
    assert (ran.status, ran.err) == (cli.FINE, "")
    page = Path("site/landing-stage-ale.html")
    assert "Landing Stage Ale" in page.read_text("utf-8")


def test_what_was_not_said_is_said_aloud(nowhere: Path, run: Callable[..., Ran]) -> None:
    assert "What was not said is taken as usual" in run("start", "usual").out
    said = ("--pot", "20", "--mash", "tun", "--batch", "10")
    assert "usual" not in run("start", "told", *said).out


def test_a_book_speaks_in_the_units_that_were_typed(nowhere: Path, run: Callable[..., Ran]) -> None:
    run("start", "us", "--pot", "8 gal", "--batch", "3 gal")
    run("start", "metric", "--pot", "8 gal", "--units", "metric")
    us = Path("us/book.yaml").read_text("utf-8")
    assert "units: US" in us
    assert "batch: 3 gal" in us
    assert "°F" in Path("us/landing-stage-ale.md").read_text("utf-8")
    run("new", "A Second Beer", "--book", "us")
    assert "°C" not in Path("us/a-second-beer.md").read_text("utf-8")
    assert "kettle: 30.3 L" in Path("metric/book.yaml").read_text("utf-8")


@pytest.mark.parametrize("name", sorted(LAID))
def test_nothing_that_is_there_is_overwritten(nowhere: Path, run: Callable[..., Ran], name: str) -> None:
    Path("mine").mkdir()
    (Path("mine") / name).write_text("mine", "utf-8")
    ran = run("start", "mine")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert ran.err == f"gristbook: mine has {name} already: nothing was written\n"
    assert {path.name: path.read_text("utf-8") for path in Path("mine").iterdir()} == {name: "mine"}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--pot", "15 L", "--batch", "40 L"], "that does not fit: the hot mash takes"),
        (["--pot", "banana"], '"banana" is not a volume'),
        (["--pot", "3 kg"], '"3 kg" is not a volume'),
    ],
)
def test_what_cannot_be_is_a_wrong_call(
    nowhere: Path, run: Callable[..., Ran], words: Sequence[str], said: str
) -> None:
    ran = run("start", "my-beers", *words)
    assert (ran.status, ran.out) == (cli.USAGE, "")
    assert said in ran.err
    assert not Path("my-beers").exists()


def at_a_terminal(words: Sequence[str], typed: bytes, **environment: str) -> tuple[int, str]:
    """A call at a terminal of its own, all that is typed there waiting for it; its status and what the screen shows."""
    ours, theirs = pty.openpty()
    os.write(ours, typed)
    child = subprocess.Popen(
        [sys.executable, "-m", "gristbook", *words],
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        start_new_session=True,
        env={**os.environ, "TERM": "xterm", **environment},
    )
    os.close(theirs)
    shown = b""
    while True:
        try:
            more = os.read(ours, 4096)
        except OSError:  # the other side has hung up
            break
        if not more:
            break
        shown += more
    os.close(ours)
    return child.wait(timeout=60), shown.decode().replace("\r\n", "\n")


def test_three_questions_are_asked_at_a_terminal_and_a_wrong_answer_again(nowhere: Path) -> None:
    status, shown = at_a_terminal(["start", "my-beers"], b"a big one\n30 L\nb\n60 L\n\n\n12 L\n")
    assert status == cli.FINE, shown
    assert shown.count("How much does your pot hold") == 3
    assert '"a big one" is not a volume' in shown
    assert "that does not fit" in shown
    assert "kettle: 20 L" in Path("my-beers/book.yaml").read_text("utf-8")


def test_who_leaves_at_a_question_has_no_book(nowhere: Path) -> None:
    status, shown = at_a_terminal(["start", "my-beers"], b"30 L\n\x04")
    assert status == cli.INTERRUPTED
    assert shown.endswith("gristbook: stopped\n")
    assert not Path("my-beers").exists()


def test_severity_is_coloured_at_a_terminal_unless_its_owner_says_no(book: Path) -> None:
    (book / "book.yaml").write_text("titel: no\n", "utf-8")
    for environment, coloured in (({}, True), ({"NO_COLOR": "1"}, False), ({"TERM": "dumb"}, False)):
        assert ("\x1b[" in at_a_terminal(["check", "book"], b"", **environment)[1]) == coloured
    ran = subprocess.run([sys.executable, "-m", "gristbook", "check", "book"], capture_output=True, check=False)
    assert b"error: " in ran.stderr
    assert b"\x1b" not in ran.stderr


def test_a_new_recipe_is_named_by_its_title_and_never_overwrites(book: Path, run: Callable[..., Ran]) -> None:
    ran = run("new", "Kölsch-like  Ale: No. 2", "--book", "book")
    path = book / "kolsch-like-ale-no-2.md"
    assert ran.out.splitlines()[0] == "book/kolsch-like-ale-no-2.md"
    text = path.read_text("utf-8")
    assert "Kölsch-like Ale: No. 2" in text
    again = run("new", "Kolsch like ale no 2", "--book", "book")
    assert (again.status, again.err) == (
        cli.PROBLEMS,
        "gristbook: book/kolsch-like-ale-no-2.md is there already: nothing was written\n",
    )
    assert path.read_text("utf-8") == text


NAMED = (
    *("Lantern Porter", "Imperial Stout", "Oatmeal Stout", "Oat Ale", "Milk Stout", "Rye Stout", "Roggenbier"),
    *("Wheat Ale", "Weissbier", "Weißbier", "Dunkelweizen", "Weizenbock", "Berliner Weisse", "Witbier", "Rauchbier"),
    *("Smoked Porter", "Schwarzbier", "Dunkel", "Doppelbock", "Märzen", "Lock Pilsner", "Brown Mild", "Saison"),
    *("Old Tripel", "Winter Dubbel", "Ferry IPA", "Plain Thing", "Wheat Rye Oatmeal Smoked Stout"),
)
BREWHOUSES = {
    "a mash tun": "batch: 20 L\n    kettle: 40 L\n    mash: sparge",
    "a bag": "batch: 9 L\n    kettle: 19 L\n    mash: bag",
    "no mash": "batch: 20 L\n    kettle: 40 L\n    mash: none",
    "water on top": "batch: 5 gal\n    kettle: 3 gal\n    mash: none\n    boil-off: 0.3 gal/h",
}


@pytest.mark.parametrize("house", BREWHOUSES)
def test_what_a_new_recipe_is_named_for_is_in_it(nowhere: Path, run: Callable[..., Ran], house: str) -> None:
    """A name promises a malt or a yeast, and whoever is given neither is told so at once."""
    Path("book.yaml").write_text(f"title: A book\nbrewhouses:\n  home:\n    {BREWHOUSES[house]}\n", encoding="utf-8")
    for title in NAMED:
        assert run("new", title).status == cli.FINE, title
    ran = run("check", ".")
    assert (ran.status, ran.err) == (cli.FINE, "")
    assert ran.out.startswith(f"{len(NAMED)} recipes, nothing wrong")


def test_every_word_that_a_beer_is_known_by_is_in_one_of_the_names() -> None:
    told = {row.what for row in PROMISES if not row.yeast}
    found = {row.what for row in PROMISES for it in NAMED if re.search(rf"\b({row.words})\b", it.casefold())}
    assert told <= found


@pytest.mark.parametrize(
    ("title", "lines"),
    [
        ("Lantern Porter", ("  - 5 % chocolate malt", "yeast: irish ale yeast, dried")),
        ("Dunkelweizen", ("  - 50 % pale wheat malt", "yeast: german wheat yeast, dried")),
        ("Lock Pilsner", ("  - 100 % pilsner malt", "  - 12 °C, 14 days", "yeast: german lager yeast, dried")),
        ("Weizen Rye Dunkel Smoked Stout", ("  - 4 % pale ale malt", "  - 15 % rye malt")),
        ("Reporter", ("  - 100 % pale ale malt", "yeast: english ale yeast, attenuative, dried")),
    ],
)
def test_a_name_begins_with_what_such_beers_are_made_of(
    book: Path, run: Callable[..., Ran], title: str, lines: tuple[str, ...]
) -> None:
    path = run("new", title, "--book", "book").out.splitlines()[0]
    assert {*lines} <= {*Path(path).read_text("utf-8").splitlines()}


def test_a_copy_is_the_same_under_another_title(
    book: Path, run: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(book)
    assert run("new", "Fog Signal", "--from", "bitter.md").out.splitlines()[0] == "fog-signal.md"
    assert run("new", "Fog Bell", "--from", "bitter").out.splitlines()[0] == "fog-bell.md"
    before = (book / "bitter.md").read_text("utf-8")
    assert Path("fog-signal.md").read_text("utf-8") == before.replace("Reed Bank Bitter", "Fog Signal")


@pytest.mark.parametrize("title", ["Index", "\N{CJK UNIFIED IDEOGRAPH-65E5}", "  "])
def test_a_title_that_no_page_can_have_leaves_no_file(book: Path, run: Callable[..., Ran], title: str) -> None:
    ran = run("new", title, "--book", "book")
    assert ran.status == (cli.PROBLEMS if title == "Index" else cli.USAGE)
    assert {path.name for path in book.iterdir()} == {"book.yaml", "bitter.md", "mild.md"}


def test_a_copy_of_a_broken_recipe_is_not_made(book: Path, run: Callable[..., Ran]) -> None:
    (book / "mild.md").write_text((book / "mild.md").read_text("utf-8").replace("2.4 kg", "2.4 kgg"), "utf-8")
    ran = run("new", "Milder", "--from", "book/mild.md", "--book", "book")
    assert ran.status == cli.PROBLEMS
    assert 'did you mean "kg"?' in ran.err
    assert not (book / "milder.md").exists()


def test_check_tells_another_program(book: Path, run: Callable[..., Ran]) -> None:
    (book / "mild.md").write_text((book / "mild.md").read_text("utf-8").replace("2.4 kg", "2.4 kgg"), "utf-8")
    ran = run("check", "book", "--json")
    assert (ran.status, ran.err) == (cli.PROBLEMS, "")
    told = json.loads(ran.out)
    (problem,) = (it for it in told["problems"] if it["severity"] == "error")
    assert told["recipes"] == 1
    assert (problem["path"], problem["line"], problem["column"]) == ("book/mild.md", 5, 9)
    assert (problem["words"], problem["suggestion"]) == ('unknown unit "kgg"', "kg")


@pytest.mark.parametrize("command", [*cli.COMMANDS, ""])
def test_every_help_has_an_example_that_runs_and_says_what_a_status_means(
    nowhere: Path, run: Callable[..., Ran], command: str
) -> None:
    helped = run(*([command] if command else []), "--help").out
    assert cli.STATUSES in helped
    (example,) = (line for line in helped.splitlines() if line.startswith("  gristbook "))
    shutil.copytree(ROOT / "recipes", "recipes")
    ran = run(*shlex.split(example)[1:])
    assert (ran.status, ran.err) == (cli.FINE, "")


def test_gristbook_alone_says_what_comes_next(
    book: Path, run: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch
) -> None:
    ran = run()
    assert (ran.status, ran.err) == (cli.FINE, "")
    assert ran.out.startswith("gristbook start ")
    monkeypatch.chdir(book)
    assert run().out.startswith("gristbook check .")


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_shell_is_told_every_command_and_can_read_it(nowhere: Path, run: Callable[..., Ran], shell: str) -> None:
    script = run("completion", shell).out
    for command in cli.COMMANDS:
        assert command in script
    if found := shutil.which(shell):
        assert subprocess.run([found, "-n"], input=script, text=True, check=False).returncode == 0
