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
from gristbook.targets.figures import Plan
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

RECIPES = Path(__file__).parents[2] / "recipes"


@dataclass(frozen=True)
class Demo:
    book: Book
    plans: tuple[Plan, ...]
    files: Mapping[str, bytes]
    pages: Mapping[str, BeautifulSoup]
    problems: tuple[str, ...]

    def plan(self, slug: str) -> Plan:
        return next(plan for plan in self.plans if plan.recipe.slug == slug)


def read() -> tuple[Book, tuple[Plan, ...]]:
    problems = Problems()
    book = read_book(RECIPES, problems)
    assert book is not None
    plans = plan_book(book, problems)
    assert not problems.errors(), [str(problem) for problem in problems]
    return book, plans


@pytest.fixture(scope="session")
def cache() -> MemoryCache:
    return MemoryCache()


@pytest.fixture(scope="session")
def demo(cache: MemoryCache) -> Demo:
    book, plans = read()
    problems = Problems()
    files = make_site(book, plans, problems, cache)
    pages = {path: BeautifulSoup(data, "html.parser") for path, data in files.items() if path.endswith(".html")}
    return Demo(book, plans, files, pages, tuple(str(problem) for problem in problems))
