"""The demo book and a small one with brews, and their pages.

A page is parsed when it is asked for: by BeautifulSoup where a test looks at one, by lxml, forty times as fast,
where it looks at all of them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Generic, TypeVar

import pytest
import the_demo
from bs4 import BeautifulSoup
from lxml import html
from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.model.book import Book
from gristbook.problems import Problems
from gristbook.targets.batches.brewed import Brewed, brewed
from gristbook.targets.figures import Plan
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

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


def pages_of(files: Mapping[str, bytes]) -> Mapping[str, BeautifulSoup]:
    """The pages of a site for a look at some of them."""
    return Pages(files, lambda data: BeautifulSoup(data, "lxml"))


def trees_of(files: Mapping[str, bytes]) -> Mapping[str, html.HtmlElement]:
    """The pages of a site for a walk through all of them."""
    return Pages(files, html.document_fromstring)


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
        object.__setattr__(self, "pages", pages_of(self.files))
        object.__setattr__(self, "trees", trees_of(self.files))

    @property
    def book(self) -> Book:
        return self.done.book

    def plan(self, slug: str) -> Plan:
        return next(plan for plan in self.plans if plan.recipe.slug == slug)


def built(folder: Path, cache: FrameCache) -> Demo:
    """A book of one's own, and its site."""
    problems = Problems()
    book = read_book(folder, problems)
    assert book is not None
    done = brewed(book, problems)
    plans = plan_book(done.book, problems)
    amiss = [str(problem) for problem in problems.errors() if "/" not in problem.place.path]
    assert not amiss
    found = Problems()
    files = make_site(done.book, plans, found, cache, folder=folder, batches=done.batches, lessons=done.lessons)
    return Demo(done, plans, files, tuple(str(problem) for problem in found))


@pytest.fixture(scope="session")
def demo(demo_site: the_demo.Site) -> Demo:
    """The demo book and its site."""
    return Demo(the_demo.done(), tuple(the_demo.plans().values()), demo_site.files, demo_site.problems)


@pytest.fixture(scope="session")
def brews(cache: FrameCache) -> Demo:
    """The small book with brews."""
    return built(BREWED, cache)
