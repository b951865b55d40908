"""A small book on disk, and the command line run as a user runs it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from reed_bank import MILD

from gristbook import cli
from gristbook.preview import watching

BOOK = """\
title: A book of two beers
brewhouse: hall
brewhouses:
  hall:
    batch: 20 L
    efficiency: 72 % ± 4
    boil-off: 3 L/h
    left in kettle: 1 L
    left in fermenter: 1 L
    tun: 30 L
    kettle: 40 L
    mash: sparge
  hob:
    batch: 10 L
    boil-off: 2 L/h
    left in kettle: 0.5 L
    left in fermenter: 0.5 L
    kettle: 15 L
    mash: none
"""

BITTER = """\
---
title: Reed Bank Bitter
batch: 20 L
malts:
  - 3.6 kg pale ale malt
  - 220 g caramel malt 60
hops:
  - 40 g Fuggle, 4.5 % alpha, 60 min
  - 25 g East Kent Golding, 5.2 % alpha, stand 20 min at 80 °C
yeast: 11 g english ale yeast, attenuative, dried
mash: 67 °C, 60 min
finings and spices:
  - 2 sticks cinnamon, 5 min
  - lemon peel, into the fermenter
ferment: 19 °C, 10 days
carbonation: 2.0 volumes, primed with table sugar
---
"""


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The book's folder, in the current one."""
    folder = tmp_path / "book"
    folder.mkdir()
    (folder / "book.yaml").write_text(BOOK, encoding="utf-8")
    (folder / "bitter.md").write_text(BITTER, encoding="utf-8")
    (folder / "mild.md").write_text(MILD, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return folder


@pytest.fixture(autouse=True)
def _nobody_watches_for_long(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever previews a book presses Ctrl-C after the first look."""

    def once(_: Path) -> Iterator[bool]:
        yield True
        raise KeyboardInterrupt

    monkeypatch.setattr(watching, "saves", once)


@dataclass(frozen=True, slots=True)
class Ran:
    """What a call printed, and the exit status that it ended with."""

    status: int
    out: str
    err: str


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Callable[..., Ran]:
    """`run("figures", "book/bitter.md")`: a call of the command line, which never shows a traceback."""

    def call(*words: str) -> Ran:
        try:
            status = cli.main(words)
        except SystemExit as left:  # argparse's own
            status = int(left.code or 0)
        said = capsys.readouterr()
        assert "Traceback" not in said.err
        return Ran(status, said.out, said.err)

    return call
