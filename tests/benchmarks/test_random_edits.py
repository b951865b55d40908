"""After any edit a build on what is kept writes what one from nothing writes; the long run is a command of its own."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from .random_edits import Differs, Edits, differences

SOME = (
    *("a word of prose", "a weight", "a title", "a price", "a brewhouse", "a brew set aside"),
    *("a recipe renamed", "a template", "a term", "its editions", "a picture", "something that was kept lost"),
)
"""One of each sort; after every second a build is killed first."""


def test_what_differs_is_named_with_its_first_lines(tmp_path: Path) -> None:
    for name, text in {
        "site/a": "1\n",
        "clean/a": "2\n",
        "site/b": "",
        "clean/c": "",
        "site/d": "",
        "clean/d": "",
    }.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, "utf-8")
    first, *others = differences(tmp_path / "site", tmp_path / "clean")
    assert first.splitlines()[-2:] == ["-1", "+2"]
    assert others == ["b: too much", "c: missing"]


@pytest.fixture
def edits(tmp_path: Path) -> Iterator[Edits]:
    with closing(Edits(tmp_path, seed=1, recipes=4, kill_every=2)) as it:
        yield it


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="builds in copies of a process that has loaded everything")
def test_after_each_edit_a_build_is_that_from_nothing(edits: Edits) -> None:
    for number, kind in enumerate(SOME, 1):
        edits.one(number, [kind])
    assert {kind: edits.counted[kind] for kind in SOME} == dict.fromkeys(SOME, 1)
    assert edits.counted["killed"] > 0
    page = next(edits.desk.site.glob("*.html"))
    page.write_text(page.read_text("utf-8") + " ", "utf-8")
    with pytest.raises(Differs, match="seed 1, edit 50, a save that changes nothing"):
        edits.one(50, ["a save that changes nothing"])
