"""A book as it stands at one moment, and from it the next: only what a save can have changed is read and worked out.

A recipe is read and planned anew where its own text has changed, and all are where something has that plans rest on: a
recipe's name, book.yaml, the pantry, a brew, or what the brews have taught. All else is read anew where any file but a
recipe has changed. Pages are made once they are asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path, PurePath
from typing import TypeAlias

from gristbook.charts.caches import FrameCache
from gristbook.model.recipe import Recipe
from gristbook.problems import Problem, Problems
from gristbook.reading.files import read_text
from gristbook.site.asked import Asked
from gristbook.site.disk.sources import digests
from gristbook.site.press import Press
from gristbook.targets.batches.brewed import Brewed, brewed
from gristbook.targets.batches.learn import taught_book
from gristbook.targets.figures import Plan
from gristbook.targets.plan import plan_recipe
from gristbook.text.book import Shell, read_shell
from gristbook.text.contents import recipes_in

READ, SHOWN = (".md", ".csv", ".tsv", ".txt", ".yaml", ".yml"), ("pages/", "theme/")
"""Endings of what a plan may rest on, and folders that are only shown."""

Sources: TypeAlias = Mapping[str, bytes]
"""What each file of a book holds, as a digest, by its path there."""


def sources(folder: Path) -> Sources:
    """Those of a folder; an editor's own hidden files are left out."""
    found = ((PurePath(path), held) for path, held in digests(folder))
    return {path.as_posix(): held for path, held in found if not any(it.startswith(".") for it in path.parts)}


class NoBook(Exception):
    """There is no book in a folder, or none that can be read; ``problems`` say why."""

    def __init__(self, problems: Problems) -> None:
        super().__init__(*problems)
        self.problems = problems


@dataclass(frozen=True, slots=True)
class Draft:
    """A recipe's text with its problems, and the recipe and plan of the last text that could be brewed: ``good``."""

    text: str | None
    problems: Problems
    good: str | None
    recipe: Recipe | None
    plan: Plan | None


class Standing:
    """A book as it stands, and its ``site``, whose files are made once they are asked for.

    Parameters
    ----------
    sources : what its files hold, by `sources`
    before : the same book as it stood earlier

    Raises
    ------
    NoBook
        There is none that can be read.
    OSError
        The disk refuses.
    """

    def __init__(self, folder: Path, sources: Sources, cache: FrameCache, before: Standing | None = None) -> None:
        self.folder, self.sources, self.recipes = folder, sources, recipes_in(folder)
        alike = before if before and before._rested_on() == self._rested_on() else None
        self.shell, self._wrong = self._shell(before, alike)
        was, self._of_brews, self._of_pages = before.drafts if before else {}, Problems(), Problems()
        kept = was if alike else {}
        read = {path: self._read(path, kept.get(path)) for path in self.shell.paths}
        recipes = (it.recipe or (kept[path].recipe if path in kept else None) for path, it in read.items())
        known = self.shell.holding(it for it in recipes if it)
        self.brewed: Brewed = brewed(known, self._of_brews, alike.brewed if alike else None)
        if alike and self.brewed.lessons is not alike.brewed.lessons:
            alike, read = None, {path: self._read(path, None) for path in self.shell.paths}
        self.drafts: dict[str, Draft] = {
            path: self._planned(path, it, was.get(path), bool(alike)) for path, it in read.items()
        }
        if before and before._dress() != self._dress():
            before.site.press.renderer.forget()
        self.site: Asked = self._printed(cache, before)

    def problems(self) -> list[Problem]:
        """All that is wrong in the book; of pages that stand as they were, only what is wrong in their texts today."""
        whole, held = Problems(), self.held
        for found in (self._wrong, self._of_brews, *(it.problems for it in self.drafts.values())):
            whole.take(found)
        for problem in self._of_pages:
            if problem.place.path not in held:
                whole.file(problem)
        return list(whole)

    @property
    def held(self) -> list[str]:
        """The recipes that stand as they were, since their last text has an error."""
        return [path for path, it in self.drafts.items() if it.plan and it.good != it.text]

    def _shell(self, before: Standing | None, alike: Standing | None) -> tuple[Shell, Problems]:
        """The book but for its recipes, and what is wrong in it; of one that is alike, the very same values."""
        if before and before._besides() == self._besides():
            return before.shell, before._wrong
        wrong = Problems()
        shell = read_shell(self.folder, wrong)
        if shell is None:
            raise NoBook(wrong)
        if alike:
            new = shell.book
            book = replace(alike.shell.book, pages=new.pages, learning=new.learning, texts=new.texts)
            shell = replace(alike.shell, book=book)
        return shell, wrong

    def _besides(self) -> tuple[list[str], Sources]:
        """The recipes by name, and all that is no recipe."""
        return self.recipes, {path: held for path, held in self.sources.items() if path not in self.recipes}

    def _rested_on(self) -> tuple[list[str], Sources]:
        """The same without what is only shown: pages, the theme, pictures."""
        names, besides = self._besides()
        return names, {
            it: held for it, held in besides.items() if it.casefold().endswith(READ) and not it.startswith(SHOWN)
        }

    def _dress(self) -> Sources:
        return {path: held for path, held in self.sources.items() if path.startswith("theme/")}

    def _read(self, path: str, was: Draft | None) -> Draft:
        """A recipe's text as it is, without a plan; what it was, where that is the same."""
        problems = Problems()
        text = read_text(self.folder, path, problems)
        if was and text is not None and was.text == text:
            return was
        recipe = self.shell.recipe(text, path, problems) if text is not None else None
        return Draft(text, problems, text if recipe else None, recipe, None)

    def _planned(self, path: str, it: Draft, was: Draft | None, alike: bool) -> Draft:
        """A recipe with its plan, or with that of its last good text; ``alike`` if nothing else has changed."""
        if it is was:
            return it
        plan = self._plan(it.recipe, it.problems)
        if plan or was is None or was.good is None:
            return replace(it, plan=plan)
        if alike:
            return replace(was, text=it.text, problems=it.problems)
        recipe = self.shell.recipe(was.good, path, Problems())
        return Draft(it.text, it.problems, was.good, recipe, self._plan(recipe, Problems()))

    def _plan(self, recipe: Recipe | None, problems: Problems) -> Plan | None:
        book = taught_book(self.shell.holding([recipe] if recipe else []), self.brewed.lessons)
        return plan_recipe(book.recipes[0], book, problems) if book.recipes else None

    def _printed(self, cache: FrameCache, before: Standing | None) -> Asked:
        drafts, done = self.drafts.values(), self.brewed
        press = Press(
            taught_book(self.shell.holding(it.recipe for it in drafts if it.recipe), done.lessons),
            [it.plan for it in drafts if it.plan],
            self._of_pages,
            cache,
            folder=self.folder,
            theme=self.folder / "theme",
            batches=done.batches,
            lessons=done.lessons,
            before=before.site.press if before else None,
        )
        return Asked(press)
