"""What several commands share: finding a recipe's book, and the plan of a recipe in the size that was asked for."""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from pathlib import Path

from gristbook.model.book import Book
from gristbook.problems import Place, Problems
from gristbook.targets.figures import Plan

HERE = "the command line"


@dataclass(frozen=True, slots=True)
class Found:
    """A recipe's plan in the edition asked for, its book, and what there is to know of the edition."""

    plan: Plan
    book: Book
    notes: tuple[str, ...]


def describe_edition(parser: argparse.ArgumentParser) -> None:
    """The options that ask for another size, brewhouse or source of extract."""
    parser.add_argument("--batch", metavar="SIZE", help='another batch, as "12 L" or "5 gal"')
    parser.add_argument("--brewhouse", metavar="NAME", help="another of the book's brewhouses")
    parser.add_argument(
        "--from", dest="source", choices=("extract", "grain"), help="brew it from malt extract, or grain"
    )


def find(path: Path, options: argparse.Namespace, problems: Problems) -> tuple[Found | None, Path]:
    """The plan that the options ask for, or `None` with the problem filed; and the book's folder."""
    from gristbook.targets.plan import plan_recipe
    from gristbook.text.book import read_book

    folder = book_of(path)
    if folder is None:
        problems.error(Place(path.name), "no book.yaml here or in any folder above", expected="a recipe of a book")
        return None, path.parent
    book = read_book(folder, problems)
    recipe = next((r for r in book.recipes if r.place.path == path.name), None) if book else None
    if book is None or recipe is None:
        if not problems.errors(path.name):
            problems.error(Place(path.name), "this is no recipe of the book that can be brewed")
        return None, folder
    plan = plan_recipe(recipe, book, problems)
    if plan is None:
        return None, folder
    return _edition(plan, book, options, problems), folder


def book_of(path: Path) -> Path | None:
    """The nearest folder above a recipe that holds a `book.yaml`."""
    return next((folder for folder in path.resolve().parents if (folder / "book.yaml").is_file()), None)


def _edition(plan: Plan, book: Book, options: argparse.Namespace, problems: Problems) -> Found | None:
    from gristbook.reading.tree import Text
    from gristbook.targets.editions.make import MadeEdition, make
    from gristbook.text.editions import read_editions

    words = [options.source or "", options.batch or "", f"in {options.brewhouse}" if options.brewhouse else ""]
    asked = " ".join(word for word in words if word)
    if not asked:
        return Found(plan, book, ())
    place = Place(HERE)
    editions, _ = read_editions((Text(asked, place, exact=False),), book.brewhouses, problems)
    if not editions:
        return None
    made = make(plan, editions[0], book)
    if isinstance(made, MadeEdition):
        return Found(made.plan, book, made.notes)
    problems.error(place, f"{asked}: {made.why}")
    return None
