"""A book read for a build: a recipe whose answers an earlier build has kept is neither read nor worked out again."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from gristbook.model.book import Book
from gristbook.model.recipe import Recipe
from gristbook.model.yeast import Yeast
from gristbook.problems import Problem, Problems
from gristbook.reading.files import read_text
from gristbook.site.beer.known import Known, Remembered, Worked
from gristbook.site.disk.sources import digest_of_ours
from gristbook.site.disk.spelled import digest
from gristbook.site.pages import of_recipe
from gristbook.site.past import Made, Past, Stamp, Was
from gristbook.site.press import Press
from gristbook.targets.batches.brewed import Brewed, brewed
from gristbook.targets.batches.learn import taught_book
from gristbook.targets.figures import Plan
from gristbook.targets.plan import plan_recipe
from gristbook.text.book import Shell, read_shell

READ, OF_ONE = (".md", ".csv", ".tsv", ".txt"), ("pages/", "theme/", "pantry/")
"""How texts end that only some pages go by, and folders whose texts are no recipe's and no batch's."""


@dataclass(frozen=True, slots=True)
class Again:
    """A book read, with the recipes that can be brewed, worked out or remembered.

    ``reading`` is what every recipe is read by, ``footing`` what its plan rests on besides, ``ground`` what all pages
    rest on; ``texts`` are what the other files hold. ``of_recipes`` has the problems of each recipe and what it is
    pitched with, by its path.
    """

    book: Book
    brewed: Brewed
    plans: tuple[Worked | Remembered, ...]
    reading: str
    footing: str
    ground: str
    texts: Mapping[str, bytes]
    of_recipes: Mapping[str, tuple[tuple[Problem, ...], tuple[Yeast, ...]]]


class _Reader:
    """Reads the recipes of a book and works them out, each once."""

    def __init__(self, folder: Path, shell: Shell) -> None:
        self._folder, self._shell = folder, shell
        self.recipes: dict[str, Recipe] = {}
        self.problems: dict[str, Problems] = {}

    def read(self, paths: Iterable[str]) -> None:
        """Read those that were not."""
        for path in paths:
            if path not in self.problems:
                own = self.problems[path] = Problems()
                source = read_text(self._folder, path, own)
                recipe = self._shell.recipe(source, path, own) if source is not None else None
                if recipe is not None:
                    self.recipes[path] = recipe

    def book(self) -> Book:
        """The book with the recipes that were read."""
        return self._shell.holding(self.recipes[path] for path in self._shell.paths if path in self.recipes)

    def plan(self, path: str, done: Brewed) -> Plan:
        """A recipe that could be worked out before."""
        self.read([path])
        book = taught_book(self._shell.holding([self.recipes[path]]), done.lessons)
        plan = plan_recipe(book.recipes[0], book, Problems())
        assert plan is not None, "it rests on what it did"
        return plan


def again(
    folder: Path, sources: Mapping[str, bytes], past: Past, problems: Problems, begin: Callable[[Book, list[str]], None]
) -> Again | None:
    """Read a book; `None` where there is none.

    Parameters
    ----------
    sources : what its files hold, by `gristbook.site.disk.sources.digests`
    past : what an earlier build came to
    problems : told of all that is wrong in texts, batches and plans
    begin : told what of the book is read by then, and the paths of the recipes that have to be worked out
    """
    shell = read_shell(folder, problems)
    if shell is None:
        return None
    shared = {it: held for it, held in sources.items() if it == "book.yaml" or it.startswith("pantry/")}
    reading, reader = digest(digest_of_ours(), shared), _Reader(folder, shell)
    kept = {path: past.beers[path] for path in shell.paths if path in past.beers}
    kept = {path: was for path, was in kept.items() if was.text == sources.get(path)}
    if past.reading != reading or shell.book.broken:
        kept = {}
    begin(shell.book, [path for path in shell.paths if path not in kept])
    reader.read(path for path in shell.paths if path not in kept)
    done = brewed(reader.book(), problems, yeasts=_yeasts(shell, kept, reader))
    footing = digest(reading, done.lessons.learned)
    if kept and footing != past.footing:
        kept = {}
        reader.read(shell.paths)
        done = replace(done, book=taught_book(reader.book(), done.lessons))
    by_path = {recipe.place.path: recipe for recipe in done.book.recipes}
    plans = list[Worked | Remembered]()
    for path in shell.paths:
        if path in kept:
            was = kept[path]
            plans.append(Remembered(was.slug, partial(reader.plan, path, done), was.answers, was.written))
            problems.take(was.told)
        elif path in by_path and (plan := plan_recipe(by_path[path], done.book, reader.problems[path])):
            plans.append(Worked(plan, partial(reader.plan, path, done)))
        if path not in kept:
            problems.take(reader.problems[path])
    texts = {it: held for it, held in sources.items() if _is_of_some(it, shell)}
    own = {path: (tuple(reader.problems[path].all()), recipe.yeasts) for path, recipe in reader.recipes.items()}
    own |= {path: (was.told, was.yeasts) for path, was in kept.items()}
    ground = digest(reading, {it: held for it, held in sources.items() if it not in texts})
    return Again(done.book, done, tuple(plans), reading, footing, ground, texts, own)


def _yeasts(shell: Shell, kept: Mapping[str, Was], reader: _Reader) -> Iterator[Yeast]:
    """What all recipes that can be read are pitched with, in their order."""
    for path in shell.paths:
        if path in kept or path in reader.recipes:
            yield from (kept[path] if path in kept else reader.recipes[path]).yeasts


def _is_of_some(path: str, shell: Shell) -> bool:
    """Whether a file is a recipe's text, a batch's, or one of the author's other pages."""
    return path in shell.paths or path.startswith("pages/") or (path.endswith(READ) and not path.startswith(OF_ONE))


def kept_of(it: Again, press: Press, pieces: Mapping[str, Made], ground: str, stamps: Mapping[str, Stamp]) -> Past:
    """What a build came to, for the next one."""
    beers = {beer.place.path: _was(beer, it, press) for beer in press.beers}
    return Past(it.reading, it.footing, ground, beers, pieces, stamps)


def _was(beer: Known, it: Again, press: Press) -> Was:
    path, written = beer.place.path, press.printing.written.desk.kept[of_recipe(beer.slug).page]
    return Was(beer.slug, it.texts[path], *it.of_recipes[path], written.bare(), beer.answers)
