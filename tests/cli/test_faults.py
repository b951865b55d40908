"""What goes wrong in Gristbook is never told as an author's fault, and nobody is shown a traceback unasked."""

from __future__ import annotations

import ast
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

import gristbook
from gristbook import cli
from gristbook.targets import chain, plan
from gristbook.targets.editions import make

from .conftest import Ran

HOUSE = Path(gristbook.__file__).parent
OUT_OF_STEP = {
    ("bounds.py", "side_by_side"),
    ("mash_ph.py", "_buffering"),
    ("runnings.py", "lauter_efficiency_batch_sparged"),
}
"""Lists of unequal length, or none at all, are handed to an equation by us alone."""


def broken(*_: object, **__: object) -> None:
    (_first,) = (1, 2)  # too many values to unpack


def test_a_fault_of_ours_is_never_told_as_the_authors(
    book: Path, run: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(plan, "work_out", broken)
    ran = run("check", "book")
    assert ran.status == cli.OUR_FAULT
    assert "too many values to unpack" in ran.err
    assert "test_faults.py" in ran.err
    assert "please report it" in ran.err
    assert len(ran.err.splitlines()) == 1
    assert "bitter.md" not in ran.err
    assert "as written" not in ran.err


def test_a_fault_of_ours_in_an_edition_is_no_reason_to_refuse_it(
    book: Path, run: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(make, "work_out", broken)
    assert run("figures", "book/bitter.md", "--batch", "10 L").status == cli.OUR_FAULT


def test_what_cannot_be_brewed_is_told_to_its_author(book: Path, run: Callable[..., Ran]) -> None:
    text = (book / "bitter.md").read_text("utf-8")
    (book / "bitter.md").write_text(text.replace("3.6 kg", "36 kg"), "utf-8")
    ran = run("check", "book")
    assert ran.status == cli.PROBLEMS
    assert "bitter.md" in ran.err


def test_python_tells_more_of_a_fault_where_that_is_asked_for(
    book: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(plan, "work_out", broken)
    monkeypatch.setenv(cli.TRACEBACK, "1")
    assert cli.main(["check", "book"]) == cli.OUR_FAULT
    assert "Traceback" in capsys.readouterr().err


def test_whoever_interrupts_a_run_reads_one_line(
    book: Path, run: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(chain, "work_out", interrupted)
    monkeypatch.setattr(plan, "work_out", interrupted)
    ran = run("check", "book")
    assert (ran.status, ran.err) == (130, "gristbook: stopped\n")


def test_a_real_interrupt_shows_no_traceback(book: Path) -> None:
    (book / "book.yaml").unlink()
    os.mkfifo(book / "book.yaml")  # whoever reads it waits
    command = [sys.executable, "-m", "gristbook", "check", str(book)]
    # Where the tests run in the background, an interrupt is ignored, and whoever they start inherits that.
    listening = partial(signal.signal, signal.SIGINT, signal.SIG_DFL)
    with subprocess.Popen(command, stderr=subprocess.PIPE, text=True, preexec_fn=listening) as child:
        writer = os.open(book / "book.yaml", os.O_WRONLY)  # returns once it reads
        time.sleep(0.2)
        child.send_signal(signal.SIGINT)
        try:
            _, said = child.communicate(timeout=60)
        finally:
            os.close(writer)
            child.kill()  # or a test that fails would never end
    assert (child.returncode, said) == (130, "gristbook: stopped\n")


def test_a_reader_who_leaves_early_is_no_fault() -> None:
    command = [sys.executable, "-m", "gristbook", "words"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as child:
        assert child.stdout
        assert child.stderr
        child.stdout.close()
        said = child.stderr.read()
    assert (child.returncode, said) == (141, "")


def functions(file: Path) -> list[ast.FunctionDef]:
    tree = ast.parse(file.read_text("utf-8"))
    return [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]


def names(node: ast.expr | None) -> set[str]:
    return {it.id for it in ast.walk(node) if isinstance(it, ast.Name)} if node else {"everything"}


@pytest.mark.parametrize("room", ["targets", "equations"])
def test_what_is_refused_is_a_refusal_and_nothing_else_is_caught_for_one(room: str) -> None:
    for file in sorted((HOUSE / room).rglob("*.py")):
        for function in functions(file):
            for node in ast.walk(function):
                if isinstance(node, ast.ExceptHandler) and function.name != "_later":  # past the end of the calendar
                    assert not names(node.type) & {"ValueError", "Exception", "everything"}, f"{file}:{node.lineno}"
                if isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call):
                    if (file.name, function.name) in OUT_OF_STEP or file.name == "shopping.py":
                        continue
                    assert names(node.exc.func) <= {"Refusal", "TypeError"}, f"{file}:{node.lineno} in {function.name}"
