"""What several commands share: finding a recipe's book, and the plan of a recipe in the size that was asked for."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from gristbook.cli.report import COMMAND_LINE, printed, report
from gristbook.model.book import Book
from gristbook.problems import Place, Problem, Problems
from gristbook.reading.files import inside
from gristbook.sheet.value import Value
from gristbook.targets.figures import Plan

if TYPE_CHECKING:
    from gristbook.targets.editions.make import MadeEdition


OF_ONE_BEER = (".md", ".csv", ".tsv", ".txt")
"""Recipes, batches and logs, whose errors are nobody else's; all other files are the whole book's."""


@dataclass(frozen=True, slots=True)
class Found:
    """A recipe's plan in the edition that was asked for, `None` where it is the recipe as written, and its book."""

    plan: Plan
    book: Book
    made: MadeEdition | None

    @property
    def us_first(self) -> bool:
        """Which units come first."""
        return self.made.edition.us if self.made else self.book.units == "US"

    def printed(self, value: Value) -> str:
        """A figure in a terminal, in both systems of units where they differ."""
        from gristbook.site.amounts import amount

        return printed(amount(value), us_first=self.us_first)

    @property
    def words(self) -> str:
        """What it is: the beer, its size, its brewhouse."""
        from gristbook.site.brews import brewed, edition_words
        from gristbook.site.prose import plain

        plan = self.plan
        size = brewed(plan.recipe.batch, plan.brewhouse.name, us=self.us_first)
        what = edition_words(self.made.edition, plan) if self.made else size
        return f"{plain(plan.recipe.title)}, {what}".replace("\N{NO-BREAK SPACE}", " ")


def describe_edition(parser: argparse.ArgumentParser) -> None:
    """The options that ask for another size, brewhouse or source of extract."""
    parser.add_argument("--batch", metavar="SIZE", help='another batch, as "12 L" or "5 gal"')
    parser.add_argument("--brewhouse", metavar="NAME", help="another of the book's brewhouses")
    parser.add_argument(
        "--from", dest="source", choices=("extract", "grain"), help="brew it from malt extract, or grain"
    )


def find(path: Path, options: argparse.Namespace) -> Found | None:
    """The plan that the options ask for, or `None` once the problems have been reported."""
    folder, problems = book_of(path), Problems()
    if folder is None:
        problems.error(Place(path.name), "no book.yaml here or in any folder above", expected="a recipe of a book")
        report(problems, path.parent)
        return None
    own = inside(folder, path.absolute()).resolve().relative_to(folder.resolve()).as_posix()
    found = _find(folder, own, options, problems)
    told = list(_concerning(own, problems))
    if found is None or told:
        report(told, folder)
        return None
    return found


def book_of(path: Path) -> Path | None:
    """The nearest folder above a recipe that holds a `book.yaml`, as the caller would type it where that can be."""
    folders = (*path.parents, *path.resolve().parents)
    return next((folder for folder in folders if (folder / "book.yaml").is_file()), None)


def _find(folder: Path, own: str, options: argparse.Namespace, problems: Problems) -> Found | None:
    from gristbook.targets.batches.brewed import brewed
    from gristbook.targets.plan import plan_recipe
    from gristbook.text.book import read_book

    read = read_book(folder, problems)
    book = brewed(read, problems).book if read else None
    recipe = next((recipe for recipe in book.recipes if recipe.place.path == own), None) if book else None
    plan = plan_recipe(recipe, book, problems) if book and recipe else None
    if book is None or plan is None:
        if book is not None and not problems.errors(own):
            there = (folder / own).is_file()
            problems.error(Place(own), "this is no recipe of the book" if there else "there is no such file")
        return None
    return _edition(plan, book, options, problems)


def _concerning(own: str, problems: Problems) -> Iterator[Problem]:
    """The errors that a recipe suffers from: its own, and those of what the whole book rests on."""
    yield from (it for it in problems.errors() if it.place.path == own or not it.place.path.endswith(OF_ONE_BEER))


def _asked(options: argparse.Namespace) -> str:
    """The edition that the options ask for, as a line of `editions` would; "" where that is the recipe as written."""
    if "edition" in options:
        return options.edition or ""
    words = [options.source or "", options.batch or "", f"in {options.brewhouse}" if options.brewhouse else ""]
    return " ".join(word for word in words if word)


def _edition(plan: Plan, book: Book, options: argparse.Namespace, problems: Problems) -> Found | None:
    from gristbook.reading.tree import Text
    from gristbook.targets.editions.make import MadeEdition, make
    from gristbook.text.editions import read_editions

    asked = _asked(options)
    if not asked:
        return Found(plan, book, None)
    place = Place(COMMAND_LINE)
    editions, dropped = read_editions((Text(asked, place, exact=False),), book.brewhouses, problems)
    if dropped:
        problems.error(place, f'"{asked}" asks for nothing', expected="a size, as 12 L or 5 gal")
    if not editions:
        return None
    made = make(plan, editions[0], book)
    if isinstance(made, MadeEdition):
        return Found(made.plan, book, made)
    problems.error(place, f"{asked}: {made.why}")
    return None
