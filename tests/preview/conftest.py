"""A small book with brews, on disk, and what a build would make of it as it stands."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from threading import Thread

import pytest
import reed_bank
from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.interface import Book
from gristbook.preview.server import Server
from gristbook.preview.shown import Preview
from gristbook.problems import Problems
from gristbook.targets.batches.brewed import brewed
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

BREWED = Path(__file__).parents[1] / "site" / "brewed"
AMISS = ("lost-porter/2025-11-02.md", "quay-bitter/2026-05-02.md", "quay-bitter/2026-07-01-heat.md")
"""Brews of it with which something is wrong."""

MILD = reed_bank.MILD + reed_bank.STORY


@pytest.fixture
def book(tmp_path: Path) -> Path:
    folder = shutil.copytree(BREWED, tmp_path / "book")
    for path in AMISS:
        (folder / path).unlink()
    kept = folder / "quay-bitter" / "2026-03-14.md"
    kept.write_text(kept.read_text("utf-8").replace("2026-05-02.md", "../quay-bitter.md"), "utf-8")
    (folder / "mild.md").write_text(MILD, "utf-8")
    return folder


@dataclass(frozen=True, slots=True)
class Built:
    """What a build and a check make of a book."""

    files: Mapping[str, bytes]
    problems: tuple[str, ...]


@pytest.fixture
def built(book: Path, cache: FrameCache) -> Callable[[], Built]:
    """`built()`: the book as it stands now, made from nothing."""

    def make() -> Built:
        problems = Problems()
        read = read_book(book, problems)
        assert read is not None
        done = brewed(read, problems)
        where = {"folder": book, "theme": book / "theme"}
        more = {"batches": done.batches, "lessons": done.lessons, **where}
        files = make_site(done.book, plan_book(done.book, problems), problems, cache, **more)
        checked = Book(book)
        checked.check()
        return Built(files, tuple(map(str, checked.problems)))

    return make


def fails(fault: Exception) -> None:
    raise AssertionError from fault


@pytest.fixture
def preview(book: Path) -> Preview:
    return Preview(book, fails)


@pytest.fixture
def server(preview: Preview) -> Iterator[Server]:
    with Server(preview, 0, fails) as it:
        Thread(target=it.serve_forever, daemon=True).start()
        yield it
        it.shutdown()
