"""The demo book, built once in memory for all tests of the site."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

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


@dataclass(frozen=True)
class Demo:
    book: Book
    plans: tuple[Plan, ...]
    done: Brewed
    files: Mapping[str, bytes]
    pages: Mapping[str, BeautifulSoup]
    problems: tuple[str, ...]

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
    done, plans = read(folder)
    problems = Problems()
    files = make_site(done.book, plans, problems, cache, folder=folder, batches=done.batches, lessons=done.lessons)
    pages = {path: BeautifulSoup(data, "html.parser") for path, data in files.items() if path.endswith(".html")}
    return Demo(done.book, plans, done, files, pages, tuple(str(problem) for problem in problems))


@pytest.fixture(scope="session")
def cache() -> MemoryCache:
    return MemoryCache()


@pytest.fixture(scope="session")
def demo(cache: MemoryCache) -> Demo:
    return built(RECIPES, cache)


@pytest.fixture(scope="session")
def brews(cache: MemoryCache) -> Demo:
    """The small book with brews."""
    return built(BREWED, cache)
