"""What several rooms' tests need: our pantry, a set of vessels, and the way from a recipe's text to its plan."""

import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pytest
import the_demo
from hypothesis import settings
from jinja2 import Environment

from gristbook.charts.caches import FolderCache
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Problem, Problems
from gristbook.targets.figures import Plan
from gristbook.targets.plan import plan_recipe
from gristbook.text.book import read_book
from gristbook.text.recipe import read_recipe
from gristbook.text.values import Desk

settings.register_profile("searching", deadline=None)
settings.register_profile("the same each time", deadline=None, derandomize=True)
settings.load_profile("the same each time" if os.environ.get("CI") else "searching")
"""A busy machine is no fault, so no example is timed. Whoever works here searches anew each time; a change that is to
go in is held to the same examples as the last."""


def pytest_configure(config: pytest.Config) -> None:
    """Who leaves out what is slow has each promise on made-up books tried a third as often."""
    if "not slow" in config.option.markexpr:
        os.environ.setdefault("GRISTBOOK_EXAMPLES", "50")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a recipe's text, and every problem on the way."""

    recipe: Recipe | None
    plan: Plan | None
    problems: tuple[Problem, ...]


@pytest.fixture(scope="session")
def of_this_run(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """A folder of this run, the same one for all its processes."""
    own = tmp_path_factory.getbasetemp()
    return own if worker_id == "master" else own.parent


@pytest.fixture(scope="session", autouse=True)
def _cache(of_this_run: Path) -> None:
    """No test reads or writes what whoever runs it keeps; a command in a process of its own goes by this, too."""
    os.environ["GRISTBOOK_CACHE"] = str(of_this_run / "kept")


@pytest.fixture(scope="session", autouse=True)
def _templates_are_compiled_once() -> Iterator[None]:
    """Hundreds of tests build a site with our templates, and one text of one file is one code."""
    compiled: dict[tuple[object, ...], Any] = {}
    compile_anew = Environment.compile

    def once(self: Environment, *words: Any, **more: Any) -> Any:
        key = (*words, *sorted(more.items()))
        if key not in compiled:
            compiled[key] = compile_anew(self, *words, **more)
        return compiled[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Environment, "compile", once)
        yield


@pytest.fixture(scope="session")
def cache(of_this_run: Path) -> FolderCache:
    """Charts, drawn once a run; the command line finds the same ones."""
    return FolderCache(of_this_run / "kept" / "charts")


@pytest.fixture(scope="session")
def demo_site(of_this_run: Path, cache: FolderCache) -> the_demo.Site:
    """The demo book's site, made once a run."""
    return the_demo.site(of_this_run, cache)


@pytest.fixture(scope="session")
def pantry() -> Pantry:
    problems = Problems()
    loaded = Pantry.load(None, problems)
    assert not len(problems)
    return loaded


@pytest.fixture(scope="session")
def plan_of(pantry: Pantry, tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Outcome]:
    """`plan_of(text)`: a recipe file's text read and worked out, in `brewhouses` or else in the one of a bare book."""
    folder = tmp_path_factory.mktemp("bare-book")
    (folder / "book.yaml").write_text("title: A book\n", "utf-8")
    bare = read_book(folder, Problems())
    assert bare is not None

    def work_out(text: str, brewhouses: Mapping[str, Brewhouse] | None = None) -> Outcome:
        problems, sets = Problems(), brewhouses or bare.brewhouses
        usual = next(iter(sets))
        recipe = read_recipe(text, "recipe.md", sets, usual, Desk(pantry, problems))
        if recipe is None:
            return Outcome(None, None, tuple(problems))
        book = replace(bare, brewhouse=usual, brewhouses=sets, recipes=(recipe,))
        return Outcome(recipe, plan_recipe(recipe, book, problems), tuple(problems))

    return work_out
