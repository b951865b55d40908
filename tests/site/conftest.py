"""The demo book, built once a run for all tests of the site, whichever process they run in.

A page is parsed when it is asked for: by BeautifulSoup where a test looks at one, by lxml, forty times as fast,
where it looks at all of them.
"""

from __future__ import annotations

import pickle
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Generic, TypeVar

import pytest
from bs4 import BeautifulSoup
from filelock import FileLock
from lxml import html

from gristbook.charts import MemoryCache
from gristbook.model.book import Book
from gristbook.problems import Problems
from gristbook.site.build import make_site
from gristbook.targets.batches.brewed import Brewed, brewed
from gristbook.targets.figures import Plan
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

RECIPES = Path(__file__).parents[2] / "recipes"
BREWED = Path(__file__).parent / "brewed"
"""A small book with four brews: one of everything, one in a hurry, one lost, and one whose recipe is gone."""


T = TypeVar("T")


class Pages(Mapping[str, T], Generic[T]):
    """The pages of a site, each parsed when it is first asked for."""

    def __init__(self, files: Mapping[str, bytes], parse: Callable[[bytes], T]) -> None:
        self._files = {path: data for path, data in files.items() if path.endswith(".html")}
        self._parse, self._parsed = parse, dict[str, T]()

    def __getitem__(self, path: str) -> T:
        if path not in self._parsed:
            self._parsed[path] = self._parse(self._files[path])
        return self._parsed[path]

    def __iter__(self) -> Iterator[str]:
        return iter(self._files)

    def __len__(self) -> int:
        return len(self._files)


@dataclass(frozen=True)
class Demo:
    """A built book. ``pages`` are for a look at one of them, ``trees`` for a walk through all."""

    done: Brewed
    plans: tuple[Plan, ...]
    files: Mapping[str, bytes]
    problems: tuple[str, ...]
    pages: Mapping[str, BeautifulSoup] = field(init=False)
    trees: Mapping[str, html.HtmlElement] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "pages", Pages(self.files, lambda data: BeautifulSoup(data, "html.parser")))
        object.__setattr__(self, "trees", Pages(self.files, html.document_fromstring))

    @property
    def book(self) -> Book:
        return self.done.book

    def plan(self, slug: str) -> Plan:
        return next(plan for plan in self.plans if plan.recipe.slug == slug)


def read(folder: Path) -> tuple[Brewed, tuple[Plan, ...]]:
    problems = Problems()
    book = read_book(folder, problems)
    assert book is not None
    done = brewed(book, problems)
    plans = plan_book(done.book, problems)
    amiss = [str(problem) for problem in problems.errors() if "/" not in problem.place.path]
    assert not amiss
    return done, plans


def built(folder: Path, cache: MemoryCache) -> Demo:
    return Demo(*read(folder), *made(folder, cache))


def made(folder: Path, cache: MemoryCache) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """The files of a book's site and the problems of making them."""
    done, plans = read(folder)
    problems = Problems()
    files = make_site(done.book, plans, problems, cache, folder=folder, batches=done.batches, lessons=done.lessons)
    return files, tuple(str(problem) for problem in problems)


@pytest.fixture(scope="session")
def cache() -> MemoryCache:
    return MemoryCache()


@pytest.fixture(scope="session")
def demo(cache: MemoryCache, tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Demo:
    """The demo book; of several processes, the first makes its files, and the others take what it made."""
    if worker_id == "master":
        return built(RECIPES, cache)
    shared = tmp_path_factory.getbasetemp().parent / "demo.pickle"
    with FileLock(f"{shared}.lock"):
        if not shared.exists():
            shared.write_bytes(pickle.dumps(made(RECIPES, cache)))
    return Demo(*read(RECIPES), *pickle.loads(shared.read_bytes()))


@pytest.fixture(scope="session")
def brews(cache: MemoryCache) -> Demo:
    """The small book with brews."""
    return built(BREWED, cache)
