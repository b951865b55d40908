"""A bar while something long is made: on a terminal, after a second, and gone when it is done."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

MAKES = """
import sys
from gristbook.cli import progress
progress.PATIENCE_S = float(sys.argv[1])
with progress.progress() as told:
    for n in range(3):
        told(f"beer {n}", n, 3)
print("tqdm" in sys.modules)
"""

pty = pytest.importorskip("pty", reason="a terminal of one's own")
termios = pytest.importorskip("termios", reason="a terminal of one's own")


def watched(patience_s: float) -> tuple[str, bool]:
    """What a terminal shows, and whether the library was loaded."""
    ours, theirs = pty.openpty()
    termios.tcsetwinsize(theirs, (24, 80))
    call = [sys.executable, "-c", MAKES, str(patience_s)]
    told = subprocess.run(call, stdout=subprocess.PIPE, stderr=theirs, check=True, text=True).stdout
    os.set_blocking(ours, False)
    try:
        shown = os.read(ours, 10_000).decode()
    except BlockingIOError:  # nothing was
        shown = ""
    os.close(ours)
    os.close(theirs)
    return shown, told == "True\n"


def test_a_terminal_shows_what_is_being_made_and_nothing_stays() -> None:
    shown, loaded = watched(-1.0)
    assert loaded
    assert "0 of 3" in shown
    assert "beer 0" in shown
    assert shown.endswith("\r")
    assert shown.split("\r")[-2].strip() == ""


def test_what_takes_no_second_shows_nothing() -> None:
    assert watched(60.0) == ("", False)


def test_where_nobody_watches_nothing_is_shown_or_loaded() -> None:
    ran = subprocess.run([sys.executable, "-c", MAKES, "-1"], capture_output=True, check=True, text=True)
    assert (ran.stdout, ran.stderr) == ("False\n", "")
