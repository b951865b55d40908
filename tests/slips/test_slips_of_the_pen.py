"""Books as an attentive person slips: what is dangerous in them is named, and of what is sound nothing is said.

Sixty dangerous books and twenty sound ones, written from the manual alone by two people who teach brewing and had no
hand in the tool; each says in `WHY.txt` what is wrong with it, or why nothing is. `named.txt` has what names it.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from gristbook import cli

HERE = Path(__file__).parent
SOUND = sorted(path for path in HERE.glob("*/sound-*"))
DANGEROUS = sorted(path for path in HERE.glob("*/dangerous-*"))
NAMED = dict(line.split(": ", 1) for line in (HERE / "named.txt").read_text("utf-8").splitlines())
"""What is said of each; three are not there: of fruit nothing is reckoned yet, pounds for kilograms may be meant,
and an extract's wheat is told on its page alone."""


def said(book: Path, capsys: pytest.CaptureFixture[str]) -> str:
    cli.main(["check", str(book)])
    return "\n".join(line for line in capsys.readouterr().err.splitlines() if "has no address" not in line)


def test_of_sixty_dangers_all_but_three_are_named() -> None:
    assert len(DANGEROUS) == 60
    assert len(SOUND) == 20
    assert len(NAMED) >= 57


@pytest.mark.parametrize("name", NAMED)
def test_what_is_dangerous_is_named(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    (book,) = (path for path in DANGEROUS if f"{path.parent.name}/{path.name}" == name)
    assert re.search(NAMED[name], said(book, capsys)), (book / "WHY.txt").read_text("utf-8")


@pytest.mark.parametrize("book", SOUND, ids=lambda book: book.name)
def test_of_what_is_sound_nothing_is_said(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert not re.search("(error|warning):", said(book, capsys))
