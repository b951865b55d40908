"""Whatever a command is given, it says in a line what is wrong, and leaves the author's files as they were."""

from __future__ import annotations

import os
import resource
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from gristbook import cli

from .conftest import Ran

CALLS: dict[str, list[str]] = {
    "adjust": ["book/bitter.md", "--measured", "20 L at 1.034"],
    "brew": ["book/bitter.md", "--on", "2026-03-14"],
    "build": ["book"],
    "check": ["book"],
    "compare": ["book/bitter.md", "book/mild.md"],
    "completion": ["bash"],
    "explain": ["book/bitter.md", "original gravity"],
    "figures": ["book/bitter.md"],
    "manual": ["my-manual"],
    "new": ["Fog Signal", "--book", "book"],
    "preview": ["book"],
    "schema": ["recipe", "--book", "book"],
    "shop": ["book/bitter.md"],
    "start": ["begun"],
    "theme": ["copy", "card.html", "--book", "book"],
    "words": ["hops", "--book", "book"],
}
"""A good call of each command."""

OF_A_BOOK = sorted(CALLS.keys() - {"completion", "manual", "schema", "start", "theme", "words"})
"""Commands that read a book; `words` and `schema` go by its pantry, and `theme` only looks whether it is there."""

WRITE = sorted(cli.MAKES | {"theme"})


def test_every_command_is_called_here() -> None:
    assert CALLS.keys() == cli.COMMANDS.keys()


def all_of(folder: Path) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def started(command: str, **how: object) -> subprocess.CompletedProcess[str]:
    words = [sys.executable, "-m", "gristbook", command, *CALLS[command]]
    return subprocess.run(words, text=True, stderr=subprocess.PIPE, check=False, timeout=120, **how)  # type: ignore[call-overload]


@pytest.mark.parametrize("command", CALLS)
def test_a_good_call_is_all_well(book: Path, run: Callable[..., Ran], command: str) -> None:
    ran = run(command, *CALLS[command])
    assert (ran.status, ran.err) == (cli.FINE, "")
    assert ran.out


@pytest.mark.parametrize("command", CALLS)
def test_a_call_that_is_wrong_has_a_status_of_its_own(book: Path, run: Callable[..., Ran], command: str) -> None:
    before = all_of(book)
    ran = run(command, *CALLS[command], "--no-such-option")
    assert (ran.status, ran.out) == (cli.USAGE, "")
    assert "--no-such-option" in ran.err
    assert all_of(book) == before


@pytest.mark.parametrize("command", OF_A_BOOK)
@pytest.mark.parametrize("there", [False, True])
def test_where_there_is_no_book_that_is_said(
    tmp_path: Path, book: Path, run: Callable[..., Ran], command: str, there: bool
) -> None:
    book.rename(tmp_path / "elsewhere")
    if there:
        book.mkdir()
    ran = run(command, *CALLS[command])
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert "book" in ran.err.splitlines()[0]
    assert not any(book.rglob("*"))


def spoiled(path: Path, how: str) -> None:
    text = path.read_text("utf-8").replace("title: ", "title: Kölsch ")
    if how == "a folder":
        path.unlink()
        path.mkdir()
    else:
        path.write_bytes(text.encode(how))


@pytest.mark.parametrize("how", ["utf-16", "latin-1", "a folder"])
@pytest.mark.parametrize("command", sorted({*OF_A_BOOK} - {"new", "preview"}))
def test_a_recipe_that_is_no_text_is_named(book: Path, run: Callable[..., Ran], command: str, how: str) -> None:
    spoiled(book / "bitter.md", how)
    before = all_of(book)
    ran = run(command, *CALLS[command])
    assert ran.status == cli.PROBLEMS
    assert "book/bitter.md:1:1: error: this file " in ran.err.splitlines()[0]
    assert all_of(book) == before


@pytest.mark.parametrize("how", ["utf-16", "latin-1", "a folder"])
def test_a_preview_names_a_recipe_that_is_no_text_and_shows_the_others(
    book: Path, run: Callable[..., Ran], how: str
) -> None:
    spoiled(book / "bitter.md", how)
    ran = run("preview", "book")
    assert (ran.status, ran.out.splitlines()[-1]) == (cli.FINE, "stopped")
    assert "book/bitter.md:1:1: error: this file " in ran.err.splitlines()[0]


@pytest.mark.parametrize("how", ["utf-16", "latin-1", "a folder"])
@pytest.mark.parametrize("command", OF_A_BOOK)
def test_a_book_that_is_no_text_is_named(book: Path, run: Callable[..., Ran], command: str, how: str) -> None:
    if how == "a folder" and command not in ("build", "check", "new", "preview"):
        pytest.skip("a folder is no sign of a book above a recipe")
    spoiled(book / "book.yaml", how)
    before = all_of(book)
    ran = run(command, *CALLS[command])
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert "book/book.yaml:1:1: error: this file " in ran.err.splitlines()[0]
    assert all_of(book) == before


@pytest.mark.parametrize("command", CALLS)
def test_output_that_a_full_disk_refuses_is_told_in_a_line(book: Path, command: str) -> None:
    with Path("/dev/full").open("w") as full:
        ran = started(command, stdout=full)
    assert (ran.returncode, ran.stderr) == (cli.PROBLEMS, "gristbook: the disk: No space left on device\n")


@pytest.mark.parametrize("command", CALLS)
def test_help_and_command_have_a_reader_who_leaves(book: Path, command: str) -> None:
    for words in ([command, *CALLS[command]], [command, "--help"]):
        reads, writes = os.pipe()
        os.close(reads)
        ran = subprocess.run(
            [sys.executable, "-m", "gristbook", *words],
            stdout=writes,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
            env={name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"},
        )
        os.close(writes)
        assert (ran.returncode, ran.stderr) == (cli.UNHEARD, "")


@pytest.mark.parametrize("most", [0, 300])
@pytest.mark.parametrize("command", WRITE)
def test_a_disk_that_takes_no_file_is_told_and_keeps_no_half_of_one(book: Path, command: str, most: int) -> None:
    """A limit on the size of a file refuses as a full disk does."""
    before = all_of(book)
    ran = started(
        command, stdout=subprocess.PIPE, preexec_fn=partial(resource.setrlimit, resource.RLIMIT_FSIZE, (most, most))
    )
    assert ran.returncode == cli.PROBLEMS, ran.stderr
    assert ran.stderr.startswith("gristbook: ")
    assert len(ran.stderr.splitlines()) == 1
    assert all_of(book) == before
    assert not all_of(Path("begun"))


@pytest.mark.parametrize("command", OF_A_BOOK)
def test_whoever_stops_a_command_reads_one_line(book: Path, command: str) -> None:
    (book / "mild.md").unlink()
    os.mkfifo(book / "mild.md")  # whoever reads it waits
    before = (book / "bitter.md").read_bytes()
    listening = partial(signal.signal, signal.SIGINT, signal.SIG_DFL)
    words = [sys.executable, "-m", "gristbook", command, *CALLS[command]]
    with subprocess.Popen(words, stderr=subprocess.PIPE, text=True, preexec_fn=listening) as child:
        writer = os.open(book / "mild.md", os.O_WRONLY)  # returns once it reads
        time.sleep(0.2)
        child.send_signal(signal.SIGINT)
        try:
            _, said = child.communicate(timeout=60)
        finally:
            os.close(writer)
            child.kill()
    assert (child.returncode, said) == (cli.INTERRUPTED, "gristbook: stopped\n")
    assert (book / "bitter.md").read_bytes() == before
    assert {path.name for path in book.iterdir()} == {"book.yaml", "bitter.md", "mild.md"}
