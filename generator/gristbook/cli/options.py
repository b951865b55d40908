"""What several commands share: finding a recipe's book, and the plan of a recipe in the size that was asked for."""

import argparse
from dataclasses import replace
from pathlib import Path

from gristbook.cli import Told
from gristbook.cli.report import COMMAND_LINE, report
from gristbook.interface import ASKED, Book, NoPlan, Plan
from gristbook.problems import Place, Problems
from gristbook.reading.files import inside


def describe_brew(parser: argparse.ArgumentParser) -> None:
    """A recipe, and the edition of it that is brewed."""
    parser.add_argument("recipe", type=Path, metavar="RECIPE", help="the recipe's file, in its book")
    parser.add_argument("--edition", metavar="EDITION", help='an edition, as book.yaml writes it: "10 L in stove"')


def describe_size(parser: argparse.ArgumentParser) -> None:
    """The options that ask for another size, brewhouse or source of extract."""
    parser.add_argument("--batch", metavar="SIZE", help='another batch, as "12 L" or "5 gal"')
    parser.add_argument("--brewhouse", metavar="NAME", help="another of the book's brewhouses")
    parser.add_argument(
        "--from", dest="source", choices=("extract", "grain"), help="brew it from malt extract, or grain"
    )


def find(path: Path, options: argparse.Namespace) -> Plan:
    """The plan that the options ask for; `Told` where there is none."""
    folder = book_of(path)
    own = path_in(folder, path)
    asked = ("batch", "brewhouse", "source", "edition")
    try:
        return Book(folder).plan(own, **{name: getattr(options, name, None) or "" for name in asked})
    except NoPlan as refusal:
        said = (it if it.place.path != ASKED else replace(it, place=Place(COMMAND_LINE)) for it in refusal.problems)
        report(said, folder)
        raise Told from refusal


def path_in(folder: Path, recipe: Path) -> str:
    """A recipe's path in its book, links followed."""
    return inside(folder, recipe.absolute()).resolve().relative_to(folder.resolve()).as_posix()


def book_of(path: Path) -> Path:
    """The nearest folder above a recipe that holds a `book.yaml`, as the caller would type it; or else `Told`."""
    for folder in (*path.parents, *path.resolve().parents):
        if (folder / "book.yaml").is_file():
            return folder
    problems = Problems()
    problems.error(Place(path.name), "no book.yaml here or in any folder above", expected="a recipe of a book")
    report(problems, path.parent)
    raise Told
